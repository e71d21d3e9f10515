"""Findings about allowances, fullness and cloth."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from string import Formatter
from typing import Any

import pytest
from msgspec.structs import replace

from tests.outside.jobs import cloth, plain_job, planned, straight
from tests.trade.finding_texts import assert_says
from tests.trade.sample_jobs import everything, inches, small, with_face
from wizard.trade.cutting import Refusal
from wizard.trade.figures import Ledger
from wizard.trade.findings import ORDER
from wizard.trade.findings.checker import WORDINGS, Checker
from wizard.trade.findings.cloth_findings import cloth_findings
from wizard.trade.formatting import ruler_of
from wizard.trade.job_fields import Allowances, Cloth, Fullness, Job, Owned, Post
from wizard.trade.layers import prepare
from wizard.trade.lengths import Length
from wizard.trade.make_plan import make_plan
from wizard.trade.plan_records import Finding


def found(job: Job) -> dict[str, Finding]:
    return {each.id: each for each in make_plan(job).findings}


def allowed(**more: Any) -> Job:
    return replace(small(), allowances=Allowances(**more))


def full(number: str, **more: Any) -> Job:
    return replace(with_face(small(), **more), fullness=Fullness(want=Fraction(number)))


@pytest.mark.parametrize("top", ["7/16", "1 1/16"])
def test_a_top_allowance_that_finds_no_place_under_the_tape_is_spoken_of(top: str) -> None:
    assert found(allowed(top=inches(top)))["tape-top"].key == "allowances.top"


@pytest.mark.parametrize("top", ["1/2", "1"])
def test_a_top_allowance_from_half_an_inch_to_half_the_tape_is_in_order(top: str) -> None:
    assert "tape-top" not in found(allowed(top=inches(top)))


def test_the_usual_metric_allowances_raise_no_finding() -> None:
    job = replace(small(), standard="metric", show="cm", ruler=Length.of(1, "mm"))
    assert not {"tape-top", "least-piece"} & set(found(job))
    assert not [each for each in found(job) if each.startswith("off-mark")]


def test_a_usable_width_that_a_join_uses_up_stops_the_plan() -> None:
    finding = found(with_face(small(), width=inches(2), trim=inches("1/2")))["usable-join:face"]
    assert finding.level == "stop"


def test_a_usable_width_of_no_more_than_two_least_pieces_is_spoken_of() -> None:
    assert "usable-narrow:face" in found(with_face(small(), width=inches(13)))
    assert "usable-narrow:face" not in found(with_face(small(), width=inches("13 1/16")))


def test_seams_and_hems_off_the_ruler_mark_are_asked_about() -> None:
    off = found(allowed(join=Length(Fraction(1, 3)), end_hem=Length(Fraction(5, 7))))
    assert_says(off["off-mark:allowances.join"], "off-mark")
    assert "off-mark:allowances.end_hem" in off
    assert not [each for each in found(allowed(join=inches("3/8"))) if each.startswith("off-mark")]


@pytest.mark.parametrize(
    ("number", "id", "level"),
    [("3/4", "fullness-under", "stop"), ("5/4", "fullness-mean", "warn"), ("16/5", "fullness-much", "warn")],
)
def test_a_fullness_out_of_sense_is_spoken_of(number: str, id: str, level: str) -> None:
    assert found(full(number))[id].level == level


@pytest.mark.parametrize(("owned", "id"), [(84, "fullness-mean"), (200, "fullness-much"), (130, "fullness-guide")])
def test_a_fullness_set_by_the_cloth_in_hand_points_at_what_sets_it(owned: int, id: str) -> None:
    job = with_face(small(), owned={"bolt": Owned(length=inches(owned))}, weight="light")
    finding = found(replace(job, fullness=Fullness(aim="all the cloth I own", want=Fraction(2))))[id]
    assert finding.key == "fullness.aim"
    assert_says(finding, id)
    assert "/" not in finding.sentence


@pytest.mark.parametrize("number", ["1", "3/2", "3"])
def test_a_fullness_within_sense_is_not(number: str) -> None:
    assert not {"fullness-under", "fullness-mean", "fullness-much"} & set(found(full(number)))


@pytest.mark.parametrize(
    ("weight", "fits", "does_not"),
    [("heavy", "2", "5/2"), ("medium", "5/2", "3"), ("light", "5/2", "2"), ("sheer", "3", "5/2")],
)
def test_the_guide_by_cloth_is_a_note_and_never_a_wall(weight: Any, fits: str, does_not: str) -> None:
    assert "fullness-guide" not in found(full(fits, weight=weight))
    assert found(full(does_not, weight=weight))["fullness-guide"].level == "note"


def test_a_thick_skirt_with_inner_layers_takes_two() -> None:
    job = full("5/2")
    thick = replace(job, cloth=replace(job.cloth, interlining=Cloth(use=True, width=inches(45), weight="medium")))
    assert "usually takes a fullness of 2." in found(thick)["fullness-guide"].sentence


def test_cloth_that_is_not_washed_is_noted_unless_the_skirt_stays_on() -> None:
    assert found(small())["not-washed:face"].level == "note"
    stays = replace(small(), survey=replace(small().survey, taken_off="stays on"))
    assert "not-washed:face" not in found(stays)
    assert "not-washed:face" not in found(with_face(small(), wash="already washed"))


def test_washing_first_without_a_shrinkage_is_asked_about_and_so_is_a_very_large_one() -> None:
    assert "shrink-none:face" in found(with_face(small(), wash="washed first"))
    shrunk = {"wash": "washed first", "warp_shrink": Fraction(3, 100)}
    assert "shrink-none:face" not in found(with_face(small(), **shrunk))
    much = found(with_face(small(), **shrunk, weft_shrink=Fraction(11, 100)))["shrink-much:face:weft_shrink"]
    assert_says(much, "shrink-much")


def test_one_way_cloth_along_the_roll_is_spoken_of_unless_it_may_lie_sideways() -> None:
    assert found(with_face(small(), one_way=True, lay="along"))["one-way-along:face"].level == "stop"
    assert "one-way-along:face" not in found(with_face(small(), one_way=True, lay="along", sideways=True))


def test_damage_that_does_not_lie_on_its_length_is_read_again() -> None:
    hurt = Owned(length=inches(90), damage_from=inches(24), damage_to=inches(20))
    assert "damage:face:bolt" in found(with_face(small(), owned={"bolt": hurt}))
    hurt = replace(hurt, damage_to=inches(28))
    assert "damage:face:bolt" not in found(with_face(small(), owned={"bolt": hurt}))


def test_a_length_shorter_than_any_cut_is_noted_as_unused() -> None:
    assert "owned-unused:face:scrap" in found(with_face(small(), owned={"scrap": Owned(length=inches(12))}))
    assert "owned-unused:face:scrap" not in found(with_face(small(), owned={"scrap": Owned(length=inches(13))}))


def test_a_length_that_washing_leaves_shorter_than_any_cut_is_noted_as_unused() -> None:
    washed = {"wash": "washed first", "warp_shrink": Fraction(3, 100), "weft_shrink": Fraction(0)}

    def unused(**owned: Any) -> Finding | None:
        lengths = {"scrap": Owned(**owned)}
        return found(with_face(small(), **washed, owned=lengths)).get("owned-unused:face:scrap")

    # the shortest cut is 11 1/2 in: of 12 3/4 in, 11 3/4 in are left once it is squared, 11 3/8 in once it is washed
    finding = unused(length=inches("12 3/4"), washed=False)
    assert finding is not None
    assert_says(finding, "owned-unused, washed")
    assert unused(length=inches("12 3/4"), washed=True) is None
    assert unused(length=inches(13), washed=False) is None


def test_a_length_whose_damage_leaves_no_stretch_as_long_as_a_cut_is_noted_as_unused() -> None:
    def unused(start: str, end: str) -> Finding | None:
        hurt = Owned(length=inches(24), damage_from=inches(start), damage_to=inches(end))
        plan = make_plan(with_face(small(), owned={"scrap": hurt}))
        note = {each.id: each for each in plan.findings}.get("owned-unused:face:scrap")
        assert plan.layers[0].cutting is not None
        assert any(piece.stretch == "scrap" for piece in plan.layers[0].cutting.best.pieces) == (note is None)
        return note

    finding = unused("12 3/8", "13")
    assert finding is not None
    assert_says(finding, "owned-unused, damaged")
    assert unused("12 1/2", "13") is None
    assert unused("12", "12 1/2") is None


@pytest.mark.parametrize(
    ("needed", "certain", "case"),
    [
        (150, True, "refused, too little"),
        (134, True, "refused, too small"),
        (134, False, "refused, not certain"),
    ],
)
def test_too_little_cloth_never_reads_as_if_there_were_enough(needed: int, certain: bool, case: str) -> None:
    plan = make_plan(small())
    refusal = Refusal("no cloth", None, inches(needed), inches(143), certain)
    layer = replace(plan.layers[0], cutting=None, refused=refusal)
    ledger = Ledger(small(), dict(plan.figures))
    ready = prepare(ledger, "face", {})
    check = Checker(ledger, ruler_of(plan.job), parts=plan.parts, layers=(layer,), prepared=(ready,))
    told = {each.id: each for each in cloth_findings(check)}
    assert_says(told["refused:face"], case)


def test_a_section_from_two_dye_lots_is_spoken_of() -> None:
    # each length gives two widths of 13 1/2 in, and one section is to be as full as both allow: it takes all four
    lengths = {"one": Owned(length=inches(29), lot="A"), "two": Owned(length=inches(29), lot="B")}
    job = replace(with_face(small(), owned=lengths), fullness=Fullness(aim="all the cloth I own"))
    job = replace(job, survey=replace(job.survey, section={"left": job.survey.section["left"]}))
    assert "A, B" in found(job)["dye-lots:face:left"].sentence
    same = {each: replace(length, lot="A") for each, length in lengths.items()}
    assert "dye-lots:face:left" not in found(with_face(job, owned=same))


def test_a_layer_that_cannot_be_laid_out_stops_the_plan_and_says_why() -> None:
    # usable 11 in, so 192 in takes 20 widths: with 19 joins of 1 in that is 10 11/20 in each, under the least piece
    job = with_face(replace(small(), allowances=Allowances(least_piece=inches("10 3/4"))), width=inches(12))
    finding = found(job)["refused:face"]
    assert finding.level == "stop"
    assert not make_plan(job).complete


# Surprising sizes are asked about again, never refused; usual ones raise nothing.
def asked(job: Job) -> dict[str, Finding]:
    found = [each for each in make_plan(job).findings if each.id.startswith("size:")]
    assert all(each.level == "ask" for each in found)
    return {each.key: each for each in found}


def with_rail(length: Length) -> Job:
    job = small()
    return replace(job, survey=replace(job.survey, rail_thickness=length))


def test_usual_sizes_raise_nothing() -> None:
    assert asked(small()) == {}
    assert asked(everything()) == {}
    assert asked(replace(small(), standard="metric")) == {}


def test_a_surprising_size_is_asked_about_with_what_is_usual_and_the_plan_goes_on() -> None:
    job = with_rail(inches(40))
    (finding,) = asked(job).values()
    assert finding.key == "survey.rail_thickness"
    assert_says(finding, "size")
    assert make_plan(job).complete


@pytest.mark.parametrize("size", ["1/16", "4"])
def test_the_bounds_themselves_are_usual(size: str) -> None:
    assert asked(with_rail(inches(size))) == {}


def test_a_length_typed_in_the_other_system_is_said_in_it() -> None:
    job = with_rail(Length.of(255, "cm") / 10)
    assert "25.5 cm" in asked(job)["survey.rail_thickness"].sentence


MARK = inches("1/16")
USUAL = {
    "allowances.end_hem": ("0", "4"),
    "allowances.join": ("1/8", "2"),
    "allowances.squaring": ("0", "12"),
    "allowances.top": ("0", "4"),
    "cloth.face.hem": ("0", "6"),
    "cloth.face.hem_turn": ("0", "2"),
    "cloth.face.lap": ("0", "3"),
    "cloth.face.owned.bolt.length": ("6", "3600"),
    "cloth.face.owned.bolt.width": ("6", "130"),
    "cloth.face.repeat": ("0", "40"),
    "cloth.face.trim": ("0", "4"),
    "cloth.face.width": ("18", "130"),
    "cloth.fixing.inset": ("0", "6"),
    "cloth.fixing.spacing": ("1/2", "12"),
    "cloth.tape.turn_under": ("0", "6"),
    "cloth.tape.width": ("1/2", "6"),
    "survey.post.foot-left.along_end": ("1/2", "12"),
    "survey.post.foot-left.along_side": ("1/2", "12"),
    "survey.post.foot-left.end_set_in": ("0", "6"),
    "survey.post.foot-left.side_set_in": ("0", "6"),
    "survey.rail_thickness": ("1/16", "4"),
    "survey.section.left.left_return": ("1/2", "12"),
    "survey.section.left.left_short": ("1/2", "60"),
    "survey.section.left.raised": ("0", "6"),
}
"""Key -> the least and the greatest size that is not asked about again. Common practice, no source."""


def with_size(table: Any, path: str, size: Length) -> Any:
    """The table with a size at its dotted path."""
    name, _, rest = path.partition(".")
    old = table[name] if isinstance(table, Mapping) else getattr(table, name)
    new = with_size(old, rest, size) if rest else size
    return {**table, name: new} if isinstance(table, Mapping) else replace(table, **{name: new})


def job_with(key: str, size: Length) -> Job:
    """A job with a post and a length in hand, and one size as given."""
    job = with_face(small(), owned={"bolt": Owned(length=inches(90), width=inches(50))})
    job = replace(job, survey=replace(job.survey, post={"foot-left": Post()}))
    sized: Job = with_size(job, key, size)
    return sized


@pytest.mark.parametrize("key", USUAL)
def test_a_size_is_asked_about_from_the_first_mark_beyond_what_is_usual(key: str) -> None:
    least, most = map(inches, USUAL[key])
    usual = [least, most] if least else [most]
    beyond = [least - MARK, most + MARK] if least else [most + MARK]
    assert [key in asked(job_with(key, size)) for size in usual] == [False] * len(usual)
    assert [key in asked(job_with(key, size)) for size in beyond] == [True] * len(beyond)


# The catalogue of what findings say.
FORMS = {"", "alike", "nearest", "up", "down"}
"""How a length is shown."""


def test_every_wording_has_a_level_a_sentence_and_a_way_out_or_leaves_them_to_its_variants() -> None:
    bases = {id.partition("/")[0] for id in WORDINGS if "/" in id}
    for id, wording in WORDINGS.items():
        assert wording.note in ORDER, id
        assert (wording.sentence and wording.more) or id in bases, id


def test_a_name_in_a_wording_is_shown_in_a_form_there_is() -> None:
    for id, wording in WORDINGS.items():
        for text in (wording.sentence, wording.more):
            assert {form for _, name, form, _ in Formatter().parse(text) if name} <= FORMS, id


# A slip in typing that would take acres of cloth is told, not laid out.
@pytest.mark.parametrize(("run", "fullness"), [("9" * 12, "2.5"), ("1" + "0" * 30, "2.5"), ("80", "1" + "0" * 30)])
def test_acres_of_cloth_are_refused_with_a_sentence_that_says_what_to_read_again(run: str, fullness: str) -> None:
    plan, face = planned(plain_job({"left": straight("left", run, "11")}, fullness=fullness, cloth=cloth("54")))
    assert face.refused is not None
    assert face.refused.reason == "too much"
    told = next(finding for finding in plan.findings if finding.id == "refused:face")
    assert told.level == "stop"
    assert "far more cloth than a bed skirt takes" in told.sentence
    assert_says(told, "refused, too much")
    assert not plan.complete


def test_a_long_wall_of_beds_is_still_laid_out() -> None:
    sections = {f"s{number}": straight("left", "240", "11") for number in range(12)}
    _, face = planned(plain_job(sections, fullness="3", cloth=cloth("45")))
    assert face.cutting is not None
