"""A file is read without pydantic's looking for plugins; what else its module may hold is still there."""

from __future__ import annotations

import subprocess
import sys

from wizard.project.no_plugins import LOOKED_FOR_IN


def said(code: str) -> str:
    return subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.strip()


def test_pydantic_still_keeps_its_plugins_where_they_are_not_looked_for() -> None:
    assert said(f"import {LOOKED_FOR_IN} as it; print(tuple(it.get_plugins()), 'wizard' in it.__file__)") == "() False"


def test_reading_a_project_looks_for_no_plugins() -> None:
    code = (
        "import sys; from wizard.project.draft import Draft; print(Draft.model_validate({'name': 'Juniper loft'}).name)"
        "; print('importlib.metadata' in sys.modules)"
    )
    assert said(code).split("\n") == ["Juniper loft", "False"]


def test_whatever_else_is_asked_of_the_module_is_answered_by_the_real_one() -> None:
    code = (
        f"import sys, wizard.project; stand_in = sys.modules[{LOOKED_FOR_IN!r}]; import pydantic.plugin\n"
        f"print(stand_in.PYDANTIC_ENTRY_POINT_GROUP, sys.modules[{LOOKED_FOR_IN!r}] is stand_in)"
    )
    assert said(code) == "pydantic False"
