"""A plan that is not proven at once is improved without a clock, and only ever for the better."""

from __future__ import annotations

from pathlib import Path

from msgspec.structs import replace

from tests.screens.jobs import NOON, job_file
from wizard.interview.job_state import place_of
from wizard.interview.session import Session
from wizard.project.plan_of_project import at_best, better_in, can_improve, improvements, plan_of
from wizard.project.project import Project, put_many
from wizard.project.reading import read
from wizard.project.store import Store
from wizard.render.formats import Request, render
from wizard.screens.clipboard import copies
from wizard.trade.plan_records import Plan


def many_sections(folder: Path, longer: int = 7) -> Project:
    """The usual job with nine more sections, each so much longer than the one before: too many to be searched as one
    at once."""
    project = read(job_file(folder / "many.toml").read_bytes())
    assert isinstance(project, Project)
    more: dict[str, object] = {}
    for n in range(9):
        at = f"survey.section.more-{n}"
        more |= {f"{at}.side": "left" if n % 2 else "right", f"{at}.name": f"more {n}"}
        more |= {f"{at}.left_end": "stops", f"{at}.right_end": "stops"}
        more |= {f"{at}.run.{k}": f"{31 + longer * n} in" for k in (1, 2)}
        more |= {f"{at}.drop.{k}": "9 in" if n % 3 else "12 in" for k in (1, 2, 3)}
    return put_many(project, more)


def used(plan: Plan) -> tuple[object, ...]:
    """Cloth and joins of the face."""
    cutting = plan.layers[0].cutting
    assert cutting is not None
    return cutting.best.used, cutting.best.joins


def test_a_plan_of_many_sections_comes_at_once_and_is_improved_until_it_is_proven(tmp_path: Path) -> None:
    project = many_sections(tmp_path)
    first = plan_of(project)
    assert can_improve(first)
    better = list(improvements(first))
    assert better
    assert all(used(plan) <= used(first) for plan in better)
    last = better[-1].layers[0].cutting
    assert last is not None
    assert last.best.proof.least
    assert not can_improve(better[-1])
    assert used(plan_of(project)) == used(first), "nothing is kept that was not handed on"
    assert used(plan_of(project, better=better_in(better[-1]))) == used(at_best(plan_of(project))) == used(better[-1])


def test_a_better_plan_is_taken_only_while_the_job_is_the_same(tmp_path: Path) -> None:
    store = Store(job_file(tmp_path / "loft.toml"))
    session = Session.resume(store, lambda: NOON)
    assert isinstance(session, Session)
    plan = plan_of(session.project)
    assert session.take(plan)
    assert session.plan is plan
    session.answer("fullness.want", "2.25")
    assert not session.take(plan)
    assert session.plan is not plan


def test_one_never_stands_at_a_step_that_the_better_plan_does_without(tmp_path: Path) -> None:
    session = Session.resume(Store(job_file(tmp_path / "loft.toml")), lambda: NOON)
    assert isinstance(session, Session)
    last, before = session.plan.work[-1], session.plan.work[-2]
    session.go(place_of(last))
    assert session.take(replace(session.plan, work=session.plan.work[:-1]))
    assert session.at == place_of(before)


def test_what_is_copied_is_of_the_plan_at_its_best(tmp_path: Path) -> None:
    project = many_sections(tmp_path, longer=9)
    first = plan_of(project)
    copied = next(each for each in copies(project, first, None, None, NOON.date()) if each.id == "cut-list").text()
    assert copied == render(at_best(plan_of(project)), Request("csv"))
    assert copied != render(first, Request("csv"))
