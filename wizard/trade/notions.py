"""Tape, thread and needles: rows of stitching, how much to buy, and which needle and stitch suit the cloth.

Tape (common practice): of width `T` it folds to `T/2`, both lower edges on the drop line. The raw edge lies `top` above
the drop line, not in the fold; the tape stitch lies just above the drop line and covers both other rows.
Thread: lockstitch (301) takes about 2.5 times the length of its seam, a published handbook's ratio; 15 % more is for
starts, ends and bobbins. Needles: the metric number Nm is the blade in hundredths of a millimetre, paired with an older
number (a needle maker's table). Which needle suits which cloth, and the stitch lengths, are common practice.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from functools import partial
from typing import Final, Literal

from wizard.trade.field_names import layer_in_words
from wizard.trade.figures import Figure, Formula, Ledger, Rule, merged
from wizard.trade.formatting import number, ruler_of
from wizard.trade.job_fields import Cloth, FixingKind, LayerId, Tape, Thread
from wizard.trade.lengths import ZERO, Length, ceiling, round_up, total
from wizard.trade.parts import is_gathered
from wizard.trade.plan_records import Layer, Part
from wizard.trade.stock import cloth_of, cost_figure

_STAY: Final = (Length(Fraction(1, 4)), Length.of(6, "mm"))
_BELOW: Final = (Length(Fraction(1, 8)), Length.of(3, "mm"))
LEAST_TOP: Final = Length(Fraction(1, 2))
"""Least top allowance: under it the rows do not find room between raw edge and drop line."""


def round_up_to(length: Length, step: Length) -> Length:
    """`length` up to the shop's step; as it is where the step is nothing."""
    return round_up(length, step) if step else length


FOLD = Formula("folded tape", "{width} ÷ 2", lambda width: width / 2)
STAY_ROW = Rule("stay-stitching", "{value}")
GATHERING_ROW = Formula("gathering row", "{stay} + {below}", lambda stay, below: stay + below)
BELOW = Rule("below the stay-stitching", "{value}")
TAPE_TO_BUY = Formula("tape to buy", "{length}, rounded up to {step}", round_up_to)
TAPE_COST = Rule("cost of tape", "{buy} at {price} for 1 {sold_by}")


def row_figures(ledger: Ledger) -> tuple[Figure[Length], Figure[Length], Figure[Length]]:
    """(fold, stay-stitching row, gathering row): `tape.fold` is `T/2`; the rows are that far from the raw edge."""
    fold = ledger.apply(FOLD, "tape.fold", width=ledger.read(Tape.width))
    metric = ledger.standard == "metric"
    stay = ledger.keep(Figure("rows.stay", "stay-stitching", _STAY[metric], (), STAY_ROW))
    below = ledger.keep(Figure("rows.below", "below the stay-stitching", _BELOW[metric], (), BELOW))
    return fold, stay, ledger.apply(GATHERING_ROW, "rows.gathering", stay=stay, below=below)


def tape_figures(ledger: Ledger, parts: Sequence[Part]) -> Figure[Length]:
    """Keep `tape.length`, `tape.buy` and `tape.cost`; gives `tape.buy`. No value without parts."""
    cuts = {each.id: each.tape for each in parts}
    length = ledger.total("tape.length", "tape", "", cuts, formula="all tape cuts together")
    buy = ledger.apply(TAPE_TO_BUY, "tape.buy", length=length, step=ledger.read(Tape.step))
    cost_figure(ledger, "tape.cost", "cost of tape", "tape", buy, TAPE_COST)
    return buy


LOOPED: Final[tuple[FixingKind, ...]] = ("adhesive hook-and-loop", "hook-and-loop")
"""Fixings whose loop side is sewn along the tape, once along each edge."""

