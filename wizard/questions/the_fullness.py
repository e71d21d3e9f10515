"""Questions about how full the skirt is, and how its widths are joined."""

from __future__ import annotations

from typing import Final

from msgspec.structs import replace

from wizard.questions import choices
from wizard.questions.asking import About, Ask, no
from wizard.questions.question import Choice
from wizard.trade.formatting import number
from wizard.trade.fullness import guide_of, guide_words, offered, range_words

OWNED_CLOTH: Final = ("fullness.aim", "fullness.want")
"""Where it helps to know what the cloth in hand gives (see `trade.owned_offer`)."""


def _owns_some(about: About) -> bool:
    return bool(about.job.cloth.face.owned)


def _joins(about: About) -> tuple[Choice, ...]:
    """The ways of joining widths; where every cloth is laid along the roll, whole and half widths barred."""
    if not all(about.holds_at(f"cloth.{each.id}.lay") == "along" for each in about.plan.layers):
        return choices.JOINS
    why = "The cloth is laid along the roll, where no widths are joined. Lay it across the roll first."
    return tuple(each if each.value == "part widths" else replace(each, barred=why) for each in choices.JOINS)


FULLNESS: Final = (
    Ask(
        "fullness.aim",
        "Is the fullness to be a number you choose, or as much as the cloth you own allows?",
        lambda about: (
            "Either way it is the same in every section. This cloth with these layers usually takes "
            f"{range_words(guide_of(about.job))}; all of the cloth may make it fuller than that, and use it up."
        ),
        "choice",
        choices=choices.AIMS,
        when=lambda about: _owns_some(about) or about.value("fullness.aim") is not None,
        drawing="roll",
    ),
    Ask(
        "fullness.want",
        "How full is the skirt to be?",
        lambda about: guide_words(about.job),
        "number",
        when=lambda about: about.holds("fullness.aim") == "a number",
        usual=lambda about: number(offered(about.job)),
        stands=no,
        drawing="cloth",
        picked="fullness",
    ),
    Ask(
        "fullness.joins",
        "How are the widths to be shared out?",
        "Cloth is cut across the roll into widths, and these are joined to make a section. Sharing a width between two"
        " sections saves cloth.",
        "choice",
        choices=_joins,
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
