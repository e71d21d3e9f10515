"""Answers that mean nothing without another, and are taken out with it."""

from __future__ import annotations

from collections.abc import Mapping

from wizard.questions.adding import Entries


def taken_together(entries: Entries) -> Entries:
    """Where a stretch of damage no longer begins there is none, so its end goes too and is not asked about."""
    begins = [key for key, value in entries.items() if value is None and key.endswith(".damage_from")]
    ends: Mapping[str, object] = {key.removesuffix("from") + "to": None for key in begins}
    return {**entries, **ends}
