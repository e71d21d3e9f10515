"""An answer worked out before it is given: while one still looks at what one has typed, there is time for it."""

from __future__ import annotations

from threading import Lock

from msgspec import Struct

from wizard.questions.standing import Standing, stand
from wizard.questions.understood import Understood, answer_at


class Foreseen(Struct, frozen=True):
    """An answer, and all that follows from it."""

    read: Understood
    standing: Standing
    """Where the job stands once it is given."""


class Foresight:
    """Holds the answer last worked out. `look` may run beside the screen."""

    def __init__(self) -> None:
        self._looking = Lock()
        self._asked: tuple[Standing, str, str] | None = None
        self._found: Foreseen | None = None

    def look(self, standing: Standing, key: str, text: str) -> None:
        """Work out what answering `text` at `key` leads to; nothing for what cannot be taken."""
        with self._looking:
            read = answer_at(key, text, standing)
            self._found = Foreseen(read, stand(read.draft, standing)) if isinstance(read, Understood) else None
            self._asked = (standing, key, text)

    def of(self, standing: Standing, key: str, text: str) -> Foreseen | None:
        """What `look` found for this very answer where the job still stands as it did; waits while it looks."""
        with self._looking:
            asked, found = self._asked, self._found
        same = asked is not None and asked[0] is standing and asked[1:] == (key, text)
        return found if same else None
