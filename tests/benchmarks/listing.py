"""The list of a folder of projects beside `tomllib` over the same files, in the same run.

    python -m tests.benchmarks.listing --files 10000 --seed 0

Jobs of every kind, a tenth of them half filled. Told are: reading and parsing the files alone; `railskirt list` through
a pipe, its first row and all of them; and the list screen, its first row, a key answered while it still reads, and the
last row. Ends with status 1 where the list takes more than four times as long as the parser, or the first row more than
a second.
"""

from __future__ import annotations

import asyncio
import os
import subprocess
import sys
import time
import tomllib
from pathlib import Path
from tempfile import TemporaryDirectory

from textual import events
from textual.widgets import OptionList

from tests.benchmarks.options import options
from tests.render.jobs import random_job
from wizard.screens.app import SkirtApp

MOST = 4
"""Times as long as the parser."""
FIRST = 1.0
"""Seconds to the first row."""


def random_files(folder: Path, count: int, seed: int) -> list[Path]:
    """So many project files."""
    files = [folder / f"job-{number:05}.toml" for number in range(count)]
    for number, file in enumerate(files):
        text = random_job(seed + number)
        file.write_text(text if number % 10 else text.partition("[cloth.face]")[0], encoding="utf-8")
    return files


def parsed(files: list[Path]) -> float:
    """Seconds of the processor for reading and parsing them."""
    began = time.process_time()
    for file in files:
        tomllib.loads(file.read_text(encoding="utf-8"))
    return time.process_time() - began


def listed(folder: Path) -> tuple[float, float, int]:
    """Seconds to the first row, those of the processor for all, the start of the interpreter among them; the rows."""
    began, before = time.perf_counter(), os.times()
    command = [sys.executable, "-m", "wizard", "list", str(folder)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as process:
        assert process.stdout is not None
        process.stdout.readline()
        first = time.perf_counter() - began
        rows = 1 + sum(not line.startswith(" ") for line in process.stdout)
    assert process.returncode == 0
    after = os.times()
    used = after.children_user - before.children_user + after.children_system - before.children_system
    return first, used, rows


async def on_the_screen(folder: Path, count: int) -> tuple[float, float, float]:
    """Seconds to the first row of the screen, from a key to the next line in hand, and of the processor for all."""
    began, before = time.perf_counter(), time.process_time()
    app = SkirtApp(folder)
    async with app.run_test(size=(100, 30)):
        lines = app.screen.query_one("#projects", OptionList)
        while not lines.option_count:
            await asyncio.sleep(0.005)
        first, pressed = time.perf_counter() - began, time.perf_counter()
        app.post_message(events.Key("down", None))
        while lines.highlighted != 1:
            await asyncio.sleep(0.005)
        key = time.perf_counter() - pressed
        while lines.option_count < count:
            await asyncio.sleep(0.01)
        return first, key, time.process_time() - before


def main() -> int:
    asked = options(__doc__, files=10_000, seed=0)
    with TemporaryDirectory() as name:
        folder = Path(name)
        files = random_files(folder, asked.files, asked.seed)
        parsed(files[:100])
        alone = parsed(files)
        first, whole, rows = listed(folder)
        assert rows == asked.files
        alone = (alone + parsed(files)) / 2
        shown, key, last = asyncio.run(on_the_screen(folder, asked.files))
    print(f"tomllib over {asked.files} files: {alone:.2f} s, {alone / asked.files * 1000:.2f} ms a file")
    print(f"railskirt list: first row {first:.2f} s, all {whole:.2f} s, {whole / alone:.2f} x tomllib")
    print(f"list screen: first row {shown:.2f} s, a key {key * 1000:.0f} ms, all {last:.2f} s, {last / alone:.2f} x")
    return 0 if whole <= MOST * alone and max(first, shown) <= FIRST else 1


if __name__ == "__main__":
    sys.exit(main())
