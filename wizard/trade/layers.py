"""Layers: from flat widths and cut lengths to pieces on the roll, with joins kept away from the face's."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping, Sequence
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
    joins, reached = [], ZERO
    for piece in pieces[:-1]:
        reached += piece.width
        joins.append(reached - join_cost / 2)
        reached -= join_cost
    return tuple(joins)


def keep_off(joins: tuple[Length, ...], shift: Length, flat: Length) -> tuple[tuple[Length, Length], ...]:
    """The spans of an inner layer in which no join should fall. `shift` is what its flat starts later by."""
    spans = ((join - shift - APART, join - shift + APART) for join in joins)
    return tuple((max(start, ZERO), min(end, flat)) for start, end in spans if end > ZERO and start < flat)


def least_apart(face: tuple[Length, ...], inner: tuple[Length, ...], shift: Length) -> Length | None:
    """How close the nearest two joins of the layers come, or None when one of the layers has none. Both rise."""
    if not face:
        return None
    return min((_nearest(face, other + shift) for other in inner), default=None)


def _nearest(joins: tuple[Length, ...], place: Length) -> Length:
    at = bisect_left(joins, place)
    return min(abs(join - place) for join in joins[max(at - 1, 0) : at + 1])


INNER_FLAT = Formula(
    "flat width of an inner layer", "{face} − 2 × {end_setback}",
    lambda face, end_setback: face - end_setback * 2 if face > end_setback * 2 else None, title="flat width",
)  # fmt: skip
CUT_WIDTH = Formula(
    "cut width", "{flat} + 2 × {end_hem}, rounded up to {mark}",
    lambda flat, end_hem, mark: round_up(flat + end_hem * 2, mark), title="cut width without seams",
)  # fmt: skip
FLAT_MADE = Formula("flat width as made", "{pieces} − 2 × {end_hem}", lambda pieces, end_hem: pieces - end_hem * 2)
JOINED = Rule("pieces joined", "{value}")
SHIFTABLE = 60
"""A layer of more pieces is not laid out again to shift its joins: a misread run must not keep anyone waiting."""
LARGER_AT: dict[Side, Literal["left", "right"]] = {"left": "right", "right": "left"}
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


def flat_width(ledger: Ledger, prepared: Prepared, part_id: str, face: Figure[Length]) -> Figure[Length]:
    """Flat finished width of a part in a layer: the face's own, or the face's less the end setbacks."""
    if prepared.end_setback is None:
        return face
    id, setback = f"layer.{prepared.id}.flat.{part_id}", prepared.end_setback
    return ledger.apply(INNER_FLAT, id, face=face, end_setback=setback)


def cut_width(ledger: Ledger, layer: LayerId, part_id: str, flat: Figure[Length]) -> Figure[Length]:
    """Cut width `A` of a part, on the ruler mark, before joins."""
    end_hem, mark = ledger.read(Allowances.end_hem), ledger.read(Job.ruler)
    return ledger.apply(CUT_WIDTH, f"layer.{layer}.width.{part_id}", flat=flat, end_hem=end_hem, mark=mark)


class Measured(Struct, frozen=True):
    """A layer measured and ready for the layout, as far as it is known."""

    widths: Mapping[str, Figure[Length]]
    """Part id -> cut width `A`."""
    strips: tuple[Strip, ...]
    """One for each part whose measures are known."""
    needs: tuple[Need, ...]
    whole: bool
    """True when nothing is missing and every part has its strip."""


def measured(
    ledger: Ledger, prepared: Prepared, parts: Sequence[Gathered], faces: Mapping[str, Figure[Length]]
) -> Measured:
    """Cut widths and strips of a layer. `faces`: part id -> flat width of the face."""
    flats = {each: flat_width(ledger, prepared, each, face) for each, face in faces.items()}
    widths = {each: cut_width(ledger, prepared.id, each, flat) for each, flat in flats.items()}
    strips = [strip_of(prepared, part, widths[part.id]) for part in parts]
    known = tuple(strip for strip in strips if strip is not None)
    needs = merged([*(each.needs for each in (*prepared.cuts.values(), *widths.values())), prepared.stock.needs])
    whole = bool(known) and not needs and len(known) == len(strips) and prepared.stock.rules is not None
    return Measured(widths, known, needs, whole)


def strip_of(prepared: Prepared, part: Gathered, width: Figure[Length]) -> Strip | None:
    """A part of a layer, ready for the layout; None until it is known."""
    cut = prepared.cuts[part.id].value
    return None if width.value is None or cut is None else strip_as(prepared, part, width.value, cut)


def strip_as(prepared: Prepared, part: Gathered, width: Length, cut: Length) -> Strip:
    """A part of a layer of the given measures."""
    strip = Strip(part.id, part.section, prepared.id, width, cut)
    return replace(strip, larger_end=LARGER_AT[part.side]) if part.side in LARGER_AT else strip


class Laid(Struct, frozen=True):
    """A layer laid out, and its flat finished widths as made."""

    layer: Layer
    made: Mapping[str, Figure[Length]]
    """Part id -> flat finished width as made."""


def lay(
    ledger: Ledger,
    prepared: Prepared,
    ready: Measured,
    better: Better = NONE_BETTER,
    *,
    buys: bool = True,
    over: Layer | None = None,
) -> Laid:
    """Lay a layer out. `buys` False keeps to owned cloth; `over` is the face in front of an inner layer."""
    stock = prepared.stock
    cloth = (*stock.owned, *((stock.roll,) if buys and stock.roll else ()))
    strips, answer = ready.strips, None
    if ready.whole and stock.rules is not None:
        strips, answer = _answered(ledger, prepared, (ready.strips, cloth, stock.rules), better, over)
    if isinstance(answer, Cutting) and stock.rules is not None and stock.rules.along:
        answer = not_along(answer, stock.rules, _way(ledger, prepared.id), all_along=all_along(ledger)) or answer
    found = answer if isinstance(answer, Cutting) else None
    cutting = None if found is None else followed(found, _way(ledger, prepared.id))
    bought = bought_of(ledger, prepared.id, stock, prepared.cuts, cutting, ready.needs)
    layer = Layer(
        id=prepared.id,
        name=layer_name(ledger.job, prepared.id),
        strips=strips,
        stock=cloth,
        rules=stock.rules,
        cutting=cutting,
        found=found,
        refused=answer if isinstance(answer, Refusal) else None,
        needs=ready.needs,
        cut_lengths=prepared.cuts,
        cut_widths=ready.widths,
        usable=stock.usable,
        **asdict(bought),
    )
    return Laid(layer, {each: flat_made(ledger, prepared.id, each, ready, cutting) for each in ready.widths})


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
        return over is not None and bool(clashes(prepared, over, followed(cutting, way), rules))

    if over is None or isinstance(answer, Refusal) or not close(answer):
        return strips, answer
    spans = [_near_face(prepared, strip, over) for strip in strips]
    moved = tuple(replace(strip, no_join=each) for strip, each in zip(strips, spans, strict=True))
    other = cut_plan((moved, cloth, rules), better) if len(answer.best.pieces) <= SHIFTABLE else None
    if not isinstance(other, Cutting) or other.best.buy > answer.best.buy or close(other):
        other = None
    if other and _takes(other) <= _takes(answer):
        return moved, other
    turned = tuple(replace(strip, avoid=each) for strip, each in zip(strips, spans, strict=True))
    ordered = cut_plan((turned, cloth, rules), better)
    return (moved, other) if other and isinstance(ordered, Cutting) and close(ordered) else (turned, ordered)


def _takes(cutting: Cutting) -> tuple[Length, int]:
    """Cloth used, then joins."""
    return cutting.best.used, cutting.best.joins


def _near_face(prepared: Prepared, strip: Strip, over: Layer) -> tuple[tuple[Length, Length], ...]:
    """Where a join of an inner layer would be close to one of the face's."""
    return keep_off(_face_joins(over, strip.id), _shift(prepared), strip.flat)


