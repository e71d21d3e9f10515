"""Reading out the plan: the figures so far, each part of it, and why a figure is what it is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from msgspec import Struct

from wizard.prompts.console import numbered
from wizard.prompts.conversation import Conversation, page_of
from wizard.prompts.cutting_reading import cutting_lines
from wizard.prompts.speech import in_lines, spoken_formula, spoken_length
from wizard.render.buying_sheet import buying_list
from wizard.render.choosing_sheet import steps_of_fullness
from wizard.render.document import Block
from wizard.render.figure_text import counted, length_text, money_text, ratio_text, shop_text
from wizard.render.hanging_sheet import fixing_lists, mark_tables
from wizard.render.overview_sheet import section_measures
from wizard.render.plain_text import with_capital
from wizard.render.sheet_header import UNIT_WORDS
from wizard.render.text_sheet import lines_of
from wizard.trade.explain import explained
from wizard.trade.figures import Figure
from wizard.trade.formatting import how_shown, ruler_of
from wizard.trade.plan_records import Layer, Part, Plan


class Row(Struct, frozen=True):
    """One figure in words."""

    group: str
    """What it is a figure of: `left section`, `face cloth`."""
    label: str
    value: str
    figure: str | None
    """Its id; None for what has no reason of its own."""


def rows(plan: Plan) -> tuple[Row, ...]:
    """What is known so far: sections, then cloth, then what else is bought."""
    return tuple(each for part in plan.parts for each in _of_part(part, plan)) + tuple(
        each for each in (*_of_layers(plan), *_bought(plan))
    )


def words_by_figure(plan: Plan) -> Mapping[str, str]:
    """Figure id -> its words, for every row."""
    return {each.figure: each.value for each in rows(plan) if each.figure}


def _of_part(part: Part, plan: Plan) -> Iterator[Row]:
    ruler = ruler_of(plan.job)
    floor = ", follows the floor" if part.follows_floor else ""
    for label, figure, more in (("run", part.run, ""), ("drop", part.drop, floor), ("gathered", part.gathered, "")):
        if figure.value is not None:
            yield Row(part.name, label, length_text(figure, ruler) + more, figure.id)
    if part.flat_made.value is not None:
        yield Row(part.name, "flat", length_text(part.flat_made, ruler), part.flat_made.id)
    if part.fullness.value is not None:
        yield Row(part.name, "fullness", ratio_text(part.fullness.value), part.fullness.id)
    if part.tape.value is not None:
        yield Row(part.name, "tape", length_text(part.tape, ruler, "up"), part.tape.id)


def _of_layers(plan: Plan) -> Iterator[Row]:
    for layer in plan.layers:
        yield from _of_layer(layer, plan)


def _of_layer(layer: Layer, plan: Plan) -> Iterator[Row]:
    ruler = ruler_of(plan.job)
    if layer.cutting is not None:
        best = layer.cutting.best
        widths = counted(sum(each.rows for each in best.uses), "lane" if best.way == "along" else "width")
        yield Row(layer.name, "cut", f"{widths}, {counted(best.joins, 'join')}", None)
    for label, figure in (("used", layer.used), ("from the roll", layer.roll)):
        if figure.value is not None:
            yield Row(layer.name, label, length_text(figure, ruler, how_shown(figure.id)), figure.id)
    if layer.buy.value is not None:
        yield Row(layer.name, "to buy", shop_text(plan.job, f"cloth.{layer.id}", layer.buy.value), layer.buy.id)
    if layer.cost.value is not None:
        yield Row(layer.name, "cost", money_text(plan.job, layer.cost.value), layer.cost.id)


def _bought(plan: Plan) -> Iterator[Row]:
    for each in plan.purchases:
        if not each.id.startswith("cloth:"):
            yield Row("also to buy", each.what, each.amount, each.figures[0] if each.figures else None)


def so_far_lines(plan: Plan, changed: tuple[str, ...], was: Mapping[str, str]) -> Iterator[str]:
    """The rows with their numbers, a heading for each group; what the last answer changed says so."""
    group = ""
    for number, row in enumerate(rows(plan), 1):
        if row.group != group:
            group = row.group
            yield f"{with_capital(group)}:"
        yield f"{number}. {with_capital(row.label)}: {row.value}{_news(row, changed, was)}"


def _news(row: Row, changed: tuple[str, ...], was: Mapping[str, str]) -> str:
    if row.figure is None or row.figure not in changed:
        return ""
    before = was.get(row.figure)
    return f", changed, was {before}" if before is not None and before != row.value else ", new" if not before else ""


def plan(talk: Conversation, _: str) -> None:
    """The plan so far, each figure with its number."""
    _read(talk, list(so_far_lines(talk.best_plan(), talk.changed, talk.was)), "Nothing is known yet.")


def measured(talk: Conversation, _: str) -> None:
    """Every section's measures and drop readings."""
    _read_block(talk, section_measures(talk.session.plan), "No section is measured yet.")


def full(talk: Conversation, _: str) -> None:
    """How full each length of roll makes the skirt."""
    _read_block(talk, steps_of_fullness(talk.best_plan()), "Not known yet: it wants measures and a cloth.")


