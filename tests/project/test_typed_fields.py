"""Typed values as fields of a model."""

from decimal import Decimal
from fractions import Fraction

import pytest
from jsonschema import Draft202012Validator
from pydantic import BaseModel, ConfigDict, ValidationError

from wizard.project.typed import TypedLength, TypedMoney, TypedNumber, TypedPercent
from wizard.project.typed.fields import LengthField, LengthOrZeroField, MoneyField, NumberField, PercentField
from wizard.trade.lengths import ZERO, Length


class Bench(BaseModel):
    model_config = ConfigDict(frozen=True, extra="forbid")

    run: LengthField | None = None
    gap: LengthOrZeroField | None = None
    fullness: NumberField | None = None
    shrinkage: PercentField | None = None
    price: MoneyField | None = None
    owned: tuple[LengthField, ...] = ()


FILE = {
    "run": "80½ in",
    "gap": "0 in",
    "fullness": "2 1/2",
    "shrinkage": "3 %",
    "price": "18.50",
    "owned": ("3 yd", "204,5 cm"),
}


def test_text_in_the_file_becomes_exact_values():
    assert Bench.model_validate(FILE) == Bench(
        run=TypedLength("80½ in", Length(Fraction(161, 2))),
        gap=TypedLength("0 in", ZERO),
        fullness=TypedNumber("2 1/2", Fraction(5, 2)),
        shrinkage=TypedPercent("3 %", Fraction(3, 100)),
        price=TypedMoney("18.50", Decimal("18.50")),
        owned=(TypedLength("3 yd", Length(108)), TypedLength("204,5 cm", Length.of(2045, "mm"))),
    )


def test_values_are_written_as_the_text_they_were_read_from():
    bench = Bench.model_validate(FILE)

    assert bench.model_dump() == FILE
    assert Bench.model_validate_json(bench.model_dump_json()) == bench


def test_a_model_of_typed_values_is_frozen_and_can_be_looked_up_by():
    assert {Bench.model_validate(FILE): "here"}[Bench.model_validate(FILE)] == "here"


def refusal(**values: object) -> dict[str, object]:
    with pytest.raises(ValidationError) as caught:
        Bench.model_validate(values)
    [error] = caught.value.errors()
    return {"loc": error["loc"], "type": error["type"], "msg": error["msg"]} | error["ctx"]


def test_a_refusal_carries_the_sentence_the_example_and_the_readings():
    error = refusal(owned=["3 yd", "1,200 mm"])

    assert error["loc"] == ("owned", 1)
    assert error["type"] == "misread"
    assert error["sentence"] == "“1,200 mm” can be read in two ways: is it 1200 mm or 1.2 mm?"
    assert error["readings"] == ("1200 mm", "1.2 mm")
    assert error["example"] == "1200 mm"


@pytest.mark.parametrize(
    ("key", "found", "message"),
    [
        ("run", "80 1/2", "“80 1/2” has no unit: write it behind the number. For example: 12 1/2 in"),
        ("run", 80, 'Write a length as text with its unit, like "12 1/2 in".'),
        ("run", 80.5, 'Write a length as text with its unit, like "12 1/2 in".'),
        ("run", True, 'Write a length as text with its unit, like "12 1/2 in".'),
        ("run", ["80 in"], 'Write a length as text with its unit, like "12 1/2 in".'),
        ("run", {"in": "80"}, 'Write a length as text with its unit, like "12 1/2 in".'),
        ("run", "0 in", "“0 in” is zero: here it must be more than nothing. For example: 12 1/2 in"),
        ("run", "{80} in", "“{80} in” has a sign in it that does not belong there ({). For example: 12 1/2 in"),
        ("gap", "0", "“0” has no unit: write it behind the number. For example: 12 1/2 in"),
        ("gap", 0, 'Write a length as text with its unit, like "12 1/2 in".'),
        ("gap", "-1 in", "“-1 in” is below zero: a length cannot be negative. For example: 12 1/2 in"),
        ("fullness", 2.5, 'Write a number as text between quotes, like "2 1/2".'),
        ("fullness", 2, 'Write a number as text between quotes, like "2 1/2".'),
        ("fullness", "2 in", "“2 in” has a word or a unit in it (in): a number is wanted. For example: 2 1/2"),
        ("shrinkage", 3, 'Write a percentage as text between quotes, like "3 %".'),
        ("shrinkage", "100 %", "“100 %” is all there is, or more: less than 100 % is wanted. For example: 3 %"),
        ("price", 18.5, 'Write money as text between quotes, like "18.50".'),
        ("price", "18$50", "“18$50” has a sign of money in it ($): leave the sign out. For example: 18.50"),
    ],
)
def test_what_a_file_may_not_say_is_refused_with_a_whole_sentence(key, found, message):
    assert refusal(**{key: found})["msg"] == message


def test_a_typed_value_already_read_is_checked_again_for_the_field_it_goes_to():
    nothing = TypedLength("0 in", ZERO)

    assert Bench(gap=nothing).gap == nothing
    assert refusal(run=nothing)["sentence"] == "“0 in” is zero: here it must be more than nothing."


def test_the_schema_says_text_with_a_description_and_examples_that_are_taken():
    properties = Bench.model_json_schema()["properties"]

    for key in ("run", "gap", "fullness", "shrinkage", "price"):
        text = properties[key]["anyOf"][0]
        assert text["type"] == "string"
        assert text["description"].endswith(".")
        assert [getattr(Bench.model_validate({key: each}), key).text for each in text["examples"]] == text["examples"]


def test_the_schema_takes_the_file_and_refuses_a_bare_number():
    schema = Draft202012Validator(Bench.model_json_schema())

    assert schema.is_valid({**FILE, "owned": list(FILE["owned"])})
    assert not schema.is_valid({"run": 80})
