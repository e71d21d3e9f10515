"""What stands in the file and cannot be used: each stops the plan where a figure waits for it, else it is warned of."""

from __future__ import annotations

from collections.abc import Iterator

from wizard.trade.findings import Finding
from wizard.trade.keynames import first_up, in_words
from wizard.trade.saying import Sayer


def unusable_findings(say: Sayer) -> Iterator[Finding]:
    """One for each value that cannot be used."""
    job = say.ledger.job
    waited_for = {need.key for figure in say.ledger.figures.values() for need in figure.needs} if job.unusable else ()
    for key, each in job.unusable.items():
        yield say.finding(
            f"unusable:{key}", "stop" if key in waited_for else "warn", key,
            f"{first_up(in_words(key, job))}: {each.sentence}", each.way_out, each.text,
        )  # fmt: skip
