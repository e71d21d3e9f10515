"""The job's file in plain lines: beginning, resuming, another hand in it, comments, templates, leaving, its sheets."""

from __future__ import annotations

import errno
import io
import os
from pathlib import Path

import pytest

from tests.commands.message_texts import text_of
from tests.commands.running import within
from tests.interview.maker import resumed
from tests.project.stores import failing
from tests.project.test_better_plans import many_sections
from tests.project.test_store import is_folder
from tests.prompts.sentences import heard, said
from tests.prompts.talks import FILE, NAME, RUN, Script, another_hand, job_at, told, told_of
from wizard.interview.answer_text import given_by
from wizard.interview.job_state import placed
from wizard.project.encode import encode
from wizard.project.plan_of_project import at_best, can_improve, plan_of
from wizard.prompts.console import Console
from wizard.prompts.project_list import Home, again, run


# The list.
def test_an_empty_folder_says_how_to_begin_and_its_orders_and_a_new_project_needs_a_name(tmp_path: Path) -> None:
    talk = told(tmp_path, "", NAME, ".help", ".again", "new", "", ".quit now")
    assert said("no project") in talk
    assert heard("begin", talk, NAME)
    assert heard("nameless", talk)
    for each in ("new: ", "again: ", "quit: "):
        assert each in talk
    assert list(tmp_path.iterdir()) == []


def test_projects_are_listed_with_what_is_next_or_wrong_and_opened_by_number(tmp_path: Path) -> None:
    assert told(tmp_path, f"new {NAME}", "", "projects", "quit").rstrip().endswith("Project: quit")
    (tmp_path / "odd.toml").write_text('format = 1\nnmae = "x"\nshow = "ell"\n', encoding="utf-8")
    talk = told(tmp_path, "1", "projects", "2", "quit")
    for each in (f". {NAME}: Survey\nNext: ", f"Job: {NAME}\n", ". odd.toml: cannot be read, 2 problems.\n"):
        assert each in talk
    for each in ("Line 2: nmae: ", "Line 3: show: "):
        assert each in talk
    assert f". {NAME}: Survey\n" in told_of(tmp_path)


def test_what_cannot_be_read_or_is_not_there_is_not_gone_on_with(tmp_path: Path) -> None:
    path, target = tmp_path / "odd.toml", io.StringIO()
    path.write_text('format = 1\nshow = "ell"\n', encoding="utf-8")
    assert run(path, Console(io.StringIO(), target)) is False
    assert said("unreadable", "odd.toml") in target.getvalue()
    again(Home(Console(io.StringIO(), target), tmp_path / "nowhere"), "")
    assert "cannot be read: No such file" in " ".join(target.getvalue().split())


# Resuming and leaving.
def test_resuming_says_in_at_most_three_lines_what_was_done_and_what_is_next(at_run: Path) -> None:
    resume = told_of(at_run).partition(f"Job: {NAME}\n")[2].partition("\nPage")[0]
    assert resume.startswith("Done so far: ")
    assert "Next: Left section: run at the rail.\n" in resume
    assert len(resume.splitlines()) <= 3


def test_quit_and_the_end_of_the_script_keep_the_place_and_say_where_the_file_is(at_run: Path, tmp_path: Path) -> None:
    for script in (["76 5/8", "quit"], ["76 5/8"]):
        talk = told_of(at_run, *script)
        assert talk.splitlines()[-2:] == [f"Saved in: {at_run}", f"To go on: railskirt --plain {at_run}"]
    assert resumed(tmp_path).at == "survey.section.left.drop.1"
    talk = told_of(at_run, "file", "76 5/8", "file", "go survey.rail")
    assert talk.count(f"File: {at_run}\n") == 2
    assert said("unchanged") in talk
    assert "\nSaved: " in talk
    assert resumed(tmp_path).at == "survey.rail"


