"""A caution is read before its step wherever the work is read: on paper, in JSON, on the screens, in plain lines."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Iterator, Sequence
from html import unescape
from pathlib import Path
from typing import get_args

import pytest
import tomli_w
from textual.pilot import Pilot
from textual.widgets import Static

from tests.prompts.talks import told_of
from tests.render.jobs import WHOLE, project_of
from tests.screens.pilots import focused, job, opened, until
from wizard.project.plan_of_project import plan_of
from wizard.render.document import Work
from wizard.render.formats import Request, render
from wizard.render.sheet_kinds import sheets_of
from wizard.render.sheet_names import SheetId
from wizard.screens.option_lists import Hanging
from wizard.screens.panes.large_pages import pages_of
from wizard.trade.cautions import CAUTIONS
from wizard.trade.job_fields import FixingKind, Watch
from wizard.trade.plan_records import Plan

FIXINGS = get_args(FixingKind)
SHOP: tuple[SheetId, ...] = ("shop",)


def everything(fixing: str) -> str:
    """A job with everything about the bed and its runs that calls for a caution, fixed in one way."""
    tables = tomllib.loads(WHOLE)
    tables["survey"]["watch"] = list(get_args(Watch))
    tables["survey"]["section"]["foot"]["in_the_way"] = {
        kind: {"kind": kind, "at": "20 in", "width": "1 in", "do": "no fixing"} for kind in ("heater", "vent", "socket")
    }
    tables["cloth"]["fixing"]["kind"] = fixing
    return tomli_w.dumps(tables)


def plan_fixed_by(fixing: str) -> Plan:
    return plan_of(project_of(everything(fixing)))


def ahead_of(plan: Plan, text: str) -> Iterator[str]:
    """What is read before each step's first line, from the first line of the step before it on."""
    rest = " ".join(text.split())
    for step in plan.work:
        ahead, found, rest = rest.partition(" ".join(step.lines[0].split()))
        assert found, step.id
        assert step.title in ahead, step.id
        yield ahead


def not_said(plan: Plan, ahead: Sequence[str], *, names: bool = False) -> list[tuple[str, str]]:
    """Steps and the cautions missing before them. With `names`, only the first step of a kind in a stage has the
    sentence, and each later one the name."""
    missing, full = [], set[tuple[str, str, str]]()
    for step, words in zip(plan.work, ahead, strict=True):
        for caution in step.cautions:
            kind = (step.stage, step.id.partition(":")[0], caution.id)
            named = names and kind in full
            if (caution.sentence in words) is named or (named and CAUTIONS[caution.id].note not in words):
                missing.append((step.id, caution.id))
            full.add(kind)
    return missing


def test_these_jobs_call_for_every_caution_before_some_step() -> None:
    called = {caution.id for each in FIXINGS for step in plan_fixed_by(each).work for caution in step.cautions}
    assert {*CAUTIONS} - called == {"pooling", "not-washed"} - called


def not_on_sheet(plan: Plan, sheet: SheetId, read: str) -> list[tuple[str, str]]:
    """Steps of a sheet and the cautions missing before them: each in full once, and its name before later steps.

    The cutting table is a page a cloth, and each is carried alone.
    """
    missing, rest = list[tuple[str, str]](), " ".join(read.split())
    own = {each.id: each.cautions for each in plan.work}
    (made,) = sheets_of(plan, [sheet])
    for block in (each for each in made.blocks if isinstance(each, Work)):
        full = set[str]()
        for step in block.items:
            ahead, found, rest = rest.partition(step.title)
            assert found, step.title
            for caution in {each.id: each for box in step.boxes for each in own[box.id]}.values():
                said = CAUTIONS[caution.id].note if caution.id in full else caution.sentence
                missing += [] if said in ahead else [(step.title, caution.id)]
                full.add(caution.id)
    return missing


