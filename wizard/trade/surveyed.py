"""What a survey is not whole without, whether or not a figure rests on it."""

from __future__ import annotations

from wizard.trade.bed import Section
from wizard.trade.corners import sections_on, side_of
from wizard.trade.figures import Ledger

SLATTED_SIDES = ("left", "right")
"""Slats lie on the side rails: their ledger runs along these, never along foot or head."""


def survey_asked(ledger: Ledger) -> None:
    """Read what every survey must have, so that what is missing is named."""
    ledger.read("survey.floor")
    sections = sections_on(ledger.job)
    if not sections:
        ledger.wanting("survey.section")
    for section_id, section in sections:
        ledger.read(f"survey.section.{section_id}.rail", fallback="survey.rail")
        for thing in section.in_the_way:
            ledger.read(f"survey.section.{section_id}.in_the_way.{thing}.at")
            ledger.read(f"survey.section.{section_id}.in_the_way.{thing}.do")
        if has_ledger(ledger, section_id, section):
            ledger.read(f"survey.section.{section_id}.free_height")


def has_ledger(ledger: Ledger, section_id: str, section: Section) -> bool:
    """True where a ledger or slat cleat runs along the rail face that the tape goes on."""
    on_inside = section.fixing_face != "lower back edge"
    return bool(ledger.read("survey.slatted").value) and on_inside and side_of(section_id, section) in SLATTED_SIDES
