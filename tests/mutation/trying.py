"""One change is tried in a fork: its code is exchanged, or its module imported as changed."""

from __future__ import annotations

import ast
import gc
import os
import signal
import sys
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import date
from importlib.abc import MetaPathFinder
from importlib.machinery import ModuleSpec, PathFinder, SourceFileLoader
from pathlib import Path
from tempfile import TemporaryDirectory, TemporaryFile
from types import CodeType, FunctionType, ModuleType
from typing import NamedTuple, TextIO

import pytest
from mutants import Mutant
from near import module_of, names_set, parsed, statement_of
from reach import ROOT

ALL_PASS, ONE_FAILS, OUT_OF_TIME, NOT_TRIED = range(4)
QUIET = ("-q", "-x", "-p", "no:cacheprovider", "-p", "no:benchmark",
         "-o", "tmp_path_retention_policy=none")  # fmt: skip


class Tried(NamedTuple):
    file: str
    mutant: Mutant
    tests: list[str]


class Runner:
    """A plugin of pytest that runs chosen tests until one fails."""

    failed = ""

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            self.failed = report.nodeid

    def run(self, items: Mapping[str, pytest.Item], tests: Iterable[str]) -> bool:
        """Whether one of the tests fails."""
        for name in tests:
            item = items[name]
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=None)
            if self.failed:
                return True
        return False


class InPlace(Runner):
    """Tries changes of functions and plain names in a fork of one collected session."""

    def __init__(
        self, todo: Sequence[Tried], limit: int, tell: Callable[[Tried, int], None], told: TextIO
    ) -> None:
        self.todo, self.limit, self.tell, self.told = todo, limit, tell, told

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        items = {item.nodeid: item for item in session.items}
        _warm()
        live = _live_functions()
        every = dict.fromkeys(name for tried in self.todo for name in tried.tests)
        unfit = self._unfit(items, every)
        for tried in self.todo:

            def work(tried: Tried = tried) -> bool:
                if tried.mutant.in_function:
                    _exchange(ROOT / tried.file, tried.mutant, live)
                else:
                    _set_anew(tried)
                return self.run(items, [name for name in tried.tests if name not in unfit])

            self.tell(tried, forked(work, self.limit))
        return True

    def _unfit(self, items: Mapping[str, pytest.Item], tests: Iterable[str]) -> set[str]:
        """The tests that fail in a fork though nothing was changed: they tell nothing."""
        by_file: dict[str, list[str]] = defaultdict(list)
        for name in tests:
            by_file[name.partition("::")[0]].append(name)
        with TemporaryFile("w+") as found:
            for names in by_file.values():

                def work(names: list[str] = names) -> bool:
                    for name in names:
                        self.failed = ""
                        if self.run(items, [name]):
                            print(name, file=found, flush=True)
                    return False

                forked(work, 10 * self.limit)
            found.seek(0)
            unfit = set(found.read().splitlines())
        for name in sorted(unfit):
            print(f"left out, it fails though nothing was changed: {name}", file=self.told)
        return unfit


class OnImport(Runner):
    """Runs the tests of one change in this very process."""

    def __init__(self, tried: Tried) -> None:
        self.tried = tried

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        items = {item.nodeid: item for item in session.items}
        self.run(items, [name for name in self.tried.tests if name in items])
        return True


def forked(work: Callable[[], bool], limit: int) -> int:
    """How a fork ended: ALL_PASS, ONE_FAILS, OUT_OF_TIME after seconds of work, or NOT_TRIED."""
    pid = os.fork()
    if pid == 0:
        with open(os.devnull, "w") as nowhere:
            os.dup2(nowhere.fileno(), 1)
            os.dup2(nowhere.fileno(), 2)
        for sign in (signal.SIGPROF, signal.SIGALRM):
            signal.signal(sign, lambda *_: os._exit(OUT_OF_TIME))
        signal.setitimer(signal.ITIMER_PROF, limit)
        signal.alarm(20 * limit)
        try:
            os._exit(ONE_FAILS if work() else ALL_PASS)
        except BaseException:
            os._exit(NOT_TRIED)
    return os.waitstatus_to_exitcode(os.waitpid(pid, 0)[1])


def _warm() -> None:
    """Load what the first journal of a process loads, so that not every fork does."""
    from backbud.session import open_session

    with TemporaryDirectory() as folder:
        Path(folder, "backbud.toml").write_text("language = 1\n")
        Path(folder, "journal.txt").write_text("place yard\n\n2026-03-06\nyard\n  noted  dry\n")
        session = open_session(folder, date(2026, 3, 7), as_of=False)
        session.problems()
        session.plan()


def _live_functions() -> dict[tuple[str, int, str], list[FunctionType]]:
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


def _set_anew(tried: Tried) -> None:
    """Give the names of the changed statement their new value wherever they were imported."""
    stmt = statement_of(tried.mutant)
    assert stmt is not None
    home = vars(sys.modules[module_of(ROOT / tried.file)])
    space = dict(home)
    alone = ast.fix_missing_locations(ast.Module([stmt], []))
    exec(compile(alone, str(ROOT / tried.file), "exec"), space)
    for name in names_set(tried.mutant):
        old = home[name]
        for module in list(sys.modules.values()):
            if getattr(module, "__dict__", {}).get(name) is old:
                setattr(module, name, space[name])


def _exchange(
    path: Path, mutant: Mutant, live: Mapping[tuple[str, int, str], list[FunctionType]]
) -> None:
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


def on_import(tried: Tried, limit: int) -> int:
    """How a change fares that acts when its module is imported."""

    def work() -> bool:
        sys.meta_path.insert(0, _Changed(ROOT / tried.file, tried.mutant))
        runner = OnImport(tried)
        files = sorted({name.partition("::")[0] for name in tried.tests})
        status = pytest.main([*QUIET, *files], plugins=[runner])
        return bool(runner.failed) or status not in (
            pytest.ExitCode.OK,
            pytest.ExitCode.NO_TESTS_COLLECTED,
        )

    return forked(work, limit)
