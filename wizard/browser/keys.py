"""The key in the link that opens the wizard: made at random, used once, then a session stands for it."""

from __future__ import annotations

import secrets
from typing import Final

_LETTERS: Final = "abcdefghjkmnpqrstuvwxyz23456789"
"""What a key is made of: no letter that is taken for another one, since a person may have to type it on a tablet."""
_GROUPS: Final = 5
_IN_A_GROUP: Final = 4
"""Twenty letters of 31, or 99 bits: no number of guesses gets near it."""


class OneTimeKey:
    """One key and the one session that it opens."""

    def __init__(self) -> None:
        self.text: Final = "-".join(_group() for _ in range(_GROUPS))
        """As it stands in the link: `k7mw-3xqa-9hvt-2pzc-d6rf`."""
        self._session: Final = secrets.token_urlsafe(32)
        self._spent = False

    def spend(self, typed: str) -> str | None:
        """The session's secret when `typed` is the key and nobody used it before, else None.

        Capital letters and missing hyphens are forgiven. Takes as long for a wrong key as for a right one.
        """
        right = secrets.compare_digest(_bare(typed), _bare(self.text))
        if not right or self._spent:
            return None
        self._spent = True
        return self._session

    def opened(self, secret: str) -> bool:
        """True when the key was used and `secret` is its session's. A wrong one takes as long as a right one."""
        return secrets.compare_digest(secret.encode("utf-8", "replace"), self._session.encode()) and self._spent


def _group() -> str:
    return "".join(secrets.choice(_LETTERS) for _ in range(_IN_A_GROUP))


def _bare(key: str) -> bytes:
    return key.replace("-", "").strip().lower().encode("utf-8", "replace")
