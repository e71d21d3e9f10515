"""How many small faults in the arithmetic the tests find: each is put in alone, and the tests that reach its line run.

    python -m tests.endurance.mutants --mutants 1000 --seed 0 --processes 2
    python -m tests.endurance.mutants --mutants 1000 --seed 0 --from 400
    python -m tests.endurance.mutants --mutants 1000 --seed 0 --again

A fault is another comparison, sum, number, `and`, `not` or `min` (see mutations.py) in `wizard/trade/`. Which tests
reach which line is recorded first, with how long each takes. A mutant is killed when one of them fails, or when they
take more than their time; they run from the quickest on, as many as fit, and all that compare with a record. They are
collected once: each run is a copy of the process that did it, with the fault put into the functions that are loaded.
What has its effect while the files are loaded is tried in a process that loads them anew. Results are kept in
`.mutants/`: a run that was stopped goes on where it was, and `--again` tries only those again that survived. Prints
each survivor with its file and line, and the score.
"""

from __future__ import annotations

import argparse
import ast
import gc
import importlib
import importlib.abc
import importlib.machinery
import importlib.util
import json
import os
import resource
import sys
from collections import Counter, defaultdict
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from pathlib import Path
from tempfile import TemporaryDirectory
from types import CodeType, FunctionType, ModuleType
from typing import Any

import msgspec
import pytest
from msgspec import Struct

from tests.endurance.mutations import Mutant, sampled

TOP = Path(__file__).parents[2]
FOLDER = TOP / "wizard" / "trade"
KEPT = TOP / ".mutants"
TESTS = ("tests/trade", "tests/outside", "tests/project", "tests/interview", "tests/render", "tests/record")
RECORDS = ("tests/record/", "tests/trade/cutting/test_work_record.py")
"""What is compared with a record finds the most, and always runs."""
BEFOREHAND = ("hypothesis", "msgspec", "pytest_asyncio.plugin", "scipy.optimize", "tomli_w", "xdist.plugin")
"""What the tests use of others, loaded once: every run begins as a copy of this process."""

SECONDS = 15.0
"""How much the tests of a mutant may take together, as measured; the records come on top."""

EACH = 1.0
"""How much of that the cases of one test function may take, the quickest first."""

LIMIT = 60
"""Seconds of processor time after which a mutant counts as found: a fault can make a loop endless."""

MEMORY = 4 << 30
"""Bytes a run may take."""

ALIVE = ("survived", "not reached")
NO_TESTS = 5
"""Exit status of pytest where nothing was left to run."""
FAILED = 6
"""That of a copy of this process where something else went wrong."""
TO_LOAD = 7
"""That of one where the fault has its effect, or some of it, while the files are loaded."""


class Reach(Struct, frozen=True):
    """Which tests run which line."""

    tests: list[str]
    lines: dict[str, dict[int, list[int]]]
    """File -> line -> places in `tests`, from the quickest test on."""

    def of(self, mutant: Mutant) -> list[str]:
        """The tests to run on a mutant."""
        lines = self.lines.get(mutant.path.relative_to(TOP).as_posix(), {})
        begun = range(mutant.line, 0, -1)  # A statement over several lines is noted at its first.
        return [self.tests[place] for place in next((lines[each] for each in begun if each in lines), [])]


class Collected:
    """A plugin of pytest: in place of the tests, it runs a task that may run some of them in a copy of this process."""

    def __init__(self, task: Callable[[Callable[[Mutant, Sequence[str]], None]], None]):
        self.task: Callable[[Callable[[Mutant, Sequence[str]], None]], None] | None = task
        self.coverage = coverage_of_trade()
        self.coverage.start()

    def pytest_runtestloop(self, session: pytest.Session) -> bool | None:
        """Once everything is collected: the task. Within it, pytest's own loop."""
        if not self.task:
            return None
        self.coverage.stop()
        task, self.task, data = self.task, None, self.coverage.get_data()
        loaded = {file: {*data.lines(file)} for file in data.measured_files()}
        items, functions = {each.nodeid: each for each in session.items}, functions_loaded()

        def try_mutant(mutant: Mutant, tests: Sequence[str]) -> None:
            limit_resources()
            sys.meta_path.insert(0, FaultyFinder(mutant))
            if not put_in(mutant, functions[str(mutant.path)]):
                os._exit(TO_LOAD)
            session.items = [items[each] for each in tests if each in items]
            with suppress(session.Failed):
                session.config.hook.pytest_runtestloop(session=session)
            alive = TO_LOAD if mutant.line in loaded.get(str(mutant.path), ()) else 0
            os._exit(1 if session.testsfailed else alive if session.items else NO_TESTS)

        task(try_mutant)
        return True


