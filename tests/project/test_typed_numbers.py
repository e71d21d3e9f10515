"""Plain numbers, percentages, counts, money, and yes or no."""

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction

import pytest

from tests.project.refusal_texts import refusal_text
from wizard.project.parse import Misread, read_money, read_number, read_percent, read_whole
from wizard.project.project import Project, Unfit, put
from wizard.trade.fields import TypedNumber


@pytest.mark.parametrize(
    ("typed", "number"),
    [
        ("2.5", Fraction(5, 2)),
        ("2,5", Fraction(5, 2)),
        ("2 1/2", Fraction(5, 2)),
        ("2-1/2", Fraction(5, 2)),
        ("2½", Fraction(5, 2)),
        ("5/2", Fraction(5, 2)),
        (" 2.50 ", Fraction(5, 2)),
        ("2 1/3", Fraction(7, 3)),
        ("0,125", Fraction(1, 8)),
        ("3", Fraction(3)),
        ("0", Fraction(0)),
    ],
)
def test_a_number_is_read_exactly(typed: str, number: Fraction) -> None:
    assert read_number(typed) == number


@pytest.mark.parametrize(
    ("typed", "share"),
    [
        ("3 %", Fraction(3, 100)),
        ("3", Fraction(3, 100)),
        ("3%", Fraction(3, 100)),
        ("2.5%", Fraction(1, 40)),
        ("2,5 %", Fraction(1, 40)),
        ("2½ %", Fraction(1, 40)),
        ("3 percent", Fraction(3, 100)),
        ("3 per cent", Fraction(3, 100)),
        ("0 %", Fraction(0)),
        ("99.99 %", Fraction(9999, 10000)),
        ("1,250 %", Fraction(1, 80)),
    ],
)
def test_a_percentage_is_read_as_an_exact_share(typed: str, share: Fraction) -> None:
    assert read_percent(typed) == share


@pytest.mark.parametrize(("typed", "count"), [("3", 3), ("0", 0), (" 12 ", 12), ("007", 7)])
def test_a_whole_number_is_read(typed: str, count: int) -> None:
    assert read_whole(typed) == count


@pytest.mark.parametrize(
    ("typed", "sum_of_money"),
    [("18.50", "18.50"), ("18,5", "18.5"), ("18", "18"), (".5", "0.5"), ("0.1255", "0.1255"), ("0", "0")],
)
def test_money_is_read_as_the_decimals_that_were_typed(typed: str, sum_of_money: Decimal) -> None:
    assert str(read_money(typed)) == sum_of_money


REFUSED = [
    (read_number, "", refusal_text("empty", "", "a number"), "2 1/2"),
    (read_number, "-1", refusal_text("below zero", "-1", "a number"), "2 1/2"),
    (read_number, "1e3", refusal_text("exponent", "1e3"), "2 1/2"),
    (read_number, "1/0", refusal_text("over zero", "1/0"), "2 1/2"),
    (read_number, "2 in", refusal_text("word inside", "2 in", "in", "a number"), "2 1/2"),
    (read_number, "2.5x", refusal_text("word inside", "2.5x", "x", "a number"), "2 1/2"),
    (read_number, "3 %", refusal_text("sign", "3 %", "%"), "2 1/2"),
    (read_number, "two", refusal_text("no number", "two"), "2 1/2"),
    (read_number, "nan", refusal_text("not a figure", "nan"), "2 1/2"),
    (read_number, "1,200", refusal_text("two ways", "1,200", "1200", "1.2"), "1200"),
    (read_number, "7" * 41, refusal_text("too long", "", "41", "a number"), "2 1/2"),
    (read_percent, "", refusal_text("empty", "", "a percentage"), "3 %"),
    (read_percent, "%", refusal_text("no number", "%"), "3 %"),
    (read_percent, "100", refusal_text("all there is", "100"), "3 %"),
    (read_percent, "1 200 %", refusal_text("all there is", "1200"), "3 %"),
    (read_percent, "2 5/4", refusal_text("not less than one", "2 5/4", "3 1/4"), "3 1/4"),
    (read_percent, "-3 %", refusal_text("below zero", "-3 %", "a percentage"), "3 %"),
    (read_percent, "3 % %", refusal_text("sign", "3 %", "%"), "3 %"),
    (read_percent, "3 in", refusal_text("word inside", "3 in", "in", "a percentage"), "3 %"),
    (read_whole, "2.5", refusal_text("not whole", "2.5"), "3"),
    (read_whole, "4/2", refusal_text("not whole", "4/2"), "3"),
    (read_whole, "1,200", refusal_text("thousands", "1,200", "1200"), "1200"),
    (read_whole, "1.", refusal_text("no decimals", "1."), "3"),
    (read_whole, "3 4", refusal_text("several numbers", "3 4"), "3"),
    (read_money, "5$$", refusal_text("money", "5$", "$"), "18.50"),
    (read_money, "18€50", refusal_text("money", "18€50", "€"), "18.50"),
    (read_money, "-5", refusal_text("below zero", "-5", "a sum of money"), "18.50"),
    (read_money, "5 1/2", refusal_text("fraction of money", "5 1/2"), "18.50"),
    (read_money, "½", refusal_text("fraction of money", "½"), "18.50"),
    (read_money, "1.00005", refusal_text("decimals of money", "1.00005", "5"), "18.50"),
    (read_money, "1" * 13, refusal_text("too much money", f"{'1' * 13}"), "18.50"),
    (read_money, "1,200", refusal_text("two ways", "1,200", "1200", "1.2"), "1200"),
    (read_money, "1e3", refusal_text("exponent", "1e3"), "18.50"),
]


@pytest.mark.parametrize(("read", "typed", "sentence", "example"), REFUSED)
def test_what_cannot_be_read_is_refused_with_a_sentence_and_an_example(
    read: Callable[..., object], typed: str, sentence: str, example: str
) -> None:
    with pytest.raises(Misread) as caught:
        read(typed)

    assert (caught.value.sentence, caught.value.example) == (sentence, example)


def test_a_number_is_kept_as_it_was_typed() -> None:
    kept = read_number("  2  1/2 ")
    assert (kept, kept.text) == (Fraction(5, 2), "2 1/2")
    assert read_number("2.5") == kept


def test_a_percentage_is_kept_with_its_sign() -> None:
    kept = read_percent("3")
    assert (kept, kept.text) == (Fraction(3, 100), "3 %")
    assert read_percent("3%").text == "3%"
    assert read_percent("2,5 per cent").text == "2,5 per cent"


def test_a_percentage_that_just_fits_still_fits_with_its_sign() -> None:
    kept = read_percent("0" * 26 + "3." + "1" * 12)

    assert read_percent(kept.text).text == kept.text


def test_money_is_kept_as_it_was_typed() -> None:
    kept = read_money(" 18,5 ")
    assert (kept, kept.text) == (Decimal("18.5"), "18,5")


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
