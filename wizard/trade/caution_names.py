"""What each caution is called for short, where it was read out in full a little before."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

NAMES: Final[Mapping[str, str]] = {
    "two-people": "two people lift",
    "nobody-on-bed": "nobody on the bed",
    "stapler": "eyes, and the other hand clear",
    "stapler-jam": "unplug before clearing a jam",
    "stapler-trigger": "sequential trigger",
    "behind-rail": "look and feel behind the rail",
    "points": "no point through the rail",
    "hammer": "eyes, and fingers off the tack",
    "glue": "hot glue burns",
    "fumes": "air the room, no flame",
    "iron": "hot iron",
    "rotary-cutter": "guard closed, cut away from the hand",
    "power-tools": "needles and blades out of reach",
    "count-pins": "count the pins",
    "magnets": "magnets are dangerous if swallowed",
    "pins-in-rail": "pins point inward",
    "old-paint": "old paint may hold lead",
    "heaters": "clear of heaters",
    "vents": "clear of vents",
    "sockets": "clear of sockets",
    "candles": "clear of candles",
    "heater-here": "a heater on this run",
    "vent-here": "a vent on this run",
    "socket-here": "a socket on this run",
    "layers-together": "layers burn otherwise together",
    "cot": "not for a cot",
    "pooling": "a hem that pools trips",
    "adjustable": "moving parts of the bed",
    "heated": "cables of the bed",
    "public-room": "rules of public rooms",
    "antique": "ask a conservator",
    "not-washed": "nothing allowed for shrinking",
    "local-rules": "local codes come first",
}
"""Id -> a few words that bring the whole of it to mind."""
