"""The notes that stand beside a type in the tables of the file: how what stands there is read, and how much of it.

Both ways of reading a table go by them: :mod:`wizard.project.straight`, which only takes a file that is as it should
be, and :mod:`wizard.project.checking`, which finds all that is wrong with one that is not. Only the second loads
pydantic, and so the hooks here do too.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Annotated, Any, get_args, get_origin

from msgspec import Struct

if TYPE_CHECKING:
    from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
    from pydantic.json_schema import JsonSchemaValue
    from pydantic_core import CoreSchema

# Alike only when they are the very same: a note may hold what cannot be hashed.


class Reads(Struct, frozen=True, eq=False):
    """`read` makes the value of what stands in the file, or raises Misread."""

    read: Callable[[Any], Any]
    shape: Mapping[str, Any]
    """What may stand there, as JSON Schema."""

    def then(self, more: Callable[[Any], Any], shape: Mapping[str, Any] | None = None) -> Reads:
        """The same, and what was read looked at once more."""
        read = self.read
        return Reads(lambda value: more(read(value)), self.shape if shape is None else shape)

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        from pydantic_core.core_schema import no_info_plain_validator_function

        return no_info_plain_validator_function(self.read)

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> JsonSchemaValue:
        return dict(self.shape)


class Exactly(Struct, frozen=True, eq=False):
    """The very kind the type names, never what could be made into it. `then` looks at it, and may raise Misread."""

    then: Callable[[Any], Any] | None = None

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        from pydantic_core.core_schema import no_info_after_validator_function

        schema: Any = {**handler(source), "strict": True}
        return no_info_after_validator_function(self.then, schema) if self.then else schema


class AtMost(Struct, frozen=True, eq=False):
    """No list, and no table keyed by ids, holds more than this."""

    number: int

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        from typing import Annotated

        from pydantic import Field

        return handler(Annotated[source, Field(max_length=self.number)])


def notes_of(kind: Any) -> tuple[Any, ...]:
    """The notes beside a type, those inside an `... | None` too."""
    if get_origin(kind) is Annotated:
        inner, *notes = get_args(kind)
        return (*notes_of(inner), *notes)
    optional = [each for each in get_args(kind) if each is not type(None)] if type(None) in get_args(kind) else []
    return notes_of(optional[0]) if optional else ()
