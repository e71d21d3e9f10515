"""Strips shared out over the lanes of several runs, whose lengths are settled.

Every run is a choice of widths as long as it is: a lane of it is as deep as the strip it was opened for, and what that
strip leaves of it takes strips no deeper. Strips come deepest first; each is cut from what is left of open lanes and
from new ones, as much from each as the least piece and the spans without joins allow, going back where that leads
nowhere. What can be ruled out by the cloth that is left is not looked at.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from msgspec import Struct

from wizard.trade.cutting.packing import Run, filled
from wizard.trade.cutting.sharing import Meter
from wizard.trade.cutting.ticks import Job, Need

MOST_PIECES = 200
"""In more than these nobody cuts a layer, and no search goes so deep."""


class Lane(Struct):
    """A lane while it is filled."""

    run: int
    depth: int
    left: int
    strip: int
    """The last one cut from it."""


Cut = tuple[int, int, int]
"""A piece: the number of its lane, its strip, its cut width."""


class Move(NamedTuple):
    """A piece that may come next; the least comes first."""

    rank: tuple[int, ...]
    width: int
    lane: int
    """Below nothing: a new one."""
    run: int
    lost: int


class Goal(Struct, frozen=True):
    """What is looked for."""

    most: int | None
    """No more pieces than this; None: as many as may be."""
    saving: bool
    """True to try first what loses least, False what joins least."""
    lots: tuple[str, ...]
    """A strip is cut from runs of one of these only: one for each run."""


class Filling:
    """The search for one way of sharing strips out."""

    def __init__(self, job: Job, runs: Sequence[tuple[Run, int]], goal: Goal, meter: Meter) -> None:
        """`runs`: each with the length of its lanes."""
        self.needs, self.join, self.goal, self.meter = job.needs, job.join, goal, meter
        self.lengths = [length for _, length in runs]
        self.across = [max(0, job.scale.down(job.stock[run.stretch].usable)) for run, _ in runs]
        """What is left of the usable width of each run."""
        self.order = sorted(range(len(job.needs)), key=lambda place: (-job.needs[place].cut, -job.needs[place].flat))
        self.cuts = [job.needs[place].cut for place in self.order]
        self.later = self.weights_after()
        self.lanes: list[Lane] = []
        self.pieces: list[Cut] = []
        self.failed: set[tuple[object, ...]] = set()
        self.holds: dict[tuple[int, int], int] = {}

    def weights_after(self) -> list[int]:
        """What the strips after each one weigh by their depth, net."""
        out = [0]
        for place in reversed(self.order[1:]):
            out.append(out[-1] + self.needs[place].net * self.needs[place].cut)
        return out[::-1]

    def search(self) -> bool:
        """True when all strips are cut: `lanes` and `pieces` then say how."""
        return self.strip(0)

    def strip(self, number: int) -> bool:
        """Cut the strips from one on, in their order."""
        if number == len(self.order):
            return True
        spare = self.spare(number)
        return spare >= 0 and self.rest(number, self.needs[self.order[number]].flat, None, spare)

    def rest(self, number: int, left: int, lot: str | None, spare: int) -> bool:
        """Cut what is left of a strip, its joins so far included, then the strips after it; `spare` is what may still
        be lost."""
        most, made = self.goal.most, len(self.pieces)
        if made + len(self.order) - number > (MOST_PIECES if most is None else most):
            return False
        state = (number, left, lot, made if most else 0, *self.across, *sorted(self.open_lanes(number)))
        if state in self.failed:
            return False
        self.meter.spend(1 + len(self.lanes) + len(self.lengths))
        for tried, move in enumerate(self.moves(number, left, lot, spare)):
            if tried and self.meter.left < 0:
                return False
            at = self.opened(number, move.run) if move.lane < 0 else move.lane
            if self.cut(number, left, at, move, spare):
                return True
            if move.lane < 0:
                self.across[move.run] += self.lanes.pop().depth
        self.failed.add(state)
        return False

    def open_lanes(self, number: int) -> Iterator[tuple[int, int, int, bool]]:
        """What matters of every lane to a strip and those after it."""
        for lane in self.lanes:
            if lane.left:
                yield lane.run, lane.depth, lane.left, lane.strip == self.order[number]

    def opened(self, number: int, run: int) -> int:
        """A new lane for a strip; its number."""
        depth = self.cuts[number]
        self.across[run] -= depth
        self.lanes.append(Lane(run, depth, self.lengths[run], -1))
        return len(self.lanes) - 1

    def cut(self, number: int, left: int, at: int, move: Move, spare: int) -> bool:
        """Cut a piece from a lane, then all that follows; undone where that leads nowhere."""
        lane, strip, width = self.lanes[at], self.order[number], move.width
        before = lane.strip
        lane.left, lane.strip = lane.left - width, strip
        self.pieces.append((at, strip, width))
        if width == left:
            done = self.strip(number + 1)
        else:
            done = self.rest(number, left - width + self.join, self.goal.lots[lane.run], spare - move.lost)
        if not done:
            self.pieces.pop()
            lane.left, lane.strip = lane.left + width, before
        return done

    def spare(self, number: int) -> int:
        """What the open lanes and the widths left hold beyond the strips from one on, all weighed by their depth: what
        may be lost of it. Below nothing where it is too little."""
        depth, join = self.cuts[number], self.join
        weight = -self.later[number] - (self.needs[self.order[number]].net) * depth
        for lane in self.lanes:
            if lane.left > join:
                weight += (lane.left - join) * min(lane.depth, depth)
        for run, length in enumerate(self.lengths):
            if length > join:
                weight += (length - join) * self.hold(number, self.across[run])
        return weight

    def hold(self, number: int, across: int) -> int:
        """The most that lanes of the strips from one on take of a width."""
        if (number, across) not in self.holds:
            self.holds[number, across] = filled(across, sorted(set(self.cuts[number:])))
        return self.holds[number, across]

    def moves(self, number: int, left: int, lot: str | None, spare: int) -> list[Move]:
        """The pieces that may come next, the likeliest first."""
        need, found = self.needs[self.order[number]], list[Move]()
        for room, lane, run in self.rooms(number):
            if lot is not None and lot != self.goal.lots[run]:
                continue
            for shy, width in enumerate(self.widths(number, need, left, room)):
                lost = self.lost(number, room - width, run, lane < 0)
                if lost <= spare:
                    rank = (shy, width < left, room if width == left else -width, int(lane < 0))
                    found.append(Move((lost, *rank) if self.goal.saving else rank, width, lane, run, lost))
        return sorted(found)

    def lost(self, number: int, over: int, run: int, new: bool) -> int:
        """What a piece loses of what there is, weighed by depth: to a join, or where less is left over than a join, and
        beside a new lane to where no other lane can lie."""
        cut, lost = self.cuts[number], min(self.join, over) * self.cuts[number]
        if new and self.lengths[run] > self.join:
            across = self.across[run]
            beside = self.hold(number, across) - cut - self.hold(number, across - cut)
            lost += beside * (self.lengths[run] - self.join)
        return lost

    def widths(self, number: int, need: Need, left: int, room: int) -> Iterator[int]:
        """How wide a piece may be where there is so much room: all it can, or what leaves the next strip a piece."""
        width = widest(need, left, room, self.join)
        if not width:
            return
        yield width
        spare = self.needs[self.order[number + 1]].least if number + 1 < len(self.order) else 0
        if spare > room - width:
            less = widest(need, left, room - spare, self.join)
            if less:
                yield less

    def rooms(self, number: int) -> Iterator[tuple[int, int, int]]:
        """How wide a piece of a strip could be, in every open lane and in a new lane of every run; like ones once."""
        cut, strip, seen = self.cuts[number], self.order[number], set[tuple[int, int, int]]()
        for at, lane in enumerate(self.lanes):
            key = (lane.run, lane.depth, lane.left)
            if lane.left and lane.depth >= cut and lane.strip != strip and key not in seen:
                seen.add(key)
                yield lane.left, at, lane.run
        for run, length in enumerate(self.lengths):
            if self.across[run] >= cut:
                yield length, -1, run


def widest(need: Need, left: int, room: int, join: int) -> int:
    """The widest next piece of a strip of which so much is left, its joins so far included; 0 where there is none."""
    if left <= room:
        return left
    end = need.flat - left + min(room - join, left - need.least)
    for first, last in reversed(need.spans):
        if first <= end <= last:
            end = first - 1
    width = end - (need.flat - left) + join
    return width if width >= need.least else 0
