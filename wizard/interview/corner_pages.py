"""The pages about the corners: what the ends of the sections do, and the posts they meet."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from typing import Final

from msgspec.structs import replace

from wizard.interview.ask import About, Ask, asked, yes
from wizard.interview.page import Page
from wizard.interview.question import Choice, Question
from wizard.interview.side_pages import about_section
from wizard.trade.job_fields import Job, Section
from wizard.trade.lengths import Length
from wizard.trade.sections import ENDS, End, end_in_words, goes_on, post_at, sections_on, side_of

Corner = tuple[str, End]
"""Id of a section and one of its ends."""


def corner_pages(about: About) -> Iterator[Page]:
    """What the ends do; then the posts, where cloth turns in behind them or a leg is turned."""
    yield _corners(about)
    yield from _posts(about)


def _corners(about: About) -> Page:
    kinds = {kind: ends for kind in CORNER_KINDS if (ends := _ends_at(about.job, kind))}
    at_once = [replace(CORNERS[kind], keys=_keys(ends, "end")) for kind, ends in kinds.items()]
    turning = _ends_that(about.job, "returns", "overlaps")
    if turning:
        at_once.append(replace(RETURNS, keys=_keys(turning, "return")))
    at_once += [replace(TURNED, keys=lambda about: tuple(f"survey.post.{each}.turned" for each in _met(about.job)))]
    hooks = [(id, end) for id, each in sections_on(about.job) if side_of(id, each) in ("left", "right") for end in ENDS]
    if hooks:
        at_once.append(replace(HOOKS, keys=_keys(hooks, "hook")))
    return Page(
        "corners", "Survey", "The corners",
        "A return is extra cloth that turns in behind the post and closes the corner; it needs room there. Most ends "
        "simply stop at the post.",
        tuple(asked(at_once, about)), tuple(_own_ends(about)), "bed",
    )  # fmt: skip


def _own_ends(about: About) -> Iterator[Question]:
    for section_id, _ in sections_on(about.job):
        of_section = about_section(about, section_id)
        for end in ENDS:
            yield from asked(OWN_END[end], of_section)
        yield from asked((FLAT,), of_section)


CORNER_KINDS: Final = ("foot", "head", "between")
"""The foot corners, the head corners, and where two sections of one side meet."""


def _ends_at(job: Job, kind: str) -> list[Corner]:
    """Every end at corners of a kind: those of the sides first."""
    found = list[Corner]()
    for section_id, section in sections_on(job):
        for end in ENDS:
            where = "between" if goes_on(job.survey, section_id, end) else _corner_of(section_id, section, end)
            if where == kind:
                found.append((section_id, end))
    return sorted(found, key=lambda each: side_of(each[0], job.survey.section[each[0]]) not in ("left", "right"))


def _corner_of(section_id: str, section: Section, end: End) -> str:
    side = side_of(section_id, section)
    return side if side in ("foot", "head") else end_in_words(side, end).removesuffix(" end")


def _keys(ends: list[Corner], leaf: str) -> Callable[[About], tuple[str, ...]]:
    keys = tuple(f"survey.section.{id}.{end}_{leaf}" for id, end in ends)
    return lambda about: keys


def _ends_that(job: Job, *kinds: str) -> list[Corner]:
    return [
        (id, end)
        for id, each in sections_on(job)
        for end, kind in zip(ENDS, (each.left_end, each.right_end), strict=True)
        if kind in kinds
    ]


def _end_choices(where: str) -> tuple[Choice, ...]:
    across = {"foot": "foot section", "head": "head section"}.get(where)
    both = (Choice("across", f"{across} turns in: behind the posts; the sides stop at them"),) if across else ()
    return (
        Choice("stop", "stop at the post: nothing turns in"),
        Choice("sides", "sides turn in: behind the post, which closes the corner")
        if across
        else Choice("turn in", "both turn in: behind the post between them"),
        *both,
        Choice("overlap", "sides overlap the next section: there is no post between them")
        if across
        else Choice("overlap", "overlap: one lies over the other; there is no post between them"),
    )


def _offered_at(where: str) -> Callable[[About], tuple[Choice, ...]]:
    def offered(about: About) -> tuple[Choice, ...]:
        sides = {side_of(id, about.job.survey.section[id]) for id, _ in _ends_at(about.job, where)}
        needs = {"across": {where}, "overlap": {where}, "sides": {"left", "right"}}
        return tuple(each for each in _end_choices(where) if where == "between" or needs.get(each.value, sides) & sides)

    return offered


CORNERS: Final = {
    kind: Ask(
        f"corners.{kind}",
        words,
        "A return needs room behind the post, and a post you may fix into if it bends round it. If the ends differ, set"
        " each under More.",
        label,
        title=label,
        compound="corner",
        choices=_offered_at(kind),
        usual=lambda about: "stop",
    )
    for kind, label, words in (
        ("foot", "at the foot corners", "What do the ends do at the foot corners?"),
        ("head", "at the head corners", "What do the ends do at the head corners?"),
        ("between", "where two sections meet", "What do the ends do where two sections of one side meet?"),
    )
}


def _turned_in(about: About) -> str:
    """An inch, or two and a half centimetres: enough to close a corner."""
    return about.text(Length(1) if about.standard == "inches" else Length.of(Fraction(5, 2), "cm"))


RETURNS: Final = Ask(
    "corners.returns",
    "How far do the ends turn in or overlap?",
    "Extra cloth beyond the run. Behind a post there is only as much room as the post stands in beyond the rail's inner"
    " face.",
    "return",
    title="how far the ends turn in",
    compound="same",
    usual=_turned_in,
)
TURNED: Final = Ask(
    "corners.turned",
    "Are any legs or posts turned or tapered, thinner at the floor than at the rail?",
    "Such a leg opens a gap beside the cloth, wider at the floor, which you measure next.",
    "turned legs",
    title="turned or tapered legs",
    compound="ticks",
    choices=lambda about: tuple(Choice(each, each.replace("-", " ")) for each in _met(about.job)),
    usual=lambda about: "none",
    stands=yes,
    when=lambda about: bool(_met(about.job)),
)
HOOKS: Final = Ask(
    "corners.hooks",
    "Does a hook plate or a bolt sit on the inside of the side rails, at their ends? How far does it reach along them?",
    "A hook plate joins rail and post. From the end of the run to where the rail is free again: nothing can be fixed"
    " there. Leave it empty for none.",
    "hook plates reach",
    title="hook plates on the side rails",
    compound="same",
    optional=yes,
    later=True,
)


def _own_end(end: End) -> tuple[Ask, ...]:
    place = f"{{{end}}}"
    kind = f"{end}_end"
    return (
        Ask(kind, f"What does the cloth do at {place}?", "Only if it differs from the other corners.",
            f"{{section}}, {place}", optional=yes),
        Ask(f"{end}_return", f"How far does it turn in or overlap at {place}?",
            "Only if it differs from the other corners.", f"return of the {{plain}} at {place}", optional=yes,
            when=lambda about: about.value(kind) in ("returns", "overlaps")),
        Ask(f"{end}_short", f"How far short of the corner post does it stop, at {place}?",
            "Along the rail, from the end of the run to the post at the corner of the bed, past whatever stands"
            " between. It is no part of the run.", f"{{section}}, short of {place} by",
            when=lambda about: about.value(kind) == "stops short"),
    )  # fmt: skip


OWN_END: Final = {end: _own_end(end) for end in ENDS}
FLAT: Final = Ask(
    "returns_flat",
    "Are the returns of this section left flat instead of gathered?",
    "Flat returns take less room behind the post.",
    "returns of the {plain} flat",
    when=lambda about: "returns" in (about.value("left_end"), about.value("right_end")),
    usual=lambda about: "no",
    stands=yes,
)


def _met(job: Job) -> dict[str, bool]:
    """Id of every post a section meets -> whether cloth turns in behind it."""
    met: dict[str, bool] = {}
    for section_id, section in sections_on(job):
        for end, kind in zip(ENDS, (section.left_end, section.right_end), strict=True):
            post = post_at(job.survey, section_id, end)
            if post is not None and kind != "overlaps":
                met[post] = met.get(post, False) or kind == "returns"
    return met


def _posts(about: About) -> Iterator[Page]:
    """One page for all posts that are measured, or a page each where they are not alike."""
    job, met = about.job, _met(about.job)
    turning = [post for post, returned in met.items() if returned]
    daylight = tuple(_daylight(about))
    if not turning and not daylight:
        ends = [end for _, each in sections_on(job) for end in (each.left_end, each.right_end)]
        if None in ends or not ends:
            yield Page("posts", "Survey", "The posts", "", ())
        return
    alike = about.project.progress.posts_alike is not False and _are_alike(job, turning)
    groups = [turning] if alike or len(turning) < 2 else [[each] for each in turning]
    for number, posts in enumerate(groups):
        one = posts[0] if len(posts) == 1 else ""
        asks = [replace(each, keys=_of_posts(posts, each.leaf)) for each in SIZES] if posts else []
        more = [POSTS_ALIKE] if len(turning) > 1 and number == 0 else []
        named = replace(about, words={"post": f"the {one.replace('-', ' ')} post" if one else "the posts"})
        yield Page(
            f"post.{one}" if one and len(turning) > 1 else "posts", "Survey",
            f"The {one.replace('-', ' ')} post, from above" if one else "The posts, from above",
            "The set-in is how far the rail lies in from the post's outer face; flush is 0. Leave open what you cannot "
            "measure: nothing is checked there.",
            (*asked(asks, named), *(daylight if number == len(groups) - 1 else ())), tuple(asked(more, about)),
            "corner" if posts else "side", one or (turning[0] if turning else daylight[0].section or ""),
        )  # fmt: skip


def _are_alike(job: Job, posts: list[str]) -> bool:
    there = [job.survey.post[each] for each in posts if each in job.survey.post]
    return all(len({getattr(each, ask.leaf.partition(".")[2]) for each in there}) < 2 for ask in SIZES)


def _of_posts(posts: list[str], leaf: str) -> Callable[[About], tuple[str, ...]]:
    keys = tuple(f"survey.post.{each}.{leaf.partition('.')[2]}" for each in posts)
    return lambda about: keys


def _daylight(about: About) -> Iterator[Question]:
    """The gap beside turned legs, section by section."""
    survey = about.job.survey
    for section_id, _ in sections_on(about.job):
        for end in ENDS:
            post = survey.post.get(post_at(survey, section_id, end) or "")
            if post is not None and post.turned:
                yield from asked(DAYLIGHT[end], about_section(about, section_id))


POSTS_ALIKE: Final = Ask(
    "progress.posts_alike", "Are all these posts alike?", "If not, each gets a page of its own.", "posts alike",
    title="posts alike", usual=lambda about: "yes", stands=yes,
)  # fmt: skip
SIZES: Final = tuple(
    Ask(f"posts.{leaf}", words, how, label, label, compound="same", optional=yes, usual=usual, later=usual is None)
    for leaf, label, words, how, usual in (
        ("along_side", "along the side", "How large is {post}, along the side of the bed?",
         "From its outer face to its inner face, in the direction of the side rail.", None),
        ("along_end", "along the foot or head", "How large is {post}, along the foot or head of the bed?",
         "The other way, in the direction of the foot or head rail.", None),
        ("side_set_in", "set-in of the side rail", "How far in does the side rail lie from the outer face of {post}?",
         "Hold a ruler flat on the post's outer face and measure in to the rail; 0 where they are flush.", None),
        ("end_set_in", "set-in of the foot or head rail",
         "How far in does the foot or head rail lie from the outer face of {post}?",
         "The same, at the foot or the head of the bed; 0 where they are flush.", None),
        ("may_fix", "fix into them?", "May you fix into {post}?",
         "A return that bends round the post has to be held there. Say no where nothing may mark it.",
         lambda about: "no"),
    )
)  # fmt: skip
DAYLIGHT: Final = {
    end: (
        Ask(f"{end}_daylight_top", f"How wide is the gap to the turned leg at {{{end}}}, at the top?",
            "From the end of the run straight across to the leg, at the height of the rail.",
            f"{{plain}}, gap at {{{end}}}, top", optional=yes),
        Ask(f"{end}_daylight_floor", f"How wide is the gap at {{{end}}}, at the floor?",
            "From straight below the end of the run across to the leg.",
            f"{{plain}}, gap at {{{end}}}, floor", optional=yes),
    )
    for end in ENDS
}  # fmt: skip
