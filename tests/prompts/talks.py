"""Scripts for the plain mode, and jobs for it to be tried on."""

from __future__ import annotations

import io
import re
from collections.abc import Callable, Mapping
from pathlib import Path

from tests.interview.maker import MEASURED, begun, give, left_at
from wizard.interview.session import Session
from wizard.project.project import Project, put
from wizard.prompts.console import Console
from wizard.prompts.project_list import run

NAME = "Juniper loft"
FILE = "juniper-loft.toml"
RUN = "survey.section.left.run.1"
GOES_ON = ""
"""The line that goes on where an answer made something look wrong."""


class Script(io.StringIO):
    """Lines to be read, some of which do something first."""

    def __init__(self, *lines: str | Callable[[], object]) -> None:
        super().__init__()
        self.left = list(lines)

    def readline(self, size: int | None = -1) -> str:  # type: ignore[override]
        """The next line, after what comes before it is done."""
        while self.left and not isinstance(self.left[0], str):
            deed = self.left.pop(0)
            assert not isinstance(deed, str)
            deed()
        return f"{self.left.pop(0)}\n" if self.left else ""


def told(folder: Path, *lines: str) -> str:
    """What the plain mode says in `folder` to these lines, which end there."""
    target = io.StringIO()
    assert run(folder, Console(Script(*lines), target))
    return target.getvalue()


def told_of(path: Path, *lines: str | Callable[[], object]) -> str:
    """What it says of the job in `path` to a script in which something else may happen in between."""
    target = io.StringIO()
    assert run(path, Console(Script(*lines), target))
    return target.getvalue()


def another_hand(path: Path) -> Callable[[], object]:
    """Somebody else changes the file."""
    return lambda: path.write_text(path.read_text(encoding="utf-8").replace(NAME, "Rowan room"), encoding="utf-8")


def answered(folder: Path, script: Mapping[str, str]) -> tuple[Session, list[str]]:
    """A job answered through the session itself, and the lines that answer so: first from page to page, then what is
    behind *More*, wherever it is."""
    session, left, lines = begun(folder, put(Project(), "name", NAME)), dict(script), [f"new {NAME}"]
    left.pop("name")
    while left or session.current():
        while (question := session.current()) is not None:
            lines += _line(session, question.key, left.pop(question.key, ""))
            if not session.next():
                break
        behind = next((key for key in left if session.question(key)), None)
        if behind is None:
            break
        session.go(behind)
        lines.append(f".go {behind}")
    assert not left, f"never asked: {sorted(left)}"
    return session, lines


def _line(session: Session, key: str, text: str) -> list[str]:
    """One answer given, and the lines that give it; an answer that is there is kept by an empty line."""
    if not text and session.state(key) == "answered":
        return [""]
    return [text, *([GOES_ON] if give(session, key, text).asks else [])]


def worked(folder: Path, script: Mapping[str, str] = MEASURED) -> tuple[bytes, list[str]]:
    """The file of a job answered and ticked to the last step through the session itself, and the lines that do so."""
    session, lines = answered(folder, script)
    lines.append(".work")
    for step in session.plan.work:
        assert session.go(f"work.{step.id}")
        assert session.tick(step.id) is None
        lines.append("done")
    session.leave()
    return (folder / "job.toml").read_bytes(), lines


def without_times(data: bytes) -> str:
    """A project file with the times of its ticks left out, and the mark that they go into."""
    return re.sub(r"(?m)\bwork=[0-9a-f]+", "work=then", re.sub(r"(?m)^done = .*$", "done = then", data.decode()))


def job_at(folder: Path, until: str = "", script: Mapping[str, str] = MEASURED) -> Path:
    """The file of a job that stands at the question `until`, else at its first step."""
    (folder / "job.toml").write_bytes(left_at(script, until))
    return folder / "job.toml"
