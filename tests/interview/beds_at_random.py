"""Jobs from a seed, with anything a file can hold, holes too: one to thirteen sections, things, lengths, posts."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from fractions import Fraction
from random import Random
from typing import Any, Final, Literal, get_args, get_origin

from tests.project.projects import ID, LENGTHS, fits, leaves
from wizard.project.project import Project, put_many
from wizard.trade.fields import bare, item_of
from wizard.trade.lengths import Length

NEVER_ASKED: Final = (
    *("format", "began_", "template", "kept", "work."),
    *("progress.at", "progress.unlinked", "progress.written", "progress.later"),
)
"""How keys begin that are kept and never asked."""
POSTS: Final = ("head-left", "foot-left", "foot-right", "head-right")


def project_of(seed: int, holes: float = 0.4) -> Project:
    """The job with that seed. `holes`: the share of answers that are not given."""
    random = Random(f"{seed} {holes}")
    given = {key: value for key, value in _entries(random) if random.random() >= holes}
    needed = {key: True for key in given if key.endswith(".on")}
    return put_many(Project(), given | needed)


def _entries(random: Random) -> Iterator[tuple[str, Any]]:
    """A value for every key that is asked, of every table the job has."""
    most = random.choice([0, 1, 3])
    sections = ["left", *random.sample(["foot", "right", "head"], most), *(f"part{n}" for n in range(3 * most))]
    owned, things = ([f"{name}-{number}" for number in range(random.randint(0, 3))] for name in ("length", "thing"))
    ids: Mapping[str, list[str]] = {"section": sections, "post": [*POSTS], "owned": owned, "in_the_way": things}
    for pattern, kind in leaves():
        if not pattern.startswith(NEVER_ASKED):
            for key in _keys(pattern.split("."), ids):
                value = _value(random, key, kind)
                yield from () if value is None else [(key, value)]


def _keys(names: list[str], ids: Mapping[str, list[str]], before: tuple[str, ...] = ()) -> Iterator[str]:
    """The keys of a pattern, with each id of its tables in place of `ID`."""
    if not names:
        yield ".".join(before)
        return
    for name in ids[before[-1]] if names[0] == ID else names[:1]:
        yield from _keys(names[1:], ids, (*before, name))


def _value(random: Random, key: str, kind: Any) -> Any:
    """A value that fits a key; None for none."""
    if get_origin(kind) is tuple:
        inside, most = bare(item_of(kind)), 9 if key.endswith((".drop", ".drop_at")) else 2
        items = [_value(random, f"{key}.1", inside) for _ in range(random.randint(1, most))]
        return list(dict.fromkeys(items)) if key == "survey.watch" else items
    if get_origin(kind) is Literal:
        return random.choice(get_args(kind))
    if kind is Length:
        return random.choice([text for text in LENGTHS if fits(key, text)])
    if kind is str:
        return "$" if key == "currency" else "middle-leg" if key.endswith("_post") else "window side"
    of_kind: Mapping[Any, list[Any]] = {
        bool: [True, False],
        int: [500],
        Decimal: ["18.50"],
        Fraction: [text for text in ("2.5", "3", "3 %", "0 %") if fits(key, text)],
    }
    return random.choice(of_kind[kind])
