"""Sheets in a real browser: what comes out of the printer, what a phone shows, what a tick box remembers."""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from msgspec.structs import replace

from tests.render.browser import PAPERS, Browser, longest_runs, need_browser, pages_of
from tests.render.jobs import whole_plan
from tests.render.random_beds import random_plan
from wizard.render.html_sheet import paper_html
from wizard.render.sheet_kinds import sheets_of
from wizard.render.sheet_names import USUAL, SheetId
from wizard.trade.plan_records import Plan

JOBS = range(int(os.environ.get("RAILSKIRT_PRINTED_BEDS", "3")))
"""Seeds of the beds that are printed: a few in the suite, as many as are asked for by the variable."""
DATE = "2026-03-02"
DOTS = 300

MARKS = """
(() => {
  // A tiny word at the head and at the foot of everything that no page may split.
  const word = (text) => {
    const made = document.createElement("span");
    made.style.fontSize = "1px";
    made.textContent = ` ${text} `;
    return made;
  };
  const whole = [...document.querySelectorAll("table.large > tbody > tr, .before, li.step, .card, ul.ticks > li")];
  whole.forEach((each, number) => {
    const cells = each.tagName === "TR" ? [...each.cells] : [each];
    cells.forEach((cell) => {
      cell.prepend(word(`qa${number}z`));
      cell.append(word(`qe${number}z`));
    });
  });
  return whole.map((each) => each.tagName === "TR" ? "row" : each.className || "tick");
})()
"""

BEGINNINGS = """
(() => {
  // A tiny word at the head of each step's first caution, of its title, and of its first two lines.
  const steps = [...document.querySelectorAll("li.step")];
  steps.forEach((step, number) => {
    const before = step.querySelector(".before");
    const after = [...step.querySelectorAll("p:not(.kit)")].filter((each) => !before.contains(each));
    [before.firstChild, before.lastChild, ...after.slice(0, 2)].forEach((each) => {
      const made = document.createElement("span");
      made.style.fontSize = "1px";
      made.textContent = ` qa${number}z `;
      each.prepend(made);
    });
  });
  return steps.length;
})()
"""


@pytest.fixture(scope="module")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    need_browser()
    opened = Browser(tmp_path_factory.mktemp("browser"))
    yield opened
    opened.close()


def opened(browser: Browser, plan: Plan, folder: Path, only: tuple[SheetId, ...] | None = None) -> None:
    file = folder / "sheets.html"
    file.write_text(paper_html(plan, only, DATE), encoding="utf-8")
    browser.open(file)


def printed(browser: Browser, folder: Path, paper: str) -> Path:
    target = folder / f"{paper}.pdf"
    browser.print_to(target, paper)
    return target


def places(pages: list[str]) -> dict[int, set[int]]:
    """Number of what was marked -> the pages on which its words lie."""
    found: dict[int, set[int]] = {}
    for page, words in enumerate(pages):
        for number in re.findall(r"q[ae](\d+)z", words):
            found.setdefault(int(number), set()).add(page)
    return found


@pytest.mark.long
@pytest.mark.parametrize("seed", JOBS)
def test_no_page_splits_a_row_of_a_cut_list_or_a_step_from_its_caution(
    seed: int, browser: Browser, tmp_path: Path
) -> None:
    plan = random_plan(seed)
    assert plan.complete
    opened(browser, plan, tmp_path)
    kinds = browser.value(MARKS)
    assert kinds.count("row") == sum(len(layer.cutting.best.pieces) for layer in plan.layers if layer.cutting)
    assert kinds.count("before") == kinds.count("step whole") == len(plan.work)
    for paper in PAPERS:
        found = places(pages_of(printed(browser, tmp_path, paper)))
        assert sorted(found) == list(range(len(kinds)))
        split = [(kinds[number], number, pages) for number, pages in found.items() if len(pages) > 1]
        assert split == []


def test_a_step_taller_than_a_page_keeps_its_cautions_its_title_and_its_first_lines_together(
    browser: Browser, tmp_path: Path
) -> None:
    short = tuple(f"Line {number}: so much of it." for number in range(110))
    mixed = tuple(f"{'Pin' if number % 2 else 'Stitch'} place {number}, and look." for number in range(65))
    long = ("Whatever was said about this cloth. " * 170,)
    steps = [step for step in whole_plan().work if step.stage == "Making up"]
    grown = [replace(step, lines=(short, step.lines, mixed, long)[number % 4]) for number, step in enumerate(steps)]
    plan = replace(whole_plan(), work=tuple(grown))
    opened(browser, plan, tmp_path, ("making-up",))
    assert browser.value(BEGINNINGS) == len(grown)
    # First as it is; then as it is where a browser gives up on keeping a step whole that no page holds.
    for given_up in ("", "document.querySelectorAll('li.step').forEach((each) => each.classList.remove('whole'))"):
        browser.value(given_up)
        found = places(pages_of(printed(browser, tmp_path, "A4")))
        assert sorted(found) == list(range(len(grown)))
        assert [(number, on) for number, on in found.items() if len(on) > 1] == []


