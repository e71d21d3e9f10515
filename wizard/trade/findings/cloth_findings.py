"""What looks wrong about the cloth: shrinkage, direction, dye lots, lengths in hand, and what the layout refused."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Final

from wizard.trade.cutting import Cutting, Layout, Refusal, Stretch
from wizard.trade.findings.finding_text import Sayer
from wizard.trade.formatting import number
from wizard.trade.job import Cloth
from wizard.trade.keynames import owned_in_words
from wizard.trade.layers import Prepared, clashes
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan import Finding, Layer, Level, Part
from wizard.trade.sections import section_name
from wizard.trade.stock import cloth_of

MUCH_SHRINKAGE: Final = Fraction(1, 10)
"""More than this is rare even for loose weaves: likelier a slip of the pen."""


def cloth_findings(
    say: Sayer, layers: Sequence[Layer], prepared: Sequence[Prepared], parts: Sequence[Part]
) -> Iterator[Finding]:
    """Everything that looks wrong about each layer's cloth."""
    names = {part.id: part.name for part in parts}
    for layer, ready in zip(layers, prepared, strict=True):
        cloth = cloth_of(say.ledger.job, layer.id)
        yield from _shrinkage(say, layer, cloth)
        yield from _direction(say, layer, cloth)
        yield from _in_hand(say, layer, cloth)
        if layer.refused is not None:
            yield _refused(say, layer, layer.refused, names)
        if layer.cutting is not None:
            yield from _lots(say, layer, layer.cutting.best)
            yield from _way(say, layer, cloth, layer.cutting)
            yield from _joins(say, layer, ready, layers[0], names)


def _shrinkage(say: Sayer, layer: Layer, cloth: Cloth) -> Iterator[Finding]:
    key = f"cloth.{layer.id}"
    for leaf, way in (("warp_shrink", "along the roll"), ("weft_shrink", "across it")):
        shrink: Fraction | None = getattr(cloth, leaf)
        if shrink is not None and shrink > MUCH_SHRINKAGE:
            yield say.finding(
                f"shrink-much:{layer.id}:{leaf}", "ask", f"{key}.{leaf}",
                f"{layer.name}: a shrinkage of {number(shrink * 100)} % {way} is surprisingly much.",
                "Wash a marked piece and read it again, or keep it.", shrink,
            )  # fmt: skip
    if cloth.wash == "washed first" and not cloth.warp_shrink and not cloth.weft_shrink:
        # Until it was asked for nothing has to be read again.
        level: Level = "note" if cloth.warp_shrink is None or cloth.weft_shrink is None else "ask"
        yield say.finding(
            f"shrink-none:{layer.id}", level, f"{key}.warp_shrink",
            f"{layer.name} is to be washed first, but no shrinkage is given, so none is allowed for.",
            "Wash a marked piece and read what it loses both ways; or keep it if it loses nothing.", "none",
            other=f"{key}.weft_shrink",
        )  # fmt: skip
    comes_off = say.ledger.job.survey.taken_off != "stays on"
    if cloth.wash in (None, "not washed") and layer.usable.value is not None and comes_off:
        yield say.finding(
            f"not-washed:{layer.id}", "note", f"{key}.wash",
            f"{layer.name} is not washed before it is cut: it may shrink when the skirt is cleaned.",
            "Wash it first, or have the skirt dry-cleaned.", "not washed",
        )  # fmt: skip


def _direction(say: Sayer, layer: Layer, cloth: Cloth) -> Iterator[Finding]:
    """One-way cloth laid along the roll lies on its side."""
    if cloth.lay == "along" and cloth.one_way and not cloth.sideways:
        yield say.finding(
            f"one-way-along:{layer.id}", "stop", f"cloth.{layer.id}.lay",
            f"{layer.name} has a nap or pattern that must stay upright; along the roll it would lie on its side.",
            "Cut it across the roll, or say that it may lie sideways.", "one-way", "along",
        )  # fmt: skip