ROWS = Formula("stitching of the rows", "{stay} + {gathering}", lambda stay, gathering: stay + gathering)
LINES = Rule("stitching", "{joins} + {hems} + {rows} + {tape} + {loop}")
THREAD_LENGTH = Rule(
    "thread", "{lines} × {ratio} × (1 + {waste})",
    source="a published handbook (lockstitch 301), common practice for the waste",
)  # fmt: skip
SPOOLS = Formula(
    "spools of thread", "{length} ÷ {spool}, rounded up",
    lambda length, spool: ceiling(length / spool) if spool > ZERO else None,
)  # fmt: skip
THREAD_COST = Formula("cost of thread", "{spools} × {price}", lambda spools, price: spools * price)


Term = tuple[int, str, Figure[Length]]
"""How often a length is stitched, a name to tell it by, and the length."""


def thread_figures(ledger: Ledger, parts: Sequence[Part], layers: Sequence[Layer]) -> Figure[int]:
    """Keep `thread.lines` and all it is made of, `thread.length`, `thread.spools`, `thread.cost`; gives the spools."""
    mark = ruler_of(ledger.job).mark
    looped = parts if ledger.job.cloth.fixing.kind in LOOPED else ()
    line, once = partial(_line, ledger, layers), [(1, part.id, part.flat_made) for part in parts]
    gathered = [each for part, each in zip(parts, once, strict=True) if is_gathered(part, mark)]
    stay = line("stay", "rows of stay-stitching", once)
    gathering = line("gathering", "gathering rows", gathered)
    rows = ledger.apply(ROWS, "thread.rows", stay=stay, gathering=gathering)
    lines = ledger.work(
        "thread.lines", "stitching", LINES, lambda **each: total(each.values()) if parts else None, rows=rows,
        joins=line("joins", "stitching of the joins", _joins(layers)),
        hems=line("hems", "stitching of the hems", [*_hems(ledger, parts, layers)]),
        tape=line("tape", "stitching of the tape", _tape(ledger, parts)),
        loop=line("loop", "stitching of the loop side", [(2, part.id, part.gathered) for part in looped]),
    )  # fmt: skip
    length = ledger.work(
        "thread.length", "thread", THREAD_LENGTH, thread_for, lines=lines,
        ratio=ledger.read(Thread.ratio), waste=ledger.read(Thread.waste),
    )  # fmt: skip
    spools = ledger.apply(SPOOLS, "thread.spools", length=length, spool=ledger.read(Thread.spool))
    ledger.apply(THREAD_COST, "thread.cost", spools=spools, price=ledger.read(Thread.price))
    return spools


def _line(ledger: Ledger, layers: Sequence[Layer], leaf: str, title: str, terms: Sequence[Term]) -> Figure[Length]:
    """All stitching of one sort, `thread.LEAF`; no value before every layer is laid out."""
    if any(each.cutting is None for each in layers):
        needs = merged([*(each.needs for each in layers), *(figure.needs for *_, figure in terms)])
        return ledger.keep(Figure(f"thread.{leaf}", title, None, needs, Rule(title, "every line of it")))
    formula = " + ".join(f"{{{name}}}" if times == 1 else f"{times} × {{{name}}}" for times, name, _ in terms)
    often = {name: times for times, name, _ in terms}
    return ledger.work(
        f"thread.{leaf}", title, Rule(title, formula or "none"),
        lambda **lengths: total(length * often[name] for name, length in lengths.items()),
        **{name: figure for _, name, figure in terms},
    )  # fmt: skip


def _joins(layers: Sequence[Layer]) -> list[Term]:
    """Every piece but a part's first is joined on along its cut."""
    pieces = [(each, Counter(piece.strip for piece in each.cutting.best.pieces)) for each in layers if each.cutting]
    return [
        (count - 1, f"{layer.id} {part}", layer.cut_lengths[part])
        for layer, counts in pieces
        for part, count in counts.items()
        if count > 1
    ]


