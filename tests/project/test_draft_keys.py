"""The declarations of the fields: each has a name and a meaning, and each usual value is one that may be typed."""

from __future__ import annotations

from typing import Any, get_args

from tests.project.drafts import ID, leaves
from wizard.project.encode import plain_value
from wizard.project.file_schema import meanings
from wizard.project.keys import limits_at, split
from wizard.project.parse.field_values import value_within
from wizard.project.project import Project, put
from wizard.trade.field_names import in_words
from wizard.trade.fields import Standard, bare, fields_of, is_table
from wizard.trade.formatting import exact
from wizard.trade.lengths import Length
from wizard.trade.model import Job, usual_of


def told() -> list[str]:
    """Every key that the arithmetic is told of."""
    return [key for key, _ in leaves(Job) if not key.startswith("kept.")]


def test_every_key_has_a_name_in_words() -> None:
    keys = [key.replace(f"owned.{ID}", "owned.length-2") for key in told()]
    assert [key for key in keys if in_words(key, Job()) == key] == ["name", "currency"]


def test_every_usual_value_may_be_typed() -> None:
    standards: tuple[Standard, ...] = ("inches", "metric")
    for key in told():
        for standard in standards:
            usual = usual_of(key, standard)
            limits = limits_at(Project, split(key))
            if isinstance(usual, Length):
                assert limits is not None
                assert value_within(limits, exact(usual, "in" if standard == "inches" else "mm")) == usual
            elif isinstance(usual, str | bool):
                assert plain_value(put(Project(), key, usual)) is not None


def test_every_key_of_the_file_says_what_it_means() -> None:
    unsaid: list[str] = []
    for key, _ in leaves():
        table: Any = Project
        for name in key.split("."):
            field = fields_of(table).get(name) if is_table(table) else None
            unsaid += [key] if field is not None and name not in meanings(table) else []
            table = bare(field) if field is not None else bare(get_args(table)[1])
    assert unsaid == []
