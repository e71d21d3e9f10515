"""The ways of cutting beside each other in plain lines; one of them can be followed."""

from __future__ import annotations

from collections.abc import Iterator

from wizard.prompts.reading import page_of
from wizard.prompts.speech import counted, with_capital
from wizard.prompts.talk import Talk
from wizard.prompts.troubles import met
from wizard.questions.followed import followed_words
from wizard.render.choosing_sheet import half_drop_rules, pattern_notes
from wizard.render.figure_text import money_text, shop_text
from wizard.render.text_sheet import lines_of
from wizard.trade.compare_ways import Comparison, Way, compare
from wizard.trade.formatting import ruler_of, shown
from wizard.trade.plan import Layer, Plan

WHICH = "Number of a way to follow, or an empty line to leave it:"


def compare_ways(talk: Talk, _: str) -> None:
    """Read every layer's ways with a number each, and follow the one that is picked."""
    plan, numbered = talk.best_plan(), list[Way]()
    for layer in plan.layers:
        if layer.cutting is not None:
            found = compare(plan, layer)
            talk.say(*_layer(plan, layer, found, len(numbered)))
            talk.lines.put(lines_of([*half_drop_rules(plan, layer), *pattern_notes(plan, layer)], page_of(talk)))
            numbered += found.ways
    if not numbered:
        talk.say("There is no cloth to cut yet.")
        return
    picked = talk.lines.pick(WHICH, len(numbered))
    if picked is not None:
        _follow(talk, numbered[picked])


def _layer(plan: Plan, layer: Layer, found: Comparison, before: int) -> Iterator[str]:
    yield f"{with_capital(layer.name)}, ways of cutting:"
    for number, way in enumerate(found.ways, before + 1):
        marks = [*(["followed now"] if way.followed else []), *(["advised"] if way is found.advised else [])]
        yield "; ".join((f"{number}. {with_capital(way.title)}: {_takes(plan, layer, way)}", *marks)) + "."
    if found.advised is not None:
        yield f"Advised is {found.advised.title}. {found.reason}"
    yield from (each.sentence for each in found.prices)


def _takes(plan: Plan, layer: Layer, way: Way) -> str:
    cost = money_text(plan.job, way.cost)
    buy = f"to buy {shop_text(plan.job, f'cloth.{layer.id}', way.layout.buy)}{f', {cost}' if cost else ''}"
    used = f"{shown(way.layout.used, ruler_of(plan.job), 'up')} used"
    return f"{buy}; {used}; {counted(way.layout.joins, 'join')}; {way.look}"


def _follow(talk: Talk, way: Way) -> None:
    if way.followed:
        talk.say("That way is followed already.")
        return
    before = talk.session.plan
    if not met(talk, talk.session.choose(dict(way.answers))):
        talk.say(f"{followed_words(way, before, talk.session.plan)} .undo takes it back.")
