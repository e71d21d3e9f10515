"""Going about in a job: on, back, to any question or step, to what is missing."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from wizard.interview.job_state import PLACE, is_done, next_step, place_of
from wizard.interview.question import Question
from wizard.interview.session import Session
from wizard.prompts.console import numbered
from wizard.prompts.conversation import Conversation
from wizard.prompts.take_answer import end_of_questions
from wizard.render.figure_text import counted
from wizard.trade.plan_records import STAGES, Stage

STAY = "Number, or an empty line to stay here:"


class Place(Struct, frozen=True):
    """Somewhere to go, in words."""

    key: str
    title: str
    says: str


def again(talk: Conversation, _: str) -> None:
    """Read the place in hand out again."""
    talk.moved, talk.stage = True, None


def on(talk: Conversation, _: str) -> None:
    """Go on without answering."""
    if talk.session.next():
        talk.arrive()
    else:
        end_of_questions(talk)


def back(talk: Conversation, _: str) -> None:
    """Go back a place."""
    if talk.session.back():
        talk.arrive()
    else:
        talk.say("This is the beginning.")


def go(talk: Conversation, wanted: str) -> None:
    """Go anywhere: by stage and number, by words of the title, or by the key of the file."""
    if not wanted:
        picked = talk.lines.choose("Number of a stage, or an empty line to stay here:", _stages(talk.session))
        if picked is not None:
            _choose(talk, places_in(STAGES[picked], talk.session))
    elif (stage := numbered(wanted, len(STAGES))) is not None:
        _choose(talk, places_in(STAGES[stage], talk.session))
    elif talk.session.go(wanted):
        talk.arrive()
    else:
        _search(talk, wanted)


def missing(talk: Conversation, _: str) -> None:
    """What has still to be answered."""
    needed = talk.session.missing()
    if needed:
        _choose(talk, [_question(each, talk.session) for each in needed])
    else:
        talk.say("No answer is missing.", f"Next: {talk.session.next_action()}")


def look(talk: Conversation, _: str) -> None:
    """What is to look at again since answers given elsewhere, and was not gone to since."""
    waiting = talk.session.upset_places
    every = (each for stage in STAGES for each in places_in(stage, talk.session))
    found = [each for each in every if each.key in waiting]
    if found:
        _choose(talk, found)
    else:
        talk.say("Nothing waits to be looked at again.")


def work(talk: Conversation, _: str) -> None:
    """To the first step that is not ticked."""
    step = next_step(talk.session.project, talk.session.plan) or next(iter(talk.session.plan.work), None)
    if step is None:
        talk.say("There are no steps yet: the plan is not complete.", f"Next: {talk.session.next_action()}")
    else:
        talk.session.go(place_of(step))
        talk.arrive()


def places_in(stage: Stage, session: Session) -> list[Place]:
    """Every question and step of a stage, with its state."""
    questions = [_question(each, session) for each in session.questions if each.stage == stage]
    steps = [
        Place(place_of(each), each.title, "ticked" if is_done(session.project, each.id) else "not done")
        for each in session.plan.work
        if each.stage == stage
    ]
    waiting = session.upset_places
    return [_to_look_at(each) if each.key in waiting else each for each in questions + steps]


def _to_look_at(place: Place) -> Place:
    """The same, said to be looked at again since an answer given elsewhere."""
    why = "changed since you ticked it" if place.key.startswith(PLACE) else "asked now"
    return replace(place, says=f"to look at again, {why}; {place.says}")


def _stages(session: Session) -> list[str]:
    return [f"{stage}: {done} of {asked} done" for stage, (done, asked) in session.stages.items()]


def _search(talk: Conversation, wanted: str) -> None:
    every = [each for stage in STAGES for each in places_in(stage, talk.session)]
    found = _called(every, (wanted.casefold(),)) or _called(every, wanted.casefold().split())
    if not found:
        talk.say(f"Nothing is called “{wanted}” as the job stands. .go lists all there is.")
    elif len(found) == 1:
        _to(talk, found[0])
    else:
        _choose(talk, found)


def _called(places: Sequence[Place], words: Sequence[str]) -> list[Place]:
    return [each for each in places if all(word in f"{each.title} {each.says}".casefold() for word in words)]


def _choose(talk: Conversation, places: Sequence[Place]) -> None:
    if not places:
        talk.say("There is nothing here yet: the plan is not complete.", f"Next: {talk.session.next_action()}")
        return
    talk.say(f"{counted(len(places), 'place')}:")
    picked = talk.lines.choose(STAY, [f"{each.title}: {each.says}" for each in places])
    if picked is not None:
        _to(talk, places[picked])


def _to(talk: Conversation, place: Place) -> None:
    talk.session.go(place.key)
    talk.arrive()


def _question(question: Question, session: Session) -> Place:
    state = session.state(question.key)
    said = {
        "answered": f"answered {session.text(question.key)}".strip(),
        "usual": f"usual {question.usual}",
        "missing": "missing",
        "skipped": "left open",
    }
    return Place(question.key, question.title, said[state])
