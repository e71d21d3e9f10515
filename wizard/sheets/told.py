"""Which cautions of a step are told in full, and which were so before a step of its kind and are brought to mind."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from msgspec import Struct

from wizard.trade.cautions import NAMES
from wizard.trade.plan import Step


class Told(Struct, frozen=True):
    """A step with what stands before it."""

    step: Step
    before: tuple[str, ...]
    """Cautions in full, then a line naming those that stand in full before an earlier step."""


def told(steps: Iterable[Step]) -> Iterator[Told]:
    """The steps of one stage: a caution in full before the first step of its kind, named before each later one."""
    seen: set[tuple[str, str]] = set()
    for step in steps:
        kind = step.id.partition(":")[0]
        new = [each for each in step.cautions if (kind, each.id) not in seen]
        names = [NAMES[each.id] for each in step.cautions if (kind, each.id) in seen]
        seen |= {(kind, each.id) for each in new}
        reminder = f"As before: {'; '.join(names)}."
        yield Told(step, (*(each.sentence for each in new), *([reminder] if names else [])))
