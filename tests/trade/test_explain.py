"""Why: each figure tells its formula, its values, the rule and its source; and every sum printed follows from them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.trade.cutting.geometry import faults
from tests.trade.sample_jobs import everything, inches, known, small, with_face, with_section
from wizard.trade import figures
from wizard.trade.drops_and_cut_lengths import PICKED
from wizard.trade.figures import REASONS, Explanation, Figure, Rule, explained, spoken
from wizard.trade.formatting import Ruler, ruler_of
from wizard.trade.job_fields import Allowances, Job, Owned
from wizard.trade.lengths import Length, round_down, round_up
from wizard.trade.make_plan import make_plan

TRADE = Path(figures.__file__).parent
RULER = Ruler("in", inches("1/16"))
METRIC_RULER = Ruler("cm", Length.of(1, "mm"))


def of(job: Job, figure: str) -> Explanation:
    plan = make_plan(job)
    return explained(plan.figures[figure], ruler_of(plan.job))


def test_a_figure_tells_what_it_is_made_of_and_where_its_rule_is_from() -> None:
    told = of(with_section(small(), "left", raised=inches("1/4")), "part.left.drop")
    assert told.title == "finished drop"
    assert told.formula == "smallest drop reading + drop line above the rail's lower edge − gap under the hem"
    assert (told.values, told.result, told.source) == ("12 in + 1/4 in − 0 in", "12 1/4 in", "common practice")
    told = of(small(), "layer.face.on.roll")
    assert told.formula.startswith("4 × cut length (left) + ")
    assert told.values == "4 × 13 1/2 in + 4 × 13 1/2 in + 2 × 11 1/2 in"
    told = of(with_face(small(), width=None), "layer.face.usable")
    assert told.result == "not known yet: needs face cloth: width"
    assert told.values == "not known yet × (1 − 0) − 2 × 1/2 in, rounded down to 1/16 in"
    assert of(small(), "survey.section.left.run.1").source == "the maker"
    assert of(small(), "allowances.join").says.startswith("You chose nothing else")


def test_a_matched_half_drop_names_its_rule_and_the_others_that_stand_in_print() -> None:
    told = of(with_face(small(), repeat=inches(10), repeat_kind="half-drop"), "layer.face.on.roll")
    assert told.formula == "length laid out, on a half-drop repeat of repeat as it is cut"
    assert told.says.endswith(
        "Printed rules differ: half a repeat more for the order, a repeat more for every other width, or half a repeat "
        "more for every width."
    )


def test_no_number_is_a_riddle() -> None:
    assert (spoken(Fraction(1825, 811), RULER), spoken(Fraction(9, 4), RULER)) == ("≈ 2.25", "2.25")
    assert (spoken(inches(40) / 3, RULER), spoken(inches(40) / 7, RULER)) == ("13 1/3 in", "≈ 5.71 in")
    assert spoken(inches(40) / 7, METRIC_RULER) == "≈ 14.51 cm"


def test_no_why_of_a_full_job_leaves_a_brace_a_name_or_an_empty_text() -> None:
    plan = make_plan(everything())
    for figure in plan.figures.values():
        told = explained(figure, RULER)
        assert not set("{}_") & set(told.formula + told.values), figure.id
        assert all((told.title, told.formula, told.values, told.result, told.says, told.source)), figure.id
    leg = [explained(plan.figures["fixing.leg_least"], each).formula for each in (RULER, METRIC_RULER)]
    assert leg[0].startswith("1/16 in of tape + ")
    assert leg[1].startswith("≈ 1.6 mm of tape + "), "a fixed length is said in the unit of the job"
    inner = Figure("a", "{window} side", inches(3), (), Rule("a", "{value}", "It is."))
    outer = Figure("b", "twice", inches(6), (), Rule("b", "2 × {it}", "Twice."), (("it", inner),))
    assert explained(outer, RULER).formula == "2 × {window} side", "a name is shown as it was typed"


def test_every_reason_is_that_of_a_rule() -> None:
    sources = "".join(path.read_text(encoding="utf-8") for path in TRADE.rglob("*.py"))
    assert [id for id in REASONS if f'"{id}"' not in sources and id.removesuffix(" reading") not in PICKED] == []
    assert all(each.sentence[0].isupper() and each.sentence.endswith(".") for each in REASONS.values())


# Every sum that is printed follows from the values printed in it, whatever the ruler.
ROUND = {"up": round_up, "down": round_down}
FORMULA = re.compile(r"(?P<sum>[{}()+−×÷\d\s\w/:-]+?)(, rounded (?P<way>up|down) to {(?P<mark>mark|step)})?")
NAME = re.compile(r"{([^}]*)}")
RULERS = ["1 mm", "2 mm", "5 mm", "1 cm", "1/16 in", "1/8 in", "1/4 in", "1/2 in", "1 in"]


def worked(figure: Figure[Any]) -> object | None:
    """What a figure's formula gives with its inputs put in; None where the formula is more than a sum."""
    found = FORMULA.fullmatch(figure.rule.formula)
    values: dict[str, Any] = {name: part.value for name, part in figure.inputs}
    if not found or re.search(r"[a-z]", NAME.sub("", found["sum"])) or not set(NAME.findall(found["sum"])) <= {*values}:
        return None
    if not all(isinstance(each, Length | Fraction | int) for each in values.values()):
        return None
    named = dict(zip("abcdefghijklmnopqrstuvwxyz", dict.fromkeys(NAME.findall(found["sum"])), strict=False))
    sums = found["sum"].replace("−", "-").replace("×", "*").replace("÷", "/")
    for letter, name in named.items():
        sums = sums.replace(f"{{{name}}}", letter)
    sums = re.sub(r"(\d+)", r"Fraction(\1)", sums)
    result = eval(sums, {"Fraction": Fraction, **{letter: values[name] for letter, name in named.items()}})
    return ROUND[found["way"]](result, values[found["mark"]]) if found["way"] else result


