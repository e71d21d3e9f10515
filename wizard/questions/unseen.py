"""What answers upset elsewhere and was not looked at since: in sight until one stands there, or it waits no more."""

from __future__ import annotations

from collections.abc import Iterable

from wizard.questions.changes import is_upset, met_by_nothing
from wizard.questions.outcome import Upset
from wizard.questions.standing import Standing
from wizard.questions.work import PLACE


class Unseen:
    """Places that were upset."""

    def __init__(self, here: Standing) -> None:
        """What was upset before the wizard was opened counts as not looked at."""
        self._places = {PLACE + each for each in here.stale}

    def note(self, upset: Upset, here: Standing) -> None:
        """A change was made."""
        self._places |= set(met_by_nothing(upset, here))

    def look(self, place: str) -> None:
        """One stands there now."""
        self._places.discard(place)

    def places(self, here: Standing) -> tuple[str, ...]:
        """Those that still wait, in order."""
        if not self._places:
            return ()
        stale = frozenset(here.stale)
        return tuple(_waiting(here, self._places, stale))


def _waiting(here: Standing, places: set[str], stale: frozenset[str]) -> Iterable[str]:
    return (each for each in here.places if each in places and is_upset(each, here, stale))
