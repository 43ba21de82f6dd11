"""Which lines of the core each test reaches, and how long it takes; remembered in a folder.

The test files that are new or changed are run in one process. Where a file of the core has changed
since, who reached any of it is taken to reach all of it.
"""

from __future__ import annotations

import ast
import gc
import json
import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import _lru_cache_wrapper
from hashlib import blake2b
from importlib.abc import MetaPathFinder
from importlib.machinery import ModuleSpec, PathFinder, SourceFileLoader
from pathlib import Path
from types import CodeType, ModuleType
from typing import Any, NamedTuple

import pytest

ROOT = Path(__file__).parents[2]
EVERY_LINE = -1
_MARKS = "__marks__"


class Reached(NamedTuple):
    """`lines`: by file of the core, from the root on; the bit `1 << n` stands for line n."""

    test: str
    seconds: float
    lines: dict[str, int]


class Marked(MetaPathFinder):
    """Imports the files of the core so that each statement of a function marks its line.

    A mark costs a tenth of what a tracer does that is told every line of a process.
    """

    def __init__(self, core: Sequence[Path]) -> None:
        self.paths = {str(path) for path in core}
        self.marks: dict[str, bytearray] = {}

    def find_spec(
        self, name: str, path: Sequence[str] | None, target: ModuleType | None = None
    ) -> ModuleSpec | None:
        spec = PathFinder.find_spec(name, path) if name.startswith("backbud") else None
        if spec is None or spec.origin not in self.paths:
            return None
        source = Path(spec.origin).read_text()
        tree = ast.fix_missing_locations(_Marking().visit(ast.parse(source)))
        code = compile(tree, spec.origin, "exec")
        marks = self.marks[spec.origin] = bytearray(source.count("\n") + 2)

        class Loader(SourceFileLoader):
            def get_code(self, _: str) -> CodeType:
                return code

            def exec_module(self, module: ModuleType) -> None:
                setattr(module, _MARKS, marks)
                super().exec_module(module)

        spec.loader = Loader(name, spec.origin)
        return spec

    def taken(self) -> dict[str, int]:
        """The lines marked since the last time, by file, as bits."""
        found = {}
        for path, marks in self.marks.items():
            if any(marks):
                bits = sum(1 << line for line, mark in enumerate(marks) if mark)
                found[str(Path(path).relative_to(ROOT))] = bits
                marks[:] = bytes(len(marks))
        return found


class _Marking(ast.NodeTransformer):
    """Puts a mark before each statement of a function, and into the body of a lambda."""

    def __init__(self) -> None:
        self.inside = 0

    def visit_FunctionDef(self, node: ast.FunctionDef) -> ast.AST:
        self.inside += 1
        self.generic_visit(node)
        self.inside -= 1
        return node

    def visit_Lambda(self, node: ast.Lambda) -> ast.AST:
        self.generic_visit(node)
        # Nothing of a bytearray's own method is true, so the body is what comes of it.
        mark = ast.Call(ast.Attribute(_name(), "__setitem__", ast.Load()), _at(node), [])
        node.body = ast.BoolOp(ast.Or(), [mark, node.body])
        return node

    def generic_visit(self, node: ast.AST) -> ast.AST:
        super().generic_visit(node)
        if self.inside and not isinstance(node, ast.ClassDef):
            for field in ("body", "orelse", "finalbody"):
                if isinstance(stmts := getattr(node, field, None), list):
                    setattr(node, field, [each for stmt in stmts for each in _marked(stmt)])
        return node


def _marked(stmt: ast.stmt) -> list[ast.stmt]:
    if isinstance(stmt, ast.Expr) and isinstance(stmt.value, ast.Constant):
        # A docstring must stay the first.
        return [stmt]
    line, _ = _at(stmt)
    place = ast.Subscript(_name(), line, ast.Store())
    mark = ast.Assign([place], ast.Constant(1))
    return [ast.copy_location(mark, stmt), stmt]


def _at(node: ast.stmt | ast.Lambda) -> list[ast.expr]:
    return [ast.Constant(node.lineno), ast.Constant(1)]


def _name() -> ast.Name:
    return ast.Name(_MARKS, ast.Load())


