"""Tables worked out while their page is shown: what each fullness or way of cutting takes, row by row, in a thread."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import partial

from wizard.interview.question import Question
from wizard.screens.job_context import JobContext
from wizard.trade.job_fields import Job
from wizard.trade.plan_records import Offers, Plan


class LiveTables:
    """The table of the question in hand, and the plan as it would be at a row of it."""

    def __init__(self, job: JobContext, arrived: Callable[[], None]) -> None:
        self.job, self.session = job, job.session
        self._arrived = arrived
        """Told when there is more to show."""
        self._of: tuple[str, Job | None] = ("", None)
        """Question and job that the table is for."""
        self._offers = Offers((), ())
        self._wanted: Mapping[str, str] | None = None
        """Entries of the row in hand."""
        self._trying = False

    def table(self, question: Question) -> Offers:
        """As much of a question's table as is worked out."""
        plan = self.session.plan
        if (question.key, plan.job) != self._of:
            self._of, self._offers = (question.key, plan.job), Offers((), (), waits="Working it out…")
            self.job.from_thread("table", self._work_out(question, plan))
        return self._offers

    def _work_out(self, question: Question, plan: Plan) -> Iterator[Callable[[], None]]:
        if question.compound == "fullness":
            from wizard.trade.fullness_offers import offers_of_fullness

            found = offers_of_fullness(plan)
        else:
            from wizard.trade.compare_ways import offers_of_ways

            found = offers_of_ways(plan, plan.layers[0])
        for offers in found:
            yield partial(self._take, (question.key, plan.job), offers)

    def _take(self, of: tuple[str, Job], offers: Offers) -> None:
        if of == self._of:
            self._offers = offers
            if self.job.view == "page":
                self._arrived()

    def look_at(self, entries: Mapping[str, str] | None) -> None:
        """Show the plan as it would be with a row; None for the present plan."""
        if entries == self._wanted and (entries is None) == (self.job.tried is None):
            return
        self._wanted = entries
        if entries is None:
            self.job.tried = None
            self.job.show_around()
        elif not self._trying:
            self._trying = True
            self.job.from_thread("try", self._try(entries, self.session.plan))

    def _try(self, entries: Mapping[str, str], plan: Plan) -> Iterator[Callable[[], None]]:
        yield partial(self._tried, entries, self.session.would(entries), plan)

    def _tried(self, entries: Mapping[str, str], tried: Plan, plan: Plan) -> None:
        """One at a time: no thread can be stopped in the middle of a plan."""
        self._trying = False
        wanted, self._wanted = self._wanted, None
        if plan is self.session.plan and wanted == entries and self.job.view == "page":
            self._wanted, self.job.tried = entries, tried
            self.job.show_around()
        elif wanted is not None:
            self.look_at(wanted)
