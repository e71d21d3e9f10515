"""A key means the same in the file and in the job."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, Literal, get_args, get_origin, get_type_hints

from msgspec import Struct

from tests.project.drafts import ID, leaves
from wizard.project.draft import FILE_ONLY, Draft
from wizard.project.keys import bare, fields_of, is_known, is_table, split
from wizard.project.shapes import meanings
from wizard.trade.defaults import DEFAULTS
from wizard.trade.job import Job


def job_leaves(kind: Any, path: tuple[str, ...] = ()) -> Iterator[tuple[str, Any]]:
    if isinstance(kind, type) and issubclass(kind, Struct):
        for name, hint in get_type_hints(kind).items():
            yield from job_leaves(bare(hint), (*path, name))
    elif get_origin(kind) is Mapping or getattr(get_origin(kind), "__name__", "") == "Mapping":
        yield from job_leaves(bare(get_args(kind)[1]), (*path, ID))
    else:
        yield ".".join(path), kind


def file_leaves() -> dict[str, Any]:
    return {key: kind for key, kind in leaves() if key.split(".")[0] not in FILE_ONLY}


def test_file_and_job_have_the_same_keys_in_the_same_order() -> None:
    # What of a file cannot be used, and what is in a foreign unit, is told to the job beside its leaves.
    told = [key for key, _ in job_leaves(Job) if not key.startswith(("unusable.", "foreign."))]
    assert list(file_leaves()) == told


def test_choices_of_the_file_are_the_choices_of_the_job() -> None:
    jobs = dict(job_leaves(Job))
    chosen = {key: kind for key, kind in file_leaves().items() if get_origin(kind) is Literal}
    assert len(chosen) > 20
    assert chosen == {key: jobs[key] for key in chosen}


def test_every_default_has_a_key_in_the_file() -> None:
    assert [key for key in DEFAULTS if not is_known(Draft, split(key))] == []


def test_every_key_of_the_file_says_what_it_means() -> None:
    unsaid: list[str] = []
    for key, _ in leaves():
        table: Any = Draft
        for name in key.split("."):
            field = fields_of(table).get(name) if is_table(table) else None
            unsaid += [key] if field is not None and name not in meanings(table) else []
            table = bare(field) if field is not None else bare(get_args(table)[1])
    assert unsaid == []
