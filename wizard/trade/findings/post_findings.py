"""What looks wrong at the ends and along the run: returns, turned legs, hook plates, ledgers, things in the way."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec import Struct

from wizard.trade.bed import Obstacle, ObstacleKind, Post, Section
from wizard.trade.figures import Figure, Ledger, Rule
from wizard.trade.findings.finding_text import Sayer
from wizard.trade.job import Job
from wizard.trade.keynames import obstacle_name
from wizard.trade.lengths import ZERO, Length
from wizard.trade.missing import has_ledger
from wizard.trade.notions import LEAST_TOP
from wizard.trade.parts import splits_asked
from wizard.trade.plan import Finding
from wizard.trade.sections import (
    ENDS,
    End,
    at_the_end,
    goes_on,
    next_side,
    post_at,
    section_name,
    sections_on,
    side_of,
    stops_short,
)

STEP = Rule(
    "step of a post",
    "{across} − {set_in} − {thickness}",
    "How far the post stands in beyond the rail's inner face.",
)


class AtPost(Struct, frozen=True):
    """One end of a section at its post."""

    section_id: str
    section: Section
    end: End
    post_id: str
    post: Post

    @property
    def returns(self) -> bool:
        """True when the section returns behind this post."""
        return (self.section.left_end if self.end == "left" else self.section.right_end) == "returns"

    @property
    def key(self) -> str:
        """The file key of the return here."""
        return f"survey.section.{self.section_id}.{self.end}_return"

    @property
    def length(self) -> Length | None:
        """The return's length, if there is one and it is known."""
        return (self.section.left_return if self.end == "left" else self.section.right_return) if self.returns else None


def ends_at_posts(job: Job) -> Iterator[AtPost]:
    """Every end of every section that is made and whose post is known by its id, measured or not."""
    for section_id, section in sections_on(job):
        for end in ENDS:
            post_id = post_at(job.survey, section_id, end)
            if post_id is not None:
                yield AtPost(section_id, section, end, post_id, job.survey.post.get(post_id, Post()))


def is_measured(post: Post) -> bool:
    """True when anything of the post was measured."""
    return post != Post()


def step_of(ledger: Ledger, at: AtPost) -> Figure[Length]:
    """Step of a post at the end of a section's rail; below nothing where the post does not reach the inner face.

    Its size *across* this run and the rail's set-in change places round the corner.
    """
    on_side = side_of(at.section_id, at.section) in ("left", "right")
    across, set_in = ("along_end", "side_set_in") if on_side else ("along_side", "end_set_in")
    key = f"survey.post.{at.post_id}"
    thickness = ledger.read(f"survey.section.{at.section_id}.rail_thickness", fallback="survey.rail_thickness")
    return ledger.work(
        f"section.{at.section_id}.{at.end}_step",
        "step of the post",
        STEP,
        lambda across, set_in, thickness: across - set_in - thickness,
        across=ledger.read(f"{key}.{across}"),
        set_in=ledger.read(f"{key}.{set_in}"),
        thickness=thickness,
    )


def neighbour_of(job: Job, at: AtPost) -> AtPost | None:
    """The end of another section at the same post, round the corner."""
    side = side_of(at.section_id, at.section)
    for other in ends_at_posts(job):
        if other.post_id == at.post_id and side_of(other.section_id, other.section) != side:
            return other
    return None


def room_behind(own: Length, neighbour: Length) -> Length:
    """The longest return: along the post's side by this rail's step, and on behind it by the neighbouring rail's."""
    return max(own, ZERO) + max(neighbour, ZERO)


def post_findings(say: Sayer) -> Iterator[Finding]:
    """Everything that looks wrong at the ends of the sections and inside the rail."""
    for at in ends_at_posts(say.ledger.job):
        where = f"{section_name(say.ledger.job, at.section_id)}, {_end(at)}"
        if is_measured(at.post):
            yield from _step(say, at, where)
            yield from _turned(say, at, where)
        if at.returns:
            yield from _return(say, at, where)
    yield from _two_returns(say)
    for section_id, section in sections_on(say.ledger.job):
        yield from _hooks(say, section_id)
        yield from _overlaps(say, section_id)
        if has_ledger(say.ledger, section_id, section):
            yield from _ledger(say, section_id)


def _end(at: AtPost) -> str:
    return at_the_end(side_of(at.section_id, at.section), at.end)


def _step(say: Sayer, at: AtPost, where: str) -> Iterator[Finding]:
    """A post that does not reach the rail's inner face leaves a gap the cloth passes behind."""
    step = step_of(say.ledger, at).value
    if step is None or step >= ZERO:
        return
    yield say.finding(
        f"step-below:{at.section_id}:{at.end}", "warn", f"survey.post.{at.post_id}.along_side",
        f"{where}: the post ends {say.length(-step)} short of the rail's inner face, "
        "so cloth passes behind it with nothing to fix to.",
        "Read post, set-in and rail thickness again; or stop the section at the post and let it end there.", step,
        other=f"survey.post.{at.post_id}.side_set_in",
    )  # fmt: skip


