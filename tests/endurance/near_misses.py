"""Lengths, numbers, percentages and sums of money nearly as people type them, and whole files nearly as they are."""

from __future__ import annotations

import re
from collections.abc import Iterator
from random import Random
from typing import Final

from tests.render.random_beds import random_file
from wizard.project.keys import limits_at, split
from wizard.project.parse.length_text import WORDS
from wizard.project.project import Project
from wizard.trade.fields import Limits

OTHERS: Final = (
    "M", "Mm", "mM", "am", "fm", "nm", "km", "mi", "parsec", "ly", "bohr", "rods", "hand", "nail", "ell", "thou", "pt",
    "kg", "s", "zork", "x", "×", "%", "per cent", "times", "survey foot", "in in", "fathom of it",
)  # fmt: skip
SPACES: Final = (" ", "", "  ", "-", "\n", "\t", "\u00a0", " - ", ", ")
ODD: Final = "0123456789.,/'\"½⅟ -+~≈°²³€$%x×\n\r\u2028\u00b5[]{}()\\\x1b\u202e٣Ⅷ"
DAMAGE: Final = (
    b"", b"\x00", b"\xff", b"[", b"]", b'"', b"=", b"\n", b"{", b"#", b"'''", b"9" * 30, b"[[a]]\n", b"\\u",
)  # fmt: skip
_QUOTED: Final = re.compile(r'"([^"]*)"')


def number(random: Random) -> str:
    """A number, or nearly one."""
    n, few = random.randint(0, 10 ** random.randint(0, 4)), random.randint(0, 9)
    forms = (
        f"{n}", f"{n} {few}/8", f"{n}½", f"{n}.{few}", f"{n},{few}", f"{few},{random.randint(0, 999):03}", f"0{n}",
        f"00,{random.randint(0, 999):03}", f"{n},{random.randint(0, 9999):04}", f"{few} {random.randint(0, 999):03}",
        f"{n}.{few}.{few}", f"{few}/{random.randint(0, 64)}", f"{n}-{few}/16", "9" * random.randint(1, 40),
        f"0.{'3' * random.randint(1, 30)}", f"1/{10 ** random.randint(0, 20)}", f"-{n}", f"{n}e{few}", f"≈ {n}", ".5",
        f"{n}.", "", f"1.{random.randint(0, 999):03},{few}",
    )  # fmt: skip
    return random.choice(forms if random.random() < 0.5 else forms[:5])


def unit(random: Random) -> str:
    """A unit, one that is none, or one with a letter wrong."""
    word = random.choice([*WORDS, *WORDS, *OTHERS]) if random.random() < 0.8 else ""
    if random.random() < 0.1 and word:
        at = random.randrange(len(word))
        word = word[:at] + random.choice(["", word[at] * 2, random.choice("aeimnst")]) + word[at + 1 :]
    return random.choice([word, word, word.upper(), word.title()])


def typed(random: Random, limits: Limits) -> str:
    """What somebody may type at a field."""
    if random.random() < 0.1:
        scale = random.choice(limits.scales)
        text = random.choice([scale.least, scale.most, scale.example])
    else:
        groups, spaces = random.choice([1, 1, 1, 1, 2, 3]), SPACES[: random.choice([1, 2, 2, len(SPACES)])]
        text = random.choice(spaces).join(number(random) + random.choice(spaces) + unit(random) for _ in range(groups))
    for _ in range(random.choice([0, 0, 0, 0, 0, 1, 2])):
        at = random.randint(0, len(text))
        text = text[:at] + random.choice(ODD) + text[at + random.randint(0, 1) :]
    return text


def damaged(seed: int) -> bytes:
    """A project file with values at and beyond their limits, or with bytes damaged, or both."""
    random = Random(seed)
    text = random_file(random.randrange(10_000))
    kind = random.choice(["extreme", "extreme", "extreme", "damaged", "both"])
    if kind != "damaged":
        text = extreme(random, text, random.choice([1, 1, 2, 5, 20]))
    data = text.encode("utf-8", "surrogatepass")
    for _ in range(0 if kind == "extreme" else random.choice([1, 1, 2, 8])):
        start = random.randint(0, len(data))
        stop = min(len(data), start + random.choice([0, 1, 1, 2, 50, 2000]))
        data = data[:start] + random.choice(DAMAGE) + data[stop:]
    return data


def extreme(random: Random, text: str, count: int) -> str:
    """The file with so many of its values at their limits, beyond them, or nearly typed."""
    lines = text.splitlines()
    fields = [*typed_lines(lines)]
    for at, limits in random.sample(fields, min(count, len(fields))):
        scale = random.choice(limits.scales)
        likely = [scale.least, scale.most, scale.example]
        new = random.choice([*likely * 9, f"9{scale.most}", "5 parsec", typed(random, limits)])
        items = _QUOTED.findall(lines[at])
        items[random.randrange(len(items))] = new.replace("\\", "").replace('"', "in").replace("\n", "\\n")
        name, _, held = lines[at].partition(" = ")
        value = ", ".join(f'"{each}"' for each in items)
        lines[at] = f"{name} = {value}" if held[0] == '"' else f"{name} = [{value}]"
    return "\n".join(lines)


def typed_lines(lines: list[str]) -> Iterator[tuple[int, Limits]]:
    """The lines that hold a typed value, each with its limits."""
    table = ""
    for at, line in enumerate(lines):
        if line.startswith("["):
            table = line.strip("[]") + "."
        name, _, value = line.partition(" = ")
        key = f"{table}{name}"
        limits = limits_at(Project, split(key)) or limits_at(Project, split(f"{key}.1"))
        if limits and value[:1] in ('"', "[") and _QUOTED.search(value):
            yield at, limits
