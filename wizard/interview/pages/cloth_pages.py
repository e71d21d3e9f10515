"""The pages about the layers of cloth: what they are, their pattern, what is there already, the shop, washing."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from wizard.interview.answer_text import words_for
from wizard.interview.page import Copy, Page
from wizard.interview.pages.ask import AT_ONCE, About, Ask, Asked, asked, counted, held, page
from wizard.interview.pages.compounds import COMPOUNDS
from wizard.interview.pages.texts import choices
from wizard.project.encode import plain
from wizard.trade.field_names import layer_in_words
from wizard.trade.job_fields import LAYERS, SoldBy, Weight
from wizard.trade.lengths import ZERO


def cloth_pages(about: About) -> Iterator[Page]:
    """The face, then the inner layers, then washing."""
    face = about_layer(about, "face")
    behind = tuple(f"cloth.{each}.use" for each in LAYERS[1:])
    asks = (
        *_cloth(face),
        Ask("face.surface", keys=SURFACE_KEYS, compound="surface", choices=choices()["surface"]),
        _sideways(face),
        Ask("face.layers", keys=behind, compound="ticks", choices=choices()["layers"]),
    )
    yield page("face", face, asks, ("name",), "cloth", "face")
    # Counted while it is not said whether there is a pattern.
    surface = COMPOUNDS["surface"].read(SURFACE_KEYS, about.project)
    if surface is None:
        yield counted("pattern", face)
    elif "pattern" in surface:
        yield page("pattern", face, _how_it_repeats(face), (), "pattern", "face")
    yield page("in-hand", face, *_rows_in_hand(face, AT_ONCE), "owned", "face")
    if not _owned(face):
        yield page("shop", face, _shop(face))
    for layer in LAYERS[1:]:
        yield from _inner(about_layer(about, layer), layer)
    yield from _washing(used_layers(about))


SURFACE_KEYS: Final = ("cloth.face.one_way", "cloth.face.repeat", "cloth.face.repeat_kind")


def last_shop_page(about: About) -> Iterator[Page]:
    """What to buy beside the face cloth in hand, asked once the plan knows that it is short; counted until then."""
    face = replace(about_layer(about, "face"), stage="Cutting")
    buy = next((each.buy.value for each in about.plan.layers if each.id == "face"), None)
    if _owned(face) and buy is None:
        yield counted("shop", face)
    elif _owned(face) and buy is not None and buy > ZERO:
        yield page("shop", face, _shop(face))


def about_layer(about: About, layer: str) -> About:
    """What the questions about a layer may name."""
    unit = words_for(choices()[SoldBy], held(about.job, f"cloth.{layer}.sold_by")).removeprefix("the ")
    words = {"layer": layer_in_words(layer), "unit": unit}
    return replace(about, stage="Cloth", prefix=f"cloth.{layer}.", section=None, words=words)


def _layer(about: About) -> str:
    return about.prefix.split(".")[1]


def _owned(about: About) -> dict[str, object]:
    """The lengths in hand of the layer."""
    return dict(held(about.job, f"cloth.{_layer(about)}.owned") or {})


def used_layers(about: About) -> list[About]:
    """The face, and the inner layers in use."""
    face, *inner = (about_layer(about, each) for each in LAYERS)
    return [face, *(each for each in inner if each.value("use"))]


def _rows_in_hand(about: About, most: int) -> tuple[tuple[Asked, ...], tuple[Asked, ...]]:
    """A row for each length there, a last one that adds; behind More what is particular to each."""
    rows, more = list[Asked](), list[Asked]()
    lots = [each for each in _owned(about).values() if getattr(each, "lot", None)]
    for number, owned_id in enumerate(_owned(about), 1):
        words = {**about.words, "number": str(number)}
        of_length = replace(about, prefix=f"{about.prefix}owned.{owned_id}.", words=words)
        rows += asked(("length",), of_length)
        # The dye lot of every length matters or of none.
        (rows if lots and len(rows) < most - 2 else more).extend(asked(("lot",), of_length))
        begins, ends = (of_length.value(f"damage_{each}") is not None for each in ("from", "to"))
        until = Ask("damage_to", when=begins or ends, optional=not begins)
        more += asked(("width", "damage_from", until), of_length)
    rows, rest = rows[: most - 1], rows[most - 1 :]
    return (*rows, *asked(("owned",), about)), (*rest, *more)


def _inner(about: About, layer: str) -> Iterator[Page]:
    """A layer behind the face; counted while it is not said whether there is one."""
    use = about.value("use")
    if use is None:
        yield counted(layer, about)
    elif use:
        cloth = _cloth(about)
        rows, more = _rows_in_hand(about, AT_ONCE - len(cloth))
        at_once, later = ((), _shop(about)) if _owned(about) else (_shop(about), ())
        rest = ("name", "one_way", _sideways(about), *_how_it_repeats(about), *later)
        yield page(layer, about, (*cloth, *rows, *at_once), (*rest, *more), "cloth", layer, copy=_the_face(about))


DETAILS: Final = ("width", "kind", "weight", "one_way", "repeat", "repeat_kind", "match", "sold_by", "step", "price")
"""What two layers of the same cloth have alike."""


def _the_face(about: About) -> Copy | None:
    """The face cloth for a layer of which nothing is said yet: a skirt may be lined with itself."""
    face = plain(about.job.cloth.face)
    if "width" not in face or any(about.value(each) is not None for each in ("width", "kind", "weight")):
        return None
    return Copy("Same as the face cloth", {f"{about.prefix}{each}": face[each] for each in DETAILS if each in face})


def _washing(used: list[About]) -> Iterator[Page]:
    """One row a layer, and of what is washed its shrinkage; a page a layer where these are too many for one."""
    rows = {_layer(each): tuple(asked(_washed_by(each), each)) for each in used}
    if sum(len(each) for each in rows.values()) <= AT_ONCE:
        rows = {"": tuple(each for row in rows.values() for each in row)}
    for layer, row in rows.items():
        yield page(f"washing.{layer}".rstrip("."), used[0], row)


def _washed_by(about: About) -> tuple[Ask | str, ...]:
    layer, shrinks = _layer(about), about.holds("wash") == "washed first"
    owned = tuple(f"cloth.{layer}.owned.{each}.washed" for each in _owned(about))
    shrinkage = (f"cloth.{layer}.warp_shrink", f"cloth.{layer}.weft_shrink")
    return (
        "wash",
        Ask(f"washing.{layer}.shrinkage", "washing.shrinkage", when=shrinks, keys=shrinkage, compound="shrinkage"),
        Ask(f"washing.{layer}.washed", "washing.washed", when=bool(owned) and shrinks, keys=owned),
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


def _cloth(about: About) -> tuple[Ask | str, ...]:
    return "width", "kind", Ask("weight", usual=WEIGHTS.get(about.value("kind") or "", ""))


def _sideways(about: About) -> Ask:
    return Ask("sideways", when=bool(about.holds("one_way")))


def _how_it_repeats(about: About) -> tuple[Ask, ...]:
    """An inner layer is hardly ever patterned."""
    patterned = bool(about.holds("repeat") > ZERO) or about.value("repeat_kind") is not None
    return (
        Ask("repeat", usual="" if patterned else None),
        Ask("repeat_kind", when=patterned),
        Ask("match", when=patterned),
        Ask("match_from", when=patterned and bool(about.holds("match"))),
    )


STEPS: Final = {"m": "10 cm", "yd": "1/8 yd", "ft": "1/8 yd"}
"""What a shop usually cuts in where cloth is sold in a unit of the other system."""


def _shop(about: About) -> tuple[Ask | str, ...]:
    sold_by = about.holds("sold_by")
    own = (sold_by == "m") == (about.standard == "metric")
    return "sold_by", Ask("step", usual=None if own else STEPS[sold_by]), "price"
