"""The JSON sheet: exact, complete, as documented."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import pytest

from tests.render.jobs import WHOLE, growing_plans, metric_plan, project_of, whole_plan
from wizard.project.plan_of_project import plan_of
from wizard.project.project import Project
from wizard.render import json_sheet
from wizard.render.json_sheet import plan_json, value_json
from wizard.render.sheet_names import TITLES
from wizard.trade.formatting import SIXTEENTHS


def walk(value: Any) -> Iterator[Any]:
    """Every value in a structure, the containers too."""
    yield value
    inside = value.values() if isinstance(value, dict) else value if isinstance(value, list) else ()
    for each in inside:
        yield from walk(each)


@pytest.mark.parametrize("plan", [whole_plan(), metric_plan()], ids=["inches", "metric"])
def test_inches_and_millimetres_of_every_length_are_the_same_length(plan: Any) -> None:
    made = plan_json(plan)
    lengths = [each for each in walk(made) if isinstance(each, dict) and set(each) == {"in", "mm", "text"}]
    assert len(lengths) > 500
    assert all(Fraction(each["in"]) * Fraction(127, 5) == Fraction(each["mm"]) for each in lengths)


def test_there_is_no_float_at_any_stage_of_filling_and_the_same_plan_gives_the_same_bytes() -> None:
    for plan in (plan_of(Project()), *growing_plans(), metric_plan()):
        made = plan_json(plan)
        assert not any(isinstance(each, float) for each in walk(made))
        assert json.loads(json.dumps(made)) == made
    assert json.dumps(plan_json(plan)) == json.dumps(made)
    with pytest.raises(TypeError, match="no JSON for float"):
        value_json(0.5, SIXTEENTHS)


def test_every_part_of_the_plan_is_there() -> None:
    plan, made = whole_plan(), plan_json(whole_plan())
    for key in ("layers", "findings", "cautions", "work", "purchases"):
        assert [each["id"] for each in made[key]] == [each.id for each in getattr(plan, key)]
    assert [each["id"] for each in made["sections"]] == [part.id for part in plan.parts]
    assert set(made["figures"]) == set(plan.figures)
    for each in (*made["work"], *made["purchases"]):
        for id in each["figures"]:
            assert all(made["figures"][id][part] for part in ("formula", "rule", "source"))


def test_sections_name_their_pieces_by_the_numbers_of_the_cut_list() -> None:
    made = plan_json(whole_plan())
    for layer in made["layers"]:
        by_number = {each["number"]: each for each in layer["cutting"]["pieces"]}
        for section in made["sections"]:
            pieces = [by_number[number] for number in section["pieces"][layer["id"]]]
            assert [each["section"] for each in pieces] == [section["id"]] * len(pieces)
            assert [each["order"] for each in pieces] == list(range(1, len(pieces) + 1))


def test_what_is_missing_is_null_and_its_figure_says_what_it_needs() -> None:
    made = plan_json(growing_plans()[20])
    unknown = [each for each in made["figures"].values() if each["value"] is None]
    assert any(each["needs"] for each in unknown)
    assert (made["complete"], bool(made["missing"])) == (False, True)


def test_every_key_is_in_the_description_and_every_key_described_is_there() -> None:
    assert json_sheet.__doc__ is not None
    made = plan_json(whole_plan())
    free = {key: value for key, value in made.items() if key != "figures"}, *made["figures"].values()
    keys = {key for part in free for each in walk(part) if isinstance(each, dict) for key in each}
    assert keys - set(re.findall(r"[a-z_]+", json_sheet.__doc__)) == set()
    top = json_sheet.__doc__.split("Top level")[1]
    listed = re.findall(r"^    ([a-z_]+(?:, [a-z_]+)*)(?:  | \[|$)", top, re.MULTILINE)
    assert {name for names in listed for name in names.split(", ")} == set(made)


def test_what_stands_on_no_sheet_asked_for_is_null_and_every_key_is_there() -> None:
    whole, plan = plan_json(whole_plan()), whole_plan()
    table = plan_json(plan, only=["table"])
    assert list(table) == list(whole)
    assert table["sections"] == whole["sections"]
    assert table["layers"][0]["cutting"] == whole["layers"][0]["cutting"]
    assert [list(each) for each in table["layers"]] == [list(each) for each in whole["layers"]]
    left_out = {"fullness_steps", "fullness_finds", "stopped", "purchases", "findings", "cautions", "figures"}
    assert {key for key, value in table.items() if value is None and whole[key] is not None} >= left_out
    asked = {key for sheet in TITLES for key, value in plan_json(plan, only=(sheet,)).items() if value is not None}
    assert asked >= {key for key, value in whole.items() if value is not None}


def test_the_fullness_steps_are_looked_for_only_where_they_are_asked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    def looked_for(*_: object) -> object:
        raise AssertionError("the steps were looked for")

    monkeypatch.setattr("wizard.trade.fullness_steps.Trials.at", looked_for)
    made = plan_json(plan_of(project_of(WHOLE)), only=[each for each in TITLES if each != "choosing"])
    assert made["fullness_steps"] is None
    assert made["layers"][0]["ways"] is None


def test_steps_that_would_take_too_much_work_end_early_and_it_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    plan = plan_of(project_of(WHOLE))
    whole = plan_json(plan, only=["choosing"])
    assert whole["stopped"] == []
    for much in range(1, 40):
        monkeypatch.setattr(json_sheet, "BESIDE", Fraction(much, 2))
        short = plan_json(plan)
        if short["fullness_steps"]:
            break
    assert "fullness_steps" in short["stopped"]
    at = whole["fullness_steps"].index(short["fullness_steps"][0])
    assert short["fullness_steps"] == whole["fullness_steps"][at : at + len(short["fullness_steps"])]
    assert len(short["fullness_steps"]) < len(whole["fullness_steps"])
    assert plan_json(plan)["fullness_steps"] == short["fullness_steps"], "what was looked at before changes nothing"


def test_ways_that_would_take_too_much_work_are_passed_over_and_it_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    plan = plan_of(project_of(WHOLE))
    whole = plan_json(plan, only=["choosing"])["layers"][0]
    monkeypatch.setattr(json_sheet, "BESIDE", 0)
    short = plan_json(plan)
    assert "ways" in short["stopped"]
    ways = short["layers"][0]["ways"]
    assert [each["followed"] for each in ways if each["followed"]] == [True]
    assert len(ways) < len(whole["ways"])
    assert [each for each in whole["ways"] if each in ways] == ways
