"""What is taken and asked about: a unit foreign to the job, a drop unlike the others, a repeat of unusual length."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.interview.maker import give, resumed
from tests.project.projects import ID, leaves
from wizard.interview.outcome import Refused
from wizard.project.encode import encode
from wizard.project.keys import limits_at, split
from wizard.project.marks import plan_mark
from wizard.project.plan_of_project import job_of, plan_of
from wizard.project.project import Project, Unfit, put, put_many
from wizard.project.reading import read
from wizard.trade.fields import NotTaken
from wizard.trade.plan_records import Finding

METRIC = {"show": "cm", "standard": "metric"}
INCHES = {"show": "in", "standard": "inches"}


def asked(of: dict[str, str], **given: str) -> dict[str, Finding]:
    """What is asked about a job of which this is given: `left_drop_1` for `survey.section.left.drop.1`."""
    project = put_many(Project(), of | {f"survey.section.{key.replace('_', '.')}": text for key, text in given.items()})
    return {each.id: each for each in plan_of(project).findings if each.level == "ask"}


def drops(left: str, right: str, foot: str) -> dict[str, str]:
    sections = {"left": left, "right": right, "foot": foot}
    return {f"{section}_drop_{n}": text for section, text in sections.items() for n in (1, 2, 3)}


def test_a_drop_of_72_cm_beside_31_cm_is_asked_about() -> None:
    finding = asked(METRIC, **drops("31 cm", "31 cm", "72 cm"))["drop-beside:foot:left"]
    assert finding.sentence == (
        "Foot section: one drop is 72 cm, but 31 cm at the left section. Drops on one bed rarely differ by 41 cm."
    )
    assert (finding.key, finding.other) == ("survey.section.foot.drop.1", "survey.section.left.drop.1")


@pytest.mark.parametrize(
    ("left", "right", "foot", "id"),
    [
        ("12 in", "15 in", "12 in", None),
        ("12 in", "15 1/8 in", "12 in", "drop-beside:right:left"),
        ("12 in", "12 in", "4 in", None),
        ("12 in", "12 in", "3 7/8 in", "drop-beside:left:foot"),
    ],
)
def test_the_two_sides_hang_more_alike_than_a_side_and_the_foot(
    left: str, right: str, foot: str, id: str | None
) -> None:
    found = [each for each in asked(INCHES, **drops(left, right, foot)) if each.startswith("drop-beside")]
    assert found == ([id] if id else [])


@pytest.mark.parametrize(
    ("of", "key", "text", "would"),
    [
        (METRIC, "cloth.face.repeat", "64 in", "64 cm"),
        (METRIC, "cloth.face.repeat", "24 1/2 in", "24.5 cm"),
        (METRIC, "survey.section.left.run.1", "195 in", "195 cm"),
        (METRIC, "survey.section.left.drop.2", "31 in", "31 cm"),
        (METRIC, "cloth.face.width", "140 in", "140 cm"),
        (METRIC, "survey.section.left.run.1", '76"', "76 cm"),
        (INCHES, "survey.section.left.run.1", "76 cm", "76 in"),
        (INCHES, "survey.section.left.drop.1", "12,5 cm", "12 1/2 in"),
        # Usual in the other system, or no likely length in the job's own unit.
        (METRIC, "cloth.face.width", "54 in", None),
        (METRIC, "allowances.join", "1/2 in", None),
        (METRIC, "survey.section.left.run.1", "6 ft 8 in", None),
        (METRIC, "survey.section.left.run.1", "195 cm", None),
        (METRIC, "survey.section.left.run.1", "1.95 m", None),
        (INCHES, "survey.section.left.run.1", "195 cm", None),
        ({}, "survey.section.left.run.1", "76 cm", None),
    ],
)
def test_a_unit_foreign_to_the_job_is_asked_about_where_its_own_would_do(
    of: dict[str, str], key: str, text: str, would: str | None
) -> None:
    finding = asked({**of, key: text}).get(f"unit:{key}")
    assert (finding is not None) == (would is not None)
    if finding:
        assert f"you typed {text}, but this job is in " in finding.sentence
        assert finding.way_out == f"If you meant {would}, type that. If {text} is right, keep it."


def test_it_can_be_kept_is_asked_again_when_the_length_changes_and_leaves_the_plan_mark_alone() -> None:
    key = "survey.section.left.run.1"
    project = put_many(Project(), {**METRIC, key: "76 in"})
    (finding,) = [each for each in plan_of(project).findings if each.id == f"unit:{key}"]
    kept = put_many(project, {f"kept.{finding.id}": finding.values})
    for changed, still in ((kept, True), (put(kept, key, "77 in"), False)):
        assert [each.kept for each in plan_of(changed).findings if each.id == finding.id] == [still]
    own = plan_of(put(project, key, "193.04 cm")).job
    assert not own.foreign
    assert plan_mark(own) == plan_mark(plan_of(project).job)


def test_a_repeat_longer_than_cloths_have_is_asked_about() -> None:
    assert "size:cloth.face.repeat" in asked({**METRIC, "cloth.face.repeat": "162.56 cm"})
    assert "size:cloth.face.repeat" not in asked({**METRIC, "cloth.face.repeat": "64 cm"})


# A file that holds what an earlier version took and this one does not: it opens, and nothing of it is lost.
DEMO = Path("projects/demo-gannet-stair.toml").read_text(encoding="utf-8")
REPEAT = "cloth.face.repeat"
FITS = "It can be 1/8 in to 200 in, or 0 in for no pattern."
HELD = [
    ("5 parsec", "“parsec” is not accepted here: use in, ft, yd, mm, cm, dm or m.", "25 1/4 in"),
    ("64 M", f"“64 M” has a capital M, which is not a unit of length. {FITS}", "25 1/4 in"),
    ("2 Mm", f"“2 Mm” has a capital M, which makes it millions of metres. {FITS}", "25 1/4 in"),
    ("640 Mm", "“640 Mm” has a capital M, which makes it millions of metres: do you mean 640 mm?", "640 mm"),
    ("1/1000000 in", f"“1/1000000 in” is too little for a pattern repeat. {FITS}", "25 1/4 in"),
    ("1000000 in", f"“1000000 in” is too much for a pattern repeat. {FITS}", "25 1/4 in"),
    ("0.123456789012345678 m", "“0.123456789012345678 m” has a number with 18 digits, and 15 is the most: "
     "do you mean 0.1235 m?", "0.1235 m"),
    ("1 ft 8/5 in", "“1 ft 8/5 in” has a fraction that is 1 or more: do you mean 1 ft 1 3/5 in?", "1 ft 1 3/5 in"),
    ("12,3456 in", "“12,3456 in” can be read in two ways: do you mean 12.3456 in?", "12.3456 in"),
]  # fmt: skip


def demo(repeat: str) -> str:
    assert 'repeat = "0 in"' in DEMO
    return DEMO.replace('repeat = "0 in"', f'repeat = "{repeat}"', 1)


def opened(text: str) -> Project:
    project = read(text.encode())
    assert isinstance(project, Project), project
    return project


@pytest.mark.parametrize(("text", "sentence", "example"), HELD, ids=[each[0] for each in HELD])
def test_the_file_opens_with_an_error_at_the_key_and_the_text_stays_until_another_is_typed(
    text: str, sentence: str, example: str, tmp_path: Path
) -> None:
    path = tmp_path / "job.toml"
    path.write_text(demo(text), encoding="utf-8")
    session = resumed(tmp_path)
    finding, used = session.plan.findings[0], session.plan.figures["layer.face.used"]
    assert (finding.level, finding.key) == ("stop", REPEAT)
    assert finding.sentence.endswith(f"pattern repeat: {sentence}")
    assert finding.way_out == f"Type it again. For example: {example}"
    assert [need.key for need in session.plan.missing] == [REPEAT]
    assert (used.value, used.needs[0].key) == (None, REPEAT)
    assert (session.state(REPEAT), session.text(REPEAT)) == ("missing", text)

    give(session, "name", "Gannet attic")
    assert isinstance(session.answer(REPEAT, text), Refused)
    assert f'repeat = "{text}"' in path.read_text(encoding="utf-8")

    give(session, REPEAT, "25 1/4 in")
    assert 'repeat = "25 1/4 in"' in path.read_text(encoding="utf-8")
    assert session.state(REPEAT) == "answered"
    assert not session.plan.missing


def test_it_is_told_in_the_units_of_the_job() -> None:
    plan = plan_of(opened('format = 1\nshow = "cm"\n\n[cloth.face]\nrepeat = "9 km"\nwidth = "1/2 in"\n'))
    told = {each.key: each for each in plan.findings}
    assert told["cloth.face.width"].sentence.endswith(
        "“1/2 in” is too little for a cloth width. It can be 2 cm to 10 m."
    )
    assert told[REPEAT].way_out == "Type it again. For example: 64 cm"


def test_one_reading_of_a_list_is_kept_while_another_is_typed() -> None:
    project = opened('format = 1\n\n[survey.section.left]\nrun = ["9 furlongs", "76 in"]\n')
    changed = put(project, "survey.section.left.run.2", "77 in")
    assert changed.survey.section["left"].run[0] == NotTaken("9 furlongs")
    with pytest.raises(Unfit, match="“furlongs” is not accepted here"):
        put(changed, "survey.section.left.run.2", "9 furlongs 1 in")


def test_what_no_figure_waits_for_is_warned_of_and_stops_nothing() -> None:
    text = DEMO.replace("[cloth.lining]\n", '[cloth.lining]\nwidth = "5 parsec"\n', 1)
    assert text != DEMO
    (finding,) = [each for each in plan_of(opened(text)).findings if each.id.startswith("unusable:")]
    assert (finding.level, finding.key) == ("warn", "cloth.lining.width")


KEYS = [key for key, _ in leaves() if limits_at(Project, split(key)) or limits_at(Project, split(f"{key}.1"))]


@pytest.mark.parametrize("key", KEYS)
def test_every_value_beyond_its_limits_opens_and_is_written_back_as_it_was(key: str) -> None:
    full = key if limits_at(Project, split(key)) else f"{key}.1"
    limits = limits_at(Project, split(full))
    assert limits is not None
    most = limits.scales[0].most
    figures, _, unit = most.partition(" ")
    beyond = "99 %" if unit == "%" else f"{figures}9 {unit}".strip()
    path = full.replace(ID, "left").split(".")
    tables, last = path[:-1], path[-1]
    line = f'{last} = "{beyond}"' if last != "1" else f'{tables.pop()} = ["{beyond}"]'
    text = f"format = 1\n\n[{'.'.join(tables)}]\n{line}\n" if tables else f"format = 1\n{line}\n"
    project = opened(text)
    assert list(job_of(project).unusable) == [".".join(path)]
    assert opened(encode(project).decode()) == project
    assert beyond.encode() in encode(project)
    assert plan_of(project).findings
    with pytest.raises(Unfit, match=r"too much|100 %"):
        put(Project(), ".".join(path), beyond)
