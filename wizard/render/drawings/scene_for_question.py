"""The drawing that goes with a question."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Final, cast

from wizard.render.cut_order import part_names
from wizard.render.drawings.bed_plan import AtEnd, bed_plan
from wizard.render.drawings.cloth_sketches import JOINED_LEAVES, cloth_flat, gathering, joined_pieces, owned_cloth
from wizard.render.drawings.corner import LEAVES, corner
from wizard.render.drawings.elevation import elevation
from wizard.render.drawings.rail_sketches import RAIL_END_LEAVES, TAPE_RUN_LEAVES, rail_end, tape_run, top_edge
from wizard.render.drawings.roll_on_screen import LabelStyle, rolls
from wizard.render.drawings.scene import Scene
from wizard.trade.job_fields import LAYERS
from wizard.trade.plan_records import Plan
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
    draw = DRAWINGS.get(drawing)
    return None if draw is None else draw(plan, names, section, leaf)


def _leaf(names: Names, picked: str | None) -> str | None:
    """What is picked out: the last word of the key, with the number of a reading; else what the question says."""
    if not names or names[0] == "progress":
        return picked
    return ".".join(names[-2:] if names[-1].isdecimal() else names[-1:])


def _plan(plan: Plan, names: Names, section: str | None, leaf: str | None) -> Scene:
    post = names[2] if names[:2] == ("survey", "post") and len(names) > 2 else section if leaf in LEAVES else None
    if post is not None:
        return corner(plan.job, post, leaf)
    end, _, what = (leaf or "").partition("_")
    asked = cast("End", end) if end in ("left", "right") and leaf != section else None
    at_end: AtEnd = "return" if what == "return" else "short" if what == "short" else "post"
    return bed_plan(plan.job, section, asked, at_end)


def _elevation(plan: Plan, names: Names, section: str | None, leaf: str | None) -> Scene:
    if leaf in ("floor_gap", "rug"):
        # A rug lies in the gap under the hem.
        whole_bed = ("survey.floor_gap",) if leaf == "floor_gap" else ()
        return rail_end(plan.job, "floor_gap", f"survey.section.{section}.{leaf}", *whole_bed)
    if section is None:
        # The whole bed is asked about: its first section stands for all.
        section = next((each for each, _ in sections_on(plan.job)), "left")
    in_the_way = "in_the_way" in names and len(names) > 4
    return elevation(plan.job, section, ".".join(names[3:]) if in_the_way else leaf)


AT_THE_TOP: Final = {
    **dict.fromkeys(TAPE_RUN_LEAVES, tape_run),
    "end_setback": joined_pieces,
    **dict.fromkeys(RAIL_END_LEAVES, rail_end),
}
"""Leaf of what is asked for at the top edge -> the sketch that shows it; the top edge itself shows the others."""


def _top(plan: Plan, names: Names, section: str | None, leaf: str | None) -> Scene:
    first = (leaf or "").partition(".")[0]
    if names[:2] == ("cloth", "fixing") and first == "kind":
        return rail_end(plan.job, "fixing")
    if first in AT_THE_TOP:
        return AT_THE_TOP[first](plan.job, first, *_keys(names, section))
    return top_edge(plan.job, section, leaf)


def _keys(names: Names, section: str | None) -> Names:
    """The keys that may hold a length: its own, then the whole bed's."""
    own = ".".join(names)
    whole = f"survey.{names[-1]}" if section is not None and names else ""
    return tuple(each for each in (own, whole) if each)


def _cloth(plan: Plan, names: Names, section: str | None, leaf: str | None, *, laid: bool = False) -> Scene | None:
    """`laid`: the cloth as it is laid out, once it is; until then only the choice of a lay has a drawing."""
    layer = names[1] if names[:1] == ("cloth",) and len(names) > 1 else section
    layer = layer if layer in LAYERS else LAYERS[0]
    if leaf == "want":
        return gathering(plan.job)
    if "owned" in names or leaf == "squaring":
        return owned_cloth(plan.job, ".".join(names[:4]), leaf)
    if leaf in JOINED_LEAVES:
        return joined_pieces(plan.job, leaf, *_keys(names, None))
    roll = _roll(plan, layer) if laid else None
    return cloth_flat(plan.job, layer, leaf) if roll is None and (not laid or leaf == "lay") else roll


def _roll(plan: Plan, layer_id: str) -> Scene | None:
    """The first length that is cut of the layer; None until it is laid out."""
    layer = next((each for each in plan.layers if each.id == layer_id), None)
    if layer is None or layer.cutting is None:
        return None
    return next(iter(rolls(layer, layer.cutting.best, LabelStyle(part_names(plan)), lying=True)), None)


DRAWINGS: Final[dict[str, Callable[[Plan, Names, str | None, str | None], Scene | None]]] = {
    "plan": _plan,
    "elevation": _elevation,
    "top": _top,
    "cloth": _cloth,
    "roll": partial(_cloth, laid=True),
}
"""The drawing that a question shows -> what draws it."""
