"""A journal of any size, checked and made from a clean folder: processor time, memory, and bytes.

Not part of the suite: `ACTS=100000 pytest tests/benchmarks/bench_scale.py -s`; a million acts are
8,000 trees and take the better part of an hour. Every command is a process of its own; its time is
the processor's, so that it hardly matters what else the machine does, its memory the most it held.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator, Mapping
from html.parser import HTMLParser
from pathlib import Path
from statistics import mean
from typing import NamedTuple

import pytest
from generate import generate

ACTS = int(os.environ.get("ACTS", "100000"))
BACKBUD = str(Path(sys.executable).with_name("backbud"))
# Of a million acts; a smaller journal has its share of it, and what any run takes.
MOST_MEGABYTES, ANY_MEGABYTES = 2000, 150
MOST_TIMES_CHECK = 6
MOST_PAGE, MEAN_TREE_PAGE = 1_000_000, 45_000
MOST_TIMES_JOURNAL = 12
MOST_ELEMENTS = 4000
# Counted apart: what leaves the house, data, pictures, and what is no page or feed.
APART = ("for/", "public/", "assets/", "photographs/", "find/")

# Prints what the last child of this process took.
_MEASURED = """
import resource, subprocess, sys
subprocess.run(sys.argv[1:], check=True, stdout=subprocess.DEVNULL)
used = resource.getrusage(resource.RUSAGE_CHILDREN)
print(used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)
"""


class Taken(NamedTuple):
    """What a command took: processor seconds, and megabytes at most."""

    seconds: float
    megabytes: float


@pytest.fixture(scope="module")
def journal(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("scale") / "journal"
    generate(folder, ACTS)
    return folder


@pytest.fixture(scope="module")
def taken(journal: Path) -> Mapping[str, Taken]:
    """What `check` and `make` took, each from a clean folder; the output stays for the others."""
    out: dict[str, Taken] = {}
    for command in ("check", "make"):
        shutil.rmtree(journal / ".backbud", ignore_errors=True)
        out[command] = _taken(command, str(journal))
        print(f"\n{command}: {out[command].seconds:.1f} s, {out[command].megabytes:.0f} MB")
    return out


def _taken(*arguments: str) -> Taken:
    said = subprocess.run(
        [sys.executable, "-c", _MEASURED, BACKBUD, *arguments],
        check=True,
        capture_output=True,
        text=True,
    ).stdout
    seconds, megabytes = map(float, said.split())
    return Taken(seconds, megabytes)


def test_time(taken: Mapping[str, Taken]) -> None:
    ratio = taken["make"].seconds / taken["check"].seconds
    print(f"\nmake / check: {ratio:.1f} (limit {MOST_TIMES_CHECK})")
    assert ratio < MOST_TIMES_CHECK


def test_memory(taken: Mapping[str, Taken]) -> None:
    most = ANY_MEGABYTES + (MOST_MEGABYTES - ANY_MEGABYTES) * ACTS / 1_000_000
    print(f"\nmemory of make: {taken['make'].megabytes:.0f} MB (limit {most:.0f})")
    assert taken["make"].megabytes < most


def test_sizes(taken: Mapping[str, Taken], journal: Path) -> None:
    made = journal / "made"
    sizes = {path: size for path, size in _sizes(made) if path.endswith((".html", ".ics"))}
    trees = [size for path, size in sizes.items() if path.startswith("trees/")]
    pages = {path: size for path, size in sizes.items() if path.endswith(".html")}
    largest = max(pages, key=pages.__getitem__)
    own = sum(path.stat().st_size for path in journal.glob("[cd]*/**/*.txt"))
    kept = sum(size for path, size in sizes.items() if not path.startswith(APART))
    print(
        f"\nlargest page {largest}: {pages[largest] / 1000:.0f} kB (limit {MOST_PAGE / 1000:.0f}); "
        f"mean tree page {mean(trees) / 1000:.1f} kB (limit {MEAN_TREE_PAGE / 1000:.0f}); "
        f"pages and feeds {kept / own:.1f} times the journal (limit {MOST_TIMES_JOURNAL})"
    )
    assert pages[largest] < MOST_PAGE
    assert mean(trees) < MEAN_TREE_PAGE
    assert kept < MOST_TIMES_JOURNAL * own


def test_elements(taken: Mapping[str, Taken], journal: Path) -> None:
    """Of 200 trees no page has more than 4,000; of more trees that is only told."""
    made = journal / "made"
    many = {
        path: count
        for path, size in _sizes(made)
        if path.endswith(".html") and size > 50_000 and not path.startswith(APART)
        if (count := _elements(made / path)) > MOST_ELEMENTS
    }
    print(f"\npages with more than {MOST_ELEMENTS} elements: {many or 'none'}")
    assert not many or ACTS > 20_000


def _sizes(made: Path) -> Iterator[tuple[str, int]]:
    for path in made.rglob("*"):
        if path.is_file():
            yield path.relative_to(made).as_posix(), path.stat().st_size


class _Counting(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.count = 0

    def handle_starttag(self, tag: str, attrs: object) -> None:
        self.count += 1


def _elements(page: Path) -> int:
    counting = _Counting()
    counting.feed(page.read_text("utf-8"))
    return counting.count
