"""Which lines of the core each test reaches, and how long it takes; remembered in a folder.

The test files that are new or changed are run in one process. Where a file of the core has changed
since, who reached any of it is taken to reach all of it.
"""

from __future__ import annotations

import gc
import json
import os
import subprocess
import sys
import time
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import _lru_cache_wrapper
from hashlib import blake2b
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from coverage import Coverage
from hypothesis import settings

ROOT = Path(__file__).parents[2]
EVERY_LINE = -1
# What a fixture reaches that several tests share is reached by each of them.
SHARED = "::shared"


class Reached(NamedTuple):
    """`lines`: by file of the core, from the root on; the bit `1 << n` stands for line n."""

    test: str
    seconds: float
    lines: dict[str, int]


class Tracer:
    """A plugin of pytest that writes down the lines of the core while each test runs."""

    def __init__(self, core: Sequence[Path], memories: Mapping[str, str]) -> None:
        self.cover = Coverage(data_file=None, config_file=False, include=[str(p) for p in core])
        self.memories = memories
        self.digests = digests(core)
        self.seconds: dict[str, float] = {}

    def pytest_sessionstart(self) -> None:
        self.cover.start()

    @pytest.hookimpl(hookwrapper=True)
    def pytest_runtest_protocol(
        self, item: pytest.Item, nextitem: pytest.Item | None
    ) -> Iterator[None]:
        for forget in forgetting():
            forget()
        failed = item.session.testsfailed
        self.cover.switch_context(item.nodeid)
        begun = time.process_time()
        yield
        passed = time.process_time() - begun
        self.cover.switch_context("")
        if item.session.testsfailed > failed:
            # Nothing can be told by it.
            print(f"left out: {item.nodeid}", file=sys.stderr)
        else:
            self.seconds[item.nodeid] = passed
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
        self.cover.switch_context(f"{request.node.nodeid}{SHARED}")
        yield
        # The test whose turn it is goes on.
        self.cover.switch_context(os.environ["PYTEST_CURRENT_TEST"].rpartition(" (")[0])

    def _remember(self, file: str) -> None:
        """Remember what the tests of a file reached."""
        self.cover.stop()
        found: dict[str, dict[str, int]] = defaultdict(dict)
        data = self.cover.get_data()
        for name in data.measured_files():
            short = str(Path(name).relative_to(ROOT))
            for line, tests in data.contexts_by_lineno(name).items():
                for test in tests:
                    found[test][short] = found[test].get(short, 0) | 1 << line
        reached_by = []
        for test, seconds in self.seconds.items():
            lines = dict(found.get(f"{file}{SHARED}", {}))
            for short, bits in found.get(test, {}).items():
                lines[short] = lines.get(short, 0) | bits
            reached_by.append([test, seconds, {s: f"{b:x}" for s, b in lines.items()}])
        memory = self.memories[file]
        Path(f"{memory}.part").write_text(json.dumps([self.digests, reached_by]))
        os.replace(f"{memory}.part", memory)
        print(f"reach: {file}", file=sys.stderr, flush=True)
        self.seconds.clear()
        self.cover.erase()
        self.cover.start()


def _file_of(test: str) -> str:
    return test.partition("::")[0]


def forgetting() -> list[Callable[[], None]]:
    """What makes each function of the core that remembers its answers forget them."""
    return [
        thing.cache_clear
        for thing in _remembering()
        if str(getattr(thing, "__module__", "")).startswith(("backbud.", "backbud_species."))
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
    settings.register_profile("reach", deadline=None, derandomize=True, database=None)
    settings.load_profile("reach")
    args = ["-q", "-p", "no:cacheprovider", "-p", "no:benchmark"]
    args += ["-m", "not slow and not chromium and not long", *memories]
    pytest.main(args, plugins=[Tracer([Path(path) for path in core], memories)])


if __name__ == "__main__":
    _main()
