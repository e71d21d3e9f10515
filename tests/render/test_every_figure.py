"""Every figure that a maker needs is on a sheet that is printed without asking, and all the others in the workings.

What is looked for is worked out from the plan's records, not by the code of the sheets.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from itertools import combinations

import pytest
from msgspec.structs import replace

from tests.render.jobs import WHOLE, named_jobs, project_of, random_plan
from tests.render.test_forms import bare
from tests.trade.sample_jobs import known
from wizard.project.plan_of_project import plan_of
from wizard.project.project import put
from wizard.render.document import Table, Work
from wizard.render.formats import Request, render
from wizard.render.sheet_kinds import sheets_of
from wizard.render.sheet_names import SheetId
from wizard.trade.cutting import Piece
from wizard.trade.figures import Need, explained
from wizard.trade.formatting import listed, money, ruler_of, shown
from wizard.trade.lengths import ZERO, Length, total
from wizard.trade.plan_records import Layer, Mark, Part, Plan
from wizard.trade.steps.cut_order import OFFCUT_KINDS, stretch_name

WIDE = 400
"""Columns in which no row of a table is broken."""
FROM_THE_RIGHT = ("right", "head")
"""Sides whose sections are measured from their right end: the head, or the bed's left."""
NAMED = ("demo-gannet-stair", "heron-loft", "two-sections-on-one-side", "railroaded-sheer-280", "width-spoilt")
OWN = {
    "whole": WHOLE,
    "metric": WHOLE.replace('show = "in"\nstandard = "inches"', 'show = "cm"\nstandard = "metric"'),
    "split": WHOLE.replace('do = "no fixing"', 'do = "split here"\noverlap = "4 in"'),
}
SEEDS = (3, 5, 8, 11, 20, 22)
ALL = (*OWN, *NAMED, *map(str, SEEDS))


@cache
def plan_called(name: str) -> Plan:
    """A plan of the record, of one of the jobs of these tests, or of a seed."""
    if name in OWN:
        return plan_of(project_of(OWN[name]))
    return random_plan(int(name)) if name.isdigit() else plan_of(project_of(named_jobs()[name]))


@pytest.fixture(params=ALL)
def plan(request: pytest.FixtureRequest) -> Plan:
    """A whole plan: beds of every shape, hems along the floor, cloth in hand, sections in parts, lanes, patterns."""
    return plan_called(request.param)


def text_of(plan: Plan, *sheets: SheetId) -> str:
    """What a sheet says, its words one blank apart."""
    return " ".join(render(plan, Request("text", sheets or None, None, WIDE)).split())


def length_of(plan: Plan, figure: str) -> Length:
    """A length that was given or worked, by its figure."""
    value = plan.figures[figure].value
    assert isinstance(value, Length)
    return value


def as_met(part: Part) -> list[Mark]:
    """The marks from the head, or from the bed's left."""
    return list(reversed(part.marks)) if part.side in FROM_THE_RIGHT else list(part.marks)


def numbered(plan: Plan) -> Iterator[tuple[int, Layer, Piece]]:
    """Every piece with its number: cloth by cloth, each length from its squared end and then from its left edge."""
    number = 0
    for layer in plan.layers:
        stretches = [each.id for each in layer.stock]
        places = {
            (stretches.index(each.stretch), each.start, each.across, each.strip, each.order): each
            for each in known(layer.cutting).best.pieces
        }
        for _, piece in sorted(places.items(), key=lambda each: each[0]):
            number += 1
            yield number, layer, piece


def told(plan: Plan, sheet: SheetId) -> dict[tuple[str, str], str]:
    """(step, what is said before the colon) -> what is said behind it: of a section in its column or in a sentence."""
    names = {part.id: part.name.removesuffix(" section") for part in plan.parts}
    sections = {each.id: each.section for each in plan.work}
    found: dict[tuple[str, str], str] = {}
    (made,) = sheets_of(plan, [sheet])
    for step in (each for block in made.blocks if isinstance(block, Work) for each in block.items):
        ids = [each.id for each in step.boxes]
        column = dict[str, int]()
        for part in step.body:
            if isinstance(part, Table) and not part.heads[0]:
                for label, *cells in part.rows:
                    at = column.get(label, 0)
                    found |= {(id, label): cell for id, cell in zip(ids[at:], cells, strict=False)}
                    column[label] = at + len(cells)
            elif isinstance(part, str):
                found |= _said(part, [(id, names.get(sections[id] or "", "")) for id in ids])
    return found


