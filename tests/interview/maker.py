"""Makers that answer from a script, and jobs to answer for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import UTC, datetime, timedelta
from functools import cache
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

from wizard.interview.answer_text import options
from wizard.interview.outcome import Accepted, Conflict, Refused
from wizard.interview.page import Page
from wizard.interview.question import Question
from wizard.interview.session import Session
from wizard.project.problems import Problems
from wizard.project.project import Project, put
from wizard.project.store import Store


def _side(side: str, *readings: str) -> dict[str, str]:
    """Two runs and three drops of a side."""
    leaves = ("run.1", "run.2", "drop.1", "drop.2", "drop.3")
    return {f"survey.section.{side}.{leaf}": text for leaf, text in zip(leaves, readings, strict=True)}


MEASURED = {
    "name": "Juniper loft",
    "survey.rail": "solid wood",
    "survey.rail_thickness": "1 1/8",
    "survey.floor": "carpet",
    **_side("left", "76 5/8", "76 1/2", "11 7/8", "12", "12"),
    **_side("foot", "58", "58", "9", "9", "9 1/8"),
    **_side("right", "76 1/2", "76 1/2", "12", "12", "12"),
    "cloth.face.width": "54",
    "cloth.face.kind": "plain cotton",
    "cloth.face.weight": "medium",
}
"""What a beginner has to say; everything else is answered with Enter."""

SLATTED = MEASURED | {
    "survey.slatted": "yes",
    "rails.free_height": "2 in",
    "corners.foot": "sides",
    "survey.section.left.drop.3": "12 1/2",
    "hem.line": "follow the floor",
    "cloth.face.owned": "3 yd",
    "face.layers": "interlining",
    "cloth.interlining.width": "45",
    "cloth.interlining.kind": "flannel",
    "cloth.interlining.weight": "medium",
}
"""A bed with a ledger, an uneven floor and a return; two layers, and cloth in the cupboard."""

EVERYTHING = MEASURED | {
    "standard": "1",
    "survey.slatted": "yes",
    "survey.watch": "antique, heated",
    "survey.bed_size": "US queen",
    "corners.turned": "foot-left",
    "progress.rails_alike": "no",
    "survey.section.left.name": "window side",
    "survey.section.left.rail": "veneered board",
    "survey.section.left.rail_thickness": "7/8 in",
    "survey.section.left.drop.2": "12 1/2",
    "survey.section.left.drop.4": "12 1/8",
    "survey.section.left.drop_at.4": "60",
    "hem.line": "follow the floor",
    "rails.free_height": "2 in",
    "corners.head": "sides",
    "corners.foot": "sides",
    "corners.returns": "1 in",
    "survey.section.left.left_hook": "1 1/2 in",
    "survey.section.left.in_the_way": "centre [leg]",
    "survey.section.left.in_the_way.centre-leg.kind": "centre leg",
    "survey.section.left.in_the_way.centre-leg.at": "38 in",
    "survey.section.left.in_the_way.centre-leg.width": "3 in",
    "survey.section.left.in_the_way.centre-leg.height": "8 in",
    "survey.section.left.in_the_way.centre-leg.do": "split here",
    "survey.section.foot.fixing_face": "lower back edge",
    "survey.section.right.free_height": "2 1/2 in",
    "posts.along_side": "2 1/2",
    "posts.along_end": "2 1/2",
    "posts.side_set_in": "0",
    "posts.end_set_in": "1/4",
    "posts.may_fix": "yes",
    "survey.section.left.right_daylight_top": "1/4",
    "survey.section.left.right_daylight_floor": "3/4",
    "cloth.face.name": "slate ticking",
    "face.surface": "one-way pattern",
    "cloth.face.repeat": "4 in",
    "cloth.face.repeat_kind": "half-drop",
    "cloth.face.wash": "washed first",
    "washing.face.shrinkage": "3 x 2 %",
    "cloth.face.price": "18.50",
    "cloth.face.owned": "3 yd",
    "cloth.face.owned.length.damage_from": "10 in",
    "cloth.face.owned.length.damage_to": "12 in",
    "washing.face.washed": "yes",
    "face.layers": "interlining, lining",
    "cloth.interlining.width": "45",
    "cloth.interlining.kind": "flannel",
    "cloth.interlining.weight": "light",
    "cloth.interlining.join": "lap",
    "cloth.lining.width": "54",
    "cloth.lining.kind": "lawn",
    "cloth.lining.weight": "light",
    "cloth.fixing.kind": "staples",
    "cloth.fixing.pack": "1000",
    "fixing.legs": "5/16 in, 3/8 in",
    "ways.face": "half widths",
}
"""A bed with nearly everything there can be about it."""

HERON = {
    "name": "Heron loft",
    "survey.rail": "solid wood",
    "survey.rail_thickness": "1 1/8",
    "survey.floor": "hard floor",
    "survey.floor_gap": "1/8",
    **_side("left", "76 3/4", "76 5/8", "11 7/8", "12", "12 1/4"),
    "survey.section.left.in_the_way": "centre leg",
    "survey.section.left.in_the_way.centre-leg.at": "38",
    "survey.section.left.in_the_way.centre-leg.width": "3",
    **_side("foot", "58 1/8", "58 1/8", "12", "12 1/8", "12 1/16"),
    **_side("right", "77", "77", "12 1/4", "12", "11 15/16"),
    "corners.foot": "sides",
    "posts.along_side": "3",
    "posts.along_end": "3",
    "posts.side_set_in": "1/2",
    "posts.end_set_in": "1/2",
    "posts.may_fix": "yes",
    "cloth.face.width": "54",
    "cloth.face.kind": "lawn",
    "cloth.face.weight": "light",
    "cloth.face.owned": "4 1/2 yd + 3 yd",
    "face.layers": "interlining",
    "cloth.interlining.width": "45",
    "cloth.interlining.kind": "flannel",
    "cloth.interlining.weight": "medium",
    "fullness.how": "2.5",
}
"""Three sections, the sides turning in behind the foot posts; fine cloth in hand over an interlining to be bought."""


class Clock:
    """Every reading is a minute later."""

    def __init__(self) -> None:
        self.now = datetime(2026, 3, 2, 10, 0, tzinfo=UTC)

    def __call__(self) -> datetime:
        self.now += timedelta(minutes=1)
        return self.now


def begun(folder: Path, project: Project | None = None) -> Session:
    """A new session on a new file."""
    session = Session.begin(Store(folder / "job.toml"), project or Project(), Clock())
    assert not isinstance(session, Conflict)
    return session


def with_left(folder: Path) -> Session:
    """A new session on a job with a left section."""
    session = begun(folder)
    give(session, "sides.on", "left")
    return session


def resumed(folder: Path) -> Session:
    """A session on the file that is there."""
    session = Session.resume(Store(folder / "job.toml"), Clock())
    assert not isinstance(session, Problems), session
    return session


def give(session: Session, key: str, text: str) -> Accepted:
    """Give one answer that must be taken."""
    result = session.answer(key, text)
    assert isinstance(result, Accepted), (key, text, result)
    return result


def refused(session: Session, key: str, text: str) -> Refused:
    """Give one answer that must not be taken."""
    result = session.answer(key, text)
    assert isinstance(result, Refused), (key, text, result)
    return result


def asked(session: Session, key: str) -> Question:
    """The question at a key, which must be asked."""
    question = session.question(key)
    assert question is not None, key
    return question


def edit(path: Path, *pairs: tuple[str, str]) -> None:
    """Change a file by hand."""
    text = path.read_text(encoding="utf-8")
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new)
    path.write_text(text, encoding="utf-8")


def an_answer(question: Question, random: Random) -> str:
    """One that its question takes."""
    offered = [each.value for each in options(question) if not each.barred and each.value != question.answer]
    if question.kind == "choices":
        return ", ".join(random.sample(offered, min(2, len(offered)))) or "none"
    return random.choice(offered) if offered else question.example


def walked(session: Session, left: dict[str, str]) -> Iterator[tuple[str, str]]:
    """From the first page on by next alone: page and field of each Enter, before it is answered from the script where
    it is not. What the script is asked leaves it."""
    session.go("name")
    while (question := session.current()) is not None:
        yield page_of(session).id, question.key
        if question.key in left or session.state(question.key) != "answered":
            give(session, question.key, left.pop(question.key, ""))
        if not session.next():
            break


def answering(session: Session, script: Mapping[str, str]) -> Iterator[str]:
    """Each field that is asked that way; then what the script has besides, which is behind More, is answered there."""
    left = dict(script)
    yield from (key for _, key in walked(session, left))
    while left:
        behind = next((key for key in left if session.question(key)), None)
        assert behind is not None, f"never asked: {sorted(left)}"
        give(session, behind, left.pop(behind))
        yield from (key for _, key in walked(session, left))


def left_at(script: Mapping[str, str], until: str = "") -> bytes:
    """The file of a job of that script as one leaves it at the question `until`, else with every question answered."""
    return _left_at(tuple(script.items()))[until]


@cache
def _left_at(script: tuple[tuple[str, str], ...]) -> dict[str, bytes]:
    """Each question of it, and the file: answered once in a test run."""
    with TemporaryDirectory() as folder:
        file, named = Path(folder) / "job.toml", put(Project(), "name", dict(script).get("name", "Juniper loft"))
        session, found = begun(Path(folder), named), dict[str, bytes]()
        for key in answering(session, dict(script)):
            session.leave()
            found.setdefault(key, file.read_bytes())
        session.leave()
        return {**found, "": file.read_bytes()}


def finished(folder: Path, script: Mapping[str, str] = MEASURED) -> Session:
    """A session on a file with every question answered."""
    (folder / "job.toml").write_bytes(left_at(script))
    return resumed(folder)


def pages_by_enter(session: Session, script: Mapping[str, str]) -> list[str]:
    """The pages on which Enter is pressed at every field from the first on, with what the script has for it."""
    left = dict(script)
    met = list(dict.fromkeys(page for page, _ in walked(session, left)))
    assert not left
    return met


def by_page(session: Session, script: Mapping[str, str]) -> list[str]:
    """Every page from the first on filled in from the script and taken as a whole. Gives the pages."""
    met: list[str] = []
    session.go("name")
    while session.page() is not None:
        added = [each for each in page_of(session).fields if each.kind == "add" and each.key in script]
        for each in added if page_of(session).id not in met else ():
            give(session, each.key, script[each.key])
        met += [page_of(session).id] if page_of(session).id not in met else []
        for each in page_of(session).fields:
            if each.key in script and each not in added:
                session.type(each.key, script[each.key])
        assert isinstance(session.accept(), Accepted)
        if not session.next():
            break
    return met


def page_of(session: Session) -> Page:
    """The page in hand."""
    page = session.page()
    assert page is not None
    return page
