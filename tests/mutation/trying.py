"""One change is tried in a fork: its code is exchanged, or its module imported as changed."""

from __future__ import annotations

import ast
import gc
import os
import signal
import sys
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import date
from importlib import import_module
from importlib.abc import MetaPathFinder
from importlib.machinery import ModuleSpec, PathFinder, SourceFileLoader
from pathlib import Path
from tempfile import TemporaryDirectory
from types import CodeType, FunctionType, ModuleType
from typing import NamedTuple, TextIO

import pytest
from mutants import Mutant
from near import module_of, names_set, parsed, statement_of
from reach import ROOT, forgetting

# By file, first line and name the functions that there are.
Live = Mapping[tuple[str, int, str], list[FunctionType]]
ALL_PASS, ONE_FAILS, OUT_OF_TIME, NOT_TRIED = range(4)
# A test without an end takes so many times its own processor time, and no less than so much.
ENDLESS, LEAST_S = 10, 2.0
# To import and collect everything takes a few.
IMPORT_S = 60.0
# A fork that waits for something that never comes tells nothing.
WAITED_S = 3600
QUIET = ("-q", "-x", "-p", "no:cacheprovider", "-p", "no:benchmark",
         "-o", "tmp_path_retention_policy=none")  # fmt: skip


# A change that acts on import wants a new import of all: so many test files are collected for it.
MOST_FILES = 8
OURS = ("backbud.species", "backbud.session", "backbud.plan.run", "backbud.plan.covers",
        "backbud.plan.root_limits", "backbud_grammar.parse")  # fmt: skip
OTHERS = ("hypothesis.strategies", "jinja2", "lark", "msgspec", "numpy", "pathspec")


class Tried(NamedTuple):
    file: str
    mutant: Mutant
    # The seconds that each takes by itself, in the order in which they are asked.
    tests: Mapping[str, float]


class Ended(NamedTuple):
    """How a fork ended: one of the four above, and the test that failed in it or had no end."""

    how: int
    by: str = ""


Tell = Callable[[Tried, Ended], None]


class Runner:
    """A plugin of pytest that runs chosen tests until one fails."""

    failed = ""
    running = ""

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            self.failed = report.nodeid

    def run(self, items: Mapping[str, pytest.Item], tests: Mapping[str, float]) -> str:
        """The first of the tests that fails, or nothing; each has so many seconds by itself.

        One that takes ten times as much work as it does by itself is taken to have no end. How
        long it had to wait for a processor is not counted.
        """
        for name, seconds in tests.items():
            item = items[name]
            self.running = name
            signal.setitimer(signal.ITIMER_PROF, max(LEAST_S, ENDLESS * seconds))
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=None)
            if self.failed:
                return self.failed
        return ""


class InPlace(Runner):
    """Tries changes of functions and plain names in a fork of one collected session."""

    def __init__(self, todo: Sequence[Tried], tell: Tell, told: TextIO) -> None:
        self.todo, self.tell, self.told = todo, tell, told
        self.fit: set[str] = set()
        self.unfit: set[str] = set()
        # By file how many changes a test saw: it is asked first about the next.
        self.seen_by: dict[str, Counter[str]] = defaultdict(Counter)

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        items = {item.nodeid: item for item in session.items}
        _warm()
        for file in {tried.file for tried in self.todo}:
            # What is loaded only once it is wanted.
            import_module(module_of(ROOT / file))
        live = _live_functions()
        gc.freeze()
        for tried in self.todo:
            ended = self._tried(tried, items, live)
            while ended.by and not self._is_fit(ended.by, tried.tests, items):
                ended = self._tried(tried, items, live)
            self.seen_by[tried.file][ended.by] += bool(ended.by)
            self.tell(tried, ended)
        return True

    def _tried(self, tried: Tried, items: Mapping[str, pytest.Item], live: Live) -> Ended:
        seen = self.seen_by[tried.file]
        tests = {
            name: tried.tests[name]
            for name in sorted(tried.tests, key=lambda name: -seen[name])
            if name not in self.unfit
        }

        def work() -> str:
            if tried.mutant.in_function:
                _exchange(ROOT / tried.file, tried.mutant, live)
            elif not _set_anew(tried):
                # No test could import it.
                os._exit(ONE_FAILS)
            return self.run(items, tests)

        return forked(work, self)

    def _is_fit(
        self, test: str, seconds: Mapping[str, float], items: Mapping[str, pytest.Item]
    ) -> bool:
        """Whether a test passes in a fork where nothing is changed; else it tells nothing."""
        if test not in self.fit | self.unfit:
            alone = {test: seconds[test]}
            passes = forked(lambda: self.run(items, alone), self).how == ALL_PASS
            (self.fit if passes else self.unfit).add(test)
            if not passes:
                print(f"left out, it fails though nothing was changed: {test}", file=self.told)
        return test in self.fit


