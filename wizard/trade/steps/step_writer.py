"""What every step is written with: the job's figures at the ruler mark, and the kinds of step there are."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any, Final, Literal, NamedTuple, TypeVar, cast

from msgspec import Struct

from wizard.trade.cautions import called
from wizard.trade.figures import Ledger
from wizard.trade.fixings import measured_from
from wizard.trade.formatting import METRIC, Ruler, in_own_units, shown, text_beside
from wizard.trade.job_fields import Cloth, Job, LayerId
from wizard.trade.lengths import ZERO, Length
from wizard.trade.notions import Stitch, size, stitch_in_words
from wizard.trade.parts import is_gathered
from wizard.trade.plan_records import Caution, Layer, Part, Stage, Step
from wizard.trade.sections import FROM_RIGHT
from wizard.trade.stock import cloth_of

ROUND_MINUTES: Final = 5
"""Expected times are given to five minutes: nobody knows them better."""


EMPTY: Final[Mapping[str, Any]] = {}
T = TypeVar("T")


StepKind = Literal[
    "buy", "wash", "look-over", "measure", "square", "cut", "label", "join", "hem", "layers", "stay", "gather",
    "mark", "draw-up", "try", "tape", "fold", "loop", "clear", "hang", "dress", "put-back", "care",
]  # fmt: skip
"""The kinds of step, in the order of doing; a step's id begins with its kind."""


class _Kind(NamedTuple):
    stage: Stage
    title: str
    tools: tuple[str, ...]
    """Those for hanging depend on the fixing."""
    cautions: tuple[str, ...]
    """Ids of those read out before it, where the job calls for them."""
    lines: tuple[tuple[str, str, str], ...]
    """Each with when it is said: `?NAME` where that value holds, `*NAME` once for each item of it, `+NAME` likewise in
    the step's list, else always."""


def _kinds(text: str) -> Iterator[tuple[str, _Kind]]:
    """Each kind of step in a text of them: `KIND (STAGE | TITLE | TOOLS | CAUTIONS)`, and under it its lines."""
    for entry in re.split(r"^(?=\S)", text, flags=re.MULTILINE)[1:]:
        heading, *lines = re.split(r"\n  (?=\S)", entry.strip())
        kind, _, about = " ".join(heading.split()).rstrip(")").partition(" (")
        stage, title, *lists = (each.strip() for each in about.split("|"))
        tools, cautions = (tuple(filter(None, each.split("; "))) for each in lists)
        found = (re.match(r"([?*+]?)((?<=[?*+])\w+)? ?(.*)", " ".join(line.split())) for line in lines)
        said = tuple((each[1], each[2], each[3]) for each in found if each)
        yield kind, _Kind(cast("Stage", stage), title, tools, cautions, said)


KINDS: Final = dict(_kinds(text_beside(__file__, "steps.txt")))
"""What each kind of step is called and says."""


def cautions_for(kind: str, job: Job, run: str | None = None) -> tuple[Caution, ...]:
    """The cautions of a step of this kind, in the order they are read out; `run`: id of the section it is done to."""
    return called(KINDS[kind].cautions, job, run)


