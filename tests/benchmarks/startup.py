"""From the start of the program to its first usable screen, beside a bare Textual app with the same kinds of widget.

    python -m tests.benchmarks.startup --runs 40 --file projects/demo-gannet-stair.toml --at survey.section.left.drop.2

Run it where the test extra is not installed. Both run in turn in a pseudo-terminal of 120 by 40, the same way: shown is
when the first question stands on the screen, usable when a key typed then is seen in the field.
"""

from __future__ import annotations

import sys
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from tests.benchmarks.bare_app import READY
from tests.benchmarks.options import options
from tests.benchmarks.stood import DEMO, DROP, asked_of, copied, session_on
from tests.benchmarks.terminal import Terminal, percentile

BARE = (sys.executable, "-m", "tests.benchmarks.bare_app")


def measured(argv: tuple[str, ...], shown: str) -> tuple[float, float]:
    """Seconds until `shown` is on the screen, and until a key typed then is."""
    with Terminal(argv) as terminal:
        first = terminal.started(shown)
        return first, first + terminal.answered("7", "7")


def told(name: str, times: list[tuple[float, float]], beside: list[tuple[float, float]]) -> None:
    """One line: medians, the slowest tenth, and how often the yardstick that ran beside it."""
    shown, usable = ([each[at] * 1000 for each in times] for at in (0, 1))
    ratios = [median(own[at] / other[at] for own, other in zip(times, beside, strict=True)) for at in (0, 1)]
    print(
        f"{name:<24} shown {median(shown):5.0f} ms ({percentile(shown, 0.9):5.0f})  {ratios[0]:4.2f} x"
        f"    usable {median(usable):5.0f} ms ({percentile(usable, 0.9):5.0f})  {ratios[1]:4.2f} x"
    )


def main() -> None:
    """Measure in turn and print."""
    asked = options(__doc__, runs=20, file=DEMO, at=DROP)
    with TemporaryDirectory() as folder:
        file = copied(asked.file, Path(folder), asked.at)
        title, ours = asked_of(session_on(file).current()), (sys.executable, "-m", "wizard", str(file))
        measured(BARE, READY), measured(ours, title)  # once, so that all is compiled and in the disk's memory
        pairs = [(measured(BARE, READY), measured(ours, title)) for _ in range(asked.runs)]
    bare = [each[0] for each in pairs]
    print(f"medians of {asked.runs} runs in turn, milliseconds (and what nine in ten stay below)")
    told("bare Textual app", bare, bare)
    told("railskirt FILE", [each[1] for each in pairs], bare)


if __name__ == "__main__":
    main()
