"""Questions about how full the skirt is, and how its widths are joined."""

from __future__ import annotations

from typing import Final

from wizard.questions import choices
from wizard.questions.asking import About, Ask, no
from wizard.trade.job import Weight

GUIDE: Final[dict[Weight, str]] = {"sheer": "3", "light": "2.5", "medium": "2.5", "heavy": "2"}
"""Offered by the weight of the face. Common practice; a guide, never a wall."""

GUIDE_IN_WORDS: Final = (
    "How much wider the cloth is, laid flat, than the run it hangs along. Heavy cloth 2, medium 2 to 2.5, light 2.5"
    " to 3,"
    " sheer 3; 2 when it is interlined or lined and thick. Below 1.5 looks mean, above 3 it hardly gathers."
)


def _offered(about: About) -> str:
    """By the weight of the face; two for a thick skirt in several layers."""
    weight: Weight = about.value("cloth.face.weight") or "medium"
    layered = about.holds_at("cloth.interlining.use") or about.holds_at("cloth.lining.use")
    return "2" if layered and weight in ("medium", "heavy") else GUIDE[weight]


def _owns_some(about: About) -> bool:
    return bool(about.job.cloth.face.owned)


FULLNESS: Final = (
    Ask(
        "fullness.aim",
        "Is the fullness to be a number you choose, or as much as the cloth you own allows?",
        "Either way it is the same in every section.",
        "choice",
        choices=choices.AIMS,
        when=lambda about: _owns_some(about) or about.value("fullness.aim") is not None,
        drawing="roll",
    ),
    Ask(
        "fullness.want",
        "How full is the skirt to be?",
        GUIDE_IN_WORDS,
        "number",
        when=lambda about: about.holds("fullness.aim") == "a number",
        usual=_offered,
        stands=no,
        drawing="cloth",
        picked="fullness",
        example="2.5",
    ),
    Ask(
        "fullness.joins",
        "How are the widths to be shared out?",
        "Cloth is cut across the roll into widths, and these are joined to make a section. Sharing a width between two"
        " sections saves cloth.",
        "choice",
        choices=choices.JOINS,
        drawing="roll",
    ),
    Ask(
        "fullness.surplus",
        "What is to become of the width that is over?",
        "Whole and half widths nearly always come out a little wider than the section needs.",
        "choice",
        choices=choices.SURPLUS,
        when=lambda about: about.holds("fullness.joins") != "part widths",
        drawing="roll",
    ),
)
