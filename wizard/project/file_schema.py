"""The shape of a project file as JSON Schema, for editors and other programs: told from the records themselves."""

from __future__ import annotations

import ast
import inspect
from collections.abc import Iterator
from textwrap import dedent
from typing import Any

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import core_schema

from wizard.project.project import Project
from wizard.project.validate import adapter
from wizard.trade.fields import Record, fields_of


class _FileSchema(GenerateJsonSchema):
    """TOML has no null and a missing key is missing: the schema holds neither nulls nor defaults, nor titles, which
    would only repeat the keys."""

    def dict_schema(self, schema: core_schema.DictSchema) -> JsonSchemaValue:
        shape = super().dict_schema(schema)
        return {**shape, "additionalProperties": False} if "patternProperties" in shape else shape

    def field_title_should_be_set(self, schema: Any) -> bool:
        return False


def schema() -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of a project file. A moment is text in RFC 3339 form there, as TOML writes it."""
    shape = adapter(Project).json_schema(schema_generator=_FileSchema)
    for kind in records(Record):
        part = shape["$defs"].get(kind.__name__, shape if kind is Project else None)
        if part is None:
            continue
        part |= {"title": kind.__name__, "description": inspect.cleandoc(kind.__doc__ or "")}
        for name, meaning in meanings(kind).items():
            of_key = part["properties"][name]
            of_key["description"] = " ".join([meaning, *([of_key["description"]] if "description" in of_key else [])])
    return {"$schema": _FileSchema.schema_dialect, **shape, "required": ["format"]}


def records(kind: type[Record]) -> Iterator[type[Record]]:
    """Every record made from `kind`, at any remove."""
    for each in kind.__subclasses__():
        yield each
        yield from records(each)


def meanings(kind: type[Record]) -> dict[str, str]:
    """What each key of a record means: the text under it in the source.

    Read only here: reading all the sources as the classes are made would slow every start.
    """
    found: dict[str, str] = {}
    for each in reversed(kind.__mro__):
        if issubclass(each, Record) and each is not Record:
            found |= _texts(each)
    return {name: found[name] for name in fields_of(kind) if name in found}


def _texts(kind: type[Record]) -> dict[str, str]:
    (made,) = ast.parse(dedent(inspect.getsource(kind))).body
    assert isinstance(made, ast.ClassDef)
    return {
        key.target.id: inspect.cleandoc(said.value.value)
        for key, said in zip(made.body, made.body[1:], strict=False)
        if isinstance(key, ast.AnnAssign) and isinstance(key.target, ast.Name)
        if isinstance(said, ast.Expr) and isinstance(said.value, ast.Constant) and isinstance(said.value.value, str)
    }
