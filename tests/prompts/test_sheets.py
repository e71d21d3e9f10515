"""Sheets are written from the plain mode: the very ones the shell writes, asked about before a file is replaced."""

from __future__ import annotations

from pathlib import Path

from tests.commands.message_texts import text_of
from tests.commands.running import within
from tests.project.test_better_plans import many_sections
from tests.prompts.talks import told_of
from wizard.interview.job_state import placed
from wizard.project.encode import encode
from wizard.project.plan_of_project import best_plan_of, can_improve, plan_of


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
        assert f"Not taken: {text_of('no file name', shown, why, 'job.json')}" in said
    assert f"Written: {tmp_path / '~nobody here.json'}" in said


def test_a_plan_not_proven_at_once_is_read_out_written_and_ticked_as_the_shell_writes_it(tmp_path: Path) -> None:
    project, path, target = many_sections(tmp_path, longer=9), tmp_path / "many.toml", tmp_path / "many.txt"

    def heard(place: str, *lines: str) -> str:
        """What is said where nothing was searched for yet in this run."""
        assert can_improve(plan_of(project))
        path.write_bytes(encode(placed(project, place)))
        return told_of(path, *lines)

    first, best = (next(each.amount for each in plan.purchases if each.id == "cloth:face")
                   for plan in (plan_of(project), best_plan_of(project)))  # fmt: skip
    assert (first, best) == ("13 1/8 yd", "12 3/4 yd")
    for order in (".plan", ".buy", ".cut", ".ways", ".why"):
        said = heard("name", order)
        assert best in said, order
        assert first not in said, order
    heard("name", ".sheets", "2", "2, 6", "many.txt")
    assert target.read_text() == within("sheet", "many.toml", "--only", "shop,hanging", folder=tmp_path).stdout
    assert f"plain cotton (face), 55 in wide: {best}" in heard("work.buy", "done")
    assert "hanged since you ticked" not in told_of(path, ".back")
