"""Figures that know what they are made of, the ledger in which a plan is worked, and why a figure is what it is.

A figure with a hole under it has no value; it carries the needs that would fill it. So a plan is total: nothing is
raised because something is not known yet.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from functools import cached_property, reduce
from itertools import chain
from operator import add
from typing import Any, Final, Generic, TypeVar

from msgspec import Struct

from wizard.trade.field_names import in_words
from wizard.trade.fields import Standard
from wizard.trade.formatting import (
    METRIC,
    Ruler,
    exact,
    how_shown,
    in_own_units,
    money,
    number,
    readable,
    readable_length,
    shown,
    text_beside,
    wordings_in,
)
from wizard.trade.job_fields import Job, key_of, usual_of
from wizard.trade.lengths import Length

T = TypeVar("T")
Value = Length | Fraction | int | Decimal | str | bool


REASONS: Final = wordings_in(text_beside(__file__, "reasons.txt"))
"""What each rule says, by its id, and the title of its figures where that is not the id."""


class Need(Struct, frozen=True):
    """What is missing: the file key that would fill it, and that in words (`the drop readings of the left section`)."""

    key: str
    words: str


class Rule(Struct, frozen=True):
    """Where a figure comes from. `formula` holds its inputs' names in braces: `{reading} + {raised} − {gap}`."""

    id: str
    formula: str
    says: str = ""
    """The rule in one plain sentence; empty where `reasons.txt` has it under the id."""
    source: str = "common practice"


class Formula(Struct, Generic[T], frozen=True, dict=True):
    """A rule with the arithmetic that its formula says: `compute` is called with the inputs by name.

    It may give None when the values make no sense together; a finding says so elsewhere.
    """

    id: str
    formula: str
    compute: Callable[..., T | None]
    says: str = ""

    @cached_property
    def rule(self) -> Rule:
        """The rule alone."""
        return Rule(self.id, self.formula, self.says)


GIVEN = Rule("as given", "{value}", "You measured or chose it.", "the maker")
DEFAULT = Rule("as usual", "{value}", "You chose nothing else, so the usual value counts.")
PRESUMED = Rule("taken as usual", "{value}")


class Figure(Struct, Generic[T], frozen=True):
    """One value of the plan. `id` is dotted (`section.left.drop`), or the file key for what was given."""

    id: str
    title: str
    value: T | None
    needs: tuple[Need, ...]
    rule: Rule
    inputs: tuple[tuple[str, Figure[Any]], ...] = ()


@dataclass
class Ledger:
    """Works figures one after the other and keeps each under its id. Lives inside one call only."""

    job: Job
    figures: dict[str, Figure[Any]] = field(default_factory=dict)
    presumed: Mapping[str, Any] = field(default_factory=dict)
    """File key -> what a first figure takes for an answer that is missing and has no usual value. A plan presumes
    nothing."""
    _read_already: dict[tuple[str, str | None, Any], Figure[Any]] = field(default_factory=dict, repr=False)
    """What was found for each key, so that one read twenty times is looked up once."""

    @property
    def standard(self) -> Standard:
        """Which column of defaults stands in."""
        return self.job.standard or "inches"

    def keep(self, figure: Figure[T]) -> Figure[T]:
        """Put a finished figure in the ledger."""
        self.figures[figure.id] = figure
        return figure

    def read(
        self, field: T | None, at: str | None = None, *, fallback: T | None = None, optional: T | None = None
    ) -> Figure[T]:
        """The value of a field, `read(Tape.width)`, of the record at the dotted key `at` where there are several:
        `read(Cloth.hem, "cloth.face")`. Where it is missing, that of the field `fallback`; else the usual value; else
        `optional`; else a need.

        The figure is kept under the key its value was found at. What is missing is asked for once, for the whole bed:
        at `fallback` where there is one.
        """
        return self._read(key_of(field, at), None if fallback is None else key_of(fallback), optional)

    def said(self, key: str) -> bool:
        """True where the file says anything at a key, whether it can be used or not."""
        return value_at(self.job, key) is not None or key in self.job.unusable

    def read_item(self, field: tuple[T | None, ...], at: str, number: int) -> Figure[T]:
        """The same for an item of a list, counted from 1: `read_item(Section.run, "survey.section.left", 1)`."""
        return self._read(f"{key_of(field, at)}.{number}", None, None)

    def _read(self, key: str, fallback: str | None, optional: Any) -> Figure[Any]:
        asked = (key, fallback, optional)
        found = self._read_already.get(asked)
        if found is None:
            found = self._read_already[asked] = self._found(key, fallback, optional)
        return self.keep(found)

    def _found(self, key: str, fallback: str | None, optional: Any) -> Figure[Any]:
        keys = (key, fallback) if fallback else (key,)
        for each in keys:
            # What is in the file there, or at an item of the list there, cannot be used.
            hole = next((key for key in self.job.unusable if each in (key, key.rpartition(".")[0])), None)
            if hole is not None:
                return self.wanting(hole)
            value = value_at(self.job, each)
            if value is not None:
                return self._given(each, value, GIVEN)
        usual = [(each, usual_of(each, self.standard), DEFAULT) for each in keys]
        presumed = [(each, self.presumed.get(each), PRESUMED) for each in keys]
        for each, value, rule in (*usual, (keys[-1], optional, DEFAULT), *presumed):
            if value is not None:
                return self._given(each, value, rule)
        return self.wanting(keys[-1])

    def _given(self, key: str, value: Any, rule: Rule) -> Figure[Any]:
        return Figure(key, in_words(key, self.job), value, (), rule)

    def wanting(self, key: str) -> Figure[Any]:
        """A figure that is not there yet, with the need that would fill it."""
        said = in_words(key, self.job)
        return self.keep(Figure(key, said, None, (Need(key, said),), GIVEN))

    def work(
        self, id: str, title: str, rule: Rule, compute: Callable[..., T | None], /, **inputs: Figure[Any]
    ) -> Figure[T]:
        """Work a figure from others by `compute`, called with their values by name once all are known.

        `compute` may give None when the values make no sense together; a finding says so elsewhere.
        """
        value, needs = combined(compute, **inputs)
        return self.keep(Figure(id, title, value, needs, rule, tuple(inputs.items())))

    def apply(self, formula: Formula[T], id: str, /, **inputs: Figure[Any]) -> Figure[T]:
        """Work a figure by a formula once all its inputs are known."""
        return self.work(id, REASONS[formula.id].note or formula.id, formula.rule, formula.compute, **inputs)

    def total(self, id: str, title: str, says: str, of: Mapping[str, Figure[T]], *, formula: str = "none") -> Figure[T]:
        """The sum of several figures. Where there are none it has no value, and its rule is `formula`."""
        rule = Rule(title, " + ".join(f"{{{name}}}" for name in of) or formula, says)
        return self.work(id, title, rule, lambda **each: reduce(add, each.values()) if each else None, **of)


