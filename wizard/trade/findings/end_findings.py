"""What looks wrong at the ends and along the run: returns, turned legs, hook plates, ledgers, things in the way."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from wizard.trade.field_names import obstacle_name
from wizard.trade.figures import Figure, Ledger, Rule
from wizard.trade.findings.checker import Checker
from wizard.trade.fixings import takes_rail
from wizard.trade.job_fields import Allowances, Fixing, Job, Obstacle, Post, Section, Survey, Tape
from wizard.trade.lengths import ZERO, Length
from wizard.trade.missing import has_ledger
from wizard.trade.notions import LEAST_TOP
from wizard.trade.parts import splits_asked
from wizard.trade.plan_records import Finding
from wizard.trade.sections import (
    ENDS,
    End,
    at_the_end,
    goes_on,
    next_side,
    post_at,
    sections_on,
    side_of,
    stops_short,
)

STEP = Rule("step of a post", "{across} − {set_in} − {thickness}")


class AtPost(Struct, frozen=True):
    """One end of a section at its post."""

    section_id: str
    section: Section
    end: End
    post_id: str
    post: Post

    @property
    def measured(self) -> bool:
        """True when anything of the post was measured."""
        return self.post != Post()

    @property
    def returns(self) -> bool:
        """True when the section returns behind this post."""
        return (self.section.left_end if self.end == "left" else self.section.right_end) == "returns"

    @property
    def key(self) -> str:
        """The file key of the return here."""
        return f"survey.section.{self.section_id}.{self.end}_return"


def ends_at_posts(job: Job) -> Iterator[AtPost]:
    """Every end of every section that is made and whose post is known by its id, measured or not."""
    for section_id, section in sections_on(job):
        for end in ENDS:
            post_id = post_at(job.survey, section_id, end)
            if post_id is not None:
                yield AtPost(section_id, section, end, post_id, job.survey.post.get(post_id, Post()))


def step_of(ledger: Ledger, at: AtPost) -> Figure[Length]:
    """Step of a post at the end of a section's rail; below nothing where the post does not reach the inner face.

    Its size *across* this run and the rail's set-in change places round the corner.
    """
    on_side = side_of(at.section_id, at.section) in ("left", "right")
    across, set_in = (Post.along_end, Post.side_set_in) if on_side else (Post.along_side, Post.end_set_in)
    key = f"survey.post.{at.post_id}"
    thickness = ledger.read(Section.rail_thickness, f"survey.section.{at.section_id}", fallback=Survey.rail_thickness)
    return ledger.work(
        f"section.{at.section_id}.{at.end}_step", "space behind the post", STEP,
        lambda across, set_in, thickness: across - set_in - thickness,
        across=ledger.read(across, key), set_in=ledger.read(set_in, key), thickness=thickness,
    )  # fmt: skip


def neighbour_of(job: Job, at: AtPost) -> AtPost | None:
    """The end of another section at the same post, round the corner."""
    side = side_of(at.section_id, at.section)
    there = (each for each in ends_at_posts(job) if each.post_id == at.post_id)
    return next((each for each in there if side_of(each.section_id, each.section) != side), None)


def post_findings(check: Checker) -> Iterator[Finding]:
    """Everything that looks wrong at the ends of the sections and inside the rail."""
    for at in ends_at_posts(check.job):
        end = _end(check, at.section_id, at.section, at.end)
        if at.measured:
            yield from _step(check, at, end)
            yield from _turned(check, at, end)
        if at.returns:
            yield from _return(check, at, end)
    yield from _two_returns(check)
    for section_id, section in sections_on(check.job):
        # A hook plate or bolt head at an end takes the place of fixings.
        for end, hook in zip(ENDS, (section.left_hook, section.right_hook), strict=True):
            if hook:
                key, where = f"survey.section.{section_id}.{end}_hook", _end(check, section_id, section, end)
                yield check.finding(f"hook:{section_id}:{end}", key, {"hook": hook}, end=where)
        yield from _overlaps(check, section_id, section)
        if has_ledger(check.ledger, section_id, section):
            yield from _ledger(check, section_id)


def _end(check: Checker, section_id: str, section: Section, end: End) -> str:
    """A section and its end in words: `left section, the head end`."""
    return f"{check.section(section_id)}, {at_the_end(side_of(section_id, section), end)}"


def _step(check: Checker, at: AtPost, end: str) -> Iterator[Finding]:
    """A post that does not reach the rail's inner face leaves a gap the cloth passes behind."""
    step, key = step_of(check.ledger, at).value, f"survey.post.{at.post_id}"
    if step is not None and step < ZERO:
        yield check.finding(
            f"step-below:{at.section_id}:{at.end}", f"{key}.along_side", [step], other=f"{key}.side_set_in",
            end=end, short=-step,
        )  # fmt: skip