@pytest.mark.parametrize("paper", PAPERS)
def test_every_page_carries_project_units_date_mark_and_its_number(
    paper: str, browser: Browser, tmp_path: Path
) -> None:
    plan = whole_plan()
    opened(browser, plan, tmp_path)
    mark = browser.value("document.documentElement.dataset.mark")
    pages = pages_of(printed(browser, tmp_path, paper))
    assert len(pages) > len(USUAL)
    for number, words in enumerate(pages, start=1):
        flat = " ".join(words.split())
        assert len(words.strip().splitlines()) > 2, "a page with nothing but its head and its number"
        assert flat.startswith("Juniper loft · ")
        assert f"inches, to 1/16 in · plan mark {mark}, {DATE}" in flat
        assert flat.endswith(f"page {number} of {len(pages)}")


@pytest.mark.parametrize("paper", PAPERS)
def test_the_lines_to_check_the_printer_by_are_ten_centimetres_and_four_inches_long(
    paper: str, browser: Browser, tmp_path: Path
) -> None:
    opened(browser, whole_plan(), tmp_path)
    pdf = printed(browser, tmp_path, paper)
    firsts = [number for number, words in enumerate(pages_of(pdf), start=1) if "Lay a ruler on these lines." in words]
    assert len(firsts) == len(sheets_of(whole_plan()))
    runs = longest_runs(pdf, firsts[0], DOTS)
    # 10 cm is 1181.1 dots, 4 in is 1200; a dot is 0.085 mm.
    assert {1181, 1200} <= {near for run in runs for near in (run - 1, run, run + 1)}


def test_ticks_are_found_again_after_a_reload_and_belong_to_their_plan(browser: Browser, tmp_path: Path) -> None:
    opened(browser, whole_plan(), tmp_path)
    ticked = "[...document.querySelectorAll('input:checked')].map((each) => each.dataset.tick)"
    assert browser.value(ticked) == []
    boxes = browser.value("document.querySelectorAll('input[data-tick]').length")
    assert boxes == len(whole_plan().work) + len(whole_plan().purchases)
    for id in ("buy:tape", "hem:face:left"):
        browser.value(f"document.querySelector('input[data-tick=\"{id}\"]').click()")
    browser.reload()
    assert browser.value(ticked) == ["buy:tape", "hem:face:left"]
    browser.value("document.querySelector('input:checked').click()")
    browser.reload()
    assert browser.value(ticked) == ["hem:face:left"]
    opened(browser, random_plan(1), tmp_path)
    assert browser.value(ticked) == []


def test_nothing_is_fetched_and_all_of_it_is_there_without_scripts(browser: Browser, tmp_path: Path) -> None:
    opened(browser, whole_plan(), tmp_path)
    seen = browser.value("document.body.innerText")
    browser.requests.clear()
    browser.without_scripts(True)
    try:
        browser.reload()
        without = browser.value("document.body.innerText")
    finally:
        browser.without_scripts(False)
    assert without == seen
    assert browser.requests == [(tmp_path / "sheets.html").as_uri()]


def test_a_phone_shows_it_without_scrolling_sideways(browser: Browser, tmp_path: Path) -> None:
    browser.narrow(360)
    try:
        opened(browser, random_plan(2), tmp_path)
        assert browser.value("document.documentElement.scrollWidth") <= 360
    finally:
        browser.any_width()


def test_the_page_complains_of_nothing(browser: Browser, tmp_path: Path) -> None:
    browser.complaints.clear()
    opened(browser, whole_plan(), tmp_path)
    assert browser.complaints == []


def test_a_script_that_came_in_by_a_name_would_not_run(browser: Browser, tmp_path: Path) -> None:
    opened(browser, whole_plan(), tmp_path)
    image = "<img src=x onerror='window.ran = true'>"
    browser.value(f'document.body.insertAdjacentHTML("beforeend", "{image}")')
    browser.value("new Promise((done) => setTimeout(done, 200))")
    assert browser.value("window.ran") is None
