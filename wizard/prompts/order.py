"""Orders: what is typed to do something else than to answer. They begin with a full stop and a letter, as no answer
does: `.5` is half an inch, `.back` goes back."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Final, Generic, TypeVar

from msgspec import Struct

T = TypeVar("T")

_ORDER: Final = re.compile(r"\s*\.([A-Za-z][\w-]*)\s*(.*?)\s*")
_DOUBLED: Final = re.compile(r"\s*\.\.[A-Za-z]")


class Order(Struct, Generic[T], frozen=True):
    """One thing that can be done, in one place for reading, doing and helping."""

    name: str
    """Typed after a full stop; its beginning is enough when nothing else begins so."""
    after: str
    """What may be typed behind it, in words; empty for nothing."""
    says: str
    """One sentence for the help."""
    group: str
    """Heading in the help."""
    do: Callable[[T, str], None]
    """Takes what it is done to, and what was typed behind it."""


def order_in(line: str) -> tuple[str, str] | None:
    """The order in a line and what stands behind it; None for an answer."""
    found = _ORDER.fullmatch(line)
    return (found[1].casefold(), found[2]) if found else None


def answer_in(line: str) -> str:
    """The answer in a line that holds no order: of two full stops before a letter the first is taken off."""
    text = line.strip()
    return text[1:] if _DOUBLED.match(text) else text


def meant(orders: Sequence[Order[T]], name: str) -> tuple[Order[T], ...]:
    """The orders that `name` may mean: the one of that name, else all that begin so."""
    exact = tuple(each for each in orders if each.name == name)
    return exact or tuple(each for each in orders if each.name.startswith(name))


def unclear(found: Sequence[Order[T]], name: str) -> str:
    """What is said when a name means no order, or several."""
    if found:
        return f"Several begin so: {', '.join(f'.{each.name}' for each in found)}. Type one letter more."
    return (
        f"There is no .{name} here. Type .help for all there is; "
        f"to answer with text that begins with a full stop, type two: ..{name}"
    )


def help_lines(orders: Sequence[Order[T]]) -> list[str]:
    """Every order with what it does, group by group."""
    lines: list[str] = []
    for group in dict.fromkeys(each.group for each in orders):
        lines.append(f"{group}:")
        lines += [help_line(each) for each in orders if each.group == group]
    return lines


def help_line(order: Order[T]) -> str:
    """`.go PLACE: Lists every question and step…`."""
    return f".{order.name}{f' {order.after}' if order.after else ''}: {order.says}"
