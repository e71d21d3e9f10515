"""Steps of the work for a sheet: each once, with what differs from section to section in columns.

A line that reads alike for all sections is printed once. Of one that differs, what stands before its colon is a row of
the table and what stands behind it a cell.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Final

from wizard.render.document import Block, Box, Table, Work, WorkStep, side_by_side
from wizard.trade.cautions import CAUTIONS
from wizard.trade.field_names import first_up
from wizard.trade.formatting import counted, listed
from wizard.trade.plan_records import Plan, Step

Alike = dict[str, list[Step]]
"""What steps have in common -> the steps, section by section."""


def work(plan: Plan, steps: Iterable[Step], *, bare: bool = False) -> list[Block]:
    """The steps in the order of doing, those of all sections that are alike as one; nothing without steps. `bare`: what
    they are done to stands in the heading over them."""
    seen = set[str]()
    names = {part.id: part.name.removesuffix(" section") for part in plan.parts}
    items = tuple(_together(each, names, seen, bare=bare) for each in alike(steps).values())
    return [Work(items)] if items else []


def alike(steps: Iterable[Step]) -> Alike:
    """Steps that do the same, in the order of doing: what only a later section needs stands where that one has it."""
    found, order, last = Alike(), list[str](), dict[str, str]()
    keyed = [(step.id.removesuffix(f":{step.section}"), step) for step in steps]
    for at, (key, step) in enumerate(keyed):
        whose = step.section or ""
        if key not in found:
            after = order.index(last[whose]) + 1 if whose in last else len(order)
            known = (order.index(each) for each, of in keyed[at:] if of.section == step.section and each in found)
            order.insert(after if whose in last or not whose else next(known, after), key)
        found.setdefault(key, []).append(step)
        last |= {whose: key} if whose else {}
    return {key: found[key] for key in order}


def _together(steps: Sequence[Step], names: dict[str, str], seen: set[str], *, bare: bool) -> WorkStep:
    """One step of all that are alike. `seen`: the cautions and changes given before; its own are put in."""
    first, several = steps[0], len(steps) > 1
    cautions = {each.id: each.sentence for step in steps for each in step.cautions}
    whose = {each: _of_some(each, steps, names) for each in cautions}
    noted = [(CAUTIONS[each].note, whose[each]) for each in cautions if each in seen]
    before = "; ".join(f"{note} ({of})" if of else note for note, of in noted)
    fresh = [(sentence, whose[id]) for id, sentence in cautions.items() if id not in seen]
    given = tuple(f"{first_up(of)}: {sentence}" if of else sentence for sentence, of in fresh)
    seen.update(cautions)
    changed = [line for each in steps for line in each.changed]
    told = "as above." if seen.issuperset(changed) else " ".join(changed)
    seen.update(changed)
    return WorkStep(
        title=first.title.partition(": ")[0] if bare else _without(first.title) if several else first.title,
        time=_time(steps),
        boxes=tuple(Box(each.id, names.get(each.section or "", "") if several else "", each.done) for each in steps),
        cautions=given,
        as_before=before,
        changed=f"Changed since you ticked it: {told}" if changed else "",
        body=tuple(_body([names.get(each.section or "", "") for each in steps], steps)),
        notes=tuple(each.note for each in steps if each.note),
    )


def _of_some(caution: str, steps: Sequence[Step], names: dict[str, str]) -> str:
    """The sections that a caution is about; empty where it is about all."""
    about = [step for step in steps if caution in {each.id for each in step.cautions}]
    return "" if len(about) == len(steps) else listed([names.get(each.section or "", "") for each in about])


def _without(title: str) -> str:
    """`Hem: face cloth` of `Hem: face cloth, left section`; `Try on` of `Try on: left section`."""
    what, _, of = title.partition(": ")
    layer = of.rpartition(", ")[0]
    return f"{what}: {layer}" if layer else what


AT_EACH_PLACE: Final = "at each place"
"""A line with these words is followed by what the step lists."""


def _body(names: Sequence[str], steps: Sequence[Step]) -> Iterator[str | Table]:
    """What is said of all as it is, and between that what differs, in the order of doing."""
    told = [step.lines for step in steps]
    at = [0] * len(told)
    for line in (*told[0], None):
        # What all say, but not in the same order, counts as what differs.
        if line is not None and not all(line in lines[start:] for lines, start in zip(told, at, strict=True)):
            continue
        ends = [len(lines) if line is None else lines.index(line, start) for lines, start in zip(told, at, strict=True)]
        between = [lines[start:end] for lines, start, end in zip(told, at, ends, strict=True)]
        placed = [_up_to_places(lines) for lines in between]
        yield from _differing(names, [before for before, _ in placed])
        if any(AT_EACH_PLACE in each for lines in between for each in lines):
            yield from _places(names, steps)
        yield from _differing(names, [after for _, after in placed])
        at = [end + 1 for end in ends]
        if line is not None:
            yield line
            yield from _places(names, steps) if AT_EACH_PLACE in line else ()


def _up_to_places(lines: Sequence[str]) -> tuple[Sequence[str], Sequence[str]]:
    """The lines up to the one that what the step lists follows, none where it lists nothing; and those after it."""
    after = next((at + 1 for at, each in enumerate(lines) if AT_EACH_PLACE in each), 0)
    return lines[:after], lines[after:]


def _differing(names: Sequence[str], told: Sequence[Sequence[str]]) -> Iterator[str | Table]:
    """A row for each label with a column for each of `names`; what is said of some only, in words."""
    rows: dict[str, list[list[str]]] = {}
    for column, lines in enumerate(told):
        for each in lines:
            label, _, value = each.partition(": ")
            row = rows.setdefault(label if value else each.removesuffix("."), [[] for _ in told])
            row[column].append(value.removesuffix("."))
    table: list[tuple[str, list[str]]] = []
    for label, row in rows.items():
        said = {"; ".join(each) for each in row if each}
        if len(said) == 1 and not all(row):
            whose = listed([name for name, each in zip(names, row, strict=True) if each])
            yield f"{first_up(whose)}: {label}{': ' if any(said) else ''}{said.pop()}."
        else:
            table.append((label, ["; ".join(each) or "–" for each in row]))
    yield from side_by_side(names, table)


def _places(names: Sequence[str], steps: Sequence[Step]) -> Iterator[Table]:
    """What a step lists place by place: the places of each section side by side."""
    for name, step in zip(names, steps, strict=True):
        pairs = [each.removesuffix(".").partition(": ") for each in step.listed]
        if pairs:
            yield Table((name, *(place for place, _, _ in pairs)), (("", *(value for _, _, value in pairs)),))


def _time(steps: Sequence[Step]) -> str:
    """`25 minutes`, `80 minutes in all, took 31`; nothing for steps without a time."""
    minutes, taken = sum(each.minutes for each in steps), sum(each.taken or 0 for each in steps)
    expected = counted(minutes, "minute") + (" in all" if len(steps) > 1 else "") if minutes else ""
    return ", ".join(each for each in (expected, f"took {taken}" if taken else "") if each)
