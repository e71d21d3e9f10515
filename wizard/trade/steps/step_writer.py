"""What every step is written with: the job's figures at the ruler mark, and the kinds of step there are."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Final, NamedTuple, TypeVar

from msgspec import Struct

from wizard.trade.cautions import StepKind, cautions_for
from wizard.trade.figures import Ledger
from wizard.trade.fixings import measured_from
from wizard.trade.formatting import METRIC, Ruler, shown
from wizard.trade.job_fields import Cloth, Job, LayerId
from wizard.trade.lengths import ZERO, Length
from wizard.trade.notions import Stitch, size, stitch_in_words
from wizard.trade.parts import is_gathered
from wizard.trade.plan_records import Layer, Part, Stage, Step
from wizard.trade.sections import FROM_RIGHT
from wizard.trade.stock import cloth_of

ROUND_MINUTES: Final = 5
"""Expected times are given to five minutes: nobody knows them better."""


T = TypeVar("T")


class _Kind(NamedTuple):
    stage: Stage
    title: str
    tools: tuple[str, ...]


KINDS: Final[Mapping[StepKind, _Kind]] = {
    "buy": _Kind("Cloth", "Buy", ("the buying list", "tape measure")),
    "wash": _Kind("Cloth", "Wash and press", ("iron", "pressing board")),
    "look-over": _Kind("Cutting", "Look over", ("good light", "bright thread", "tape measure")),
    "square": _Kind("Cutting", "Square the end", ("set square or long ruler", "chalk", "shears")),
    "cut": _Kind("Cutting", "Cut out", ("shears or rotary cutter and mat", "long ruler", "chalk")),
    "label": _Kind("Cutting", "Label", ("labels", "pins")),
    "join": _Kind("Making up", "Join", ("sewing machine", "pins", "iron")),
    "hem": _Kind("Making up", "Hem", ("iron", "pins", "sewing machine", "ruler")),
    "layers": _Kind("Making up", "Layers together", ("pins", "large table")),
    "stay": _Kind("Making up", "Stay-stitch", ("sewing machine",)),
    "gather": _Kind("Making up", "Gathering row", ("sewing machine", "strong thread")),
    "mark": _Kind("Making up", "Tape and marks", ("tape", "chalk or pins", "tape measure", "iron")),
    "draw-up": _Kind("Making up", "Draw up", ("pins", "large table")),
    "tape": _Kind("Making up", "Stitch to the tape", ("sewing machine", "stiletto")),
    "fold": _Kind("Making up", "Fold the tape over", ("sewing machine", "pins", "iron")),
    "loop": _Kind("Making up", "Sew on the loop side", ("sewing machine", "shears")),
    "clear": _Kind("Hanging", "Clear the bed", ("masking tape", "pencil", "cleaning cloth")),
    "hang": _Kind("Hanging", "Hang", ()),
    "dress": _Kind("Hanging", "Dress the folds", ("hands", "steam iron, held away from the cloth")),
    "put-back": _Kind("Hanging", "Put the bed back", ("spanner or bed key",)),
    "care": _Kind("Hanging", "Care label and spare cloth", ("label", "needle and thread")),
}
"""Each kind of step with its stage, its title and its tools; those for hanging depend on the fixing."""


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

    def about(self, inches: str, metric: str) -> str:
        """A length that no figure holds, in the job's own system."""
        return metric if self.ruler.unit in METRIC else inches

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
        lines: Iterable[str],
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

        `stitch` is sewn through the layer, else through all layers.
        """
        of = [each for each in (layer, part) if each is not None]
        stage, title, usual_tools = KINDS[kind]
        return Step(
            id=":".join((kind, *(each.id for each in of))),
            stage=stage,
            title=f"{title}: {', '.join(each.name for each in of)}" if of else title,
            section=part.id if part else None,
            lines=tuple(lines),
            figures=tuple(each for each in figures if each in self.ledger.figures),
            tools=tuple(tools) or usual_tools,
            settings=self._sewn(stitch, layer) if stitch else settings,
            minutes=-(-minutes // ROUND_MINUTES) * ROUND_MINUTES,
            cautions=cautions_for(kind, self.job, part.section if part else None),
            written=tuple(written),
        )

    def _sewn(self, stitch: Stitch, layer: Layer | None) -> tuple[str, ...]:
        """`needle 70/10`, as far as the cloth is known, and the stitch length."""
        one = layer or (self.layers[0] if len(self.layers) == 1 else None)
        needle = self.ledger.figures.get("needle.all" if one is None else f"needle.{one.id}")
        number = None if needle is None else needle.value
        return (*([] if number is None else [f"needle {size(number)}"]), stitch_in_words(stitch))


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
