"""A job gone through by keys on the screens and by lines in plain mode: one file, byte for byte."""

from __future__ import annotations

import csv
import io
import json
from functools import partial
from pathlib import Path
from typing import Any

import pytest

from tests.commands.running import data
from tests.prompts.talks import FILE, NAME, told
from tests.render.golden_files import demo_plan
from tests.render.test_forms import words_of
from tests.screens.jobs import NOON
from tests.screens.pilots import Screens, opened
from tests.screens.screen_texts import worded
from wizard.interview.answer_text import options
from wizard.interview.question import Question
from wizard.render.formats import Request, render
from wizard.render.sheet_names import USUAL
from wizard.screens.pages.page_pane import Editor

FOOT_ONLY = {
    "survey.rail": "solid wood",
    "survey.rail_thickness": "1 1/8",
    "survey.floor": "carpet",
    "survey.slatted": "yes",
    "sides.on": "foot",
    "survey.section.foot.run.1": "58",
    "survey.section.foot.run.2": "59 1/4",
    "survey.section.foot.drop.1": "9",
    "survey.section.foot.drop.2": "9 1/8",
    "survey.section.foot.drop.3": "9 1/2",
    "hem.line": "follow the floor",
    "survey.section.foot.in_the_way": "centre leg",
    "survey.section.foot.in_the_way.centre-leg.at": "29",
    "survey.section.foot.in_the_way.centre-leg.width": "3",
    "survey.section.foot.in_the_way.centre-leg.do": "no fixing",
    "cloth.face.width": "54",
    "cloth.face.kind": "plain cotton",
    "cloth.face.weight": "medium",
    "cloth.face.owned": "3 yd",
}
"""One section, with a finding on the way, a floor that falls, something in the way and cloth in hand; what is not said
is answered with Enter alone."""


async def answer(it: Screens, question: Question, text: str) -> list[str]:
    """Answer by keys; where something looks wrong, Enter goes on all the same. Gives the lines that say the same."""
    screen = it.job
    values = [each.value for each in options(question)]
    if question.kind == "choices" and text:
        ticked = set((question.answer or question.usual or "").split(", ")) & set(values)
        for value in ticked ^ set(text.split(", ")):
            await it.press(str(values.index(value) + 1), "space")
    elif values and text:
        await it.press(str(values.index(text) + 1))
    elif text:
        screen.query_one(Editor).value = text
    await it.press("enter")
    if question.kind == "add" and text:
        # Another one may be added: the same field is in hand again.
        await it.until(lambda: screen.query_one(Editor).value == "")
        return [text]
    await it.until(lambda: screen.session.at != question.key or screen.pages.hand.held or screen.job.view != "page")
    if not screen.pages.hand.held:
        return [text]
    await it.heeded()
    await it.press("enter")
    await it.until(lambda: screen.session.at != question.key or screen.job.view != "page")
    return [text, ""]


async def on_the_screens(folder: Path) -> tuple[bytes, list[str]]:
    """The file, and the lines that say the same in plain mode."""
    # The dialog says inches or metric, which plain mode asks as its first field.
    lines, left = [f".new {NAME}", ""], dict(FOOT_ONLY)
    async with opened(folder, (60, 20)) as it:
        await it.over("f8")
        await it.typed(NAME, "enter")
        await it.until(lambda: it.focused in ("field", "page-body"))
        session = it.session
        while (question := session.current()) is not None and it.job.job.view == "page":
            lines += await answer(it, question, left.pop(question.key, ""))
        await it.press("f9", focus="steps")
        for number in range(1, len(session.plan.work) + 1):
            await it.press("enter")
            await it.until(lambda number=number: len(session.project.work) == number)
            lines.append("done")
        session.leave()
    assert not left, f"never asked: {sorted(left)}"
    return (folder / FILE).read_bytes(), lines


