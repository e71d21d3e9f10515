"""A bound of what strips buy, from their widths alone: there is no search, so thousands can be tried."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from fractions import Fraction

from wizard.trade.cutting.bin_packing import filled, sound_runs, squared_off
from wizard.trade.cutting.cut_records import Layout, Rules, Stretch, Strip
from wizard.trade.cutting.grid_units import demand_of
from wizard.trade.cutting.lay_out import job_of
from wizard.trade.cutting.pattern_level import least_bought
from wizard.trade.cutting.pattern_match import grouped
from wizard.trade.cutting.pattern_plan import pattern_of
from wizard.trade.cutting.piece_widths import halves_of
from wizard.trade.cutting.place_pieces import as_cut, bought
from wizard.trade.cutting.work_budget import spend
from wizard.trade.lengths import ZERO, Length


class PurchaseBound:
    """The bound of strips that differ in their flat widths only, for any such widths."""

    def __init__(self, strips: Sequence[Strip], stock: Sequence[Stretch], rules: Rules) -> None:
        self.job = job = job_of(strips, stock, rules)
        self.pattern = None if rules.along else pattern_of(job)
        self.usable = job.widest
        self.ticks = job.scale.up(rules.mark)
        """Grid units in one ruler mark."""
        self.roll = job.roll
        self.places = sorted(range(len(strips)), key=lambda place: -job.demands[place].cut)
        """The numbers of the strips, longest cut first."""
        cuts = [job.demands[place].cut for place in self.places]
        least_step = self.pattern.least_step if self.pattern else int
        self.steps: list[int | Fraction] = [least_step(cut) for cut in cuts]
        """How far apart their widths start at the least."""
        self.saved = max(step - cut for step, cut in zip(self.steps, cuts, strict=True))
        """What the last width of a run may save of its step."""
        rooms = [run.room for run in sound_runs(job) if run.room]
        self.room = sum(rooms if rules.along or self.pattern else [filled(room, sorted({*cuts})) for room in rooms])
        """The most that widths of these strips use of the cloth in hand."""
        self.lanes = self.usable // cuts[-1]
        """The most strips that fit side by side where they go along the roll."""

    def buys(self, marks: Sequence[int], *, tied: bool = False) -> Length:
        """For flat widths in ruler marks, in the order of the strips: no layout buys less. If `tied`, none in which
        each strip shares widths with the next, as most do where that saves cloth."""
        used = self._bought(self._least(marks, tied))
        if self.roll is None or used <= 0:
            return ZERO
        return bought(self.job.rules, as_cut(self.job.rules, self.roll, self.job.scale.length(used)))

    def has_room(self, marks: Sequence[int], *, tied: bool = False) -> bool:
        """False where flat widths in ruler marks cannot all be cut from the cloth in hand; if `tied`, not with widths
        shared from each strip to the next."""
        return self._least(marks, tied) - self.saved * len(sound_runs(self.job)) <= self.room

    def _least(self, marks: Sequence[int], tied: bool) -> int | Fraction:
        """The least that all widths add up to."""
        spend(10 + 3 * len(marks))
        flats = [marks[place] * self.ticks for place in self.places]
        rules, join, width = self.job.rules, self.job.join, self.usable - self.job.join
        if rules.along:
            area = sum([flat * self.job.demands[place].cut for flat, place in zip(flats, self.places, strict=True)])
            lanes = -(-sum(flats) // self.lanes) if self.lanes else 0
            return max(-(-area // self.usable), lanes)
        if width <= 0:
            return 0
        if rules.policy != "part widths":
            return self._of_fixed(flats)
        used: int | Fraction = 0
        net = -join if tied else 0
        for flat, step, below in zip(flats, self.steps, [*self.steps[1:], 0], strict=True):
            net += flat if tied else flat - join
            if below < step:
                used += max(1, -(-net // width)) * (step - below)
        return used

    def _of_fixed(self, flats: Sequence[int]) -> int | Fraction:
        """Whole widths by themselves; odd halves two to a width, the longest together."""
        half, join = self.job.rules.policy == "half widths", self.job.join
        used: int | Fraction = 0
        odd = False
        for flat, step in zip(flats, self.steps, strict=True):
            count = halves_of(demand_of(flat, 1, 1, join), self.usable, join, half=half)
            used += (count // 2 + (count % 2 and not odd)) * step
            odd = odd != bool(count % 2)
        return used

    def _bought(self, used: int | Fraction) -> int | Fraction:
        """What of that the roll must give beside cloth in hand."""
        if self.pattern is None:
            return used - self.room
        if not self.room:
            return used - self.saved
        return least_bought(self.job, (Fraction(used), Fraction(self.saved)), self.pattern)

    def groups(self, layout: Layout, buys: Length) -> list[tuple[list[int], int]]:
        """The strips of a layout that share widths with each other, by number, and the ruler marks that all their
        widths can give them where this much is bought."""
        numbers = {strip.id: number for number, strip in enumerate(self.job.strips)}
        rows: dict[tuple[str, int], set[int]] = {}
        for piece in layout.pieces:
            rows.setdefault((piece.stretch, piece.row), set()).add(numbers[piece.strip])
        joins = Counter(numbers[piece.strip] for piece in layout.pieces)
        gives = {stretch.id: self._gives(stretch, buys) for stretch in self.job.stock}
        out = []
        for group in grouped(rows.values()):
            room = sum(gives[stretch] for (stretch, _), strips in rows.items() if strips <= group)
            lost = self.job.join * sum(joins[strip] - 1 for strip in group)
            out.append((sorted(group), (room - lost) // self.ticks))
        return out

    def _gives(self, stretch: Stretch, buys: Length) -> int:
        """The most a width of a stretch gives, or a lane along it."""
        if not self.job.rules.along:
            return self.job.scale.down(stretch.usable)
        whole, keeps = buys if stretch.length is None else stretch.length, self.job.rules.keeps
        left = whole - squared_off(self.job.rules, stretch)
        washed = stretch.length is None and 0 < keeps < 1
        return max(self.job.scale.down(left * keeps if washed else left), 0)
