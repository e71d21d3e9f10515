"""Following a way of cutting says which other layers it changed."""

from __future__ import annotations

from fractions import Fraction

from msgspec.structs import replace

from tests.outside.jobs import cloth, plain_job, straight
from wizard.questions.session_words import followed_words
from wizard.trade.compare_ways import ways_of
from wizard.trade.make_plan import make_plan
from wizard.trade.model import Job


def two_layers() -> Job:
    sections = {"left": straight("left", "41", "11"), "right": straight("right", "41", "11")}
    return plain_job(sections, fullness="2", cloth=cloth("54"), interlining=cloth("60", name="calico"))


def test_a_way_that_settles_the_joins_of_every_layer_says_so() -> None:
    job = two_layers()
    before = make_plan(job)
    way = next(each for each in ways_of(before, before.layers[0]) if each.id == "whole widths")
    after = make_plan(replace(job, fullness=replace(job.fullness, joins="whole widths")))
    assert followed_words(way, before, after) == (
        "Followed: across, whole widths. How widths are joined goes for every layer: calico changed too."
    )


def test_a_way_of_one_layer_alone_speaks_of_no_other() -> None:
    job = two_layers()
    before = make_plan(job)
    way = next(each for each in ways_of(before, before.layers[0]) if each.id == "along")
    after = make_plan(replace(job, cloth=replace(job.cloth, face=replace(job.cloth.face, lay="along"))))
    assert followed_words(way, before, after) == "Followed: along the roll."


def test_a_plan_that_changes_nothing_else_says_nothing_else() -> None:
    before = make_plan(replace(two_layers(), fullness=replace(two_layers().fullness, want=Fraction(1))))
    way = ways_of(before, before.layers[0])[0]
    assert followed_words(way, before, before) == f"Followed: {way.title}."
