"""Cautions: each is called for by the choices it is about, and said before the step that needs it."""

from __future__ import annotations

from fractions import Fraction
from typing import Any, get_args

import pytest
from msgspec.structs import replace

from wizard.trade.cautions import (
    BEARS,
    CAUTIONS,
    MEANINGS,
    UNKNOWN,
    CareLine,
    called,
    called_for,
    care_of,
)
from wizard.trade.job_fields import (
    Cloth,
    Cloths,
    Fixing,
    FixingKind,
    Job,
    Obstacle,
    ObstacleKind,
    Section,
    Survey,
    Watch,
)
from wizard.trade.lengths import ZERO, Length
from wizard.trade.steps.step_writer import KINDS, StepKind, cautions_for

ALWAYS = ("two-people", "nobody-on-bed", "iron", "rotary-cutter", "power-tools", "count-pins", "heaters", "vents",
          "sockets", "cot", "local-rules")  # fmt: skip


def ids(job: Job) -> list[str]:
    return [each.id for each in called(CAUTIONS, job)]


def fixed_by(kind: FixingKind) -> Job:
    return Job(cloth=Cloths(fixing=Fixing(kind=kind)))


def with_section(**fields: Any) -> Job:
    return Job(survey=Survey(section={"left": Section(**fields)}))


@pytest.mark.parametrize("caution", ALWAYS)
def test_what_every_bed_skirt_calls_for_is_said_even_of_an_empty_job(caution: str) -> None:
    assert caution in ids(Job())


@pytest.mark.parametrize(
    ("kind", "expected"),
    [
        ("staples", {"stapler", "stapler-jam", "stapler-trigger", "behind-rail", "points"}),
        ("tacks", {"behind-rail", "points", "hammer"}),
        ("adhesive hook-and-loop", {"fumes"}),
        ("hook-and-loop", set()),
        ("magnets", {"magnets"}),
        ("upholstery pins", {"behind-rail", "pins-in-rail"}),
        ("glue", {"glue", "fumes"}),
    ],
)
def test_each_fixing_calls_for_its_own_cautions_and_no_others(kind: FixingKind, expected: set[str]) -> None:
    assert set(ids(fixed_by(kind))) - set(ids(Job())) == expected


@pytest.mark.parametrize("watch", get_args(Watch))
def test_everything_to_watch_about_a_bed_has_a_caution(watch: Watch) -> None:
    found = set(ids(Job(survey=Survey(watch=(watch,)))))
    if watch == "cot":
        assert "cot" in found
    else:
        assert len(found - set(ids(Job()))) == 1


@pytest.mark.parametrize("kind", ["heater", "vent", "socket"])
def test_a_heater_vent_or_socket_on_a_run_always_raises_its_caution(kind: ObstacleKind) -> None:
    job = with_section(in_the_way={"thing": Obstacle(kind=kind)})
    assert f"{kind}-here" in ids(job)
    assert f"{kind}-here" in [each.id for each in cautions_for("hang", job)]


def test_a_section_switched_off_raises_nothing() -> None:
    job = with_section(on=False, in_the_way={"thing": Obstacle(kind="heater")})
    assert "heater-here" not in ids(job)


def test_layers_in_use_call_for_the_caution_on_layers_together() -> None:
    lined = Job(cloth=Cloths(lining=Cloth(use=True)))
    assert "layers-together" in ids(lined)
    assert "layers-together" not in ids(Job(cloth=Cloths(lining=Cloth(use=False))))


def test_a_hem_at_the_floor_calls_for_the_caution_on_pooling_and_daylight_takes_it_away() -> None:
    at_floor = with_section(floor_gap=ZERO)
    clear = with_section(floor_gap=Length(Fraction(1, 2)))
    uneven = with_section(floor_gap=Length(Fraction(1, 2)), hem_line="follow the floor")
    assert ["pooling" in ids(job) for job in (at_floor, clear, uneven)] == [True, False, True]


def test_a_section_at_the_floor_calls_for_it_whatever_daylight_the_other_sections_have() -> None:
    quarter, none = Length(Fraction(1, 4)), Length(Fraction(0))

    def gaps(whole_bed: Length | None, *sections: Length | None) -> Job:
        named = {f"section-{number}": Section(floor_gap=gap) for number, gap in enumerate(sections)}
        return Job(survey=Survey(floor_gap=whole_bed, section=named))

    jobs = (
        gaps(quarter, none, None),
        gaps(none, quarter, None),
        gaps(none, quarter),
        gaps(quarter, None),
        gaps(None, None),
    )
    assert ["pooling" in ids(job) for job in jobs] == [True, True, False, False, True]


def test_cloth_that_is_not_washed_is_cautioned_about_and_washed_cloth_is_not() -> None:
    washed = Job(cloth=Cloths(face=Cloth(wash="washed first")))
    assert "not-washed" in ids(Job())
    assert "not-washed" not in ids(washed)
    lined = replace(washed, cloth=replace(washed.cloth, lining=Cloth(use=True)))
    assert "not-washed" in ids(lined)