def test_ctrl_c_leaves_in_good_order_and_passes_on(at_run: Path, tmp_path: Path) -> None:
    def stop() -> None:
        raise KeyboardInterrupt

    target = io.StringIO()
    with pytest.raises(KeyboardInterrupt):
        run(at_run, Console(Script("76 5/8", "next", stop), target))
    assert target.getvalue().splitlines()[-2] == f"Saved in: {at_run}"
    assert resumed(tmp_path).text(RUN) == "76 5/8 in"


def test_a_length_typed_on_the_full_screen_and_not_entered_is_offered(at_run: Path, tmp_path: Path) -> None:
    session = resumed(tmp_path)
    session.type(RUN, "76 5/8")
    session.leave()
    talk = told_of(at_run, "take 1", "quit")
    assert "Typed here but not entered: 76 5/8\n" in talk
    assert heard("typed before", talk, "76 5/8")
    later = resumed(tmp_path)
    assert (given_by(later.project)[RUN], later.pending) == ("76 5/8 in", {})


# Another hand, comments, a disk.
def test_when_another_hand_was_in_the_file_it_is_left_read_again_or_written_over_and_kept(tmp_path: Path) -> None:
    before = tmp_path / "job.toml.before"
    for choice, name in (("", "Rowan room"), ("1", "Rowan room"), ("2", NAME)):
        path = job_at(tmp_path, RUN)
        talk = told_of(path, another_hand(path), "76 5/8", choice, "quit")
        # Leaving says what is not saved.
        assert talk.count("Not saved: ") == (1 if choice else 2)
        assert heard("read again", talk) == (choice == "1")
        assert heard("written over", talk, before.name) == (choice == "2")
        session = resumed(tmp_path)
        assert (session.project.name, session.state(RUN) == "answered") == (name, choice == "2")
    assert "Rowan room" in before.read_text(encoding="utf-8")


def test_a_tick_that_cannot_be_saved_is_asked_about_too(whole: Path, tmp_path: Path) -> None:
    talk = told_of(whole, "work", another_hand(whole), "done", "2", "quit")
    assert heard("written over", talk, "job.toml.before")
    assert resumed(tmp_path).project.work


def test_comments_are_asked_about_before_the_first_answer(at_run: Path, tmp_path: Path) -> None:
    at_run.write_text("# read twice\n" + at_run.read_text(encoding="utf-8"), encoding="utf-8")
    before = at_run.read_bytes()
    assert "The file has comments written by hand." in told_of(at_run, "", "quit")
    assert at_run.read_bytes() == before
    told_of(at_run, "1", "76 5/8")
    assert at_run.with_name(f"{at_run.name}.before").read_bytes() == before
    assert resumed(tmp_path).text(RUN) == "76 5/8 in"