def sums_of(job: Job) -> Iterator[tuple[Figure[Any], object]]:
    """The figures whose formula is a sum, and what it gives."""
    for figure in make_plan(job).figures.values():
        result = worked(figure) if figure.value is not None and figure.inputs else None
        if result is not None:
            yield figure, result


def squared(job: Job, ruler: str, squaring: Length) -> Job:
    """The job by another ruler, with so much squared off."""
    amount, unit = ruler.split()
    allowances = replace(job.allowances or Allowances(), squaring=squaring)
    return replace(job, ruler=Length.of(Fraction(amount), unit), allowances=allowances)


@pytest.mark.parametrize("ruler", RULERS)
def test_every_sum_follows_by_every_ruler(ruler: str) -> None:
    found = list(sums_of(squared(everything(), ruler, Length.of(25, "mm"))))
    assert [each.id for each, result in found if result != each.value] == []
    assert len(found) > 100


@settings(deadline=None, max_examples=40)
@given(st.sampled_from(RULERS), st.integers(0, 400))
def test_what_the_roll_must_give_is_the_squaring_as_it_was_typed_and_what_is_laid_out(ruler: str, tenths: int) -> None:
    squaring = Length.of(Fraction(tenths, 10), "mm")
    plan = make_plan(squared(replace(small(), show="mm"), ruler, squaring))
    roll, laid = plan.figures["layer.face.roll"], plan.figures["layer.face.on.roll"]
    assert laid.value is not None
    assert roll.value == squaring + laid.value
    told = explained(roll, ruler_of(plan.job))
    assert told.result.startswith("≈") == (round_up(roll.value, Length.of(Fraction(1, 10), "mm")) != roll.value)


def test_a_metric_sum_is_printed_as_it_is_between_two_marks() -> None:
    plan = make_plan(squared(replace(small(), show="cm", standard="metric"), "2 mm", Length.of(25, "mm")))
    told = explained(plan.figures["layer.face.roll"], ruler_of(plan.job))
    assert re.fullmatch(r"2\.5 cm \+ \d+(\.[2468])? cm ÷ 1", told.values)
    first, _, rest = told.values.partition(" cm + ")
    assert Fraction(told.result.partition(" ")[0]) == Fraction(first) + Fraction(rest.partition(" ")[0])
    assert explained(plan.figures["allowances.squaring"], ruler_of(plan.job)).result.startswith("2.5 cm")


@settings(deadline=None, max_examples=40)
@given(st.sampled_from(RULERS), st.integers(0, 60), st.integers(100, 900), st.integers(0, 900))
def test_no_piece_lies_in_what_is_squared_off_or_damaged(ruler: str, taken: int, whole: int, damage: int) -> None:
    mm = [Length.of(each, "mm") for each in (taken, whole * 10, damage, damage + 45)]
    owned = Owned(length=mm[1], damage_from=mm[2], damage_to=mm[3])
    layer = make_plan(squared(with_face(small(), owned={"one": owned}), ruler, mm[0])).layers[0]
    assert faults(known(layer.cutting).best, layer.strips, layer.stock, known(layer.rules)) == []
    here = [
        (piece.start, piece.start + piece.cut) for piece in known(layer.cutting).best.pieces if piece.stretch == "one"
    ]
    assert all(start >= mm[3] - mm[0] or end <= mm[2] - mm[0] for start, end in here)
    assert all(inches(0) <= start and end <= mm[1] - mm[0] for start, end in here)
