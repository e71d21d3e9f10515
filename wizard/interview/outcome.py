"""What an answer can lead to: accepted, refused, or not saved; what it changed elsewhere, and what of that waits to be
looked at again."""

from __future__ import annotations

from msgspec import Struct

from wizard.interview.job_state import PLACE, JobState, missing
from wizard.interview.question import Question
from wizard.project.project import Unfit
from wizard.project.store import NotSaved
from wizard.project.value_faults import Fault
from wizard.trade.plan_records import Finding, Plan


class Refused(Struct, frozen=True):
    """An answer that cannot be read. Nothing was saved; the text stays in `Session.pending`."""

    sentence: str
    """What was found and what would do."""
    example: str
    offers: tuple[str, ...] = ()
    """Answers that may have been meant, each ready to be given: both readings of `1,200 mm`, near choices."""


Conflict = NotSaved
"""The file was changed by another hand, or cannot be written. Nothing was saved; see `Session.reload` and
`Session.overwrite`."""


class Upset(Struct, frozen=True):
    """What an answer changed further on."""

    steps: tuple[str, ...] = ()
    """Ids of ticked steps that told something else when they were ticked, and did not before this answer."""
    questions: tuple[str, ...] = ()
    """Keys of needed questions that are asked now and were not before."""


class Accepted(Struct, frozen=True):
    """An answer that was read and saved."""

    echo: str
    """The answer as it is understood: `12 1/8 in · 308 mm`; empty for a whole page."""
    changed: tuple[str, ...] = ()
    """Ids of figures whose value is not what it was, newly known ones too."""
    findings: tuple[Finding, ...] = ()
    """Findings that were not open before, or rest on other values now."""
    asks: tuple[Finding, ...] = ()
    """Those of them to ask about before going on, what rests on this very answer first: read again, it may settle the
    others. What a later page asks about is told there."""
    upset: Upset = Upset()
    alike: str = ""
    """The section that was the mirror of the one this answer changed, in words; the pages of both offer the same."""


def changed_figures(old: Plan, new: Plan) -> tuple[str, ...]:
    """Ids of figures whose value is not what it was, those included that are known now and were not."""
    before = {each: figure.value for each, figure in old.figures.items()}
    return tuple(each for each, figure in new.figures.items() if figure.value != before.get(each))


def new_findings(old: Plan, new: Plan) -> tuple[Finding, ...]:
    """Findings that are open now and were not, or rest on other values."""
    before = {(each.id, each.values) for each in old.findings if not each.kept}
    return tuple(each for each in new.findings if not each.kept and (each.id, each.values) not in before)


def upset_by(old: JobState, new: JobState) -> Upset:
    """What a change did to finished steps and to what is asked."""
    steps = tuple(each for each in new.stale if each not in old.stale)
    asked = old.by_key.keys()
    return Upset(steps, tuple(each.key for each in missing(new.questions, new.given) if each.key not in asked))


class PendingReview:
    """Questions that came up before others that are answered, until one stands there."""

    def __init__(self) -> None:
        self._questions = set[str]()
        self._reached = 0

    def note(self, upset: Upset, here: JobState) -> None:
        """A change was made. Going on leads by itself to questions of pages that were not reached yet."""
        self._questions |= {each for each in upset.questions if here.number(each) < self._reached}

    def look(self, place: str, here: JobState) -> None:
        """The place is looked at now; the work comes after every page."""
        self._reached = max(self._reached, here.number(place) or len(here.pages) + 1)
        self._questions.discard(place)

    def places(self, here: JobState) -> tuple[str, ...]:
        """Those that still wait for an answer, and the steps that changed since they were ticked, till they are ticked
        again: cloth that was cut too short is no less short for being looked at."""
        wanting = {each.key for each in missing(here.questions, here.given)} if self._questions else set()
        waiting = (self._questions & wanting) | {PLACE + each for each in here.stale}
        return tuple(each for each in here.places if each in waiting)


def rests_on(finding: Finding, question: Question | None) -> bool:
    """True where what looks wrong rests on what a question answers, alone or with others."""
    return question is not None and not {finding.key, finding.other}.isdisjoint(question.file_keys)


def other_of(finding: Finding, question: Question | None) -> str:
    """The key of the answer that the one to a question is held against; empty where there is none."""
    if question is None or not rests_on(finding, question):
        return ""
    return next((each for each in (finding.key, finding.other) if each not in question.file_keys), "")


def why_not_kept(finding: Finding) -> str:
    """Why a finding cannot be kept as it is, with the way out; empty for one that can."""
    return f"This stops the plan, so you cannot keep it. {finding.way_out}" if finding.level == "stop" else ""


def kept(finding_id: str, plan: Plan) -> dict[str, object]:
    """What goes into the file to keep a finding as it is. KeyError for an unknown one, Unfit for one that stops."""
    finding = next((each for each in plan.findings if each.id == finding_id), None)
    if finding is None:
        raise KeyError(finding_id)
    if finding.level == "stop":
        raise Unfit(Fault(("kept", finding_id), why_not_kept(finding)))
    return {f"kept.{finding_id}": finding.values}
