"""What went with single questions, before pages had drawings."""

from __future__ import annotations

from wizard.render.drawings.scene import Scene
from wizard.trade.plan_records import Plan


def scene_for(plan: Plan, drawing: str, section: str | None, picked: str | None, key: str) -> Scene | None:
    """None: pages have drawings (`page_drawing`), single questions have not."""
    return None