def with_steps(plan: Plan) -> list[SheetId]:
    """The usual sheets that have steps of the work. Every step but buying is on one of them."""
    found = {each.id: [block for block in each.blocks if isinstance(block, Work)] for each in sheets_of(plan)}
    on = {box.id for blocks in found.values() for block in blocks for step in block.items for box in step.boxes}
    assert on | {"buy"} == {each.id for each in plan.work}
    return [id for id, blocks in found.items() if blocks]


def before_the_list(plan: Plan, read: str, mark: str) -> list[str]:
    """The cautions of buying that are missing before the list of what to buy."""
    (buy,) = (each for each in plan.work if each.id == "buy")
    ahead = " ".join(read.partition(mark)[0].split())
    return [each.id for each in buy.cautions if each.sentence not in ahead]


@pytest.mark.parametrize("fixing", FIXINGS)
def test_in_text(fixing: str) -> None:
    plan = plan_fixed_by(fixing)
    for sheet in with_steps(plan):
        assert not_on_sheet(plan, sheet, render(plan, Request("text", [sheet], columns=80))) == []
    assert before_the_list(plan, render(plan, Request("text", SHOP)), "[ ]") == []


@pytest.mark.parametrize("fixing", FIXINGS)
def test_on_the_page(fixing: str) -> None:
    plan = plan_fixed_by(fixing)
    for sheet in with_steps(plan):
        page = render(plan, Request("html", [sheet]))
        steps = page[page.index('<ol class="steps') :].replace("\N{NO-BREAK SPACE}", " ")
        # A title names its boxes too, for those who listen.
        assert not_on_sheet(plan, sheet, unescape(re.sub(r"<[^>]+>", " ", steps))) == []
    shop = render(plan, Request("html", SHOP)).replace("\N{NO-BREAK SPACE}", " ")
    assert before_the_list(plan, unescape(shop), "<input") == []


@pytest.mark.parametrize("fixing", FIXINGS)
def test_in_json(fixing: str) -> None:
    plan = plan_fixed_by(fixing)
    made = json.loads(render(plan, Request("json")))
    sentences = {each["id"]: each["sentence"] for each in made["cautions"]}
    assert not_said(plan, [" ".join(sentences[id] for id in each["cautions"]) for each in made["work"]]) == []


@pytest.mark.parametrize("fixing", FIXINGS)
def test_in_large_figures(fixing: str) -> None:
    plan = plan_fixed_by(fixing)
    first = [pages_of(step)[0] for step in plan.work]
    assert not_said(plan, [" ".join(each.words) if each.caution else "" for each in first]) == []


@pytest.mark.parametrize("fixing", ["staples", "glue"])
def test_in_plain_lines(fixing: str, tmp_path: Path) -> None:
    plan, path = plan_fixed_by(fixing), tmp_path / "loft.toml"
    path.write_text(everything(fixing), encoding="utf-8")
    heard = told_of(path, ".work", f".go {plan.work[0].title}", *[""] * len(plan.work))
    assert not_said(plan, list(ahead_of(plan, heard))) == []


def step_text(pilot: Pilot[int]) -> str:
    """The step in hand as the checklist tells it."""
    hung = job(pilot).query_one("#step-text", Static).content
    return hung.content.plain if isinstance(hung, Hanging) else ""


@pytest.mark.parametrize("fixing", ["staples", "glue"])
async def test_in_the_list_of_the_work(fixing: str, tmp_path: Path) -> None:
    plan, path = plan_fixed_by(fixing), tmp_path / "loft.toml"
    path.write_text(everything(fixing), encoding="utf-8")
    ahead: list[str] = []
    async with opened(path) as pilot:
        await pilot.press("f9")
        await until(pilot, lambda: focused(pilot) == "steps")
        for step in plan.work:
            job(pilot).session.go(f"work.{step.id}")
            job(pilot).show()
            await until(pilot, lambda step=step: step.lines[0] in step_text(pilot))
            ahead.append(step_text(pilot).partition(step.lines[0])[0])
    assert not_said(plan, ahead, names=True) == []
