"""The walls of the house: imports run downward only, and a command loads only what it needs."""

from __future__ import annotations

import ast
import json
import subprocess
import sys
from collections import Counter
from functools import cache
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

pytestmark = pytest.mark.source

TOP = Path(__file__).parents[1]
PACKAGE = TOP / "wizard"

BELOW = {
    "trade": set(),
    "project": {"trade"},
    "interview": {"project", "trade"},
    "render": {"project", "trade"},
    "commands": {"interview", "render", "project", "trade"},
    "prompts": {"interview", "render", "project", "trade"},
    "screens": {"interview", "render", "project", "trade"},
    "browser": {"render"},
    "cli": {"browser", "commands", "prompts", "screens", "interview", "render", "project", "trade"},
    "__main__": {"cli"},
    "__init__": set(),
}
"""Room -> the rooms it may import from, itself left out. The bare package (the version) is free to all but trade."""

PURE = {
    "__future__", "abc", "bisect", "collections", "dataclasses", "decimal", "enum", "fractions", "functools", "heapq",
    "inspect", "itertools", "math", "msgspec", "operator", "re", "string", "threading", "types", "typing",
}  # fmt: skip
"""All that trade may import from outside: no models, screens, files or clocks."""

MODULES = sorted(PACKAGE.rglob("*.py"))


def room_of(path: Path) -> str:
    return path.relative_to(PACKAGE).parts[0].removesuffix(".py")


@cache
def nodes_of(path: Path) -> list[ast.AST]:
    return [*ast.walk(ast.parse(path.read_text(encoding="utf-8")))]


@cache
def imports_of(path: Path) -> set[str]:
    """Every module named in an import anywhere in the file, late and type-checking ones too."""
    found: set[str] = set()
    for node in nodes_of(path):
        if isinstance(node, ast.Import):
            found |= {each.name for each in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            assert node.module is not None
            found |= {f"{node.module}.{each.name}" for each in node.names} if node.module == "wizard" else {node.module}
    return found


def rooms_imported(path: Path) -> set[str]:
    return {name.split(".")[1] for name in imports_of(path) if name.startswith("wizard.")} - {"__version__"}


def test_imports_run_downward_only_and_are_absolute() -> None:
    up = {str(path): rooms_imported(path) - {room_of(path)} - BELOW[room_of(path)] for path in MODULES}
    assert {path: rooms for path, rooms in up.items() if rooms} == {}


def test_trade_imports_nothing_from_outside_but_what_is_pure() -> None:
    imported = {name for path in MODULES if room_of(path) == "trade" for name in imports_of(path)}
    outside = {name.split(".")[0] for name in imported if not name.startswith("wizard")}
    assert outside - PURE == set()


def name_of(path: Path) -> str:
    return ".".join(path.relative_to(TOP).with_suffix("").parts).removesuffix(".__init__")


def modules_imported(path: Path) -> set[str]:
    """Our own modules that a file imports, late and type-checking imports too."""
    ours = {name_of(each) for each in MODULES}
    named: set[str] = set()
    for node in nodes_of(path):
        if isinstance(node, ast.Import):
            named |= {each.name for each in node.names}
        elif isinstance(node, ast.ImportFrom):
            full = {f"{node.module}.{each.name}" for each in node.names}
            named |= (full & ours) | ({str(node.module)} if full - ours else set())
    return (named & ours) - {name_of(path)}


def test_no_modules_import_each_other_in_a_circle() -> None:
    imports = {name_of(path): modules_imported(path) for path in MODULES}
    TopologicalSorter(imports).prepare()  # Raises CycleError, which names them.


def test_a_folder_reads_as_a_table_of_contents_and_no_file_name_occurs_twice() -> None:
    folders = Counter(path.parent.relative_to(TOP).as_posix() for path in MODULES)
    assert {folder: count for folder, count in folders.items() if count > 25} == {}
    names = Counter(path.name for path in MODULES if path.name != "__init__.py")
    assert {name: count for name, count in names.items() if count > 1} == {}


def test_the_cutting_plan_has_one_way_in() -> None:
    inside = PACKAGE / "trade" / "cutting"
    outside = {path: imports_of(path) for path in MODULES if path.parent != inside}
    assert {path for path, names in outside.items() if any("wizard.trade.cutting." in name for name in names)} == set()


def test_only_the_dialog_host_opens_and_closes_screens() -> None:
    ways = {"push_screen", "push_screen_wait", "pop_screen", "switch_screen", "dismiss"}
    users = {
        path.name
        for path in MODULES
        for node in nodes_of(path)
        if isinstance(node, ast.Attribute) and node.attr in ways
    }
    assert users == {"dialog_host.py"}


def test_only_one_module_makes_plans() -> None:
    callers = {
        str(path.relative_to(PACKAGE))
        for path in MODULES
        if room_of(path) != "trade" and "wizard.trade.make_plan" in imports_of(path)
    }
    assert callers == {"project/plan_of_project.py"}


COMMAND = """
import json, sys
from wizard.cli import main
try:
    main(json.loads(sys.argv[1]))
except SystemExit:
    pass
"""
FIRST_SCREEN = """
import asyncio, sys
from pathlib import Path
from wizard.screens import launch
assert "textual" not in sys.modules, "the door to the screens loads nothing of the toolkit by itself"
from wizard.screens.app import SkirtApp

async def show():
    async with SkirtApp(Path(), None).run_test() as pilot:
        await pilot.pause()

asyncio.run(show())
"""


def loaded_by(code: str, *argv: str, folder: Path) -> set[str]:
    """The modules that a run really loads."""
    told = "\nprint('\\n' + ' '.join(sorted(sys.modules)), file=sys.stderr)"
    run = subprocess.run(
        [sys.executable, "-c", code + told, json.dumps(argv)],
        cwd=folder, stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=120, check=False,
        env={"PYTHONPATH": str(TOP), "PYTHONUTF8": "1", "TERM": "xterm-256color", "HOME": str(folder), "PATH": ""},
    )  # fmt: skip
    assert run.returncode == 0, run.stderr
    return set(run.stderr.splitlines()[-1].split())


def tops(modules: set[str]) -> set[str]:
    return {name.split(".")[0] for name in modules}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "job.toml").write_text('format = 1\nname = "Juniper loft"\n', encoding="utf-8")
    return tmp_path