def test_an_heirloom_rail_calls_for_a_conservator() -> None:
    assert "antique" in ids(with_section(rail="heirloom"))


def test_each_caution_is_a_full_sentence_under_one_fixed_id() -> None:
    assert all(each.sentence[0].isupper() and each.sentence.endswith(".") for each in CAUTIONS.values())
    assert len({each.sentence for each in CAUTIONS.values()}) == len(CAUTIONS)


def test_every_caution_comes_before_some_step() -> None:
    assert {each for kind in KINDS.values() for each in kind.cautions} == set(CAUTIONS)


def test_a_step_says_only_what_the_job_calls_for() -> None:
    assert list(KINDS) == list(get_args(StepKind))
    for kind in KINDS:
        for job in (Job(), fixed_by("staples"), fixed_by("glue")):
            assert all(called_for(each.id, job) for each in cautions_for(kind, job))
    assert [each.id for each in cautions_for("put-back", Job())] == ["two-people", "nobody-on-bed"]


def test_no_caution_claims_that_a_skirt_meets_a_rule() -> None:
    claims = ("complies", "compliant", "certified", "approved", "meets the", "is safe")
    assert not [each for each in CAUTIONS.values() for claim in claims if claim in each.sentence]


def test_every_caution_has_a_short_name_of_its_own() -> None:
    names = [each.note for each in CAUTIONS.values()]
    assert len(set(names)) == len(names)
    assert all(names)
    assert not [each for each in names if ";" in each or len(each) > 40]


def test_a_distance_is_said_in_the_job_s_own_units() -> None:
    def heater(job: Job) -> str:
        return next(each.sentence for each in called(CAUTIONS, job) if each.id == "heaters")

    assert heater(Job()) == "Keep the cloth at least 3 ft from any heater, fire or stove."
    assert heater(Job(standard="metric")) == "Keep the cloth at least 1 m from any heater, fire or stove."
    assert heater(Job(standard="metric", show="in")) == heater(Job())


# The care label: the strictest of the layers, process by process.
def label(**layers: Any) -> dict[str, CareLine]:
    return {each.process: each for each in care_of(Job(cloth=Cloths(**layers)))}


def says(**layers: Any) -> dict[str, str]:
    return {process: line.says for process, line in label(**layers).items()}


COTTON = Cloth(kind="plain cotton", wash="washed first")
FLANNEL = Cloth(use=True, kind="flannel", wash="already washed")


def test_cotton_that_was_washed_first_may_be_washed() -> None:
    assert says(face=COTTON) == {
        "wash": "Wash at 40 °C at most.",
        "bleach": "Do not bleach.",
        "dry": "Tumble dry at a low temperature, 60 °C at most.",
        "iron": "Iron at 200 °C at most.",
        "professional": "Professional dry cleaning, normal process.",
    }


def test_the_stricter_layer_decides_each_process_and_is_named() -> None:
    both = label(face=COTTON, lining=FLANNEL)
    assert both["wash"].says == "Wash at 30 °C at most, mild process."
    assert both["wash"].because == ("lining: flannel",)
    assert both["iron"].says == "Iron at 150 °C at most."
    assert both["professional"].because == ("face cloth: plain cotton", "lining: flannel")


def test_a_layer_that_is_not_in_use_says_nothing() -> None:
    assert says(face=COTTON, lining=Cloth(use=False, kind="fine silk")) == says(face=COTTON)


@pytest.mark.parametrize("wash", [None, "not washed"])
def test_cloth_not_washed_before_it_is_cut_is_not_washed_after(wash: str | None) -> None:
    line = label(face=Cloth(kind="linen", wash=wash))["wash"]  # type: ignore[arg-type]
    assert line.says == "Do not wash."
    assert line.because == ("face cloth: not washed before it is cut, so nothing is allowed for shrinking",)


@pytest.mark.parametrize("kind", [None, "other"])
def test_cloth_of_which_nothing_is_known_is_treated_as_the_most_delicate(kind: str | None) -> None:
    line = label(face=Cloth(kind=kind, wash="washed first"))  # type: ignore[arg-type]
    assert line["wash"].says == "Do not wash."
    assert line["professional"].says == "Do not dry clean before the cloth's own label is read."
    assert line["iron"].because == ("face cloth: its fibre is not known",)


def test_every_kind_of_cloth_has_a_step_in_every_process() -> None:
    for steps in (*BEARS.values(), UNKNOWN):
        assert set(steps) == set(MEANINGS)
        assert all(0 <= step < len(MEANINGS[process]) for process, step in steps.items())


def test_a_layer_more_never_makes_the_label_milder() -> None:
    for kind in BEARS:
        alone = label(face=COTTON)
        more = label(face=COTTON, interlining=Cloth(use=True, kind=kind, wash="washed first"))  # type: ignore[arg-type]
        for process, words in MEANINGS.items():
            assert words.index(more[process].says) <= words.index(alone[process].says)
