"""Everything that can be done, with its key: the list of all actions."""

from __future__ import annotations

from wizard.screens.deeds import DEEDS, Deed, Room, action_of, deeds_in
from wizard.screens.search_dialog import Entry, SearchDialog


def more_dialog(room: Room, *inside: Room, table: tuple[Deed, ...] = DEEDS) -> SearchDialog:
    """The dialog that gives the action to do; first what can be done `inside` the room where one is."""
    first = [each for each in table if each.room in inside]
    deeds = [*first, *(each for each in deeds_in(room, table) if each.id != "more")]
    entries = tuple(Entry(action_of(each), "", "", f"{each.words:<17}{each.shown:<10}", each.says) for each in deeds)
    return SearchDialog("What can be done here", entries, "", "type to narrow: undo, template…", "Do it")