class OnImport(Runner):
    """Runs the tests of one change in this very process."""

    def __init__(self, tried: Tried) -> None:
        self.tried = tried

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        items = {item.nodeid: item for item in session.items}
        self.run(items, {name: s for name, s in self.tried.tests.items() if name in items})
        return True


def forked(work: Callable[[], str], runner: Runner) -> Ended:
    """How a fork ended in which the runner runs tests."""
    reads, writes = os.pipe()
    pid = os.fork()
    if pid == 0:
        os.close(reads)
        with open(os.devnull, "w") as nowhere:
            os.dup2(nowhere.fileno(), 1)
            os.dup2(nowhere.fileno(), 2)

        def no_end(*_: object) -> None:
            os.write(writes, runner.running.encode())
            os._exit(OUT_OF_TIME)

        signal.signal(signal.SIGPROF, no_end)
        signal.signal(signal.SIGALRM, lambda *_: os._exit(NOT_TRIED))
        signal.alarm(WAITED_S)
        signal.setitimer(signal.ITIMER_PROF, IMPORT_S)
        try:
            failed = work()
            os.write(writes, failed.encode())
            os._exit(ONE_FAILS if failed else ALL_PASS)
        except BaseException:
            os._exit(NOT_TRIED)
    os.close(writes)
    with open(reads) as said:
        failed = said.read()
    return Ended(os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1]), failed)


def _warm() -> None:
    """Load what the first journal of a process loads, so that not every fork does."""
    from backbud.session import open_session

    with TemporaryDirectory() as folder:
        Path(folder, "backbud.toml").write_text("language = 1\n")
        Path(folder, "journal.txt").write_text("place yard\n\n2026-03-06\nyard\n  noted  dry\n")
        session = open_session(folder, date(2026, 3, 7), as_of=False)
        session.problems()
        session.plan()
    for forget in forgetting():
        forget()


def _live_functions() -> Live:
    live: dict[tuple[str, int, str], list[FunctionType]] = defaultdict(list)
    for thing in gc.get_objects():
        if isinstance(thing, FunctionType):
            code = thing.__code__
            live[code.co_filename, code.co_firstlineno, code.co_qualname].append(thing)
    return live


def settable(tried: Tried, users: Mapping[str, set[str]]) -> bool:
    """Whether the change is of a plain name that nothing else is made of on import.

    Such a name is set anew in every module that has it, in place of a whole new import.
    """
    names = names_set(tried.mutant)
    if not names:
        return False
    for user in users[tried.file]:
        for stmt in parsed(user).body:
            if stmt.lineno == tried.mutant.lines[0] and user == tried.file:
                continue
            if any(isinstance(n, ast.Name) and n.id in names for n in _on_import(stmt)):
                return False
    return True


