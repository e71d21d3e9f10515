"""`railskirt check`."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
import tomli_w

from tests.commands.running import SMALL, within
from tests.render.jobs import WHOLE, project_of, whole_plan
from wizard.commands.exits import Exit
from wizard.project.encode import encode
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
