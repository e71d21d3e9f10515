"""What looks wrong, what to take care of, and what is missing."""

from __future__ import annotations

from wizard.sheets.matter import Findings, Heading, Matter, Points
from wizard.trade.plan import Plan


def findings(plan: Plan) -> list[Matter]:
    """The open findings with their ways out, then those that were kept."""
    return [Heading("Findings"), Findings(plan.findings)] if plan.findings else []


def cautions(plan: Plan) -> list[Matter]:
    """Every caution the job calls for, together."""
    sentences = tuple(each.sentence for each in plan.cautions)
    return [Heading("Cautions"), Points("caution", sentences)] if sentences else []


def missing(plan: Plan) -> list[Matter]:
    """What has still to be answered, with the key of the file."""
    needs = tuple(f"{each.words} ({each.key})" for each in plan.missing)
    return [Heading("Still to answer"), Points("missing", needs)] if needs else []
