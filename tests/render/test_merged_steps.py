"""Steps that sections have in common are printed once, with what differs in columns, in the order of doing."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from msgspec.structs import replace

from tests.render.jobs import whole_plan
from wizard.render.document import Table, Work, WorkStep
from wizard.render.merged_steps import alike, work
from wizard.trade.plan_records import Caution, Step


def step(id: str, *lines: str, listed: Sequence[str] = (), cautions: Sequence[str] = (), minutes: int = 5) -> Step:
    """A step of a section, which its id names last; of none where it names no section."""
    kind, _, section = id.rpartition(":")
    of = section if section in ("left", "foot", "right") else None
    title = f"{kind.capitalize()}: {of} section" if of else id.capitalize()
    return Step(
        id, "Making up", title, of, lines, (), (), (), minutes,
        tuple(Caution(each, f"Beware of {each}.") for each in cautions), listed=tuple(listed),
    )  # fmt: skip


def printed(*steps: Step) -> tuple[WorkStep, ...]:
    """The steps as a sheet has them, for a bed with a left, a foot and a right section."""
    (made,) = work(whole_plan(), steps)
    assert isinstance(made, Work)
    return made.items


def table(heads: str, *rows: tuple[str, ...]) -> Table:
    """Rows with a column for each section."""
    return Table(("", *heads.split()), rows, tuple(range(1 + len(heads.split()))))


ALONG = "Measure down at each place: the drop."


@pytest.mark.parametrize(
    ("said", "body"),
    [
        # What all say alike stands once, and what differs in a column for each.
        ({"left": ("Press it.", "Finished: 80 in.", "Stitch."), "foot": ("Press it.", "Finished: 58 in.", "Stitch.")},
         ("Press it.", table("left foot", ("Finished", "80 in", "58 in")), "Stitch.")),
        # What only some say names them, and what one has not is a dash.
        ({"left": ("Mind the post.", "Drop: 12 in.", "Row: A."), "foot": ("Drop: 9 in.", "Row: A.", "Count: 4."),
          "right": ("Mind the post.", "Row: A.", "Count: 5.")},
         ("Left and right: Mind the post.", table("left foot right", ("Drop", "12 in", "9 in", "–")), "Row: A.",
          table("left foot right", ("Count", "–", "4", "5")))),
        # What a section says twice stands in its one cell.
        ({"left": ("In the way: a leg.", "In the way: a vent."), "foot": ("In the way: a leg.",)},
         ("In the way: a leg.", "Left: In the way: a vent.")),
        ({"left": ("In the way: a leg.", "In the way: a vent."), "foot": ("In the way: a bar.",)},
         (table("left foot", ("In the way", "a leg; a vent", "a bar")),)),
        # The same lines in another order are all there.
        ({"left": ("At: 1 in.", "At: 2 in."), "foot": ("At: 2 in.", "At: 1 in.")},
         ("Foot: At: 2 in.", "At: 1 in.", "Left: At: 2 in.")),
    ],
)  # fmt: skip
def test_what_sections_say_is_printed_once_with_what_differs_in_columns(
    said: dict[str, tuple[str, ...]], body: tuple[str | Table, ...]
) -> None:
    (only,) = printed(*(step(f"hem:{section}", *lines) for section, lines in said.items()))
    assert only.body == body


def test_the_places_of_a_section_follow_the_line_that_asks_for_them() -> None:
    places = ("0 in: 9 in down.", "29 in: 8 in down.")
    (one,) = printed(
        step("hem:left", "Press.", "Depth: 1 in."),
        step("hem:foot", "Press.", ALONG, "Fold there.", "Depth: 2 in.", listed=places),
    )
    assert one.body == (
        "Press.", f"Foot: {ALONG}", Table(("foot", "0 in", "29 in"), (("", "9 in down", "8 in down"),)),
        "Foot: Fold there.", table("left foot", ("Depth", "1 in", "2 in")),
    )  # fmt: skip
    (both,) = printed(*(step(f"hem:{each}", ALONG, listed=places[:1]) for each in ("left", "foot")))
    assert both.body == (ALONG, *(Table((each, "0 in"), (("", "9 in down"),)) for each in ("left", "foot")))


@pytest.mark.parametrize(
    ("done", "wanted"),
    [
        (("hem:left", "stay:left", "join:foot", "hem:foot", "stay:foot"), ["join", "hem", "stay"]),
        (("hem:left", "stay:left", "hem:foot", "layers:foot", "stay:foot"), ["hem", "layers", "stay"]),
        (("hem:left", "hem:foot", "stay:foot"), ["hem", "stay"]),
        (("clear", "hang:left", "hang:foot", "dress"), ["clear", "hang", "dress"]),
        (("hem:left", "try:left", "fold:left", "hem:foot", "fold:foot"), ["hem", "try", "fold"]),
    ],
)
def test_what_only_a_later_section_needs_stands_where_that_one_has_it(done: Sequence[str], wanted: list[str]) -> None:
    found = alike(step(each, "Do it.") for each in done)
    assert list(found) == wanted
    assert sorted(each.id for steps in found.values() for each in steps) == sorted(done)


def test_no_step_comes_before_one_that_its_section_does_first() -> None:
    whole = whole_plan().work
    order = list(alike(each for each in whole if each.section))
    for section in ("left", "foot", "right"):
        own = [order.index(each.id.removesuffix(f":{section}")) for each in whole if each.section == section]
        assert own == sorted(own)


def test_one_step_of_several_sections_has_a_box_for_each_and_their_time_together() -> None:
    left, foot = (
        step("hem:left", "Press."),
        replace(step("hem:foot", "Press."), taken=9, done=True, note="mind the seam"),
    )
    (only,) = printed(left, foot)
    assert [(each.id, each.label, each.ticked) for each in only.boxes] == [
        ("hem:left", "left", False), ("hem:foot", "foot", True),
    ]  # fmt: skip
    assert (only.title, only.time, only.notes) == ("Hem", "10 minutes in all, took 9", ("mind the seam",))
    (alone,) = printed(left)
    assert (alone.title, alone.time, alone.boxes[0].label) == ("Hem: left section", "5 minutes", "")


def test_a_caution_is_said_once_in_full_and_of_some_sections_by_their_names() -> None:
    first, second = printed(
        step("hem:left", "Press.", cautions=("iron",)),
        step("hem:foot", "Press.", cautions=("iron", "socket-here")),
        step("fold:left", "Fold.", cautions=("iron",)),
        step("fold:foot", "Fold.", cautions=("socket-here",)),
    )
    assert (first.cautions, first.as_before) == (("Beware of iron.", "Foot: Beware of socket-here."), "")
    assert (second.cautions, second.as_before) == ((), "hot iron (left); a socket on this run (foot)")
