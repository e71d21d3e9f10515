"""What is taken where a length is wanted and how it is kept; what is refused, each with its own sentence."""

from __future__ import annotations

import pickle
import subprocess
import sys
from fractions import Fraction

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.project.refusal_texts import refusal_text
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


# What is refused where a length is wanted: each with its own sentence, and an example that would be taken.
SHOWN = {"– 5": "- 5", "⁸⁄₁₀": "⁸/₁₀", "6 ft\n8 in": "6 ft 8 in"}
"""What is shown of text that is tidied first."""

Rows = list[str | tuple[str | int, ...]]
BAD: dict[str, Rows] = {
    "empty": [("", "a length"), ("   ", "a length")],
    "below zero": [
        (each, "a length")
        for each in ("-5", "−5 in", "– 5", "-1/2", "-80 1/2 in", "- 6' 8\"", "—80½ cm", "‐12,75 cm", "-7/8 cm")
    ],
    "zero": ["0", "0 in", "0/3", "0.0 cm", "0' 0\""],
    "exponent": ["1e3", "1E3 mm", "1e-3", "2.5e2 in", "1e+3", "2,5E+03 mm"],
    "over zero": ["1/0", "0/000", "80 1/0", "5/00 in", "6' 8 1/0"],
    "two slashes": ["1/2/3", "½/3", "1/½", "8½/2"],
    "two fractions": ["3/4 1/2", "½ ½", "½¼", "1 1/2 1/2"],
    "other kind": [
        ("5 kg", "kg", "mass"), ("80½ stone", "stone", "mass"), ("12,75 hours", "hours", "time"),
        ("7/8 hectares", "hectares", "area"), ("80 1/2 ml", "ml", "volume"), ("5 lb", "lb", "mass"),
        ("5 min", "min", "time"), ("3 s", "s", "time"),
        ("2 acres", "acres", "area"), ("5 sq in", "sq in", "area"), ("5 square feet", "square feet", "area"),
        ("5 gallons", "gallons", "volume"), ("5 degC", "degC", "temperature"), ("5 K", "K", "temperature"),
        ("5 radians", "radians", "angle or number"), ("5 mph", "mph", "speed"), ("5 newtons", "newtons", "force"),
        ("5 joules", "joules", "energy"), ("5 watts", "watts", "power"), ("5 psi", "psi", "pressure"),
        ("2 amperes", "amperes", "current"), ("3 moles", "moles", "substance"),
        ("2 candela", "candela", "luminosity"), ("5 lambda", "lambda", "volume"),
        ("5 pixel", "pixel", "another kind"), ("5 volts", "volts", "another kind"), ("5 cm/s", "s", "time"),
    ],
    "not a figure": ["inf", "nan", "infinity in", "-inf", "∞", "NaN cm"],
    "several numbers": ["80 81", "80 81 82 in", "½3", "0/2 80", "1 20 in", "2 yd 40", "2 mm 4", "2 in 4"],
    "thousands": [
        ("1 200 mm", "1200 mm"), ("12 500 in", "12500 in"), ("1,200.5 mm", "1200.5 mm"), ("1.200,5 mm", "1200.5 mm"),
        ("1,200,000 mm", "1200000 mm"),
    ],
    "no number": [
        "in", '"', "cm", "feet", "'", "furlong", ".", "...", "/", "eighty", "five feet", "None", "__import__('os')",
        "os.system", "lambda",
    ],
    "sum": [
        "80+1/2", "2*3", "2x4", "2 X 4 in", "80 × 2", "(80)", "=80", "2^3 in", "80 ÷ 2", "80·5", "+5", "80 − 1/2",
        "80 — 81", "0x1F",
    ],
    "sum or fraction": ["80 - 1/2", "80-81", "80 -1/2", "80- 1/2"],
    "loose hyphen": ["80-", "80--1/2", "80-1/2-3", "6' -8\"", "6'-", "80 in-", "5-in"],
    "two ways": [
        ("1,200 mm", "1200 mm", "1.2 mm"), ("1,200", "1200 in", "1.2 in"), ("12,500 in", "12500 in", "12.5 in"),
        ("999,999 m", "999999 m", "999.999 m"), ("6 ft 1,200 in", "6 ft 1200 in", "6 ft 1.2 in"),
        ("00,500 in", "500 in", "0.5 in"), ("204,000 mm", "204000 mm", "204 mm"),
        ("12,3456 in", "123456 in", "12.3456 in"),
    ],
    "decimal signs": ["1.2.3", ".,5", "5..5", "5,,5", "1,2,3", "0,5,5", "1'200,5.5"],
    "no decimals": ["5.", "5, in"],
    "comma": ["6 ft, 8 in", "80 , 5"],
    "mixed": ["8.5 1/2", "1.5/2", "1/2.5", "8,5½", "80.5-1/2"],
    "raised": [("5 m²", "²"), ("5 in³", "³")],
    "area": ["5 m2", "3 cm3"],
    "order": ["8 in 6 ft", "6 ft 6 ft", "6'8'", "5' 6' 7\"", "5 mm 2 cm"],
    "apart": ["6 ft 20 cm", "1 m 6 in"],
    "not taken": [
        ("1 furlong 2 in", "furlong"), ("2 in 1 furlong", "furlong"), ("2 survey_foot", "survey_foot"),
        *((f"5 {each}", each) for each in ("am", "fm", "nm", "µm", "parsec", "ly", "bohr", "mi", "picas", "hands")),
        ("1 nautical mile", "nautical mile"), ("1 MILE", "MILE"),
    ],
    "early fraction": ["6.5 ft 3 in", "6 1/2 ft 3 in", "½ yd 2 in"],
    "slip": [
        ("6' 14\"", "14 in", "ft", "86 in"), ("2 m 145 cm", "145 cm", "m", "345 cm"),
        ("1 yd 40 in", "40 in", "yd", "76 in"), ("6 ft 12", "12 in", "ft", "84 in"),
    ],
    "last number": [("2 yd 6", "2 yd 6 in")],
    "last number, two": [("2 m 4", "2 m 4 cm", "2 m 4 mm"), ("1m50", "1m50 cm", "1m50 mm")],
    "not exact": [("≈ 80 in", "≈"), ("~80", "~"), ("<80", "<"), ("±5 in", "±"), ("> 3 ft", ">")],
    "money": [("$5", "$"), ("80 €", "€"), ("£3 in", "£"), *((f"{sign}80", sign) for sign in "¥₹₤¢₩")],
    "sign": [
        ("5%", "%"), ("80#", "#"), ("80!", "!"), ("80:5", ":"), ("1;2", ";"), ("5 °C", "°"), ("[bold]80[/bold]", "["),
        ("{80}", "{"), ("80 in?", "?"), ("80\\2", "\\"),
    ],
    "other figure": [
        ("５", "５"), ("８０ in", "８"), ("٣", "٣"), ("Ⅷ", "Ⅷ"), ("⁸⁄₁₀", "⁸"), ("①", "①"),
        *((f"8{figure} in", figure) for figure in "०৪៣๕༥੩₂⁵𝟗〇７Ⅻ"),
    ],
    "word first": ["in 5", "cm 12", '"80 1/2"', "about 80", "L 80"],
    "half a fraction": ["1/", "/2", "80 1/", "3/4/", "7 /", "5 in/2"],
    "not less than one": [
        ("80 5/4", "81 1/4 in"), ("80 4/4", "81 in"), ("3 3/2 ft", "4 1/2 ft"), ("80-9/8", "81 1/8 in"),
        ("6 ft 8/5", "6 ft 1 3/5"),
    ],
    "nearly a unit": [
        ("5 foo", "foo", "5 foot"), ("5 inchs", "inchs", "5 inches"), ("5 centimetrs", "centimetrs", "5 centimetres"),
    ],
    "not known": [
        *((f"5 {each}", each) for each in ("foo bar", "inch mattress", "pins", "kin", "ells", "ft_", "in in", "_")),
        *((f"5 {each}", each) for each in ("True", "bed", "дюйм", "' \"", "survey feet", "US survey feet")),
        ("1_000", "_"),
    ],
    "capital M": [("5 M", "5 m"), ("5 mM", "5 mm")],
    "megametres": [("5 Mm", "5 mm"), ("2 m 5 Mm", "2 m 5 mm")],
    "line break": [("6 ft\n8 in", "6 ft 8 in")],
    "figures": [("1" * 18 + " in", 18), (f"1/{'9' * 18} in", 18)],
    "figures, meant": [(f"0.{'3' * 16} cm", 16, "0.3333 cm")],
    "unseen": [
        ("\x1b[31m80", "U+001B"), ("80\x00", "U+0000"), ("80\u200b in", "U+200B"), ("\ufeff80", "U+FEFF"),
        ("80\ud800", "U+D800"), ("80\u202e in", "U+202E"), ("5\u0301x\x7f", "U+007F"),
        *((f"8{chr(code)}0 in", f"U+{code:04X}") for code in (*range(9), *range(0x0E, 0x1C), 0xAD, 0x2060, 0xE000)),
    ],
    "too long": [
        (each, count, "a length")
        for each, count in (("9" * 41, 41), ("8" * 60 + " in", 60), ("80 " + "x" * 60, 61), ("½" * 100_000, 100_000))
    ],
}  # fmt: skip
"""Kind of fault -> what is typed, with what else the sentence names."""


