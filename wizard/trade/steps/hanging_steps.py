"""At the bed: clear it, hang each part from the inside, dress the folds, put everything back."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from wizard.trade.field_names import obstacle_name
from wizard.trade.fixings import can_fix_return, takes_rail
from wizard.trade.job_fields import FixingKind, Section, Survey
from wizard.trade.lengths import ZERO, Length, total
from wizard.trade.notions import LOOPED
from wizard.trade.plan_records import FixingPlan, Part, Step
from wizard.trade.sections import End, short_of
from wizard.trade.steps.step_writer import StepWriter, from_right, from_where, minutes_for, start_of

FIRST: Final = 5
"""This many fixings are given one by one: the ends, the middle, and one on either side of it."""

TOOLS: Final[Mapping[FixingKind, tuple[str, ...]]] = {
    "staples": ("stapler", "eye protection", "pencil", "tape measure"),
    "tacks": ("tack hammer", "eye protection", "pencil", "tape measure"),
    "magnets": ("pencil", "tape measure"),
    "upholstery pins": ("pencil", "tape measure"),
    "adhesive hook-and-loop": ("cleaning cloth", "shears", "tape measure"),
    "hook-and-loop": ("needle and strong thread", "tape measure"),
    "glue": ("glue gun", "stand for the glue gun", "tape measure"),
}

TIED_BACK: Final = ". Tie or stitch the cloth back by hand so that it stays clear: it is not cut shorter there"
"""Of the cloth at a thing that it keeps clear of."""


def hanging_steps(write: StepWriter) -> Iterator[Step]:
    """Everything at the bed, once there is a part to hang."""
    if not write.parts:
        return
    slats, sections = bool(write.value(Survey.slatted)), write.job.survey.section
    yield write.step("clear", {"slats": slats}, figures=("survey.slatted",), minutes=20)
    for part in write.parts:
        if part.fixings is not None:
            yield _hang(write, part, sections.get(part.section, Section()), part.fixings)
    hung = [sections.get(part.section, Section()) for part in write.parts]
    returns = any("returns" in (each.left_end, each.right_end) for each in hung)
    yield write.step("dress", {"returns": returns}, minutes=10 * len(write.parts))
    yield write.step("put-back", {"slats": slats}, figures=("survey.slatted",), minutes=20)
    unwashed = [each.name for each in write.layers if write.cloth(each.id).wash in (None, "not washed")]
    yield write.step("care", {"unwashed": unwashed}, minutes=10)


def _hang(write: StepWriter, part: Part, section: Section, plan: FixingPlan) -> Step:
    kind = write.job.cloth.fixing.kind or "staples"
    id, length = f"part.{part.id}", write.worked(part.gathered.id)
    raised = write.ledger.read(Section.raised, f"survey.section.{part.section}", fallback=Survey.raised).value
    values = {
        "face": "lower back edge" if section.fixing_face == "lower back edge" else "inner face",
        "above": f"{write.mark(raised)} above" if raised else "level with",
        "start": from_where(part),
        "ends": _ends(write, part, section),
        "things": _things(write, part, section, plan),
        "kind": kind,
        **(_row(write, plan, kind) if plan.positions else _whole(write, kind, plan, length)),
        "gaps": ", ".join(f"{write.mark(start)} to {write.mark(end)}" for start, end in plan.gaps),
    }
    row = (f"{id}.fixings", f"{id}.fixings_set", f"{id}.fixing_spacing")
    return write.step(
        "hang", values, part=part, figures=(*row, "cloth.fixing.inset", "fixing.leg", part.gathered.id),
        tools=TOOLS[kind], settings=() if plan.leg is None else (f"{kind} with a {write.mark(plan.leg)} leg",),
        minutes=10 + (len(plan.positions) if plan.positions else minutes_for(length, 5)),
    )  # fmt: skip


def _ends(write: StepWriter, part: Part, section: Section) -> Iterator[str]:
    """What turns in behind a post, or hangs over the next section, at either end."""
    ends: list[tuple[End, str | None, Length | None, str]] = [
        ("left", section.left_end, section.left_return, part.left_is),
        ("right", section.right_end, section.right_return, part.right_is),
    ]
    for end, kind, extra, is_at in reversed(ends) if from_right(part) else ends:
        if is_at == "split":
            yield "The two parts overlap where they meet; fix the outer one last"
        elif kind in ("returns", "overlaps") and extra:
            free = "" if can_fix_return(write.job.survey, part.section, end) else ", and hangs free there"
            where = "turns in behind the post" if kind == "returns" else "overlaps the next section"
            yield f"At the {is_at}: the last {write.mark(extra)} {where}{free}"
        elif short_of(section, end):
            yield f"At the {is_at}: it ends {write.mark(short_of(section, end))} short of the post"


def _things(write: StepWriter, part: Part, section: Section, plan: FixingPlan) -> Iterator[dict[str, str]]:
    """What is in the way of this part; of a split section another part may have the rest."""
    first, last = plan.covers
    for key, thing in section.in_the_way.items():
        if not takes_rail(thing) or thing.at is None:
            continue
        half = (thing.width or ZERO) / 2
        if thing.at + half >= first and thing.at - half <= last:
            yield {
                "name": obstacle_name(key, thing),
                "at": write.mark(thing.at),
                "start": start_of(part),
                "wide": "" if thing.width is None else f", {write.mark(thing.width)} wide",
                "do": f"set no fixing there{TIED_BACK if thing.do == 'keep clear' else ''}",
            }


def _row(write: StepWriter, plan: FixingPlan, kind: FixingKind) -> dict[str, object]:
    order = sorted(plan.positions, key=lambda each: each.order)
    return {
        "number": len(order),
        "one": len(order) == 1,
        "several": len(order) > 1,
        "first": ", ".join(write.mark(each.at) for each in order[:FIRST]),
        "others": plan.spacing is not None and len(order) > FIRST,
        "spacing": write.mark(plan.spacing or ZERO),
        "skipped": ", ".join(write.mark(each) for each in plan.skipped),
        "beside": ", ".join(map(write.mark, _beside(plan))),
        "driven": kind in ("staples", "tacks"),
    }


def _beside(plan: FixingPlan) -> list[Length]:
    """Those that are not of the even row: they are set close beside what is in the way."""
    if not (plan.skipped and plan.spacing):
        return []
    first, spacing = plan.positions[0].at, plan.spacing
    return [each.at for each in plan.positions if ((each.at - first) / spacing).denominator > 1]


def _whole(write: StepWriter, kind: FixingKind, plan: FixingPlan, length: Length) -> dict[str, object]:
    # The tape carries its side from end to end; the rail has none where it is left out.
    rail = write.cut(length - total(end - start for start, end in plan.gaps))
    return {
        "length": write.mark(length),
        "rail": f"{rail} altogether" if plan.gaps else rail,
        "glue": kind not in LOOPED,
        "stick": kind == "adhesive hook-and-loop",
        "sew": kind == "hook-and-loop",
        "hook": kind in LOOPED,
    }
