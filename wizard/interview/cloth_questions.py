"""Questions about the layers of cloth, and about the lengths of it you already have."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from msgspec.structs import replace

from wizard.interview.answer_text import usual_text
from wizard.interview.ask import About, Ask, asked, yes
from wizard.interview.choices import CHOICES, words_for
from wizard.interview.question import Choice, Question
from wizard.project.project import Project
from wizard.trade.field_names import layer_in_words
from wizard.trade.formatting import exact
from wizard.trade.job_fields import LAYERS, Lay, LayerId, SoldBy
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan_records import Plan

WHAT: Final[dict[LayerId, str]] = {
    "face": "the cloth that is seen",
    "interlining": "a soft layer behind the face that gives it body",
    "lining": "the inner layer, which protects the others and hides the seams",
}


def questions_of_cloths(project: Project, plan: Plan) -> Iterator[Question]:
    """The face, then the inner layers that are used."""
    for layer in LAYERS:
        about = about_layer(project, plan, layer)
        if layer != "face":
            yield from asked((USE,), about)
        if layer == "face" or about.value("use"):
            yield from asked(A_CLOTH, about)
            yield from _owned(about, layer)


def about_layer(project: Project, plan: Plan, layer: LayerId) -> About:
    """What the questions about a layer may name."""
    about = About(project, plan, "Cloth", f"cloth.{layer}.", layer_in_words(layer))
    unit = words_for(CHOICES[SoldBy], about.holds("sold_by")).removeprefix("the ")
    return replace(about, words={"layer": about.group, "what": WHAT[layer], "unit": unit})


def is_inner(about: About) -> bool:
    """An interlining or a lining, which is not seen."""
    return about.prefix != "cloth.face."


def _owned(about: About, layer: LayerId) -> Iterator[Question]:
    lengths = about.value("owned") or {}
    for number, owned_id in enumerate(lengths, 1):
        words = {**about.words, "number": str(number)}
        yield from asked(A_LENGTH, replace(about, prefix=f"{about.prefix}owned.{owned_id}.", words=words))
    more = "another length" if lengths else "a length"
    yield from asked((ONE_MORE,), replace(about, words={**about.words, "more": more}))


def _shop_step(about: About) -> str | None:
    """An eighth of a yard, or ten centimetres, by the unit the cloth is sold in."""
    sold_by = about.holds("sold_by")
    if (sold_by == "m") == (about.standard == "metric"):
        return usual_text(f"{about.prefix}step", about.job)
    return exact(Length.of(10, "cm"), "cm") if sold_by == "m" else exact(Length.of(Fraction(1, 8), "yd"), "yd")


def _lays(about: About) -> tuple[Choice, ...]:
    """The ways to lie on the roll; along it is barred while another choice holds across it only."""
    why = _across_only(about)
    return tuple(replace(each, barred=why) if each.value == "along" else each for each in CHOICES[Lay])


def _across_only(about: About) -> str:
    """Which choice needs cloth across the roll, in a sentence; empty for none."""
    way, joins = about.value("way"), about.holds_at("fullness.joins")
    if way in ("slit", "stacked"):
        return f"The {about.group} is cut {way}, which needs strips across the roll. Choose another way first."
    others = [each.id for each in about.plan.layers if f"cloth.{each.id}." != about.prefix]
    if joins == "part widths" or any(about.holds_at(f"cloth.{each}.lay") != "along" for each in others):
        return ""
    return f"Widths are joined as {joins}, and along the roll no widths are joined. Choose part widths first."


def _patterned(about: About) -> bool:
    return bool(about.holds("repeat") > ZERO)


def _shrinks(about: About) -> bool:
    return bool(about.holds("wash") == "washed first")


USE: Final = Ask(
    "use",
    "Is there to be any {layer}?",
    "It is {what}. Without one, press Enter.",
    drawing="top",
)

A_CLOTH: Final = (
    Ask(
        "width",
        "How wide is the {layer}, from selvedge to selvedge?",
        "The {layer} is {what}. Lay the tape straight across it, from one woven edge to the other. What is trimmed off"
        " comes later.",
        drawing="cloth",
    ),
    Ask(
        "name",
        "What do you call the {layer}?",
        "Leave it empty if it needs no name.",
        optional=yes,
        example="slate ticking",
    ),
    Ask(
        "kind",
        "What kind of cloth is it?",
        "It decides the needle. Pick the last where none of the others is near.",
    ),
    Ask(
        "weight",
        "How heavy is it?",
        "Feel it between two fingers. The weight of every layer decides how long a staple has to be; that of the"
        " face also"
        " guides the fullness: the lighter the cloth, the more of it.",
    ),
    Ask(
        "one_way",
        "Must it stay the same way up?",
        "Yes for velvet, for a nap that strokes smooth one way only, and for a pattern with a top and a bottom.",
        quiet=is_inner,
        drawing="cloth",
    ),
    Ask(
        "sideways",
        "May it lie on its side all the same?",
        "Then strips may be cut along the roll.",
        when=lambda about: bool(about.holds("one_way")),
        quiet=is_inner,
        drawing="cloth",
    ),
    Ask(
        "lay",
        "How are the strips to lie on the roll?",
        "Across is usual. Along the roll saves joins where the cloth may lie on its side.",
        choices=_lays,
        when=lambda about: not about.holds("one_way") or bool(about.holds("sideways")),
        quiet=is_inner,
        drawing="roll",
    ),
    Ask(
        "repeat",
        "After what length does the pattern come again, along the roll?",
        "From one point of the pattern to the same point again, parallel to the selvedge. 0 for plain cloth.",
        quiet=is_inner,
        drawing="cloth",
    ),
    Ask(
        "repeat_kind",
        "Is the repeat straight, or a half-drop?",
        "Lay the two selvedges side by side: where the pattern does not meet at the same height, it is a half-drop.",
        when=_patterned,
        drawing="cloth",
    ),
    Ask(
        "match",
        "Is the pattern to be matched at the joins?",
        "Matching takes more cloth. In deep gathers a small pattern can do without.",
        when=_patterned,
        drawing="cloth",
    ),
    Ask(
        "match_from",
        "Along what is the pattern to lie level?",
        "Where drops differ it can be level along the hem or along the top, not both.",
        when=lambda about: _patterned(about) and bool(about.holds("match")),
        drawing="cloth",
    ),
    Ask(
        "wash",
        "Is it washed before it is cut?",
        "Cloth that will ever be washed is best washed first: then it has shrunk before it is measured.",
    ),
    Ask(
        "warp_shrink",
        "How much does it shrink along the roll?",
        "Mark 20 in (50 cm) along a sample, wash it as the skirt will be washed, and measure again. From 20 to 19"
        " 1/2 is"
        " 2 1/2 %. Woven cloth commonly stays within 3 %.",
        when=_shrinks,
        drawing="cloth",
        usual=lambda about: None,
    ),
    Ask(
        "weft_shrink",
        "How much does it shrink across the roll?",
        "The same across the cloth, from selvedge to selvedge.",
        when=_shrinks,
        drawing="cloth",
        usual=lambda about: None,
    ),
    Ask(
        "sold_by",
        "What is it sold by?",
        "The unit that its price is for.",
    ),
    Ask(
        "step",
        "In what steps does the shop cut it?",
        "What is to be bought is rounded up to a whole number of these.",
        usual=_shop_step,
    ),
    Ask(
        "price",
        "What does one {unit} of it cost?",
        "Leave it empty if the cost does not matter.",
        optional=yes,
    ),
)

A_LENGTH: Final = (
    Ask(
        "length",
        "How long is length {number} of the {layer} that you have?",
        "Along the selvedge, from end to end as it lies. What squaring takes is left off by itself.",
        drawing="roll",
    ),
    Ask(
        "width",
        "How wide is it, where it is not as wide as the rest?",
        "From selvedge to selvedge. Leave it empty where it is as wide as the rest.",
        optional=yes,
        drawing="roll",
    ),
    Ask(
        "damage_from",
        "Is there a hole or a stain in it? Where does it begin?",
        lambda about: f"From the end that will be squared. No piece is laid there. {_for_none(about)}",
        optional=yes,
        drawing="roll",
    ),
    Ask(
        "damage_to",
        "And where does the damage end?",
        "From the same end.",
        when=lambda about: _has(about, "damage_from") or _has(about, "damage_to"),
        # Alone it can be taken out again, since where the damage begins is asked before.
        optional=lambda about: not _has(about, "damage_from"),
        drawing="roll",
    ),
    Ask(
        "lot",
        "Which dye lot is it of?",
        "It stands on the ticket. Cloth of two lots can differ in colour: a section is then cut from one of them where"
        " that is possible.",
        optional=yes,
        quiet=lambda about: len(_beside(about)) < 2,
        example="lot 7",
    ),
    Ask(
        "washed",
        "Has it been washed already?",
        "Then it is taken as long and as wide as it is now.",
        when=lambda about: _shrinks(replace(about, prefix=about.prefix.partition("owned.")[0])),
        usual=lambda about: "no",
        stands=yes,
    ),
)


def _for_none(about: About) -> str:
    """How to say that there is no damage; alone, where it ends has to be taken out."""
    alone = _has(about, "damage_to") and not _has(about, "damage_from")
    return "For none, empty where it ends." if alone else "Leave it empty for none."


def _has(about: About, leaf: str) -> bool:
    return about.value(leaf) is not None


def _beside(about: About) -> dict[str, object]:
    """All owned lengths of the same cloth."""
    return dict(about.holds_at(about.prefix.rstrip(".").rpartition(".")[0]) or {})


ONE_MORE: Final = Ask(
    "owned",
    "Have you {more} of the {layer} already? How long is it? Leave it empty to go on.",
    "Along the selvedge, from end to end. Each length is given on its own: two short ones do not make a long one.",
    title="{layer}: a length you have",
    optional=yes,
    drawing="roll",
)
