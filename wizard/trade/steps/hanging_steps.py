"""At the bed: clear it, hang each part from the inside, dress the folds, put everything back."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final

from wizard.trade.bed import Section
from wizard.trade.fixings import can_fix_return, measured_from
from wizard.trade.job import FixingKind
from wizard.trade.keynames import obstacle_name
from wizard.trade.lengths import ZERO, Length, total
from wizard.trade.plan import FixingPlan, Part, Step
from wizard.trade.sections import End, short_of
from wizard.trade.steps.kit import Kit, from_right, from_where, minutes_for

FIRST: Final = 5
"""So many fixings are given one by one: the ends, the middle, and one on either side of it."""

TOOLS: Final[Mapping[FixingKind, tuple[str, ...]]] = {
    "staples": ("stapler", "eye protection", "pencil", "tape measure"),
    "tacks": ("tack hammer", "eye protection", "pencil", "tape measure"),
    "magnets": ("pencil", "tape measure"),
    "upholstery pins": ("pencil", "tape measure"),
    "adhesive hook-and-loop": ("cleaning cloth", "shears", "tape measure"),
    "hook-and-loop": ("needle and strong thread", "tape measure"),
    "glue": ("glue gun", "stand for the glue gun", "tape measure"),
}


def hanging_steps(kit: Kit) -> Iterator[Step]:
    """Everything at the bed, once there is a part to hang."""
    if not kit.parts:
        return
    yield _clear(kit)
    for part in kit.parts:
        if part.fixings is not None:
            yield _hang(kit, part, part.fixings)
    yield _dress(kit)
    yield _put_back(kit)
    yield _care(kit)


def _clear(kit: Kit) -> Step:
    slats = bool(kit.ledger.read("survey.slatted").value)
    return kit.step(
        "clear", "Hanging", "Clear the bed",
        (
            "Lift off the mattress, and stand it where it cannot fall.",
            *(["Number the slats with tape from the head, and lift them out in order."] if slats else []),
            "Wipe the rails where the tape will go, and let them dry.",
            "Mark where every bolt, bracket and cable is.",
        ),
        figures=("survey.slatted",), tools=("masking tape", "pencil", "cleaning cloth"), minutes=20,
    )  # fmt: skip


def _hang(kit: Kit, part: Part, plan: FixingPlan) -> Step:
    kind = kit.ledger.job.cloth.fixing.kind or "staples"
    section = kit.ledger.job.survey.section.get(part.section, Section())
    id, length = f"part.{part.id}", kit.length(part.gathered.id)
    return kit.step(
        "hang", "Hanging", f"Hang: {part.name}",
        (
            _line(kit, part, section),
            f"From inside the bed, measure along the tape from {from_where(part)}.",
            *_extras(kit, part, section),
            *_things(kit, part, section, plan),
            *(_row(kit, plan, kind) if plan.positions else _whole(kit, kind, plan, length)),
            *(f"Leave it out from {kit.mark(start)} to {kit.mark(end)} along the tape." for start, end in plan.gaps),
        ),
        of=(part.id,), section=part.id,
        figures=(f"{id}.fixings", f"{id}.fixings_set", f"{id}.fixing_spacing", "cloth.fixing.inset", "fixing.leg",
                 part.gathered.id),
        tools=TOOLS[kind], settings=_leg(kit, plan, kind),
        minutes=10 + (len(plan.positions) if plan.positions else minutes_for(length, 5)),
    )  # fmt: skip


def _leg(kit: Kit, plan: FixingPlan, kind: FixingKind) -> tuple[str, ...]:
    return () if plan.leg is None else (f"{kind} with a {kit.mark(plan.leg)} leg",)


def _line(kit: Kit, part: Part, section: Section) -> str:
    """Where the drop line goes on the rail."""
    face = "lower back edge" if section.fixing_face == "lower back edge" else "inner face"
    raised = kit.ledger.read(f"survey.section.{part.section}.raised", fallback="survey.raised").value
    if raised:
        return f"On the rail's {face}, lay the tape's lower edge {kit.mark(raised)} above the rail's lower edge."
    return f"On the rail's {face}, lay the tape's lower edge level with the rail's lower edge."


def _extras(kit: Kit, part: Part, section: Section) -> Iterator[str]:
    """What turns in behind a post, or lies over the next section, at either end."""
    ends: tuple[End, End] = ("right", "left") if from_right(part) else ("left", "right")
    for end in ends:
        kind, is_at, extra = _end(part, section, end)
        if extra and is_at != "split":
            free = "" if can_fix_return(kit.ledger.job.survey, part.section, end) else ", and hangs free there"
            where = "turns in behind the post" if kind == "returns" else "lies over the next section"
            yield f"At the {is_at} the last {kit.mark(extra)} of it {where}{free}."
        elif is_at != "split" and short_of(section, end):
            yield f"At the {is_at} it ends {kit.mark(short_of(section, end))} short of the post."
        elif is_at == "split":
            yield "Where it meets its other part the two lie over each other, the outer one last."


def _end(part: Part, section: Section, end: End) -> tuple[str | None, str, Length]:
    if end == "left":
        return section.left_end, part.left_is, _extra(section.left_end, section.left_return)
    return section.right_end, part.right_is, _extra(section.right_end, section.right_return)


def _extra(kind: str | None, extra: Length | None) -> Length:
    return extra if kind in ("returns", "overlaps") and extra is not None else ZERO


def _things(kit: Kit, part: Part, section: Section, plan: FixingPlan) -> Iterator[str]:
    """What is in the way of this part; of a split section another part may have the rest."""
    first, last = plan.covers
    for key, thing in section.in_the_way.items():
        if thing.do not in ("no fixing", "keep clear") or thing.at is None:
            continue
        half = (thing.width or ZERO) / 2
        if thing.at + half >= first and thing.at - half <= last:
            what = "set no fixing" if thing.do == "no fixing" else "keep the skirt clear, and set no fixing"
            wide = "" if thing.width is None else f", {kit.mark(thing.width)} wide"
            place = f"{kit.mark(thing.at)} along the whole run from {_start(part)}"
            yield f"{obstacle_name(key, thing)}, {place}{wide}: {what} there."


def _start(part: Part) -> str:
    return "the left end" if part.side is None else measured_from(part.side)


def _row(kit: Kit, plan: FixingPlan, kind: FixingKind) -> Iterator[str]:
    order = sorted(plan.positions, key=lambda each: each.order)
    first = ", ".join(kit.mark(each.at) for each in order[:FIRST])
    yield f"{len(order)} {kind}, in this order: one end, the other end, the middle, then outwards."
    yield f"The first {min(FIRST, len(order))} at {first}." if len(order) > 1 else f"It goes at {first}."
    if plan.spacing is not None and len(order) > FIRST:
        yield f"The others outwards from the middle, {kit.mark(plan.spacing)} apart."
    if plan.skipped:
        places = ", ".join(kit.mark(each) for each in plan.skipped)
        yield f"Leave out {places}: one goes close on either side instead."
    if kind in ("staples", "tacks"):
        yield "Feel the outside of the rail after the first one: no point may come through."


def _whole(kit: Kit, kind: FixingKind, plan: FixingPlan, length: Length) -> Iterator[str]:
    # The tape carries its side from end to end; the rail has none where it is left out.
    rail = f"{kit.cut(length - total(end - start for start, end in plan.gaps))}{' in all' if plan.gaps else ''}"
    if kind == "adhesive hook-and-loop":
        yield f"Stick {rail} of the hook side to the clean, dry rail; let it take as long as its maker says."
        yield "Press the tape on: one end, the other end, the middle, then outwards."
    elif kind == "hook-and-loop":
        yield f"Sew {rail} of the hook side to the rail's cover, or to a band that is tied round the rail."
        yield "Press the tape on: one end, the other end, the middle, then outwards."
    else:
        yield f"Hold the {kit.mark(length)} of tape with clips: one end, the other end, the middle, then outwards."
        yield "Glue a hand's breadth at a time from the middle outwards, pressing with a stick of wood, not a finger."


def _dress(kit: Kit) -> Step:
    return kit.step(
        "dress", "Hanging", "Dress the folds",
        (
            "From the room, stroke every fold down by hand, from tape to hem.",
            *(["Turn the ends in at the posts, so that each corner closes."] if _any_returns(kit) else []),
            "Look along every hem from the floor: it hangs as planned, and lies nowhere on the floor.",
        ),
        tools=("hands", "steam iron, held away from the cloth"), minutes=10 * len(kit.parts),
    )  # fmt: skip


def _any_returns(kit: Kit) -> bool:
    sections = [kit.ledger.job.survey.section.get(part.section, Section()) for part in kit.parts]
    return any("returns" in (each.left_end, each.right_end) for each in sections)


def _put_back(kit: Kit) -> Step:
    slats = bool(kit.ledger.read("survey.slatted").value)
    return kit.step(
        "put-back", "Hanging", "Put the bed back",
        (
            *(["Lay the slats back by their numbers."] if slats else []),
            "Tighten every bolt, and stand the centre leg, where there is one, firm on the floor.",
            "Count the pins a last time, and run a hand along the rails for points.",
            "Lay the mattress back.",
        ),
        figures=("survey.slatted",), tools=("spanner or bed key",), minutes=20,
    )  # fmt: skip


def _care(kit: Kit) -> Step:
    return kit.step(
        "care", "Hanging", "Care label and spare cloth",
        (
            "Sew a label into the head end of one section: what each layer is made of, and how it may be cleaned.",
            *(_washed(kit)),
            "Roll up the spare cloth, tape and thread with a note of this job, and keep them for mending.",
        ),
        tools=("label", "needle and thread"), minutes=10,
    )  # fmt: skip


def _washed(kit: Kit) -> Iterator[str]:
    for layer in kit.layers:
        if kit.cloth(layer.id).wash in (None, "not washed"):
            yield f"The {layer.name} was not washed first: mark the label so."
