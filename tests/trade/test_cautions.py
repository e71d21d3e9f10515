"""Cautions: each is called for by the choices it is about, and said before the step that needs it."""

from __future__ import annotations

from fractions import Fraction
from typing import Any, get_args

import pytest
from msgspec.structs import replace

from wizard.trade.cautions import BEARS, CAUTIONS, MEANINGS, UNKNOWN, CareLine, called, called_for, care_of
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


def ids(job: Job) -> list[str]:
    return [each.id for each in called(CAUTIONS, job)]


def with_section(**fields: Any) -> Job:
    return Job(survey=Survey(section={"left": Section(**fields)}))


ALWAYS = {
    "two-people", "nobody-on-bed", "iron", "rotary-cutter", "power-tools", "count-pins", "heaters", "vents", "sockets",
    "cot", "local-rules",
}  # fmt: skip
"""What every bed skirt calls for, even an empty job."""


@pytest.mark.parametrize(
    ("kind", "expected"),
    [
        ("staples", {"stapler", "stapler-jam", "stapler-trigger", "behind-rail", "points"}),
        ("tacks", {"behind-rail", "points", "hammer"}), ("adhesive hook-and-loop", {"fumes"}),
        ("hook-and-loop", set()), ("magnets", {"magnets"}), ("upholstery pins", {"behind-rail", "pins-in-rail"}),
        ("glue", {"glue", "fumes"}),
    ],
)  # fmt: skip
def test_each_fixing_calls_for_its_own_cautions_and_no_others(kind: FixingKind, expected: set[str]) -> None:
    fixed = Job(cloth=Cloths(fixing=Fixing(kind=kind)))
    assert set(ids(fixed)) - set(ids(Job())) == expected
    assert set(ids(Job())) >= ALWAYS
    for step in KINDS:
        assert all(called_for(each.id, fixed) for each in cautions_for(step, fixed)), (
            "a step says only what is called for"
        )


@pytest.mark.parametrize("watch", get_args(Watch))
def test_everything_to_watch_about_a_bed_has_a_caution(watch: Watch) -> None:
    found = set(ids(Job(survey=Survey(watch=(watch,)))))
    assert "cot" in found
    assert len(found - set(ids(Job()))) == (watch != "cot")


@pytest.mark.parametrize("kind", ["heater", "vent", "socket"])
def test_a_heater_vent_or_socket_on_a_run_always_raises_its_caution(kind: ObstacleKind) -> None:
    job = with_section(in_the_way={"thing": Obstacle(kind=kind)})
    assert f"{kind}-here" in ids(job)
    assert f"{kind}-here" in [each.id for each in cautions_for("hang", job)]
    assert f"{kind}-here" not in ids(with_section(on=False, in_the_way={"thing": Obstacle(kind=kind)}))


WASHED = Cloths(face=Cloth(wash="washed first"))


@pytest.mark.parametrize(
    ("caution", "calls", "does_not"),
    [
        ("layers-together", Job(cloth=Cloths(lining=Cloth(use=True))), Job(cloth=Cloths(lining=Cloth(use=False)))),
        ("pooling", with_section(floor_gap=ZERO), with_section(floor_gap=Length(Fraction(1, 2)))),
        ("pooling", with_section(floor_gap=Length(1), hem_line="follow the floor"), with_section(floor_gap=Length(1))),
        ("not-washed", Job(), Job(cloth=WASHED)),
        ("not-washed", Job(cloth=replace(WASHED, lining=Cloth(use=True))), Job(cloth=WASHED)),
        ("antique", with_section(rail="heirloom"), Job()),
    ],
)  # fmt: skip
def test_a_caution_is_called_for_by_the_choice_it_is_about(caution: str, calls: Job, does_not: Job) -> None:
    assert caution in ids(calls)
    assert caution not in ids(does_not)


@pytest.mark.parametrize(
    ("whole_bed", "sections", "pools"),
    [("1/4", ["0", None], True), ("0", ["1/4", None], True), ("0", ["1/4"], False), ("1/4", [None], False),
     (None, [None], True)],
)  # fmt: skip
def test_a_section_at_the_floor_pools_whatever_daylight_the_others_have(
    whole_bed: str | None, sections: list[str | None], pools: bool
) -> None:
    gap, *gaps = (None if each is None else Length(Fraction(each)) for each in (whole_bed, *sections))
    named = {f"section-{number}": Section(floor_gap=each) for number, each in enumerate(gaps)}
    assert ("pooling" in ids(Job(survey=Survey(floor_gap=gap, section=named)))) is pools


