"""The shape of a project file as JSON Schema, for editors and other programs: told from the records themselves.

pydantic writes it, from types made of the same declarations that :mod:`wizard.project.decode` reads by; it takes the
same files, as a second reader. Loaded for the schema only.
"""

from __future__ import annotations

import ast
import inspect
from datetime import datetime
from functools import cache, partial
from itertools import pairwise
from textwrap import dedent
from typing import Annotated, Any, get_args

from pydantic import AfterValidator, Field, GetCoreSchemaHandler, GetPydanticSchema, Strict, TypeAdapter
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import CoreSchema, core_schema

from wizard.project.decode import most_of
from wizard.project.parse.field_values import read_moment, reader_of, shape_of
from wizard.project.project import Project
from wizard.trade.fields import (
    MOST_ITEMS,
    Record,
    bare,
    fields_of,
    is_list,
    is_mapping,
    is_table,
    item_of,
    kind_of,
)


class _FileSchema(GenerateJsonSchema):
    """TOML has no null and a missing key is missing: the schema has neither nulls nor defaults. Keys need no titles."""

    def dict_schema(self, schema: core_schema.DictSchema) -> JsonSchemaValue:
        shape = super().dict_schema(schema)
        return {**shape, "additionalProperties": False} if "patternProperties" in shape else shape

    def field_title_should_be_set(self, schema: Any) -> bool:
        return False


def schema() -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of a project file. A moment is text in RFC 3339 form there, as TOML writes it."""
    shape = adapter(Project).json_schema(schema_generator=_FileSchema)
    for kind in _tables(Project):
        part, says = shape["$defs"].get(kind.__name__, shape), meanings(kind)
        part |= {"title": kind.__name__, "description": inspect.cleandoc(kind.__doc__ or "")}
        for name, key in part["properties"].items():
            key["description"] = f"{says.get(name, '')} {key.get('description', '')}".strip()
    return {"$schema": _FileSchema.schema_dialect, **shape, "required": ["format"]}


def _tables(kind: type[Record]) -> set[type[Record]]:
    """A table's kind and those of all below it."""
    inside = (bare(item_of(bare(each)) if is_mapping(bare(each)) else each) for each in fields_of(kind).values())
    return {kind}.union(*(_tables(each) for each in inside if is_table(each)))


@cache
def adapter(kind: type[Record]) -> TypeAdapter[Any]:
    """What pydantic makes of a record and of all below it."""
    return TypeAdapter(_adapted(kind))


def _record_schema(kind: type[Record], _: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
    """A record in pydantic's terms: a dict whose keys are its fields, each of them optional, and no others."""
    fields = {name: handler.generate_schema(_adapted(each)) for name, each in fields_of(kind).items()}
    held = core_schema.typed_dict_schema(
        {name: core_schema.typed_dict_field(each, required=False) for name, each in fields.items()},
        extra_behavior="forbid",
        cls_name=kind.__name__,
    )
    return core_schema.no_info_after_validator_function(lambda found: kind(**found), held, ref=kind.__name__)


def _adapted(annotation: Any, *, hole: bool = False) -> Any:
    """The same type for pydantic. No file holds None; in a list of readings "" is one not taken yet."""
    declared, kind = kind_of(annotation), bare(annotation)
    if declared is not None and not is_list(kind):
        read, shape = reader_of(declared), dict(shape_of(declared))
        schema = core_schema.no_info_plain_validator_function(lambda text: None if hole and text == "" else read(text))
        return Annotated[Any, GetPydanticSchema(lambda *_: schema, lambda *_: shape)]
    if is_table(kind):
        return Annotated[Any, GetPydanticSchema(partial(_record_schema, kind))]
    # The very type, never what could be made into it.
    if kind is bool:
        return Annotated[bool, Strict()]
    if kind is datetime:
        return Annotated[datetime, Strict(), AfterValidator(read_moment)]
    if is_list(kind):
        items: Any = (_adapted(item_of(kind), hole=True), ...)
        return Annotated[tuple[items], Field(max_length=MOST_ITEMS)]
    if is_mapping(kind):
        entry: Any = tuple(_adapted(each) for each in get_args(kind))
        return Annotated[dict[entry], Field(max_length=most_of(annotation))]  # type: ignore[misc]
    return kind


def meanings(kind: type[Record]) -> dict[str, str]:
    """What each key of a record means: the text under it in the source.

    Read only here: reading all the sources as the classes are made would slow every start.
    """
    found: dict[str, str] = {}
    for each in reversed(kind.__mro__):
        if issubclass(each, Record) and each is not Record:
            (made,) = ast.parse(dedent(inspect.getsource(each))).body
            assert isinstance(made, ast.ClassDef)
            for pair in pairwise(made.body):
                match pair:
                    case (ast.AnnAssign(ast.Name(name)), ast.Expr(ast.Constant(str(text)))):
                        found[name] = inspect.cleandoc(text)
    return found
