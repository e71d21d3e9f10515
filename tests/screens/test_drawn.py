"""The drawing beside a question: the very thing that is asked for, on the screen too."""

from __future__ import annotations

from pathlib import Path
from threading import current_thread, get_ident, main_thread
from typing import Any

import pytest
from textual._compositor import Compositor
from textual.content import Content

from tests.render.jobs import WHOLE, project_of
from tests.screens.jobs import job_file
from tests.screens.pilots import EVERY_SIZE, at, job, opened, typed, until, wholly_visible
from wizard.project.project import put_many
from wizard.project.store import Store
from wizard.render.drawings.scene import Scene
from wizard.render.drawings.scene_for_question import scene_for
from wizard.screens.screen_text import alike
from wizard.screens.widgets import question_drawing
from wizard.screens.widgets.question_drawing import Drawing, drawn_with_key, picked_out
from wizard.trade.plan_records import Plan

TITLES = {
    "survey.post.head-left.along_side": "post head-left from above",
    "cloth.lining.width": "lining cloth laid flat",
    "cloth.tape.turn_under": "the tape along the rail, from one end",
    "cloth.face.owned.first.length": "a length of cloth in hand",
}
MORE = {
    "progress.usual_allowances": False,
    "progress.turned_posts": True,
    "survey.post.head-left.turned": True,
    "cloth.lining.use": True,
}


@pytest.mark.long
async def test_beside_every_question_the_screen_draws_what_that_question_asks_for(tmp_path: Path) -> None:
    path = tmp_path / "whole.toml"
    Store(path).save(put_many(project_of(WHOLE), MORE))
    async with opened(path) as pilot:
        screen, drawn = job(pilot), dict[str, str]()
        for question in screen.session.questions:
            screen.session.go(question.key)
            screen.show()
            await pilot.pause()
            scene, shows = screen.query_one(Drawing).scene, question.shows
            plan = screen.session.plan
            assert scene == scene_for(plan, shows.drawing, shows.section, shows.picked, question.key), question.key
            drawn[question.key] = scene.title if scene is not None else ""
        assert {key: drawn.get(key) for key in TITLES} == TITLES


@pytest.mark.long
@pytest.mark.parametrize("size", [(80, 24), (120, 40)])
async def test_no_drawing_is_cut_off_in_a_usual_window_while_its_question_stands(
    tmp_path: Path, size: tuple[int, int]
) -> None:
    path = tmp_path / "whole.toml"
    Store(path).save(put_many(project_of(WHOLE), MORE))
    async with opened(path, size) as pilot:
        screen = job(pilot)
        screen.pane.remind(())
        for question in screen.session.questions:
            screen.session.go(question.key)
            screen.show()
            await pilot.pause()
            await pilot.pause()
            drawing = screen.query_one(Drawing)
            assert not drawing.display or wholly_visible(drawing), question.key


async def test_what_a_bed_was_sold_as_is_asked_without_a_drawing(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "survey.bed_size")) as pilot:
        assert not job(pilot).query_one(Drawing).display


@pytest.mark.parametrize("size", EVERY_SIZE)
async def test_a_drawing_made_while_one_still_looks_is_the_one_made_on_the_spot(
    tmp_path: Path, size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    made: list[tuple[bool, str]] = []

    def looked_at(plan: Plan, drawing: str, section: str | None, picked: str | None, key: str) -> Scene | None:
        made.append((current_thread() is main_thread(), key))
        return scene_for(plan, drawing, section, picked, key)

    monkeypatch.setattr(question_drawing, "scene_for", looked_at)
    async with opened(job_file(tmp_path / "loft.toml", "survey.section.left.drop.1"), size) as pilot:
        screen = job(pilot)
        for reading, key in (("12 1/8", "survey.section.left.drop.2"), ("12 1/4", "survey.section.left.drop.3")):
            await typed(pilot, reading)
            await until(pilot, lambda key=key: (False, key) in made)
            await until(pilot, lambda: all(each.is_finished for each in pilot.app.workers))
            await pilot.press("enter")
            await at(pilot, key, "field")
            shown, question, plan = screen.pane.drawing, screen.session.current(), screen.session.plan
            assert question is not None
            assert (True, key) not in made
            scene = scene_for(plan, question.shows.drawing, question.shows.section, question.shows.picked, key)
            assert shown.scene == scene
            assert scene is not None
            assert alike(shown.content, picked_out(drawn_with_key(scene, *shown.size)))


async def test_what_went_with_another_question_is_gone_before_the_next_has_its_room(tmp_path: Path) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "survey.section.left.drop.1")) as pilot:
        screen = job(pilot)
        shown = screen.pane.drawing
        assert isinstance(shown.content, Content)
        await until(pilot, lambda: bool(str(shown.content)))
        for key in ("survey.watch", "survey.section.left.run.1"):
            screen.session.go(key)
            screen.show()
            # As it stands on the first frame, before the screen is laid out anew.
            assert str(shown.content) == ""
            await pilot.pause()
        await until(pilot, lambda: bool(str(shown.content)))


async def test_nothing_is_laid_out_beside_the_screen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    async with opened(job_file(tmp_path / "loft.toml", "survey.section.left.drop.2")) as pilot:
        threads, prepared = set[int](), list[int]()
        arrange, prepare = Compositor._arrange_root, Drawing.prepare

        def noted(compositor: Compositor, *how: Any, **more: Any) -> object:
            threads.add(get_ident())
            return arrange(compositor, *how, **more)

        def prepared_anew(drawing: Drawing, *what: Any) -> None:
            drawing.screen._compositor._full_map_invalidated = True
            prepare(drawing, *what)
            prepared.append(get_ident())

        monkeypatch.setattr(Compositor, "_arrange_root", noted)
        monkeypatch.setattr(Drawing, "prepare", prepared_anew)
        await typed(pilot, "12")
        await until(pilot, lambda: bool(prepared))
    assert get_ident() not in prepared
    assert threads <= {get_ident()}
