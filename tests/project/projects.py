"""Every key a project may hold, told from the tables themselves, and random projects made of them."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, date, datetime, time
from decimal import Decimal
from fractions import Fraction
from typing import Any, Literal, get_args, get_origin

from hypothesis import strategies as st

from wizard.project.encode import plain
from wizard.project.keys import kind_at, limits_at, split
from wizard.project.parse import Misread
from wizard.project.parse.field_values import value_within
from wizard.project.project import Project, put_many
from wizard.project.value_faults import Unquoted
from wizard.trade.fields import MOST_ITEMS, Path, bare, fields_of, is_list, is_mapping, is_table, item_of
from wizard.trade.lengths import Length

ID = "some-id"
"""Stands for an id in the keys below."""

NASTY = (
    'a "quoted" name', "back\\slash", "# no comment", "[bold]no markup[/]", "{brace}", "'single'", "tab-free = true",
    "日本の布", "naïve ½″", "🛏️ bed", '"""', "'''", "=", ".", "a" * 200, " edges ", "\N{NO-BREAK SPACE}x", "$(rm)",
)  # fmt: skip

ODD: tuple[Any, ...] = (
    "", " ", "0 in", "12", "12 in", "-1 in", "1,200 mm", "5 parsec", "1/999 in", "9999 m", "500 %",
    "left", "inches", "yes", "a" * 2000, "[b]", "\x07",
    0, 1, 2, -1, 10**30, 1_000_001, True, False, Unquoted("2.5"), None,
    datetime(2026, 3, 2, 10, 42, tzinfo=UTC), datetime(2026, 3, 2), date(2026, 3, 2), time(10, 42),
    [], ["12 in"], ["12 in", ""], ["0 in"], [1], [None], ["antique", "antique"], ["12 in"] * (MOST_ITEMS + 1),
    {}, {"": {}}, {"A": {}}, {"one": {}}, {"one": 1}, {"note": "x"}, {"run": ["12 in", 3]},
    {f"i{number}": {} for number in range(MOST_ITEMS + 1)}, 2.5, 10**5000, "x" * 5000, {"BAD": {}}, [[]], ["x"],
)  # fmt: skip
"""Values that stand somewhere in a file by mistake, and some that are fit in places."""


def leaves(kind: Any = Project, path: tuple[str, ...] = ()) -> Iterator[tuple[str, Any]]:
    """Every key of a file with the kind of value that stands there; ID stands for each id."""
    if is_table(kind):
        for name, each in fields_of(kind).items():
            yield from leaves(bare(each), (*path, name))
    elif is_mapping(kind):
        yield from leaves(bare(item_of(kind)), (*path, ID))
    else:
        yield ".".join(path), kind


def texts(longest: int) -> st.SearchStrategy[str]:
    """Text a name may be, the worst of it too."""
    letters = st.characters(
        exclude_categories=("Cc", "Cs", "Zl", "Zp"),
        exclude_characters="\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069",
    )
    nasty = st.sampled_from([each[:longest] for each in NASTY])
    return (st.text(letters, min_size=1, max_size=longest) | nasty).filter(lambda text: bool(text.strip()))


IDS = st.from_regex(r"[a-z0-9][a-z0-9-]{0,39}", fullmatch=True)
LENGTHS = ["12 1/2 in", "80½ in", "6' 8 1/2\"", "2 1/4 yd", "29,2 cm", "2.045 m", "1/16 in", "312 mm", "3/4 in", "5 mm"]
MOMENTS = st.datetimes(datetime(1900, 1, 1), datetime(2200, 1, 1), timezones=st.just(UTC))


def values(key: str, kind: Any) -> st.SearchStrategy[Any]:
    """Values that are fit at `key`, as they stand in a file."""
    if get_origin(kind) is Literal:
        return st.sampled_from(get_args(kind))
    if get_origin(kind) is tuple:
        item = bare(item_of(kind))
        inside = values(f"{key}.1", item)
        return st.lists(st.just("") | inside if item is Length else inside, max_size=8)
    if kind is str:
        is_id = key.endswith("_post") or key.startswith("progress.later")
        return IDS if is_id else texts(8 if key == "currency" else 200)
    if kind is Length:
        return st.sampled_from([text for text in LENGTHS if fits(key, text)])
    return {
        bool: st.booleans(),
        int: st.integers(1, 1_000_000),
        datetime: MOMENTS,
        Fraction: st.sampled_from([text for text in ("2.5", "2 1/2", "3", "3 %", "0 %", "2,5%") if fits(key, text)]),
        Decimal: st.sampled_from(["18.50", "4"]),
    }[kind]


def fits(key: str, text: str) -> bool:
    """True for a text that is taken at `key`."""
    limits = limits_at(Project, split(key))
    try:
        return limits is None or value_within(limits, text) is not None
    except Misread:
        return False


def _filled(key: str) -> st.SearchStrategy[str]:
    named = st.sampled_from(["left", "foot-left", "1", "2"]) | IDS
    return named.map(lambda name: key.replace(ID, name, 1)).flatmap(
        lambda part: named.map(lambda name: part.replace(ID, name))
    )


def entries() -> st.SearchStrategy[dict[str, Any]]:
    """A few keys with fit values."""
    one = st.sampled_from(sorted(leaves(), key=lambda pair: pair[0])).flatmap(
        lambda pair: st.tuples(_filled(pair[0]), values(*pair))
    )
    return st.lists(one, max_size=14).map(dict)


def projects() -> st.SearchStrategy[Project]:
    """Random projects, filled in here and there."""
    return entries().map(lambda pairs: put_many(Project(), pairs))


def text_at(project: Project, key: str) -> Any:
    """What stands at a dotted key, as in the file; None where there is nothing."""
    return at(plain(project), split(key)) or None


def put_plain(tables: dict[str, Any], path: Path, value: object) -> None:
    """Set `value` at `path` in plain tables, making the tables above it; None takes out what is there, and of a list
    leaves a hole ("") where another item follows."""
    *above, name = path
    if is_list(kind_at(Project, tuple(above))):
        number, items = int(name), list(at(tables, tuple(above)) or [])
        items += [""] * (number - len(items))
        items[number - 1] = "" if value is None else value
        while value is None and items and items[-1] == "":
            items.pop()
        return put_plain(tables, tuple(above), items or None)
    here: Any = tables
    for each in above:
        if value is None and each not in here:
            return None
        here = here.setdefault(each, {})
    here[name] = value
    if value is None:
        del here[name]
    return None


def at(tables: dict[str, Any], path: Path) -> Any:
    """The value at `path` in plain tables, list items counted from 1; None when there is nothing."""
    here: Any = tables
    for name in path:
        if isinstance(here, list):
            here = here[int(name) - 1] if int(name) <= len(here) else None
        else:
            here = here.get(name) if isinstance(here, dict) else None
    return here
