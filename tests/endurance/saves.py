"""Several processes save into one project at once: every save that was reported as held is there, each on top of the
one before.

    python -m tests.endurance.saves --saves 10000 --processes 3 --seed 0

Every process reads the project, writes a value of its own and tries again until that is held; now and then it goes on
from what it wrote last, as a wizard does that stays open. Each save that is held is written down with the value it was
made on. At the end the saves must form one chain: none is missing, and none was made on a value that another had
replaced. Before that the processes begin new projects, all under the same name at once: exactly one may succeed.
Prints the figures; the status is 1 where one is wrong. The same seed makes the same pauses.
"""

from __future__ import annotations

import sys
import time
from collections import Counter
from collections.abc import Sequence
from multiprocessing import get_context
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import Any

from tests.benchmarks.options import options
from wizard.project.project import Project
from wizard.project.store import Held, NotSaved, Opened, Store

FIRST = "the first value"
PAUSE = 0.002
"""Seconds at most between reading and writing."""
FORK = get_context("fork")


def save_until_held(path: Path, name: str, saves: int, random: Random) -> tuple[list[tuple[str, str]], int]:
    """Each save that was held, as (the value it was made on, its value); and how often another was first."""
    held: list[tuple[str, str]] = []
    refused = 0
    store, seen = opened(path)
    while len(held) < saves:
        if random.random() < 0.5:
            time.sleep(random.uniform(0, PAUSE))
        value = f"{name} {len(held) + 1}"
        outcome = store.save(Project(name=value))
        if isinstance(outcome, Held):
            held.append((seen, value))
            seen = value
        elif isinstance(outcome, NotSaved) and outcome.by_hand:
            refused += 1
        else:
            raise AssertionError(outcome.sentence)
        if (isinstance(outcome, NotSaved) and outcome.by_hand) or random.random() < 0.5:
            store, seen = opened(path)
    return held, refused


def opened(path: Path) -> tuple[Store, str]:
    """The project as it is now, and its value."""
    store = Store(path)
    read = store.open()
    assert isinstance(read, Opened), read
    return store, read.project.name or ""


def work(folder: Path, number: int, rounds: int, saves: int, seed: int, barrier: Any, done: Any) -> None:
    """One process: begins every project of `rounds` at once with the others, then saves."""
    name, begun = f"writer-{number}", list[bool]()
    for each in range(rounds):
        barrier.wait()
        begun.append(isinstance(Store(folder / f"new-{each}.toml").save(Project(name=name)), Held))
    barrier.wait()
    done.put((name, begun, *save_until_held(folder / "job.toml", name, saves, Random(f"{seed}/{number}"))))


def in_chain(held: Sequence[tuple[str, str]]) -> list[str]:
    """The values from the first on, each made on the one before; shorter than `held` where one was lost."""
    after = dict(held)
    chain = [FIRST]
    while chain[-1] in after:
        chain.append(after.pop(chain[-1]))
    return chain[1:]


def shared(folder: Path, saves: int, processes: int, seed: int) -> bool:
    """Save and begin as said above, and print what came of it; True when all is right."""
    job, rounds = folder / "job.toml", max(saves // 50, 1)
    assert isinstance(Store(job).save(Project(name=FIRST)), Held)
    shares = [saves // processes + (each < saves % processes) for each in range(processes)]
    barrier, done, start = FORK.Barrier(processes), FORK.Queue(), time.monotonic()
    workers = [
        FORK.Process(target=work, args=(folder, each, rounds, share, seed, barrier, done))
        for each, share in enumerate(shares)
    ]
    for each in workers:
        each.start()
    results = [done.get() for _ in workers]
    for each in workers:
        each.join()
    held = [pair for _, _, pairs, _ in results for pair in pairs]
    chain = in_chain(held)
    winners = [[name for name, begun, *_ in results if begun[each]] for each in range(rounds)]
    wrong = sum(won != [opened(folder / f"new-{each}.toml")[1]] for each, won in enumerate(winners))
    twice = sum(count - 1 for count in Counter(before for before, _ in held).values())
    litter = [each.name for each in folder.iterdir() if each.name.endswith(".new")]
    last = opened(job)[1]
    print(
        f"{len(held)} saves held by {processes} processes in {time.monotonic() - start:.0f} s, "
        f"after {sum(refused for *_, refused in results)} that another was first at; "
        f"{len(chain)} in one chain, {twice} made on a value already replaced; "
        f"{rounds} projects begun at once, {wrong} not by exactly one; {len(litter)} files left over"
    )
    return len(held) == len(chain) == saves and chain[-1] == last and not twice and not wrong and not litter


if __name__ == "__main__":
    asked = options(__doc__, saves=10_000, processes=3, seed=0)
    with TemporaryDirectory() as name:
        sys.exit(0 if shared(Path(name), asked.saves, asked.processes, asked.seed) else 1)