def combined(compute: Callable[..., T | None], /, **inputs: Figure[Any]) -> tuple[T | None, tuple[Need, ...]]:
    """What `compute` makes of the values of some figures, once all are known, and what is missing for it."""
    needs = merged(figure.needs for figure in inputs.values())
    known = not needs and all(figure.value is not None for figure in inputs.values())
    return (compute(**{name: figure.value for name, figure in inputs.items()}) if known else None), needs


def merged(needs: Iterable[Iterable[Need]]) -> tuple[Need, ...]:
    """All needs, each once, in order."""
    return tuple(dict.fromkeys(chain.from_iterable(needs)))


def value_at(job: Any, key: str) -> Any:
    """The leaf of the job at a dotted file key, or None when it is missing. List items count from 1: `drop.2`."""
    here = reduce(_inside, key.split("."), job)
    return None if here == () else here


def _inside(here: Any, name: str) -> Any:
    if isinstance(here, Struct):
        return getattr(here, name, None)
    if isinstance(here, tuple):
        at = int(name) - 1
        return here[at] if 0 <= at < len(here) else None
    return here.get(name) if isinstance(here, Mapping) else None


NOT_YET = "not known yet"


class Explanation(Struct, frozen=True):
    """The answer to *why?*, in text."""

    title: str
    formula: str
    """The rule with the names of what goes in: `drop reading + drop line above the rail − gap under the hem`."""
    values: str
    """The same with the values put in: `11 1/2 in + 0 in − 1/2 in`."""
    result: str
    says: str
    """The rule in a sentence."""
    source: str


def explained(figure: Figure[Any], ruler: Ruler) -> Explanation:
    """Why one figure is what it is, in the job's unit. A figure that is not known yet names what it waits for."""
    names = {"value": figure.title, **_apart({name: part.title for name, part in figure.inputs})}
    values = {"value": figure.value, **{name: part.value for name, part in figure.inputs}}
    formula, says = (
        in_own_units(each, metric=ruler.unit in METRIC)
        for each in (figure.rule.formula, figure.rule.says or REASONS[figure.rule.id].sentence)
    )
    return Explanation(
        title=figure.title,
        formula=_filled(formula, names),
        values=_filled(formula, {name: spoken(value, ruler) for name, value in values.items()}),
        result=_result(figure, ruler),
        says=says,
        source=figure.rule.source,
    )


def _filled(formula: str, words: dict[str, str]) -> str:
    """The formula with every name replaced. Names may be anything; what is put in is never a pattern."""
    return re.sub(r"\{([^{}]*)\}", lambda found: words.get(found[1], found[1]), formula)


def _apart(titles: dict[str, str]) -> dict[str, str]:
    """Titles by name, without the place before the colon; where two would read alike, each says its place or name."""
    short, apart = {name: title.rpartition(": ")[2] for name, title in titles.items()}, dict[str, str]()
    for name, title in titles.items():
        longer = title if title != short[name] else f"{title} ({name.replace('_', ' ')})"
        apart[name] = short[name] if list(short.values()).count(short[name]) == 1 else longer
    return apart


def _result(figure: Figure[Any], ruler: Ruler) -> str:
    if figure.value is None and figure.needs:
        return f"{NOT_YET}: needs " + "; ".join(need.words for need in figure.needs)
    if isinstance(figure.value, Length):
        return shown(figure.value, ruler, how_shown(figure.id))
    return spoken(figure.value, ruler)


def spoken(value: object, ruler: Ruler, *, exactly: bool = False) -> str:
    """Any value of a figure in text, lengths in the job's unit: so that it reads with ease, rounded and with ≈ where it
    would be a riddle; or `exactly`."""
    match value:
        case None:
            return NOT_YET
        case bool():
            return "yes" if value else "no"
        case Length():
            return exact(value, ruler.unit) if exactly else readable_length(value, ruler.unit)
        case Fraction():
            return number(value) if exactly else readable(value)
        case Decimal():
            return money(value)
        case tuple():
            return ", ".join(spoken(each, ruler, exactly=exactly) for each in value)
    return str(value)
