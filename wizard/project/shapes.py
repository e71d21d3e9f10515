"""The shape of a project file as JSON Schema, for editors and other programs: told from the tables themselves."""

from __future__ import annotations

import ast
import inspect
from collections.abc import Iterator
from textwrap import dedent
from typing import Any

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import core_schema

from wizard.project.checking import adapter
from wizard.project.draft import Draft
from wizard.project.keys import names_in
from wizard.project.tables import Table


class _FileSchema(GenerateJsonSchema):
    """TOML has no null and a missing key is missing: neither null nor defaults stand in the schema, nor titles, which
    would but repeat the keys."""

    def dict_schema(self, schema: core_schema.DictSchema) -> JsonSchemaValue:
        shape = super().dict_schema(schema)
        return {**shape, "additionalProperties": False} if "patternProperties" in shape else shape

    def field_title_should_be_set(self, schema: Any) -> bool:
        return False

    def nullable_schema(self, schema: core_schema.NullableSchema) -> JsonSchemaValue:
        return self.generate_inner(schema["schema"])

    def default_schema(self, schema: core_schema.WithDefaultSchema) -> JsonSchemaValue:
        return self.generate_inner(schema["schema"])


def schema() -> dict[str, Any]:
    """JSON Schema (draft 2020-12) of a project file. A moment is text in RFC 3339 form there, as TOML writes it."""
    shape = adapter(Draft).json_schema(schema_generator=_FileSchema)
    for kind in tables(Table):
        part = shape["$defs"].get(kind.__name__, shape if kind is Draft else None)
        for name, meaning in meanings(kind).items() if part else ():
            of_key = part["properties"][name]
            of_key["description"] = " ".join([meaning, *([of_key["description"]] if "description" in of_key else [])])
    return {"$schema": _FileSchema.schema_dialect, **shape, "required": ["format"]}


def tables(kind: type[Table]) -> Iterator[type[Table]]:
    """Every table made from `kind`, at any remove."""
    for each in kind.__subclasses__():
        yield each
        yield from tables(each)


def meanings(kind: type[Table]) -> dict[str, str]:
    """What each key of a table means: the text under it in the source.

    Read here and not by the toolkit as the classes are made, which would read all their sources at every start.
    """
    (made,) = ast.parse(dedent(inspect.getsource(kind))).body
    assert isinstance(made, ast.ClassDef)
    return {
        key.target.id: inspect.cleandoc(said.value.value)
        for key, said in zip(made.body, made.body[1:], strict=False)
        if isinstance(key, ast.AnnAssign) and isinstance(key.target, ast.Name) and key.target.id in names_in(kind)
        if isinstance(said, ast.Expr) and isinstance(said.value, ast.Constant) and isinstance(said.value.value, str)
    }
