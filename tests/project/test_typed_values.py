"""A length that remembers how it was typed."""

import ast
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest

import wizard.project.typed
import wizard.trade.formatting
import wizard.trade.lengths
from wizard.project.typed import Misread, TypedLength
from wizard.project.typed.values import TypedMoney
from wizard.trade.lengths import ZERO, Length


def test_the_unit_of_the_job_is_put_behind_a_length_typed_without_one() -> None:
    assert TypedLength.of("80 1/2", "in") == TypedLength("80 1/2 in", Length(Fraction(161, 2)))
    assert TypedLength.of("204,5", "cm").text == "204,5 cm"


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
    assert TypedLength.of(typed, "in").text == kept


def test_the_longest_length_still_fits_with_its_unit() -> None:
    kept = TypedLength.of("0" * 26 + "9" * 14, "mm")

    assert TypedLength.of(kept.text, None) == kept == TypedLength.of(kept.text, "in")


def test_two_typed_lengths_are_equal_when_text_and_value_are() -> None:
    inches = TypedLength.of("12 in", "in")

    assert inches == TypedLength.of("12", "in")
    assert hash(inches) == hash(TypedLength.of("12", "in"))
    assert inches != TypedLength.of("1 ft", "in")
    assert inches.value == TypedLength.of("1 ft", "in").value


def test_a_typed_length_cannot_be_changed() -> None:
    with pytest.raises(AttributeError):
        TypedLength.of("12", "in").text = "13 in"  # type: ignore[misc]


def test_zero_is_kept_only_where_it_is_allowed() -> None:
    assert TypedLength.of("0", "in", zero=True) == TypedLength("0 in", ZERO)
    with pytest.raises(Misread, match="is zero"):
        TypedLength.of("0", "in")


HOMES = [
    Path(wizard.trade.lengths.__file__),
    Path(wizard.trade.formatting.__file__),
    *sorted(Path(wizard.project.typed.__file__).parent.glob("*.py")),
]


@pytest.mark.parametrize("home", HOMES, ids=[each.name for each in HOMES])
def test_no_float_stands_anywhere_a_length_is_read_or_printed(home: Path) -> None:
    nodes = list(ast.walk(ast.parse(home.read_text(encoding="utf-8"))))

    assert not [each.value for each in nodes if isinstance(each, ast.Constant) and isinstance(each.value, float)]
    assert "float" not in [each.id for each in nodes if isinstance(each, ast.Name)]


@pytest.mark.parametrize("home", HOMES, ids=[each.name for each in HOMES])
def test_nothing_typed_reaches_an_expression_parser_or_nfkc(home: Path) -> None:
    nodes = list(ast.walk(ast.parse(home.read_text(encoding="utf-8"))))
    called = {each.func.id for each in nodes if isinstance(each, ast.Call) and isinstance(each.func, ast.Name)}
    methods = {each.attr for each in nodes if isinstance(each, ast.Attribute)}
    texts = {each.value for each in nodes if isinstance(each, ast.Constant)}

    assert not called & {"eval", "exec", "compile", "literal_eval"}
    assert not methods & {"parse_expression", "parse_units", "Quantity"}
    assert "NFKC" not in texts


@pytest.mark.parametrize("typed", ["$18.50", "18.50 €", "£ 18.50", "18.50"])
def test_a_price_may_be_typed_with_its_sign_which_is_not_kept(typed: str) -> None:
    price = TypedMoney.of(typed)
    assert (price.text, price.value) == ("18.50", Decimal("18.50"))
