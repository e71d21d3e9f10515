"""Short digests: of a job and of its cuts, by which a sheet and a file are told to belong together, and of the parts of
a file, by which it is told what was edited by hand.

A saved file holds a mark of each part as it was written, under `progress.written`. A part that has another mark now was
edited since. Laying the text out otherwise changes no mark.
"""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from fractions import Fraction
from typing import Any, Final

from msgspec import Struct
from msgspec.structs import replace

from wizard.project.encode import mark_of, plain
from wizard.project.project import Project
from wizard.trade.cutting import Piece
from wizard.trade.job_fields import Job, Section
from wizard.trade.lengths import Length
from wizard.trade.plan_records import Plan
from wizard.trade.sections import CORNERS, is_on, place_round_bed

LEFT_OUT: Final = frozenset({"kept", "foreign"})
"""Tables of the job that change no figure: what was looked at and kept, how lengths were typed. Progress and ticks are
never in a job."""
LETTERS: Final = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
"""Thirty-two that are not taken for one another when read aloud or by hand: no I, L, O, U."""
GROUP: Final = 4
"""Letters that are read together."""


def plan_mark(job: Job) -> str:
    """The mark, as `7KQ2-M4XD`. It changes with anything that is measured, chosen or named, and with nothing else.

    A length counts by its value, so the same job typed in another unit keeps its mark. So does a job whose tables stand
    in another order in the file, unless that changes the plan: lengths in hand are used, and sections of one side made,
    in the order in which they were entered.
    """
    return joint_mark(_leaves("", job))


def joint_mark(parts: Iterable[str]) -> str:
    """The mark of what is told in several lines: of all that a job says, of several jobs together by their marks."""
    # Eight letters, forty bits: of a thousand jobs, no two share a mark but by a chance of one in two million.
    letters = _letters("\n".join(parts), 2 * GROUP)
    return "-".join(letters[at : at + GROUP] for at in range(0, len(letters), GROUP))


def cut_mark(plan: Plan) -> str:
    """The mark of the cut lists, as `7KQ2`: it tells a sheet whose cuts differ though nothing that was measured or
    chosen does, as one from another version. Empty before anything is laid out."""
    laid = [(layer, layer.cutting.best) for layer in plan.layers if layer.cutting is not None]
    pieces = "\n".join(f"{layer.id} {each}" for layer, best in laid for each in map(_piece, best.pieces))
    return _letters(pieces, GROUP) if pieces else ""


def _piece(each: Piece) -> str:
    lengths = (each.start, each.across, each.cut, each.width)
    return f"{each.stretch} {each.strip} {each.order} {' '.join(str(length.inches) for length in lengths)}"


def _letters(content: str, count: int) -> str:
    """That many letters of a digest."""
    number = int.from_bytes(hashlib.sha256(content.encode("utf-8", "surrogatepass")).digest(), "big")
    return "".join(LETTERS[number >> 5 * at & 31] for at in range(count))


def _leaves(key: str, value: object) -> Iterator[str]:
    """Every leaf that is said, a line each, in an order that changes only with the plan."""
    if isinstance(value, Struct):
        for name in value.__struct_fields__:
            if key or name not in LEFT_OUT:
                yield from _leaves(f"{key}.{name}", getattr(value, name))
    elif isinstance(value, Mapping):
        for name, inner in _in_order(key, value):
            # An empty table belongs to the job too.
            yield f"{key}.{name!a}:"
            yield from _leaves(f"{key}.{name!a}", inner)
    elif isinstance(value, tuple):
        for number, inner in enumerate(value, start=1):
            yield from _leaves(f"{key}.{number}", inner)
    elif value is not None:
        yield f"{key} = {_leaf(value)}"


def _in_order(key: str, tables: Mapping[str, Any]) -> list[tuple[str, Any]]:
    """Tables in an order of their own where the plan does not look at theirs."""
    if key == ".survey.section":
        return _round_bed(tables)
    if key == ".survey.post":
        return sorted(tables.items(), key=lambda each: (CORNERS.index(each[0]) if each[0] in CORNERS else 4, each[0]))
    return sorted(tables.items(), key=lambda each: each[0]) if key.endswith(".in_the_way") else list(tables.items())


def _round_bed(sections: Mapping[str, Section]) -> list[tuple[str, Section]]:
    """Round the bed the first section of each side, then the second of each; those that are off last and by name."""
    made = sorted(sections.items(), key=lambda each: (not is_on(each[1]), "" if is_on(each[1]) else each[0]))
    beside = Counter[int]()
    places: dict[str, tuple[int, int]] = {}
    for section_id, section in made:
        side = place_round_bed(section_id, section)
        places[section_id] = beside[side], side
        beside[side] += 1
    return sorted(made, key=lambda each: places[each[0]])


def _leaf(value: object) -> str:
    """One value, its kind with it, written one way only."""
    if isinstance(value, Length):
        return f"length {value.inches}"
    if isinstance(value, int | Fraction | Decimal) and not isinstance(value, bool):
        return f"number {Fraction(value)}"
    return f"{type(value).__name__} {value!a}"


def marked(project: Project) -> Project:
    """The project as it goes into its file, with the marks of all its parts."""
    return _with(project, " ".join(f"{part}={mark}" for part, mark in _marks(project).items()))


def unmarked(project: Project) -> Project:
    """The project as it is worked on."""
    return project if project.progress.written is None else _with(project, None)


def edited(project: Project) -> tuple[str, ...]:
    """The keys of the parts that are not as they were written, as `survey.section.left`; none for a file without
    marks, which somebody wrote from the beginning."""
    if project.progress.written is None:
        return ()
    before = dict(each.rpartition("=")[::2] for each in project.progress.written.split())
    now = _marks(project)
    return tuple(part for part in {**before, **now} if before.get(part) != now.get(part))


def _with(project: Project, written: str | None) -> Project:
    return replace(project, progress=replace(project.progress, written=written))


def _marks(project: Project) -> dict[str, str]:
    # Four figures of sixteen each: one edit in 65 536 goes unseen.
    return {part: mark_of(values)[:4] for part, values in _parts(plain(project)) if values}


def _parts(table: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    """The parts by their keys: what stands at the top as `job`, each section and each layer by itself."""
    tables = {name: each for name, each in table.items() if isinstance(each, dict)}
    survey, cloth, progress = (tables.pop(each, {}) for each in ("survey", "cloth", "progress"))
    yield "job", {name: each for name, each in table.items() if not isinstance(each, dict)}
    yield "survey", {name: each for name, each in survey.items() if name != "section"}
    for name, each in survey.get("section", {}).items():
        yield f"survey.section.{name}", {"": each}
    for name, each in cloth.items():
        yield f"cloth.{name}", {"": each}
    # Those two are no answers.
    yield "progress", {name: each for name, each in progress.items() if name not in ("at", "written")}
    yield from tables.items()
