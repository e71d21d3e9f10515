"""Checking tables throughout with pydantic: every problem at once, in the order of the fields; and their JSON Schema.

Loaded when something is wrong, or when the shape of the file is asked for; see :mod:`wizard.project.straight`.
"""

from __future__ import annotations

from functools import cache
from inspect import cleandoc
from typing import Any, TypeVar

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, TypeAdapter
from pydantic.json_schema import JsonSchemaValue
from pydantic_core import CoreSchema, core_schema

from wizard.project.keys import fields_of
from wizard.project.tables import Table

T = TypeVar("T", bound=Table)


def checked(kind: type[T], values: object) -> T:
    """The table that plain `values` make. Raises pydantic's ValidationError with all that is wrong."""
    table: T = adapter(kind).validate_python(values)
    return table


@cache
def adapter(kind: type[Table]) -> TypeAdapter[Any]:
    """What pydantic makes of a table and of all that stands below it."""
    return TypeAdapter(kind)


def schema_of(kind: type[Table], handler: GetCoreSchemaHandler) -> CoreSchema:
    """A table in pydantic's words: a dict whose keys are its fields, each of them optional, and no others."""
    fields = {name: _field(handler.generate_schema(each)) for name, each in fields_of(kind).items()}
    held = core_schema.typed_dict_schema(
        fields,
        extra_behavior="forbid",
        cls_name=kind.__name__,
        config=core_schema.CoreConfig(hide_input_in_errors=True),
    )
    return core_schema.no_info_after_validator_function(lambda found: kind(**found), held, ref=kind.__name__)


def shape_of(kind: type[Table], schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
    """A table as JSON Schema: as its keys make it, with its name and what it is."""
    shape = handler(schema)
    handler.resolve_ref_schema(shape).update({"title": kind.__name__, "description": cleandoc(kind.__doc__ or "")})
    return shape


def _field(schema: CoreSchema) -> core_schema.TypedDictField:
    return core_schema.typed_dict_field(schema, required=False)
