"""Which lines of the core each test reaches, and how long it takes; remembered in a folder.

A test file is run again only when it or the core has changed.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import time
from collections.abc import Iterable, Iterator, Sequence
from hashlib import blake2b
from pathlib import Path
from types import CodeType, FrameType
from typing import Any, NamedTuple

import pytest
from hypothesis import settings

ROOT = Path(__file__).parents[2]
# After so many lines of one function in one test nothing new is expected of it.
MOST_LINES = 2000


class Reached(NamedTuple):
    """`lines`: by file of the core, from the root on."""

    test: str
    seconds: float
    lines: dict[str, list[int]]


class Tracer:
    """A plugin of pytest that writes down the lines of some files while a test runs."""

    def __init__(self, files: Iterable[Path]) -> None:
        self.names = {str(path): str(path.relative_to(ROOT)) for path in files}
        self.found: list[Reached] = []

    @pytest.hookimpl(hookwrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Iterator[None]:
        met: dict[str, set[int]] = {}
        counts: dict[CodeType, int] = {}

        def local(frame: FrameType, event: str, _: Any) -> Any:
            if event == "line":
                code = frame.f_code
                met[code.co_filename].add(frame.f_lineno)
                counts[code] += 1
                if counts[code] > MOST_LINES:
                    return None
            return local

        def entered(frame: FrameType, event: str, _: Any) -> Any:
            code = frame.f_code
            if code.co_filename not in self.names or counts.get(code, 0) > MOST_LINES:
                return None
            met.setdefault(code.co_filename, set())
            counts.setdefault(code, 0)
            return local

        begun = time.process_time()
        failed = item.session.testsfailed
        sys.settrace(entered)
        yield
        sys.settrace(None)
        if item.session.testsfailed > failed:
            # Nothing can be told by it.
            print(f"left out: {item.nodeid}", file=sys.stderr)
            return
        lines = {self.names[name]: sorted(at) for name, at in met.items()}
        self.found.append(Reached(item.nodeid, time.process_time() - begun, lines))


def reached(core: Sequence[Path], tests: Sequence[Path], kept: Path) -> list[Reached]:
    """What the tests of these files reach of the core; remembered in the folder `kept`."""
    kept.mkdir(parents=True, exist_ok=True)
    source = blake2b(b"".join(path.read_bytes() for path in core), digest_size=8)
    out: list[Reached] = []
    for path in tests:
        digest = source.copy()
        digest.update(path.read_bytes())
        memory = kept / f"{path.parent.name}-{path.stem}-{digest.hexdigest()}.json"
        if not memory.exists():
            print(f"reach: {path.relative_to(ROOT)}", file=sys.stderr, flush=True)
            command = [sys.executable, __file__, str(memory), str(path), *map(str, core)]
            subprocess.run(command, cwd=ROOT, check=True, stdout=subprocess.DEVNULL)
        out.extend(Reached(*one) for one in json.loads(memory.read_text()))
    return out


def _main() -> None:
    memory, test, *core = sys.argv[1:]
    tracer = Tracer(map(Path, core))
    settings.register_profile("reach", deadline=None, derandomize=True, database=None)
    settings.load_profile("reach")
    args = [test, "-q", "-p", "no:cacheprovider", "-p", "no:benchmark"]
    pytest.main([*args, "-m", "not slow and not chromium"], plugins=[tracer])
    part = Path(f"{memory}.part")
    part.write_text(json.dumps(tracer.found))
    os.replace(part, memory)


if __name__ == "__main__":
    _main()