class Chosen:
    """A plugin of pytest: only these tests, in this order."""

    def __init__(self, tests: Sequence[str]):
        self.place = {name: place for place, name in enumerate(tests)}

    def pytest_collection_modifyitems(self, items: list[pytest.Item]) -> None:
        """Drop and sort."""
        items[:] = sorted(
            (each for each in items if each.nodeid in self.place), key=lambda each: self.place[each.nodeid]
        )


class Recorded:
    """A plugin of pytest: which lines each test runs, and how long it takes."""

    def __init__(self) -> None:
        self.coverage = coverage_of_trade()
        self.seconds: dict[str, float] = {}

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        """Note what the test runs under its name."""
        self.coverage.switch_context(item.nodeid)
        before = sum(os.times()[:4])  # Of programs that the test starts as well.
        try:
            return (yield)
        finally:
            self.seconds[item.nodeid] = sum(os.times()[:4]) - before

    def reach(self) -> Reach:
        """The tests of each line. A line that runs while a file is loaded is reached by all that reach the file."""
        data = self.coverage.get_data()
        quickest = sorted(self.seconds, key=self.seconds.__getitem__)
        places = {test: place for place, test in enumerate(quickest)}
        found: dict[str, dict[int, list[int]]] = {}
        known: dict[frozenset[str], list[int]] = {}
        for file in data.measured_files():
            by_line = {line: {*tests} for line, tests in data.contexts_by_lineno(file).items()}
            every = set[str]().union(*by_line.values()) - {""} or set(quickest)
            lines = {line: frozenset(every if "" in tests else tests) for line, tests in by_line.items()}
            for tests in {*lines.values()} - {*known}:
                known[tests] = [places[test] for test in self._fitting(tests, places)]
            found[Path(file).relative_to(TOP).as_posix()] = {line: known[tests] for line, tests in lines.items()}
        return Reach(quickest, found)

    def _fitting(self, tests: frozenset[str], places: dict[str, int]) -> Iterator[str]:
        """Of these tests as many as fit into the time, and into that of each function; and the record."""
        left, of_one = SECONDS, defaultdict[str, float](lambda: EACH)
        for each in sorted(tests, key=places.__getitem__):
            function, seconds = each.partition("[")[0], self.seconds[each]
            if each.startswith(RECORDS):
                yield each
            elif of_one[function] > 0 and left > 0:
                left, of_one[function] = left - seconds, of_one[function] - seconds
                yield each


def coverage_of_trade() -> Any:
    """What notes the lines that run, kept nowhere."""
    coverage = importlib.import_module("coverage")
    return coverage.Coverage(data_file=None, include=[f"{FOLDER}/*"], config_file=False)


def ran(arguments: Sequence[str], plugin: object) -> int:
    """Run pytest in this process; its status."""
    options = [
        "-n",
        "0",
        "-x",
        "-q",
        "-p",
        "no:cacheprovider",
        "--assert=plain",
        "--hypothesis-seed=0",
        "--no-header",
        "--tb=no",
    ]
    return int(pytest.main([*options, *arguments], plugins=[plugin]))


def record_reach(file: Path) -> None:
    """Run all the tests once, and keep which of them reach which line."""
    noted = Recorded()
    noted.coverage.start()
    status = ran(TESTS, noted)
    noted.coverage.stop()
    if status == 0:
        file.write_bytes(msgspec.json.encode(noted.reach()))
    os._exit(status)


class WithFault(importlib.machinery.SourceFileLoader):
    """Loads a module from other text than its file holds."""

    def __init__(self, name: str, path: str, source: bytes):
        super().__init__(name, path)
        self.changed = source

    def get_code(self, fullname: str) -> CodeType:
        """The changed text, compiled; nothing is kept of it."""
        return compile(self.changed, self.path, "exec", dont_inherit=True)


