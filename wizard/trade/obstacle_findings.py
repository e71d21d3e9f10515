"""What looks wrong about the things in the way along a run."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from wizard.trade.bed import Obstacle, ObstacleKind
from wizard.trade.corners import section_name, sections_on
from wizard.trade.findings import Finding
from wizard.trade.keynames import obstacle_name
from wizard.trade.lengths import Length
from wizard.trade.parts import splits_asked
from wizard.trade.saying import Sayer

DANGEROUS: Final[dict[ObstacleKind, str]] = {
    "heater": "Cloth stays at least 3 ft (1 m) from a heater: leave this side without a skirt, or move the heater.",
    "vent": "Keep the skirt clear of the vent, so that neither air nor heat is held back.",
    "socket": "Keep the skirt clear of the socket, and no leads or adaptors behind it.",
}


def obstacle_findings(say: Sayer) -> Iterator[Finding]:
    """Everything that looks wrong about the things in the way."""
    for section_id, section in sections_on(say.ledger.job):
        for thing_id, thing in section.in_the_way.items():
            where = f"{section_name(say.ledger.job, section_id)}: the {obstacle_name(thing_id, thing)}"
            yield from _outside(say, section_id, thing_id, thing, where)
            yield from _dangerous(say, section_id, thing_id, thing, where)
        yield from _splits(say, section_id)


def _run(say: Sayer, section_id: str) -> Length | None:
    run: Length | None = say.ledger.read(f"survey.section.{section_id}.run.1").value
    return run


def _outside(say: Sayer, section_id: str, thing_id: str, thing: Obstacle, where: str) -> Iterator[Finding]:
    """Its middle was read along the run, so it lies between the ends."""
    run = _run(say, section_id)
    if run is None or thing.at is None or thing.at <= run:
        return
    yield say.finding(
        f"outside-run:{section_id}:{thing_id}", "ask", f"survey.section.{section_id}.in_the_way.{thing_id}.at",
        f"{where} lies at {say.length(thing.at)}, beyond the end of the run at {say.length(run)}.",
        "Read its middle again: from the head on a side, from the bed's left on the foot or head.", thing.at, run,
        other=f"survey.section.{section_id}.run.1",
    )  # fmt: skip


def _dangerous(say: Sayer, section_id: str, thing_id: str, thing: Obstacle, where: str) -> Iterator[Finding]:
    """Heater, vent and socket are always spoken of."""
    if thing.kind not in DANGEROUS:
        return
    key = f"survey.section.{section_id}.in_the_way.{thing_id}.do"
    yield say.finding(
        f"danger:{section_id}:{thing_id}", "warn", key, f"{where} lies behind or beside the cloth.",
        DANGEROUS[thing.kind], thing.kind, thing.do or "nothing chosen yet",
    )  # fmt: skip


def _splits(say: Sayer, section_id: str) -> Iterator[Finding]:
    """Every part of a split section must have some length of its own."""
    count = len(splits_asked(say.ledger.job.survey.section[section_id]))
    runs = [say.ledger.figures.get(f"part.{section_id}/{part}.run") for part in range(1, count + 2)] if count else []
    if not any(run is not None and run.value is None and not run.needs for run in runs):
        return
    things = [each for each, _ in splits_asked(say.ledger.job.survey.section[section_id])]
    yield say.finding(
        f"split-outside:{section_id}", "stop", f"survey.section.{section_id}.in_the_way.{things[0]}.overlap",
        f"{section_name(say.ledger.job, section_id)}: as it is split, a part lies outside the run or has no length.",
        "Give a smaller overlap, another place, or no split.", *things,
    )  # fmt: skip
