"""Prints the lowest versions that pyproject.toml promises, as constraints for pip: `name==version`, one a line.

Needs no library, so that it can run before anything is installed:

    python3 -m tests.lowest_versions > lowest.txt && pip install --constraint lowest.txt '.[test]'
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from pathlib import Path

PYPROJECT = Path(__file__).parents[1] / "pyproject.toml"
REQUIREMENT = re.compile(r"([A-Za-z0-9._-]+)>=([0-9.]+)(?:,<[0-9.]+)?")
EXACT = re.compile(r"[A-Za-z0-9._-]+==[0-9.]+")


def lowest_versions(requirements: list[str]) -> Iterator[str]:
    """A constraint for each requirement with a lower bound; a pinned one needs none.

    Raises ValueError for a requirement that has neither, as its lowest version is unknown.
    """
    for each in requirements:
        if found := REQUIREMENT.fullmatch(each):
            yield f"{found[1]}=={found[2]}"
        elif not EXACT.fullmatch(each):
            raise ValueError(f"{each}: wants a lower bound, as in pint>=0.24,<1")


if __name__ == "__main__":
    project = tomllib.loads(PYPROJECT.read_text(encoding="utf-8"))["project"]
    listed = [*project["dependencies"], *project["optional-dependencies"]["test"]]
    print("\n".join(lowest_versions(listed)))
