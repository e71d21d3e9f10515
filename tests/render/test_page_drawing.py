"""The drawings on which lengths are typed: a slot for each, in sight, apart, and where it was a moment ago."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from itertools import combinations, product
from random import Random
from typing import Final

import pytest

from tests.render.jobs import WHOLE, project_of, whole_plan
from tests.render.random_beds import random_file
from tests.trade.sample_jobs import everything
from wizard.interview.page import Page
from wizard.interview.pages.all_pages import pages_of
from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project, Unfit, put_many
from wizard.render.drawings.page_drawing import PICTURES, PageDrawing, Slot, draw_page
from wizard.render.drawings.scene import Label
from wizard.render.drawings.sketch import PageSketch
from wizard.render.plain_text import cell_len
from wizard.trade.job_fields import Job, Obstacle, Section, Survey
from wizard.trade.lengths import Length
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Plan
from wizard.trade.sections import CORNERS, ENDS

SIZES: Final = ((56, 8), (78, 12), (98, 16))
DOUBLE: Final = frozenset("║═╔╗╚╝╠╣╦╩╬")
ASKS: Final = {"progress.usual_allowances": False, "progress.rails_alike": False, "progress.turned_posts": True}


class Drawn:
    """What a page hands to its drawing."""

    def __init__(self, picture: str, subject: str, keys: tuple[str, ...], project: Project) -> None:
        self.picture, self.subject, self.keys, self.project = picture, subject, keys, project

    @cached_property
    def plan(self) -> Plan:
        return plan_of(self.project)

    def typed(self, key: str, text: str) -> Drawn:
        """The same once that is typed; Unfit where it does not suit."""
        return Drawn(self.picture, self.subject, self.keys, put_many(self.project, {key: text}))

    def at(self, columns: int, rows: int, in_hand: str = "") -> PageDrawing:
        return draw_page(self.picture, self.subject, self.keys, self.plan, in_hand, columns, rows)

    def places(self, in_hand: str = "") -> list[str]:
        """The lengths that the drawing shows, however little space there is."""
        scene = PICTURES[self.picture](PageSketch(self.plan, self.keys, in_hand, 78, 12), self.subject)
        return [each.key for each in scene.shapes if isinstance(each, Label) and each.key]

    def has_a_place(self, key: str) -> bool:
        return key in self.places(key)


def of_page(page: Page, project: Project) -> Drawn:
    lengths = tuple(each.key for each in page.questions if each.kind in ("length", "length or zero"))
    return Drawn(page.picture, page.subject, lengths, project)


def bed(name: str) -> Project:
    """An empty one, a whole one, or a random one by its number; all with everything asked."""
    text = {"empty": "format = 1", "whole": WHOLE}.get(name) or random_file(int(name))
    return put_many(project_of(text), ASKS)


BEDS: Final = ("empty", "whole", *map(str, range(2)))


def drawings_of(name: str) -> Iterator[Drawn]:
    """Every drawing of a job, and those of its corners."""
    project = bed(name)
    for page in pages_of(project, plan_of(project)):
        if page.picture in PICTURES:
            yield of_page(page, project)
    yield from extreme(project)


def extreme(project: Project) -> Iterator[Drawn]:
    """Drawings with more lengths than usual."""
    for post in CORNERS:
        leaves = ("along_side", "along_end", "side_set_in", "end_set_in")
        keys = (*(f"survey.post.{post}.{leaf}" for leaf in leaves), "survey.section.left.right_return")
        yield Drawn("corner", post, keys, project)
    for section, count in (("left", 4), ("right", 12)):
        drops = [f"survey.section.{section}.drop.{number}" for number in range(1, count + 1)]
        project = put_many(project, dict.fromkeys(drops, "12 in"))
        runs = (f"survey.section.{section}.run.{number}" for number in (1, 2))
        yield Drawn("side", section, (*runs, *drops), project)
        thing = (f"survey.section.{section}.in_the_way.leg.{leaf}" for leaf in ("at", "width", "height", "overlap"))
        yield Drawn("thing", f"{section}.leg", tuple(thing), project)
    for section, end in product(("left", "foot", "right"), ENDS):
        ends = tuple(f"survey.section.{section}.{end}_{leaf}" for leaf in ("return", "hook", "short"))
        yield Drawn("bed", "", ends, project)
    yield Drawn("owned", "face", tuple(f"cloth.face.owned.n{number}.length" for number in range(9)), project)
    fixing = ("cloth.fixing.spacing", "cloth.fixing.inset", "cloth.tape.turn_under", "cloth.tape.width")
    yield Drawn("fixing", "", fixing, project)


def cells(slot: Slot) -> range:
    """The columns of a slot with its brackets."""
    return range(slot.column - 1, slot.column + slot.width + 1)


@pytest.mark.parametrize("name", BEDS)
def test_every_slot_is_inside_the_drawing_between_its_brackets_and_apart_from_the_others(name: str) -> None:
    for drawn in drawings_of(name):
        for columns, rows in SIZES:
            for in_hand in ("", *drawn.keys):
                drawing = drawn.at(columns, rows, in_hand)
                assert len(drawing.lines) in (0, rows)
                assert all(cell_len(line) <= columns for line in drawing.lines)
                for slot in drawing.slots:
                    assert slot.key in drawn.keys
                    assert 0 <= slot.row < rows
                    assert 0 <= cells(slot).start < cells(slot).stop <= columns
                    assert as_cells(drawing.lines[slot.row])[slot.column - 1 : slot.column + slot.width + 1] == [
                        "[", *" " * slot.width, "]",
                    ]  # fmt: skip
                for one, other in combinations(drawing.slots, 2):
                    assert one.row != other.row or not set(cells(one)) & set(cells(other)), drawn


def as_cells(line: str) -> list[str]:
    """What is in each cell; a wide letter takes two."""
    return [part for each in line for part in (each, *[""] * (cell_len(each) - 1))]


@pytest.mark.parametrize("name", BEDS)
def test_the_length_in_hand_always_has_its_slot_and_a_double_line(name: str) -> None:
    for drawn in drawings_of(name):
        for key in filter(drawn.has_a_place, drawn.keys):
            for columns, rows in SIZES:
                drawing = drawn.at(columns, rows, key)
                assert key in {slot.key for slot in drawing.slots}, (drawn.picture, key, columns, rows)
                assert DOUBLE & set("".join(drawing.lines)), (drawn.picture, key, columns, rows)
                bare = drawn.at(columns, rows)
                assert not DOUBLE & set("".join(bare.lines)), drawn.picture


@pytest.mark.parametrize("name", BEDS)
def test_the_usual_pages_have_all_their_slots_whichever_is_in_hand_and_none_moves(name: str) -> None:
    for drawn in drawings_of(name):
        placed = drawn.places()
        if len(placed) <= 5:
            for columns, rows in ((78, 12), (98, 16)):
                slots = {drawn.at(columns, rows, key).slots for key in placed}
                assert len(slots) <= 1, (drawn.picture, placed)
                assert {slot.key for each in slots for slot in each} == set(placed)


@pytest.mark.parametrize("name", BEDS)
def test_what_is_typed_moves_no_slot(name: str) -> None:
    random = Random(name)
    for drawn in drawings_of(name):
        for key in drawn.keys:
            if drawn.has_a_place(key):
                try:
                    after = drawn.typed(key, f"{random.choice((1, 3, 12, 77, 200))} in")
                except Unfit:
                    continue
                for columns, rows in SIZES:
                    assert after.at(columns, rows, key).slots == drawn.at(columns, rows, key).slots, key


def test_pictures_of_other_pages_and_no_space_at_all_are_no_drawing() -> None:
    assert draw_page("none", "", (), whole_plan(), "", 80, 12) == PageDrawing()
    assert draw_page("side", "left", (), whole_plan(), "", 0, 12) == PageDrawing()
    assert draw_page("side", "left", ("survey.section.left.run.1",), whole_plan(), "", 3, 1).slots == ()


@pytest.mark.parametrize("picture", PICTURES)
def test_every_picture_is_drawn_of_a_job_with_nothing_in_it_and_of_one_with_everything(picture: str) -> None:
    for plan in (plan_of(Project()), make_plan(everything())):
        for subject in ("", "left", "foot-left", "face", "left.centre-leg", "not.there"):
            for columns, rows in (*SIZES, (20, 4), (1, 1)):
                assert len(draw_page(picture, subject, (), plan, "", columns, rows).lines) == rows


def test_what_people_typed_is_shown_literally() -> None:
    names = {"one": "[bold]\x1b[31m", "two": "壁の\u202e暖房"}
    things = {id: Obstacle(name=name, at=Length(20 * at)) for at, (id, name) in enumerate(names.items(), start=1)}
    job = Job(survey=Survey(section={"left": Section(run=(Length(76),), in_the_way=things)}))
    drawing = draw_page("side", "left", (), make_plan(job), "", 98, 14)
    text = "\n".join(drawing.lines)
    assert r"[bold]\x1b[31m" in text
    assert r"壁の\u202e暖房" in text
