"""What was typed into questions and is not an answer yet."""

from __future__ import annotations

from wizard.project.store import Store
from wizard.project.unentered import Text, Unentered
from wizard.questions.standing import Standing

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

    def type(self, key: str, text: str, here: Standing) -> None:
        """Have `text` in the field of a question. Empty, or the answer itself, is nothing to keep."""
        self.offered.discard(key)
        if text == here.given.get(key, ""):
            self.pop(key, None)
        else:
            self[key] = text

    def offer(self, here: Standing) -> str | None:
        """Take up what was left when the project was last open, where its question is still asked and has the same
        answer. Gives the question that was being typed in; None for none of these."""
        left = self._kept = self._store.unentered()
        for key, text in left.texts.items():
            fits = key in here.by_key and here.given.get(key, "") == text.answer
            if fits and text.typed.isprintable():
                self[key] = text.typed
                self.offered.add(key)
        return left.at if left.at in self else None

    def keep(self, here: Standing, at: str) -> bool:
        """Keep what is typed beside the project, for the next opening; False when that fails. `at`: the question one
        stands at."""
        texts = {key: Text(text, here.given.get(key, "")) for key, text in self.items() if _typed(here, key)}
        now = Unentered(at if at in texts else "", texts)
        if now != self._kept:
            try:
                self._store.keep_unentered(now)
            except OSError:
                return False
            self._kept = now
        return True

    def words(self, here: Standing, at: str) -> str:
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


def _typed(here: Standing, key: str) -> bool:
    question = here.by_key.get(key)
    return question is not None and question.kind not in PICKED
