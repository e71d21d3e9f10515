"""What comes with railskirt: the demo job and the standard template, installed or in a checkout."""

from __future__ import annotations

from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path


def shipped() -> tuple[Traversable, ...]:
    """The project files that come with railskirt, by name; empty only when the installation is broken."""
    return tuple(sorted((each for each in _folder().iterdir() if each.name.endswith(".toml")), key=lambda at: at.name))


def _folder() -> Traversable:
    inside = files("wizard") / "projects"
    # In a checkout the folder stands beside the package, at the top of the repository.
    return inside if inside.is_dir() else Path(__file__).parents[2] / "projects"


def demo() -> Traversable:
    """The demo job. LookupError when it is not there, with a sentence."""
    return _first("demo-")


def template(name: str) -> Traversable | None:
    """The template that came with railskirt under the file name `name`, its ending optional; None for none such."""
    wanted = (name, f"{name}.toml")
    return next((each for each in shipped() if each.name in wanted and "template" in each.name), None)


def _first(start: str) -> Traversable:
    found = next((each for each in shipped() if each.name.startswith(start)), None)
    if found is None:
        raise LookupError("The demo job did not come with this installation; install railskirt again.")
    return found