def _turned(say: Sayer, at: AtPost, where: str) -> Iterator[Finding]:
    """A turned leg opens below: how much must be read, it cannot be deduced."""
    read = getattr(at.section, f"{at.end}_daylight_top"), getattr(at.section, f"{at.end}_daylight_floor")
    if at.post.turned is not True or None not in read:
        return
    leaf = "daylight_top" if read[0] is None else "daylight_floor"
    yield say.finding(
        f"turned-leg:{at.section_id}:{at.end}", "note", f"survey.section.{at.section_id}.{at.end}_{leaf}",
        f"{where}: the leg is turned, so it opens below, and the daylight beside it is not read yet.",
        "Read the daylight between the section's end and the leg, at the top and at the floor; or keep it so.",
        at.post_id,
    )  # fmt: skip


def _return(say: Sayer, at: AtPost, where: str) -> Iterator[Finding]:
    """A return goes where there is room behind the post, and is fixed only where one may fix into it."""
    length, neighbour, step = at.length, neighbour_of(say.ledger.job, at), None
    if is_measured(at.post):
        step = step_of(say.ledger, at).value
    if at.post.may_fix is False and (step is None or step > ZERO):
        yield say.finding(
            f"return-unfixed:{at.section_id}:{at.end}", "warn", f"survey.section.{at.section_id}.{at.end}_end",
            f"{where}: the return must bend round the post, and one may not fix into that post.",
            "Let the section stop at the post; or keep the return and let it hang free.", at.post_id,
        )  # fmt: skip
    beyond = step_of(say.ledger, neighbour).value if neighbour and is_measured(at.post) else None
    if length is None:
        return
    if step is None or beyond is None:
        yield say.finding(
            f"return-unmeasured:{at.section_id}:{at.end}", "note", at.key,
            f"{where}: how far the return of {say.length(length)} may go is not known: the post is not measured.",
            "Measure the post and the rails' set-in, or hold the return against the post and look.", length,
        )  # fmt: skip
    elif length > room_behind(step, beyond):
        yield from _too_long(say, at, where, length, room_behind(step, beyond))


def _too_long(say: Sayer, at: AtPost, where: str, length: Length, room: Length) -> Iterator[Finding]:
    yield say.finding(
        f"return-long:{at.section_id}:{at.end}", "warn", at.key,
        f"{where}: the return of {say.length(length)} is longer than the post leaves room for, {say.length(room)}: "
        "it would meet the neighbouring rail.",
        f"Make the return {say.length(room)} or less." if room else "Let the section stop at the post.", length, room,
    )  # fmt: skip


def _two_returns(say: Sayer) -> Iterator[Finding]:
    """Of two returns at one post the second lies inside the first."""
    seen: dict[str, AtPost] = {}
    for at in ends_at_posts(say.ledger.job):
        if not at.returns:
            continue
        first = seen.setdefault(at.post_id, at)
        if first is not at:
            names = [section_name(say.ledger.job, each.section_id) for each in (first, at)]
            yield say.finding(
                f"two-returns:{at.post_id}", "note", at.key,
                f"{names[0]} and {names[1]} both return at post {at.post_id}: the second lies inside the first.",
                "Hang the longer return first; or let one of them stop at the post.", first.section_id, at.section_id,
            )  # fmt: skip


def _hooks(say: Sayer, section_id: str) -> Iterator[Finding]:
    """A hook plate or bolt head at an end takes the place of fixings."""
    section = say.ledger.job.survey.section[section_id]
    for end in ENDS:
        hook = section.left_hook if end == "left" else section.right_hook
        if hook:
            where = f"{section_name(say.ledger.job, section_id)}, {at_the_end(side_of(section_id, section), end)}"
            yield say.finding(
                f"hook:{section_id}:{end}", "note", f"survey.section.{section_id}.{end}_hook",
                f"{where}: a hook plate or bolt reaches {say.length(hook)} along the rail; no fixing goes there.",
                "Fix close beside it, or carry the tape over it with glue or hook-and-loop.", hook,
            )  # fmt: skip


def _overlaps(say: Sayer, section_id: str) -> Iterator[Finding]:
    """To lie over the next section an end needs one: round the corner, or going on along the same side."""
    survey, there = say.ledger.job.survey, sections_on(say.ledger.job)
    section = survey.section[section_id]
    side = side_of(section_id, section)
    for end, kind in zip(ENDS, (section.left_end, section.right_end), strict=True):
        if kind != "overlaps" or side is None or goes_on(survey, section_id, end):
            continue
        other_end: End = "right" if end == "left" else "left"
        beyond = [each for id, each in there if side_of(id, each) == next_side(side, end)]
        if all(stops_short(each, other_end) for each in beyond):
            where = f"{section_name(say.ledger.job, section_id)}, {at_the_end(side, end)}"
            yield say.finding(
                f"overlap-none:{section_id}:{end}", "ask", f"survey.section.{section_id}.{end}_end",
                f"{where}: it is to lie over the next section, and there is none.",
                "Let it stop at the post or turn in behind it, or add the section it is to lie over.", section_id, end,
            )  # fmt: skip


