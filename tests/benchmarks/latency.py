"""From a key to what it shows, beside a bare Textual app at the same frame rate in the same run.

    python -m tests.benchmarks.latency
    python -m tests.benchmarks.latency --answers 400

Run it where the test extra is not installed. Both programs stand in pseudo-terminals of 120 by 40 at once and get
their keys in turn. The yardstick is a bare echo: from the bytes of a key to the bytes of the field and of the line
under it. Of the wizard's own: the same (key to echo); Enter until the answer is saved, the job planned anew and the
next question painted; and until the first changed figure is painted beside it too. Between the last key and Enter lies
the time a hand takes, in which the wizard may work ahead; `Enter at once` is without it. A session in this process
walks along and knows what has to be shown.
"""

from __future__ import annotations

import argparse
import os
import sys
import time
from collections import defaultdict
from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory

from tests.benchmarks.bare_app import READY
from tests.benchmarks.stood import DEMO, asked_of, copied, session_on
from tests.benchmarks.terminal import Terminal, percentile
from wizard.interview.outcome import Accepted
from wizard.interview.session import Session
from wizard.render.plan_rows import Row, rows
from wizard.screens.launch import FRAMES
from wizard.screens.panes.side_panel import LABEL
from wizard.trade.figures import value_at
from wizard.trade.formatting import exact
from wizard.trade.lengths import Length

BARE = (sys.executable, "-m", "tests.benchmarks.bare_app")
FIRST = "survey.section.left.run.1"
GOAL = 10
"""Milliseconds that a 99th percentile may be above the yardstick's."""
CLEAR = "\x15"
"""Ctrl+U: empties the field from the cursor back."""
ENTER = "\r"
PAUSE = 0.15
"""Seconds between the last key of an answer and Enter, as a hand takes them that looks at what it typed."""
Times = defaultdict[str, list[float]]


class Walk:
    """The wizard in its terminal, and a session beside it that gives the same answers."""

    def __init__(self, ours: Terminal, bare: Terminal, file: Path, mirror: Session, times: Times) -> None:
        self.ours, self.bare, self.file, self.mirror, self.times = ours, bare, file, mirror, times
        self.more = 0

    def answer(self) -> bool:
        """Answer the question in hand, measured if it wants a length; False where there is no next one."""
        question = self.mirror.current()
        value = value_at(self.mirror.plan.job, question.key) if question else None
        if question is None or not isinstance(value, Length) or question.kind != "length":
            return self._past()
        self.more = (self.more + 1) % 4
        text = exact(value + Length(Fraction(self.more * 2 - 3, 16)), "in").removesuffix(" in") + " in"
        echoes = [self.mirror.echo(question.key, text[:end], typing=True) for end in range(1, len(text) + 1)]
        outcome = self.mirror.answer(question.key, text)
        assert isinstance(outcome, Accepted), outcome
        self._type(text, [each if isinstance(each, str) else "" for each in echoes])
        self._enter(outcome)
        assert f'"{text}"'.encode() in self.file.read_bytes()
        return True

    def _past(self) -> bool:
        """Go past a question without an answer; a list worked out row by row, which says no words, ends the walk."""
        before = self.mirror.at
        following = self.mirror.current() if self.mirror.next() else None
        if following is None or following.live:
            return False
        self.ours.answered(ENTER, asked_of(following))
        self.ours.settle()
        return self.mirror.at != before

    def _type(self, text: str, echoes: Sequence[str]) -> None:
        """The text key by key, each key of ours beside one of the yardstick's."""
        self.ours.type(CLEAR)
        self.bare.type(CLEAR)
        for end, (echo, before) in enumerate(zip(echoes, ["", *echoes], strict=False), 1):
            typed = text[:end]
            for each in (self.bare, self.ours):
                each.settle()
            self.times["bare echo"].append(self.bare.answered(text[end - 1], f" {typed}", f"= {typed}"))
            # What is said already is not painted again.
            said = [f"= {echo}"] if echo and echo != before else []
            self.times["key to echo"].append(self.ours.answered(text[end - 1], typed, *said))

    def _enter(self, outcome: Accepted) -> None:
        """Enter, after a moment or at once; twice where the answer is asked about."""
        first = next((each for each in rows(self.mirror.plan, outcome.changed) if each.changed), None)
        figures = [_in_the_panel(first)] if first else []
        self.mirror.next()
        title = asked_of(self.mirror.current())
        if any(each.level != "note" for each in outcome.findings):
            self.ours.answered(ENTER, *figures)
            self.ours.settle()
            self.ours.answered(ENTER, title)
            return
        at_once = self.more == 0
        time.sleep(0 if at_once else PAUSE)
        asked, *told = self.ours.answered_each(ENTER, title, *figures)
        self.times["Enter at once" if at_once else "Enter to next"].append(asked)
        self.times["Enter to figures"] += [max(asked, each) for each in told]


def _in_the_panel(row: Row) -> str:
    """A line of the plan so far as far as it is never broken."""
    return f"  {row.label}".ljust(LABEL) + row.value.partition(",")[0]


def walked(source: Path, folder: Path, times: Times, count: int) -> None:
    """Walk through the survey until there are `count` answers, beginning again in a new program at its end."""
    while len(times["Enter to next"]) < count:
        file = copied(source, folder, FIRST)
        beside = folder / "mirror"
        beside.mkdir(exist_ok=True)
        mirror = session_on(copied(source, beside, FIRST))
        with Terminal((sys.executable, "-m", "wizard", str(file))) as ours, Terminal(BARE) as bare:
            ours.started(asked_of(mirror.current()))
            bare.started(READY)
            for each in (ours, bare):
                each.settle(0.5)
            walk = Walk(ours, bare, file, mirror, times)
            while len(times["Enter to next"]) < count and walk.answer():
                pass


def told(times: Times) -> None:
    """A line for each kind: median, 95th and 99th percentile, and how far the last is above the yardstick's."""
    bare = percentile(times["bare echo"], 0.99)
    print(
        f"milliseconds at {os.environ['TEXTUAL_FPS']} frames a second; the goal is {GOAL} above the yardstick at 99 %"
    )
    for name, each in times.items():
        middle, most, last = (1000 * value for value in (median(each), percentile(each, 0.95), percentile(each, 0.99)))
        above = last - 1000 * bare
        print(f"{name:<20}{len(each):5} times{middle:8.1f}{most:8.1f}{last:8.1f}   {above:+6.1f}")


def main() -> None:
    """Measure and print."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--answers", type=int, default=120)
    parser.add_argument("--file", type=Path, default=DEMO)
    options = parser.parse_args()
    os.environ.setdefault("TEXTUAL_FPS", FRAMES)
    times: Times = defaultdict(list)
    with TemporaryDirectory() as folder:
        walked(options.file, Path(folder), times, options.answers)
    told(times)


if __name__ == "__main__":
    main()
