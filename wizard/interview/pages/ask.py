"""How questions are declared as data, and made ready for one job."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from functools import lru_cache
from typing import Any, Final

from msgspec import Struct, field

from wizard.interview.answer_text import as_text, limits_for, usual_text
from wizard.interview.page import Copy, Page, Picture
from wizard.interview.pages.compounds import COMPOUNDS
from wizard.interview.pages.texts import choices, page_text, text_of
from wizard.interview.question import Choice, Kind, Question
from wizard.project.keys import split
from wizard.project.parse.field_values import scale_of
from wizard.project.project import Project
from wizard.trade.field_names import first_up, in_words
from wizard.trade.fields import Standard, Usual, bare, is_list, is_mapping, item_of, type_at
from wizard.trade.figures import value_at
from wizard.trade.job_fields import Job, usual_of
from wizard.trade.plan_records import Plan, Stage

AT_ONCE: Final = 8
"""Most questions at once on a page."""


class About(Struct, frozen=True):
    """The table of the file that some questions are about, in one job."""

    project: Project
    plan: Plan
    stage: Stage
    prefix: str
    """The key of the table with a dot at its end: `survey.section.left.`, or nothing."""
    section: str | None = None
    words: Mapping[str, str] = field(default_factory=dict)
    """What the texts of the questions may name between braces."""

    @property
    def job(self) -> Job:
        return self.plan.job

    @property
    def standard(self) -> Standard:
        return self.job.standard or "inches"

    def value(self, leaf: str) -> Any:
        """What was given at a leaf of this table, or None."""
        return value_at(self.job, self.prefix + leaf)

    def holds(self, leaf: str) -> Any:
        """What was given at a leaf, else its usual value, else None."""
        return held(self.job, self.prefix + leaf)

    def figure(self, figure_id: str) -> Any:
        """The value of a figure of the plan, or None."""
        figure = self.plan.figures.get(figure_id)
        return None if figure is None else figure.value

    def text(self, of_inches: Usual, of_metric: Usual) -> str:
        """The value for the standard of the job, as one would type it."""
        return as_text(of_inches if self.standard == "inches" else of_metric, self.job)


def held(job: Job, key: str) -> Any:
    """What was given at a key, else its usual value, else None."""
    value = value_at(job, key)
    return usual_of(key, job.standard or "inches") if value is None else value


class Ask(Struct, frozen=True):
    """One question as a page asks it. What it says, and what is always so of it, is in `texts.txt`."""

    leaf: str
    """Key inside the table the question is about. Of one that answers several keys, its own name."""
    text: str = ""
    """Name of what it says (see `texts`), where that is not its leaf in its kind of table."""
    says: Mapping[str, str] = {}
    """What its texts may name between braces besides `About.words`, which these may name."""
    when: bool = True
    """False where it does not apply."""
    choices: tuple[Choice, ...] = ()
    """By default those of the type of the field."""
    usual: str | None = None
    """The offered answer, empty for none; None for the one that `texts.txt` gives, else the trade's."""
    stands: bool | None = None
    """Whether the offered answer holds without being given; by default only the trade's usual value does."""
    optional: bool | None = None
    keys: tuple[str, ...] = ()
    """The keys that one answer goes to, where there are several."""
    compound: str = "same"
    """How it goes to them (see `compounds`)."""


Asked = tuple[Ask, About]
"""A question that applies, and what it is about."""


def asked(asks: Iterable[Ask | str | Asked], about: About) -> Iterator[Asked]:
    """The questions that apply; one that is no more than its key is written as that, and one about something else than
    `about` with that."""
    for each in asks:
        ask, of = each if isinstance(each, tuple) else (each, about)
        ask = Ask(ask) if isinstance(ask, str) else ask
        if ask.when:
            yield ask, of


def keys_of(ask: Ask, about: About) -> tuple[str, ...]:
    """The keys of the file that an answer writes."""
    return ask.keys or (about.prefix + ask.leaf,)