def _ledger(say: Sayer, section_id: str) -> Iterator[Finding]:
    """The folded tape must fit between the rail's lower edge and the ledger."""
    key = f"survey.section.{section_id}"
    free, width = say.ledger.read(f"{key}.free_height").value, say.ledger.read("cloth.tape.width").value
    raised = say.ledger.read(f"{key}.raised", fallback="survey.raised").value
    if free is None or width is None or raised is None or free >= raised + width / 2:
        return
    need = raised + width / 2
    yield say.finding(
        f"ledger-low:{section_id}", "warn", f"{key}.free_height",
        f"{section_name(say.ledger.job, section_id)}: {say.length(free)} is free below the ledger, "
        f"and the folded tape needs {say.length(need)}.",
        _tape_that_fits(say, free, raised, width / 2), free, need, other="cloth.tape.width",
    )  # fmt: skip


def _tape_that_fits(say: Sayer, free: Length, raised: Length, fold: Length) -> str:
    """Narrower tape helps only while the rows and the raw edge still find room under it: `1/2 in ≤ top ≤ T/2`."""
    top, room = say.ledger.read("allowances.top").value or LEAST_TOP, free - raised
    elsewhere = "fix to the rail's lower back edge"
    if room >= max(top, LEAST_TOP):
        return f"Take a tape of {say.length(room * 2)} or less, or {elsewhere}."
    if room >= LEAST_TOP:
        narrow = f"a tape of {say.length(room * 2)} or less and a top allowance of {say.length(room)} or less"
        return f"Take {narrow}, or {elsewhere}."
    if free >= fold:
        return (
            f"Let the cloth begin no more than {say.length(free - fold)} above the rail's lower edge, or {elsewhere}."
        )
    return f"No tape is that narrow: {elsewhere}."


DANGEROUS: Final[dict[ObstacleKind, str]] = {
    "heater": "Cloth stays at least 3 ft (1 m) from a heater: leave this side without a skirt, or move the heater.",
    "vent": "Keep the skirt clear of the vent, so that neither air nor heat is held back.",
    "socket": "Keep the skirt clear of the socket, and no leads or adaptors behind it.",
}


def obstacle_findings(say: Sayer) -> Iterator[Finding]:
    """Everything that looks wrong about the things in the way."""
    for section_id, section in sections_on(say.ledger.job):
        for thing_id, thing in section.in_the_way.items():
            where = f"{section_name(say.ledger.job, section_id)}: the {obstacle_name(thing_id, thing)}"
            yield from _outside(say, section_id, thing_id, thing, where)
            yield from _dangerous(say, section_id, thing_id, thing, where)
        yield from _splits(say, section_id)


def _run(say: Sayer, section_id: str) -> Length | None:
    run: Length | None = say.ledger.read(f"survey.section.{section_id}.run.1").value
    return run


def _outside(say: Sayer, section_id: str, thing_id: str, thing: Obstacle, where: str) -> Iterator[Finding]:
    """Its middle was read along the run, so it lies between the ends."""
    run = _run(say, section_id)
    if run is None or thing.at is None or thing.at <= run:
        return
    yield say.finding(
        f"outside-run:{section_id}:{thing_id}", "ask", f"survey.section.{section_id}.in_the_way.{thing_id}.at",
        f"{where} lies at {say.length(thing.at)}, beyond the end of the run at {say.length(run)}.",
        "Read its middle again: from the head on a side, from the bed's left on the foot or head.", thing.at, run,
        other=f"survey.section.{section_id}.run.1",
    )  # fmt: skip


def _dangerous(say: Sayer, section_id: str, thing_id: str, thing: Obstacle, where: str) -> Iterator[Finding]:
    """Heater, vent and socket are always spoken of."""
    if thing.kind not in DANGEROUS:
        return
    key = f"survey.section.{section_id}.in_the_way.{thing_id}.do"
    yield say.finding(
        f"danger:{section_id}:{thing_id}", "warn", key, f"{where} lies behind or beside the cloth.",
        DANGEROUS[thing.kind], thing.kind, thing.do or "nothing chosen yet",
    )  # fmt: skip


def _splits(say: Sayer, section_id: str) -> Iterator[Finding]:
    """Every part of a split section must have some length of its own."""
    count = len(splits_asked(say.ledger.job.survey.section[section_id]))
    runs = [say.ledger.figures.get(f"part.{section_id}/{part}.run") for part in range(1, count + 2)] if count else []
    if not any(run is not None and run.value is None and not run.needs for run in runs):
        return
    things = [each for each, _ in splits_asked(say.ledger.job.survey.section[section_id])]
    yield say.finding(
        f"split-outside:{section_id}", "stop", f"survey.section.{section_id}.in_the_way.{things[0]}.overlap",
        f"{section_name(say.ledger.job, section_id)}: as it is split, a part lies outside the run or has no length.",
        "Give a smaller overlap, another place, or no split.", *things,
    )  # fmt: skip
