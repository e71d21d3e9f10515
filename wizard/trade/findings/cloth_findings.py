"""What looks wrong about what is bought: the cloth's shrinkage, direction, dye lots and owned lengths, what could not
be laid out; and fixings without a leg that is available, or that do not suit the rail."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Final

from wizard.trade.cutting import Layout, Refusal, Stretch
from wizard.trade.field_names import owned_in_words
from wizard.trade.findings.checker import Checker
from wizard.trade.fixings import shortest
from wizard.trade.formatting import exact, listed, money, number, shown
from wizard.trade.job_fields import Cloth, FixingKind, RailMaterial
from wizard.trade.layers import clashes, layers_in_use
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan_records import Finding, Layer, Remedy
from wizard.trade.sections import sections_on
from wizard.trade.stock import cloth_of, price_for

SPARE: Final = Length(1)
"""Less than this left over does not make up for any flaw. Common practice."""
MUCH_SHRINKAGE: Final = Fraction(1, 10)
"""More than this is rare even for loose weaves: likelier a slip of the pen."""


def cloth_findings(check: Checker) -> Iterator[Finding]:
    """Everything that looks wrong about each layer's cloth."""
    names = {part.id: part.name for part in check.parts}
    for layer, ready in zip(check.layers, check.prepared, strict=True):
        cloth = cloth_of(check.job, layer.id)
        yield from _shrinkage(check, layer, cloth)
        yield from _owned(check, layer, cloth)
        yield from _answers(check, layer, cloth)
        if layer.refused is not None:
            yield _refused(check, layer, layer.refused, names)
        yield from _spare(check, layer, cloth)
        if layer.cutting is not None:
            yield from _lots(check, layer, layer.cutting.best)
            # Joins of two layers above each other make a lump.
            over = check.layers[0] if layer.id != "face" else None
            for part in clashes(ready, over, layer.cutting, layer.rules):
                key = f"cloth.{layer.id}.width"
                yield check.finding(f"joins-close:{layer.id}:{part}", key, [part], part=names[part])


def _shrinkage(check: Checker, layer: Layer, cloth: Cloth) -> Iterator[Finding]:
    key, warp, weft = f"cloth.{layer.id}", cloth.warp_shrink, cloth.weft_shrink
    for leaf, shrink, way in (("warp_shrink", warp, "along the roll"), ("weft_shrink", weft, "across it")):
        if shrink is not None and shrink > MUCH_SHRINKAGE:
            id, percent = f"shrink-much:{layer.id}:{leaf}", number(shrink * 100)
            yield check.finding(id, f"{key}.{leaf}", [shrink], percent=percent, way=way)
    if cloth.wash == "washed first" and not warp and not weft:
        # Until it was asked for nothing has to be read again.
        yield check.finding(
            f"shrink-none:{layer.id}", f"{key}.warp_shrink", ["none"], other=f"{key}.weft_shrink",
            level="note" if warp is None or weft is None else "ask",
        )  # fmt: skip
    comes_off = check.job.survey.taken_off != "stays on"
    if cloth.wash in (None, "not washed") and layer.usable.value is not None and comes_off:
        # A face that puckers where a layer behind it shrinks.
        face = check.job.cloth.face
        fine = layer.id != "face" and (face.kind in ("fine silk", "lawn") or face.weight == "sheer")
        yield check.finding(
            f"not-washed:{layer.id}", f"{key}.wash", ["not washed"], variant="behind fine" if fine else "",
            offers=[Remedy(f"Wash the {layer.name} first", {f"{key}.wash": "washed first"})] if fine else (),
        )  # fmt: skip


def _spare(check: Checker, layer: Layer, cloth: Cloth) -> Iterator[Finding]:
    """Cloth bought with hardly any left over: a flaw, or a slip in cutting, and it does not do."""
    buy, roll = layer.buy.value, layer.roll.value
    if not buy or roll is None or buy - roll >= SPARE:
        return
    unit = check.value(Cloth.sold_by, f"cloth.{layer.id}") or "yd"
    price, more = cloth.price, buy + (check.value(Cloth.step, f"cloth.{layer.id}") or ZERO)
    costs = None if price is None else price_for(more, price, unit) - price_for(buy, price, unit)
    yield check.finding(
        f"nothing-spare:{layer.id}", f"cloth.{layer.id}.step", {"buy": buy}, bought=exact(buy, unit),
        spare=check.length(buy - roll), more=exact(more, unit),
        costs="" if costs is None else f", {check.job.currency or ''}{money(costs)} more",
    )  # fmt: skip


