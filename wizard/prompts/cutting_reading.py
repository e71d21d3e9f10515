"""The cutting plan in words: each cut in order, what is joined to what, what is left, and the other ways of cutting."""

from __future__ import annotations

from collections.abc import Iterator

from wizard.interview.session_words import followed_words
from wizard.prompts.conversation import Conversation, not_saved, page_of
from wizard.prompts.speech import SpokenPage
from wizard.render.choosing_sheet import cloth_in_hand, half_drop_rules, pattern_notes
from wizard.render.cut_order import CutPiece, cut_pieces, cut_stretches, pieces_of
from wizard.render.cutting_sheet import LEAST_CLOTH, offcut_table, other_ways, pieces_text, proof_text, to_buy_text
from wizard.render.figure_text import counted, length_text, money_text, shop_text
from wizard.render.plain_text import with_capital
from wizard.render.text_sheet import lines_of
from wizard.trade.compare_ways import Comparison, Way, compare
from wizard.trade.cutting import Layout
from wizard.trade.formatting import ruler_of, shown
from wizard.trade.lengths import ZERO
from wizard.trade.plan_records import Layer, Part, Plan


def cutting_lines(plan: Plan, page: SpokenPage) -> Iterator[str]:
    """Every layer, the face first."""
    for layer in plan.layers:
        yield from page.heading(with_capital(layer.name))
        if layer.cutting is None:
            yield from page.para(_why_not(layer))
        else:
            yield from _layer(plan, layer, layer.cutting.best, page)


def short_lines(plan: Plan) -> Iterator[str]:
    """What each layer takes, in a line."""
    for layer in plan.layers:
        if layer.cutting is None:
            yield f"{with_capital(layer.name)}: {_why_not(layer)}"
        else:
            yield f"To buy, {layer.name}: {to_buy_text(plan, layer)}. {pieces_text(layer.cutting.best)}."


def _why_not(layer: Layer) -> str:
    if layer.refused is not None:
        return "it cannot be laid out as it stands. .findings says why."
    wanted = "; ".join(each.words for each in layer.needs) or "what the other layers wait for"
    return f"not laid out yet. Still needed: {wanted}."


def _layer(plan: Plan, layer: Layer, best: Layout, page: SpokenPage) -> Iterator[str]:
    yield from page.pair("usable width", length_text(layer.usable, page.ruler, "down"))
    yield from page.pair("cut", pieces_text(best))
    yield from page.pair("used", length_text(layer.used, page.ruler, "up"))
    yield from page.pair("from the roll", length_text(layer.roll, page.ruler, "sum"))
    yield from page.pair("to buy", to_buy_text(plan, layer))
    yield from page.para(f"{LEAST_CLOTH} {with_capital(proof_text(best, page.ruler))}")
    yield from _cut_list(plan, layer, best, page)
    yield from _joining(plan, layer, best, page)
    yield from lines_of(offcut_table(layer, best, page.ruler), page)
    yield from lines_of(other_ways(plan, layer, page.ruler), page)
    yield from lines_of([*pattern_notes(plan, layer), *cloth_in_hand(plan, layer)], page)


def _cut_list(plan: Plan, layer: Layer, best: Layout, page: SpokenPage) -> Iterator[str]:
    names = {part.id: part.name for part in plan.parts}
    squaring = layer.rules.squaring if layer.rules is not None else ZERO
    for each in cut_stretches(layer, best):
        yield from page.subheading(f"Cut list, {each.name}:")
        if squaring > ZERO and not each.stretch.squared:
            yield from page.para(f"Square the end first: {shown(squaring, page.ruler, 'given')}.")
        ends = (
            "along the cloth from the squared end, across it from the left edge"
            if best.way == "along"
            else "everything from the squared end"
        )
        yield from page.para(f"Measure {ends}. Chalk an arrow for way up on every piece.")
        for piece in each.pieces:
            yield from page.para(_piece(piece, names, page))


def _piece(each: CutPiece, names: dict[str, str], page: SpokenPage) -> str:
    piece, ruler = each.piece, page.ruler
    along = f"from {shown(piece.start, ruler)} to {shown(each.end, ruler)}"
    across = f", {shown(piece.across, ruler)} from the left edge" if piece.across > ZERO else ""
    edges = {"none": "", "left": ", left edge cut", "right": ", right edge cut", "both": ", both edges cut"}
    begins = f", begins with row {each.begins} of the pattern" if each.begins else ""
    of = f", number {piece.order} of {each.of}" if each.of > 1 else ""
    return (
        f"Piece {each.number}: {along}{across}, {shown(piece.width, ruler)} wide, {shown(piece.cut, ruler)} long"
        f"{edges[piece.rip_side]}{begins}; for {names.get(piece.strip, piece.strip)}{of}."
    )


def _joining(plan: Plan, layer: Layer, best: Layout, page: SpokenPage) -> Iterator[str]:
    yield from page.subheading("Joining, each section from its left end, seen from the room:")
    for part in plan.parts:
        own = pieces_of(part.id, cut_pieces(layer))
        if own:
            yield from page.pair(part.name, _joined(part, own, page))


def _joined(part: Part, own: list[CutPiece], page: SpokenPage) -> str:
    pieces = ", then ".join(f"piece {each.number}, {shown(each.piece.width, page.ruler)} wide" for each in own)
    return f"from the {part.left_is}, {pieces}" if len(own) > 1 else f"{pieces}, no join"


WHICH = "Number of a way to follow, or an empty line to leave it:"


def compare_ways(talk: Conversation, _: str) -> None:
    """Read every layer's ways with a number each, and follow the one that is picked."""
    plan, numbered = talk.best_plan(), list[Way]()
    for layer in plan.layers:
        if layer.cutting is not None:
            found = compare(plan, layer)
            talk.say(*_layer_ways(plan, layer, found, len(numbered)))
            talk.lines.put(lines_of([*half_drop_rules(plan, layer), *pattern_notes(plan, layer)], page_of(talk)))
            numbered += found.ways
    if not numbered:
        talk.say("There is no cloth to cut yet.")
        return
    picked = talk.lines.pick(WHICH, len(numbered))
    if picked is not None:
        _follow(talk, numbered[picked])


def _layer_ways(plan: Plan, layer: Layer, found: Comparison, before: int) -> Iterator[str]:
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


def _follow(talk: Conversation, way: Way) -> None:
    if way.followed:
        talk.say("That way is followed already.")
        return
    before = talk.session.plan
    if not not_saved(talk, talk.session.choose(dict(way.answers))):
        talk.say(f"{followed_words(way, before, talk.session.plan)} .undo takes it back.")
