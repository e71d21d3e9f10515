"""One step of the work in words: the caution first, then what to do, with what, and how long."""

from __future__ import annotations

from textual.content import Content

from wizard.screens.glyphs import CAUTION, POINT
from wizard.screens.literal import plain
from wizard.trade.plan import Step


def told(step: Step, done: str | None, note: str | None) -> Content:
    """Everything about a step. `done`: when it was ticked, in words."""
    parts: list[Content] = [Content.styled(plain(step.title), "bold")]
    parts += [Content.styled(f"{CAUTION} {plain(each.sentence)}", "bold $warning") for each in step.cautions]
    parts += [Content("")] if step.cautions or step.lines else []
    parts += [Content(f"{POINT} {plain(each)}") for each in step.lines]
    parts.append(Content(""))
    parts += [_pair(label, value) for label, value in _table(step) if value]
    if note:
        parts.append(_pair("Note", note))
    parts.append(Content.styled(f"Ticked {done}." if done else "Not done yet.", "$success" if done else "$quiet"))
    return Content("\n").join(parts)


def _table(step: Step) -> tuple[tuple[str, str], ...]:
    return (
        ("Tools", ", ".join(step.tools)),
        ("Settings", ", ".join(step.settings)),
        ("Time", f"about {minutes_words(step.minutes)}" if step.minutes else ""),
    )


def _pair(label: str, value: str) -> Content:
    return Content.assemble((f"{label:<9} ", "$quiet"), plain(value))


def minutes_words(minutes: int) -> str:
    """`25 minutes`, `1 hour`, `2 hours 10 minutes`."""
    hours, rest = divmod(minutes, 60)
    parts = [
        f"{number} {unit}{'' if number == 1 else 's'}" for number, unit in ((hours, "hour"), (rest, "minute")) if number
    ]
    return " ".join(parts) or "no time"
