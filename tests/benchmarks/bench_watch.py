"""A saved line goes in; how long it takes until a browser's page would show it comes out.

Not part of the suite: `pytest tests/benchmarks/bench_watch.py -s` (ACTS=20000 for a smaller one).
`backbud watch` runs as a process of its own. A line is added to the diary with an ordinary save; an
HTTP client has the tree's page open as a browser has it: it hears that the page changed, and loads
it again. Each figure is the middle one of several saves; the best and the worst are printed too.
"""

from __future__ import annotations

import http.client
import os
import re
import shutil
import statistics
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from html import unescape
from pathlib import Path

import pytest
from generate import generate

ACTS = int(os.environ.get("ACTS", "100000"))
SAVES = int(os.environ.get("SAVES", "7"))
BACKBUD = str(Path(sys.executable).with_name("backbud"))
EXAMPLE = Path(__file__).parents[2] / "example_journal"
EXAMPLE_LIMIT_S, LARGE_LIMIT_S = 0.3, 1.0
PATIENCE_S = 600.0


@contextmanager
def watching(folder: Path) -> Iterator[int]:
    """The port of a `backbud watch` whose first build is done and that has come to rest."""
    process = subprocess.Popen(
        [BACKBUD, "watch", str(folder), "--port", "0"],
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        env={**os.environ, "PYTHONUNBUFFERED": "1"},
    )
    assert process.stdout is not None
    try:
        port = 0
        for line in process.stdout:
            if found := re.search(r"http://127\.0\.0\.1:(\d+)/", line):
                port = int(found[1])
            if found := re.search(r"(\d+) files? changed, (\d+) ms", line):
                print(f"\nfirst build: {found[1]} files, {found[2]} ms")
                break
        time.sleep(3)
        yield port
    finally:
        process.terminate()
        process.wait(30)
        process.stdout.close()


class OpenPage:
    """A page in a browser: it waits for word of a change, and is loaded again then."""

    def __init__(self, port: int, path: str) -> None:
        self.port, self.path = port, path
        self.load()

    def load(self) -> bytes:
        connection = self._ask(self.path)
        text = connection.getresponse().read()
        connection.close()
        found = re.search(rb'data-changes="([^"]+)"', text)
        assert found is not None
        self._changes = self._ask(unescape(found[1].decode()))
        # The answer begins with a comment: from here on it listens.
        self._told = self._changes.getresponse()
        assert self._told.readline() == b": \n"
        return text

    def seconds_until(self, wanted: bytes, began: float) -> float:
        """Since a save began until the page holds what was saved."""
        while time.perf_counter() - began < PATIENCE_S:
            while b"event: changed" not in self._told.readline():
                pass
            self._changes.close()
            if wanted in self.load():
                return time.perf_counter() - began
        raise AssertionError(f"{wanted!r} never came to {self.path}")

    def _ask(self, path: str) -> http.client.HTTPConnection:
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=PATIENCE_S)
        connection.request("GET", path)
        return connection


def a_tree_and_its_page(folder: Path) -> tuple[Path, str, str]:
    """The last file of the diary, a tree that it names, and the last day in it."""
    page = max(folder.glob("diary/**/*.txt"))
    lines = page.read_text(encoding="utf-8").splitlines()
    handles = {
        found[1] for card in folder.glob("**/*.txt") for found in
        re.finditer(r"^tree (\S+)", card.read_text(encoding="utf-8"), re.MULTILINE)
    }  # fmt: skip
    tree = next(line for line in lines if line in handles)
    return page, tree, next(line for line in reversed(lines) if line[:1].isdigit())[:10]


def measure(folder: Path, what: str, limit_s: float) -> None:
    page, tree, day = a_tree_and_its_page(folder)
    text = page.read_text(encoding="utf-8")
    took: list[float] = []
    with watching(folder) as port:
        page_open = OpenPage(port, f"/trees/{tree}.html")
        for count in range(SAVES):
            seen = f"seen {count} times"
            # A note is on the tree's page; what is planned is on the first page and in feeds too.
            added = f"{day}\n\n{tree}\n  noted    {seen}\n  planned  feed, in {count + 2} weeks\n"
            began = time.perf_counter()
            page.write_text(f"{text}\n{added}", encoding="utf-8")
            took.append(page_open.seconds_until(seen.encode(), began))
            time.sleep(2.5)
    page.write_text(text, encoding="utf-8")
    middle = statistics.median(took)
    print(
        f"{what}, from save to new page: {middle * 1000:.0f} ms"
        f" ({min(took) * 1000:.0f} to {max(took) * 1000:.0f}; limit {limit_s * 1000:.0f})"
    )
    assert middle < limit_s


def test_the_example_journal(tmp_path: Path) -> None:
    folder = tmp_path / "journal"
    shutil.copytree(EXAMPLE, folder, ignore=shutil.ignore_patterns("made", ".backbud"))
    measure(folder, "example journal", EXAMPLE_LIMIT_S)


@pytest.mark.slow
def test_a_large_journal(tmp_path: Path) -> None:
    folder = tmp_path / "journal"
    generate(folder, ACTS)
    measure(folder, f"{ACTS} acts", LARGE_LIMIT_S)
