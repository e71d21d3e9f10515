"""The drawing that goes with a question, by its name."""

from __future__ import annotations

from wizard.sheets.drawings.bed_plan import bed_plan
from wizard.sheets.drawings.cloth import cloth
from wizard.sheets.drawings.corner import LEAVES, corner
from wizard.sheets.drawings.elevation import elevation
from wizard.sheets.drawings.roll import rolls
from wizard.sheets.drawings.top_edge import top_edge
from wizard.sheets.scene import Scene
from wizard.trade.job import LAYERS
from wizard.trade.plan import Plan


def scene_for(plan: Plan, drawing: str, section: str | None = None, picked: str | None = None) -> Scene | None:
    """The scene of a question that shows `drawing` (plan, elevation, top, cloth, roll), or None when there is none.

    `section` is what it is about: a section's id, for a post's lengths the post's, for cloth and roll the layer's.
    `picked` is the leaf of the length asked for. Works on a job with nothing filled in.
    """
    if drawing == "plan":
        at_a_post = section is not None and picked in LEAVES
        return corner(plan.job, section or "", picked) if at_a_post else bed_plan(plan.job, section)
    if drawing == "elevation" and section is not None:
        return elevation(plan.job, section, picked)
    if drawing == "top":
        return top_edge(plan.job, section, picked)
    if drawing == "cloth":
        return cloth(plan.job, section if section in LAYERS else LAYERS[0], picked)
    return _roll(plan, section) if drawing == "roll" else None


def _roll(plan: Plan, layer_id: str | None) -> Scene | None:
    """The first length that is cut of the named layer, else of the face; None until it is laid out."""
    wanted = layer_id if layer_id in LAYERS else LAYERS[0]
    layer = next((each for each in plan.layers if each.id == wanted), None)
    if layer is None or layer.cutting is None:
        return None
    names = {part.id: part.name for part in plan.parts}
    return next(iter(rolls(layer, layer.cutting.best, names, lying=True)), None)
