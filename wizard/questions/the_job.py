"""Questions about the job as a whole."""

from __future__ import annotations

from typing import Final

from wizard.questions import choices
from wizard.questions.asking import Ask, yes

THE_JOB: Final = (
    Ask(
        "name",
        "What is this job to be called?",
        "Any name that you will know it by; it stands on the sheets.",
        "text",
        example="Juniper loft",
    ),
    Ask(
        "standard",
        "Do you work in inches or in metric?",
        "It sets the usual allowances that are offered from here on. Lengths may be typed in any unit all the same.",
        "choice",
        choices=choices.STANDARDS,
        usual=lambda about: "inches",
        stands=yes,
    ),
    Ask(
        "show",
        "In which unit are lengths shown?",
        "A number typed without a unit is taken in this one too.",
        "choice",
        choices=choices.UNITS,
    ),
    Ask(
        "ruler",
        "What is the finest mark on your ruler that you go by?",
        "Cuts are rounded up to this mark, places to the nearest. A coarser mark is quicker to work with.",
        "length",
        quiet=yes,
    ),
    Ask(
        "currency",
        "What stands before a sum of money?",
        "A sign or a short word, or nothing.",
        "text",
        optional=yes,
        quiet=yes,
        example="$",
    ),
)
