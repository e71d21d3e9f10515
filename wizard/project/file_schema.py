"""The shape of a project file as JSON Schema, for editors and other programs: told from the records themselves.

pydantic writes it, from types made of the same declarations that :mod:`wizard.project.decode` reads by; it takes the
same files, as a second reader. Loaded for the schema only.
"""

from __future__ import annotations

import ast
import inspect
from datetime import datetime
from functools import cache
from textwrap import dedent
from typing import Annotated, Any, get_args

from msgspec import Struct
from pydantic import Field, GetCoreSchemaHandler, GetJsonSchemaHandler, TypeAdapter
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import CoreSchema, core_schema

from wizard.project.decode import most_of
from wizard.project.parse.field_values import read_moment, reader_of, shape_of
from wizard.project.project import Project
from wizard.trade.fields import (
    MOST_ITEMS,
    Kind,
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


class _RecordHook(Struct, frozen=True):
    """A record in pydantic's terms: a dict whose keys are its fields, each of them optional, and no others."""

    kind: type[Record]

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        fields = {name: handler.generate_schema(_adapted(each)) for name, each in fields_of(self.kind).items()}
        held = core_schema.typed_dict_schema(
            {name: core_schema.typed_dict_field(each, required=False) for name, each in fields.items()},
            extra_behavior="forbid",
            cls_name=self.kind.__name__,
        )
        made = self.kind
        return core_schema.no_info_after_validator_function(lambda found: made(**found), held, ref=made.__name__)


class _KindHook(Struct, frozen=True):
    """A value read by its declaration; in a list of readings "" is one not taken yet."""

    kind: Kind
    hole: bool

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        read, hole = reader_of(self.kind), self.hole
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
            found |= _texts(each)
    return found


def _texts(kind: type[Record]) -> dict[str, str]:
    (made,) = ast.parse(dedent(inspect.getsource(kind))).body
    assert isinstance(made, ast.ClassDef)
    return {
        key.target.id: inspect.cleandoc(said.value.value)
        for key, said in zip(made.body, made.body[1:], strict=False)
        if isinstance(key, ast.AnnAssign) and isinstance(key.target, ast.Name)
        if isinstance(said, ast.Expr) and isinstance(said.value, ast.Constant) and isinstance(said.value.value, str)
    }
