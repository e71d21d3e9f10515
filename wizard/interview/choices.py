"""The answers to pick, in words, by the type of the field they go into."""

from __future__ import annotations

from typing import Final

from wizard.interview.question import Choice
from wizard.trade.fields import Standard
from wizard.trade.job_fields import (
    Aim,
    BedSize,
    ClothKind,
    CutWay,
    EndKind,
    FixingFace,
    FixingKind,
    Floor,
    HemKind,
    HemLine,
    JoinKind,
    Joins,
    Lay,
    MatchFrom,
    ObstacleChoice,
    ObstacleKind,
    RailMaterial,
    RepeatKind,
    Side,
    SoldBy,
    Surplus,
    TakenOff,
    Unit,
    Wash,
    Watch,
    Weight,
)


def words_for(offered: tuple[Choice, ...], value: str) -> str:
    """The words of a value; the value itself when it is not among those offered."""
    return next((each.words for each in offered if each.value == value), value)


CHOICES: Final[dict[object, tuple[Choice, ...]]] = {
    Unit: (
        Choice("in", "inches"),
        Choice("ft", "feet and inches"),
        Choice("yd", "yards"),
        Choice("mm", "millimetres"),
        Choice("cm", "centimetres"),
        Choice("m", "metres"),
    ),
    Standard: (
        Choice("inches", "inches: seams of 1/2 in, a hem of 1/2 in turned twice, a ruler marked in sixteenths"),
        Choice("metric", "metric: seams of 1.5 cm, a hem of 1.5 cm turned twice, a ruler marked in millimetres"),
    ),
    Side: (
        Choice("left", "the left side, as seen from the foot facing the head"),
        Choice("right", "the right side, as seen from the foot facing the head"),
        Choice("foot", "the foot"),
        Choice("head", "the head"),
    ),
    RailMaterial: (
        Choice("solid wood", "solid wood: takes staples or tacks"),
        Choice("veneered board", "veneered board: takes short staples only"),
        Choice("metal", "metal: takes nothing driven in"),
        Choice("upholstered", "upholstered: cloth over wood or board"),
        Choice("heirloom", "heirloom: nothing may mark it"),
    ),
    Floor: (
        Choice("carpet", "carpet: the hem may touch it"),
        Choice("hard floor", "hard floor: the hem hangs a little clear of it"),
    ),
    TakenOff: (
        Choice("stays on", "it stays on: you clean it where it hangs"),
        Choice("now and then", "now and then: about once a year"),
        Choice("often", "often: it must come off and go back on easily"),
    ),
    Watch: (
        Choice("antique", "antique bed"),
        Choice("old paint", "old or flaking paint"),
        Choice("adjustable", "moving bed: it has a motor, or parts that lift"),
        Choice("heated", "heated, or with cables under it"),
        Choice("public room", "in a hotel, a rented room or a place of care"),
        Choice("cot", "a cot, or a baby sleeps in it"),
        Choice("candles or fire near", "candles or a fire near by"),
    ),
    BedSize: (
        Choice("US twin", "US twin, 39 by 75 in"),
        Choice("US long twin", "US long twin, 39 by 80 in"),
        Choice("US full", "US full, 54 by 75 in"),
        Choice("US queen", "US queen, 60 by 80 in"),
        Choice("US king", "US king, 78 by 80 in"),
        Choice("US California king", "US California king, 72 by 84 in"),
        *(Choice(f"UK {wide}", f"UK, {wide} by 190 cm") for wide in (75, 90, 120, 135)),
        *(Choice(f"UK {wide}", f"UK, {wide} by 200 cm") for wide in (150, 180)),
        *(Choice(f"EU {wide}", f"Europe, {wide} by 200 cm") for wide in (80, 90, 100, 140, 160, 170, 180, 200)),
    ),
    HemLine: (
        Choice("level", "level: the same height all along"),
        Choice("follow the floor", "follow the floor: the same gap all along"),
    ),
    FixingFace: (
        Choice("inner face", "inner face: behind the cloth"),
        Choice("lower back edge", "lower back edge: of a footboard, or where you cannot reach an inner face"),
    ),
    EndKind: (
        Choice("stops", "stops at the post"),
        Choice("stops short", "stops short: something is there that it cannot go past"),
        Choice("returns", "turns in: behind the post, which closes the corner"),
        Choice("overlaps", "overlaps: it lies over the next section, with no post between them"),
    ),
    ObstacleKind: (
        Choice("centre leg", "centre leg"),
        Choice("bracket", "bracket"),
        Choice("bed-bolt cover", "bed-bolt cover"),
        Choice("drawer", "drawer"),
        Choice("heater", "heater or radiator"),
        Choice("vent", "vent"),
        Choice("socket", "electric socket or lead"),
        Choice("other", "something else"),
    ),
    ObstacleChoice: (
        Choice("no fixing", "hangs past it: with no fixing there"),
        Choice("split here", "split here: two parts that overlap"),
        Choice("keep clear", "keeps clear of it"),
    ),
    ClothKind: (
        Choice("fine silk", "fine silk"),
        Choice("lawn", "lawn: or another fine cotton"),
        Choice("plain cotton", "plain cotton: sheeting, ticking"),
        Choice("linen", "linen"),
        Choice("flannel", "flannel"),
        Choice("velvet or other heavy cloth", "velvet, canvas or other heavy cloth"),
        Choice("other", "another kind"),
    ),
    Weight: (
        Choice("sheer", "sheer: you can see your hand through it"),
        Choice("light", "light: like a shirt or a fine sheet"),
        Choice("medium", "medium: like a curtain or an apron"),
        Choice("heavy", "heavy: like velvet or canvas"),
    ),
    Wash: (
        Choice("washed first", "washed first: before you cut it"),
        Choice("not washed", "not washed: it may shrink when the skirt is cleaned"),
        Choice("already washed", "already washed: measured as it is now"),
    ),
    RepeatKind: (
        Choice("straight", "straight: the pattern meets at the same height across a join"),
        Choice("half-drop", "half-drop: on the next width it is half a repeat lower"),
    ),
    MatchFrom: (
        Choice("hem", "the hem: which is what you see"),
        Choice("top", "the top"),
    ),
    Lay: (
        Choice("across", "across the roll: from selvedge to selvedge"),
        Choice("along", "along the roll: railroaded, few joins or none; the pattern lies on its side"),
    ),
    CutWay: (
        Choice("least cloth", "least cloth"),
        Choice("fewest joins", "fewest joins: that buy the same length"),
        Choice("slit", "slit: the roll ripped lengthwise, each strip cut across on its own"),
        Choice("stacked", "stacked: short pieces one above the other beside long ones"),
    ),
    SoldBy: (Choice("yd", "the yard"), Choice("m", "the metre"), Choice("ft", "the foot")),
    HemKind: (
        Choice("double", "double: turned twice by the same depth"),
        Choice("single", "single: turned once, with a small turn-under"),
    ),
    JoinKind: (
        Choice("seam", "seam"),
        Choice("lap", "lap: one edge laid over the other and stitched flat, for thick interlining"),
    ),
    FixingKind: (
        Choice("staples", "staples: quick and firm; they leave small holes"),
        Choice("tacks", "tacks: firm; they leave holes"),
        Choice("adhesive hook-and-loop", "adhesive hook-and-loop: comes off for washing; the glue may lift a finish"),
        Choice("hook-and-loop", "hook-and-loop sewn on: comes off for washing"),
        Choice("magnets", "magnets: come off at once; steel rails only"),
        Choice("upholstery pins", "upholstery pins: come out again; for covered rails"),
        Choice("glue", "glue: does not come off cleanly"),
    ),
    Aim: (
        Choice("a number", "a number"),
        Choice("all the cloth I own", "all the cloth you have: however full that makes it"),
    ),
    Joins: (
        Choice("part widths", "part widths: two sections may share a width; the least cloth"),
        Choice("half widths", "half widths: a width is cut in two at most"),
        Choice("whole widths", "whole widths: the fewest odd joins, the most cloth"),
    ),
    Surplus: (
        Choice("trim", "trim it: the same off both outer pieces"),
        Choice("keep", "keep it: the section is a little fuller"),
    ),
}
"""Type of a field -> its values with their words, in the order in which they are offered."""