class Tracer:
    """A plugin of pytest that writes down the lines of the core that each test reaches."""

    def __init__(self, core: Sequence[Path], memories: Mapping[str, str]) -> None:
        self.marked = Marked(core)
        sys.meta_path.insert(0, self.marked)
        self.memories = memories
        self.digests = digests(core)
        self.found: list[Reached] = []
        # What a fixture of a module reaches is reached by each of its tests.
        self.shared: dict[str, int] = {}

    @pytest.hookimpl(hookwrapper=True)
    def pytest_runtest_protocol(
        self, item: pytest.Item, nextitem: pytest.Item | None
    ) -> Iterator[None]:
        for forget in forgetting():
            forget()
        failed = item.session.testsfailed
        self.marked.taken()
        begun = time.process_time()
        yield
        passed = time.process_time() - begun
        if item.session.testsfailed > failed:
            # Nothing can be told by it.
            print(f"left out: {item.nodeid}", file=sys.stderr)
        else:
            self.found.append(Reached(item.nodeid, passed, self.marked.taken()))
        file = _file_of(item.nodeid)
        if nextitem is None or _file_of(nextitem.nodeid) != file:
            self._remember(file)

    @pytest.hookimpl(hookwrapper=True)
    def pytest_fixture_setup(
        self, fixturedef: pytest.FixtureDef[Any], request: pytest.FixtureRequest
    ) -> Iterator[None]:
        if fixturedef.scope != "module":
            yield
            return
        before = self.marked.taken()
        yield
        self.shared = together(self.shared, self.marked.taken())
        # The test whose turn it is goes on.
        self.found_before(before)

    def found_before(self, lines: Mapping[str, int]) -> None:
        """Mark again what a test had reached before a fixture was made for its module."""
        for file, bits in lines.items():
            marks = self.marked.marks[str(ROOT / file)]
            for line in range(bits.bit_length()):
                marks[line] |= bits >> line & 1

    def _remember(self, file: str) -> None:
        """Remember what the tests of a file reached."""
        reached_by = [
            [test, seconds, {f: f"{b:x}" for f, b in together(lines, self.shared).items()}]
            for test, seconds, lines in self.found
        ]
        memory = self.memories[file]
        Path(f"{memory}.part").write_text(json.dumps([self.digests, reached_by]))
        os.replace(f"{memory}.part", memory)
        print(f"reach: {file} {time.process_time():.0f} s", file=sys.stderr, flush=True)
        self.found, self.shared = [], {}


def together(one: Mapping[str, int], other: Mapping[str, int]) -> dict[str, int]:
    """The lines of both, by file."""
    return {file: one.get(file, 0) | other.get(file, 0) for file in {**one, **other}}


def _file_of(test: str) -> str:
    return test.partition("::")[0]


def forgetting() -> list[Callable[[], None]]:
    """What makes each function of ours that remembers its answers forget them."""
    return [
        thing.cache_clear
        for thing in _remembering()
        if str(getattr(thing, "__module__", "")).startswith(
            ("backbud.", "backbud_species.", "tests.")
        )
    ]


_MET: list[Any] = []


def _remembering() -> list[Any]:
    """The functions that remember; sought once the core is loaded."""
    if not _MET:
        _MET.extend(t for t in gc.get_objects() if isinstance(t, _lru_cache_wrapper))
    return _MET


def reached(core: Sequence[Path], tests: Sequence[Path], kept: Path) -> list[Reached]:
    """What the tests of these files reach of the core; remembered in the folder `kept`."""
    kept.mkdir(parents=True, exist_ok=True)
    memories: dict[str, str] = {}
    for path in tests:
        memory = kept / f"{path.parent.name}-{path.stem}-{_digest(path)}.json"
        memories[str(path.relative_to(ROOT))] = str(memory)
    new = {file: memory for file, memory in memories.items() if not Path(memory).exists()}
    if new:
        print(f"reach: {len(new)} test files", file=sys.stderr, flush=True)
        asked = json.dumps([list(map(str, core)), new])
        command = [sys.executable, __file__]
        subprocess.run(
            command, cwd=ROOT, check=True, input=asked, text=True, stdout=subprocess.DEVNULL
        )
    out, now = [], digests(core)
    for memory in memories.values():
        then, found = json.loads(Path(memory).read_text())
        same = {file for file, digest in now.items() if then.get(file) == digest}
        for test, seconds, lines in found:
            met = {f: int(bits, 16) if f in same else EVERY_LINE for f, bits in lines.items()}
            out.append(Reached(test, seconds, met))
    return out


def digests(core: Sequence[Path]) -> dict[str, str]:
    """By file, from the root on."""
    return {str(path.relative_to(ROOT)): _digest(path) for path in core}


def _digest(path: Path) -> str:
    return blake2b(path.read_bytes(), digest_size=8).hexdigest()


def _main() -> None:
    core, memories = json.loads(sys.stdin.read())
    args = ["-q", "-p", "no:cacheprovider", "-p", "no:benchmark"]
    args += ["-m", "not slow and not chromium and not long", *memories]
    pytest.main(args, plugins=[Tracer([Path(path) for path in core], memories)])


if __name__ == "__main__":
    _main()