@pytest.mark.parametrize(
    "line",
    ["sheet job.toml", "sheet job.toml --as json", "check job.toml", "list", "new Rowan", "demo", "schema", "keys", "",
     "job.toml"],
)  # fmt: skip
def test_no_headless_command_loads_textual(line: str, folder: Path) -> None:
    assert tops(loaded_by(COMMAND, *line.split(), folder=folder)) & {"textual", "rich", "pint", "jinja2"} == set()


@pytest.mark.parametrize("option", ["--help", "--version"])
def test_help_and_version_load_neither_the_toolkit_nor_the_arithmetic(option: str, folder: Path) -> None:
    loaded = loaded_by(COMMAND, option, folder=folder)
    assert tops(loaded) & {"textual", "rich", "pydantic", "pint", "tomllib", "jinja2"} == set()
    assert {name for name in loaded if name.startswith("wizard.trade")} == set()


def test_the_first_screen_loads_neither_pint_nor_a_template_engine(folder: Path) -> None:
    loaded = tops(loaded_by(FIRST_SCREEN, folder=folder))
    assert "textual" in loaded
    assert loaded & {"pint", "jinja2", "mako"} == set()


def test_the_first_question_loads_no_sheet_and_no_comparison_of_ways(folder: Path) -> None:
    late = (
        "wizard.render.text_page",
        "wizard.render.table_sheet",
        "wizard.trade.compare_ways",
        "wizard.trade.cutting.mixed_widths",
    )
    loaded = loaded_by("import sys, wizard.screens.job_screen", folder=folder)
    assert [name for name in loaded if name.startswith(late)] == []
