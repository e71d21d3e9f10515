"""What comes with railskirt: the demo job and the standard template, installed or in a checkout."""

from __future__ import annotations

from importlib.resources import files
from importlib.resources.abc import Traversable
from pathlib import Path


def shipped() -> tuple[Traversable, ...]:
    """The project files that come with railskirt, by name; empty only when the installation is broken."""
    folder = _folder()
    if not folder.is_dir():
        return ()
    return tuple(sorted((each for each in folder.iterdir() if each.name.endswith(".toml")), key=lambda at: at.name))


def _folder() -> Traversable:
    inside = files("wizard") / "projects"
    # In a checkout the folder stands beside the package, at the top of the repository.
    return inside if inside.is_dir() else Path(__file__).parents[2] / "projects"


def demo() -> Traversable | None:
    """The demo job, or None when the installation is broken."""
    return next((each for each in shipped() if each.name.startswith("demo-")), None)


def template(name: str) -> Traversable | None:
    """The template that came with railskirt under the file name `name`, its ending optional; None for none such."""
    wanted = (name, f"{name}.toml")
    return next((each for each in shipped() if each.name in wanted and "template" in each.name), None)
