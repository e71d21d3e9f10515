"""A record of what the program makes of many jobs: what has changed is then known, and nothing changes unseen.

    python -m tests.record.plans                    compare with the record
    python -m tests.record.plans --out FOLDER       write each output into FOLDER, to compare two checkouts
    python -m tests.record.plans --renew            keep what there is now as the record, after looking at it
    python -m tests.record.plans --renew --named    the same for the named jobs alone: enough where only words changed

For each named job: its JSON, the figures in that JSON (without wording), and its text sheets. For each of 2,000 random
jobs: its figures. The record keeps a short digest of each. A change of words leaves every digest of figures as it is:
numbers, ids and their order are then proven the same.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import sys
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path
from typing import Any

from tests.render.jobs import named_jobs, project_of, random_job
from wizard.project.plan_of_project import plan_of
from wizard.render.formats import Request, render
from wizard.render.sheet_names import TITLES

FILE = Path(__file__).parent / "record.json"
RANDOM_JOBS = 2000
DATE = "2026-03-02"
WORDING = {
    *("among", "amount", "formula", "fullness_finds", "lines", "listed", "look", "note", "reason", "result", "rule"),
    *("sentence", "sentences", "settings", "source", "title", "tools", "values", "way_out", "what", "words"),
}
"""Keys of the JSON that hold sentences for people; `values` are a formula's, each of which is a figure of its own."""
NEW = {
    "work": {"measure", "try"},
    "findings": {
        "floor-slopes",
        "nothing-spare",
        "lots-missing",
        "repeat-unread",
        "return-fixing",
        "edge-outside",
        "fixing-paint",
        "fixing-antique",
    },
}
"""Kinds of entries, by the beginning of their ids, that are in the JSON since the record was made, or in another place:
they stand outside the comparison of figures."""

Record = dict[str, dict[str, str]]
"""Job -> output -> digest."""


def outputs(name: str) -> dict[str, str]:
    """All that is recorded of one job. A random job's name is its seed."""
    if name.isdigit():
        return {"figures": figures(json_of(random_job(int(name))))}
    text = named_jobs()[name]
    made = json_of(text)
    sheets = render(plan_of(project_of(text)), Request("text", tuple(TITLES), DATE, 80))
    return {"figures": figures(made), "json": made, "sheets": sheets}


def json_of(job: str) -> str:
    """The plan of a project file as JSON."""
    return render(plan_of(project_of(job)), Request("json", None, DATE))


def figures(made: str) -> str:
    """The JSON without what is worded."""
    return json.dumps(_without_wording(_without_new(json.loads(made))), ensure_ascii=False, indent=1) + "\n"


def _without_new(plan: dict[str, Any]) -> dict[str, Any]:
    """The plan without the kinds of steps and findings that were added since."""
    kept = {part: [each for each in plan[part] if each["id"].partition(":")[0] not in new] for part, new in NEW.items()}
    return plan | kept


def _without_wording(value: Any) -> Any:
    if isinstance(value, dict):
        kept = {key: each for key, each in value.items() if key not in WORDING}
        # What has changed since a step was ticked is said in sentences; of the plan, by the ids of such steps.
        return {key: len(each) if _says(key, each) else _without_wording(each) for key, each in kept.items()}
    return [_without_wording(each) for each in value] if isinstance(value, list) else value


def _says(key: str, value: Any) -> bool:
    return key == "changed" and all(isinstance(each, str) for each in value)


def digests(name: str) -> dict[str, str]:
    """A short digest of each output of one job."""
    return {output: hashlib.sha256(text.encode()).hexdigest()[:12] for output, text in outputs(name).items()}


def all_jobs(random_jobs: int = RANDOM_JOBS) -> list[str]:
    """The names of all jobs of the record."""
    return [*named_jobs(), *map(str, range(random_jobs))]


def kept() -> Record:
    """The record as it is kept."""
    record: Record = json.loads(FILE.read_text(encoding="utf-8"))
    return record


def changes(fresh: Record, record: Record) -> Iterator[str]:
    """A line for each job whose outputs are not those of the record."""
    for name, found in fresh.items():
        changed = [output for output, digest in found.items() if record.get(name, {}).get(output) != digest]
        if changed:
            yield f"{name}: {', '.join(changed)}"


def compared(random_jobs: int = RANDOM_JOBS) -> Record:
    """What there is now of all jobs."""
    names = all_jobs(random_jobs)
    with ProcessPoolExecutor() as pool:
        return dict(zip(names, pool.map(digests, names, chunksize=20), strict=True))


def write_out(folder: Path) -> None:
    """Each output of each job into a folder."""
    folder.mkdir(parents=True, exist_ok=True)
    names = all_jobs()
    with ProcessPoolExecutor() as pool:
        for name, made in zip(names, pool.map(outputs, names, chunksize=20), strict=True):
            for output, text in made.items():
                (folder / f"{name}.{output}").write_text(text, encoding="utf-8")


def main() -> int:
    """Compare, write or renew; 1 when something has changed."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--renew", action="store_true")
    parser.add_argument("--named", action="store_true")
    parser.add_argument("--out", type=Path)
    chosen = parser.parse_args()
    if chosen.out:
        write_out(chosen.out)
        return 0
    fresh = compared(0 if chosen.named else RANDOM_JOBS)
    if chosen.renew:
        FILE.write_text(json.dumps(kept() | fresh, indent=0) + "\n", encoding="utf-8")
        return 0
    found = list(changes(fresh, kept()))
    print("\n".join(found) or f"All {len(fresh)} jobs as recorded.")
    return int(bool(found))


if __name__ == "__main__":
    sys.exit(main())
