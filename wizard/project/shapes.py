"""The shape of a project file as JSON Schema, for editors and other programs: told from the tables themselves."""

from __future__ import annotations

from typing import Any

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import core_schema

from wizard.project.draft import Draft


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
    shape = Draft.model_json_schema(schema_generator=_FileSchema)
    return {"$schema": _FileSchema.schema_dialect, **shape, "required": ["format"]}
