"""Why: each figure tells its formula, its values, the rule and where the rule is from."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

from tests.trade.sample_jobs import everything, inches, small, with_face, with_section
from wizard.trade import figures
from wizard.trade.drops_and_cut_lengths import PICKED
from wizard.trade.figures import REASONS, Explanation, Figure, Rule, explained, spoken
from wizard.trade.formatting import Ruler, ruler_of
from wizard.trade.lengths import Length
from wizard.trade.make_plan import make_plan

TRADE = Path(figures.__file__).parent
RULER = Ruler("in", inches("1/16"))
METRIC_RULER = Ruler("cm", Length.of(1, "mm"))


def of(job: object, figure: str) -> Explanation:
    plan = make_plan(job)  # type: ignore[arg-type]
    return explained(plan.figures[figure], ruler_of(plan.job))


def test_a_drop_tells_what_it_is_made_of() -> None:
    told = of(with_section(small(), "left", raised=inches("1/4")), "part.left.drop")
    assert told.title == "finished drop"
    assert told.formula == "smallest drop reading + drop line above the rail's lower edge − gap under the hem"
    assert told.values == "12 in + 1/4 in − 0 in"
    assert told.result == "12 1/4 in"
    assert told.source == "common practice"


def test_no_number_is_a_riddle() -> None:
    assert (spoken(Fraction(1825, 811), RULER), spoken(Fraction(9, 4), RULER)) == ("≈ 2.25", "2.25")
    assert (spoken(inches(40) / 3, RULER), spoken(inches(40) / 7, RULER)) == ("13 1/3 in", "≈ 5.71 in")
    assert spoken(inches(40) / 7, METRIC_RULER) == "≈ 14.51 cm"


def test_a_fixed_length_is_said_in_the_unit_of_the_job() -> None:
    plan = make_plan(everything())
    told = [explained(plan.figures["fixing.leg_least"], each).formula for each in (RULER, METRIC_RULER)]
    assert told[0].startswith("1/16 in of tape + ")
    assert told[1].startswith("≈ 1.6 mm of tape + ")


def test_a_length_laid_out_counts_its_widths() -> None:
    told = of(small(), "layer.face.on.roll")
    assert told.formula.startswith("4 × cut length (left) + ")
    assert told.values == "4 × 13 1/2 in + 4 × 13 1/2 in + 2 × 11 1/2 in"


def test_a_matched_half_drop_names_its_rule_and_the_others_that_stand_in_print() -> None:
    told = of(with_face(small(), repeat=inches(10), repeat_kind="half-drop"), "layer.face.on.roll")
    assert told.formula == "length laid out, on a half-drop repeat of repeat as it is cut"
    assert told.says.endswith(
        "Printed rules differ: half a repeat more for the order, a repeat more for every other width, or half a repeat "
        "more for every width."
    )


def test_a_figure_that_is_not_known_says_what_it_waits_for() -> None:
    told = of(with_face(small(), width=None), "layer.face.usable")
    assert told.result == "not known yet: needs face cloth: width"
    assert told.values == "not known yet × (1 − 0) − 2 × 1/2 in, rounded down to 1/16 in"


def test_what_was_given_and_what_stands_unasked_say_so() -> None:
    assert of(small(), "survey.section.left.run.1").source == "the maker"
    assert of(small(), "allowances.join").says.startswith("You chose nothing else")


def test_no_why_of_a_full_job_leaves_a_brace_a_name_or_an_empty_text() -> None:
    plan = make_plan(everything())
    for figure in plan.figures.values():
        told = explained(figure, RULER)
        assert not set("{}_") & set(told.formula + told.values), figure.id
        assert all((told.title, told.formula, told.values, told.result, told.says, told.source)), figure.id


def test_a_name_typed_with_braces_is_shown_as_it_was_typed() -> None:
    inner = Figure("a", "{window} side", inches(3), (), Rule("a", "{value}", "It is."))
    outer = Figure("b", "twice", inches(6), (), Rule("b", "2 × {it}", "Twice."), (("it", inner),))
    assert explained(outer, RULER).formula == "2 × {window} side"


def test_every_reason_is_that_of_a_rule() -> None:
    sources = "".join(path.read_text(encoding="utf-8") for path in TRADE.rglob("*.py"))
    assert [id for id in REASONS if f'"{id}"' not in sources and id.removesuffix(" reading") not in PICKED] == []
    assert all(each.sentence[0].isupper() and each.sentence.endswith(".") for each in REASONS.values())