def _turned(check: Checker, at: AtPost, end: str) -> Iterator[Finding]:
    """A turned leg opens below: how much must be read, it cannot be deduced."""
    top, floor = (getattr(at.section, f"{at.end}_daylight_{where}") for where in ("top", "floor"))
    if at.post.turned and (top is None or floor is None):
        key = f"survey.section.{at.section_id}.{at.end}_daylight_{'top' if top is None else 'floor'}"
        yield check.finding(f"turned-leg:{at.section_id}:{at.end}", key, [at.post_id], end=end)


def _return(check: Checker, at: AtPost, end: str) -> Iterator[Finding]:
    """A return goes where there is space behind the post, and is fixed only where one may fix into it."""
    here, neighbour = f"{at.section_id}:{at.end}", neighbour_of(check.job, at)
    length = at.section.left_return if at.end == "left" else at.section.right_return
    step = step_of(check.ledger, at).value if at.measured else None
    if at.post.may_fix is False and (step is None or step > ZERO):
        key, other = f"survey.section.{at.section_id}.{at.end}_end", f"survey.post.{at.post_id}.may_fix"
        yield check.finding(f"return-unfixed:{here}", key, [at.post_id], other=other, end=end)
    if at.post.may_fix is None and (step is None or step > ZERO):
        yield check.finding(f"return-fixing:{here}", f"survey.post.{at.post_id}.may_fix", [at.post_id], end=end)
    beyond = step_of(check.ledger, neighbour).value if neighbour and at.measured else None
    if length is None:
        return
    if step is None or beyond is None:
        yield check.finding(f"return-unmeasured:{here}", at.key, {"length": length}, end=end)
    # The longest return: along the post's side by this rail's step, and on behind it by the neighbouring rail's.
    elif length > (space := max(step, ZERO) + max(beyond, ZERO)):
        values = {"length": length, "space": space}
        yield check.finding(f"return-long:{here}", at.key, values, variant="" if space else "no space", end=end)


def _two_returns(check: Checker) -> Iterator[Finding]:
    """Of two returns at one post the second is inside the first."""
    seen: dict[str, AtPost] = {}
    for at in ends_at_posts(check.job):
        first = seen.setdefault(at.post_id, at) if at.returns else at
        if first is not at:
            yield check.finding(
                f"two-returns:{at.post_id}", at.key, [first.section_id, at.section_id], post=at.post_id,
                first=check.section(first.section_id), second=check.section(at.section_id),
            )  # fmt: skip


def _overlaps(check: Checker, section_id: str, section: Section) -> Iterator[Finding]:
    """An overlap needs a next section: round the corner, or going on along the same side."""
    side = side_of(section_id, section)
    for end, kind in zip(ENDS, (section.left_end, section.right_end), strict=True):
        if kind != "overlaps" or side is None or goes_on(check.job.survey, section_id, end):
            continue
        other_end: End = "right" if end == "left" else "left"
        beyond = [each for id, each in sections_on(check.job) if side_of(id, each) == next_side(side, end)]
        if all(stops_short(each, other_end) for each in beyond):
            key, where = f"survey.section.{section_id}.{end}_end", _end(check, section_id, section, end)
            yield check.finding(f"overlap-none:{section_id}:{end}", key, [section_id, end], end=where)


