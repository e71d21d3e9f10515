"""The shape of a project file as JSON Schema, for editors and other programs: told from the records themselves."""

from __future__ import annotations

import ast
import inspect
from datetime import datetime
from textwrap import dedent
from typing import Any, get_args

from wizard.project.decode import most_of
from wizard.project.parse.field_values import shape_of
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

Shape = dict[str, Any]


def schema() -> Shape:
    """JSON Schema (draft 2020-12) of a project file. A moment is text in RFC 3339 form there, as TOML writes it.

    TOML has no null and a missing key is missing: the schema holds neither nulls nor defaults.
    """
    tables: Shape = {}
    whole = table_shape(Project, tables)
    dialect = "https://json-schema.org/draft/2020-12/schema"
    return {"$schema": dialect, "$defs": dict(sorted(tables.items())), **whole, "required": ["format"]}


def table_shape(kind: type[Record], tables: Shape) -> Shape:
    """A table with keys of its own; those below it go into `tables`, by name."""
    meaning = meanings(kind)
    keys = {name: _shape(each, tables) for name, each in fields_of(kind).items()}
    for name, shape in keys.items():
        shape["description"] = f"{meaning.get(name, '')} {shape.get('description', '')}".strip()
    about = {"title": kind.__name__, "description": inspect.cleandoc(kind.__doc__ or "")}
    return {"type": "object", "additionalProperties": False, "properties": keys, **about}


def _shape(annotation: Any, tables: Shape) -> Shape:
    declared, kind = kind_of(annotation), bare(annotation)
    if declared is not None and not is_list(kind):
        return dict(shape_of(declared))
    if kind in (bool, datetime):
        return {"type": "boolean"} if kind is bool else {"type": "string", "format": "date-time"}
    if is_table(kind):
        tables[kind.__name__] = tables.get(kind.__name__) or table_shape(kind, tables)
        return {"$ref": f"#/$defs/{kind.__name__}"}
    if is_list(kind):
        return {"type": "array", "maxItems": MOST_ITEMS, "items": _shape(item_of(kind), tables)}
    if is_mapping(kind):
        key, inside = (_shape(each, tables) for each in get_args(kind))
        names = {"patternProperties": {key["pattern"]: inside}, "propertyNames": {"maxLength": key["maxLength"]}}
        most = most_of(annotation)
        return {"type": "object", "additionalProperties": False, **names, **({"maxProperties": most} if most else {})}
    return {"type": "string", "enum": [*get_args(kind)]}


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