def test_each_caution_is_a_full_sentence_with_a_short_name_under_one_fixed_id_before_some_step() -> None:
    sentences, names = ([getattr(each, part) for each in CAUTIONS.values()] for part in ("sentence", "note"))
    assert all(each[0].isupper() and each.endswith(".") for each in sentences)
    assert not [each for each in names if not each or ";" in each or len(each) > 40]
    assert len(set(sentences)) == len(set(names)) == len(CAUTIONS)
    assert {each for kind in KINDS.values() for each in kind.cautions} == set(CAUTIONS)
    claims = ("complies", "compliant", "certified", "approved", "meets the", "is safe")
    assert not [each for each in sentences for claim in claims if claim in each], "no skirt is said to meet a rule"
    assert list(KINDS) == list(get_args(StepKind))
    assert [each.id for each in cautions_for("put-back", Job())] == ["two-people", "nobody-on-bed"]


def test_a_distance_is_said_in_the_job_s_own_units() -> None:
    def heater(job: Job) -> str:
        return next(each.sentence for each in called(CAUTIONS, job) if each.id == "heaters")

    assert heater(Job()) == "Keep the cloth at least 3 ft from any heater, fire or stove."
    assert heater(Job(standard="metric")) == "Keep the cloth at least 1 m from any heater, fire or stove."
    assert heater(Job(standard="metric", show="in")) == heater(Job())


# The care label: the strictest of the layers, process by process.
def label(**layers: Any) -> dict[str, CareLine]:
    return {each.process: each for each in care_of(Job(cloth=Cloths(**layers)))}


COTTON = Cloth(kind="plain cotton", wash="washed first")
OF_COTTON = {
    "wash": "Wash at 40 °C at most.",
    "bleach": "Do not bleach.",
    "dry": "Tumble dry at a low temperature, 60 °C at most.",
    "iron": "Iron at 200 °C at most.",
    "professional": "Professional dry cleaning, normal process.",
}


def test_the_stricter_layer_in_use_decides_each_process_and_is_named() -> None:
    for lining in (Cloth(), Cloth(use=False, kind="fine silk")):
        assert {process: line.says for process, line in label(face=COTTON, lining=lining).items()} == OF_COTTON
    both = label(face=COTTON, lining=Cloth(use=True, kind="flannel", wash="already washed"))
    assert both["wash"].says == "Wash at 30 °C at most, mild process."
    assert both["wash"].because == ("lining: flannel",)
    assert both["iron"].says == "Iron at 150 °C at most."
    assert both["professional"].because == ("face cloth: plain cotton", "lining: flannel")


def test_cloth_not_washed_first_is_not_washed_after_and_what_is_not_known_counts_as_the_most_delicate() -> None:
    for wash in (None, "not washed"):
        line = label(face=Cloth(kind="linen", wash=wash))["wash"]
        assert line.says == "Do not wash."
        assert line.because == ("face cloth: not washed before it is cut, so nothing is allowed for shrinking",)
    for kind in (None, "other"):
        lines = label(face=Cloth(kind=kind, wash="washed first"))
        assert lines["wash"].says == "Do not wash."
        assert lines["professional"].says == "Do not dry clean before you have read the cloth's own label."
        assert lines["iron"].because == ("face cloth: what it is made of is not known",)


def test_every_kind_has_a_step_in_every_process_and_a_layer_more_never_makes_the_label_milder() -> None:
    alone = label(face=COTTON)
    for steps in (*BEARS.values(), UNKNOWN):
        assert set(steps) == set(MEANINGS)
        assert all(0 <= step < len(MEANINGS[process]) for process, step in steps.items())
    for kind in BEARS:
        more = label(face=COTTON, interlining=Cloth(use=True, kind=kind, wash="washed first"))  # type: ignore[arg-type]
        for process, words in MEANINGS.items():
            assert words.index(more[process].says) <= words.index(alone[process].says)
