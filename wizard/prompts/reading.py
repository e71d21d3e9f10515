"""Reading out parts of the plan: so far, cloth and cutting, marks and hanging, cautions."""

from __future__ import annotations

from wizard.prompts.cutting import cutting_lines
from wizard.prompts.so_far import so_far_lines
from wizard.prompts.speech import SpokenPage
from wizard.prompts.talk import Talk
from wizard.render.buying_sheet import buying_list
from wizard.render.choosing_sheet import steps_of_fullness
from wizard.render.document import Block
from wizard.render.hanging_sheet import fixing_lists, mark_tables
from wizard.render.overview_sheet import section_measures
from wizard.render.sheet_header import UNIT_WORDS
from wizard.render.text_sheet import lines_of
from wizard.trade.formatting import ruler_of


def page_of(talk: Talk) -> SpokenPage:
    """The page for the blocks of the sheet."""
    return SpokenPage(talk.lines.columns, ruler_of(talk.session.plan.job))


def plan(talk: Talk, _: str) -> None:
    """The plan so far, each figure with its number."""
    _read(talk, list(so_far_lines(talk.best_plan(), talk.changed, talk.was)), "Nothing is known yet.")


def measured(talk: Talk, _: str) -> None:
    """Every section's measures and drop readings."""
    _read_block(talk, section_measures(talk.session.plan), "No section is measured yet.")


def full(talk: Talk, _: str) -> None:
    """How full each length of roll makes the skirt."""
    _read_block(talk, steps_of_fullness(talk.best_plan()), "Not known yet: it wants measures and a cloth.")


def buy(talk: Talk, _: str) -> None:
    """The buying list."""
    _read_block(talk, buying_list(talk.best_plan()), "Nothing is to be bought yet.")


def cut(talk: Talk, _: str) -> None:
    """The cutting plan."""
    _read_lines(talk, list(cutting_lines(talk.best_plan(), page_of(talk))), "There is no cloth to cut yet.")


def marked(talk: Talk, _: str) -> None:
    """The marks for drawing up."""
    _read_block(talk, mark_tables(talk.best_plan()), "There are no marks yet: the plan is not complete.")


def hang(talk: Talk, _: str) -> None:
    """The fixings, as met from inside the bed."""
    _read_block(talk, fixing_lists(talk.best_plan()), "There are no fixings yet: the plan is not complete.")


def cautions(talk: Talk, _: str) -> None:
    """Every caution the job calls for."""
    said = [f"Caution: {each.sentence}" for each in talk.session.plan.cautions]
    _read(talk, said, "The job calls for no caution yet.")


def _read_block(talk: Talk, blocks: list[Block], otherwise: str) -> None:
    """Print blocks of the sheet."""
    _read_lines(talk, lines_of(blocks, page_of(talk)), otherwise)


def _read_lines(talk: Talk, lines: list[str], otherwise: str) -> None:
    """Print lines of the sheet, which are laid out already; first the unit of their bare lengths."""
    if lines:
        talk.say(f"Lengths without a unit are in {UNIT_WORDS[ruler_of(talk.session.plan.job).unit]}.")
        talk.lines.put(lines)
    else:
        talk.say(otherwise)


def _read(talk: Talk, lines: list[str], otherwise: str) -> None:
    talk.say(*(lines or [otherwise]))