class StepWriter(Struct, frozen=True):
    """The plan as far as it is worked, and how to write its figures down."""

    ledger: Ledger
    parts: tuple[Part, ...]
    layers: tuple[Layer, ...]
    ruler: Ruler

    @property
    def job(self) -> Job:
        """The job the steps are for."""
        return self.ledger.job

    def mark(self, length: Length) -> str:
        """A length to measure off, to the nearest ruler mark."""
        return shown(length, self.ruler)

    def cut(self, length: Length) -> str:
        """A length to cut, up to the ruler mark."""
        return shown(length, self.ruler, "up")

    def worked(self, id: str) -> Length:
        """The length of a figure; ZERO where it is not worked or has no value."""
        figure = self.ledger.figures.get(id)
        return figure.value if figure is not None and isinstance(figure.value, Length) else ZERO

    def value(self, field: T | None, at: str | None = None) -> T | None:
        """The value of a field, or its usual value; None where there is neither. See Ledger.read."""
        return self.ledger.read(field, at).value

    def length(self, field: Length | None, at: str | None = None) -> Length:
        """The length at a field, or its usual value; ZERO where there is neither."""
        return self.value(field, at) or ZERO

    def knows(self, *ids: str) -> bool:
        """True when every figure is worked and has a value."""
        return all(id in self.ledger.figures and self.ledger.figures[id].value is not None for id in ids)

    def cloth(self, layer: LayerId) -> Cloth:
        """The maker's answers about a layer's cloth."""
        return cloth_of(self.job, layer)

    def gathers(self, part: Part) -> bool:
        """True when the part is drawn up on its tape."""
        return is_gathered(part, self.ruler.mark)

    def step(
        self,
        kind: StepKind,
        values: Mapping[str, Any] = EMPTY,
        *,
        layer: Layer | None = None,
        part: Part | None = None,
        figures: Iterable[str] = (),
        stitch: Stitch | None = None,
        tools: Sequence[str] = (),
        settings: tuple[str, ...] = (),
        minutes: int = ROUND_MINUTES,
        written: Iterable[str] = (),
    ) -> Step:
        """A step, done to a layer, a part, or a layer of a part, with the cautions the job calls for before it.

        `values` fill in its lines. `stitch` is sewn through the layer, else through all layers.
        """
        of = [each for each in (layer, part) if each is not None]
        stage, title, usual_tools, _, lines = KINDS[kind]
        return Step(
            id=":".join((kind, *(each.id for each in of))),
            stage=stage,
            title=f"{title}: {', '.join(each.name for each in of)}" if of else title,
            section=part.id if part else None,
            lines=tuple(line for each in lines if each[0] != "+" for line in self._filled(*each, values)),
            listed=tuple(line for each in lines if each[0] == "+" for line in self._filled(*each, values)),
            figures=tuple(each for each in figures if each in self.ledger.figures),
            tools=tuple(tools) or usual_tools,
            settings=self._sewn(stitch, layer) if stitch else settings,
            minutes=-(-minutes // ROUND_MINUTES) * ROUND_MINUTES,
            cautions=cautions_for(kind, self.job, part.section if part else None),
            written=tuple(written),
        )

    def _filled(self, when: str, name: str, text: str, values: Mapping[str, Any]) -> Iterator[str]:
        text = in_own_units(text, metric=self.ruler.unit in METRIC)
        if when in ("*", "+"):
            for each in values.get(name, ()):
                yield text.format_map({**values, **(each if isinstance(each, Mapping) else {"each": each})})
        elif not when or values.get(name):
            yield text.format_map(values)

    def _sewn(self, stitch: Stitch, layer: Layer | None) -> tuple[str, ...]:
        """`needle 70/10`, as far as the cloth is known, and the stitch length."""
        one = layer or (self.layers[0] if len(self.layers) == 1 else None)
        needle = self.ledger.figures.get("needle.all" if one is None else f"needle.{one.id}")
        number = None if needle is None else needle.value
        sewn = stitch_in_words(stitch, metric=self.ruler.unit in METRIC)
        return (*([] if number is None else [f"needle {size(number)}"]), sewn)


def minutes_for(length: Length, inches_a_minute: int) -> int:
    """Whole minutes for work along `length`, at least one."""
    return max(1, -(-length.inches.__ceil__() // inches_a_minute))


def from_where(part: Part) -> str:
    """Where tape and skirt are measured from: `the head`, `the bed's left`, or a split part's end nearer to it."""
    return start_of(part) if part.id == part.section else f"the end nearer {start_of(part)}"


def start_of(part: Part) -> str:
    """Where the whole section is measured from."""
    return "the left end" if part.side is None else measured_from(part.side)


def from_right(part: Part) -> bool:
    """True when that is the part's right end, seen from the room."""
    return part.side in FROM_RIGHT
