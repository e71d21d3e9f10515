"""What is taken where a length is wanted, and how it is kept."""

import pickle
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

READ = {
    Length(Fraction(161, 2)): [
        "80 1/2", "80-1/2", '80-1/2"', "80–1/2", "80½", "80-½", "80 ½ in", "80 1⁄2", "80 1 / 2", "161/2", "80.5",
        "80,5", "080.50", "80½in", "80 1/2 IN", "80 1/2 in.", "80 1/2 ins", "80 1/2 inch", "80 1/2 inches",
        "80 1/2 ''", "80 1/2″", "80 1/2”", "  80   1/2\u00a0in\t", "6' 8 1/2\"", "6'8½\"",
        "6'-8 1/2\"", "6'-8-1/2\"", "6′ 8½″",
        "6’ 8 1/2”", "6‘ 8 1/2“", "6' 8 1/2", "6 ft 8.5 in", "6 ft 8.5", "6ft8.5in", "6 foot 8 1/2 inches",
        "2 yd 8 1/2 in", "2 yd 0 ft 8 1/2 in",
    ],
    Length(81): ["2 1/4 yd", "2 yards 9 inches", "6 3/4 feet"],
    Length(Fraction(23, 2)): ["11.5in"],
    Length(Fraction(1, 2)): [".5", ",5"],
    Length(Fraction(1, 16)): ["⅟16"],
    Length(Fraction(17, 16)): ["1⅟16"],
    Length.of(2045, "mm"): [
        "204.5 cm", "204,5 cm", "204 1/2 cm", "2045 mm", "2045 MM", "2.045 m", "2 m 4,5 cm", "2 m 4 cm 5 mm", "2m4.5cm",
        "204.5 centimetres", "204.5 Centimeters", "2045 millimetres", "2045 millimeters", "2 metres 45 mm",
        "2 meters 45 mm",
    ],
    Length.of(125, "mm"): ["0,125 m"],
    Length(2880): ["240 ft"],
    Length(10**15 - 1): ["9" * 15],
    Length.of(Fraction("20.45"), "cm"): ["2 dm 4,5 mm"],
    Length.of(20, "cm"): ["2 decimetres"],
}  # fmt: skip
"""A length, and how people type it."""
TYPED = [(typed, length) for length, ways in READ.items() for typed in ways]


@pytest.mark.parametrize(("typed", "length"), TYPED, ids=[ascii(typed) for typed, _ in TYPED])
def test_a_length_is_read_as_people_type_it(typed: str, length: Length) -> None:
    assert read_length(typed, "in") == length


def test_a_ready_made_fraction_does_not_run_into_the_number_before_it() -> None:
    assert read_length("80½", "in") < read_length("801/2", "in")


@pytest.mark.parametrize("unit", UNITS)
def test_the_unit_of_the_job_is_taken_and_kept_where_none_is_typed(unit: str) -> None:
    kept = read_length("12 1/2", unit)
    assert (kept, kept.text) == (Length.of(Fraction(25, 2), unit), f"12 1/2 {unit}")
    assert read_length("29.2 cm", unit) == Length.of(Fraction("29.2"), "cm")


@pytest.mark.parametrize("typed", ["0", "0 in", "0/4 cm", "0' 0\"", "↉", "0.000 m"])
def test_zero_is_taken_only_where_it_is_allowed(typed: str) -> None:
    assert read_length(typed, "in", zero=True) == ZERO
    with pytest.raises(Misread, match="is zero: it must be more than 0 here"):
        read_length(typed, "in")


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("  204,5   cm ", "204,5 cm"),
        ("6′ 8½″", "6' 8½\""),
        ("6‘8’’", "6'8\""),
        ("80–1⁄2 in", "80-1/2 in"),
        ("80\u00a01/2\u202fIN", "80 1/2 IN"),
        ("6' 8", "6' 8"),
    ],
)
def test_a_length_is_kept_as_typed_with_plain_quotes_slashes_and_spaces(typed: str, kept: str) -> None:
    assert read_length(typed, "in").text == kept


def test_the_longest_length_still_fits_with_its_unit() -> None:
    kept = read_length("0" * 26 + "9" * 14, "mm")
    assert read_length(kept.text, None).text == kept.text == read_length(kept.text, "in").text


def test_how_a_length_was_typed_makes_no_difference_survives_a_pickle_and_cannot_be_changed() -> None:
    feet, inches = read_length("1 ft", "in"), read_length("12", "in")
    assert (feet.text, inches.text, (feet + inches).text) == ("1 ft", "12 in", "24 in")
    assert feet == inches == Length(12)
    assert hash(feet) == hash(inches) == hash(Length(12))
    assert pickle.loads(pickle.dumps(feet)).text == "1 ft"
    with pytest.raises(AttributeError):
        feet.text = "13 in"  # type: ignore[misc]


QUIET = """
import sys
from wizard.project.parse import Misread, read_length
for text in ("80 1/2", "6' 8½", "204,5 cm", "2 yd 3 in", "1,200 mm", "nonsense", "1e3", "3 picas"):
    if text == "3 picas":
        print("pint" in sys.modules)
    try:
        read_length(text, "in")
    except Misread:
        pass
print("pint" in sys.modules)
"""


def test_pint_is_loaded_only_to_say_what_another_unit_is() -> None:
    run = subprocess.run([sys.executable, "-c", QUIET], capture_output=True, text=True, check=True)
    assert run.stdout.split() == ["False", "True"]


TYPABLE = st.text(alphabet="0123456789 .,/-'\"½⅟¼inftyardcmkgE+×²′″”⁄\u00a0_µ%x", max_size=12)


def read_or_refused(text: str, unit: str | None) -> Length | Misread:
    try:
        return read_length(text, unit, zero=True)
    except Misread as misread:
        return misread


@settings(deadline=None)
@given(TYPABLE | st.text(max_size=45), st.sampled_from(list(UNITS)))
def test_any_text_is_refused_with_a_sentence_or_kept_as_text_that_says_the_same_on_its_own(
    text: str, unit: str
) -> None:
    found = read_or_refused(text, unit)
    if isinstance(found, Misread):
        assert found.sentence[-1] in ".?"
        assert found.sentence.isprintable()
        assert found.example
    else:
        assert found >= ZERO
        assert type(found.inches) is Fraction
        again = read_length(found.text, None, zero=True)
        assert (again, again.text) == (found, found.text)


ANY_LENGTH = st.fractions(min_value=0, max_value=10**9, max_denominator=10**9).map(Length)
ON_THE_TAPE = st.builds(Fraction, st.integers(0, 10**5), st.sampled_from([1, 2, 3, 8, 16, 32, 64, 1000])).map(Length)
IN_A_UNIT = st.builds(
    Length.of, st.fractions(min_value=0, max_value=10**6, max_denominator=10**6), st.sampled_from(list(UNITS))
)


@settings(deadline=None)
@given(ANY_LENGTH | ON_THE_TAPE | IN_A_UNIT, st.sampled_from(list(UNITS)))
def test_what_exact_prints_reads_back_to_the_same_length_and_below_zero_is_not_read(length: Length, unit: str) -> None:
    text = exact(length, unit)
    # A number of more figures is taken for a slip; no length of a bed has as many.
    assume(all(sum(map(str.isdigit, number)) <= MOST_FIGURES for number in text.replace("/", " ").split()))
    assert read_length(text, None, zero=True) == length
    if length:
        assert exact(-length, unit) == f"-{text}"
        with pytest.raises(Misread, match="is below zero: a length cannot be negative"):
            read_length(f"-{text}", None)
