"""Layers: from flat widths and cut lengths to pieces on the roll, with joins kept away from the face's."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from itertools import accumulate
from typing import Final, Literal, cast

from msgspec import Struct
from msgspec.structs import asdict, replace

from wizard.trade.cut_plans import NONE_BETTER, Asked, Better, cut_plan, followed, not_along
from wizard.trade.cutting import Cutting, Layout, Refusal, Rules, Strip
from wizard.trade.drops_and_cut_lengths import cut_length
from wizard.trade.figures import Figure, Formula, Ledger, Need, Rule, merged
from wizard.trade.job_fields import LAYERS, Allowances, Cloth, CutWay, Job, LayerId, Side
from wizard.trade.lengths import ZERO, Length, round_up
from wizard.trade.plan_records import Gathered, Layer
from wizard.trade.stock import Stock, bought_of, cloth_of, layer_name, stock_of

APART: Final = Length(2)
"""Joins of two layers are kept at least this far apart, or the seams make a lump that shows."""


def joins_at(layout: Layout, strip_id: str, join_cost: Length) -> tuple[Length, ...]:
    """The joins of one strip, from its left raw edge, along the joined-up flat width. A lap counts by its middle."""
    pieces = sorted((piece for piece in layout.pieces if piece.strip == strip_id), key=lambda piece: piece.order)
    ends = accumulate(piece.width - join_cost for piece in pieces[:-1])
    return tuple(end + join_cost / 2 for end in ends)


def keep_off(joins: tuple[Length, ...], shift: Length, flat: Length) -> tuple[tuple[Length, Length], ...]:
    """The spans of an inner layer in which no join should fall. `shift` is what its flat starts later by."""
    spans = ((join - shift - APART, join - shift + APART) for join in joins)
    return tuple((max(start, ZERO), min(end, flat)) for start, end in spans if end > ZERO and start < flat)


def least_apart(face: tuple[Length, ...], inner: tuple[Length, ...], shift: Length) -> Length | None:
    """How close the nearest two joins of the layers come, or None when one of the layers has none. Both rise."""
    places = ((other + shift, bisect_left(face, other + shift)) for other in inner if face)
    near = (abs(join - place) for place, at in places for join in face[max(at - 1, 0) : at + 1])
    return min(near, default=None)


INNER_FLAT = Formula(
    "flat width of an inner layer",
    "{face} − 2 × {end_setback}",
    lambda face, end_setback: face - end_setback * 2 if face > end_setback * 2 else None,
)
CUT_WIDTH = Formula(
    "cut width",
    "{flat} + 2 × {end_hem}, rounded up to {mark}",
    lambda flat, end_hem, mark: round_up(flat + end_hem * 2, mark),
)
FLAT_MADE = Formula("flat width as made", "{pieces} − 2 × {end_hem}", lambda pieces, end_hem: pieces - end_hem * 2)
JOINED = Rule("pieces joined", "{value}")
SHIFTABLE = 60
"""A layer of more pieces is not laid out again to shift its joins: a misread run must not keep anyone waiting."""
LARGER_AT: dict[Side | None, Literal["left", "right"]] = {"left": "right", "right": "left"}
"""Where a section has a part width at each end, the larger is at the foot."""


class Prepared(Struct, frozen=True):
    """A layer as far as it does not depend on the fullness."""

    id: LayerId
    cuts: Mapping[str, Figure[Length]]
    """Part id -> cut length `C`."""
    stock: Stock
    end_setback: Figure[Length] | None
    """None for the face."""


def layers_in_use(ledger: Ledger) -> tuple[LayerId, ...]:
    """The face, and the inner layers in use."""
    return tuple(each for each in LAYERS if each == "face" or ledger.read(Cloth.use, f"cloth.{each}").value)


def prepare(ledger: Ledger, layer: LayerId, drops: Mapping[str, Figure[Length]]) -> Prepared:
    """Cut lengths and cloth of a layer, for all parts."""
    cuts = {part: cut_length(ledger, layer, part, drop) for part, drop in drops.items()}
    setback = None if layer == "face" else ledger.read(Cloth.end_setback, f"cloth.{layer}")
    return Prepared(layer, cuts, stock_of(ledger, layer), setback)


def cut_width(ledger: Ledger, layer: LayerId, part_id: str, flat: Figure[Length]) -> Figure[Length]:
    """Cut width `A` of a part, on the ruler mark, before joins."""
    end_hem, mark = ledger.read(Allowances.end_hem), ledger.read(Job.ruler)
    return ledger.apply(CUT_WIDTH, f"layer.{layer}.width.{part_id}", flat=flat, end_hem=end_hem, mark=mark)


def strip_as(prepared: Prepared, part: Gathered, width: Length, cut: Length) -> Strip:
    """A part of a layer of the given measures."""
    return Strip(part.id, part.section, prepared.id, width, cut, larger_end=LARGER_AT.get(part.side, "either"))


def lay(
    ledger: Ledger,
    prepared: Prepared,
    parts: Sequence[Gathered],
    faces: Mapping[str, Figure[Length]],
    better: Better = NONE_BETTER,
    *,
    buys: bool = True,
    over: Layer | None = None,
) -> Layer:
    """Lay a layer out, as far as it is known. `faces`: part id -> flat width of the face. `buys` False keeps to owned
    cloth; `over` is the face in front of an inner layer."""
    id, stock, rules, setback, flats = prepared.id, prepared.stock, prepared.stock.rules, prepared.end_setback, faces
    if setback is not None:
        ids = {each: f"layer.{id}.flat.{each}" for each in faces}
        flats = {each: ledger.apply(INNER_FLAT, ids[each], face=faces[each], end_setback=setback) for each in faces}
    widths = {each: cut_width(ledger, id, each, flat) for each, flat in flats.items()}
    strips = tuple(
        strip_as(prepared, part, width, cut)
        for part in parts
        if (width := widths[part.id].value) is not None and (cut := prepared.cuts[part.id].value) is not None
    )
    needs = merged([*(each.needs for each in (*prepared.cuts.values(), *widths.values())), stock.needs])
    cloth, answer = (*stock.owned, *((stock.roll,) if buys and stock.roll else ())), None
    if strips and not needs and len(strips) == len(parts) and rules is not None:
        strips, answer = _answered(ledger, prepared, (strips, cloth, rules), better, over)
        if isinstance(answer, Cutting) and rules.along:
            answer = not_along(answer, rules, _way(ledger, id), all_along=all_along(ledger)) or answer
    found = answer if isinstance(answer, Cutting) else None
    cutting = None if found is None else followed(found, _way(ledger, id))
    bought = bought_of(ledger, id, stock, prepared.cuts, cutting, needs)
    return Layer(
        id=id,
        name=layer_name(ledger.job, id),
        strips=strips,
        stock=cloth,
        rules=rules,
        cutting=cutting,
        found=found,
        refused=answer if isinstance(answer, Refusal) else None,
        needs=needs,
        cut_lengths=prepared.cuts,
        cut_widths=widths,
        flats={each: flat_made(ledger, id, each, needs, cutting) for each in widths},
        usable=stock.usable,
        **asdict(bought),
    )


def _way(ledger: Ledger, layer: LayerId) -> CutWay | None:
    return cast("CutWay | None", ledger.read(Cloth.way, f"cloth.{layer}").value)


def all_along(ledger: Ledger) -> bool:
    """True when every layer in use is cut along the roll."""
    return all(ledger.read(Cloth.lay, f"cloth.{each}").value == "along" for each in layers_in_use(ledger))


def _answered(
    ledger: Ledger, prepared: Prepared, asked: Asked, better: Better, over: Layer | None
) -> tuple[tuple[Strip, ...], Cutting | Refusal]:
    """The layout. Where joins come close to the face's: another that keeps away, if it takes no more cloth, or the same
    with its pieces in another order, whichever costs less."""
    strips, cloth, rules = asked
    answer, way = cut_plan(asked, better), cloth_of(ledger.job, prepared.id).way

    def close(cutting: Cutting) -> bool:
        return bool(clashes(prepared, over, followed(cutting, way), rules))

    if over is None or isinstance(answer, Refusal) or not close(answer):
        return strips, answer
    spans = [keep_off(_face_joins(over, strip.id), shift_of(prepared), strip.flat) for strip in strips]
    moved = tuple(replace(strip, no_join=each) for strip, each in zip(strips, spans, strict=True))
    other = cut_plan((moved, cloth, rules), better) if len(answer.best.pieces) <= SHIFTABLE else None
    if not isinstance(other, Cutting) or other.best.buy > answer.best.buy or close(other):
        other = None
    if other and (other.best.used, other.best.joins) <= (answer.best.used, answer.best.joins):
        return moved, other
    turned = tuple(replace(strip, avoid=each) for strip, each in zip(strips, spans, strict=True))
    ordered = cut_plan((turned, cloth, rules), better)
    return (moved, other) if other and isinstance(ordered, Cutting) and close(ordered) else (turned, ordered)


def shift_of(prepared: Prepared) -> Length:
    """How much further in than the face's an inner layer begins."""
    return ZERO if prepared.end_setback is None else prepared.end_setback.value or ZERO