class FaultyFinder(importlib.abc.MetaPathFinder):
    """Finds one module with its fault in it; all others are found as usual."""

    def __init__(self, mutant: Mutant):
        self.path, self.source = str(mutant.path), mutant.source()
        self.name = ".".join(mutant.path.relative_to(TOP).with_suffix("").parts).removesuffix(".__init__")

    def find_spec(
        self, fullname: str, path: Sequence[str] | None, target: ModuleType | None = None
    ) -> importlib.machinery.ModuleSpec | None:
        """That of the module with the fault."""
        if fullname != self.name:
            return None
        loader = WithFault(fullname, self.path, self.source)
        inside = [str(Path(self.path).parent)] if self.path.endswith("__init__.py") else None
        return importlib.util.spec_from_file_location(
            fullname, self.path, loader=loader, submodule_search_locations=inside
        )


def functions_loaded() -> dict[str, list[FunctionType]]:
    """Every function there is of the files, by its file."""
    found: dict[str, list[FunctionType]] = defaultdict(list)
    gc.unfreeze()
    for each in gc.get_objects():
        if isinstance(each, FunctionType) and each.__code__.co_filename.startswith(str(FOLDER)):
            found[each.__code__.co_filename].append(each)
    gc.freeze()
    return found


def put_in(mutant: Mutant, functions: Sequence[FunctionType]) -> bool:
    """Give the functions of the file the code they have with the fault; False where it is in no function."""
    if not functions:
        return True  # It will be loaded with the fault.
    source = mutant.path.read_bytes()
    column = mutant.start - source.rfind(b"\n", 0, mutant.start) - 1
    if not any(_holds(each, (mutant.line, column)) for each in ast.walk(ast.parse(source))):
        return False
    both = [compile(text, str(mutant.path), "exec", dont_inherit=True) for text in (source, mutant.source())]
    changed = dict(_pairs(*both))
    for each in functions:
        each.__code__ = changed.get(each.__code__, each.__code__)
    return True


def _holds(node: ast.AST, place: tuple[int, int]) -> bool:
    """A function with this line and column in its body."""
    if not isinstance(node, ast.FunctionDef | ast.Lambda):
        return False
    first, last = (node.body[0], node.body[-1]) if isinstance(node, ast.FunctionDef) else (node.body, node.body)
    return (first.lineno, first.col_offset) <= place < (last.end_lineno or 0, last.end_col_offset or 0)


def _pairs(one: CodeType, other: CodeType) -> Iterator[tuple[CodeType, CodeType]]:
    """Every piece of code in one, and the same piece in the other."""
    yield one, other
    inner = [[each for each in code.co_consts if isinstance(each, CodeType)] for code in (one, other)]
    for pair in zip(*inner, strict=True):
        yield from _pairs(*pair)


def limit_resources() -> None:
    """A fault can make a loop endless."""
    resource.setrlimit(resource.RLIMIT_CPU, (LIMIT, LIMIT))
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))


def try_loading(mutant: Mutant, tests: Sequence[str]) -> None:
    """Load everything with the fault in it, run the tests, and end this process with pytest's status."""
    limit_resources()
    sys.meta_path.insert(0, FaultyFinder(mutant))
    files = sorted({each.partition("::")[0] for each in tests})
    os._exit(ran(files, Chosen(tests)) if tests else NO_TESTS)


def forked(task: Callable[[], None], silent: bool = True) -> int:
    """Begin a task in a copy of this process that writes nothing on its output; the number of that process."""
    child = os.fork()
    if not child:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        for stream in (1, 2) if silent else (1,):
            os.dup2(nowhere, stream)
        with TemporaryDirectory() as folder:
            os.environ["HYPOTHESIS_STORAGE_DIRECTORY"] = folder
            try:
                task()
            finally:
                os._exit(FAILED)
    return child


def outcome_of(status: int) -> str:
    """What came of a mutant, from how its process ended."""
    if os.WIFSIGNALED(status):
        return "out of time"
    return {0: "survived", NO_TESTS: "not reached"}.get(os.WEXITSTATUS(status), "killed")


