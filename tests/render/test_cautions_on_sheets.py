"""On each sheet every caution stands in full once, before the first step that needs it, and is named before later ones.

A sheet is carried alone, and so is the page of each cloth at the cutting table.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

import pytest

from tests.render.jobs import FIXINGS, cautioned_plan
from tests.render.test_every_figure import plan_called
from tests.render.test_forms import words_of
from wizard.render.document import Work
from wizard.render.formats import Request, render
from wizard.render.sheet_kinds import sheets_of
from wizard.render.sheet_names import Format, SheetId
from wizard.trade.cautions import CAUTIONS
from wizard.trade.plan_records import Plan, Step

JOBS = (*FIXINGS, "heron-loft", "demo-gannet-stair", *map(str, range(12)))
FORMS: tuple[Format, ...] = ("text", "html")
"""What is read in a terminal, and what is printed."""


@pytest.fixture(params=JOBS)
def plan(request: pytest.FixtureRequest) -> Plan:
    """Every way of fixing with everything there is to beware of, and beds of every shape."""
    return cautioned_plan(request.param) if request.param in FIXINGS else plan_called(request.param)


def page_of(plan: Plan, sheet: SheetId, form: Format) -> str:
    """The words of a sheet, one blank apart."""
    written = render(plan, Request(form, (sheet,), None, 400))
    return words_of(written) if form == "html" else " ".join(written.split())


def steps_at_once(plan: Plan, steps: Iterable[Step]) -> dict[str, list[Step]]:
    """What is printed as one step -> that step of every section: `Hem: linen`."""
    names, found = {part.id: part.name for part in plan.parts}, dict[str, list[Step]]()
    for step in steps:
        found.setdefault(step.id.removesuffix(f":{step.section}"), []).append(step)
    return {
        (of[0].title if len(of) == 1 else of[0].title[: -len(names[of[0].section or ""])].rstrip(":, ")): of
        for of in found.values()
    }


def wrong(plan: Plan, steps: Iterable[Step], page: str, *, bare: bool = False) -> Iterator[tuple[str, str]]:
    """Steps and the cautions that are not where they belong. What stands before a step's title is read before it.
    `bare`: the titles stand without what the steps are done to."""
    once = {title.partition(": ")[0] if bare else title: of for title, of in steps_at_once(plan, steps).items()}
    full, start = set[str](), 0
    for at, title in sorted((page.index(f"{title} ("), title) for title in once):
        ahead, start = page[start:at], at
        cautions = {each.id: each.sentence for step in once[title] for each in step.cautions}
        for id, sentence in cautions.items():
            if (sentence in ahead) is (id in full) or (id in full and CAUTIONS[id].note not in ahead):
                yield title, id
            if page.count(sentence) != 1:
                yield title, f"{id} is there {page.count(sentence)} times"
        full |= {*cautions}


def test_every_step_but_buying_is_on_one_of_the_usual_sheets(plan: Plan) -> None:
    works = [block for made in sheets_of(plan) for block in made.blocks if isinstance(block, Work)]
    ids = [box.id for block in works for step in block.items for box in step.boxes]
    assert sorted(ids) == sorted(each.id for each in plan.work if each.id != "buy")


@pytest.mark.parametrize(("sheet", "stage"), [("making-up", "Making up"), ("hanging", "Hanging")])
def test_on_the_sheets_of_a_stage(plan: Plan, sheet: SheetId, stage: str) -> None:
    steps = [each for each in plan.work if each.stage == stage]
    assert steps
    for form in FORMS:
        assert list(wrong(plan, steps, page_of(plan, sheet, form))) == []


@pytest.mark.parametrize("form", FORMS)
def test_on_the_page_of_each_cloth(plan: Plan, form: Format) -> None:
    page, measured = page_of(plan, "table", form), [each for each in plan.work if each.id == "measure"]
    starts = [each.start() for each in re.finditer(r"(Face|Interlining|Lining)(: [^:]+?)? (─+ )?usable width ", page)]
    dear = 0
    for layer, start, end in zip(plan.layers, starts, [*starts[1:], len(page)], strict=True):
        own, words = [each for each in plan.work if each.id.endswith(f":{layer.id}")], page[start:end]
        assert {each.stage for each in own} <= {"Cloth", "Cutting"}
        again = [each for each in measured if each.title in words]
        dear += len(again)
        assert list(wrong(plan, [*own, *again], words, bare=True)) == []
    assert dear == len(measured)


@pytest.mark.parametrize("form", FORMS)
def test_in_the_shop(plan: Plan, form: Format) -> None:
    """No step of the work is on that sheet: what is to be thought of before buying stands above the list."""
    page, buy = page_of(plan, "shop", form), next(each for each in plan.work if each.id == "buy")
    list_at = page.index(plan.purchases[0].what)
    assert [each.id for each in buy.cautions if page.count(each.sentence) != 1] == []
    assert all(page.index(each.sentence) < list_at for each in buy.cautions)


def test_a_caution_about_some_sections_names_them() -> None:
    page = page_of(cautioned_plan("staples"), "hanging", "text")
    assert "! Foot: There is a socket on this run: leave it uncovered" in page
    assert "! Look and feel behind the rail before every fixing" in page
