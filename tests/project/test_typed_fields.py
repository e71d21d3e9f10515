"""Typed values as fields of a table."""

from decimal import Decimal
from fractions import Fraction
from typing import Annotated

import pytest
from jsonschema import Draft202012Validator

from tests.project.refusal_texts import refusal_text
from wizard.project.decode import DecodeError, decode
from wizard.project.encode import plain
from wizard.project.file_schema import adapter
from wizard.project.value_faults import Fault, with_example
from wizard.trade.fields import FULLNESS, GAP, OWNED, PRICE, RUN, SHRINKAGE, Field, Record
from wizard.trade.lengths import ZERO, Length


class Bench(Record, frozen=True):
    run: Annotated[Length | None, Field("", RUN)] = None
    gap: Annotated[Length | None, Field("", GAP)] = None
    fullness: Annotated[Fraction | None, Field("", FULLNESS)] = None
    shrinkage: Annotated[Fraction | None, Field("", SHRINKAGE)] = None
    price: Annotated[Decimal | None, Field("", PRICE)] = None
    owned: tuple[Annotated[Length | None, OWNED], ...] = ()


FILE = {
    "run": "80½ in",
    "gap": "0 in",
    "fullness": "2 1/2",
    "shrinkage": "3 %",
    "price": "18.50",
    "owned": ["3 yd", "204,5 cm"],
}


def test_text_in_the_file_becomes_exact_values() -> None:
    assert decode(Bench, FILE) == Bench(
        run=Length(Fraction(161, 2)),
        gap=ZERO,
        fullness=Fraction(5, 2),
        shrinkage=Fraction(3, 100),
        price=Decimal("18.50"),
        owned=(Length(108), Length.of(2045, "mm")),
    )


def test_values_are_written_as_the_text_they_were_read_from() -> None:
    assert plain(decode(Bench, FILE)) == FILE


def test_a_table_of_typed_values_is_frozen_and_can_be_looked_up_by() -> None:
    table = decode(Bench, FILE)

    with pytest.raises(AttributeError):
        table.run = None  # type: ignore[misc]
    assert {table: "here"}[decode(Bench, FILE)] == "here"


def refusal(**values: object) -> Fault:
    with pytest.raises(DecodeError) as caught:
        decode(Bench, values)
    (fault,) = caught.value.faults
    return fault


def test_a_refusal_carries_its_place_the_sentence_the_example_and_the_readings() -> None:
    sentence = refusal_text("one way", "1,200 m", "1.2 m")

    assert refusal(owned=["3 yd", "1,200 m"]) == Fault(("owned", "2"), sentence, "1.2 m", ("1.2 m",))


@pytest.mark.parametrize(
    ("key", "found", "message"),
    [
        ("run", "80 1/2", refusal_text("no unit", "80 1/2") + " For example: 76 5/8 in"),
        ("run", 80, refusal_text("length in the file") + " For example: 76 5/8 in"),
        ("run", 80.5, refusal_text("length in the file") + " For example: 76 5/8 in"),
        ("run", True, refusal_text("length in the file") + " For example: 76 5/8 in"),
        ("run", ["80 in"], refusal_text("length in the file") + " For example: 76 5/8 in"),
        ("run", {"in": "80"}, refusal_text("length in the file") + " For example: 76 5/8 in"),
        ("run", "0 in", refusal_text("zero", "0 in") + " For example: 76 5/8 in"),
        ("run", "{80} in", refusal_text("sign", "{80} in", "{") + " For example: 76 5/8 in"),
        ("gap", "0", refusal_text("no unit", "0") + " For example: 1/4 in"),
        ("gap", 0, refusal_text("length in the file") + " For example: 1/4 in"),
        ("gap", "-1 in", refusal_text("below zero", "-1 in", "a length") + " For example: 1/4 in"),
        ("fullness", 2.5, refusal_text("number in the file") + " For example: 2.5"),
        ("fullness", 2, refusal_text("number in the file") + " For example: 2.5"),
        ("fullness", "2 in", refusal_text("word inside", "2 in", "in", "a number") + " For example: 2.5"),
        ("shrinkage", 3, refusal_text("percentage in the file") + " For example: 3 %"),
        ("shrinkage", "100 %", refusal_text("all there is", "100 %") + " For example: 3 %"),
        ("price", 18.5, refusal_text("money in the file") + " For example: 18.50"),
        ("price", "18$50", refusal_text("money", "18$50", "$") + " For example: 18.50"),
    ],
)
def test_what_a_file_may_not_say_is_refused_with_a_whole_sentence(key: str, found: object, message: str) -> None:
    fault = refusal(**{key: found})

    assert fault.path == (key,)
    assert with_example(fault.sentence, fault.example).endswith(message)


def test_a_typed_value_already_read_is_checked_again_for_the_field_it_goes_to() -> None:
    nothing = ZERO.typed("0 in")

    assert decode(Bench, {"gap": nothing}).gap == nothing
    assert refusal(run=nothing).sentence.endswith(refusal_text("zero", "0 in"))


def test_the_schema_says_text_with_a_description_and_examples_that_are_taken() -> None:
    properties = adapter(Bench).json_schema()["properties"]

    for key in ("run", "gap", "fullness", "shrinkage", "price"):
        text = properties[key]
        assert text["type"] == "string"
        assert text["description"].endswith(".")
        assert [getattr(decode(Bench, {key: each}), key).text for each in text["examples"]] == text["examples"]


def test_the_schema_takes_the_file_and_refuses_a_bare_number() -> None:
    schema = Draft202012Validator(adapter(Bench).json_schema())

    assert schema.is_valid(FILE)
    assert not schema.is_valid({"run": 80})
