"""Plain numbers, percentages, counts, money, and yes or no."""

from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction

import pytest

from wizard.project.parse import Misread, read_money, read_number, read_percent, read_whole, read_yes_no
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


@pytest.mark.parametrize(("typed", "answer"), [("yes", True), ("Y", True), (" No ", False), ("n", False)])
def test_yes_and_no_are_read_in_any_letters(typed: str, answer: bool) -> None:
    assert read_yes_no(typed) is answer


REFUSED = [
    (read_number, "", "Nothing was typed: a number is wanted.", "2 1/2"),
    (read_number, "-1", "“-1” is below zero: a number cannot be negative.", "2 1/2"),
    (read_number, "1e3", "“1e3” is written with an exponent: write the figure out in full.", "2 1/2"),
    (read_number, "1/0", "“1/0” divides by zero: the lower figure of a fraction is 1 or more.", "2 1/2"),
    (read_number, "2 in", "“2 in” has a word or a unit in it (in): a number is wanted.", "2 1/2"),
    (read_number, "2.5x", "“2.5x” has a word or a unit in it (x): a number is wanted.", "2 1/2"),
    (read_number, "3 %", "“3 %” has a sign in it that does not belong there (%).", "2 1/2"),
    (read_number, "two", "“two” has no number in it.", "2 1/2"),
    (read_number, "nan", "“nan” is no figure that can be measured.", "2 1/2"),
    (read_number, "1,200", "“1,200” can be read in two ways: is it 1200 or 1.2?", "1200"),
    (read_number, "7" * 41, "That is 41 characters: a number takes 40 at most.", "2 1/2"),
    (read_percent, "", "Nothing was typed: a percentage is wanted.", "3 %"),
    (read_percent, "%", "“%” has no number in it.", "3 %"),
    (read_percent, "100", "“100” is all there is, or more: less than 100 % is wanted.", "3 %"),
    (read_percent, "1 200 %", "“1200” is all there is, or more: less than 100 % is wanted.", "3 %"),
    (read_percent, "2 5/4", "“2 5/4” has a fraction that is not less than one: is 3 1/4 meant?", "3 1/4"),
    (read_percent, "-3 %", "“-3 %” is below zero: a percentage cannot be negative.", "3 %"),
    (read_percent, "3 % %", "“3 %” has a sign in it that does not belong there (%).", "3 %"),
    (read_percent, "3 in", "“3 in” has a word or a unit in it (in): a percentage is wanted.", "3 %"),
    (read_whole, "2.5", "“2.5” is not a whole number.", "3"),
    (read_whole, "4/2", "“4/2” is not a whole number.", "3"),
    (read_whole, "1,200", "“1,200” has its thousands marked off: is 1200 meant?", "1200"),
    (read_whole, "1.", "“1.” has a decimal sign with nothing behind it.", "3"),
    (read_whole, "3 4", "“3 4” has several numbers: give one at a time.", "3"),
    (read_money, "5$$", "“5$” has a sign of money in it ($): leave the sign out.", "18.50"),
    (read_money, "18€50", "“18€50” has a sign of money in it (€): leave the sign out.", "18.50"),
    (read_money, "-5", "“-5” is below zero: a sum of money cannot be negative.", "18.50"),
    (read_money, "5 1/2", "“5 1/2” has a fraction in it: money takes decimals.", "18.50"),
    (read_money, "½", "“½” has a fraction in it: money takes decimals.", "18.50"),
    (read_money, "1.00005", "“1.00005” has 5 decimals: money takes 4 at most.", "18.50"),
    (read_money, "1" * 13, f"“{'1' * 13}” is more than can be reckoned with: 12 figures at most.", "18.50"),
    (read_money, "1,200", "“1,200” can be read in two ways: is it 1200 or 1.2?", "1200"),
    (read_money, "1e3", "“1e3” is written with an exponent: write the figure out in full.", "18.50"),
    (read_yes_no, " ", "Nothing was typed: yes or no is wanted.", "yes"),
    (read_yes_no, "perhaps", "“perhaps” is neither yes nor no.", "yes"),
    (read_yes_no, "y" * 50, f"“{'y' * 40}…” is neither yes nor no.", "yes"),
    (read_yes_no, "\x1b[2J", "“\N{REPLACEMENT CHARACTER}[2J” is neither yes nor no.", "yes"),
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
        ("90 %", "“0.9” is under 1: the skirt would be narrower than its rail."),
        ("21x", "“21” is too much for a fullness. It can be 1 to 20."),
        ("2 x 3", "“2 x 3” has a sum in it: work it out and type the answer."),
        ("x", "“x” has no number in it."),
        ("%", "Nothing was typed: a number is wanted."),
        ("2,500", "“2,500” can be read in two ways: is 2.5 meant?"),
    ],
)
def test_what_is_no_fullness_is_refused(typed: str, sentence: str) -> None:
    with pytest.raises(Unfit) as caught:
        put(Project(), "fullness.want", typed)

    assert caught.value.sentence == sentence
