"""The file behind a session: saving, comments written by hand, another hand in it, and text typed but not entered."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Final

from wizard.interview.answer_text import answer_of
from wizard.interview.job_state import JobState
from wizard.interview.outcome import Conflict
from wizard.project.problems import Problems
from wizard.project.project import Project
from wizard.project.store import Opened, Store, Text, Unentered

COMMENTS: Final = (
    "The file has comments written by hand. Saving an answer removes them. "
    "A copy of the file as it is now is kept beside it, with .before at the end of its name."
)
"""What is said before the first answer to a file that has such comments."""
Clock = Callable[[], datetime]
"""Gives the time now, with its zone."""


def clock() -> datetime:
    """Now, universal time."""
    return datetime.now(UTC)


class FileState:
    """Saves one job, and remembers what came of it."""

    def __init__(self, store: Store, clock: Clock, *, comments: bool) -> None:
        self._store = store
        self.now = clock
        """The time by the clock of this session."""
        self.comments = comments
        """True until the first save while the file has comments written by hand, which saving takes out. The file is
        copied first; say so before the first answer."""
        self.saved_at: datetime | None = None
        """When the last change was saved; None before the first."""
        self.conflict: Conflict | None = None
        """Why the last change is not saved; None when all is."""
        self.held_back: tuple[Project, str] | None = None
        """The change that could not be saved, and the place it was made at."""
        self._remarks: list[str] = []
        self._told: set[str] = set()
        self.kept: Path | None = None
        """Path of the copy of the file that another hand changed, or that had comments."""

    def save(self, project: Project, at: str) -> Conflict | None:
        """Save a change made at a place; when that cannot be, hold it back and say why."""
        kept = self._store.keep_original() if self.comments else self.kept
        saved = kept if isinstance(kept, Conflict) else self._store.save(project)
        if not isinstance(kept, Conflict):
            self.kept = kept
        if isinstance(saved, Conflict):
            self.held_back, self.conflict = (project, at), saved
            return saved
        self.saved_at, self.conflict, self.held_back, self.comments = self.now(), None, None, False
        self._remarks += [each for each in saved.remarks if each not in self._told]
        self._told.update(saved.remarks)
        return None

    def save_over(self) -> Conflict | None:
        """Save what was held back over what the other hand wrote; `kept` is the path of a copy of that."""
        if self.held_back is None:
            return None
        aside = self._store.set_aside()
        if isinstance(aside, Conflict):
            self.conflict = aside
            return aside
        self.kept = aside
        return self.save(*self.held_back)

    def read_again(self) -> Opened | Problems:
        """What is in the file now; what was held back is let go."""
        opened = self._store.open()
        if isinstance(opened, Opened):
            self.held_back, self.conflict, self.comments = None, None, opened.has_comments
        return opened

    def remarks(self) -> tuple[str, ...]:
        """What to know about the file although it was saved; each is given once."""
        told, self._remarks = tuple(self._remarks), []
        return told


PICKED = ("choice", "choices", "yes-no")
"""Kinds of question answered from a list: the line the cursor is on was not typed."""


class Pending(dict[str, str]):
    """Text by the key of its question. Never in the project file; `keep` has it outlast the program."""

    def __init__(self, store: Store) -> None:
        super().__init__()
        self._store = store
        self._kept: Unentered | None = None
        self.offered: set[str] = set()
        """Keys of the texts that were left at the last opening, and not typed at since."""

    def type(self, key: str, text: str, here: JobState) -> None:
        """Have `text` in the field of a question. Empty, or the answer itself, is nothing to keep."""
        self.offered.discard(key)
        if text in ("", text_at(key, here)):
            self.pop(key, None)
        else:
            self[key] = text

    def offer(self, here: JobState) -> str | None:
        """Take up what was left when the project was last open, where its question is still asked and has the same
        answer. Gives the question that was being typed in; None for none of these."""
        left = self._kept = self._store.unentered()
        for key, text in left.texts.items():
            fits = key in here.by_key and text_at(key, here) == text.answer
            if fits and text.typed.isprintable():
                self[key] = text.typed
                self.offered.add(key)
        return left.at if left.at in self else None

    def keep(self, here: JobState, at: str) -> bool:
        """Keep what is typed beside the project, for the next opening; False when that fails. `at`: the question one
        stands at."""
        typed = {each.key for each in here.questions if each.kind not in PICKED}
        texts = {key: Text(text, text_at(key, here)) for key, text in self.items() if key in typed}
        now = Unentered(at if at in texts else "", texts)
        if now != self._kept:
            try:
                self._store.keep_unentered(now)
            except OSError:
                return False
            self._kept = now
        return True

    def words(self, here: JobState, at: str) -> str:
        """What was typed and not entered when the project was last open, in a sentence; empty for nothing."""
        key = at if at in self else next((each for each in self if each in here.by_key), "")
        if not key:
            return ""
        where = "here" if key == at else f"at “{here.by_key[key].title}”"
        return f"Typed {where} but not entered: {self[key]}"

    def left(self, at: str) -> str:
        """What becomes of the text at a place when one leaves, in a sentence; empty where there is none."""
        if at not in self:
            return ""
        kept = self._kept.texts.get(at) if self._kept else None
        if kept and kept.typed == self[at]:
            return f"Not entered yet: {self[at]}. It is offered again when you open the project."
        return f"Not entered, and lost when you leave: {self[at]}"


def text_at(key: str, here: JobState) -> str:
    """The answer at a key; empty for none."""
    question = here.by_key.get(key)
    return (answer_of(question, here.given) if question else here.given.get(key)) or ""
