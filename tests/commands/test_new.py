"""`railskirt new`."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.commands.message_texts import text_of
from tests.project.refusal_texts import refusal_text
from tests.render.jobs import WHOLE, project_of
from wizard.cli import main
from wizard.commands.exits import Exit
from wizard.project.project import Project


@pytest.fixture(autouse=True)
def _in_the_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def made(path: Path) -> Project:
    return project_of(path.read_text(encoding="utf-8"))


def test_a_new_project_is_named_after_the_job_and_its_path_is_printed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["new", "Juniper löft / 2nd <b>"]) == Exit.OK
    assert capsys.readouterr().out == "juniper-loft-2nd-b.toml\n"
    assert made(tmp_path / "juniper-loft-2nd-b.toml").name == "Juniper löft / 2nd <b>"


def test_it_goes_into_the_projects_folder_where_there_is_one(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "projects").mkdir()
    assert main(["new", "Rowan room"]) == Exit.OK
    assert Path(capsys.readouterr().out.strip()) == Path("projects/rowan-room.toml")
    assert main(["new", "Rowan room", "--folder", "."]) == Exit.OK
    assert (tmp_path / "rowan-room.toml").is_file()


def test_an_existing_file_is_never_replaced_not_even_by_the_same(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["new", "Rowan room"]) == Exit.OK
    before = (tmp_path / "rowan-room.toml").read_bytes()
    assert main(["new", "Rowan room"]) == Exit.NOT_SAVED
    assert (tmp_path / "rowan-room.toml").read_bytes() == before
    assert capsys.readouterr().err == f"railskirt: {refusal_text('file exists', '', 'rowan-room.toml')}\n"


@pytest.mark.parametrize("standard", ["inches", "metric"])
def test_the_standard_is_kept_in_the_file(tmp_path: Path, standard: str) -> None:
    assert main(["new", "Rowan room", "--standard", standard]) == Exit.OK
    assert made(tmp_path / "rowan-room.toml").standard == standard


@pytest.mark.parametrize("wanted", ["habits.toml", "habits", "./habits.toml"])
def test_a_template_gives_its_values_and_nothing_of_its_bed_or_its_cloth_in_hand(tmp_path: Path, wanted: str) -> None:
    (tmp_path / "habits.toml").write_text(WHOLE, encoding="utf-8")
    assert main(["new", "Rowan room", "--from", wanted]) == Exit.OK
    project = made(tmp_path / "rowan-room.toml")
    assert project.name == "Rowan room"
    assert project.cloth.face.width is not None
    assert project.survey.section == {}
    assert project.cloth.face.owned == {}


def test_a_template_that_is_not_there_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["new", "Rowan room", "--from", "a\x1b[0mb"]) == Exit.BAD_FILE
    assert capsys.readouterr().err == (f"a\\x1b[0mb: {text_of('no template', '.')}\n")
    assert list(tmp_path.iterdir()) == []


def test_the_standard_template_can_be_named_from_anywhere(tmp_path: Path) -> None:
    from wizard.commands.new_project import shipped

    names = [each.name for each in shipped() if "template" in each.name]
    assert names
    assert main(["new", "Rowan room", "--from", names[0].removesuffix(".toml")]) == Exit.OK
    assert made(tmp_path / "rowan-room.toml").name == "Rowan room"


def test_another_standard_than_the_templates_brings_its_own_unit_and_ruler(tmp_path: Path) -> None:
    habits = 'format = 1\nname = "Habits"\nshow = "cm"\nruler = "1 mm"\nstandard = "metric"\ntemplate = true\n'
    (tmp_path / "habits.toml").write_text(habits, encoding="utf-8")
    assert main(["new", "Rowan room", "--from", "habits", "--standard", "inches"]) == Exit.OK
    rowan = made(tmp_path / "rowan-room.toml")
    assert (rowan.standard, rowan.show, rowan.ruler) == ("inches", None, None)
    assert main(["new", "Alder room", "--from", "habits", "--standard", "metric"]) == Exit.OK
    alder = made(tmp_path / "alder-room.toml")
    assert alder.show == "cm"
    assert alder.ruler is not None


def test_a_new_file_that_cannot_be_saved_is_not_said_to_be_there(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["new", "Rowan room", "--folder", "not-there"]) == Exit.NOT_SAVED
    assert capsys.readouterr().err == (
        "railskirt: “rowan-room.toml” could not be saved: its folder does not exist. No file was made.\n"
    )
    assert list(tmp_path.iterdir()) == []
