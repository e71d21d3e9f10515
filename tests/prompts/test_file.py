"""The job's file in plain lines: beginning, resuming, another hand in it, comments, templates, leaving."""

from __future__ import annotations

import errno
import io
import os
import stat
from pathlib import Path

import pytest

from tests.interview.maker import resumed
from tests.prompts.conftest import RUN
from tests.prompts.sentences import heard, said
from tests.prompts.talks import FILE, NAME, Script, another_hand, job_at, told, told_of
from wizard.interview.answer_text import given_by
from wizard.prompts.console import Console
from wizard.prompts.project_list import Home, again, run


def test_an_empty_folder_says_how_to_begin(tmp_path: Path) -> None:
    talk = told(tmp_path, "", NAME)
    assert said("no project") in talk
    assert heard("begin", talk, NAME)
    assert list(tmp_path.iterdir()) == []


def test_a_new_project_needs_a_name(tmp_path: Path) -> None:
    assert heard("nameless", told(tmp_path, "new", ""))


def test_projects_are_listed_with_stage_and_what_is_next_and_opened_by_number(tmp_path: Path) -> None:
    told(tmp_path, f"new {NAME}", "", "projects")
    talk = told(tmp_path, "1", "quit")
    assert f"1. {NAME}: Survey\nNext: " in talk
    assert f"Job: {NAME}\n" in talk


def test_leaving_a_job_for_the_list_comes_back_to_the_list(tmp_path: Path) -> None:
    talk = told(tmp_path, f"new {NAME}", "projects", "quit")
    assert talk.rstrip().endswith("Project: quit")


def test_a_broken_file_is_listed_and_tells_all_that_is_wrong(tmp_path: Path) -> None:
    (tmp_path / "odd.toml").write_text('format = 1\nnmae = "x"\nshow = "ell"\n', encoding="utf-8")
    talk = told(tmp_path, "1")
    assert "1. odd.toml: cannot be read, 2 problems.\n" in talk
    assert "Line 2: nmae: " in talk
    assert "Line 3: show: " in talk


def test_a_file_that_cannot_be_read_is_not_gone_on_with(tmp_path: Path) -> None:
    path, target = tmp_path / "odd.toml", io.StringIO()
    path.write_text('format = 1\nshow = "ell"\n', encoding="utf-8")
    assert run(path, Console(io.StringIO(), target)) is False
    assert said("unreadable", "odd.toml") in target.getvalue()


def test_a_folder_in_place_of_a_file_is_listed(tmp_path: Path) -> None:
    job_at(tmp_path, RUN)
    assert f"1. {NAME}: Survey\n" in told_of(tmp_path)


def test_a_folder_that_is_not_there_is_told_so(tmp_path: Path) -> None:
    target = io.StringIO()
    again(Home(Console(io.StringIO(), target), tmp_path / "nowhere"), "")
    assert "cannot be read: No such file" in " ".join(target.getvalue().split())


def test_resuming_says_in_at_most_three_lines_what_was_done_and_what_is_next(tmp_path: Path) -> None:
    talk = told_of(job_at(tmp_path, RUN))
    resume = talk.partition(f"Job: {NAME}\n")[2].partition("\nPage")[0]
    assert resume.startswith("Done so far: ")
    assert "Next: Left section: run at the rail.\n" in resume
    assert len(resume.splitlines()) <= 3


def test_the_end_of_the_script_leaves_as_quit_does_and_says_where_the_file_is(tmp_path: Path) -> None:
    path = job_at(tmp_path, RUN)
    for script in (["76 5/8", "quit"], ["76 5/8"]):
        talk = told_of(path, *script)
        assert talk.splitlines()[-2:] == [f"Saved in: {path}", f"To go on: railskirt --plain {path}"]
    assert resumed(tmp_path).at == "survey.section.left.drop.1"


def test_a_place_gone_to_is_kept_for_the_next_opening(tmp_path: Path) -> None:
    path = job_at(tmp_path, RUN)
    told_of(path, "76 5/8", "go survey.rail")
    assert resumed(tmp_path).at == "survey.rail"


def test_ctrl_c_leaves_in_good_order_and_passes_on(tmp_path: Path) -> None:
    def stop() -> None:
        raise KeyboardInterrupt

    path, target = job_at(tmp_path, RUN), io.StringIO()
    with pytest.raises(KeyboardInterrupt):
        run(path, Console(Script("76 5/8", "next", stop), target))
    assert target.getvalue().splitlines()[-2] == f"Saved in: {path}"
    assert resumed(tmp_path).text(RUN) == "76 5/8 in"


def test_when_another_hand_was_in_the_file_it_can_be_read_again(tmp_path: Path) -> None:
    path = job_at(tmp_path, RUN)
    talk = told_of(path, another_hand(path), "76 5/8", "1", "quit")
    assert "Not saved: " in talk
    assert heard("read again", talk)
    session = resumed(tmp_path)
    assert (session.project.name, session.state(RUN)) == ("Rowan room", "missing")


