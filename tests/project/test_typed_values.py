"""A length that remembers how it was typed."""

import ast
import pickle
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest

import wizard.project.parse
import wizard.trade.formatting
import wizard.trade.lengths
from wizard.project.parse import Misread, read_length, read_money
from wizard.trade.lengths import Length


def test_the_unit_of_the_job_is_put_behind_a_length_typed_without_one() -> None:
    kept = read_length("80 1/2", "in")
    assert (kept, kept.text) == (Length(Fraction(161, 2)), "80 1/2 in")
    assert read_length("204,5", "cm").text == "204,5 cm"


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


def test_how_a_length_was_typed_makes_no_difference_to_what_it_equals() -> None:
    feet, inches = read_length("1 ft", "in"), read_length("12", "in")

    assert (feet.text, inches.text) == ("1 ft", "12 in")
    assert feet == inches == Length(12)
    assert hash(feet) == hash(inches) == hash(Length(12))
    assert (feet + inches).text == "24 in"


def test_how_a_length_was_typed_survives_a_pickle_and_cannot_be_changed() -> None:
    kept = read_length("12", "in")

    assert pickle.loads(pickle.dumps(kept)).text == "12 in"
    with pytest.raises(AttributeError):
        kept.text = "13 in"  # type: ignore[misc]


def test_zero_is_kept_only_where_it_is_allowed() -> None:
    assert read_length("0", "in", zero=True).text == "0 in"
    with pytest.raises(Misread, match="is zero"):
        read_length("0", "in")


HOMES = [
    Path(wizard.trade.lengths.__file__),
    Path(wizard.trade.formatting.__file__),
    *sorted(Path(wizard.project.parse.__file__).parent.glob("*.py")),
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
    price = read_money(typed)
    assert (price.text, price) == ("18.50", Decimal("18.50"))
