"""The fullness that is offered, and what is said of the cloth in hand, agree with the guide the findings go by."""

from __future__ import annotations

from fractions import Fraction
from itertools import product
from pathlib import Path
from typing import get_args

import pytest
from msgspec.structs import replace

from tests.interview.interview_texts import worded
from tests.interview.maker import MEASURED, Clock, begun, finished, give
from tests.trade.sample_jobs import inches, small, with_face
from wizard.interview.session import Session
from wizard.project.store import Store
from wizard.trade.fullness import offered
from wizard.trade.fullness_offers import offer_words
from wizard.trade.job_fields import Cloth, Fullness, Job, Owned, Weight
from wizard.trade.make_plan import make_plan

WEIGHTS: tuple[Weight, ...] = get_args(Weight)
OWNED = {
    **MEASURED,
    "cloth.face.weight": "light",
    "cloth.face.kind": "lawn",
    "cloth.face.owned": "14 yd",
    "face.layers": "interlining",
    "cloth.interlining.width": "45",
    "cloth.interlining.kind": "flannel",
    "cloth.interlining.weight": "medium",
}
"""Light cloth in hand, more than enough, over a thick interlining."""


def layered(face: Weight, inner: Weight | None) -> Job:
    """A small job of these weights."""
    job = with_face(small(), weight=face)
    layer = Cloth(use=inner is not None, width=inches(45), weight=inner)
    return replace(job, cloth=replace(job.cloth, interlining=layer))


@pytest.mark.parametrize(("face", "inner"), [*product(WEIGHTS, (None, *WEIGHTS))])
def test_what_is_offered_is_never_told_off(face: Weight, inner: Weight | None) -> None:
    job = layered(face, inner)
    for owned in (False, True):
        asked = with_face(job, owned={"bolt": Owned(length=inches(200))}) if owned else job
        plan = make_plan(replace(asked, fullness=Fullness(want=offered(asked))))
        assert not [each for each in plan.findings if each.id.startswith("fullness")], (face, inner, owned)


def test_light_cloth_over_a_thick_layer_is_offered_two(tmp_path: Path) -> None:
    session = begun(tmp_path)
    give(session, "cloth.face.weight", "light")
    question = session.question("fullness.want")
    assert question is not None
    assert question.usual == "2.5"
    assert worded("light") in question.how
    give(session, "face.layers", "interlining")
    give(session, "cloth.interlining.weight", "medium")
    question = session.question("fullness.want")
    assert question is not None
    assert question.usual == "2"
    assert worded("light over more") in question.how


@pytest.fixture(scope="module")
def owning(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A finished job with cloth in hand."""
    folder = tmp_path_factory.mktemp("owning")
    finished(folder, OWNED)
    return folder / "job.toml"


def session_of(path: Path) -> Session:
    """A session on it."""
    session = Session.resume(Store(path), Clock())
    assert isinstance(session, Session)
    return session


def test_cloth_in_hand_is_offered_the_guides_upper_end_and_not_all_that_it_allows(owning: Path) -> None:
    session = session_of(owning)
    want = session.question("fullness.want")
    assert want is not None
    assert want.usual == "2"
    assert session.plan.fullness_in_hand is not None
    assert session.plan.fullness_in_hand > 4
    thin = replace(session.plan.job.cloth, interlining=Cloth(use=False))
    assert offered(replace(session.plan.job, cloth=thin)) == Fraction(3)


def test_what_is_left_and_how_full_all_of_it_would_be_is_said(owning: Path) -> None:
    words = offer_words(session_of(owning).plan)
    assert words.startswith(worded("left over"))
    assert worded("without buying", "9.58") in words
    assert words.endswith(worded("hard to gather"))


def test_nothing_is_said_without_cloth_in_hand(tmp_path: Path) -> None:
    assert offer_words(finished(tmp_path).plan) == ""


def test_a_file_that_says_all_the_cloth_keeps_its_meaning(owning: Path) -> None:
    session = session_of(owning)
    give(session, "fullness.aim", "all the cloth I own")
    assert session.plan.figures["fullness"].value == session.plan.fullness_in_hand
