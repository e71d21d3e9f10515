"""Sheets in a real browser: what comes out of the printer, what a phone shows, what a tick box remembers."""

from __future__ import annotations

import os
import re
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import replace

from tests.render.browser import Browser, longest_runs, need_browser, pages_of, sizes_of
from tests.render.golden_files import demo_plan
from tests.render.jobs import loft_plan, metric_plan, named_jobs, project_of, random_plan, whole_plan
from wizard.project.plan_of_project import plan_of
from wizard.render.html_sheet import paper_html
from wizard.render.sheet_names import LABEL_GRIDS, PAPERS, TITLES, USUAL, LabelGrid, PaperId, SheetId
from wizard.trade.plan_records import Plan

JOBS = range(int(os.environ.get("RAILSKIRT_PRINTED_BEDS", "3")))
"""Seeds of the beds that are printed: a few in the suite, as many as are asked for by the variable."""
DATE = "2026-03-02"
DOTS = 300
POINTS = {"a4": (595, 842), "letter": (612, 792)}
PIXELS = {"a4": 699, "letter": 721}
"""What is between the margins of a page."""

MARKS = """
(() => {
  // A tiny word at the head and at the foot of everything that no page may split.
  const word = (text) => {
    const made = document.createElement("span");
    made.style.fontSize = "1px";
    made.textContent = ` ${text} `;
    return made;
  };
  const whole = [...document.querySelectorAll(
    "table:not(.sheet) > tbody > tr, .before, li.step, .card, ul.points > li, figure figcaption"
  )];
  whole.forEach((each, number) => {
    const cells = each.tagName === "TR" ? [...each.cells] : [each];
    cells.forEach((cell) => {
      cell.prepend(word(`qa${number}z`));
      cell.append(word(`qe${number}z`));
    });
  });
  return whole.map((each) => each.tagName === "TR" ? each.closest("table").className : each.className || each.tagName);
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

CUT_OFF = """
[...document.querySelectorAll("main *")]
  .filter((each) => !each.closest("svg") && !each.closest(".hidden"))
  .filter((each) => each.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
  .map((each) => each.outerHTML.slice(0, 120))
"""


@pytest.fixture(scope="module")
def browser(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    need_browser()
    opened = Browser(tmp_path_factory.mktemp("browser"))
    yield opened
    opened.close()


def opened(browser: Browser, plan: Plan, folder: Path, *only: SheetId, **more: Any) -> None:
    file = folder / "sheets.html"
    file.write_text(paper_html(plan, only or None, DATE, **more), encoding="utf-8")
    browser.open(file)


def printed(browser: Browser, folder: Path) -> Path:
    target = folder / "sheets.pdf"
    browser.print_to(target)
    return target


def ticks(browser: Browser, which: str) -> list[str]:
    """What is ticked in such boxes."""
    found: list[str] = browser.value(f"[...document.querySelectorAll('{which}')].map((each) => each.dataset.tick)")
    return found


def places(pages: list[str]) -> dict[int, set[int]]:
    """Number of what was marked -> the pages on which its words are."""
    found: dict[int, set[int]] = {}
    for page, words in enumerate(pages):
        for number in re.findall(r"q[ae](\d+)z", words):
            found.setdefault(int(number), set()).add(page)
    return found


def pieces_in(plan: Plan) -> int:
    """How many pieces are cut."""
    return sum(len(layer.cutting.best.pieces) for layer in plan.layers if layer.cutting)


def sheets_on(pages: list[str]) -> list[str]:
    """The sheet that each page says it belongs to."""
    return [re.findall(rf"^ *({'|'.join(TITLES.values())}) · ", words, re.MULTILINE)[0] for words in pages]


@pytest.mark.long
@pytest.mark.parametrize("seed", JOBS)
def test_no_page_splits_a_row_a_step_or_a_caution_and_nothing_is_cut_off(
    seed: int, browser: Browser, tmp_path: Path
) -> None:
    plan = random_plan(seed)
    assert plan.complete
    for paper in PAPERS:
        opened(browser, plan, tmp_path, paper=paper)
        with browser.as_wide_as(PIXELS[paper], "print"):
            assert browser.value(CUT_OFF) == []
        kinds = browser.value(MARKS)
        assert kinds.count("figures large") == pieces_in(plan)
        assert kinds.count("before") == kinds.count("step whole")
        found = places(pages_of(printed(browser, tmp_path)))
        assert sorted(found) == list(range(len(kinds)))
        split = [(kinds[number], number, pages) for number, pages in found.items() if len(pages) > 1]
        assert split == []


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("job", "most"), [("demo", 12), ("loft", 12), ("five", 16)])
def test_a_job_takes_a_dozen_pages_and_one_of_five_sections_sixteen(
    job: str, most: int, paper: PaperId, browser: Browser, tmp_path: Path
) -> None:
    plan = demo_plan() if job == "demo" else loft_plan(5 if job == "five" else 3)
    opened(browser, plan, tmp_path, paper=paper)
    pdf = printed(browser, tmp_path)
    on = sheets_on(pages_of(pdf))
    assert len(on) <= most
    assert list(dict.fromkeys(on)) == [TITLES[each] for each in USUAL]
    assert [on.count(TITLES[each]) for each in ("overview", "shop", "marks", "care")] == [1, 1, 1, 1]
    assert sizes_of(pdf) == {POINTS[paper]}


@pytest.mark.parametrize("paper", PAPERS)
def test_a_cloth_takes_one_page_with_large_figures_and_lines_to_check_the_printer_by(
    paper: PaperId, browser: Browser, tmp_path: Path
) -> None:
    plan = loft_plan()
    opened(browser, plan, tmp_path, "table", paper=paper)
    pdf = printed(browser, tmp_path)
    pages = pages_of(pdf)
    assert len(pages) == len(plan.layers)
    for words in pages:
        flat = " ".join(words.split())
        for each in ("usable width", "Cut out ", "Cut list: ", "Left over of ", "Lay a ruler on these lines."):
            assert flat.count(each) == 1, each
    # 10 cm is 1181.1 dots, 4 in is 1200; a dot is 0.085 mm.
    assert {1181, 1200} <= {near for run in longest_runs(pdf, 1, DOTS) for near in (run - 1, run, run + 1)}
    with browser.as_wide_as(PIXELS[paper], "print"):
        pixels = browser.value(
            "[...document.querySelectorAll('td.afar')].map((each) => getComputedStyle(each).fontSize)"
        )
    sizes = [float(each.removesuffix("px")) * 0.75 for each in pixels]
    assert len(sizes) == 2 * pieces_in(plan)
    assert min(sizes) >= 14


@pytest.mark.parametrize("paper", PAPERS)
def test_a_cut_list_is_on_one_page_with_its_drawing_where_the_steps_leave_no_room(
    paper: PaperId, browser: Browser, tmp_path: Path
) -> None:
    plan = plan_of(project_of(named_jobs()["13-sections-one-width-too-many"]))
    opened(browser, plan, tmp_path, "table", paper=paper)
    pages = pages_of(printed(browser, tmp_path))
    assert [("Cut list" in words, "Lay a ruler" in words) for words in pages] == [(False, False), (True, True)]


def test_a_step_taller_than_a_page_keeps_its_cautions_its_title_and_its_first_lines_together(
    browser: Browser, tmp_path: Path
) -> None:
    short = tuple(f"Line {number}: so much of it." for number in range(110))
    mixed = tuple(f"{'Pin' if number % 2 else 'Stitch'} place {number}, and look." for number in range(65))
    long = ("Whatever was said about this cloth. " * 170,)
    steps = [step for step in whole_plan().work if step.stage == "Making up"]
    kinds = list(dict.fromkeys(step.id.partition(":")[0] for step in steps))
    lines = {kind: (short, None, mixed, long)[number % 4] for number, kind in enumerate(kinds)}
    grown = [replace(step, lines=lines[step.id.partition(":")[0]] or step.lines) for step in steps]
    plan = replace(whole_plan(), work=tuple(grown))
    opened(browser, plan, tmp_path, "making-up")
    count = browser.value(BEGINNINGS)
    # First as it is; then as it is where a browser gives up on keeping a step whole that no page holds.
    for given_up in ("", "document.querySelectorAll('li.step').forEach((each) => each.classList.remove('whole'))"):
        browser.value(given_up)
        found = places(pages_of(printed(browser, tmp_path)))
        assert sorted(found) == list(range(count))
        assert [(number, on) for number, on in found.items() if len(on) > 1] == []


@pytest.mark.parametrize("paper", PAPERS)
def test_every_page_carries_job_client_sheet_units_marks_date_and_its_number(
    paper: PaperId, browser: Browser, tmp_path: Path
) -> None:
    plan = replace(whole_plan(), job=replace(whole_plan().job, client="Willow House"))
    opened(browser, plan, tmp_path, paper=paper)
    mark = browser.value("document.documentElement.dataset.mark")
    pages = pages_of(printed(browser, tmp_path))
    for number, words in enumerate(pages, start=1):
        flat = " ".join(words.split())
        assert len(words.strip().splitlines()) > 3, "a page with nothing but its head and its number"
        assert f"page {number} of {len(pages)}" in flat
        assert f"{sheets_on([words])[0]} · Juniper loft · Willow House" in flat
        assert re.search(rf"inches, to 1/16 in, ≈ rounded · plan mark {mark}, cuts [0-9A-Z]{{4}}, {DATE}", flat)


def test_the_paper_goes_with_the_units_of_the_job(browser: Browser, tmp_path: Path) -> None:
    for plan, paper in ((whole_plan(), "letter"), (metric_plan(), "a4")):
        opened(browser, plan, tmp_path, "care")
        assert sizes_of(printed(browser, tmp_path)) == {POINTS[paper]}


CELLS = """
[...document.querySelectorAll(".card")].map((each) => {
  const { left, top, width, height } = each.getBoundingClientRect();
  const page = each.parentElement.getBoundingClientRect();
  const full = [...each.children].some((one) => one.getBoundingClientRect().bottom > top + height);
  return [left, top - page.top, width, height].map((each) => Math.round(each / 0.96) / 100).concat(full);
})
"""
"""Place and size of every label on its page, in inches, and whether something in it sticks out."""


@pytest.mark.parametrize("grid", [each for each in LABEL_GRIDS if each != "cut"])
def test_labels_are_printed_into_the_cells_of_a_label_sheet_and_fit(
    grid: LabelGrid, browser: Browser, tmp_path: Path
) -> None:
    across, down = map(int, grid.split("x"))
    paper = "a4" if LABEL_GRIDS[grid].startswith("A4") else "letter"
    for plan in (loft_plan(5), random_plan(4)):
        opened(browser, plan, tmp_path, "labels", labels=grid)
        pdf = printed(browser, tmp_path)
        with browser.as_wide_as({"a4": 794, "letter": 816}[paper], "print"):
            cells = browser.value(CELLS)
        assert sizes_of(pdf) == {POINTS[paper]}
        assert len(pages_of(pdf)) == -(-len(cells) // (across * down))
        assert not any(full for *_, full in cells)
        lefts, tops = (sorted({cell[at] for cell in cells[: across * down]}) for at in (0, 1))
        assert len(lefts) == min(across, len(cells))
        wide, high = {"a4": (8.27, 11.69), "letter": (8.5, 11)}[paper]
        # The margins on both sides are alike, whatever they are.
        if len(lefts) == across:
            assert lefts[0] == pytest.approx(wide - lefts[-1] - cells[0][2], abs=0.03)
        if len(tops) == down:
            assert tops[0] == pytest.approx(high - tops[-1] - cells[0][3], abs=0.05)
        assert all(later - sooner == pytest.approx(cells[0][3], abs=0.02) for sooner, later in pairwise(tops))


def test_ticks_are_found_again_after_a_reload_and_belong_to_their_plan(browser: Browser, tmp_path: Path) -> None:
    opened(browser, whole_plan(), tmp_path)
    assert ticks(browser, "input:checked") == []
    ids = ticks(browser, "input[data-tick]")
    assert len(set(ids)) == len(ids)
    assert {each.id for each in whole_plan().work} <= {*ids, "buy"}
    for id in ("buy:tape", "hem:face:left"):
        browser.value(f"document.querySelector('input[data-tick=\"{id}\"]').click()")
    browser.reload()
    assert ticks(browser, "input:checked") == ["buy:tape", "hem:face:left"]
    browser.value("document.querySelector('input:checked').click()")
    browser.reload()
    assert ticks(browser, "input:checked") == ["hem:face:left"]
    opened(browser, random_plan(1), tmp_path)
    assert ticks(browser, "input:checked") == []


OPEN = """
[...document.querySelectorAll("li.step")].filter((each) => each.querySelector("details")?.open)
  .map((each) => each.querySelector("input").dataset.tick)
"""


def test_a_phone_unfolds_the_step_in_hand_and_the_next_one_when_it_is_ticked(browser: Browser, tmp_path: Path) -> None:
    opened(browser, whole_plan(), tmp_path, "making-up", "hanging")
    steps = ticks(browser, "li.step input:first-of-type")
    all_open = browser.value(OPEN)
    assert all_open[0] == steps[0]
    assert len(all_open) == browser.value("document.querySelectorAll('li.step').length")
    with browser.as_wide_as(390):
        browser.reload()
        assert browser.value(OPEN) == all_open[:1]
        tick = "document.querySelectorAll('li.step')[0].querySelectorAll('input').forEach((each) => each.click())"
        browser.value(tick)
        assert browser.value(OPEN) == all_open[1:2]
        browser.reload()
        assert browser.value(OPEN) == all_open[1:2]
        # What may hurt is never folded away, and on paper nothing is.
        seen = "[...document.querySelectorAll('.caution')].every((each) => each.getBoundingClientRect().height > 0)"
        assert browser.value(seen)
        browser.value("window.dispatchEvent(new Event('beforeprint'))")
        assert browser.value(OPEN) == all_open
        browser.value("localStorage.clear()")


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


@pytest.mark.parametrize("width", [360, 390])
def test_on_a_phone_nothing_is_wider_than_the_screen_but_what_can_be_pushed_and_the_job_is_short(
    width: int, browser: Browser, tmp_path: Path
) -> None:
    with browser.as_wide_as(width):
        for plan, only in ((random_plan(2), ()), (demo_plan(), tuple(TITLES)), (demo_plan(), ())):
            opened(browser, plan, tmp_path, *only)
            assert browser.value("document.documentElement.scrollWidth") <= width
        assert browser.value("document.documentElement.scrollHeight") < 20_000


NAMELESS = """
(() => {
  const levels = [...document.querySelectorAll("h1, h2, h3, h4, h5, h6")].map((each) => Number(each.tagName[1]));
  const outside = [...document.body.children].map((each) => each.tagName);
  const boxes = [...document.querySelectorAll("input")];
  const named = (each) => each.getAttribute("aria-label") || each.closest("label").textContent.trim();
  const scrolling = [...document.querySelectorAll("main *")].filter((each) =>
    each.scrollWidth > each.clientWidth + 1 && /auto|scroll/.test(getComputedStyle(each).overflowX));
  const regions = [...document.querySelectorAll("[role=region]")].map((each) => each.getAttribute("aria-label"));
  return {
    jumps: levels.filter((each, at) => at > 0 && each > levels[at - 1] + 1),
    first: levels[0],
    mains: document.querySelectorAll("main").length,
    outside: outside.filter((each) => !["HEADER", "MAIN", "SCRIPT"].includes(each)),
    boxes: boxes.filter((each) => !named(each)).length,
    scrolling: scrolling.filter((each) => each.tabIndex !== 0).map((each) => each.outerHTML.slice(0, 80)),
    regions: regions.filter((each, at) => !each || regions.indexOf(each) !== at),
    heads: [...document.querySelectorAll("th")].filter((each) => !each.textContent.trim()).length,
    pictures: [...document.querySelectorAll("svg")].filter((each) => !each.querySelector("title")?.textContent).length,
  };
})()
"""
"""What a checker of accessibility complained of once."""


@pytest.mark.parametrize("width", [390, 1280])
def test_whoever_listens_finds_landmarks_headings_in_order_and_a_name_for_every_box(
    width: int, browser: Browser, tmp_path: Path
) -> None:
    nothing = {"first": 1, "mains": 1, "boxes": 0, "heads": 0, "pictures": 0}
    with browser.as_wide_as(width):
        for plan, only in ((demo_plan(), tuple(TITLES)), (loft_plan(5), ())):
            opened(browser, plan, tmp_path, *only)
            found = browser.value(NAMELESS)
            assert found == nothing | {"jumps": [], "outside": [], "scrolling": [], "regions": []}


def test_the_page_complains_of_nothing_and_a_script_that_came_in_by_a_name_would_not_run(
    browser: Browser, tmp_path: Path
) -> None:
    browser.complaints.clear()
    opened(browser, whole_plan(), tmp_path)
    assert browser.complaints == []
    image = "<img src=x onerror='window.ran = true'>"
    browser.value(f'document.body.insertAdjacentHTML("beforeend", "{image}")')
    browser.value("new Promise((done) => setTimeout(done, 200))")
    assert browser.value("window.ran") is None