def _shift(prepared: Prepared) -> Length:
    """How much further in than the face's an inner layer begins."""
    return ZERO if prepared.end_setback is None else prepared.end_setback.value or ZERO


def _face_joins(over: Layer, strip_id: str) -> tuple[Length, ...]:
    if over.cutting is None or over.rules is None:
        return ()
    return joins_at(over.cutting.best, strip_id, over.rules.join_cost)


def clashes(prepared: Prepared, over: Layer, cutting: Cutting, rules: Rules) -> tuple[str, ...]:
    """The parts in which a join of an inner layer comes nearer to one of the face's than it should."""
    shift = _shift(prepared)
    nearest = {
        strip: least_apart(_face_joins(over, strip), joins_at(cutting.best, strip, rules.join_cost), shift)
        for strip, _ in cutting.best.flats
    }
    return tuple(strip for strip, near in nearest.items() if near is not None and near < APART)


def flat_made(ledger: Ledger, layer: LayerId, part_id: str, ready: Measured, cutting: Cutting | None) -> Figure[Length]:
    """Flat finished width of a part as made: what was asked, up to the ruler mark, or more where a surplus is kept."""
    id = f"part.{part_id}.flat_made" if layer == "face" else f"layer.{layer}.flat_made.{part_id}"
    if cutting is None:
        return ledger.keep(Figure(id, "flat width as made", None, ready.needs, FLAT_MADE.rule))
    width = dict(cutting.best.flats)[part_id]
    pieces = ledger.keep(Figure(f"layer.{layer}.joined.{part_id}", "its pieces joined", width, (), JOINED))
    return ledger.apply(FLAT_MADE, id, pieces=pieces, end_hem=ledger.read(Allowances.end_hem))