def _hems(ledger: Ledger, parts: Sequence[Part], layers: Sequence[Layer]) -> Iterator[Term]:
    """Below as long as the flat width, at both ends as long as the cut."""
    for layer in layers:
        for part in parts:
            flat = ledger.figures.get(f"layer.{layer.id}.flat_made.{part.id}", part.flat_made)
            yield 1, f"{layer.id} {part.id} below", flat
            yield 2, f"{layer.id} {part.id} ends", layer.cut_lengths[part.id]


def _tape(ledger: Ledger, parts: Sequence[Part]) -> list[Term]:
    """Along each tape twice, and across both of its ends."""
    return [*((2, part.id, part.gathered) for part in parts), (2 * len(parts), "fold", row_figures(ledger)[0])]


def thread_for(lines: Length, ratio: Fraction, waste: Fraction) -> Length:
    """Thread for `lines` of stitching, exact: `ratio` is thread over seam, `waste` a part of one."""
    return lines * ratio * (1 + waste)


PAIRS: Final[Mapping[int, int]] = {60: 8, 70: 10, 75: 11, 80: 12, 90: 14, 100: 16, 110: 18, 120: 19}
"""Nm -> the older number printed beside it."""

BY_KIND: Final[Mapping[str, int]] = {
    "fine silk": 70,
    "lawn": 70,
    "plain cotton": 80,
    "linen": 90,
    "flannel": 90,
    "velvet or other heavy cloth": 100,
}
"""Nm by kind of cloth; `other` goes by its weight."""
BY_WEIGHT: Final[Mapping[str, int]] = {"sheer": 60, "light": 70, "medium": 80, "heavy": 100}

Stitch = Literal["join", "gathering", "tape"]
STITCHES: Final[Mapping[Stitch, Fraction]] = {"join": Fraction(5, 2), "gathering": Fraction(4), "tape": Fraction(3)}
"""Stitch length in mm: for joins, hems and stay-stitching; for gathering (or the longest there is); through tape."""

NEEDLE = Rule("needle", "{cloth}")


def needle_of(ledger: Ledger, layer: LayerId) -> Figure[int]:
    """The needle (Nm) for one layer, `needle.LAYER`: by its kind, else by its weight."""
    said = cloth_of(ledger.job, layer)
    by_weight = said.kind == "other" or (said.kind is None and said.weight is not None)
    cloth: Figure[str] = ledger.read(Cloth.weight if by_weight else Cloth.kind, f"cloth.{layer}")
    title, sizes = f"needle for the {layer_in_words(layer)}", {**BY_WEIGHT, **BY_KIND}
    return ledger.work(f"needle.{layer}", title, NEEDLE, lambda cloth: sizes[cloth], cloth=cloth)


def needle_through(ledger: Ledger, layers: Sequence[LayerId]) -> Figure[int]:
    """The needle (Nm) that goes through all `layers` at once, `needle.all`."""
    needles = {layer: needle_of(ledger, layer) for layer in layers}
    rule = Rule("needle through the layers", "the largest of " + ", ".join(f"{{{layer}}}" for layer in needles))
    return ledger.work(
        "needle.all", "needle through all layers", rule, lambda **each: max(each.values(), default=None), **needles
    )


def size(nm: int) -> str:
    """A needle's size as printed on its packet: `70/10`. `nm` is a key of PAIRS."""
    return f"{nm}/{PAIRS[nm]}"


def stitches_an_inch(length_mm: Fraction) -> Fraction:
    """Stitches an inch at a stitch length in mm, exactly: 25.4 ÷ length."""
    return Fraction(254, 10) / length_mm


def stitch_in_words(stitch: Stitch, *, metric: bool) -> str:
    """`stitch length 2.5 mm (about 10 stitches per inch)`: machines count either way; a metric job has mm alone."""
    length = STITCHES[stitch]
    per_inch = "" if metric else f" (about {round(stitches_an_inch(length))} stitches per inch)"
    return f"stitch length {number(length)} mm{per_inch}"
