"""A caution is read before its step wherever the work is read: in JSON, on the screens, in plain lines.

On the sheets: tests/render/test_cautions_on_sheets.py.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from pathlib import Path

import pytest
from textual.widgets import Static

from tests.prompts.talks import told_of
from tests.render.jobs import FIXINGS, cautioned_plan, with_every_caution
from tests.screens.pilots import Screens, opened
from wizard.render.formats import Request, render
from wizard.screens.option_lists import Hanging
from wizard.screens.panes.large_pages import pages_of
from wizard.trade.cautions import CAUTIONS
from wizard.trade.plan_records import Plan


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
    called = {caution.id for each in FIXINGS for step in cautioned_plan(each).work for caution in step.cautions}
    assert {*CAUTIONS} - called == {"pooling", "not-washed"} - called


@pytest.mark.parametrize("fixing", FIXINGS)
def test_in_json(fixing: str) -> None:
    plan = cautioned_plan(fixing)
    made = json.loads(render(plan, Request("json")))
    sentences = {each["id"]: each["sentence"] for each in made["cautions"]}
    assert not_said(plan, [" ".join(sentences[id] for id in each["cautions"]) for each in made["work"]]) == []


@pytest.mark.parametrize("fixing", FIXINGS)
def test_in_large_figures(fixing: str) -> None:
    plan = cautioned_plan(fixing)
    first = [pages_of(step)[0] for step in plan.work]
    assert not_said(plan, [" ".join(each.words) if each.caution else "" for each in first]) == []


@pytest.mark.parametrize("fixing", ["staples", "glue"])
def test_in_plain_lines(fixing: str, tmp_path: Path) -> None:
    plan, path = cautioned_plan(fixing), tmp_path / "loft.toml"
    path.write_text(with_every_caution(fixing), encoding="utf-8")
    heard = told_of(path, ".work", f".go {plan.work[0].title}", *[""] * len(plan.work))
    assert not_said(plan, list(ahead_of(plan, heard))) == []


def step_text(it: Screens) -> str:
    """The step in hand as the checklist tells it."""
    hung = it.job.query_one("#step-text", Static).content
    return hung.content.plain if isinstance(hung, Hanging) else ""


@pytest.mark.parametrize("fixing", ["staples", "glue"])
async def test_in_the_list_of_the_work(fixing: str, tmp_path: Path) -> None:
    plan, path = cautioned_plan(fixing), tmp_path / "loft.toml"
    path.write_text(with_every_caution(fixing), encoding="utf-8")
    ahead: list[str] = []
    async with opened(path) as it:
        await it.press("f9", focus="steps")
        for step in plan.work:
            it.session.go(f"work.{step.id}")
            it.job.show()
            await it.until(lambda step=step: step.lines[0] in step_text(it))
            ahead.append(step_text(it).partition(step.lines[0])[0])
    assert not_said(plan, ahead, names=True) == []
