"""Plain numbers, percentages, counts, money, and how full."""

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest

from tests.project.refusal_texts import refusal_text
from wizard.project.parse import Misread, read_money, read_number, read_percent, read_whole
from wizard.project.project import Project, Unfit, put
from wizard.trade.fields import TypedNumber

Reader = Callable[[str], Any]
READ: list[tuple[Reader, Fraction | int | Decimal, list[str]]] = [
    (read_number, Fraction(5, 2), ["2.5", "2,5", "2 1/2", "2-1/2", "2½", "5/2", " 2.50 "]),
    (read_number, Fraction(7, 3), ["2 1/3"]),
    (read_number, Fraction(1, 8), ["0,125"]),
    (read_number, Fraction(3), ["3"]),
    (read_number, Fraction(0), ["0"]),
    (read_percent, Fraction(3, 100), ["3 %", "3", "3%", "3 percent", "3 per cent"]),
    (read_percent, Fraction(1, 40), ["2.5%", "2,5 %", "2½ %"]),
    (read_percent, Fraction(0), ["0 %"]),
    (read_percent, Fraction(9999, 10000), ["99.99 %"]),
    (read_percent, Fraction(1, 80), ["1,250 %"]),
    (read_whole, 3, ["3"]),
    (read_whole, 0, ["0"]),
    (read_whole, 12, [" 12 "]),
    (read_whole, 7, ["007"]),
    (read_money, Decimal("18.50"), ["18.50", "18,5", "$18.50", "18.50 €", "£ 18.50"]),
    (read_money, Decimal(18), ["18"]),
    (read_money, Decimal("0.5"), [".5"]),
    (read_money, Decimal("0.1255"), ["0.1255"]),
    (read_money, Decimal(0), ["0"]),
]


@pytest.mark.parametrize(
    ("read", "value", "typed"), [(read, value, each) for read, value, ways in READ for each in ways]
)
def test_a_number_of_each_kind_is_read_exactly(read: Reader, value: object, typed: str) -> None:
    assert read(typed) == value


@pytest.mark.parametrize(
    ("read", "typed", "kept"),
    [
        (read_number, "  2  1/2 ", "2 1/2"),
        (read_percent, "3", "3 %"),
        (read_percent, "3%", "3%"),
        (read_percent, "2,5 per cent", "2,5 per cent"),
        (read_money, " 18,5 ", "18,5"),
        (read_money, "£ 18.50", "18.50"),
    ],
)
def test_it_is_kept_as_typed_but_for_spaces_and_a_currency_sign(read: Reader, typed: str, kept: str) -> None:
    assert read(typed).text == kept


def test_a_percentage_that_just_fits_still_fits_with_its_sign() -> None:
    kept = read_percent("0" * 26 + "3." + "1" * 12)
    assert read_percent(kept.text).text == kept.text


EXAMPLES: dict[Reader, str] = {read_number: "2 1/2", read_percent: "3 %", read_whole: "3", read_money: "18.50"}
REFUSED: list[tuple[Reader, str, str]] = [
    (read_number, "", refusal_text("empty", "", "a number")),
    (read_number, "-1", refusal_text("below zero", "-1", "a number")),
    (read_number, "1e3", refusal_text("exponent", "1e3")),
    (read_number, "1/0", refusal_text("over zero", "1/0")),
    (read_number, "2 in", refusal_text("word inside", "2 in", "in", "a number")),
    (read_number, "2.5x", refusal_text("word inside", "2.5x", "x", "a number")),
    (read_number, "3 %", refusal_text("sign", "3 %", "%")),
    (read_number, "two", refusal_text("no number", "two")),
    (read_number, "nan", refusal_text("not a figure", "nan")),
    (read_number, "7" * 41, refusal_text("too long", "", "41", "a number")),
    (read_percent, "", refusal_text("empty", "", "a percentage")),
    (read_percent, "%", refusal_text("no number", "%")),
    (read_percent, "100", refusal_text("all there is", "100")),
    (read_percent, "1 200 %", refusal_text("all there is", "1200")),
    (read_percent, "-3 %", refusal_text("below zero", "-3 %", "a percentage")),
    (read_percent, "3 % %", refusal_text("sign", "3 %", "%")),
    (read_percent, "3 in", refusal_text("word inside", "3 in", "in", "a percentage")),
    (read_whole, "2.5", refusal_text("not whole", "2.5")),
    (read_whole, "4/2", refusal_text("not whole", "4/2")),
    (read_whole, "1.", refusal_text("no decimals", "1.")),
    (read_whole, "3 4", refusal_text("several numbers", "3 4")),
    (read_money, "5$$", refusal_text("money", "5$", "$")),
    (read_money, "18€50", refusal_text("money", "18€50", "€")),
    (read_money, "-5", refusal_text("below zero", "-5", "a sum of money")),
    (read_money, "5 1/2", refusal_text("fraction of money", "5 1/2")),
    (read_money, "½", refusal_text("fraction of money", "½")),
    (read_money, "1.00005", refusal_text("decimals of money", "1.00005", "5")),
    (read_money, "1" * 13, refusal_text("too much money", "1" * 13)),
    (read_money, "1e3", refusal_text("exponent", "1e3")),
]
OFFERED: list[tuple[Reader, str, str, str]] = [
    (read_number, "1,200", refusal_text("two ways", "1,200", "1200", "1.2"), "1200"),
    (read_percent, "2 5/4", refusal_text("not less than one", "2 5/4", "3 1/4"), "3 1/4"),
    (read_whole, "1,200", refusal_text("thousands", "1,200", "1200"), "1200"),
    (read_money, "1,200", refusal_text("two ways", "1,200", "1200", "1.2"), "1200"),
]


@pytest.mark.parametrize(
    ("read", "typed", "sentence", "example"), [*((*each, EXAMPLES[each[0]]) for each in REFUSED), *OFFERED]
)
def test_what_cannot_be_read_is_refused_with_a_sentence_and_an_example(
    read: Reader, typed: str, sentence: str, example: str
) -> None:
    with pytest.raises(Misread) as caught:
        read(typed)
    assert (caught.value.sentence, caught.value.example) == (sentence, example)


@pytest.mark.parametrize(
    "typed", ["2.5", "2.5x", "2.5 x", "2.5 X", "2.5 ×", "2.5×", "2 1/2 times", "250 %", "250%", "250 per cent", "2,5 x"]
)
def test_a_fullness_is_taken_however_people_write_it_and_kept_as_a_plain_number(typed: str) -> None:
    kept = put(Project(), "fullness.want", typed).fullness.want
    assert isinstance(kept, TypedNumber)
    assert kept == Fraction(5, 2)
    assert kept.text in ("2.5", "2 1/2", "2,5")


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("90 %", refusal_text("under one", "0.9")),
        ("21x", refusal_text("too full", "21")),
        ("2 x 3", refusal_text("sum", "2 x 3")),
        ("x", refusal_text("no number", "x")),
        ("%", refusal_text("empty", "", "a number")),
        ("2,500", refusal_text("one way", "2,500", "2.5")),
    ],
)
def test_what_is_no_fullness_is_refused(typed: str, sentence: str) -> None:
    with pytest.raises(Unfit) as caught:
        put(Project(), "fullness.want", typed)
    assert caught.value.sentence == sentence