def _ready(ask: Ask, about: About, group: str, *, by_change: bool) -> Question:
    """The question, ready to be shown on the page with the title `group`."""
    job, metric, keys = about.job, about.project.is_metric, keys_of(ask, about)
    several = ask.compound if ask.keys else ""
    key, compound = ask.leaf if several else keys[0], COMPOUNDS.get(several)
    declared, choices_there, example = declared_at(keys[0], metric=metric)
    kind = (compound.kind if compound else None) or declared
    offered = ask.choices or (choices_there if kind == declared else ())
    text = text_of(ask.text or _name_of_text(about.prefix, ask.leaf), metric=metric)
    # What `left_hook` and its like are at is said by the name of that end.
    marks, said = text.marks, {**about.words, "end": about.words.get(ask.leaf.partition("_")[0], "")}
    said |= {name: words.format_map(said) for name, words in ask.says.items()}
    standing = usual_text(keys[0], job) if several in ("", "same") else None
    usual = marks.get("usual") or marks.get("holds") or standing if ask.usual is None else ask.usual or None
    stands = "holds" in marks or usual == standing if ask.stands is None else ask.stands
    return Question(
        key=key,
        stage=about.stage,
        group=group,
        section=about.section,
        title=first_up(text.title.format_map(said) or in_words(key, job)),
        words=text.words.format_map(said),
        how=text.how.format_map(said),
        kind=kind,
        choices=offered,
        usual=usual,
        stands=usual is not None and stands,
        # What the plan waits for may not stay empty, however seldom it is needed.
        optional=("optional" in marks if ask.optional is None else ask.optional)
        and about.plan.waits_for.isdisjoint(keys),
        example=marks.get("e.g.", "").format_map(said) or usual or (offered[0].value if offered else example),
        unusable=not job.unusable.keys().isdisjoint(keys),
        label=text.label.format_map(said),
        later="later" in marks,
        postponed="later" in marks and set(keys) <= set(about.project.progress.later),
        extra="adds" in marks,
        by_change=by_change,
        compound=several,
        keys=ask.keys,
        answer=compound.read(keys, about.project) if compound else None,
    )


def page(
    id: str,
    about: About,
    fields: Iterable[Ask | str | Asked],
    more: Iterable[Ask | str | Asked] = (),
    picture: Picture = "none",
    subject: str = "",
    *,
    says: Mapping[str, str] = {},
    copy: Copy | None = None,
    confirms: tuple[str, ...] = (),
    by_change: bool = False,
) -> Page:
    """A page with the title and sentences of its kind, which its id begins with. `says`: what its texts name between
    braces besides `About.words`."""
    said = {**about.words, **says}
    texts = page_text(id.partition(".")[0], metric=about.project.is_metric)
    title, words, more_words = (each.format_map(said) for each in texts)
    at_once, behind = (
        tuple(_ready(*each, title, by_change=by_change) for each in asked(some, about)) for some in (fields, more)
    )
    return Page(id, about.stage, title, words, at_once, behind, more_words, picture, subject, copy, confirms)


def counted(id: str, about: About) -> Page:
    """A page of which it is not known yet whether it is needed."""
    return Page(id, about.stage, "", "", ())


_TABLES: Final = {
    "survey.section": "section",
    "survey.section.in_the_way": "thing",
    "cloth": "cloth",
    "cloth.owned": "owned",
}
"""Tables, without the ids, of which there are several -> how the texts name their kind."""


@lru_cache(maxsize=2048)
def _name_of_text(prefix: str, leaf: str) -> str:
    """What a question says is named by its leaf in its kind of table: `section.end` for either end."""
    names = prefix.split(".")[:-1]
    ids = {"survey": (2, 4), "cloth": (1, 3)}.get(names[0], ()) if names else ()
    kind = _TABLES.get(".".join(each for place, each in enumerate(names) if place not in ids), "")
    if "." in leaf and not leaf.startswith("run."):
        return leaf
    plain = leaf.removeprefix("left_").removeprefix("right_") if kind == "section" else leaf
    return f"{kind}.{plain}" if kind else f"{prefix}{leaf}"


@lru_cache(maxsize=2048)
def declared_at(key: str, *, metric: bool) -> tuple[Kind, tuple[Choice, ...], str]:
    """How the question at a key is answered by the declaration of its field, the choices it offers, and an answer of
    the right form, which the limits of the field give where it has some."""
    declared, limits, lists = bare(type_at(Project, split(key))), limits_for(key), choices(metric=metric)
    example = scale_of(limits, metric=metric).example if limits else "window side"
    if is_mapping(declared):
        return "add", (), example if limits else "centre leg"
    if is_list(declared):
        return "choices", lists[bare(item_of(declared))], example
    if declared in lists:
        return "choice", lists[declared], example
    if limits is None:
        kind, example = _KINDS.get(declared, ("text", example))
        return kind, (), example
    if limits.kind == "length":
        return "length" if limits.none is None else "length or zero", (), example
    return "number" if limits.kind == "fullness" else limits.kind, (), example


_KINDS: Final[dict[type, tuple[Kind, str]]] = {bool: ("yes-no", "yes"), int: ("whole", "1000")}
"""How a field without limits is answered, by its type, with an example; any other is text."""