def try_all(
    mutants: Sequence[Mutant],
    reach: Reach,
    processes: int,
    kept: Path,
    try_mutant: Callable[[Mutant, Sequence[str]], None],
) -> None:
    """Try the mutants, some at once, and write down what came of each as it is known."""
    waiting, running = list(enumerate(mutants)), dict[int, Mutant]()
    with kept.open("a", encoding="utf-8") as results:
        while waiting or running:
            while waiting and len(running) < processes:
                number, mutant = waiting.pop(0)
                tests = reach.of(mutant)
                print(f"\r{number + 1} of {len(mutants)}", end="", file=sys.stderr)
                running[forked(lambda mutant=mutant, tests=tests: try_mutant(mutant, tests))] = mutant  # type: ignore[misc]
            child, status = os.wait()
            mutant = running.pop(child)
            if os.waitstatus_to_exitcode(status) != TO_LOAD:
                print(json.dumps([mutant.key, outcome_of(status)]), file=results, flush=True)
    print(file=sys.stderr)


def results_in(file: Path, first: int = 0) -> dict[str, str]:
    """Key -> what came of the mutant, the last time it was tried; of the file from this byte on."""
    lines = file.read_bytes()[first:].decode().splitlines() if file.is_file() else []
    return {key: outcome for key, outcome in map(json.loads, lines)}


def report(mutants: Sequence[Mutant], results: dict[str, str]) -> None:
    """The survivors by file and line, then by file, then the score."""
    tried = [(each, results[each.key]) for each in mutants if each.key in results]
    alive = [(each, outcome) for each, outcome in tried if outcome in ALIVE]
    by_file: dict[Path, Counter[str]] = defaultdict(Counter)
    for mutant, outcome in sorted(alive, key=lambda each: (each[0].path, each[0].line)):
        print(f"{mutant.path.relative_to(TOP)}:{mutant.line}: {mutant.fault} {outcome}")
    for mutant, outcome in tried:
        by_file[mutant.path][outcome] += 1
    met = Counter(outcome for _, outcome in tried)
    print(", ".join(f"{number} {outcome}" for outcome, number in met.most_common()))
    print(f"{1 - len(alive) / max(1, len(tried)):.1%} of {len(tried)} mutants found")


def main() -> int:
    """Try mutants and report."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--mutants", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=0)
    parser.add_argument("--from", type=int, default=0, dest="first")
    parser.add_argument("--processes", type=int, default=len(os.sched_getaffinity(0)))
    parser.add_argument("--again", action="store_true", help="try those again that survived")
    parser.add_argument("--reach", action="store_true", help="record anew which tests reach which line")
    asked = parser.parse_args()
    os.chdir(TOP)
    KEPT.mkdir(exist_ok=True)
    for name in BEFOREHAND:
        importlib.import_module(name)
    reached, kept = KEPT / "reach.json", KEPT / f"seed-{asked.seed}.jsonl"
    if asked.reach or asked.again or not reached.is_file():
        _, status = os.waitpid(forked(lambda: record_reach(reached)), 0)
        if status:
            print(f"The tests fail without any mutant: run pytest {' '.join(TESTS)}", file=sys.stderr)
            return 1
    mutants = sampled(FOLDER, asked.seed, asked.mutants)[asked.first :]
    results = results_in(kept)
    if asked.again:
        results = {key: outcome for key, outcome in results.items() if outcome not in ALIVE}
    left = [each for each in mutants if each.key not in results]
    reach = msgspec.json.decode(reached.read_bytes(), type=Reach)
    known = kept.stat().st_size if kept.is_file() else 0

    def try_collected() -> None:
        # Each copy of this process lets its output go by itself.
        ran(("-s", *TESTS), Collected(lambda try_mutant: try_all(left, reach, asked.processes, kept, try_mutant)))

    os.waitpid(forked(try_collected, silent=False), 0)
    tried = results_in(kept, known)
    try_all([each for each in left if each.key not in tried], reach, asked.processes, kept, try_loading)
    report(mutants, results_in(kept))
    return 0


if __name__ == "__main__":
    sys.exit(main())