def _answers(check: Checker, layer: Layer, cloth: Cloth) -> Iterator[Finding]:
    """Answers that do not go together, or are missing beside others."""
    key, repeat = f"cloth.{layer.id}", f"cloth.{layer.id}.repeat"
    if cloth.lay == "along" and cloth.one_way and not cloth.sideways:
        # It would hang on its side.
        yield check.finding(f"one-way-along:{layer.id}", f"{key}.lay", ["one-way", "along"])
    if cloth.repeat_kind is not None and cloth.repeat is None and repeat not in check.job.unusable:
        yield check.finding(f"repeat-unread:{layer.id}", repeat, [cloth.repeat_kind])
    if cloth.way in ("slit", "stacked") and layer.cutting is not None and layer.cutting.best.way != cloth.way:
        # The job no longer has that way.
        yield check.finding(f"way-gone:{layer.id}", f"{key}.way", {"way": cloth.way})
    without = [owned_id for owned_id, owned in cloth.owned.items() if owned.lot is None]
    if without and len(without) < len(cloth.owned):
        # Whether they differ from those with a dye lot is not known.
        lengths = listed([owned_in_words(each) for each in without])
        yield check.finding(f"lots-missing:{layer.id}", f"{key}.owned.{without[0]}.lot", without, lengths=lengths)


def _owned(check: Checker, layer: Layer, cloth: Cloth) -> Iterator[Finding]:
    """Owned lengths: damage that makes no sense, and lengths too short for any cut."""
    cuts = [figure.value for figure in layer.cut_lengths.values() if figure.value is not None]
    squaring = layer.rules.squaring if layer.rules else ZERO
    for owned_id, owned in cloth.owned.items():
        here, key, name = f"{layer.id}:{owned_id}", f"cloth.{layer.id}.owned.{owned_id}", owned_in_words(owned_id)
        start, end, length = owned.damage_from, owned.damage_to, owned.length
        if start is not None and end is not None and (end <= start or (length is not None and end > length)):
            yield check.finding(
                f"damage:{here}", f"{key}.damage_to", [start, end, length or ZERO], other=f"{key}.damage_from",
                owned=name, start=start, end=end,
            )  # fmt: skip
        stretch = next((each for each in layer.stock if each.id == owned_id), None)
        if length is None or stretch is None or not cuts or cloth.lay == "along":
            continue
        if _longest(stretch, squaring) < min(cuts):
            washed = cloth.wash == "washed first" and not owned.washed
            yield check.finding(
                f"owned-unused:{here}", f"{key}.length", {"length": length, "cut": min(cuts)}, owned=name,
                variant="damaged" if stretch.damage else "", prepared="squared and washed" if washed else "squared",
            )  # fmt: skip


def _longest(stretch: Stretch, squaring: Length) -> Length:
    """The longest sound stretch of an owned length, squared and washed."""
    whole = stretch.length or ZERO
    starts = [squaring, *(max(end, squaring) for _, end in stretch.damage)]
    ends = [*(min(start, whole) for start, _ in stretch.damage), whole]
    return max(end - start for start, end in zip(starts, ends, strict=True))


MENDED_AT: Final[Mapping[str, str]] = {
    "no strips": "survey.section",
    "cut too long": "cloth.{layer}.owned",
    "usable too narrow": "cloth.{layer}.width",
    "piece too narrow": "allowances.least_piece",
    "no cloth": "cloth.{layer}.owned",
    "cannot join": "allowances.least_piece",
    "joins along": "fullness.joins",
    "way along": "cloth.{layer}.way",
    "too much": "fullness.want",
}
"""The key that would correct each refusal."""


def _refused(check: Checker, layer: Layer, refusal: Refusal, names: Mapping[str, str]) -> Finding:
    """Why nothing could be laid out, and what would do."""
    needed, found, variant, amounts = refusal.needed, refusal.found, str(refusal.reason), ""
    if refusal.reason == "no cloth" and needed is not None and found is not None:
        # Of all pieces together the need is that of their area, so it is the least; but lengths do not pool.
        variant = "no cloth found" if not refusal.certain else variant if needed > found else "no cloth in one length"
    elif needed is not None:
        amounts = f" It needs {shown(needed, check.ruler)}"
        amounts += "." if found is None else f"; you have {shown(found, check.ruler)}."
    return check.finding(
        f"refused:{layer.id}", MENDED_AT[refusal.reason].format(layer=layer.id),
        [refusal.reason, *(each for each in (needed, found) if each is not None)], variant=variant, layer=layer.name,
        part=f"{names.get(refusal.strip, refusal.strip)}: " if refusal.strip else "", amounts=amounts,
        needed=needed or ZERO, found=found or ZERO,
    )  # fmt: skip


