"""`railskirt check`, and `railskirt list`, which `railskirt` alone without a terminal does too."""

from __future__ import annotations

import os
import tomllib
from datetime import UTC, datetime
from pathlib import Path

import pytest
import tomli_w

from tests.commands.message_texts import message
from tests.commands.running import SMALL, Stream, railskirt, within
from tests.render.jobs import WHOLE, project_of, whole_plan
from wizard.commands import listing
from wizard.commands.exits import Exit
from wizard.project.encode import encode
from wizard.project.folder import Candidate, Found, project_in
from wizard.project.plan_of_project import plan_of
from wizard.project.project import put_many

BAD = """format = 1
name = 7

[survey.section.left]
drop = ["11 7/8 in", "12 lb", "12 1/4 in"]
drup = "12 in"
"""


def checked(folder: Path, text: str) -> tuple[int, str]:
    """The status for one file, `job.toml`, and what is said of it."""
    (folder / "job.toml").write_text(text, encoding="utf-8")
    run = within("check", "job.toml", folder=folder)
    return run.returncode, run.stdout


def test_every_problem_of_a_file_is_told_at_once_with_line_and_key(tmp_path: Path) -> None:
    status, said = checked(tmp_path, BAD)
    assert status == Exit.BAD_FILE
    assert [line.split(": ")[:2] for line in said.splitlines()] == [
        ["job.toml:2", "name"],
        ["job.toml:5", "survey.section.left.drop.2"],
        ["job.toml:6", "survey.section.left.drup"],
    ]


def test_what_is_missing_is_told_with_its_key(tmp_path: Path) -> None:
    status, said = checked(tmp_path, SMALL)
    assert status == Exit.UNFINISHED
    missing = plan_of(project_of(SMALL)).missing
    told = [f"job.toml: {len(missing)} answers missing", *(f"  missing: {each.key}: {each.words}" for each in missing)]
    assert said.splitlines()[: len(told)] == told
    assert "  missing: cloth.face.width: face cloth: width" in told


def test_what_is_found_out_later_is_told_as_that_and_not_as_missing(tmp_path: Path) -> None:
    later = ["survey.section.left.free_height", "survey.post.foot-left.along_side", "survey.section.left.run.1"]
    with_ledger = put_many(
        project_of(WHOLE), {"survey.slatted": True, "survey.section.left.free_height": None, "progress.later": later}
    )
    _, said = checked(tmp_path, encode(with_ledger).decode())
    assert "to find out: survey.section.left.free_height: left section: free height below the ledger\n" in said
    assert "to find out: survey.post.foot-left.along_side: post foot-left: size along the side rail\n" in said
    assert "missing: survey.section.left.free_height" not in said
    assert "run.1" not in said


def test_open_findings_are_told_with_their_way_out_until_they_are_kept(tmp_path: Path) -> None:
    status, said = checked(tmp_path, WHOLE)
    assert status == Exit.FOUND
    assert said.startswith("job.toml: complete\n")
    for finding in whole_plan().findings:
        assert f"  {finding.level}: {finding.key}: {finding.sentence} {finding.way_out}\n" in said
    kept = {"kept": {each.id: each.values for each in whole_plan().findings}}
    assert checked(tmp_path, tomli_w.dumps(tomllib.loads(WHOLE) | kept)) == (Exit.OK, "job.toml: complete\n")


def test_one_bad_file_does_not_keep_the_others_from_being_checked(tmp_path: Path) -> None:
    for name, text in (("bad", BAD), ("small", SMALL), ("whole", WHOLE)):
        (tmp_path / f"{name}.toml").write_text(text, encoding="utf-8")
    run = within("check", "bad.toml", "not-there.toml", "small.toml", "whole.toml", folder=tmp_path)
    assert run.returncode == Exit.BAD_FILE
    for name in ("bad.toml:2: ", "not-there.toml: ", "small.toml: ", "whole.toml: complete"):
        assert f"\n{name}" in f"\n{run.stdout}"


def test_a_template_misses_no_answers_and_what_looks_wrong_in_it_is_told_all_the_same(tmp_path: Path) -> None:
    habits = 'format = 1\nname = "Habits"\nstandard = "metric"\ntemplate = true\n'
    assert checked(tmp_path, habits) == (Exit.OK, "job.toml: a template\n")
    status, said = checked(tmp_path, f'{habits}[fullness]\nwant = "3.5"\n')
    assert status == Exit.FOUND
    assert "warn: fullness.want" in said


LONG = "a" * 50_000


