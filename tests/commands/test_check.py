"""`railskirt check`."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.commands.running import SMALL
from tests.render.jobs import WHOLE, project_of, whole_plan
from wizard.cli import main
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


def written(folder: Path, **files: str) -> None:
    for name, text in files.items():
        (folder / f"{name}.toml").write_text(text, encoding="utf-8")


@pytest.fixture(autouse=True)
def _in_the_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def test_every_problem_of_a_file_is_told_at_once_with_line_and_key(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    written(tmp_path, bad=BAD)
    assert main(["check", "bad.toml"]) == Exit.BAD_FILE
    lines = capsys.readouterr().out.splitlines()
    assert [line.split(": ")[:2] for line in lines] == [
        ["bad.toml:2", "name"],
        ["bad.toml:5", "survey.section.left.drop.2"],
        ["bad.toml:6", "survey.section.left.drup"],
    ]


def test_what_is_missing_is_told_with_its_key(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    written(tmp_path, small=SMALL)
    assert main(["check", "small.toml"]) == Exit.UNFINISHED
    lines = capsys.readouterr().out.splitlines()
    missing = plan_of(project_of(SMALL)).missing
    assert lines[0] == f"small.toml: {len(missing)} answers missing"
    assert lines[1 : len(missing) + 1] == [f"  missing: {each.key}: {each.words}" for each in missing]
    assert "  missing: cloth.face.width: face cloth: width" in lines


def test_what_is_found_out_later_is_told_as_that_and_not_as_missing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    later = ["survey.section.left.free_height", "survey.post.foot-left.along_side", "survey.section.left.run.1"]
    with_ledger = put_many(
        project_of(WHOLE), {"survey.slatted": True, "survey.section.left.free_height": None, "progress.later": later}
    )
    (tmp_path / "whole.toml").write_bytes(encode(with_ledger))
    main(["check", "whole.toml"])
    text = capsys.readouterr().out
    assert "to find out: survey.section.left.free_height: left section: free height below the ledger\n" in text
    assert "to find out: survey.post.foot-left.along_side: post foot-left: size along the side rail\n" in text
    assert "missing: survey.section.left.free_height" not in text
    assert "run.1" not in text


def test_open_findings_are_told_with_their_way_out(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    written(tmp_path, whole=WHOLE)
    assert main(["check", "whole.toml"]) == Exit.FOUND
    text = capsys.readouterr().out
    assert text.startswith("whole.toml: complete\n")
    for finding in whole_plan().findings:
        assert f"  {finding.level}: {finding.key}: {finding.sentence} {finding.way_out}\n" in text


def test_a_finding_that_was_kept_is_not_told_again(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    kept = "\n".join(f"{_quoted(each.id)} = {_quoted(each.values)}" for each in whole_plan().findings)
    written(tmp_path, whole=f"{WHOLE}\n[kept]\n{kept}\n")
    assert main(["check", "whole.toml"]) == Exit.OK
    assert capsys.readouterr().out == "whole.toml: complete\n"


def _quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def test_one_bad_file_does_not_keep_the_others_from_being_checked(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    written(tmp_path, bad=BAD, small=SMALL, whole=WHOLE)
    assert main(["check", "bad.toml", "not-there.toml", "small.toml", "whole.toml"]) == Exit.BAD_FILE
    text = capsys.readouterr().out
    for name in ("bad.toml:2: ", "not-there.toml: ", "small.toml: ", "whole.toml: complete"):
        assert f"\n{name}" in f"\n{text}"


def test_a_template_misses_no_answers(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    written(tmp_path, habits='format = 1\nname = "Habits"\nstandard = "metric"\ntemplate = true\n')
    assert main(["check", "habits.toml"]) == Exit.OK
    assert capsys.readouterr().out == "habits.toml: a template\n"


def test_what_looks_wrong_in_a_template_is_told_all_the_same(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    written(tmp_path, habits='format = 1\ntemplate = true\n[fullness]\nwant = "3.5"\n')
    assert main(["check", "habits.toml"]) == Exit.FOUND
    assert "warn: fullness.want" in capsys.readouterr().out
