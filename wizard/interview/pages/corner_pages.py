"""The pages about the corners: what the ends of the sections do, and the posts they meet."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from typing import Final

from msgspec.structs import replace

from wizard.interview.page import Page
from wizard.interview.pages.ask import About, Ask, Asked, asked, counted, page, yes
from wizard.interview.pages.bed_pages import about_section
from wizard.interview.pages.compounds import COMPOUNDS
from wizard.interview.pages.texts import choices
from wizard.interview.question import Choice
from wizard.trade.field_names import first_up
from wizard.trade.fields import lengths
from wizard.trade.job_fields import Job, Section
from wizard.trade.sections import ENDS, End, end_in_words, goes_on, post_at, sections_on, side_of

Corner = tuple[str, End]
"""Id of a section and one of its ends."""


def corner_pages(about: About) -> Iterator[Page]:
    """What the ends do; then the posts, where cloth turns in behind them or a leg is turned."""
    yield _corners(about)
    yield from _posts(about)


def _corners(about: About) -> Page:
    at = _ends_at(about.job)
    asks = [_corner(kind, at[kind]) for kind in CORNER_KINDS if kind in at]
    turning = [each for each, kind in _kinds(about.job).items() if kind in ("returns", "overlaps")]
    if turning:
        asks.append(Ask("corners.returns", compound="same", keys=_keys(turning, "return"), usual=_turned_in))
    asks.append(TURNED)
    hooks = [(id, end) for id, each in sections_on(about.job) if side_of(id, each) in ("left", "right") for end in ENDS]
    if hooks:
        asks.append(Ask("corners.hooks", compound="same", keys=_keys(hooks, "hook"), optional=yes, later=True))
    own = (
        each
        for section_id, _ in sections_on(about.job)
        for each in asked((*_own_end("left"), *_own_end("right"), FLAT), about_section(about, section_id))
    )
    return page("corners", about, asks, own, "bed")


CORNER_KINDS: Final = ("foot", "head", "between")
"""The foot corners, the head corners, and where two sections of one side meet."""


def _ends_at(job: Job) -> dict[str, list[Corner]]:
    """Kind of corner -> every end there: those of the sides first."""
    found: dict[str, list[Corner]] = {}
    for section_id, section in sorted(sections_on(job), key=lambda each: side_of(*each) not in ("left", "right")):
        for end in ENDS:
            between = goes_on(job.survey, section_id, end)
            found.setdefault("between" if between else _corner_of(section_id, section, end), []).append(
                (section_id, end)
            )
    return found


def _corner_of(section_id: str, section: Section, end: End) -> str:
    side = side_of(section_id, section)
    return side if side in ("foot", "head") else end_in_words(side, end).removesuffix(" end")


def _keys(ends: list[Corner], leaf: str) -> Callable[[About], tuple[str, ...]]:
    keys = tuple(f"survey.section.{id}.{end}_{leaf}" for id, end in ends)
    return lambda about: keys


def _kinds(job: Job) -> dict[Corner, str | None]:
    """Every end -> what it does; None while that is not said."""
    return {(id, end): getattr(each, f"{end}_end") for id, each in sections_on(job) for end in ENDS}


REACHES: Final = {
    "stop": ("left", "right", "foot", "head"),
    "sides": ("left", "right"),
    "across": ("foot", "head"),
    "overlap": ("foot", "head"),
}
"""What the ends do at a corner of the bed -> which sides have to be there for it."""


def _offered(kind: str, ends: list[Corner], about: About) -> tuple[Choice, ...]:
    """What the ends may do there, and what they do now where that is something else."""
    there = choices()["between"]
    if kind != "between":
        sides = {side_of(id, about.job.survey.section[id]) for id, _ in ends}
        there = tuple(
            replace(each, words=each.words.format(kind=kind))
            for each in choices()["corner"]
            if not sides.isdisjoint(REACHES[each.value])
        )
    now = COMPOUNDS["corner"].read(_keys(ends, "end")(about), about.project)
    unlike = now is not None and all(each.value != now for each in there)
    return (*there, *([Choice(now, "not alike: each end as set under More")] if now and unlike else []))


def _corner(kind: str, ends: list[Corner]) -> Ask:
    """What every end at corners of a kind does, as one answer."""
    return Ask(
        f"corners.{kind}",
        compound="corner",
        keys=_keys(ends, "end"),
        choices=partial(_offered, kind, ends),
        usual=lambda about: "stop",
    )


def _turned_in(about: About) -> str:
    """Enough to close a corner."""
    return about.text(*lengths("1 in", "5/2 cm"))


TURNED: Final = Ask(
    "corners.turned",
    compound="ticks",
    keys=lambda about: tuple(f"survey.post.{each}.turned" for each in _met(about.job)),
    choices=lambda about: tuple(Choice(each, each.replace("-", " ")) for each in _met(about.job)),
    when=lambda about: bool(_met(about.job)),
    usual=lambda about: "none",
    stands=yes,
)


def _own_end(end: End) -> tuple[Ask, ...]:
    kind = f"{end}_end"
    return (
        Ask(kind, optional=yes),
        Ask(f"{end}_return", when=lambda about: about.value(kind) in ("returns", "overlaps"), optional=yes),
        Ask(f"{end}_short", when=lambda about: about.value(kind) == "stops short"),
    )


FLAT: Final = Ask(
    "returns_flat",
    when=lambda about: "returns" in (about.value("left_end"), about.value("right_end")),
    usual=lambda about: "no",
    stands=yes,
)


def _met(job: Job) -> dict[str, bool]:
    """Id of every post a section meets -> whether cloth turns in behind it."""
    met: dict[str, bool] = {}
    for (section_id, end), kind in _kinds(job).items():
        post = post_at(job.survey, section_id, end)
        if post is not None and kind != "overlaps":
            met[post] = met.get(post, False) or kind == "returns"
    return met


def _posts(about: About) -> Iterator[Page]:
    """One page for all posts that are measured, or a page each where they are not alike."""
    job, daylight = about.job, tuple(_daylight(about))
    met = _met(job)
    turning = [post for post, returned in met.items() if returned]
    if not turning and not daylight:
        ends = _kinds(job).values()
        legs_said = about.project.progress.turned_posts is not None or not met
        yield from [] if ends and None not in ends and legs_said else [counted("posts", about)]
        return
    several = len(turning) > 1
    alike = about.project.progress.posts_alike is not False and _are_alike(job, turning)
    groups = [[each] for each in turning] if several and not alike else [turning]
    for number, posts in enumerate(groups):
        one = f"the {posts[0].replace('-', ' ')} post" if len(posts) == 1 else ""
        post, are = one or "the posts", "is" if one else "are"
        asks = [_of_posts(each, posts, alone=len(groups) > 1) for each in SIZES] if posts else []
        yield page(
            f"posts.{posts[0]}" if len(groups) > 1 else "posts",
            replace(about, words={"post": post, "are": are, "Posts": first_up(post)}),
            (*asks, *(daylight if number == len(groups) - 1 else ())),
            (POSTS_ALIKE,) if several and number == 0 else (),
            "corner" if posts else "side",
            posts[0] if posts else daylight[0][1].section or "",
        )


def _are_alike(job: Job, posts: list[str]) -> bool:
    there = [job.survey.post[each] for each in posts if each in job.survey.post]
    return all(len({getattr(each, ask.leaf.partition(".")[2]) for each in there}) < 2 for ask in SIZES)


def _of_posts(ask: Ask, posts: list[str], *, alone: bool) -> Ask:
    """One measure of these posts together; `alone` as a question of its own beside those of the others."""
    leaf = ask.leaf.partition(".")[2]
    keys = tuple(f"survey.post.{each}.{leaf}" for each in posts)
    return replace(ask, leaf=f"posts.{posts[0]}.{leaf}" if alone else ask.leaf, text=ask.leaf, keys=lambda about: keys)


def _daylight(about: About) -> Iterator[Asked]:
    """The gap beside turned legs, section by section."""
    survey = about.job.survey
    for section_id, end in _kinds(about.job):
        post = survey.post.get(post_at(survey, section_id, end) or "")
        if post is not None and post.turned:
            gaps = [f"{end}_daylight_top", f"{end}_daylight_floor"]
            yield from asked((Ask(each, optional=yes) for each in gaps), about_section(about, section_id))


POSTS_ALIKE: Final = Ask("progress.posts_alike", usual=lambda about: "yes", stands=yes)
SIZES: Final = (
    *(
        Ask(f"posts.{leaf}", compound="same", optional=yes, later=True)
        for leaf in ("along_side", "along_end", "side_set_in", "end_set_in")
    ),
    Ask("posts.may_fix", compound="same", optional=yes, usual=lambda about: "no"),
)