def test_when_another_hand_was_in_the_file_mine_can_be_written_over_it(tmp_path: Path) -> None:
    path = job_at(tmp_path, RUN)
    talk = told_of(path, another_hand(path), "76 5/8", "2", "quit")
    assert heard("written over", talk, "job.toml.before")
    session = resumed(tmp_path)
    assert (session.project.name, session.text(RUN)) == (NAME, "76 5/8 in")
    assert "Rowan room" in path.with_name(f"{path.name}.before").read_text(encoding="utf-8")


def test_when_another_hand_was_in_the_file_both_can_be_left_and_leaving_says_what_is_not_saved(tmp_path: Path) -> None:
    path = job_at(tmp_path, RUN)
    talk = told_of(path, another_hand(path), "76 5/8", "", "quit")
    assert talk.count("Not saved: ") == 2
    assert resumed(tmp_path).project.name == "Rowan room"


def test_a_tick_that_cannot_be_saved_is_asked_about_too(tmp_path: Path) -> None:
    path = job_at(tmp_path)
    talk = told_of(path, "work", another_hand(path), "done", "2", "quit")
    assert heard("written over", talk, "job.toml.before")
    assert resumed(tmp_path).project.work


def test_comments_are_asked_about_before_the_first_answer(tmp_path: Path) -> None:
    path = job_at(tmp_path, RUN)
    path.write_text("# read twice\n" + path.read_text(encoding="utf-8"), encoding="utf-8")
    before = path.read_bytes()
    talk = told_of(path, "", "quit")
    assert "The file has comments written by hand." in talk
    assert path.read_bytes() == before
    told_of(path, "1", "76 5/8")
    assert path.with_name(f"{path.name}.before").read_bytes() == before
    assert resumed(tmp_path).text(RUN) == "76 5/8 in"


def test_a_template_is_kept_and_begun_from(tmp_path: Path) -> None:
    path = job_at(tmp_path, "fullness.want")
    talk = told_of(path, "template Usual work", "quit")
    assert "Kept as usual-work-template.toml: new projects can begin from it.\n" in talk
    begun = told(tmp_path, "new Rowan room", "2", "quit")
    assert "Begin from:\n1. Nothing: the trade's usual values\n2. Usual work\n" in begun
    made = (tmp_path / "rowan-room.toml").read_text(encoding="utf-8")
    assert 'began_from = "Usual work"' in made
    assert 'width = "54 in"' in made


def test_a_template_gets_a_usual_name_when_none_is_given(tmp_path: Path) -> None:
    talk = told_of(job_at(tmp_path, RUN), "template", "")
    assert "Kept as juniper-loft-template.toml" in talk


def test_the_file_and_the_time_it_was_saved_are_told(tmp_path: Path) -> None:
    path = job_at(tmp_path, RUN)
    talk = told_of(path, "file", "76 5/8", "file")
    assert talk.count(f"File: {path}\n") == 2
    assert said("unchanged") in talk
    assert "\nSaved: " in talk


def test_the_help_of_the_list_tells_its_orders(tmp_path: Path) -> None:
    talk = told(tmp_path, ".help", ".again", ".quit now")
    for each in ("new: ", "again: ", "quit: "):
        assert each in talk
    assert FILE not in [each.name for each in tmp_path.iterdir()]


def test_a_change_that_cannot_be_written_is_tried_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = job_at(tmp_path, RUN)
    access = iter([False, False, True])
    monkeypatch.setattr(os, "access", lambda *_: next(access, True))
    talk = told_of(path, "76 5/8", "1", "next", "76 1/2", "")
    assert talk.count("Not saved: ") == 2
    assert said("try again") in talk
    assert "Write my change over it" not in talk
    assert given_by(resumed(tmp_path).project).get(RUN, "") in ("", "76 1/2 in")


def test_a_length_typed_on_the_full_screen_and_not_entered_is_offered(tmp_path: Path) -> None:
    path = job_at(tmp_path, RUN)
    session = resumed(tmp_path)
    session.type(RUN, "76 5/8")
    session.leave()
    talk = told_of(path, "take 1", "quit")
    assert "Typed here but not entered: 76 5/8\n" in talk
    assert heard("typed before", talk, "76 5/8")
    later = resumed(tmp_path)
    assert (given_by(later.project)[RUN], later.pending) == ("76 5/8 in", {})


def test_what_to_know_of_a_save_is_told_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    sync = os.fsync

    def fsync(handle: int) -> None:
        if stat.S_ISDIR(os.fstat(handle).st_mode):
            raise OSError(errno.EIO, os.strerror(errno.EIO))
        sync(handle)

    path = job_at(tmp_path, RUN)
    monkeypatch.setattr(os, "fsync", fsync)
    talk = told_of(path, "76 5/8", "76 5/8", "quit")
    assert talk.count("“job.toml” is saved, but the disk did not confirm it: Input/output error.\n") == 1
    assert "could not be saved" not in talk
