"""A job gone through by keys on the screens and by lines in plain mode: one file, byte for byte."""

from __future__ import annotations

from pathlib import Path

import pytest
from textual.pilot import Pilot

from tests.prompts.talks import FILE, NAME, told
from tests.screens.jobs import NOON
from tests.screens.pilots import focused, heeded, job, opened, over, typed, until
from wizard.questions.question import Question
from wizard.screens.widgets.option_lists import ChoiceList, pickable

FOOT_ONLY = {
    "survey.rail": "solid wood",
    "survey.rail_thickness": "1 1/8",
    "survey.floor": "carpet",
    "survey.slatted": "yes",
    "survey.section.left.on": "no",
    "survey.section.right.on": "no",
    "survey.section.foot.run.1": "58",
    "survey.section.foot.run.2": "59 1/4",
    "survey.section.foot.drop.1": "9",
    "survey.section.foot.drop.2": "9 1/8",
    "survey.section.foot.drop.3": "9 1/2",
    "survey.section.foot.hem_line": "follow the floor",
    "survey.section.foot.in_the_way": "centre leg",
    "survey.section.foot.in_the_way.centre-leg.kind": "centre leg",
    "survey.section.foot.in_the_way.centre-leg.at": "29",
    "survey.section.foot.in_the_way.centre-leg.width": "3",
    "survey.section.foot.in_the_way.centre-leg.do": "no fixing",
    "cloth.face.width": "54",
    "cloth.face.kind": "plain cotton",
    "cloth.face.weight": "medium",
    "cloth.face.price": "18.50",
    "cloth.face.owned": "3 yd",
}
"""One section, with a finding on the way, a floor that falls, something in the way and cloth in hand; what is not said
is answered with Enter alone."""


async def answer(pilot: Pilot[int], question: Question, text: str) -> None:
    """Answer by keys; where something looks wrong, Enter goes on all the same."""
    screen = job(pilot)
    if pickable(question) and text:
        values = [each.value for each in screen.query_one(ChoiceList).choices]
        await pilot.press(str(values.index(text) + 1))
    elif text:
        screen.pane.box.put(text)
    await pilot.press("enter")
    await until(pilot, lambda: screen.session.at != question.key or screen.held == question.key)
    if screen.held:
        await heeded(pilot)
        await pilot.press("enter")
        await until(pilot, lambda: screen.session.at != question.key)


async def on_the_screens(folder: Path) -> tuple[bytes, list[str]]:
    """The file, and the lines that say the same in plain mode."""
    lines, left = [f".new {NAME}"], dict(FOOT_ONLY)
    async with opened(folder, (60, 20)) as pilot:
        await pilot.press("f8")
        await over(pilot)
        await typed(pilot, NAME)
        await pilot.press("enter")
        await until(pilot, lambda: focused(pilot) in ("field", "picks"))
        session = job(pilot).session
        while (question := session.current()) is not None:
            text, known = left.pop(question.key, ""), {each.id for each in session.plan.findings}
            await answer(pilot, question, text)
            asks = [each for each in session.plan.findings if each.id not in known and each.level != "note"]
            lines += [text, *([""] if asks else [])]
        await pilot.press("f9")
        await until(pilot, lambda: focused(pilot) == "steps")
        for number in range(1, len(session.plan.work) + 1):
            await pilot.press("enter")
            await until(pilot, lambda number=number: len(session.draft.work) == number)
            lines.append("done")
        session.leave()
    assert not left, f"never asked: {sorted(left)}"
    return (folder / FILE).read_bytes(), lines


@pytest.mark.long
async def test_plain_lines_make_the_very_file_that_the_screens_make(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for module in ("screens.projects", "questions.jobs", "prompts.home"):
        monkeypatch.setattr(f"wizard.{module}.clock", lambda: NOON)
    (tmp_path / "screens").mkdir()
    (tmp_path / "plain").mkdir()
    made, lines = await on_the_screens(tmp_path / "screens")
    heard = told(tmp_path / "plain", *lines, ".quit")
    assert "Every step is ticked." in heard
    assert (tmp_path / "plain" / FILE).read_bytes() == made
