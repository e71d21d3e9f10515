"""The cautions' own words, each under a fixed id. They inform; none claims that a skirt meets a rule.

They are the usual words of the trade and of public safety bodies; local codes and licensed practice come first.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

CAUTIONS: Final[Mapping[str, str]] = {
    "two-people": "Two people lift the mattress, and two the slats: bend the knees, and keep fingers out from under.",
    "nobody-on-bed": "Nobody sits or lies on the bed until slats, centre leg and every bolt are back and tight.",
    "stapler": (
        "Wear eye protection, and so does everyone within 12 ft (4 m); keep the other hand clear, and never point a "
        "stapler, loaded or not, at anyone."
    ),
    "stapler-jam": "Before clearing a jam, pull the plug or release the air, and take the staples out.",
    "stapler-trigger": (
        "On a powered stapler a full sequential trigger is the safer one: it fires only when pressed home first."
    ),
    "behind-rail": "Look and feel behind the rail before every fixing: no wire, no cable, no hose may lie there.",
    "points": "No point may come through the rail: try one on an offcut or an unseen place, and feel the other side.",
    "hammer": (
        "Wear eye protection when driving tacks, and start each with pliers or a magnetic hammer, not with fingers."
    ),
    "glue": (
        "Hot-melt glue burns and sticks to skin: keep off nozzle and bead, stand the gun on its rest, unplug it after."
    ),
    "fumes": "Adhesives and primers: follow the maker's label, open a window, and keep flames away.",
    "iron": "An iron burns and scorches: never leave it face down or alone, and unplug it after.",
    "rotary-cutter": (
        "Close the rotary cutter's guard whenever it leaves the hand, cut away from the hand, never towards it."
    ),
    "power-tools": (
        "Keep power tools, needles and blades away from children and animals; unplug before changing a needle."
    ),
    "count-pins": (
        "Count the pins out and count them in again: a magnet finds steel ones, but misses brass. Keep them away from "
        "children and animals."
    ),
    "magnets": (
        "Strong magnets are dangerous if swallowed, more than one above all: keep them from children, and from "
        "pacemakers."
    ),
    "pins-in-rail": "Pins in an upholstered rail point inward, and never where children or animals lie or play.",
    "old-paint": (
        "Old paint may hold lead: do not sand it or staple through it where it flakes. Have it tested, or ask a "
        "licensed lead-paint worker."
    ),
    "heaters": "Keep the cloth at least 3 ft (1 m) from any heater, fire or stove.",
    "vents": "Keep the cloth clear of air vents: neither covering one nor blown about by it.",
    "sockets": "Keep the cloth clear of sockets, and lay no extension lead or adaptor behind the skirt.",
    "candles": "Keep candles and open fires well away: cloth that hangs near the floor is the first to catch.",
    "heater-here": (
        "There is a heater on this run: cloth stays at least 3 ft (1 m) away, so leave this run bare or move the "
        "heater."
    ),
    "vent-here": "There is an air vent on this run: leave it uncovered and the cloth clear of its draught.",
    "socket-here": (
        "There is a socket on this run: leave it uncovered, and have no plug, lead or adaptor behind the skirt."
    ),
    "layers-together": (
        "Layers that each pass a flame test may still burn badly together: ask about the whole skirt, not each cloth."
    ),
    "cot": "Not for a cot or for any place an infant sleeps: there a fitted sheet is all that belongs.",
    "pooling": "A hem that pools on the floor trips people: check it against the floor before it is sewn.",
    "adjustable": (
        "An adjustable bed has moving parts that catch cloth: ask the bed's maker before fixing anything to it."
    ),
    "heated": "A heated bed has cables: ask the bed's maker where nothing may be fixed and what may not be covered.",
    "public-room": (
        "In a hired or public room (hotel, rental, care) local fire rules and labels come first; flame-retardant cloth "
        "or a licensed treater may be required. Ask locally before buying."
    ),
    "antique": "An old or valued bed: ask a conservator before anything touches it, and use nothing that marks it.",
    "not-washed": (
        "Cloth that is not washed first has nothing allowed for shrinking: if it is ever washed, it may come up short."
    ),
    "local-rules": (
        "These cautions inform; they do not claim that a skirt meets any rule. Local codes, the makers' instructions "
        "and licensed practice come first."
    ),
}
"""Id -> one caution, as read out before the step."""
