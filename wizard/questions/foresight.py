"""An answer worked out before it is given: while one still looks at what one has typed, there is time for it."""

from __future__ import annotations

from threading import Lock

from msgspec import Struct

from wizard.questions.places import leads_to
from wizard.questions.question import Question
from wizard.questions.standing import Standing, stand
from wizard.questions.understood import Understood, answer_at


class Foreseen(Struct, frozen=True):
    """An answer, and all that follows from it."""

    read: Understood
    standing: Standing
    """Where the job stands once it is given."""
    ahead: Question | None
    """The question it leads to; None where it leads to a step, or nowhere."""


class Asked(Struct, frozen=True, eq=False):
    """An answer to be worked out."""

    standing: Standing
    key: str
    text: str

    def same(self, standing: Standing, key: str, text: str) -> bool:
        """True for the same answer to the job as it stood then."""
        return self.standing is standing and (self.key, self.text) == (key, text)


class Foresight:
    """Holds the answer last worked out. `look` may run beside the screen."""

    def __init__(self) -> None:
        self._looking = Lock()
        self._wanted: Asked | None = None
        """What was asked for last, whether it is found yet or not."""
        self._found: tuple[Asked, Foreseen | None] | None = None

    def look(self, standing: Standing, key: str, text: str) -> Foreseen | None:
        """Work out what answering `text` at `key` leads to, unless something else is asked for meanwhile."""
        asked = self._wanted = Asked(standing, key, text)
        with self._looking:
            if self._wanted is not asked:
                return None
            read = answer_at(key, text, standing)
            found = _seen(read, key, standing) if isinstance(read, Understood) else None
            self._found = asked, found
            return found

    def of(self, standing: Standing, key: str, text: str) -> Foreseen | None:
        """What `look` found for this very answer where the job still stands as it did; waits while it looks."""
        if self._wanted is None or not self._wanted.same(standing, key, text):
            return None
        with self._looking:
            found = self._found
        return found[1] if found and found[0].same(standing, key, text) else None


def _seen(read: Understood, key: str, before: Standing) -> Foreseen:
    after = stand(read.draft, before)
    leads = leads_to(read.entries, key, after.places, after.skip)
    return Foreseen(read, after, after.by_key.get(leads or ""))
