"""At the bed: clear it, hang each part from the inside, dress the folds, put everything back."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from wizard.trade.field_names import obstacle_name
from wizard.trade.fixings import can_fix_return
from wizard.trade.job_fields import FixingKind, Section, Survey
from wizard.trade.lengths import ZERO, Length, total
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


def hanging_steps(write: StepWriter) -> Iterator[Step]:
    """Everything at the bed, once there is a part to hang."""
    if not write.parts:
        return
    slats, sections = bool(write.value(Survey.slatted)), write.job.survey.section
    clear = (
        "Lift off the mattress, and stand it where it cannot fall.",
        *(["Number the slats with tape from the head, then lift them out in order."] if slats else []),
        "Wipe the rails where the tape will go, and let them dry.",
        "Mark where every bolt, bracket and cable is.",
    )
    yield write.step("clear", clear, figures=("survey.slatted",), minutes=20)
    for part in write.parts:
        if part.fixings is not None:
            yield _hang(write, part, sections.get(part.section, Section()), part.fixings)
    hung = [sections.get(part.section, Section()) for part in write.parts]
    returns = any("returns" in (each.left_end, each.right_end) for each in hung)
    dress = (
        "From the room, stroke every fold down by hand, from tape to hem.",
        *(["Turn the ends in at the posts, so that each corner is closed."] if returns else []),
        "Look along every hem from the floor: it hangs as planned, and does not touch the floor.",
    )
    yield write.step("dress", dress, minutes=10 * len(write.parts))
    put_back = (
        *(["Lay the slats back by their numbers."] if slats else []),
        "Tighten every bolt. If there is a centre leg, set it firmly on the floor.",
        "Count the pins one last time, and run a hand along the rails to feel for points.",
        "Lay the mattress back.",
    )
    yield write.step("put-back", put_back, figures=("survey.slatted",), minutes=20)
    unwashed = [each.name for each in write.layers if write.cloth(each.id).wash in (None, "not washed")]
    care = (
        "Sew a label into the head end of one section: what each layer is made of, and how it may be cleaned.",
        *(f"The {name} was not washed first: write that on the label." for name in unwashed),
        "Roll up the spare cloth, tape and thread with a note of this job, and keep them for repairs.",
    )
    yield write.step("care", care, minutes=10)


def _hang(write: StepWriter, part: Part, section: Section, plan: FixingPlan) -> Step:
    kind = write.job.cloth.fixing.kind or "staples"
    id, length = f"part.{part.id}", write.worked(part.gathered.id)
    lines = (
        _line(write, part, section),
        f"From inside the bed, measure along the tape from {from_where(part)}.",
        *_ends(write, part, section),
        *_things(write, part, section, plan),
        *(_row(write, plan, kind) if plan.positions else _whole(write, kind, plan, length)),
        *(f"Leave it out from {write.mark(start)} to {write.mark(end)} along the tape." for start, end in plan.gaps),
    )
    row = (f"{id}.fixings", f"{id}.fixings_set", f"{id}.fixing_spacing")
    return write.step(
        "hang", lines, part=part, figures=(*row, "cloth.fixing.inset", "fixing.leg", part.gathered.id),
        tools=TOOLS[kind], settings=() if plan.leg is None else (f"{kind} with a {write.mark(plan.leg)} leg",),
        minutes=10 + (len(plan.positions) if plan.positions else minutes_for(length, 5)),
    )  # fmt: skip


def _line(write: StepWriter, part: Part, section: Section) -> str:
    """Where the drop line goes on the rail."""
    face = "lower back edge" if section.fixing_face == "lower back edge" else "inner face"
    raised = write.ledger.read(Section.raised, f"survey.section.{part.section}", fallback=Survey.raised).value
    above = f"{write.mark(raised)} above" if raised else "level with"
    return f"On the rail's {face}, lay the tape's lower edge {above} the rail's lower edge."


def _ends(write: StepWriter, part: Part, section: Section) -> Iterator[str]:
    """What turns in behind a post, or hangs over the next section, at either end."""
    ends: list[tuple[End, str | None, Length | None, str]] = [
        ("left", section.left_end, section.left_return, part.left_is),
        ("right", section.right_end, section.right_return, part.right_is),
    ]
    for end, kind, extra, is_at in reversed(ends) if from_right(part) else ends:
        if is_at == "split":
            yield "Where it meets its other part they overlap; fix the outer one last."
        elif kind in ("returns", "overlaps") and extra:
            free = "" if can_fix_return(write.job.survey, part.section, end) else ", and hangs free there"
            where = "turns in behind the post" if kind == "returns" else "overlaps the next section"
            yield f"At the {is_at} the last {write.mark(extra)} {where}{free}."
        elif short_of(section, end):
            yield f"At the {is_at} it ends {write.mark(short_of(section, end))} short of the post."


def _things(write: StepWriter, part: Part, section: Section, plan: FixingPlan) -> Iterator[str]:
    """What is in the way of this part; of a split section another part may have the rest."""
    first, last = plan.covers
    for key, thing in section.in_the_way.items():
        if thing.do not in ("no fixing", "keep clear") or thing.at is None:
            continue
        half = (thing.width or ZERO) / 2
        if thing.at + half >= first and thing.at - half <= last:
            what = "set no fixing" if thing.do == "no fixing" else "keep the skirt clear, and set no fixing"
            wide = "" if thing.width is None else f", {write.mark(thing.width)} wide"
            place = f"{write.mark(thing.at)} from {start_of(part)} along the whole run"
            yield f"{obstacle_name(key, thing)}, {place}{wide}: {what} there."


def _row(write: StepWriter, plan: FixingPlan, kind: FixingKind) -> Iterator[str]:
    order = sorted(plan.positions, key=lambda each: each.order)
    first = ", ".join(write.mark(each.at) for each in order[:FIRST])
    yield f"{len(order)} {kind}, in this order: one end, the other end, the middle, then outwards."
    yield f"Set the first {min(FIRST, len(order))} at {first}." if len(order) > 1 else f"It goes at {first}."
    if plan.spacing is not None and len(order) > FIRST:
        yield f"Set the others outwards from the middle, {write.mark(plan.spacing)} apart."
    if plan.skipped:
        places = ", ".join(write.mark(each) for each in plan.skipped)
        yield f"Leave out {places}: put one on each side instead."
    if kind in ("staples", "tacks"):
        yield "After the first one, feel the outside of the rail: no point may come through."


def _whole(write: StepWriter, kind: FixingKind, plan: FixingPlan, length: Length) -> Iterator[str]:
    # The tape carries its side from end to end; the rail has none where it is left out.
    rail = f"{write.cut(length - total(end - start for start, end in plan.gaps))}{' altogether' if plan.gaps else ''}"
    if kind not in ("adhesive hook-and-loop", "hook-and-loop"):
        yield f"Hold the {write.mark(length)} of tape with clips: one end, the other end, the middle, then outwards."
        hand = write.about("4 in", "10 cm")
        yield f"Glue {hand} at a time from the middle outwards. Press with a wooden stick, not with a finger."
        return
    if kind == "adhesive hook-and-loop":
        yield f"Stick {rail} of the hook side to the clean, dry rail. Let it set as long as its maker says."
    else:
        yield f"Sew {rail} of the hook side to the rail's cover, or to a band tied round the rail."
    yield "Press the tape on: one end, the other end, the middle, then outwards."
