"""What is taken where a length is wanted."""

import subprocess
import sys
from fractions import Fraction

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from wizard.project.parse import Misread, read_length
from wizard.project.parse.number_text import MOST_FIGURES
from wizard.trade.formatting import exact
from wizard.trade.lengths import UNITS, ZERO, Length

EIGHTY_AND_A_HALF = Length(Fraction(161, 2))
TWO_METRES = Length.of(Fraction("204.5"), "cm")

READ = [
    ("80 1/2", EIGHTY_AND_A_HALF),
    ("80-1/2", EIGHTY_AND_A_HALF),
    ('80-1/2"', EIGHTY_AND_A_HALF),
    ("80–1/2", EIGHTY_AND_A_HALF),
    ("80½", EIGHTY_AND_A_HALF),
    ("80-½", EIGHTY_AND_A_HALF),
    ("80 ½ in", EIGHTY_AND_A_HALF),
    ("80 1⁄2", EIGHTY_AND_A_HALF),
    ("80 1 / 2", EIGHTY_AND_A_HALF),
    ("161/2", EIGHTY_AND_A_HALF),
    ("80.5", EIGHTY_AND_A_HALF),
    ("80,5", EIGHTY_AND_A_HALF),
    ("080.50", EIGHTY_AND_A_HALF),
    ("80½in", EIGHTY_AND_A_HALF),
    ("80 1/2 IN", EIGHTY_AND_A_HALF),
    ("80 1/2 in.", EIGHTY_AND_A_HALF),
    ("80 1/2 ins", EIGHTY_AND_A_HALF),
    ("80 1/2 inch", EIGHTY_AND_A_HALF),
    ("80 1/2 inches", EIGHTY_AND_A_HALF),
    ("80 1/2 ''", EIGHTY_AND_A_HALF),
    ("80 1/2″", EIGHTY_AND_A_HALF),
    ("80 1/2”", EIGHTY_AND_A_HALF),
    ("  80   1/2\u00a0in\t", EIGHTY_AND_A_HALF),
    ("6' 8 1/2\"", EIGHTY_AND_A_HALF),
    ("6'8½\"", EIGHTY_AND_A_HALF),
    ("6'-8 1/2\"", EIGHTY_AND_A_HALF),
    ("6'-8-1/2\"", EIGHTY_AND_A_HALF),
    ("6′ 8½″", EIGHTY_AND_A_HALF),
    ("6’ 8 1/2”", EIGHTY_AND_A_HALF),
    ("6‘ 8 1/2“", EIGHTY_AND_A_HALF),
    ("6' 8 1/2", EIGHTY_AND_A_HALF),
    ("6 ft 8.5 in", EIGHTY_AND_A_HALF),
    ("6 ft 8.5", EIGHTY_AND_A_HALF),
    ("6ft8.5in", EIGHTY_AND_A_HALF),
    ("6 foot 8 1/2 inches", EIGHTY_AND_A_HALF),
    ("2 yd 8 1/2 in", EIGHTY_AND_A_HALF),
    ("2 yd 0 ft 8 1/2 in", EIGHTY_AND_A_HALF),
    ("2 1/4 yd", Length(81)),
    ("2 yards 9 inches", Length(81)),
    ("6 3/4 feet", Length(81)),
    ("11.5in", Length(Fraction(23, 2))),
    (".5", Length(Fraction(1, 2))),
    (",5", Length(Fraction(1, 2))),
    ("⅟16", Length(Fraction(1, 16))),
    ("1⅟16", Length(Fraction(17, 16))),
    ("204.5 cm", TWO_METRES),
    ("204,5 cm", TWO_METRES),
    ("204 1/2 cm", TWO_METRES),
    ("2045 mm", TWO_METRES),
    ("2045 MM", TWO_METRES),
    ("2.045 m", TWO_METRES),
    ("2 m 4,5 cm", TWO_METRES),
    ("2 m 4 cm 5 mm", TWO_METRES),
    ("2m4.5cm", TWO_METRES),
    ("204.5 centimetres", TWO_METRES),
    ("204.5 Centimeters", TWO_METRES),
    ("2045 millimetres", TWO_METRES),
    ("2045 millimeters", TWO_METRES),
    ("2 metres 45 mm", TWO_METRES),
    ("2 meters 45 mm", TWO_METRES),
    ("0,125 m", Length.of(125, "mm")),
    ("240 ft", Length(2880)),
    ("9" * 15, Length(10**15 - 1)),
    ("2 dm 4,5 mm", Length.of(Fraction("20.45"), "cm")),
    ("2 decimetres", Length.of(20, "cm")),
]