@pytest.mark.parametrize(
    "text",
    [
        f"format = 1\n{LONG} = 1\n",
        f'format = 1\n[survey.section.{LONG}]\nside = "left"\n',
        f'format = 1\nshow = "{LONG}"\n',
        f'format = 1\n[kept]\n{LONG} = "x"\n[work.{LONG}]\ndone = 1\n',
    ],
    ids=["key", "section", "value", "kept"],
)
def test_an_id_of_any_length_is_cut_short_in_a_message(text: str, tmp_path: Path) -> None:
    _, said = checked(tmp_path, text)
    assert "…" in said
    assert all(len(line) < 1000 for line in said.splitlines())


# `railskirt list`, and `railskirt` alone without a terminal.
MARCH = datetime(2026, 3, 2, 10, 42, tzinfo=UTC).timestamp()


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    for name, text, age in (("whole", WHOLE, 0), ("small", SMALL, 60), ("other", "[tool.things]\nx = 1\n", 0)):
        path = tmp_path / f"{name}.toml"
        path.write_text(text, encoding="utf-8")
        os.utime(path, (MARCH - age, MARCH - age))
    return tmp_path


def files(said: str) -> list[str]:
    """The files that are listed."""
    return [line for line in said.splitlines() if not line.startswith(" ")]


def test_the_projects_are_listed_with_stage_last_change_and_next_action(folder: Path) -> None:
    run = railskirt("list", folder=folder, TZ="UTC")
    assert (run.returncode, run.stderr) == (Exit.OK, "")
    lines = run.stdout.splitlines()
    assert lines[:2] == ["whole.toml", "  Juniper loft"]
    assert lines[2].endswith(", last changed 2026-03-02 10:42")
    assert lines[3].startswith("  next: ")
    assert lines[4] == "small.toml"
    assert lines[6] == "  Survey, last changed 2026-03-02 10:41"
    assert len(lines) == 8
    assert railskirt(folder=folder, TZ="UTC").stdout == run.stdout, "alone without a terminal it lists too"


def test_the_projects_folder_is_looked_in_where_there_is_one(folder: Path) -> None:
    (folder / "projects").mkdir()
    (folder / "projects" / "inside.toml").write_text(SMALL, encoding="utf-8")
    assert [Path(each) for each in files(within("list", folder=folder).stdout)] == [Path("projects/inside.toml")]
    assert files(within("list", ".", folder=folder).stdout) == ["whole.toml", "small.toml"]


def test_an_empty_folder_says_how_to_begin(tmp_path: Path) -> None:
    run = within("list", folder=tmp_path)
    assert (run.returncode, run.stdout, run.stderr) == (Exit.OK, "", message("nothing here", "."))


def test_a_broken_project_is_told_and_the_others_are_listed(folder: Path) -> None:
    (folder / "broken.toml").write_text("format = 1\nnam = 1\n", encoding="utf-8")
    run = within("list", folder=folder)
    assert run.returncode == Exit.BAD_FILE
    assert run.stderr.startswith("broken.toml:2: nam: ")
    assert "whole.toml" in run.stdout


def test_no_plan_is_worked_for_the_list_and_a_row_is_written_before_the_next_file_is_read(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out, seen = Stream(), list[str]()

    def worked(*_: object) -> object:
        raise AssertionError("a plan was worked")

    def watched(each: Candidate) -> Found | None:
        seen.append(out.text())
        return project_in(each)

    monkeypatch.setattr("wizard.project.plan_of_project.make_plan", worked)
    monkeypatch.setattr(listing, "project_in", watched)
    run = within("list", folder=folder, out=out)
    assert run.returncode == Exit.OK
    assert "  next: All answered: start the work." in run.stdout.splitlines()
    # `other` and `whole` were changed at the same moment; `small`, the last one, a minute before.
    assert [each.count("next: ") for each in seen] == [0, 0, 1]


@pytest.mark.parametrize("watched", [True, False])
def test_how_far_it_is_stands_on_a_terminal_only(folder: Path, watched: bool) -> None:
    run = within("list", folder=folder, err=Stream(watched=watched))
    assert ("] 1 of 3" in run.stderr) is watched
    assert run.stderr.endswith("\r") is watched
    assert "of 3" not in run.stdout


def test_a_row_never_stands_on_the_line_of_the_bar(folder: Path) -> None:
    both = Stream(watched=True)
    lines = within("list", folder=folder, out=both, err=both).stdout.split("\n")
    assert len([line for line in lines if line.rpartition("\r")[2].startswith("  next: ")]) == 2
