"""What looks wrong, what to take care of, and what is missing."""

from __future__ import annotations

from typing import Final

from wizard.sheets.page import Page
from wizard.trade.findings import Finding
from wizard.trade.plan import Plan

LEVELS: Final = {
    "stop": "to mend first",
    "warn": "likely to go wrong",
    "ask": "read again, or keep",
    "note": "worth knowing",
}
"""Level of a finding -> that in words."""


def findings(plan: Plan, page: Page) -> list[str]:
    """The open findings with their ways out, then those that were kept."""
    lines: list[str] = []
    for each in plan.findings:
        lines += ["", *_finding(each, page)] if lines else _finding(each, page)
    return [*page.heading("Findings"), *lines] if lines else []


def _finding(each: Finding, page: Page) -> list[str]:
    level = "looked at and kept" if each.kept else LEVELS[each.level]
    return [
        *page.para(f"{level[0].upper()}{level[1:]}: {each.sentence}"),
        *(page.para(each.way_out, "    ") if each.way_out else []),
        *page.para(each.key, "    in the file: "),
    ]


def cautions(plan: Plan, page: Page) -> list[str]:
    """Every caution the job calls for, together."""
    lines = [line for each in plan.cautions for line in page.para(each.sentence, "! ")]
    return [*page.heading("Cautions"), *lines] if lines else []


def missing(plan: Plan, page: Page) -> list[str]:
    """What has still to be answered, with the key of the file."""
    lines = [line for each in plan.missing for line in page.para(f"{each.words} ({each.key})", "? ")]
    return [*page.heading("Still to answer"), *lines] if lines else []
