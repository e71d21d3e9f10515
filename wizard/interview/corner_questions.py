"""Questions about the two ends of a section, and about the posts they meet."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Final

from wizard.interview.ask import About, Ask, asked, yes
from wizard.interview.question import Question
from wizard.project.project import Project
from wizard.trade.job_fields import Job
from wizard.trade.lengths import Length
from wizard.trade.plan_records import Plan
from wizard.trade.sections import ENDS, SIDES, End, goes_on, post_at, sections_on


def _turned_in(about: About) -> str:
    """An inch, or two and a half centimetres: enough to close a corner."""
    return about.text(Length(1) if about.standard == "inches" else Length.of(Fraction(5, 2), "cm"))


def _an_end(end: End) -> Iterator[Ask]:
    place = f"{{{end}}}"
    kind, back, short, hook = f"{end}_end", f"{end}_return", f"{end}_short", f"{end}_hook"
    yield Ask(
        kind,
        f"What does the cloth do at {place}?",
        "A return closes the corner, but it needs room behind the post. Without a post the section can lie over the"
        " next one.",
        usual=lambda about: "stops",
        drawing="plan",
    )
    yield Ask(
        back,
        lambda about: _how_far(about, kind, end),
        "It is extra cloth beyond the run. Behind a post there is only as much room as the post stands in beyond the"
        " rail's inner face.",
        when=lambda about: about.value(kind) in ("returns", "overlaps"),
        usual=_turned_in,
        drawing="plan",
    )
    yield Ask(
        short,
        f"How far short of the corner post does it stop, at {place}?",
        "Along the rail, from the end of the run to the post at the corner of the bed, past whatever stands between,"
        " another section too. It is no part of the run. It says where the tape begins when the section is hung, and"
        " how long the whole rail is.",
        when=lambda about: about.value(kind) == "stops short",
        drawing="plan",
    )
    yield Ask(
        hook,
        f"Does a hook plate or a bolt sit on the inside of the rail at {place}? How far does it reach along it?",
        "From the end of the run to where the rail is free again: nothing can be fixed there. Leave it empty for none.",
        optional=yes,
        quiet=lambda about: about.section not in ("left", "right"),
        drawing="top",
    )
    yield Ask(
        f"{end}_post",
        f"Which post does the section meet at {place}?",
        "Leave it empty for the post at the corner of the bed, or for none where the next section goes on. Name another"
        " where the section ends at a leg in between.",
        optional=yes,
        when=lambda about: about.value(kind) != "stops short",
        quiet=lambda about: about.section in SIDES and not goes_on(about.job.survey, about.section, end),
        drawing="plan",
        example="middle leg",
    )


ENDS_OF_A_SECTION: Final = (
    *(ask for end in ENDS for ask in _an_end(end)),
    Ask(
        "returns_flat",
        "Are the returns to be left flat instead of gathered?",
        "Flat returns take less room behind the post.",
        when=lambda about: "returns" in (about.value("left_end"), about.value("right_end")),
        usual=lambda about: "no",
        stands=yes,
        drawing="plan",
    ),
)


def _how_far(about: About, kind: str, end: End) -> str:
    at = about.words[end]
    if about.value(kind) == "overlaps":
        return f"How far does it lie over the next section, at {at}?"
    return f"How far does it turn in behind the post, at {at}?"


def questions_of_posts(project: Project, plan: Plan) -> Iterator[Question]:
    """The posts that the sections meet, each once; then the daylight beside turned ones."""
    for post, returned in _posts(plan.job).items():
        words = {"post": post.replace("-", " ")}
        about = About(project, plan, "Survey", f"survey.post.{post}.", f"post {post}", None, words)
        yield from asked((_TURNED, *(_SIZES if returned else ())), about)


def daylight_beside(about: About, end: End) -> tuple[Ask, ...]:
    """The daylight at one end of a section, where it meets a turned leg."""
    survey = about.job.survey
    post = survey.post.get(post_at(survey, about.section or "", end) or "")
    return _DAYLIGHT[end] if post is not None and post.turned else ()


def _posts(job: Job) -> dict[str, bool]:
    """Id of every post a section meets -> whether cloth is to return behind it."""
    met: dict[str, bool] = {}
    for section_id, section in sections_on(job):
        for end, kind in zip(ENDS, (section.left_end, section.right_end), strict=True):
            post = post_at(job.survey, section_id, end)
            if post is not None and kind != "overlaps":
                met[post] = met.get(post, False) or kind == "returns"
    return met


_TURNED: Final = Ask(
    "turned",
    "Is the {post} post turned or tapered?",
    "Thinner at the floor than at the rail.",
    when=lambda about: about.project.progress.turned_posts is True or about.value("turned") is not None,
    usual=lambda about: "no",
    stands=yes,
    drawing="plan",
)
_UNKNOWN: Final = " Leave it empty if you cannot measure it: then nothing is checked there."
_SIZES: Final = (
    Ask(
        "along_side",
        "How large is the {post} post, along the side of the bed?",
        "From its outer face to its inner face, in the direction of the side rail." + _UNKNOWN,
        optional=yes,
        drawing="plan",
    ),
    Ask(
        "along_end",
        "How large is the {post} post, along the foot or the head of the bed?",
        "The other way, in the direction of the foot or head rail." + _UNKNOWN,
        optional=yes,
        drawing="plan",
    ),
    Ask(
        "side_set_in",
        "How far does the side rail lie in from the outer face of the {post} post?",
        "Hold a ruler flat on the post's outer face and measure in to the rail; 0 where they are flush." + _UNKNOWN,
        optional=yes,
        drawing="plan",
    ),
    Ask(
        "end_set_in",
        "How far does the foot or head rail lie in from the outer face of the {post} post?",
        "The same, at the foot or the head of the bed; 0 where they are flush." + _UNKNOWN,
        optional=yes,
        drawing="plan",
    ),
    Ask(
        "may_fix",
        "May one fix into the {post} post?",
        "A return that bends round the post has to be held there. Say no where nothing may mark it.",
        usual=lambda about: "no",
        optional=yes,
        drawing="plan",
    ),
)


def _daylight(end: End) -> tuple[Ask, ...]:
    place = f"{{{end}}}"
    return (
        Ask(
            f"{end}_daylight_top",
            f"How much daylight is there between the section and the turned leg at {place}, at the top?",
            "From the end of the run straight across to the leg, at the height of the rail.",
            optional=yes,
            drawing="elevation",
        ),
        Ask(
            f"{end}_daylight_floor",
            f"And how much at the floor, at {place}?",
            "From straight below the end of the run across to the leg.",
            optional=yes,
            drawing="elevation",
        ),
    )


_DAYLIGHT: Final = {end: _daylight(end) for end in ENDS}
