"""A save that is killed at any moment leaves a whole file."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from wizard.project.draft import Draft
from wizard.project.store import Opened, Store

KILLS = 20

SCRIPT = """
import os, random, signal, sys, time
from pathlib import Path
from wizard.project.draft import Draft
from wizard.project.hand_marks import unmarked
from wizard.project.reading import read
from wizard.project.store import Held, Opened, Store

path, kills = Path(sys.argv[1]), int(sys.argv[2])
drafts = [Draft(name="a" * 200), Draft(name="b" * 100)]
assert isinstance(Store(path).save(drafts[0]), Held)

def save_for_ever(pipe):
    store = Store(path)
    assert isinstance(store.open(), Opened)
    while True:
        for draft in reversed(drafts):
            assert isinstance(store.save(draft), Held)
            os.write(pipe, b".")

for _ in range(kills):
    reading, writing = os.pipe()
    child = os.fork()
    if not child:
        save_for_ever(writing)
    for _ in range(random.randint(1, 6)):
        os.read(reading, 1)
    time.sleep(random.uniform(0, 0.004))
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)
    os.close(reading), os.close(writing)
    for each in (path, path.with_name(f".{path.name}.last")):
        assert unmarked(read(each.read_bytes())) in drafts, each.read_bytes()
    print("whole", flush=True)
"""


@pytest.mark.skipif(not hasattr(os, "fork"), reason="needs a system that can fork")
def test_a_file_reads_whole_after_every_kill(tmp_path: Path) -> None:
    path = tmp_path / "juniper.toml"
    command = [sys.executable, "-c", SCRIPT, str(path), str(KILLS)]
    done = subprocess.run(command, capture_output=True, text=True, check=False, cwd=Path(__file__).parents[2])
    assert (done.stdout.split(), done.stderr) == (["whole"] * KILLS, "")
    assert isinstance(Store(path).open(), Opened)
    assert Store(path).open() != Opened(Draft(), has_comments=False)
