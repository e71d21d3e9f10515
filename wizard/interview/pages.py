"""Every page of the interview, in the order of asking, and every question that applies to a job on one of them."""

from __future__ import annotations

import re
from typing import Final

from wizard.interview.all_questions import interview
from wizard.interview.page import Page, Picture
from wizard.interview.question import Question
from wizard.project.project import Project
from wizard.trade.plan_records import Plan, Stage
from wizard.trade.sections import section_name

_AT: Final = (
    (r"name|standard|show|ruler|currency", "job"),
    (r"survey\.section|survey\.section\.\w+\.on|survey\.bed_size", "sides"),
    (r"survey\.(rail|rail_thickness|slatted)|progress\.rails_alike|.*\.free_height", "rails"),
    (r"survey\.(floor|floor_gap|raised)", "floor"),
    (r"survey\.watch", "watch"),
    (r"survey\.section\.([^.]+)\.in_the_way\.([^.]+)\..*", r"thing.\1.\2"),
    (r"survey\.section\.[^.]+\.hem_line", "hem"),
    (r"progress\.turned_posts|.*\.(left|right)_(end|return|short|hook)|.*\.returns_flat", "corners"),
    (r"survey\.post\..*|.*_daylight_\w+", "posts"),
    (r"survey\.section\.([^.]+)\..*", r"side.\1"),
    (r"cloth\.(?:face)\.(repeat_kind|match|match_from)", "pattern"),
    (r"cloth\.face\.owned.*", "in-hand"),
    (r"cloth\.face\.(sold_by|step|price)", "shop"),
    (r".*\.wash|.*_shrink", "washing"),
    (r"cloth\.(face|interlining|lining)\.(?!fixing|lay|way|trim|hem|join|lap|setback|end_setback).*", r"\1"),
    (r"survey\.taken_off|cloth\.(fixing|tape|thread)\.(kind|pack|price|spool|sold_by|step)", "fixing"),
    (r"fullness\.(aim|want)", "fullness"),
    (r"fullness\..*|.*\.(lay|way)", "ways"),
    (r".*", "allowances"),
)  # fmt: skip
_ORDER: Final = (
    "job", "sides", "rails", "floor", "watch", "side", "thing", "hem", "corners", "posts", "face", "pattern", "in-hand",
    "shop", "interlining", "lining", "washing", "fixing", "allowances", "fullness", "ways",
)  # fmt: skip
_PICTURES: Final[dict[str, Picture]] = {
    "sides": "bed", "rails": "rail", "floor": "floor", "side": "side", "thing": "thing", "hem": "hem",
    "corners": "bed", "posts": "corner", "face": "cloth", "pattern": "pattern", "in-hand": "owned",
    "interlining": "cloth", "lining": "cloth", "fixing": "fixing", "allowances": "pieces", "fullness": "fullness",
    "ways": "ways",
}  # fmt: skip
MOST: Final = 8
"""Most questions at once."""


def pages_of(project: Project, plan: Plan) -> tuple[Page, ...]:
    """Every page that no answer has ruled out. Pure: the same project and plan give the same pages."""
    pages = dict[str, list[Question]]()
    for each in interview(project, plan):
        pages.setdefault(_page_at(each.key), []).append(each)
    sides = [id for id in pages if id.startswith(("side.", "thing."))]
    ordered = sorted(
        pages,
        key=lambda id: (
            _ORDER.index(id.partition(".")[0].replace("thing", "side")),
            0 if id not in sides else _after(id, sides),
        ),
    )
    return tuple(_page(id, pages[id], plan) for id in ordered)


def _place(id: str) -> int:
    return _ORDER.index(id.partition(".")[0].replace("thing", "side"))


def _after(id: str, sides: list[str]) -> int:
    section = id.split(".")[1]
    return sides.index(f"side.{section}") * 100 + sides.index(id)


def _page(id: str, questions: list[Question], plan: Plan) -> Page:
    kind, _, subject = id.partition(".")
    at_once = tuple(each for each in questions if not each.quiet)
    title = section_name(plan.job, subject).capitalize() if kind == "side" else kind.capitalize()
    stage: Stage = questions[0].stage
    return Page(
        id,
        stage,
        title,
        "",
        at_once[:MOST],
        (*at_once[MOST:], *(each for each in questions if each.quiet)),
        _PICTURES.get(kind, "none"),
        subject,
    )


def _page_at(key: str) -> str:
    return next(match.expand(page) for at, page in _AT if (match := re.fullmatch(at, key)))
