"""The pages about the layers of cloth: what they are, their pattern, what is there already, the shop, washing."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from msgspec.structs import replace

from wizard.interview.answer_text import usual_text, words_for
from wizard.interview.page import Page
from wizard.interview.pages.ask import AT_ONCE, About, Ask, Asked, asked, counted, page, yes
from wizard.interview.pages.compounds import COMPOUNDS
from wizard.interview.pages.texts import choices
from wizard.trade.field_names import layer_in_words
from wizard.trade.formatting import exact
from wizard.trade.job_fields import LAYERS, SoldBy, Weight
from wizard.trade.lengths import ZERO, Length


def cloth_pages(about: About) -> Iterator[Page]:
    """The face, then the inner layers, then washing."""
    face = about_layer(about, "face")
    yield page("face", face, FACE, (NAME,), "cloth", "face")
    yield from _pattern(face)
    yield page("in-hand", face, *_rows_in_hand(face, AT_ONCE), "owned", "face")
    if not _owned(face):
        yield page("shop", face, SHOP)
    for layer in ("interlining", "lining"):
        yield from _inner(about_layer(about, layer), layer)
    yield from _washing(about)


def last_shop_page(about: About) -> Iterator[Page]:
    """What to buy beside the face cloth in hand, asked once the plan knows that it is short; counted until then."""
    face = replace(about_layer(about, "face"), stage="Cutting")
    buy = next((each.buy.value for each in about.plan.layers if each.id == "face"), None)
    if _owned(face) and buy is None:
        yield counted("shop", face)
    elif _owned(face) and buy is not None and buy > ZERO:
        yield page("shop", face, SHOP)


def about_layer(about: About, layer: str) -> About:
    """What the questions about a layer may name."""
    of_layer = replace(about, stage="Cloth", prefix=f"cloth.{layer}.", group=layer_in_words(layer), section=None)
    unit = words_for(choices()[SoldBy], of_layer.holds("sold_by")).removeprefix("the ")
    return replace(of_layer, words={"layer": of_layer.group, "unit": unit})


def is_inner(about: About) -> bool:
    """An interlining or a lining, which you do not see."""
    return about.prefix != "cloth.face."


def _layer(about: About) -> str:
    return about.prefix.split(".")[1]


def _owned(about: About) -> dict[str, object]:
    """The lengths in hand of the layer."""
    return dict(about.holds_at(f"cloth.{_layer(about)}.owned") or {})


def _pattern(about: About) -> Iterator[Page]:
    """How the pattern repeats; counted while it is not said whether there is one."""
    surface = surface_of(about)
    if not surface:
        yield counted("pattern", about)
    elif "pattern" in surface:
        yield page("pattern", about, PATTERN, (), "pattern", "face")


SURFACE_KEYS: Final = ("cloth.face.one_way", "cloth.face.repeat", "cloth.face.repeat_kind")


def surface_of(about: About) -> str:
    """plain, patterned, one-way, one-way pattern; empty while it is not said."""
    return COMPOUNDS["surface"].read(SURFACE_KEYS, about.project) or ""


def _rows_in_hand(about: About, most: int) -> tuple[tuple[Asked, ...], tuple[Asked, ...]]:
    """A row for each length there, a last one that adds; behind More what is particular to each."""
    rows, more = list[Asked](), list[Asked]()
    lots = [each for each in _owned(about).values() if getattr(each, "lot", None)]
    for number, owned_id in enumerate(_owned(about), 1):
        words = {**about.words, "number": str(number)}
        of_length = replace(about, prefix=f"{about.prefix}owned.{owned_id}.", words=words)
        rows += asked((LENGTH,), of_length)
        # The dye lot of every length matters or of none.
        (rows if lots and len(rows) < most - 2 else more).extend(asked((LOT,), of_length))
        more += asked(OF_A_LENGTH, of_length)
    rows, rest = rows[: most - 1], rows[most - 1 :]
    return (*rows, *asked((ANOTHER_LENGTH,), about)), (*rest, *more)


def _inner(about: About, layer: str) -> Iterator[Page]:
    """A layer behind the face; counted while it is not said whether there is one."""
    use = about.value("use")
    if use is None:
        yield counted(layer, about)
    elif use:
        rows, more = _rows_in_hand(about, AT_ONCE - len(CLOTH))
        at_once, later = ((), SHOP) if _owned(about) else (SHOP, ())
        rest = (NAME, Ask("one_way"), SIDEWAYS, *PATTERN, *later)
        yield page(layer, about, (*CLOTH, *rows, *at_once), (*rest, *more), "cloth", layer)


def _washing(about: About) -> Iterator[Page]:
    """One row a layer, and of what is washed its shrinkage; a page a layer where these are too many for one."""
    layers = [about_layer(about, each) for each in LAYERS]
    used = [each for each in layers if not is_inner(each) or each.value("use")]
    rows = {_layer(each): tuple(asked(_washed_by(each), each)) for each in used}
    if sum(len(each) for each in rows.values()) <= AT_ONCE:
        rows = {"": tuple(each for row in rows.values() for each in row)}
    for layer, row in rows.items():
        yield page(f"washing.{layer}".rstrip("."), used[0], row)


def _washed_by(about: About) -> tuple[Ask, ...]:
    layer = _layer(about)
    owned = tuple(f"cloth.{layer}.owned.{each}.washed" for each in _owned(about))
    shrinkage = (f"cloth.{layer}.warp_shrink", f"cloth.{layer}.weft_shrink")
    return (
        Ask("wash"),
        Ask(
            f"washing.{layer}.shrinkage",
            "washing.shrinkage",
            compound="shrinkage",
            keys=lambda about: shrinkage,
            when=_shrinks,
            example="3 x 1 %",
            later=True,
        ),
        Ask(
            f"washing.{layer}.washed",
            "washing.washed",
            compound="same",
            keys=lambda about: owned,
            when=lambda about: bool(owned) and _shrinks(about),
            usual=lambda about: "no",
            stands=yes,
        ),
    )


def _shrinks(about: About) -> bool:
    return bool(about.holds("wash") == "washed first")


CLOTH: Final = (
    Ask("width"),
    Ask("kind"),
    Ask("weight", usual=lambda about: WEIGHTS.get(about.value("kind") or "")),
)
WEIGHTS: Final[dict[str, Weight]] = {
    "fine silk": "light",
    "lawn": "light",
    "plain cotton": "medium",
    "linen": "medium",
    "flannel": "medium",
    "velvet or other heavy cloth": "heavy",
}
"""What cloth of a kind usually weighs; common practice."""
NAME: Final = Ask("name", optional=yes, example="slate ticking")
SURFACE: Final = Ask(
    "face.surface",
    compound="surface",
    keys=lambda about: SURFACE_KEYS,
    choices=lambda about: choices()["surface"],
    usual=lambda about: "plain",
)
SIDEWAYS: Final = Ask("sideways", when=lambda about: bool(about.holds("one_way")))
LAYERS_BEHIND: Final = Ask(
    "face.layers",
    compound="ticks",
    keys=lambda about: ("cloth.interlining.use", "cloth.lining.use"),
    choices=lambda about: choices()["layers"],
    usual=lambda about: "none",
)
FACE: Final = (*CLOTH, SURFACE, SIDEWAYS, LAYERS_BEHIND)


def _patterned(about: About) -> bool:
    return bool(about.holds("repeat") > ZERO) or about.value("repeat_kind") is not None


def _no_repeat(about: About) -> str | None:
    """Of an inner layer, which is hardly ever patterned."""
    return None if _patterned(about) else usual_text(f"{about.prefix}repeat", about.job)


PATTERN: Final = (
    Ask("repeat", usual=_no_repeat, later=True),
    Ask("repeat_kind", when=_patterned),
    Ask("match", when=_patterned),
    Ask("match_from", when=lambda about: _patterned(about) and bool(about.holds("match"))),
)
LENGTH: Final = Ask("length")
LOT: Final = Ask("lot", optional=yes, example="lot 7")
OF_A_LENGTH: Final = (
    Ask("width", optional=yes),
    Ask("damage_from", optional=yes),
    Ask(
        "damage_to",
        optional=lambda about: about.value("damage_from") is None,
        when=lambda about: about.value("damage_from") is not None or about.value("damage_to") is not None,
    ),
)
ANOTHER_LENGTH: Final = Ask("owned", optional=yes, example="[4 1/2 yd|4.2 m]")


def _shop_step(about: About) -> str | None:
    """An eighth of a yard, or ten centimetres, by the unit the cloth is sold in."""
    sold_by = about.holds("sold_by")
    if (sold_by == "m") == (about.standard == "metric"):
        return usual_text(f"{about.prefix}step", about.job)
    return exact(Length.of(10, "cm"), "cm") if sold_by == "m" else exact(Length.of(Fraction(1, 8), "yd"), "yd")


SHOP: Final = (
    Ask("sold_by"),
    Ask("step", usual=_shop_step),
    Ask("price", optional=yes),
)