def test_a_change_that_cannot_be_written_is_tried_again(at_run: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    access = iter([False, False, True])
    monkeypatch.setattr(os, "access", lambda *_: next(access, True))
    talk = told_of(at_run, "76 5/8", "1", "next", "76 1/2", "")
    assert talk.count("Not saved: ") == 2
    assert said("try again") in talk
    assert "Write my change over it" not in talk
    assert given_by(resumed(at_run.parent).project).get(RUN, "") in ("", "76 1/2 in")


def test_what_to_know_of_a_save_is_told_once(at_run: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    failing(monkeypatch, errno.EIO, "fsync", is_folder)
    talk = told_of(at_run, "76 5/8", "76 5/8", "quit")
    assert talk.count("“job.toml” is saved, but the disk did not confirm it: Input/output error.\n") == 1
    assert "could not be saved" not in talk


def test_a_template_is_kept_under_its_name_or_a_usual_one_and_begun_from(tmp_path: Path) -> None:
    path = job_at(tmp_path, "fullness.how")
    assert "Saved as juniper-loft-template.toml" in told_of(path, "template", "")
    (tmp_path / "juniper-loft-template.toml").unlink()
    talk = told_of(path, "template Usual work", "quit")
    assert "Saved as usual-work-template.toml: new projects can start from it.\n" in talk
    begun = told(tmp_path, "new Rowan room", "2", "quit")
    assert "Start from:\n1. Nothing: the trade's usual values\n2. Usual work\n" in begun
    made = (tmp_path / "rowan-room.toml").read_text(encoding="utf-8")
    assert 'began_from = "Usual work"' in made
    assert 'width = "54 in"' in made
    assert FILE not in [each.name for each in tmp_path.iterdir()]


# Sheets: the very ones the shell writes, asked about before a file is replaced.
def test_the_sheets_written_are_those_of_the_shell_and_nothing_is_replaced_unasked(whole: Path, tmp_path: Path) -> None:
    target = tmp_path / "cut it.txt"
    said = told_of(whole, "sheets", "2", "3, 2", "cut it.txt")
    assert f"Written: {target}\n{text_of('text written')}" in said
    assert target.read_text() == within("sheet", "job.toml", "--only", "shop,table", folder=tmp_path).stdout
    target.write_text("mine")
    said = told_of(whole, "sheets", "2", "99", "3", "cut it.txt", "no")
    assert f"cut it.txt is there already: {text_of('no sheet', 'a text file')}. Replace it?" in said
    assert "Nothing was written." in said
    assert target.read_text() == "mine"


def test_an_order_is_carried_out_wherever_sheets_are_asked_about(whole: Path, tmp_path: Path) -> None:
    before = {each.name for each in tmp_path.iterdir()}
    for lines in ((".file",), ("1", ".file"), ("1", "", ".file")):
        said = told_of(whole, "sheets", *lines)
        assert f"File: {whole}" in said
        assert "Nothing was written." not in said
    assert {each.name for each in tmp_path.iterdir()} == before


def test_the_project_itself_is_never_written_over(whole: Path) -> None:
    before = whole.read_bytes()
    said = told_of(whole, "sheets", "5", "job.toml", "yes")
    assert text_of("the project itself", "").strip() in said.replace("\n", " ")
    assert whole.read_bytes() == before


def test_a_name_that_no_file_can_have_is_asked_for_again_and_a_tilde_may_begin_one(whole: Path, tmp_path: Path) -> None:
    said = told_of(whole, "sheets", "5", "x" * 300, "a\0b", "~nobody here.json").replace("\n", " ")
    for shown, why in ((f"{'x' * 39}…", "File name too long"), ("a\\x00b", text_of("odd character"))):
        assert f"Not accepted: {text_of('no file name', shown, why, 'job.json')}" in said
    assert f"Written: {tmp_path / '~nobody here.json'}" in said


def test_a_plan_not_proven_at_once_is_read_out_written_and_ticked_as_the_shell_writes_it(tmp_path: Path) -> None:
    project, path, target = many_sections(tmp_path, longer=9), tmp_path / "many.toml", tmp_path / "many.txt"

    def heard(place: str, *lines: str) -> str:
        """What is said where nothing was searched for yet in this run."""
        assert can_improve(plan_of(project))
        path.write_bytes(encode(placed(project, place)))
        return told_of(path, *lines)

    first, best = (next(each.amount for each in plan.purchases if each.id == "cloth:face")
                   for plan in (plan_of(project), at_best(plan_of(project))))  # fmt: skip
    assert (first, best) == ("13 1/8 yd", "12 3/4 yd")
    for order in (".plan", ".buy", ".cut", ".ways", ".why"):
        said = heard("name", order)
        assert best in said, order
        assert first not in said, order
    heard("name", ".sheets", "2", "2, 6", "many.txt")
    assert target.read_text() == within("sheet", "many.toml", "--only", "shop,hanging", folder=tmp_path).stdout
    assert f"plain cotton (face), 55 in wide: {best}" in heard("work.buy", "done")
    assert "hanged since you ticked" not in told_of(path, ".back")
