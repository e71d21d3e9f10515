"""`railskirt new` and `railskirt demo`, which asks before it replaces a copy."""

from __future__ import annotations

import io
from pathlib import Path

import pexpect
import pytest

from tests.commands.message_texts import message, text_of
from tests.commands.running import data, ended, leave, name, terminal, within
from tests.project.refusal_texts import refusal_text
from tests.render.jobs import WHOLE, project_of
from wizard.commands import new_project
from wizard.commands.exits import Exit
from wizard.project.project import Project


def new(folder: Path, *argv: str) -> str:
    """What is printed for a new project."""
    run = within("new", *argv, folder=folder)
    assert (run.returncode, run.stderr) == (Exit.OK, "")
    return run.stdout.removesuffix("\n")


def refused(folder: Path, *argv: str) -> tuple[int, str]:
    """The status and the sentence of a refusal that leaves the folder as it was."""
    before = {each.name: each.read_bytes() for each in folder.iterdir()}
    run = within(*argv, folder=folder)
    assert run.stdout == ""
    assert {each.name: each.read_bytes() for each in folder.iterdir()} == before
    return run.returncode, run.stderr


def made(path: Path) -> Project:
    return project_of(path.read_text(encoding="utf-8"))


def test_a_new_project_is_named_after_the_job_and_its_path_is_printed(tmp_path: Path) -> None:
    assert new(tmp_path, "Juniper löft / 2nd <b>") == "juniper-loft-2nd-b.toml"
    assert made(tmp_path / "juniper-loft-2nd-b.toml").name == "Juniper löft / 2nd <b>"
    (tmp_path / "projects").mkdir()
    assert Path(new(tmp_path, "Rowan room")) == Path("projects/rowan-room.toml")
    new(tmp_path, "Rowan room", "--folder", ".")
    assert (tmp_path / "rowan-room.toml").is_file()


def test_an_existing_file_is_never_replaced_not_even_by_the_same(tmp_path: Path) -> None:
    new(tmp_path, "Rowan room")
    sentence = refusal_text("file exists", "", "rowan-room.toml")
    assert refused(tmp_path, "new", "Rowan room") == (Exit.NOT_SAVED, f"railskirt: {sentence}\n")


def test_a_new_file_that_cannot_be_saved_is_not_said_to_be_there(tmp_path: Path) -> None:
    assert refused(tmp_path, "new", "Rowan room", "--folder", "not-there") == (
        Exit.NOT_SAVED,
        "railskirt: “rowan-room.toml” could not be saved: its folder does not exist. No file was made.\n",
    )


@pytest.mark.parametrize("standard", ["inches", "metric"])
def test_the_standard_is_kept_in_the_file(tmp_path: Path, standard: str) -> None:
    new(tmp_path, "Rowan room", "--standard", standard)
    assert made(tmp_path / "rowan-room.toml").standard == standard


@pytest.mark.parametrize("wanted", ["habits.toml", "habits", "./habits.toml"])
def test_a_template_gives_its_values_and_nothing_of_its_bed_or_its_cloth_in_hand(tmp_path: Path, wanted: str) -> None:
    (tmp_path / "habits.toml").write_text(WHOLE, encoding="utf-8")
    new(tmp_path, "Rowan room", "--from", wanted)
    project = made(tmp_path / "rowan-room.toml")
    assert (project.name, project.survey.section, project.cloth.face.owned) == ("Rowan room", {}, {})
    assert project.cloth.face.width is not None


def test_the_template_that_comes_along_can_be_named_from_anywhere_and_one_that_is_not_there_is_named(
    tmp_path: Path,
) -> None:
    (template,) = (each.name for each in new_project.shipped() if "template" in each.name)
    new(tmp_path, "Rowan room", "--from", template.removesuffix(".toml"))
    assert made(tmp_path / "rowan-room.toml").began_from is not None
    assert refused(tmp_path, "new", "Alder room", "--from", "a\x1b[0mb") == (
        Exit.BAD_FILE,
        f"a\\x1b[0mb: {text_of('no template', '.')}\n",
    )


def test_another_standard_than_the_templates_brings_its_own_unit_and_ruler(tmp_path: Path) -> None:
    habits = 'format = 1\nname = "Habits"\nshow = "cm"\nruler = "1 mm"\nstandard = "metric"\ntemplate = true\n'
    (tmp_path / "habits.toml").write_text(habits, encoding="utf-8")
    new(tmp_path, "Rowan room", "--from", "habits", "--standard", "inches")
    rowan = made(tmp_path / "rowan-room.toml")
    assert (rowan.standard, rowan.show, rowan.ruler) == ("inches", None, None)
    new(tmp_path, "Alder room", "--from", "habits", "--standard", "metric")
    alder = made(tmp_path / "alder-room.toml")
    assert alder.show == "cm"
    assert alder.ruler is not None


# The demo.
def test_without_a_terminal_the_demo_is_copied_where_is_said_and_an_earlier_copy_stays(tmp_path: Path) -> None:
    run = within("demo", folder=tmp_path)
    assert (run.returncode, Path(run.stdout.strip()).name) == (Exit.OK, name())
    assert (tmp_path / name()).read_bytes() == data()
    (tmp_path / name()).write_bytes(b"mine")
    assert refused(tmp_path, "demo") == (Exit.NOT_SAVED, message("copy exists", name()))


@pytest.mark.parametrize(
    ("typed", "yes"), [("y\n", True), ("Yes\n", True), ("n\n", False), ("\n", False), ("", False), ("yess\n", False)]
)
def test_only_a_clear_yes_is_one(
    typed: str, yes: bool, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO(typed))
    assert new_project.confirmed("Replace it?") is yes
    assert capsys.readouterr().err == "Replace it? [y/N] "


def test_a_folder_that_cannot_be_written_to_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert new_project.run_demo(tmp_path / "not-there", None) == Exit.NOT_SAVED
    assert capsys.readouterr().err.startswith("railskirt: could not write ")


MINE = data() + b"\n[kept]\n"


@pytest.mark.parametrize(("earlier", "answer", "held"), [(MINE, "n", MINE), (MINE, "y", data()), (None, "", data())])
def test_the_demo_asks_before_it_replaces_a_copy_and_opens(
    tmp_path: Path, earlier: bytes | None, answer: str, held: bytes
) -> None:
    if earlier:
        (tmp_path / name()).write_bytes(earlier)
    with terminal(tmp_path, "demo") as child:
        if earlier:
            child.expect_exact(f"{text_of('replace the copy', name())} [y/N]")
            assert (tmp_path / name()).read_bytes() == earlier
            child.sendline(answer)
        child.expect_exact("Gannet Stair")
        assert (tmp_path / name()).read_bytes() == held
        assert leave(child) == Exit.OK


def test_ctrl_c_at_the_demos_question_is_answered_cleanly(tmp_path: Path) -> None:
    (tmp_path / name()).write_bytes(b"mine")
    with terminal(tmp_path, "demo") as child:
        child.expect_exact("[y/N]")
        # On a busy machine the first may come before the line is read at all, and Python then notices it only with the
        # next key; a person would press again.
        for _ in range(6):
            child.sendintr()
            if child.expect_exact(["railskirt: stopped.", pexpect.TIMEOUT], timeout=10) == 0:
                break
        assert ended(child) == Exit.INTERRUPTED
    assert (tmp_path / name()).read_bytes() == b"mine"
