"""Every sum that is printed follows from the values printed in it, whatever the ruler."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from tests.trade.cutting.geometry import faults
from tests.trade.sample_jobs import everything, inches, small, with_face
from wizard.trade.figures import Figure, explained
from wizard.trade.formatting import ruler_of
from wizard.trade.job_fields import Allowances, Job, Owned
from wizard.trade.lengths import Length, round_down, round_up
from wizard.trade.make_plan import make_plan

ROUND = {"up": round_up, "down": round_down}
FORMULA = re.compile(r"(?P<sum>[{}()+−×÷\d\s\w/:-]+?)(, rounded (?P<way>up|down) to {(?P<mark>mark|step)})?")
NAME = re.compile(r"{([^}]*)}")
RULERS = ["1 mm", "2 mm", "5 mm", "1 cm", "1/16 in", "1/8 in", "1/4 in", "1/2 in", "1 in"]


def length(text: str) -> Length:
    amount, unit = text.split()
    return Length.of(Fraction(amount), unit)


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


def that_do_not_follow(job: Job) -> Iterator[str]:
    """The figures whose value is not what their formula gives."""
    for figure in make_plan(job).figures.values():
        result = worked(figure) if figure.value is not None and figure.inputs else None
        if result is not None and result != figure.value:
            yield f"{figure.id}: {figure.value} is not {figure.rule.formula}"


def with_squaring(job: Job, ruler: Length, squaring: Length) -> Job:
    allowances = replace(job.allowances or Allowances(), squaring=squaring)
    return replace(job, ruler=ruler, allowances=allowances)


def test_the_sums_of_a_full_job_are_worked_again() -> None:
    figures = make_plan(everything()).figures.values()
    assert sum(worked(figure) is not None for figure in figures if figure.value is not None and figure.inputs) > 100


@pytest.mark.parametrize("ruler", RULERS)
def test_every_sum_follows_by_every_ruler(ruler: str) -> None:
    assert list(that_do_not_follow(with_squaring(everything(), length(ruler), length("25 mm")))) == []


@settings(deadline=None, max_examples=40)
@given(st.sampled_from(RULERS), st.integers(0, 400))
def test_what_the_roll_must_give_is_the_squaring_as_it_was_typed_and_what_is_laid_out(ruler: str, tenths: int) -> None:
    squaring = Length.of(Fraction(tenths, 10), "mm")
    plan = make_plan(with_squaring(replace(small(), show="mm"), length(ruler), squaring))
    roll, laid = plan.figures["layer.face.roll"], plan.figures["layer.face.on.roll"]
    assert laid.value is not None
    assert roll.value == squaring + laid.value
    told = explained(roll, ruler_of(plan.job))
    assert told.result.startswith("≈") == (round_up(roll.value, Length.of(Fraction(1, 10), "mm")) != roll.value)


def test_a_metric_sum_is_printed_as_it_is_between_two_marks() -> None:
    job = with_squaring(replace(small(), show="cm", standard="metric"), length("2 mm"), length("25 mm"))
    plan = make_plan(job)
    told = explained(plan.figures["layer.face.roll"], ruler_of(plan.job))
    assert re.fullmatch(r"2\.5 cm \+ \d+(\.[2468])? cm ÷ 1", told.values)
    first, _, rest = told.values.partition(" cm + ")
    total = Fraction(first) + Fraction(rest.partition(" ")[0])
    assert Fraction(told.result.partition(" ")[0]) == total
    assert explained(plan.figures["allowances.squaring"], ruler_of(plan.job)).result.startswith("2.5 cm")


@settings(deadline=None, max_examples=40)
@given(st.sampled_from(RULERS), st.integers(0, 60), st.integers(100, 900), st.integers(0, 900))
def test_no_piece_lies_in_what_is_squared_off_or_damaged(ruler: str, squared: int, whole: int, damage: int) -> None:
    mm = [Length.of(each, "mm") for each in (squared, whole * 10, damage, damage + 45)]
    owned = Owned(length=mm[1], damage_from=mm[2], damage_to=mm[3])
    plan = make_plan(with_squaring(with_face(small(), owned={"one": owned}), length(ruler), mm[0]))
    layer = plan.layers[0]
    assert layer.cutting is not None
    assert layer.rules is not None
    assert faults(layer.cutting.best, layer.strips, layer.stock, layer.rules) == []
    first, last = mm[2] - mm[0], mm[3] - mm[0]
    here = [piece for piece in layer.cutting.best.pieces if piece.stretch == "one"]
    assert all(piece.start >= last or piece.start + piece.cut <= first for piece in here)
    assert all(piece.start + piece.cut <= mm[1] - mm[0] for piece in here)
    assert inches(0) <= min([piece.start for piece in here], default=inches(0))
