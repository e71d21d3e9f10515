"""Validating a file with pydantic: every problem at once, in the order of the fields.

Loaded when something is wrong, or for the schema of the file. The types given to pydantic are made from the same
declarations that :mod:`wizard.project.decode` reads by.
"""

from __future__ import annotations

from datetime import datetime
from functools import cache
from typing import Annotated, Any, TypeVar, get_args

from msgspec import Struct
from pydantic import Field, GetCoreSchemaHandler, GetJsonSchemaHandler, TypeAdapter
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, core_schema

from wizard.project.parse.field_values import read_moment, reader_of, shape_of
from wizard.trade.fields import (
    MOST_ITEMS,
    AtMost,
    Kind,
    Record,
    bare,
    fields_of,
    is_list,
    is_mapping,
    is_table,
    kind_of,
    notes_of,
)

T = TypeVar("T", bound=Record)


def validate(kind: type[T], values: object) -> T:
    """The record that plain `values` make. Raises pydantic's ValidationError with all that is wrong."""
    record: T = adapter(kind).validate_python(values)
    return record


@cache
def adapter(kind: type[Record]) -> TypeAdapter[Any]:
    """What pydantic makes of a record and of all below it."""
    return TypeAdapter(_adapted(kind))


class _RecordHook(Struct, frozen=True):
    """A record in pydantic's terms: a dict whose keys are its fields, each of them optional, and no others."""

    kind: type[Record]

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        fields = {name: handler.generate_schema(_adapted(each)) for name, each in fields_of(self.kind).items()}
        held = core_schema.typed_dict_schema(
            {name: core_schema.typed_dict_field(each, required=False) for name, each in fields.items()},
            extra_behavior="forbid",
            cls_name=self.kind.__name__,
            config=core_schema.CoreConfig(hide_input_in_errors=True),
        )
        made = self.kind
        return core_schema.no_info_after_validator_function(lambda found: made(**found), held, ref=made.__name__)


class _KindHook(Struct, frozen=True):
    """A value read by its declaration; in a list of readings "" is one not taken yet."""

    kind: Kind
    hole: bool

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        read = reader_of(self.kind)
        hole = self.hole
        return core_schema.no_info_plain_validator_function(lambda value: None if hole and value == "" else read(value))

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        return dict(shape_of(self.kind))


class _ExactHook(Struct, frozen=True):
    """The very type, never what could be made into it."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        schema: Any = {**handler(source), "strict": True}
        return core_schema.no_info_after_validator_function(read_moment, schema) if source is datetime else schema


def _adapted(annotation: Any, *, hole: bool = False) -> Any:
    """The same type for pydantic. No file holds None."""
    declared, kind = kind_of(annotation), bare(annotation)
    if declared is not None and not is_list(kind):
        return Annotated[Any, _KindHook(declared, hole)]
    if is_table(kind):
        return Annotated[Any, _RecordHook(kind)]
    if kind in (bool, datetime):
        return Annotated[kind, _ExactHook()]
    if is_list(kind):
        items = kind.__origin__[_adapted(get_args(kind)[0], hole=True), ...]
        return Annotated[items, Field(max_length=MOST_ITEMS)]
    if is_mapping(kind):
        most = next((each.number for each in notes_of(annotation) if isinstance(each, AtMost)), None)
        key, inside = (_adapted(each) for each in get_args(kind))
        return Annotated[kind.__origin__[key, inside], Field(max_length=most)]
    return kind
