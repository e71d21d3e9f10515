"""What every step is written with: the job's figures, its ruler, and one way to make a step."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final

from msgspec import Struct

from wizard.trade.cautions import StepKind, cautions_for
from wizard.trade.figures import Ledger
from wizard.trade.fixings import measured_from
from wizard.trade.formatting import Ruler, shown
from wizard.trade.job import Cloth, LayerId
from wizard.trade.lengths import ZERO, Length
from wizard.trade.notions import Stitch, size, stitch_in_words
from wizard.trade.parts import is_gathered
from wizard.trade.plan import Layer, Part, Stage, Step
from wizard.trade.sections import FROM_RIGHT

ROUND_MINUTES: Final = 5
"""Expected times are given to five minutes: nobody knows them better."""


class Kit(Struct, frozen=True):
    """The plan as far as it is worked, and how to write its figures down."""

    ledger: Ledger
    parts: tuple[Part, ...]
    layers: tuple[Layer, ...]
    ruler: Ruler

    def mark(self, length: Length) -> str:
        """A length to measure off, to the nearest ruler mark."""
        return shown(length, self.ruler)

    def cut(self, length: Length) -> str:
        """A length to cut, up to the ruler mark."""
        return shown(length, self.ruler, "up")

    def length(self, id: str) -> Length:
        """The length in the ledger under `id`; ZERO when it is not there or not known."""
        figure = self.ledger.figures.get(id)
        return figure.value if figure is not None and isinstance(figure.value, Length) else ZERO

    def read(self, key: str) -> Length:
        """The length at a file key, or its usual value; ZERO when there is neither."""
        value = self.ledger.read(key).value
        return value if isinstance(value, Length) else ZERO

    def knows(self, *ids: str) -> bool:
        """True when every figure is there and has a value."""
        return all(id in self.ledger.figures and self.ledger.figures[id].value is not None for id in ids)

    def cloth(self, layer: LayerId) -> Cloth:
        """What was said of a layer's cloth."""
        cloth: Cloth = getattr(self.ledger.job.cloth, layer)
        return cloth

    def gathers(self, part: Part) -> bool:
        """True when the part is drawn up on its tape."""
        return is_gathered(part, self.ruler.mark)

    def needle(self, *layers: LayerId) -> str:
        """`needle 70/10`: of one layer, or for all of several; nothing while a cloth is not known."""
        figure = self.ledger.figures.get(f"needle.{layers[0]}" if len(layers) == 1 else "needle.all")
        return "" if figure is None or figure.value is None else f"needle {size(figure.value)}"

    def settings(self, stitch: Stitch, *layers: LayerId) -> tuple[str, ...]:
        """Needle and stitch length for a line of stitching through these layers."""
        return tuple(each for each in (self.needle(*layers), stitch_in_words(stitch)) if each)

    @property
    def all_layers(self) -> tuple[LayerId, ...]:
        """Ids of the layers, face first."""
        return tuple(each.id for each in self.layers)

    def step(
        self,
        kind: StepKind,
        stage: Stage,
        title: str,
        lines: Iterable[str],
        *,
        of: Sequence[str] = (),
        section: str | None = None,
        figures: Iterable[str] = (),
        tools: Sequence[str] = (),
        settings: Sequence[str] = (),
        minutes: int = ROUND_MINUTES,
        written: Iterable[str] = (),
    ) -> Step:
        """A step, its id made of its kind and what it is done to, with the cautions the job calls for before it."""
        return Step(
            id=":".join((kind, *of)),
            stage=stage,
            title=title,
            section=section,
            lines=tuple(lines),
            figures=tuple(each for each in figures if each in self.ledger.figures),
            tools=tuple(tools),
            settings=tuple(settings),
            minutes=-(-minutes // ROUND_MINUTES) * ROUND_MINUTES,
            cautions=cautions_for(kind, self.ledger.job, self._run_of(section)),
            written=tuple(written),
        )

    def _run_of(self, part_id: str | None) -> str | None:
        """Id of the section whose run a part lies along."""
        return next((part.section for part in self.parts if part.id == part_id), None)


def minutes_for(length: Length, inches_a_minute: int) -> int:
    """Whole minutes for work along `length`, at least one."""
    return max(1, -(-length.inches.__ceil__() // inches_a_minute))


def from_where(part: Part) -> str:
    """Where tape and skirt are measured from: `the head`, `the bed's left`, or a split part's end nearer to it."""
    start = "the left end" if part.side is None else measured_from(part.side)
    return start if part.id == part.section else f"the end nearer {start}"


def from_right(part: Part) -> bool:
    """True when that is the part's right end, seen from the room."""
    return part.side in FROM_RIGHT
