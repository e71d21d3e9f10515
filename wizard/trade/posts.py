"""Posts: the step a post makes at the end of a rail, and what a return may do there."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from wizard.trade.bed import Post, Section
from wizard.trade.corners import ENDS, End, post_at, sections_on, side_of
from wizard.trade.figures import Figure, Ledger, Rule
from wizard.trade.job import Job
from wizard.trade.lengths import ZERO, Length

STEP = Rule(
    "step of a post",
    "{across} − {set_in} − {thickness}",
    "How far the post stands in beyond the rail's inner face.",
)


class AtPost(Struct, frozen=True):
    """One end of a section at its post."""

    section_id: str
    section: Section
    end: End
    post_id: str
    post: Post

    @property
    def returns(self) -> bool:
        """True when the section returns behind this post."""
        return (self.section.left_end if self.end == "left" else self.section.right_end) == "returns"

    @property
    def key(self) -> str:
        """The file key of the return here."""
        return f"survey.section.{self.section_id}.{self.end}_return"

    @property
    def length(self) -> Length | None:
        """The return's length, if there is one and it is known."""
        return (self.section.left_return if self.end == "left" else self.section.right_return) if self.returns else None


def ends_at_posts(job: Job) -> Iterator[AtPost]:
    """Every end of every section that is made and whose post is known by its id, measured or not."""
    for section_id, section in sections_on(job):
        for end in ENDS:
            post_id = post_at(job.survey, section_id, end)
            if post_id is not None:
                yield AtPost(section_id, section, end, post_id, job.survey.post.get(post_id, Post()))


def is_measured(post: Post) -> bool:
    """True when anything of the post was measured."""
    return post != Post()


def step_of(ledger: Ledger, at: AtPost) -> Figure[Length]:
    """Step of a post at the end of a section's rail; below nothing where the post does not reach the inner face.

    Its size *across* this run and the rail's set-in change places round the corner.
    """
    on_side = side_of(at.section_id, at.section) in ("left", "right")
    across, set_in = ("along_end", "side_set_in") if on_side else ("along_side", "end_set_in")
    key = f"survey.post.{at.post_id}"
    thickness = ledger.read(f"survey.section.{at.section_id}.rail_thickness", fallback="survey.rail_thickness")
    return ledger.work(
        f"section.{at.section_id}.{at.end}_step",
        "step of the post",
        STEP,
        lambda across, set_in, thickness: across - set_in - thickness,
        across=ledger.read(f"{key}.{across}"),
        set_in=ledger.read(f"{key}.{set_in}"),
        thickness=thickness,
    )


def neighbour_of(job: Job, at: AtPost) -> AtPost | None:
    """The end of another section at the same post, round the corner."""
    side = side_of(at.section_id, at.section)
    for other in ends_at_posts(job):
        if other.post_id == at.post_id and side_of(other.section_id, other.section) != side:
            return other
    return None


def room_behind(own: Length, neighbour: Length) -> Length:
    """The longest return: along the post's side by this rail's step, and on behind it by the neighbouring rail's."""
    return max(own, ZERO) + max(neighbour, ZERO)