def _said(line: str, whose: list[tuple[str, str]]) -> dict[tuple[str, str], str]:
    """A sentence about all sections, or about those that are named before it."""
    some = (each for count in range(len(whose) - 1, 0, -1) for each in combinations(whose, count))
    for named in some:
        before = f"{listed([name for _, name in named])}: "
        if line.casefold().startswith(before.casefold()):
            return _said(line[len(before) :], [*named])
    label, _, value = line.removesuffix(".").partition(": ")
    return {(id, label): value for id, _ in whose}


# The cutting table.
def test_every_piece_is_in_the_cut_list_of_the_table(plan: Plan) -> None:
    text, names = text_of(plan, "table"), {part.id: part.name for part in plan.parts}
    count = defaultdict[tuple[str, str], int](int)
    for _, layer, piece in numbered(plan):
        count[layer.id, piece.strip] += 1
    for number, layer, piece in numbered(plan):
        lane = layer.cutting is not None and layer.cutting.best.way == "along"
        end = piece.start + (piece.width if lane else piece.cut)
        size = f"{bare(plan, piece.cut, 'up')} × {bare(plan, piece.width, 'up')}"
        name = f"{names[piece.strip]}, {piece.order} of {count[layer.id, piece.strip]}"
        # Every edge that is no edge of the usable cloth is slit.
        wide = piece.cut if lane else piece.width
        usable = next(each.usable for each in layer.stock if each.id == piece.stretch)
        edges = [bare(plan, each) for each in (piece.across, piece.across + wide) if ZERO < each < usable]
        row = f"[ ] {number} {name} {size} {bare(plan, piece.start)} {bare(plan, end)} {', '.join(edges)}".strip()
        assert f"{row} " in text, row
    ruler = ruler_of(plan.job)
    for layer in plan.layers:
        assert f"usable width {shown(known(layer.usable.value), ruler, 'down')} " in text
        assert f"takes {shown(known(layer.cutting).best.used, ruler, 'up')}: " in text


# Making up.
def test_joined_and_finished_widths_and_the_order_of_joining(plan: Plan) -> None:
    said, ruler = told(plan, "making-up"), ruler_of(plan.job)
    numbers = defaultdict[tuple[str, str], dict[int, str]](dict)
    for number, layer, piece in numbered(plan):
        numbers[layer.id, piece.strip][piece.order] = str(number)
    for layer in plan.layers:
        for part_id, width in known(layer.cutting).best.flats:
            own = [number for _, number in sorted(numbers[layer.id, part_id].items())]
            if len(own) > 1:
                step = f"join:{layer.id}:{part_id}"
                assert said[step, "Joined, from raw end to raw end"] == shown(width, ruler)
                order = said[step, "Join in this order from the left end, arrows up, tops level"]
                assert order == f"no. {listed(own)}"
            flat = f"part.{part_id}.flat_made" if layer.id == "face" else f"layer.{layer.id}.flat_made.{part_id}"
            assert said[f"hem:{layer.id}:{part_id}", "Finished width"] == shown(length_of(plan, flat), ruler)


def test_the_drop_to_every_hem(plan: Plan) -> None:
    """A level hem has one drop, one along the floor a drop at every mark: top allowance and drop less the setback."""
    said, ruler, text = told(plan, "making-up"), ruler_of(plan.job), text_of(plan, "making-up")
    top = length_of(plan, "allowances.top")
    for layer in plan.layers:
        back = ZERO if layer.id == "face" else length_of(plan, f"cloth.{layer.id}.setback")
        for part in plan.parts:
            if part.follows_floor:
                drops = [shown(top + each.drop - back, ruler) for each in as_met(part) if each.drop is not None]
                assert len(drops) == len(part.marks)
                places = next(each for each in plan.work if each.id == f"hem:{layer.id}:{part.id}").listed
                assert [each.partition(": ")[2] for each in places] == [f"{each} down." for each in drops]
                for place in places:
                    assert place.partition(": ")[0] in text
                    assert place.partition(": ")[2].removesuffix(".") in text
            else:
                whole = said[f"hem:{layer.id}:{part.id}", "From the raw top to the hem"]
                assert whole == shown(top + known(part.drop.value) - back, ruler)