def _ledger(check: Checker, section_id: str) -> Iterator[Finding]:
    """The folded tape must fit between the rail's lower edge and the ledger."""
    key = f"survey.section.{section_id}"
    free, width = check.value(Section.free_height, key), check.value(Tape.width)
    raised = check.value(Section.raised, key, fallback=Survey.raised)
    if free is None or width is None or raised is None or free >= raised + width / 2:
        return
    yield check.finding(
        f"ledger-low:{section_id}", f"{key}.free_height", {"free": free, "need": raised + width / 2},
        other="cloth.tape.width", variant=_tape_that_fits(check, free, raised, width / 2),
        tape=(free - raised) * 2, space=free - raised, raised=free - width / 2,
    )  # fmt: skip


def _tape_that_fits(check: Checker, free: Length, raised: Length, fold: Length) -> str:
    """Narrower tape helps only while the rows and the raw edge still fit under it: `1/2 in ≤ top ≤ T/2`."""
    top, space = check.value(Allowances.top) or LEAST_TOP, free - raised
    if space >= max(top, LEAST_TOP):
        return ""
    return "top" if space >= LEAST_TOP else "raised" if free >= fold else "no tape"


def obstacle_findings(check: Checker) -> Iterator[Finding]:
    """Everything that looks wrong about the things in the way."""
    for section_id, section in sections_on(check.job):
        for thing_id, thing in section.in_the_way.items():
            yield from _thing(check, section_id, thing_id, thing)
        yield from _splits(check, section_id)


def _thing(check: Checker, section_id: str, thing_id: str, thing: Obstacle) -> Iterator[Finding]:
    """One whose middle or edge lies beyond the end of the run, and one that is dangerous behind cloth."""
    key, run_key = f"survey.section.{section_id}.in_the_way.{thing_id}", f"survey.section.{section_id}.run.1"
    here, name = f"{section_id}:{thing_id}", f"{check.section(section_id)}: the {obstacle_name(thing_id, thing)}"
    run = check.run(section_id)
    if run is not None and thing.at is not None and thing.at > run:
        values = {"at": thing.at, "run": run}
        yield check.finding(f"outside-run:{here}", f"{key}.at", values, other=run_key, thing=name)
    elif run is not None and thing.at is not None and thing.width is not None:
        # Where it begins and ends along the run.
        start, end = thing.at - thing.width / 2, thing.at + thing.width / 2
        if start < ZERO or end > run:
            yield check.finding(
                f"edge-outside:{here}", f"{key}.width", {"width": thing.width, "at": thing.at}, other=f"{key}.at",
                thing=name, beyond=max(-start, end - run),
            )  # fmt: skip
    if thing.kind in ("heater", "vent", "socket"):
        # Always a warning where cloth hangs in front of it.
        done = thing.do or "nothing chosen yet"
        yield check.finding(f"danger:{here}", f"{key}.do", [thing.kind, done], variant=thing.kind, thing=name)
    yield from _narrow_split(check, here, key, thing, name)


def _narrow_split(check: Checker, here: str, key: str, thing: Obstacle, name: str) -> Iterator[Finding]:
    """Where a section is split at something on the rail, each part has to reach past it to be fixed at its end."""
    if thing.do != "split here" or not takes_rail(thing) or not thing.width or thing.overlap is None:
        return
    least = thing.width + (check.value(Fixing.inset) or ZERO) * 2
    if thing.overlap < least:
        values = {"overlap": thing.overlap, "width": thing.width}
        yield check.finding(
            f"split-narrow:{here}", f"{key}.overlap", values, other=f"{key}.width", thing=name, least=least
        )


def _splits(check: Checker, section_id: str) -> Iterator[Finding]:
    """Every part of a split section must have some length."""
    things = [each for each, _ in splits_asked(check.job.survey.section[section_id])]
    runs = [check.ledger.figures.get(f"part.{section_id}/{part}.run") for part in range(1, len(things) + 2)]
    if things and any(run is not None and run.value is None and not run.needs for run in runs):
        key = f"survey.section.{section_id}.in_the_way.{things[0]}.overlap"
        yield check.finding(f"split-outside:{section_id}", key, things)
