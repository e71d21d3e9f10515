"""Reading out the plan: the figures so far, why each is what it is, and what the sheets say of each part."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import count, groupby
from typing import Any, Final

from msgspec.structs import replace

from wizard.prompts.console import Do, SpokenPage, numbered, said, spoken_formula, spoken_length
from wizard.prompts.conversation import Conversation
from wizard.render.choosing_sheet import steps_of_fullness
from wizard.render.document import Block, Drawing, Pairs, Table, points
from wizard.render.hanging_sheet import fixing_lists
from wizard.render.making_up_sheet import marks
from wizard.render.plan_rows import Row, figure_of, rows
from wizard.render.shop_sheet import buying_list
from wizard.render.text_sheet import lines_of
from wizard.render.workings_sheet import cutting_plan, section_measures
from wizard.trade.field_names import first_up
from wizard.trade.figures import Figure, explained
from wizard.trade.formatting import UNIT_WORDS, ruler_of
from wizard.trade.plan_records import Plan
from wizard.trade.steps.cut_order import CutPiece, cut_words, part_names


def so_far_lines(talk: Conversation, plan: Plan) -> Iterator[str]:
    """The rows, a number for each figure, a heading for each group; what the last answer changed says so."""
    number = count(1)
    for row in rows(plan):
        if row.label:
            place = f"{next(number)}. " if row.figure else ""
            yield f"{place}{first_up(row.label)}: {row.value}{changed_words(talk, row)}"
        elif not row.value:
            yield f"{first_up(row.group)}:"


def words_by_name(plan: Plan) -> Mapping[tuple[str, str], str]:
    """Whose figure it is, and what it is called -> its words, for every row with a figure."""
    return {(each.group, each.label): each.value for each in rows(plan) if each.figure}


def changed_words(talk: Conversation, row: Row) -> str:
    """`, was 4 yd`, or that it is new; empty for what the last answer did not change."""
    if talk.before is None or row.figure is None:
        return ""
    before = talk.before.get((row.group, row.label), "")
    return "" if before == row.value else f", was {before}" if before else ", new"


def plan(talk: Conversation, _: str) -> None:
    """Read the plan so far; each figure has a number."""
    talk.say(*(list(so_far_lines(talk, talk.best_plan())) or ["Nothing is known yet."]))


def sheet_lines(plan: Plan, page: SpokenPage, blocks: Sequence[Block]) -> Iterator[str]:
    """Blocks of the sheets without drawings and what is only for a pencil: first the unit of bare lengths."""
    told = [_without_boxes(each) if isinstance(each, Table) else each for each in blocks if type(each) is not Drawing]
    if any(isinstance(each, Table) for each in told):
        yield from page.para(f"Lengths without a unit are in {UNIT_WORDS[ruler_of(plan.job).unit]}.")
    yield from lines_of(told, page)


def _without_boxes(table: Table) -> Table:
    """A table without boxes to tick and columns to write in; what has a box begins its line."""
    kept = [at for at in range(len(table.heads)) if at not in table.blank]
    heads = ("", *table.heads[1:]) if table.boxes else table.heads
    rows = tuple(tuple(row[at] for at in kept) for row in table.rows)
    return replace(table, heads=tuple(heads[at] for at in kept), rows=rows, boxes=())


def _reading(name: str, blocks: Callable[[Plan], list[Block]]) -> Do[Conversation]:
    """An order that reads blocks of the sheets."""
    says, otherwise = said(f"order {name}").split("|")

    def read(talk: Conversation, _: str) -> None:
        plan = talk.best_plan()
        page = SpokenPage(talk.lines.columns, ruler_of(plan.job))
        talk.lines.put(list(sheet_lines(plan, page, blocks(plan))) or [otherwise])

    read.__name__, read.__doc__ = name, says
    return read


def _cuts(plan: Plan) -> list[Block]:
    """Every cloth, and its pieces by their numbers."""
    names, ruler, blocks = part_names(plan), ruler_of(plan.job), list[Block]()
    told = (each for layer in plan.layers for each in cutting_plan(plan, layer, ""))
    for _, alike in groupby(told, key=type):
        group = list(alike)
        pieces = [(f"no. {each.number}", cut_words(each, names, ruler)) for each in group if isinstance(each, CutPiece)]
        blocks += [Pairs(tuple(pieces))] if pieces else [each for each in group if not isinstance(each, CutPiece)]
    return blocks


def _cautions(plan: Plan) -> list[Block]:
    return points("caution", (each.sentence for each in plan.cautions))


SHEETS: Final[dict[str, Callable[[Plan], list[Block]]]] = {
    "measures": section_measures, "full": steps_of_fullness, "cut": _cuts, "buy": buying_list, "marks": marks,
    "hang": fixing_lists, "cautions": _cautions,
}  # fmt: skip
READINGS: Final = tuple(_reading(name, blocks) for name, blocks in SHEETS.items())


def why(talk: Conversation, wanted: str) -> None:
    """Explain a figure: by its number in the plan, by words of its name, or picked from a list."""
    plan, words = talk.best_plan(), wanted.casefold().split()
    found = [figure_of(plan, each.figure) for each in rows(plan) if each.figure]
    if wanted.isdecimal():
        place = numbered(wanted, len(found))
        found = [] if place is None else [found[place]]
    elif wanted:
        every = plan.figures.values()
        found = [each for each in every if all(word in f"{each.title} {each.id}".casefold() for word in words)]
    if not found:
        talk.say(said("no figure", wanted) if wanted else "Nothing is known yet.")
    elif len(found) == 1:
        _explain(talk, found[0])
    else:
        _pick(talk, found, list(_numbered(talk, found)) if wanted else list(so_far_lines(talk, plan)))


def _pick(talk: Conversation, figures: Sequence[Figure[Any]], lines: Sequence[str]) -> None:
    talk.say(*lines)
    picked = talk.lines.pick("Number of a figure to explain, or Enter to leave:", len(figures))
    if picked is not None:
        _explain(talk, figures[picked])


def _explain(talk: Conversation, figure: Figure[Any]) -> None:
    """The reason, then what it was worked from, deeper for as long as a number is typed."""
    told = explained(figure, ruler_of(talk.session.plan.job))
    talk.say(f"Why: {told.title}", f"Result: {spoken_length(told.result)}")
    if figure.inputs:
        talk.say(f"Formula: {spoken_formula(told.formula)}", f"With figures: {spoken_formula(told.values)}")
    talk.say(f"Rule: {told.says}", f"From: {told.source}")
    if talk.session.question(figure.id) is not None:
        talk.say(f"“go {figure.id}” goes to its question.")
    if figure.inputs:
        inputs = [each for _, each in figure.inputs]
        _pick(talk, inputs, ["Worked from:", *_numbered(talk, inputs)])


def _numbered(talk: Conversation, figures: Sequence[Figure[Any]]) -> Iterator[str]:
    told = (explained(each, ruler_of(talk.session.plan.job)) for each in figures)
    return (f"{place}. {each.title}: {spoken_length(each.result)}" for place, each in enumerate(told, 1))
