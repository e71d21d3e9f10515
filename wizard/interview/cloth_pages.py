"""The pages about the layers of cloth: what they are, their pattern, what is there already, the shop, washing."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from msgspec.structs import replace

from wizard.interview.answer_text import usual_text
from wizard.interview.ask import About, Ask, asked, yes
from wizard.interview.choices import CHOICES, words_for
from wizard.interview.page import Page
from wizard.interview.question import Choice, Question
from wizard.trade.field_names import first_up, layer_in_words
from wizard.trade.formatting import exact
from wizard.trade.job_fields import LAYERS, SoldBy, Weight
from wizard.trade.lengths import ZERO, Length

WHAT: Final[dict[str, str]] = {
    "face": "the cloth you see",
    "interlining": "a soft layer behind the face that gives it body; bump in the UK",
    "lining": "the inner layer, which protects the others and hides the seams",
}
AT_ONCE: Final = 8
"""Most questions at once on a page."""


def cloth_pages(about: About) -> Iterator[Page]:
    """The face, then the inner layers, then washing."""
    face = about_layer(about, "face")
    yield Page(
        "face", "Cloth", "Face cloth",
        "The cloth you see. Lay the tape straight across it, from one woven edge (selvedge) to the other.",
        tuple(asked(FACE, face)), tuple(asked((NAME,), face)), "cloth", "face",
    )  # fmt: skip
    yield from _pattern(face)
    yield _in_hand(face)
    if not _owned(face):
        yield _shop(face)
    for layer in ("interlining", "lining"):
        yield from _inner(about_layer(about, layer))
    yield from _washing(about)


def last_shop_page(about: About) -> Iterator[Page]:
    """What to buy beside the face cloth in hand, asked once the plan knows that it is short; counted until then."""
    face = replace(about_layer(about, "face"), stage="Cutting")
    if not _owned(face):
        return
    buy = next((each.buy.value for each in about.plan.layers if each.id == "face"), None)
    if buy is None:
        yield Page("shop", "Cutting", "Buying the face cloth", "", ())
    elif buy > ZERO:
        yield _shop(face)


def about_layer(about: About, layer: str) -> About:
    """What the questions about a layer may name."""
    of_layer = replace(about, stage="Cloth", prefix=f"cloth.{layer}.", group=layer_in_words(layer), section=None)
    unit = words_for(CHOICES[SoldBy], of_layer.holds("sold_by")).removeprefix("the ")
    return replace(of_layer, words={"layer": of_layer.group, "what": WHAT[layer], "unit": unit})


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
    if surface in ("plain", "one-way"):
        return
    fields = tuple(asked(PATTERN, about)) if surface else ()
    yield Page(
        "pattern", "Cloth", "The pattern",
        "Measure from one point of the pattern to the same point again, along the selvedge. Lay the two selvedges side "
        "by side: where they do not meet at the same height it is a half-drop.",
        fields, (), "pattern", "face",
    )  # fmt: skip


def surface_of(about: About) -> str:
    """plain, patterned, one-way, one-way pattern; empty while it is not said."""
    one_way, repeat = about.value("one_way"), about.value("repeat")
    patterned = (repeat or ZERO) > ZERO or (repeat is None and about.value("repeat_kind") is not None)
    if not patterned and (one_way is None or repeat is None):
        return ""
    if patterned:
        return "one-way pattern" if one_way else "patterned"
    return "one-way" if one_way else "plain"


def _in_hand(about: About) -> Page:
    rows, more = _rows_in_hand(about)
    return Page(
        "in-hand", "Cloth", "Face cloth: do you already have some?",
        "Measure each length along the selvedge. Every width is cut from one length: two short ones do not make a long "
        "one.",
        rows, more, "owned", "face",
    )  # fmt: skip


def _rows_in_hand(about: About, most: int = AT_ONCE) -> tuple[tuple[Question, ...], tuple[Question, ...]]:
    """A row for each length there, a last one that adds; behind More what is particular to each."""
    rows, more = list[Question](), list[Question]()
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


def _shop(about: About) -> Page:
    return Page(
        "shop", about.stage, f"Buying the {about.group}", "How the shop sells it, and what it costs.",
        tuple(asked(SHOP, about)),
    )  # fmt: skip


def _inner(about: About) -> Iterator[Page]:
    """A layer behind the face; counted while it is not said whether there is one."""
    layer, use = _layer(about), about.value("use")
    if use is False:
        return
    title = first_up(about.group)
    if use is None:
        yield Page(layer, "Cloth", title, "", ())
        return
    most = AT_ONCE - len(CLOTH)
    rows, more = _rows_in_hand(about, most)
    bought = () if _owned(about) else tuple(asked(SHOP, about))
    rest = tuple(asked((NAME, *SURFACE_KEYS, *PATTERN), about))
    yield Page(
        layer, "Cloth", title, f"{first_up(WHAT[layer])}.",
        (*asked(CLOTH, about), *rows, *bought), (*rest, *more), "cloth", layer,
    )  # fmt: skip


def _washing(about: About) -> Iterator[Page]:
    """One row a layer, and of what is washed its shrinkage; a page a layer where these are too many for one."""
    layers = [about_layer(about, each) for each in LAYERS]
    used = [each for each in layers if not is_inner(each) or each.value("use")]
    rows = {_layer(each): tuple(asked(_washed_by(each), each)) for each in used}
    words = (
        "Cloth that will ever be washed is best washed before you cut: then it has shrunk before you measure. To find "
        "the shrinkage, mark 20 in (50 cm) on a sample, wash it, and measure again."
    )
    if sum(len(each) for each in rows.values()) <= AT_ONCE:
        yield Page("washing", "Cloth", "Washing", words, tuple(each for row in rows.values() for each in row))
        return
    for layer, row in rows.items():
        id = "washing" if layer == "face" else f"washing.{layer}"
        yield Page(id, "Cloth", f"Washing the {layer_in_words(layer)}", words, row, (), "none", layer)


def _washed_by(about: About) -> tuple[Ask, ...]:
    owned = tuple(f"cloth.{_layer(about)}.owned.{each}.washed" for each in _owned(about))
    shrinkage = tuple(f"cloth.{_layer(about)}.{each}" for each in ("warp_shrink", "weft_shrink"))
    layer = _layer(about)
    return (
        WASH,
        replace(SHRINKAGE, leaf=f"washing.{layer}.shrinkage", keys=lambda about: shrinkage),
        *((replace(WASHED, leaf=f"washing.{layer}.washed", keys=lambda about: owned),) if owned else ()),
    )


def _surfaces(about: About) -> tuple[Choice, ...]:
    return (
        Choice("plain", "plain: either way up"),
        Choice("patterned", "patterned: either way up"),
        Choice("one-way", "one-way: velvet, or a nap that strokes smooth one way only"),
        Choice("one-way pattern", "one-way pattern: it has a top and a bottom"),
    )


CLOTH: Final = (
    Ask("width", "How wide is the {layer}, from selvedge to selvedge?",
        "Straight across, from one woven edge to the other. What is trimmed off comes later.", "width"),
    Ask("kind", "What kind of cloth is the {layer}?", "It decides the needle. Pick the last if none of the others is"
        " near.", "kind"),
    Ask("weight", "How heavy is the {layer}?", "Feel it between two fingers. The weight of every layer decides how long"
        " a staple must be; that of the face also guides the fullness: the lighter, the fuller.", "weight",
        usual=lambda about: WEIGHTS.get(about.value("kind") or "")),
)  # fmt: skip
WEIGHTS: Final[dict[str, Weight]] = {
    "fine silk": "light",
    "lawn": "light",
    "plain cotton": "medium",
    "linen": "medium",
    "flannel": "medium",
    "velvet or other heavy cloth": "heavy",
}
"""What cloth of a kind usually weighs; common practice."""
NAME: Final = Ask("name", "What do you call the {layer}?", "Leave it empty if it needs no name.", "name",
                  optional=yes, example="slate ticking")  # fmt: skip
SURFACE: Final = Ask(
    "face.surface",
    "Is the face cloth plain, patterned, or one-way?",
    "One-way cloth must stay the same way up: velvet, a nap that strokes smooth one way only, a pattern with a top and"
    " a bottom.",
    "surface",
    title="face cloth: plain, patterned or one-way",
    compound="surface",
    keys=lambda about: ("cloth.face.one_way", "cloth.face.repeat", "cloth.face.repeat_kind"),
    choices=_surfaces,
    usual=lambda about: "plain",
)
SIDEWAYS: Final = Ask(
    "sideways",
    "May the {layer} lie on its side all the same?",
    "Then strips may be cut along the roll, which saves joins.",
    "may lie on its side",
    when=lambda about: bool(about.holds("one_way")),
)
LAYERS_BEHIND: Final = Ask(
    "face.layers",
    "Which layers go behind the face?",
    "Interlining (bump in the UK) is a soft layer that gives body; a lining protects the others and hides the seams.",
    "layers behind it",
    title="layers behind the face",
    compound="ticks",
    keys=lambda about: ("cloth.interlining.use", "cloth.lining.use"),
    choices=lambda about: (Choice("interlining", "interlining"), Choice("lining", "lining")),
    usual=lambda about: "none",
)
FACE: Final = (*CLOTH, SURFACE, SIDEWAYS, LAYERS_BEHIND)
SURFACE_KEYS: Final = (
    Ask("one_way", "Must the {layer} stay the same way up?", "Yes for a nap that strokes smooth one way only.",
        "one-way"),
    SIDEWAYS,
)  # fmt: skip


def _patterned(about: About) -> bool:
    return bool(about.holds("repeat") > ZERO) or about.value("repeat_kind") is not None


PATTERN: Final = (
    Ask("repeat", "How long is the pattern repeat of the {layer}?",
        "Along the roll, from one point of the pattern to the same point again. 0 for plain cloth.", "repeat",
        usual=lambda about: None if _patterned(about) else usual_text(f"{about.prefix}repeat", about.job), later=True),
    Ask("repeat_kind", "Is the repeat straight, or a half-drop?",
        "Lay the two selvedges side by side: where the pattern does not meet at the same height it is a half-drop.",
        "kind of repeat", when=_patterned),
    Ask("match", "Is the pattern matched at the joins?",
        "Matching takes more cloth. In deep gathers a small pattern can do without.", "match it at joins",
        when=_patterned),
    Ask("match_from", "Match the pattern at the hem or at the top?",
        "Where drops differ it can be level along the hem or along the top, not both.", "level along",
        when=lambda about: _patterned(about) and bool(about.holds("match"))),
)  # fmt: skip
LENGTH: Final = Ask("length", "How long is length {number} of the {layer}?",
                    "Along the selvedge, from end to end as it lies. What squaring takes is left off by itself.",
                    "length {number}")  # fmt: skip
LOT: Final = Ask("lot", "Which dye lot is length {number} of?",
                 "It is printed on the ticket. Two lots can differ in colour: each section is cut from one lot where"
                 " possible.", "dye lot of length {number}", optional=yes, example="lot 7")  # fmt: skip
OF_A_LENGTH: Final = (
    Ask("width", "How wide is length {number}, if not as wide as the rest?", "From selvedge to selvedge.",
        "width of length {number}", optional=yes),
    Ask("damage_from", "Is there a hole or a stain in length {number}? Where does it begin?",
        "From the end that you will square. No piece is cut there. Leave it empty for none.",
        "damage in length {number} from", optional=yes),
    Ask("damage_to", "Where does the damage in length {number} end?", "From the same end.",
        "damage in length {number} to", optional=lambda about: about.value("damage_from") is None,
        when=lambda about: about.value("damage_from") is not None or about.value("damage_to") is not None),
)  # fmt: skip
ANOTHER_LENGTH: Final = Ask(
    "owned",
    "Do you have some {layer} already? How long is each length? Leave it empty to go on.",
    "Along the selvedge, from end to end. Several at once: 4 1/2 yd + 3 yd.",
    "a length you have",
    title="{layer}: a length you have",
    optional=yes,
    example="4 1/2 yd",
)


def _shop_step(about: About) -> str | None:
    """An eighth of a yard, or ten centimetres, by the unit the cloth is sold in."""
    sold_by = about.holds("sold_by")
    if (sold_by == "m") == (about.standard == "metric"):
        return usual_text(f"{about.prefix}step", about.job)
    return exact(Length.of(10, "cm"), "cm") if sold_by == "m" else exact(Length.of(Fraction(1, 8), "yd"), "yd")


SHOP: Final = (
    Ask("sold_by", "What is the {layer} sold by?", "The unit that its price is for.", "sold by"),
    Ask("step", "In what steps does the shop cut the {layer}?", "What you buy is rounded up to a whole number of"
        " these.", "shop's step", usual=_shop_step),
    Ask("price", "What does one {unit} of the {layer} cost?", "Leave it empty if the cost does not matter.",
        "price of one {unit}", optional=yes),
)  # fmt: skip


def _shrinks(about: About) -> bool:
    return bool(about.holds_at(f"cloth.{_layer(about)}.wash") == "washed first")


WASH: Final = Ask("wash", "Is the {layer} washed before it is cut?",
                  "Cloth that will ever be washed is best washed first.", "{layer}")  # fmt: skip
SHRINKAGE: Final = Ask(
    "",
    "How much does the {layer} shrink, along the roll and across it?",
    "From 20 in to 19 1/2 in is 2 1/2 %. Woven cloth commonly stays within 3 %. Both at once: 3 x 1 %.",
    "{layer} shrinks",
    title="{layer}: shrinkage",
    compound="shrinkage",
    when=_shrinks,
    example="3 x 1 %",
    later=True,
)
WASHED: Final = Ask(
    "",
    "Is the {layer} you have washed already?",
    "Then it is taken as long and as wide as it is now.",
    "{layer} you have, washed",
    title="{layer} you have: washed already",
    compound="same",
    when=_shrinks,
    usual=lambda about: "no",
    stands=yes,
)