# Marks.
def test_every_mark_on_tape_and_skirt(plan: Plan) -> None:
    """Both measured from the head, or from the bed's left; the drop beside it where the hem follows the floor."""
    (sheet,) = sheets_of(plan, ["marks"])
    tables = [each for each in sheet.blocks if isinstance(each, Table) and each.heads[0] == "mark"]
    columns = [
        (head, [row[at] for row in table.rows if row[at]])
        for table in tables
        for at, head in enumerate(table.heads)
        if at
    ]
    text = text_of(plan, "marks")
    for part in plan.parts:
        whole, flat = part.gathered.value, part.flat_made.value
        assert whole is not None
        assert flat is not None
        back = part.side in FROM_THE_RIGHT
        met = as_met(part)
        wanted = [
            (f"{part.name.removesuffix(' section')}: tape", [whole - each.tape if back else each.tape for each in met]),
            ("skirt", [flat - each.flat if back else each.flat for each in met]),
            *([("drop", [each.drop for each in met if each.drop is not None])] if part.follows_floor else []),
        ]
        for head, lengths in wanted:
            assert columns.pop(0) == (head, [bare(plan, each) for each in lengths])
        assert bare(plan, part.tape.value or ZERO, "up") in text
    assert columns == []


# Hanging.
def test_how_the_fixings_go(plan: Plan) -> None:
    said, ruler, kind = told(plan, "hanging"), ruler_of(plan.job), plan.job.cloth.fixing.kind or ""
    for part in plan.parts:
        fixings, step = known(part.fixings), f"hang:{part.id}"
        if not fixings.positions:
            continue
        assert said[step, f"Number of {kind}"] == str(len(fixings.positions))
        first = [shown(each.at, ruler) for each in sorted(fixings.positions, key=lambda each: each.order)[:5]]
        order = "Set them in this order, one end, the other end, the middle, then outwards"
        assert said[step, order] == ", ".join(first)
        if fixings.spacing and len(fixings.positions) > 5:
            assert said[step, "Spacing of the others, from the middle outwards"] == shown(fixings.spacing, ruler)
        if fixings.skipped:
            left_out = said[step, "Leave out, because something is in the way"]
            assert left_out == ", ".join(shown(each, ruler) for each in fixings.skipped)
        every = ", ".join(bare(plan, each.at) for each in fixings.positions)
        assert f"all {len(fixings.positions)} {every}" in text_of(plan, "workings")


def test_what_runs_the_whole_length_is_given_as_a_length(plan: Plan) -> None:
    said, ruler, kind = told(plan, "hanging"), ruler_of(plan.job), plan.job.cloth.fixing.kind or ""
    for part in plan.parts:
        fixings, step = known(part.fixings), f"hang:{part.id}"
        if fixings.positions:
            continue
        label = {
            "glue": "Tape to hold with clips, one end, the other end, the middle, then outwards",
            "adhesive hook-and-loop": "Stick the hook side to the clean, dry rail",
        }[kind]
        # The tape has its side from end to end; the rail has none where it is left out.
        bare_rail = total(end - start for start, end in fixings.gaps)
        long = known(part.gathered.value) - (ZERO if kind == "glue" else bare_rail)
        assert said[step, label].partition(" altogether")[0] == shown(long, ruler, "up")
        if fixings.gaps:
            gaps = [f"{shown(start, ruler)} to {shown(end, ruler)}" for start, end in fixings.gaps]
            assert said[step, "Leave these stretches of the tape free"] == ", ".join(gaps)