def buy(talk: Conversation, _: str) -> None:
    """The buying list."""
    _read_block(talk, buying_list(talk.best_plan()), "Nothing is to be bought yet.")


def cut(talk: Conversation, _: str) -> None:
    """The cutting plan."""
    _read_lines(talk, list(cutting_lines(talk.best_plan(), page_of(talk))), "There is no cloth to cut yet.")


def marked(talk: Conversation, _: str) -> None:
    """The marks for drawing up."""
    _read_block(talk, mark_tables(talk.best_plan()), "There are no marks yet: the plan is not complete.")


def hang(talk: Conversation, _: str) -> None:
    """The fixings, as met from inside the bed."""
    _read_block(talk, fixing_lists(talk.best_plan()), "There are no fixings yet: the plan is not complete.")


def cautions(talk: Conversation, _: str) -> None:
    """Every caution the job calls for."""
    said = [f"Caution: {each.sentence}" for each in talk.session.plan.cautions]
    _read(talk, said, "The job calls for no caution yet.")


def _read_block(talk: Conversation, blocks: list[Block], otherwise: str) -> None:
    """Print blocks of the sheet."""
    _read_lines(talk, lines_of(blocks, page_of(talk)), otherwise)


def _read_lines(talk: Conversation, lines: list[str], otherwise: str) -> None:
    """Print lines of the sheet, which are laid out already; first the unit of their bare lengths."""
    if lines:
        talk.say(f"Lengths without a unit are in {UNIT_WORDS[ruler_of(talk.session.plan.job).unit]}.")
        talk.lines.put(lines)
    else:
        talk.say(otherwise)


def _read(talk: Conversation, lines: list[str], otherwise: str) -> None:
    talk.say(*(lines or [otherwise]))


Figures = tuple[Figure[Any], ...]
UP = "Number of one for its why, or an empty line to go back up:"
OUT = "Number of one for its why, or an empty line:"


def ask_why(talk: Conversation, wanted: str) -> None:
    """The why of a figure: by its number in the plan so far, by words of its title, or picked from the list."""
    plan = talk.best_plan()
    listed = [plan.figures.get(each.figure or "") for each in rows(plan)]
    if wanted.isdecimal() and len(wanted) < 5:
        place = numbered(wanted, len(listed))
        figure = None if place is None else listed[place]
        _explain(talk, figure) if figure else talk.say(f"No figure has the number {wanted}. .plan lists them.")
    elif wanted:
        _search(talk, wanted)
    elif listed:
        talk.say(*so_far_lines(plan, talk.changed, talk.was))
        _pick(talk, tuple(listed), OUT)
    else:
        talk.say("Nothing is known yet.")


def _search(talk: Conversation, wanted: str) -> None:
    words = wanted.casefold().split()
    every = talk.session.plan.figures.values()
    found = tuple(each for each in every if all(word in f"{each.title} {each.id}".casefold() for word in words))
    if not found:
        talk.say(f"No figure is called “{wanted}”. .plan lists them.")
    elif len(found) == 1:
        _explain(talk, found[0])
    else:
        talk.lines.put(_numbered(talk, found))
        _pick(talk, found, OUT)


def _pick(talk: Conversation, figures: tuple[Figure[Any] | None, ...], words: str) -> None:
    picked = talk.lines.pick(words, len(figures))
    if picked is not None:
        figure = figures[picked]
        _explain(talk, figure) if figure else talk.say("This one is counted, not worked: .cut reads it.")


def _explain(talk: Conversation, figure: Figure[Any]) -> None:
    """The reason, then deeper for as long as one asks; an empty line goes back up."""
    path, fresh = [figure], True
    while path and not talk.lines.waiting:
        talk.lines.put(_reason(talk, path[-1]) if fresh else in_lines(f"Back at: {path[-1].title}", talk.lines.columns))
        inputs = tuple(each for _, each in path[-1].inputs)
        picked = talk.lines.pick(UP if len(path) > 1 else OUT, len(inputs)) if inputs else None
        fresh = picked is not None
        path = path[:-1] if picked is None else [*path, inputs[picked]]


def _reason(talk: Conversation, figure: Figure[Any]) -> Iterator[str]:
    told = explained(figure, ruler_of(talk.session.plan.job))
    columns = talk.lines.columns
    yield from in_lines(f"Why: {told.title}", columns)
    yield from in_lines(f"It is: {spoken_length(told.result)}", columns)
    if figure.inputs:
        yield from in_lines(f"Formula: {spoken_formula(told.formula)}", columns)
        yield from in_lines(f"With figures: {spoken_formula(told.values)}", columns)
    yield from in_lines(f"Rule: {told.says}", columns)
    yield from in_lines(f"From: {told.source}", columns)
    if talk.session.question(figure.id) is not None:
        yield from in_lines(f"Asked for: .go {figure.id} goes to the question.", columns)
    if figure.inputs:
        yield "Worked from:"
        yield from _numbered(talk, tuple(each for _, each in figure.inputs))


def _numbered(talk: Conversation, figures: Figures) -> Iterator[str]:
    ruler = ruler_of(talk.session.plan.job)
    for number, each in enumerate(figures, 1):
        told = explained(each, ruler)
        yield from in_lines(f"{number}. {told.title}: {spoken_length(told.result)}", talk.lines.columns)
