"""The first run on a machine that has no tables of the grammar yet ends as well as the next one."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

BACKBUD = str(Path(sys.executable).with_name("backbud"))
EXAMPLE = Path(__file__).parents[2] / "example_journal"


@pytest.mark.parametrize("command", ["check", "make", "due"])
def test_the_first_run_of_a_new_person(command: str, tmp_path: Path) -> None:
    journal = tmp_path / "journal"
    shutil.copytree(EXAMPLE, journal, ignore=shutil.ignore_patterns("made", ".backbud"))
    environment = {
        **os.environ,
        "HOME": str(tmp_path / "home"),
        "XDG_CACHE_HOME": str(tmp_path / "cache"),
        "XDG_CONFIG_HOME": str(tmp_path / "config"),
    }
    for _ in range(2):
        ran = subprocess.run(
            [BACKBUD, command, str(journal), "--on", "2027-05-01"],
            env=environment,
            capture_output=True,
            text=True,
            check=False,
        )
        assert (ran.returncode, "fault of backbud" in ran.stderr) == (0, False), ran.stderr
        assert list((tmp_path / "cache" / "backbud").glob("grammar-*"))