def _in_hand(say: Sayer, layer: Layer, cloth: Cloth) -> Iterator[Finding]:
    """Lengths in hand: damage that makes no sense, and lengths too short for any cut."""
    cuts = [figure.value for figure in layer.cut_lengths.values() if figure.value is not None]
    squaring = layer.rules.squaring if layer.rules else ZERO
    for owned_id, owned in cloth.owned.items():
        key, where = f"cloth.{layer.id}.owned.{owned_id}", f"{layer.name}, {owned_in_words(owned_id)}"
        start, end, length = owned.damage_from, owned.damage_to, owned.length
        if start is not None and end is not None and (end <= start or (length is not None and end > length)):
            yield say.finding(
                f"damage:{layer.id}:{owned_id}", "ask", f"{key}.damage_to",
                f"{where}: damage from {say.length(start)} to {say.length(end)} does not lie on it.",
                "Read both from the same end, the nearer first.", start, end, length or ZERO,
                other=f"{key}.damage_from",
            )  # fmt: skip
        stretch = next((each for each in layer.stock if each.id == owned_id), None)
        if length is None or stretch is None or not cuts or cloth.lay == "along":
            continue
        if _longest(stretch, squaring) < min(cuts):
            once = "squared and washed" if cloth.wash == "washed first" and not owned.washed else "squared"
            what = ", every sound stretch of it" if stretch.damage else " it"
            yield say.finding(
                f"owned-unused:{layer.id}:{owned_id}", "note", f"{key}.length",
                f"{where}: once {once}{what} is shorter than any cut, {say.length(min(cuts))}, so it is not used.",
                "Keep it for mending.", length, min(cuts),
            )  # fmt: skip


def _longest(stretch: Stretch, squaring: Length) -> Length:
    """The longest sound stretch of a length in hand, as it lies once it is squared, and washed where it is to be."""
    whole = stretch.length or ZERO
    starts = [squaring, *(max(end, squaring) for _, end in stretch.damage)]
    ends = [*(min(start, whole) for start, _ in stretch.damage), whole]
    return max(end - start for start, end in zip(starts, ends, strict=True))


def _refused(say: Sayer, layer: Layer, refusal: Refusal, names: dict[str, str]) -> Finding:
    """Why nothing could be laid out, and what would do."""
    strip = f"{names.get(refusal.strip, refusal.strip)}: " if refusal.strip else ""
    words, way_out, leaf = _REFUSED[refusal.reason]
    if not refusal.certain:
        words = "no way was found of cutting every piece from the cloth there is"
    values = [each for each in (refusal.needed, refusal.found) if each is not None]
    return say.finding(
        f"refused:{layer.id}", "stop", leaf.format(layer=layer.id),
        f"{layer.name}: {strip}{words}.{_numbers(say, refusal)}", way_out, refusal.reason, *values,
    )  # fmt: skip


def _numbers(say: Sayer, refusal: Refusal) -> str:
    """What it needs and what there is. Of all pieces together the need is that of their area, so it is the least."""
    if refusal.needed is None:
        return ""
    needs = f" It needs {'at least ' if refusal.reason == 'no cloth' else ''}{say.near(refusal.needed)}"
    if refusal.found is None:
        return f"{needs}."
    if not refusal.certain:
        return (
            f"{needs} of the {say.near(refusal.found)} there is, but lengths do not pool. Not every way was looked at, "
            "so one may be left."
        )
    if refusal.reason == "no cloth" and refusal.needed <= refusal.found:
        return (
            f"{needs} of the {say.near(refusal.found)} there is, but what is left beside the pieces and at the ends of "
            "the lengths is too small for the last of them: lengths do not pool."
        )
    return f"{needs}; there is {say.near(refusal.found)}."