def _face_joins(over: Layer, strip_id: str) -> tuple[Length, ...]:
    if over.cutting is None or over.rules is None:
        return ()
    return joins_at(over.cutting.best, strip_id, over.rules.join_cost)


def clashes(prepared: Prepared, over: Layer | None, cutting: Cutting, rules: Rules | None) -> tuple[str, ...]:
    """The parts in which a join of an inner layer comes nearer to one of the face's than it should; none for the face,
    which has nothing `over` it."""
    if over is None or rules is None:
        return ()
    shift, found = shift_of(prepared), list[str]()
    for strip, _ in cutting.best.flats:
        near = least_apart(_face_joins(over, strip), joins_at(cutting.best, strip, rules.join_cost), shift)
        found += [strip] if near is not None and near < APART else []
    return tuple(found)


def flat_made(
    ledger: Ledger, layer: LayerId, part_id: str, needs: tuple[Need, ...], cutting: Cutting | None
) -> Figure[Length]:
    """Flat finished width of a part as made: what was asked, up to the ruler mark, or more where a surplus is kept."""
    id = f"part.{part_id}.flat_made" if layer == "face" else f"layer.{layer}.flat_made.{part_id}"
    if cutting is None:
        return ledger.keep(Figure(id, "flat width as made", None, needs, FLAT_MADE.rule))
    width = dict(cutting.best.flats)[part_id]
    pieces = ledger.keep(Figure(f"layer.{layer}.joined.{part_id}", "its pieces joined", width, (), JOINED))
    return ledger.apply(FLAT_MADE, id, pieces=pieces, end_hem=ledger.read(Allowances.end_hem))