def _lots(check: Checker, layer: Layer, layout: Layout) -> Iterator[Finding]:
    """Dye lots differ: one section should come from one lot. Where none is given, each length may be its own."""
    told = any(stretch.lot for stretch in layer.stock)
    if not told and layer.id != "face":
        return
    lots = {
        each.id: "the roll" if each.length is None else each.lot or (None if told else owned_in_words(each.id))
        for each in layer.stock
    }
    sections = {strip.id: strip.section for strip in layer.strips}
    used: dict[str, dict[str, None]] = {}
    for piece in layout.pieces:
        if lot := lots[piece.stretch]:
            used.setdefault(sections[piece.strip], {})[lot] = None
    for section, here in used.items():
        if len(here) > 1:
            yield check.finding(
                f"dye-lots:{layer.id}:{section}", f"cloth.{layer.id}.owned", tuple(here),
                variant="" if told else "lengths", section=check.section(section), lots=", ".join(here),
            )  # fmt: skip


SUITS: Final[Mapping[RailMaterial, tuple[FixingKind, ...]]] = {
    "solid wood": ("staples", "tacks", "adhesive hook-and-loop", "glue"),
    "veneered board": ("staples", "adhesive hook-and-loop", "glue"),
    "metal": ("adhesive hook-and-loop", "magnets"),
    "upholstered": ("hook-and-loop", "upholstery pins"),
    "heirloom": ("hook-and-loop",),
}
"""Fixings that suit a rail, the most usual first. Common practice; on an heirloom hook-and-loop is sewn to a band that
is tied round it."""
MATERIALS: Final = {"upholstered": "upholstered wood or board", "heirloom": "an heirloom bed"}
"""What a rail is made of, where its name does not say it."""
COMES_OFF: Final[tuple[FixingKind, ...]] = ("adhesive hook-and-loop", "hook-and-loop", "magnets", "upholstery pins")
"""Fixings a skirt comes off and goes back on by."""
INTO_WOOD: Final[tuple[FixingKind, ...]] = ("staples", "tacks", "upholstery pins")
"""Fixings that go into the wood."""
LEAVES_MARKS: Final = (*INTO_WOOD, "adhesive hook-and-loop", "glue")
"""Fixings that leave a mark when they come off."""


def fixing_findings(check: Checker) -> Iterator[Finding]:
    """Everything that looks wrong about the fixings; nothing while their kind is not chosen."""
    kind = check.job.cloth.fixing.kind
    if kind is None:
        return
    if kind in ("staples", "tacks"):
        yield from _leg(check)
    yield from _rails(check, kind)
    for watch, id, kinds in (("old paint", "fixing-paint", INTO_WOOD), ("antique", "fixing-antique", LEAVES_MARKS)):
        if kind in kinds and watch in (check.job.survey.watch or ()):
            values = {"watch": watch, "kind": kind}
            yield check.finding(id, "cloth.fixing.kind", values, other="survey.watch", do=_do(kind))
    if check.job.survey.taken_off == "often" and kind not in COMES_OFF:
        often = {"often": "often", "kind": kind}
        yield check.finding("fixing-cleaning", "cloth.fixing.kind", often, other="survey.taken_off", do=_do(kind))


def _leg(check: Checker) -> Iterator[Finding]:
    """No available leg is between the least and the longest."""
    least, most = check.worked("fixing.leg_least"), check.worked("fixing.leg_most")
    legs = check.worked("cloth.fixing.legs")
    if least is None or most is None or legs is None or shortest(legs, least, most) is not None:
        return
    thin = least > most
    keys = ("cloth.fixing.kind", "survey.rail_thickness") if thin else ("cloth.fixing.legs", "cloth.fixing.kind")
    yield check.finding(
        "fixing-leg", keys[0], [least, most, *(each for each in legs if each is not None)],
        other=keys[1], variant="thin rail" if thin else "", layers=listed(layers_in_use(check.ledger)),
        least=least, most=most, inside=max(most, ZERO),
    )  # fmt: skip


def _rails(check: Checker, kind: FixingKind) -> Iterator[Finding]:
    """One finding for each section whose rail the fixing does not suit."""
    for id, section in sections_on(check.job):
        rail = section.rail or check.job.survey.rail
        tied = kind == "hook-and-loop" and "antique" in (check.job.survey.watch or ())
        if rail is not None and kind not in SUITS[rail] and not tied:
            material = MATERIALS.get(rail, rail)
            yield check.finding(
                f"fixing-unsuited:{id}", "cloth.fixing.kind", {"rail": rail, "kind": kind}, do=_do(kind),
                other=f"survey.section.{id}.rail" if section.rail else "survey.rail", section=check.section(id),
                variant="heirloom" if rail == "heirloom" else "", better=" or ".join(SUITS[rail]),
                material=material,
            )  # fmt: skip


def _do(kind: FixingKind) -> str:
    return "do" if kind.endswith("s") else "does"