_REFUSED: Final[dict[str, tuple[str, str, str]]] = {
    "no strips": ("there is nothing to cut", "Switch a section on.", "survey.section"),
    "cut too long": (
        "the cut is longer than any length of cloth", "Add a longer length, or buy some.", "cloth.{layer}.owned",
    ),
    "usable too narrow": (
        "the usable width is too narrow to be joined up", "Take a wider cloth or a narrower join.",
        "cloth.{layer}.width",
    ),
    "piece too narrow": (
        "a piece would be narrower than the least piece",
        "Allow a smaller least piece, or take a wider cloth.",
        "allowances.least_piece",
    ),
    "no cloth": (
        "the cloth there is does not give every piece",
        "Add a length; or choose a number for the fullness, and buy the rest.",
        "cloth.{layer}.owned",
    ),
    "cannot join": (
        "no joins can be placed so that every piece is wide enough",
        "Allow a smaller least piece, or take a wider cloth.",
        "allowances.least_piece",
    ),
    "joins along": (
        "it is laid along the roll, where no widths are joined, so the choice of whole or half widths cannot hold",
        "Choose part widths, or lay it across the roll.",
        "fullness.joins",
    ),
    "way along": (
        "it is laid along the roll, and the way chosen for cutting it cannot be had there",
        "Choose the least cloth, or lay it across the roll.",
        "cloth.{layer}.way",
    ),
    "too much": (
        "that is far more cloth than a bed skirt takes", "Read the runs and the fullness again: one of them is a slip.",
        "fullness.want",
    ),
}  # fmt: skip
"""What each refusal says, its way out, and the key that would mend it."""


def _lots(say: Sayer, layer: Layer, layout: Layout) -> Iterator[Finding]:
    """Dye lots differ: one section should come from one lot. Where no lot is said, each length may be of its own."""
    told = any(stretch.lot for stretch in layer.stock)
    if not told and layer.id != "face":
        return
    lots = {stretch.id: _lot(stretch, told) for stretch in layer.stock}
    sections = {strip.id: strip.section for strip in layer.strips}
    used: dict[str, dict[str, None]] = {}
    for piece in layout.pieces:
        if lot := lots.get(piece.stretch):
            used.setdefault(sections[piece.strip], {}).setdefault(lot, None)
    for section, here in used.items():
        if len(here) > 1:
            name = section_name(say.ledger.job, section)
            found = (
                "comes from more than one dye lot" if told else "comes from lengths that may be of different dye lots"
            )
            yield say.finding(
                f"dye-lots:{layer.id}:{section}", "warn", f"cloth.{layer.id}.owned",
                f"{name}: its {layer.name} {found}: {', '.join(here)}.",
                "Hold the lengths side by side in daylight before cutting. If they differ, use one for the section, "
                "and say the dye lots. If they match, keep it.", *here,
            )  # fmt: skip


def _lot(stretch: Stretch, told: bool) -> str | None:
    """The dye lot a length is of, as far as it is said; while none is said for any, the length itself."""
    if stretch.length is None:
        return "the roll"
    return stretch.lot or (None if told else owned_in_words(stretch.id))


def _way(say: Sayer, layer: Layer, cloth: Cloth, cutting: Cutting) -> Iterator[Finding]:
    """A way of cutting that was chosen, and is not to be had as the job stands now."""
    if cloth.way in ("slit", "stacked") and cutting.best.way != cloth.way:
        yield say.finding(
            f"way-gone:{layer.id}", "ask", f"cloth.{layer.id}.way",
            f"{layer.name} was to be cut {cloth.way}; as the job stands that saves nothing, so it is cut across for "
            "the least cloth.",
            "Look at the ways again, or keep it so.", cloth.way,
        )  # fmt: skip


def _joins(say: Sayer, layer: Layer, ready: Prepared, face: Layer, names: dict[str, str]) -> Iterator[Finding]:
    """Joins of two layers above each other make a lump."""
    if layer is face or layer.cutting is None or layer.rules is None:
        return
    for part in clashes(ready, face, layer.cutting, layer.rules):
        yield say.finding(
            f"joins-close:{layer.id}:{part}", "note", f"cloth.{layer.id}.width",
            f"{names[part]}: a join of the {layer.name} lies within 2 in of one of the face's.",
            "Press the two seams apart to either side.", part,
        )  # fmt: skip