# Shop.
def test_everything_to_buy_with_what_is_needed_and_what_it_costs(plan: Plan) -> None:
    (sheet,) = sheets_of(plan, ["shop"])
    (table,) = [each for each in sheet.blocks if isinstance(each, Table)]
    at, ruler = table.heads.index, ruler_of(plan.job)
    for each, row in zip(plan.purchases, table.rows, strict=True):
        assert (row[at("what")], row[at("buy")]) == (each.what, each.amount)
        if isinstance(each.needs, Length) and "spool" not in each.unit:
            assert row[at("needed")].startswith(f"{shown(each.needs, ruler, 'up')}, ")
        elif isinstance(each.needs, int) and each.id != "needles":
            assert row[at("needed")].endswith(f"{each.needs:,}")
        if each.cost is not None:
            assert row[at("total")].endswith(money(each.cost))
    text = text_of(plan, "shop")
    assert all(f"[ ] {each.what} {each.amount} " in text for each in plan.purchases)


def test_the_shop_sheet_names_the_cloth_it_does_not_have_yet() -> None:
    project = put(project_of(WHOLE), "cloth.face.width", None)
    text = text_of(plan_of(project), "shop")
    assert text.count(" is not on this list: how much to buy is not known yet.") == 1


# The survey, by name.
def test_every_reading_is_on_the_survey_sheet_and_in_the_workings(plan: Plan) -> None:
    filled, workings = text_of(plan, "survey"), text_of(plan, "workings")
    for id, section in plan.job.survey.section.items():
        readings = [each for each in (*section.run, *section.drop) if each is not None]
        if readings and any(part.section == id for part in plan.parts):
            assert " ".join(bare(plan, each) for each in readings) in filled
    put_off = Need("cloth.face.warp_shrink", "face cloth: shrinkage along the roll")
    assert f"{put_off.words} __" in text_of(replace(plan, later=(put_off,)), "survey")
    for part in plan.parts:
        for each in part.readings:
            reading = "between" if each.between else bare(plan, each.reading)
            row = " ".join([bare(plan, each.at), reading, bare(plan, each.finished), bare(plan, each.gap)])
            assert row in workings


# The workings, by name.
def test_the_workings_have_every_offcut_and_the_width_cut_for_every_section(plan: Plan) -> None:
    text, ruler = text_of(plan, "workings"), ruler_of(plan.job)
    for layer in plan.layers:
        for left in known(layer.cutting).best.offcuts:
            long = bare(plan, left.along, "given" if left.kind == "squaring" else "nearest")
            # Offcuts that are alike are in one entry, with where each begins.
            start = (
                "" if left.start < ZERO else rf" from ([^;]* )?{re.escape(bare(plan, left.start))}(,| and)?( [^;]*)?"
            )
            across = f", {bare(plan, left.across)} across" if left.across else ""
            entry = rf"[:;] {long} × {bare(plan, left.width)}{start}{across} \({OFFCUT_KINDS[left.kind]}\)"
            said = f"Left over of {re.escape(stretch_name(left.stretch))}, long × wide(?:(?!Left over of).)*{entry}"
            assert re.search(said, text), entry
        for part in plan.parts:
            long, wide = (
                shown(each[part.id].value or ZERO, ruler, "up") for each in (layer.cut_lengths, layer.cut_widths)
            )
            assert f"{part.name} {long} long × {wide} wide" in text


def test_the_workings_have_every_finding_and_every_reason(plan: Plan) -> None:
    text = text_of(plan, "workings")
    for finding in plan.findings:
        assert " ".join(finding.sentence.split()) in text
        assert " ".join(finding.way_out.split()) in text
    for figure in plan.figures.values():
        why = explained(figure, ruler_of(plan.job))
        for words in (why.result, why.says, why.source):
            assert " ".join(words.split()) in text, figure.id


def test_the_jobs_of_these_tests_have_all_that_is_looked_for() -> None:
    plans = [plan_called(each) for each in ALL]
    parts = [part for plan in plans for part in plan.parts]
    assert all(each.complete for each in plans)
    assert {len(each.layers) for each in plans} == {1, 2, 3}
    assert {each.follows_floor for each in parts} == {True, False}
    assert any("/" in each.id for each in parts)
    assert any(each.fixings and each.fixings.skipped for each in parts)
    assert any(each.fixings and not each.fixings.positions for each in parts)
    ways = {layer.cutting.best.way for plan in plans for layer in plan.layers if layer.cutting}
    assert "along" in ways
    assert any(part.fullness.value != Fraction(1) for part in parts)
