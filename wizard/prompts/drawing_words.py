"""The drawing that goes with a question, told in words: what it shows, what is read already, which length is asked."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from wizard.interview.question import Question
from wizard.prompts.conversation import Conversation
from wizard.prompts.speech import spoken
from wizard.render.drawings.scene import Label, Scene
from wizard.render.drawings.scene_for_question import scene_for
from wizard.render.plain_text import with_capital
from wizard.render.sheet_header import UNIT_WORDS
from wizard.trade.drops_and_cut_lengths import LEAST_READINGS
from wizard.trade.field_names import in_words, obstacle_name
from wizard.trade.formatting import exact, ruler_of, shown
from wizard.trade.job_fields import Job, Section
from wizard.trade.lengths import ZERO, Length
from wizard.trade.plan_records import Plan
from wizard.trade.sections import ENDS, end_in_words, section_name, sections_on, short_read, side_of, stops_short

NOT_YET: Final = "not read yet"
BED: Final = "the bed from above"


def drawing(talk: Conversation, _: str) -> None:
    """Tell the drawing of the question in hand."""
    question = talk.session.current()
    lines = () if question is None else tuple(drawing_lines(talk.session.plan, question))
    talk.say(*(lines or ("No drawing goes with this.",)))


def drawing_lines(plan: Plan, question: Question) -> Iterator[str]:
    """The drawing in sentences, then how the tape is held."""
    shows = question.shows
    scene = scene_for(plan, shows.drawing, shows.section, shows.picked, question.key)
    if scene is None:
        return
    if shows.drawing == "elevation" and shows.section is not None:
        yield from _elevation(plan.job, shows.section)
    elif shows.drawing == "plan" and scene.title == BED:
        yield from _bed(plan.job, scene)
    else:
        yield from _labels(plan, scene)
    yield f"Asked for: {question.words}"
    yield question.how


def _elevation(job: Job, section_id: str) -> Iterator[str]:
    """A section from the room: ends, run, every drop, the slope of the floor, what is in the way."""
    section = job.survey.section.get(section_id, Section())
    side, name = side_of(section_id, section), section_name(job, section_id)
    left, right = (end_in_words(side, end) for end in ("left", "right"))
    yield f"{with_capital(name)}, seen from the room: the {left} at the left, the {right} at the right."
    yield f"The run at the rail: {_told(job, section.run[0] if section.run else None)}."
    yield from _short(job, section_id, section)
    count = max(LEAST_READINGS, len(section.drop))
    drops = [section.drop[at] if at < len(section.drop) else None for at in range(count)]
    yield "From the rail's lower edge down to the floor:"
    for number, drop in enumerate(drops, 1):
        words = in_words(f"survey.section.{section_id}.drop.{number}", job).removeprefix(f"{name}: ")
        place = section.drop_at[number - 1] if number <= len(section.drop_at) else None
        where = f", read at {_told(job, place)} from the {left}" if place is not None else ""
        yield f"{with_capital(words)}: {_told(job, drop)}{where}."
    yield from _floor(job, drops, left, right)
    for thing_id, thing in section.in_the_way.items():
        reaches = f", {_told(job, thing.width)} wide" if thing.width is not None else ""
        does = f": {thing.do}" if thing.do else ""
        yield f"In the way: {obstacle_name(thing_id, thing)}, its middle {_at(job, thing.at)}{reaches}{does}."


def _at(job: Job, place: Length | None) -> str:
    return NOT_YET if place is None else f"at {_told(job, place)}"


def _floor(job: Job, drops: list[Length | None], left: str, right: str) -> Iterator[str]:
    """The slope of the floor, once every drop is read."""
    known = [each for each in drops if each is not None]
    if len(known) < len(drops):
        return
    ways = [_slope(job, later - earlier) for earlier, later in pairwise(known)]
    yield f"The floor, from the {left} to the {right}: {', then '.join(ways)}."


def _slope(job: Job, more: Length) -> str:
    if more == ZERO:
        return "level"
    return f"{'falls' if more > ZERO else 'rises'} {_told(job, abs(more))}"


def _bed(job: Job, scene: Scene) -> Iterator[str]:
    """The bed from above, with every section to make."""
    yield f"{with_capital(scene.title)}: the head at the top, the foot at the bottom, a post at each corner."
    sections = sections_on(job)
    if not sections:
        yield "No section is to be made yet."
    for section_id, section in sections:
        run = section.run[0] if section.run else None
        yield f"Along the rail: {section_name(job, section_id)}, {_told(job, run)}."
        yield from _short(job, section_id, section)


def _short(job: Job, section_id: str, section: Section) -> Iterator[str]:
    """Where a section stops short of its post, and by how much."""
    for end in ENDS:
        if stops_short(section, end):
            where = end_in_words(side_of(section_id, section), end)
            yield f"At the {where} it stops {_told(job, short_read(section, end))} short of the post."


def _labels(plan: Plan, scene: Scene) -> Iterator[str]:
    """Any other drawing by its labels, from top to bottom; what is picked out last."""
    words = sorted((each for each in scene.shapes if isinstance(each, Label)), key=lambda each: (each.y, each.x))
    yield f"Drawn: {scene.title}."
    told = [spoken(each.text.strip()) for each in words if each.pen != "picked"]
    if told:
        yield f"From top to bottom: {'; '.join(dict.fromkeys(told))}."
    picked = [spoken(each.text.strip()) for each in words if each.pen == "picked"]
    if picked:
        yield f"Picked out: {'; '.join(dict.fromkeys(picked))}."
    if any(each.isdecimal() for word in words for each in word.text):
        yield f"Lengths without a unit are in {UNIT_WORDS[ruler_of(plan.job).unit]}."


def _told(job: Job, length: Length | None) -> str:
    if length is None:
        return NOT_YET
    text = exact(length, ruler_of(job).unit)
    return text if len(text) < 16 else shown(length, ruler_of(job))
