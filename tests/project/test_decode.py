"""What is decoded: what was written, and of anything else every fault at once."""

from __future__ import annotations

from collections.abc import Callable
from copy import deepcopy
from functools import partial
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from tests.project.projects import ODD, projects
from tests.project.refusal_texts import refusal_text
from wizard.project.decode import DecodeError, decode
from wizard.project.encode import plain
from wizard.project.file_schema import adapter
from wizard.project.project import Project
from wizard.project.value_faults import Fault
from wizard.trade.lengths import ZERO


@st.composite
def bent(draw: st.DrawFn) -> dict[str, Any]:
    """The tables of a project in which one thing or two are something else, or stand under another name."""
    tables = plain(draw(projects()))
    for _ in range(draw(st.integers(1, 2))):
        here: Any = tables
        while True:
            name = draw(st.sampled_from(sorted(here)) if here else st.just("stray"))
            if not isinstance(here[name] if here else None, dict) or draw(st.booleans()):
                break
            here = here[name]
        here[draw(st.sampled_from([name, "stray", "name", "run"]))] = deepcopy(draw(st.sampled_from(ODD)))
    return tables


def without_faults(tables: dict[str, Any], faults: tuple[Fault, ...]) -> dict[str, Any]:
    """The tables without all that is wrong in them; of a list that has a fault nothing is left."""
    left = deepcopy(tables)
    for each in faults:
        here: Any = left
        for at, name in enumerate(each.path, 1):
            inside = here.get(name)
            if at == len(each.path) or not isinstance(inside, dict):
                here.pop(name, None)
                break
            here = inside
    return left


def check(tables: dict[str, Any]) -> None:
    """The tables make a project, or do once all is taken out that is told to be wrong."""
    faults: tuple[Fault, ...] | None = None
    try:
        decode(Project, tables)
    except DecodeError as error:
        faults = error.faults
    if faults is not None:
        assert faults
        assert all(each.sentence and each.path for each in faults)
        decode(Project, without_faults(tables, faults))


@given(tables=bent())
def test_all_that_is_wrong_is_told_at_once_and_pydantic_takes_and_refuses_the_same(tables: dict[str, Any]) -> None:
    check(tables)
    read, second = (taken(reader, tables) for reader in (partial(decode, Project), adapter(Project).validate_python))
    assert read == second


def taken(reader: Callable[[dict[str, Any]], Project], tables: dict[str, Any]) -> Project | None:
    """What a reader makes of the tables; None where it refuses them."""
    try:
        return reader(tables)
    except (DecodeError, ValidationError):
        return None


def test_a_refusal_carries_its_place_the_sentence_the_example_and_the_readings() -> None:
    with pytest.raises(DecodeError) as caught:
        decode(Project, {"format": 1, "survey": {"section": {"left": {"run": ["76 in", "1,200 mm"]}}}})
    path = ("survey", "section", "left", "run", "2")
    sentence = refusal_text("one way", "1,200 mm", "1200 mm")
    assert caught.value.faults == (Fault(path, sentence, "1200 mm", ("1200 mm",)),)


def test_a_typed_value_already_read_is_checked_again_for_the_field_it_goes_to() -> None:
    nothing = ZERO.typed("0 in")
    assert decode(Project, {"format": 1, "survey": {"floor_gap": nothing}}).survey.floor_gap == nothing
    with pytest.raises(DecodeError):
        decode(Project, {"format": 1, "cloth": {"face": {"width": nothing}}})
