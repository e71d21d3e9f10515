"""The pages about the corners: what the ends of the sections do, and the posts they meet."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from msgspec.structs import replace

from wizard.interview.page import Page
from wizard.interview.pages.ask import About, Ask, Asked, asked, counted, page
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
    job, sections = about.job, sections_on(about.job)
    at, met = _ends_at(job), tuple(_met(job))
    turning = [each for each, kind in _kinds(job).items() if kind in ("returns", "overlaps")]
    hooks = [(id, end) for id, each in sections if side_of(id, each) in ("left", "right") for end in ENDS]
    # Enough to close a corner.
    closing = about.text(*lengths("1 in", "5/2 cm"))
    asks = (
        *(_corner(kind, at[kind], about) for kind in ("foot", "head", "between") if kind in at),
        Ask("corners.returns", when=bool(turning), keys=_keys(turning, "return"), usual=closing),
        Ask(
            "corners.turned",
            when=bool(met),
            keys=tuple(f"survey.post.{each}.turned" for each in met),
            compound="ticks",
            choices=tuple(Choice(each, each.replace("-", " ")) for each in met),
        ),
        Ask("corners.hooks", when=bool(hooks), keys=_keys(hooks, "hook")),
    )
    own = (row for id, each in sections for row in asked(_own_ends(each), about_section(about, id)))
    return page("corners", about, asks, own, "bed")


def _ends_at(job: Job) -> dict[str, list[Corner]]:
    """Kind of corner -> every end there, those of the sides first: of the foot corners, the head corners, and where two
    sections of one side meet."""
    found: dict[str, list[Corner]] = {}
    for section_id, section in sorted(sections_on(job), key=lambda each: side_of(*each) not in ("left", "right")):
        for end in ENDS:
            side = side_of(section_id, section)
            corner = side if side in ("foot", "head") else end_in_words(side, end).removesuffix(" end")
            kind = "between" if goes_on(job.survey, section_id, end) else corner
            found.setdefault(kind, []).append((section_id, end))
    return found


def _keys(ends: list[Corner], leaf: str) -> tuple[str, ...]:
    return tuple(f"survey.section.{id}.{end}_{leaf}" for id, end in ends)


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


def _corner(kind: str, ends: list[Corner], about: About) -> Ask:
    """What every end at corners of a kind may do, as one answer, and what they do now where that is something else."""
    there = choices()["between"]
    if kind != "between":
        sides = {side_of(id, about.job.survey.section[id]) for id, _ in ends}
        there = tuple(
            replace(each, words=each.words.format(kind=kind))
            for each in choices()["corner"]
            if not sides.isdisjoint(REACHES[each.value])
        )
    keys = _keys(ends, "end")
    now = COMPOUNDS["corner"].read(keys, about.project)
    unlike = now is not None and all(each.value != now for each in there)
    offered = (*there, *([Choice(now, "not alike: each end as set under More")] if now and unlike else []))
    return Ask(f"corners.{kind}", keys=keys, compound="corner", choices=offered)


def _own_ends(section: Section) -> Iterator[Ask | str]:
    kinds = (section.left_end, section.right_end)
    for end, kind in zip(ENDS, kinds, strict=True):
        yield f"{end}_end"
        yield Ask(f"{end}_return", when=kind in ("returns", "overlaps"))
        yield Ask(f"{end}_short", when=kind == "stops short")
    yield Ask("returns_flat", when="returns" in kinds)


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
    sizes = [job.survey.post[each] for each in turning if each in job.survey.post]
    same = all(len({getattr(each, leaf) for each in sizes}) < 2 for leaf in SIZES)
    alike = same and about.project.progress.posts_alike is not False
    groups = [[each] for each in turning] if several and not alike else [turning]
    for number, posts in enumerate(groups):
        one = f"the {posts[0].replace('-', ' ')} post" if len(posts) == 1 else ""
        post, are = one or "the posts", "is" if one else "are"
        # Beside the pages of the others, one has questions of its own.
        name = f"posts.{posts[0]}" if len(groups) > 1 else "posts"
        keys = {leaf: tuple(f"survey.post.{each}.{leaf}" for each in posts) for leaf in SIZES if posts}
        asks = (Ask(f"{name}.{leaf}", f"posts.{leaf}", keys=of_leaf) for leaf, of_leaf in keys.items())
        yield page(
            name,
            replace(about, words={"post": post, "are": are, "Posts": first_up(post)}),
            (*asks, *(daylight if number == len(groups) - 1 else ())),
            ("progress.posts_alike",) if several and number == 0 else (),
            "corner" if posts else "side",
            posts[0] if posts else daylight[0][1].section or "",
        )


SIZES: Final = ("along_side", "along_end", "side_set_in", "end_set_in", "may_fix")


def _daylight(about: About) -> Iterator[Asked]:
    """The gap beside turned legs, section by section."""
    survey = about.job.survey
    for section_id, end in _kinds(about.job):
        post = survey.post.get(post_at(survey, section_id, end) or "")
        if post is not None and post.turned:
            yield from asked((f"{end}_daylight_top", f"{end}_daylight_floor"), about_section(about, section_id))