def shown(typed: str) -> str:
    """The text as a sentence shows it."""
    return SHOWN.get(typed, typed).replace("‐", "-")


def refusals(rows: dict[str, Rows]) -> list[tuple[str, str]]:
    """(what is typed, its sentence) of every row."""
    whole = [(kind, row if isinstance(row, tuple) else (row,)) for kind, each in rows.items() for row in each]
    return [(str(row[0]), refusal_text(kind, shown(str(row[0])), *row[1:])) for kind, row in whole]


def refusal(text: str, unit: str | None = "in") -> Misread:
    with pytest.raises(Misread) as caught:
        read_length(text, unit)
    return caught.value


def settles(text: str) -> bool:
    """True when `text` is taken, or every offer made for it is."""
    try:
        return bool(read_length(text, None))
    except Misread as misread:
        return bool(misread.readings) and all(settles(each) for each in misread.readings)


REFUSED = refusals(BAD)


@pytest.mark.parametrize(("typed", "sentence"), REFUSED, ids=[ascii(typed[:20]) for typed, _ in REFUSED])
def test_a_bad_length_is_refused_with_its_sentence_and_what_is_offered_is_taken(typed: str, sentence: str) -> None:
    misread = refusal(typed)
    assert misread.sentence == sentence
    assert all(settles(each) for each in (misread.example, *misread.readings))


@pytest.mark.parametrize("unit", ["in", "ft", "yd", "mm", "cm", "dm", "m", None])
def test_the_example_is_in_the_unit_of_the_job_and_would_be_taken(unit: str) -> None:
    example = refusal("nonsense", unit).example
    assert read_length(example, None) > read_length("1 in", None)
    assert unit is None or example.endswith(unit) or unit == "ft"


def test_both_readings_of_a_comma_are_offered_in_the_unit_of_the_job_and_make_the_example() -> None:
    assert refusal("1,200 mm").readings == ("1200 mm", "1.2 mm")
    assert refusal("1,200", "cm").readings == ("1200 cm", "1.2 cm")
    assert str(refusal("1,200 mm")) == refusal("1,200 mm").sentence
    kilograms = refusal("5 kg")
    assert str(kilograms) == f"{kilograms.sentence} For example: 12 1/2 in"


def test_a_length_that_must_carry_its_unit_is_refused_without_one() -> None:
    assert refusal("80 1/2", None).sentence == refusal_text("no unit", "80 1/2")
