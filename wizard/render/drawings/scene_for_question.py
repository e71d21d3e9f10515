"""The drawing that goes with a question."""

from __future__ import annotations

from typing import cast

from wizard.render.drawings import corner as corners
from wizard.render.drawings.bed_plan import AtEnd, bed_plan
from wizard.render.drawings.cloth_sketches import JOINED_LEAVES, cloth_flat, gathering, joined_pieces, owned_cloth
from wizard.render.drawings.elevation import elevation
from wizard.render.drawings.rail_sketches import RAIL_END_LEAVES, TAPE_RUN_LEAVES, rail_end, tape_run, top_edge
from wizard.render.drawings.roll_scaled import rolls
from wizard.render.drawings.scene import Scene
from wizard.trade.model import LAYERS, Job
from wizard.trade.plan import Plan
from wizard.trade.sections import End, sections_on

Names = tuple[str, ...]


def scene_for(plan: Plan, drawing: str, section: str | None, picked: str | None, key: str) -> Scene | None:
    """The scene of a question that shows `drawing` (plan, elevation, top, cloth, roll), or None when there is none.

    `section` is the section's id and `picked` the leaf of what is asked for. The question's own `key` says the rest:
    which post, which layer, which thing in the way; it is empty where no question is asked. Works on a job with
    nothing filled in.
    """
    names = tuple(key.split(".")) if key else ()
    leaf = _leaf(names, picked)
    section = section or (names[2] if names[:2] == ("survey", "section") and len(names) > 2 else None)
    if drawing == "plan":
        return _plan(plan.job, names, section, leaf)
    if drawing == "elevation":
        return _elevation(plan.job, names, section, leaf)
    if drawing == "top":
        return _top(plan.job, names, section, leaf)
    if drawing in ("cloth", "roll"):
        return _cloth(plan, names, section, leaf, drawing)
    return None


def _leaf(names: Names, picked: str | None) -> str | None:
    """What is picked out: the last word of the key, with the number of a reading; else what the question says."""
    if not names or names[0] == "progress":
        return picked
    if names[-1].isdecimal() and len(names) > 1:
        return f"{names[-2]}.{names[-1]}"
    return names[-1]


def _plan(job: Job, names: Names, section: str | None, leaf: str | None) -> Scene:
    if names[:2] == ("survey", "post") and len(names) > 2:
        return corners.corner(job, names[2], leaf)
    if leaf in corners.LEAVES and section is not None:
        return corners.corner(job, section, leaf)
    end, _, what = (leaf or "").partition("_")
    asked = cast("End", end) if end in ("left", "right") and leaf != section else None
    at_end: AtEnd = "return" if what == "return" else "short" if what == "short" else "post"
    return bed_plan(job, section, asked, at_end)


def _elevation(job: Job, names: Names, section: str | None, leaf: str | None) -> Scene:
    if leaf == "floor_gap":
        return rail_end(job, leaf, f"survey.section.{section}.floor_gap", "survey.floor_gap")
    if section is None:
        # The whole bed is asked about: its first section stands for all.
        section = next((each for each, _ in sections_on(job)), "left")
    if "in_the_way" in names and len(names) > 4:
        return elevation(job, section, ".".join(names[3:]))
    return elevation(job, section, leaf)


def _top(job: Job, names: Names, section: str | None, leaf: str | None) -> Scene:
    first = (leaf or "").partition(".")[0]
    keys = _keys(names, section)
    if names[:2] == ("cloth", "fixing") and first == "kind":
        return rail_end(job, "fixing")
    if first in RAIL_END_LEAVES:
        return rail_end(job, first, *keys)
    if first == "end_setback":
        return joined_pieces(job, first, *keys)
    if first in TAPE_RUN_LEAVES:
        return tape_run(job, first, *keys)
    return top_edge(job, section, leaf)


def _keys(names: Names, section: str | None) -> Names:
    """The keys a length may stand at: its own, then the whole bed's."""
    own = ".".join(names)
    whole = f"survey.{names[-1]}" if section is not None and names else ""
    return tuple(each for each in (own, whole) if each)


def _cloth(plan: Plan, names: Names, section: str | None, leaf: str | None, drawing: str) -> Scene | None:
    layer = names[1] if names[:1] == ("cloth",) and len(names) > 1 else section
    layer = layer if layer in LAYERS else LAYERS[0]
    if leaf == "want":
        return gathering(plan.job)
    if "owned" in names or leaf == "squaring":
        return owned_cloth(plan.job, ".".join(names[:4]), leaf)
    if leaf in JOINED_LEAVES:
        return joined_pieces(plan.job, leaf, *_keys(names, None))
    laid = _roll(plan, layer) if drawing == "roll" else None
    return laid or (cloth_flat(plan.job, layer, leaf) if drawing == "cloth" or leaf == "lay" else None)


def _roll(plan: Plan, layer_id: str) -> Scene | None:
    """The first length that is cut of the layer; None until it is laid out."""
    layer = next((each for each in plan.layers if each.id == layer_id), None)
    if layer is None or layer.cutting is None:
        return None
    names = {part.id: part.name for part in plan.parts}
    return next(iter(rolls(layer, layer.cutting.best, names, lying=True)), None)
