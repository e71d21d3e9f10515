"""The drawing that goes with one question."""

from __future__ import annotations

import re
from typing import Final

from wizard.render.drawings.page_drawing import PICTURES
from wizard.render.drawings.page_sketch import PageSketch
from wizard.render.drawings.scene import Scene
from wizard.trade.plan_records import Plan

_AT: Final = (
    (r"survey\.post\.([^.]+)\..*", "corner"),
    (r"survey\.section\.([^.]+)\.in_the_way\.([^.]+)\..*", "thing"),
    (r"survey\.section\.([^.]+)\.(run|drop).*", "side"),
    (r"survey\.(floor|raised).*", "floor"),
    (r"survey\.(rail|slatted).*", "rail"),
    (r"survey\.section.*", "bed"),
    (r"cloth\.([^.]+)\.owned.*", "owned"),
    (r"cloth\.([^.]+)\.(repeat|match).*", "pattern"),
    (r"cloth\.(face|interlining|lining)\.width", "cloth"),
    (r"allowances.*", "pieces"),
    (r"fullness.*", "fullness"),
)


def scene_for(plan: Plan, drawing: str, section: str | None, picked: str | None, key: str) -> Scene | None:
    """The scene of the question at `key`; None where nothing is drawn."""
    for pattern, picture in _AT if drawing != "none" else ():
        match = re.fullmatch(pattern, key)
        if match:
            subject = ".".join(match.groups()[: 2 if picture == "thing" else 1])
            return PICTURES[picture](PageSketch(plan, (key,), key, 78, 12), subject)
    return None
