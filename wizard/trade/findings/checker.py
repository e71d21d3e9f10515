"""What every check is made with: the job's figures, and one way to make a finding of its wording and its values."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from string import Formatter
from typing import Any, Final, TypeVar, cast

from msgspec import Struct

from wizard.trade.drops_and_cut_lengths import Readings
from wizard.trade.field_names import first_up, in_words
from wizard.trade.figures import Ledger, spoken
from wizard.trade.formatting import (
    METRIC,
    How,
    Ruler,
    exact,
    in_own_units,
    is_short,
    readable,
    shown,
    text_beside,
    wordings_in,
)
from wizard.trade.job_fields import Job, Section
from wizard.trade.layers import Prepared
from wizard.trade.lengths import Length
from wizard.trade.plan_records import Finding, Layer, Level, Part, Remedy
from wizard.trade.sections import section_name
from wizard.trade.stock import cloths_used, layer_name

WORDINGS: Final = wordings_in(text_beside(__file__, "sentences.txt"))
"""What each finding says, by `ID` or `ID/VARIANT`, with its level."""

Value = Length | Fraction | int | str


T = TypeVar("T")


class Checker(Struct, frozen=True):
    """The plan as far as it is worked, and how to say what is wrong with it in the job's own unit."""

    ledger: Ledger
    ruler: Ruler
    readings: Mapping[str, Readings] = {}
    """The drop readings of each section."""
    parts: tuple[Part, ...] = ()
    layers: tuple[Layer, ...] = ()
    prepared: tuple[Prepared, ...] = ()
    """The layers as they were before the fullness was known."""

    @property
    def job(self) -> Job:
        """The job that is checked."""
        return self.ledger.job

    def value(self, field: T | None, at: str | None = None, *, fallback: T | None = None) -> T | None:
        """The value of a field, or of `fallback`, or the usual one; None where there is none. See Ledger.read."""
        return self.ledger.read(field, at, fallback=fallback).value

    def run(self, section_id: str, number: int = 1) -> Length | None:
        """A run reading of a section: 1 at the rail, 2 near the floor."""
        return self.ledger.read_item(Section.run, f"survey.section.{section_id}", number).value

    def worked(self, id: str) -> Any:
        """The value of a figure; None where it has none, or is not worked."""
        figure = self.ledger.figures.get(id)
        return None if figure is None else figure.value

    def section(self, section_id: str) -> str:
        """The name of a section."""
        return section_name(self.job, section_id)

    def finding(
        self,
        id: str,
        key: str,
        values: Mapping[str, Value] | Sequence[Value],
        *,
        other: str = "",
        variant: str = "",
        level: Level | None = None,
        offers: Sequence[Remedy] = (),
        **words: Value,
    ) -> Finding:
        """A finding about the answer at `key` that rests on `values`; these and `words` fill in its wording.

        A wording may also name {what}, the key in words, and the {section} or {layer} of the key.
        """
        kind = id.partition(":")[0]
        wording = WORDINGS[f"{kind}/{variant}" if variant else kind]
        if isinstance(values, Mapping):
            words, values = {**values, **words}, tuple(values.values())
        compared = [words[name] for _, name, how, _ in Formatter().parse(wording.sentence) if name and how == "alike"]
        rounds = not all(isinstance(each, Length) and self.is_short(each) for each in compared)
        known = self._about(key)
        for name, value in words.items():
            said = readable(value) if isinstance(value, Fraction) else value
            known[name] = _Measure(value, self, rounds) if isinstance(value, Length) else said
        return Finding(
            id=id,
            level=level or cast("Level", wording.note),
            key=key,
            sentence=self._begun(self._filled(wording.sentence, known)),
            way_out=self._filled(wording.more, known),
            values=" | ".join(spoken(each, self.ruler, exactly=True) for each in values),
            other=other,
            offers=tuple(offers),
        )

    def _filled(self, wording: str, known: Mapping[str, object]) -> str:
        return in_own_units(wording, metric=self.ruler.unit in METRIC).format_map(known)

    def _begun(self, sentence: str) -> str:
        """With a capital, unless it begins with a name that the maker typed."""
        sections, cloths = self.job.survey.section.values(), cloths_used(self.job).values()
        typed = (*(each.name for each in sections), *(each.name for each in cloths))
        return sentence if sentence.startswith(tuple(each for each in typed if each)) else first_up(sentence)

    def _about(self, key: str) -> dict[str, object]:
        """What a wording may say of the key."""
        about: dict[str, object] = {"what": in_words(key, self.job)}
        match key.split("."):
            case ["survey", "section", section, *_]:
                about["section"] = self.section(section)
            case ["cloth", ("face" | "interlining" | "lining") as layer, *_]:
                about["layer"] = layer_name(self.job, layer)
        return about

    def length(self, length: Length) -> str:
        """A length as it was measured or chosen, with nothing lost, in the job's unit.

        In the other system where only that is short (59 3/4 cm in a job in inches is not 23 133/254 in), and at the
        ruler mark where neither is: the difference between a reading in inches and one in centimetres.
        """
        for unit in (self.ruler.unit, "in" if self.ruler.unit in METRIC else "cm"):
            if is_short(length, metric=unit in METRIC):
                return exact(length, unit)
        return shown(length, self.ruler)

    def alike(self, lengths: Sequence[Length]) -> list[str]:
        """Lengths that are compared, as a wording says them with `alike`."""
        rounds = not all(self.is_short(each) for each in lengths)
        return [format(_Measure(each, self, rounds), "alike") for each in lengths]

    def is_short(self, length: Length) -> bool:
        """True when a tape in the job's unit has a mark for the length, or nearly."""
        return is_short(length, metric=self.ruler.unit in METRIC)


class _Measure(Struct, frozen=True):
    """A length in a wording: `{run}` as it was measured, `{run:up}` at the ruler mark, `{run:alike}` as all `alike`.

    Lengths that are compared are all in the job's unit, and all at the ruler mark where one of them is not short there:
    nobody sees which of 20 1/16 in and 26 cm is longer; of ≈ 51 cm and 26 cm all do.
    """

    length: Length
    checker: Checker
    rounds: bool

    def __format__(self, how: str) -> str:
        if how == "alike":
            how = "nearest" if self.rounds else ""
        return shown(self.length, self.checker.ruler, cast("How", how)) if how else self.checker.length(self.length)