def _on_import(stmt: ast.stmt) -> Iterator[ast.AST]:
    """The nodes of a statement that act when its module is imported."""
    todo: list[ast.AST] = [stmt]
    while todo:
        node = todo.pop()
        yield node
        if isinstance(node, ast.FunctionDef):
            todo += [
                *node.args.defaults,
                *filter(None, node.args.kw_defaults),
                *node.decorator_list,
            ]
        elif isinstance(node, ast.Lambda):
            todo += node.args.defaults
        else:
            todo += [n for n in ast.iter_child_nodes(node) if not _is_annotation(node, n)]


def _is_annotation(node: ast.AST, child: ast.AST) -> bool:
    return isinstance(node, ast.AnnAssign) and child is node.annotation


def _set_anew(tried: Tried) -> bool:
    """Give the names of the changed statement their new value wherever they were imported; whether
    there is one, and not an error."""
    stmt = statement_of(tried.mutant)
    assert stmt is not None
    home = vars(sys.modules[module_of(ROOT / tried.file)])
    space = dict(home)
    alone = ast.fix_missing_locations(ast.Module([stmt], []))
    try:
        exec(compile(alone, str(ROOT / tried.file), "exec"), space)
    except Exception:
        return False
    for name in names_set(tried.mutant):
        old = home[name]
        for module in list(sys.modules.values()):
            if getattr(module, "__dict__", {}).get(name) is old:
                setattr(module, name, space[name])
    return True


def _exchange(path: Path, mutant: Mutant, live: Live) -> None:
    """Give each live function of the file the code it has after the change."""
    exchanged = 0
    for code in _codes(compile(mutant.tree, str(path), "exec")):
        for function in live.get((str(path), code.co_firstlineno, code.co_qualname), ()):
            if code.co_freevars == function.__code__.co_freevars:
                function.__code__ = code
                exchanged += 1
    if not exchanged:
        raise LookupError(f"no live function of {path} could be changed")


def _codes(code: CodeType) -> Iterator[CodeType]:
    for constant in code.co_consts:
        if isinstance(constant, CodeType):
            yield constant
            yield from _codes(constant)


class _Changed(MetaPathFinder):
    """Imports one module as it is after the change."""

    def __init__(self, path: Path, mutant: Mutant) -> None:
        self.name, self.path, self.mutant = module_of(path), path, mutant

    def find_spec(
        self, name: str, path: Sequence[str] | None, target: ModuleType | None = None
    ) -> ModuleSpec | None:
        if name != self.name:
            return None
        spec = PathFinder.find_spec(name, path)
        code = compile(self.mutant.tree, str(self.path), "exec")

        class Loader(SourceFileLoader):
            def get_code(self, _: str) -> CodeType:
                return code

        assert spec is not None
        spec.loader = Loader(name, str(self.path))
        return spec


def on_import(tried: Tried) -> Ended:
    """How a change fares that acts when its module is imported."""
    files = fewest_files(tried.tests)
    if not files:
        return Ended(ALL_PASS)
    tests = {name: s for name, s in tried.tests.items() if name.partition("::")[0] in files}
    runner = OnImport(tried._replace(tests=tests))

    def work() -> str:
        sys.meta_path.insert(0, _Changed(ROOT / tried.file, tried.mutant))
        status = pytest.main([*QUIET, *files], plugins=[runner])
        if status in (pytest.ExitCode.OK, pytest.ExitCode.NO_TESTS_COLLECTED):
            return runner.failed
        return runner.failed or f"{files[0]}::collecting"

    return forked(work, runner)


def fewest_files(tests: Iterable[str]) -> list[str]:
    """The few test files with most of the tests, so that not all are collected for one change."""
    counts = Counter(name.partition("::")[0] for name in tests)
    return [file for file, _ in counts.most_common(MOST_FILES)]


def load_others() -> None:
    """Load what others made, so that not every fork does; nothing of ours."""
    for name in OTHERS:
        import_module(name)


def load_all_but_species() -> None:
    """Load what species and their tests are made with, for forks that change species alone."""
    load_others()
    for name in OURS:
        import_module(name)
    assert not any(name.startswith("backbud_species") for name in sys.modules)