@pytest.mark.long
async def test_plain_lines_make_the_file_that_the_screens_make(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for module in ("interview.job_files", "prompts.project_list"):
        monkeypatch.setattr(f"wizard.{module}.clock", lambda: NOON)
    (tmp_path / "screens").mkdir()
    (tmp_path / "plain").mkdir()
    made, lines = await on_the_screens(tmp_path / "screens")
    heard = told(tmp_path / "plain", *lines, ".quit")
    assert worded("all ticked") in heard
    assert (tmp_path / "plain" / FILE).read_bytes() == made


# One figure reads the same wherever it stands: on the real screen, in text, on paper, in JSON and in CSV.
STEPS = 6
"""So many steps are walked through: buying, washing, and how the face cloth is cut out."""
MEASURES = "section run gathered drop flat fullness tape cut"
"""Heads of the table that has a row for each section, whose lengths stand without their unit."""


def shown_in(it: Screens, selector: str) -> str:
    """The words in the place of a widget on the screen, blanks as they come."""
    app = it.app
    place = app.screen.query_one(selector).region
    lines = ["".join(segment.text for segment in strip) for strip in app.screen._compositor.render_strips(app.size)]
    return " ".join(" ".join(line[place.x : place.right] for line in lines[place.y : place.bottom]).split())


async def all_of(it: Screens, selector: str) -> str:
    """The words in the place of a widget that scrolls, page after page."""
    pane = it.top.query_one(selector)
    found = [shown_in(it, selector)]
    while pane.scroll_y < pane.max_scroll_y:
        before = pane.scroll_y
        await it.press("pagedown")
        await it.until(lambda before=before: before < pane.scroll_y == pane.scroll_target_y)
        found.append(shown_in(it, selector))
    return " ".join(found)


def parted(panel: str, sections: list[dict[str, Any]]) -> list[str]:
    """What the plan so far says of each section, by itself."""
    begin = [panel.index(each["name"].capitalize()) for each in sections]
    assert begin == sorted(begin)
    return [panel[first:last] for first, last in zip(begin, [*begin[1:], len(panel)], strict=True)]


async def test_a_figure_reads_the_same_on_the_screen_in_text_on_paper_in_json_and_in_csv(tmp_path: Path) -> None:
    path = tmp_path / "gannet.toml"
    path.write_bytes(data())
    plan, sheets = demo_plan(), (*USUAL, "workings")
    text = " ".join(render(plan, Request("text", sheets, None, 240)).split())
    page = words_of(render(plan, Request("html", sheets)))
    figures = json.loads(render(plan, Request("json")))
    rows = list(csv.DictReader(io.StringIO(render(plan, Request("csv")), newline="")))
    async with opened(path, (140, 60)) as it:

        def begins(title: str) -> bool:
            return shown_in(it, "#step-text").startswith(title)

        await it.until(lambda: it.focused == "steps")
        for step in plan.work[:STEPS]:
            await it.until(partial(begins, step.title))
            on_screen = shown_in(it, "#step-text")
            for line in (*step.lines, *step.listed):
                assert line in on_screen
                # What is bought, and every piece, is a row of a table there.
                if step.id != "buy" and line not in step.listed:
                    assert line in text
                    assert line in page
            await it.press("down")
        await it.press("f7")
        await it.until(lambda: "from the roll" in shown_in(it, "#cutting"))
        cutting = await all_of(it, "#cutting")
        bought = {each["id"]: each["amount"] for each in figures["purchases"]}
        for layer in figures["layers"]:
            used, roll, buy = layer["used"]["text"], layer["roll"]["text"], bought[f"cloth:{layer['id']}"]
            for words in (f"cloth used {used} ", f"from the roll {roll} ", f"to buy {buy} "):
                assert words in cutting
            assert f"cloth used {used} from the roll {roll} to buy {buy} " in text
            assert f"cloth used {used} from the roll {roll} to buy {buy} " in page
            for section in figures["sections"]:
                own = [row for row in rows if (row["layer"], row["section"]) == (layer["id"], section["name"])]
                assert all(f"{row['long']} long × {row['wide']} wide: {section['name']}" in cutting for row in own)
        await it.search("weight", "enter", at="cloth.face.weight")
        await it.until(lambda: "gathered" in shown_in(it, "#so-far"))
        panel = shown_in(it, "#so-far")
        for section, said in zip(figures["sections"], parted(panel, figures["sections"]), strict=True):
            for name in ("run", "gathered", "drop", "tape"):
                assert f"{name} {section[name]['text']}" in said
            told = (section[each]["text"] for each in ("run", "gathered", "drop", "flat_made", "fullness", "tape"))
            row = f"{section['name']} {' '.join(told)} ".replace(" in ", " ")
            assert row in text.partition(MEASURES)[2].partition("daylight")[0]
            assert row in page.partition(MEASURES)[2].partition("daylight")[0]
