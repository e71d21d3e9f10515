"""Whether an answer is said back while it is typed.

Units that are not our own are looked up in a library that takes a second to load: a half-typed `in` must not wait
for it. They are said back once it is loaded, and by Enter, which loads it.
"""

from __future__ import annotations

import re
import sys
from typing import Final

from wizard.project.typed.unit_words import WORDS
from wizard.questions.question import Question

LIBRARY: Final = "pint"
_WORD: Final = re.compile(r"[^\W\d_]+")


def at_once(question: Question, text: str) -> bool:
    """True when `text` can be said back without loading anything; never for nothing."""
    if not text.strip():
        return False
    if not question.kind.startswith("length") or LIBRARY in sys.modules:
        return True
    return all(word.lower() in WORDS for word in _WORD.findall(text))
