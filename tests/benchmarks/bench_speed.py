"""A generated journal goes in; how long each command takes, as ratios within one run, comes out.

Not part of the suite: `pytest tests/benchmarks/bench_speed.py -s` (ACTS=20000 for a smaller one).
Each figure is the best of several runs, each a process of its own, on this machine.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from generate import generate
from one_pass import read_one_pass

ACTS = int(os.environ.get("ACTS", "100000"))
BACKBUD = str(Path(sys.executable).with_name("backbud"))
# As it is when it was installed: with its modules compiled, here in a folder of their own.
COMPILED = tempfile.mkdtemp(prefix="backbud-compiled-")
ENVIRONMENT = {**os.environ, "PYTHONPYCACHEPREFIX": COMPILED}
ENVIRONMENT.pop("PYTHONDONTWRITEBYTECODE", None)


@pytest.fixture(scope="session")
def large(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("large") / "journal"
    generate(folder, ACTS)
    return folder


def seconds(action: Callable[[], object], times: int = 5) -> float:
    """The shortest of several runs."""
    best = float("inf")
    for _ in range(times):
        start = time.perf_counter()
        action()
        best = min(best, time.perf_counter() - start)
    return best


def run(*command: str) -> None:
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, env=ENVIRONMENT)


def forget(folder: Path) -> None:
    shutil.rmtree(folder / ".backbud", ignore_errors=True)


def told(what: str, measured: float, base: float, limit: float) -> None:
    ratio = measured / base
    print(
        f"\n{what}: {measured * 1000:.0f} ms against {base * 1000:.0f} ms, "
        f"ratio {ratio:.2f} (limit {limit})"
    )
    assert ratio < limit


def test_help_starts_lightly() -> None:
    run(BACKBUD, "--help")
    told(
        "backbud --help / import lark",
        seconds(lambda: run(BACKBUD, "--help"), 20),
        seconds(lambda: run(sys.executable, "-c", "import lark"), 20),
        2.0,
    )


def test_cold_check_against_a_one_pass_grammar(large: Path) -> None:
    run(BACKBUD, "check", str(large))

    def cold() -> None:
        forget(large)
        run(BACKBUD, "check", str(large))

    check = seconds(cold, 3)
    values = seconds(lambda: read_one_pass(large, values=True), 1)
    tree = seconds(lambda: read_one_pass(large, values=False), 1)
    print(f"\none pass to a bare tree: {tree:.2f} s, {tree / check:.1f} times the cold check")
    told("cold check / one pass to the same values, as a share", check, values, 1 / 8)


def test_make_with_nothing_changed(large: Path) -> None:
    run(BACKBUD, "make", str(large))
    told(
        "make, nothing changed / python -c pass",
        seconds(lambda: run(BACKBUD, "make", str(large)), 20),
        seconds(lambda: run(sys.executable, "-c", "pass"), 20),
        3.0,
    )


def test_check_after_one_page_was_edited(large: Path) -> None:
    """Each time with a page that nobody has read before, new details in it too."""
    run(BACKBUD, "check", str(large))
    page = max(large.glob("diary/**/*.txt"))
    text = page.read_text(encoding="utf-8")
    tree = next(line for line in text.splitlines() if line and line[0].isalpha()).split(",")[0]
    day = next(ln for ln in reversed(text.splitlines()) if ln[:1].isdigit())[:10]
    best = float("inf")
    for n in range(7):
        page.write_text(
            f"{text}\n{day}\n\n{tree}\n  pruned    {n}.7 cm off on left {n}\n"
            f"  noted     looked at it {n} times\n",
            encoding="utf-8",
        )
        best = min(best, seconds(lambda: run(BACKBUD, "check", str(large)), 1))
    page.write_text(text, encoding="utf-8")
    told("check, one page edited / half a second", best, 0.5, 1.0)


def test_memory(large: Path) -> None:
    forget(large)
    measure = (
        "import resource, sys; from backbud.cli import main; "
        "status = main(['check', sys.argv[1]]); "
        "print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)"
    )
    out = subprocess.run(
        [sys.executable, "-c", measure, str(large)], check=True, capture_output=True, text=True
    ).stdout
    megabytes = float(out.split()[-1])
    print(f"\nmemory of a cold check of {ACTS} acts: {megabytes:.0f} MB (limit 300)")
    assert megabytes < 300