@pytest.mark.parametrize(("typed", "length"), READ, ids=[ascii(typed) for typed, _ in READ])
def test_a_length_is_read_as_people_type_it(typed: str, length: Length) -> None:
    assert read_length(typed, "in") == length


@pytest.mark.parametrize("unit", UNITS)
def test_the_unit_of_the_job_is_taken_where_none_is_typed(unit: str) -> None:
    assert read_length("12 1/2", unit) == Length.of(Fraction(25, 2), unit)


@pytest.mark.parametrize("unit", UNITS)
def test_a_unit_that_is_typed_goes_before_the_unit_of_the_job(unit: str) -> None:
    assert read_length("29.2 cm", unit) == Length.of(Fraction("29.2"), "cm")


def test_a_ready_made_fraction_does_not_run_into_the_number_before_it() -> None:
    assert read_length("80½", "in") == read_length("80 1/2", "in") < read_length("801/2", "in")


@pytest.mark.parametrize("typed", ["0", "0 in", "0/4 cm", "0' 0\"", "↉", "0.000 m"])
def test_zero_is_taken_only_where_it_is_allowed(typed: str) -> None:
    assert read_length(typed, "in", zero=True) == ZERO
    with pytest.raises(Misread, match="is zero: it must be more than 0 here"):
        read_length(typed, "in")


QUIET = """
import sys
from wizard.project.parse import Misread, read_length
for text in ("80 1/2", "6' 8½", "204,5 cm", "2 yd 3 in", "1,200 mm", "nonsense", "1e3"):
    try:
        read_length(text, "in")
    except Misread:
        pass
print("pint" in sys.modules)
try:
    read_length("3 picas", "in")
except Misread:
    print("pint" in sys.modules)
"""


def test_pint_is_loaded_only_to_say_what_another_unit_is() -> None:
    run = subprocess.run([sys.executable, "-c", QUIET], capture_output=True, text=True, check=True)

    assert run.stdout.split("\n")[:2] == ["False", "True"]


TYPABLE = st.text(alphabet="0123456789 .,/-'\"½⅟¼inftyardcmkgE+×²′″”⁄\u00a0_µ%x", max_size=12)


def read_or_refused(text: str) -> Length | Misread:
    try:
        return read_length(text, "in", zero=True)
    except Misread as misread:
        return misread


@settings(deadline=None)
@given(TYPABLE | st.text(max_size=45))
def test_any_text_is_a_length_or_is_refused_with_a_sentence(text: str) -> None:
    found = read_or_refused(text)

    if isinstance(found, Length):
        assert found >= ZERO
        assert type(found.inches) is Fraction
    else:
        assert found.sentence[-1] in ".?"
        assert found.sentence.isprintable()
        assert found.example


@settings(deadline=None)
@given(TYPABLE, st.sampled_from(list(UNITS)))
def test_whatever_is_taken_is_kept_as_text_that_says_the_same_on_its_own(text: str, unit: str) -> None:
    try:
        typed = read_length(text, unit, zero=True)
    except Misread:
        return

    again = read_length(typed.text, None, zero=True)
    assert (again, again.text) == (typed, typed.text)


ANY_LENGTH = st.fractions(min_value=0, max_value=10**9, max_denominator=10**9).map(Length)
ON_THE_TAPE = st.builds(Fraction, st.integers(0, 10**5), st.sampled_from([1, 2, 3, 8, 16, 32, 64, 1000])).map(Length)


@settings(deadline=None)
@given(ANY_LENGTH | ON_THE_TAPE, st.sampled_from(list(UNITS)))
def test_what_exact_prints_reads_back_to_the_same_length(length: Length, unit: str) -> None:
    text = exact(length, unit)
    # A number of more figures is taken for a slip; no length of a bed has as many.
    assume(all(sum(map(str.isdigit, number)) <= MOST_FIGURES for number in text.replace("/", " ").split()))
    assert read_length(text, None, zero=True) == length


@settings(deadline=None)
@given(st.fractions(min_value=0, max_value=10**6, max_denominator=10**6), st.sampled_from(list(UNITS)))
def test_a_length_of_any_unit_prints_exactly_and_reads_back(amount: Fraction, unit: str) -> None:
    length = Length.of(amount, unit)

    assert read_length(exact(length, unit), None, zero=True) == length


@settings(deadline=None)
@given(ON_THE_TAPE, st.sampled_from(list(UNITS)))
def test_a_difference_below_zero_prints_with_its_sign_and_is_not_read(length: Length, unit: str) -> None:
    printed = exact(-length, unit)

    if length:
        assert printed == f"-{exact(length, unit)}"
        with pytest.raises(Misread, match="is below zero: a length cannot be negative"):
            read_length(printed, None)
