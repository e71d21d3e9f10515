"""A job in inches and the same job in millimetres: one plan, where ruler mark and shop step are the same lengths."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st

from wizard.project.plans import plan_of
from wizard.project.project import Project, put_many
from wizard.trade.formatting import exact
from wizard.trade.lengths import Length
from wizard.trade.plan import Plan

FIXED = {
    "survey.rail": "solid wood", "survey.floor": "carpet", "cloth.face.kind": "linen", "cloth.face.weight": "medium",
    "cloth.fixing.kind": "staples", "standard": "inches",
}  # fmt: skip
LENGTHS = {
    "ruler": "1/16", "survey.rail_thickness": "1", "survey.floor_gap": "0", "cloth.face.width": "56",
    "cloth.face.step": "9/2", "cloth.fixing.spacing": "2", "cloth.tape.step": "36",
}  # fmt: skip


def planned(unit: str, sides: dict[str, tuple[int, int]], fullness: str) -> Plan:
    """A plan from typed text in one unit; runs and drops in sixteenths of an inch."""

    def typed(inches: Fraction) -> str:
        return exact(Length(inches), unit)

    values: dict[str, Any] = FIXED | {"show": unit, "fullness.want": fullness}
    values |= {key: typed(Fraction(text)) for key, text in LENGTHS.items()}
    for side, (run, drop) in sides.items():
        key = f"survey.section.{side}"
        values |= {f"{key}.on": True, f"{key}.left_end": "stops", f"{key}.right_end": "stops"}
        values |= {f"{key}.run.{number}": typed(Fraction(run, 16)) for number in (1, 2)}
        values |= {f"{key}.drop.{number}": typed(Fraction(drop, 16)) for number in (1, 2, 3)}
    return plan_of(put_many(Project(), values))


def measured(plan: Plan) -> dict[str, Any]:
    """Every figure but the unit itself."""
    return {id: figure.value for id, figure in plan.figures.items() if id != "show"}


@settings(max_examples=15, deadline=None)
@given(
    sides=st.dictionaries(
        st.sampled_from(("left", "foot", "right")),
        st.tuples(st.integers(400, 1400), st.integers(100, 260)),
        min_size=1,
    ),
    fullness=st.sampled_from(("2", "2.25", "2 1/3", "2.5", "3")),
)
def test_inches_and_millimetres_give_the_same_plan(sides: dict[str, tuple[int, int]], fullness: str) -> None:
    inch, metric = planned("in", sides, fullness), planned("mm", sides, fullness)
    assert inch.missing == metric.missing == ()
    assert measured(inch) == measured(metric)
    assert [layer.cutting for layer in inch.layers] == [layer.cutting for layer in metric.layers]
    assert [part.marks for part in inch.parts] == [part.marks for part in metric.parts]
    assert [part.fixings for part in inch.parts] == [part.fixings for part in metric.parts]
    assert inch.steps_of_fullness == metric.steps_of_fullness
    assert [each.id for each in inch.findings] == [each.id for each in metric.findings]
