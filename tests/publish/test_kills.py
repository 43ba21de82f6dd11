"""Two hundred real kills at random moments: what was made is always one whole set."""

from __future__ import annotations

import os
import random
import re
import runpy
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

KILLS = 200
LEAST_MID_COMMIT = 30
LEAST_MID_FINISH = 5
PROCESS = Path(__file__).with_name("alternating.py")
files_of = runpy.run_path(str(PROCESS))["files_of"]


def start(journal: Path, number: int) -> subprocess.Popen[bytes]:
    return subprocess.Popen(
        [sys.executable, PROCESS, journal, str(number)],
        env=dict(os.environ, PYTHONPATH=os.pathsep.join(sys.path)),
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )


def hear(process: subprocess.Popen[bytes]) -> str:
    """Wait until the process has finished what was left; "True" if that was a commitment."""
    assert process.stdout is not None and process.stderr is not None
    said = process.stdout.readline().decode().strip()
    assert said, process.stderr.read().decode()
    return said


def kill(process: subprocess.Popen[bytes]) -> None:
    process.send_signal(signal.SIGKILL)
    _, said = process.communicate()
    assert process.returncode == -signal.SIGKILL, said.decode()


def made(journal: Path) -> dict[str, bytes]:
    root = journal / "made"
    return {
        path.relative_to(root).as_posix(): path.read_bytes()
        for path in root.rglob("*")
        if path.is_file() and path.name != ".manifest"
    }


def set_that_counts(journal: Path) -> int:
    """The number of the set that must be there after the next command, by the files that are left.

    With a commitment it is the new set: its manifest is staged still, or in place already.
    """
    manifest = journal / "made/.manifest"
    if (journal / ".backbud/commitment").exists():
        staged = list((journal / ".backbud/staged").glob("*-final"))
        manifest = staged[0] if staged else manifest
    (number,) = re.findall(r"^number-(\d+)\.txt$", manifest.read_text("utf-8"), re.MULTILINE)
    return int(number)


def staged_count(journal: Path) -> int:
    return len(os.listdir(journal / ".backbud/staged"))


@pytest.mark.slow
@pytest.mark.skipif(sys.platform == "win32", reason="SIGKILL is POSIX")
def test_no_kill_leaves_a_mixture(tmp_path: Path) -> None:
    chance = random.Random(20270306)
    (tmp_path / "made").mkdir()
    (tmp_path / "made/mine.txt").write_bytes(b"mine")
    number = mid_commit = mid_finish = staging = kills = 0
    process = start(tmp_path, number)
    hear(process)
    finish_seconds = 0.1
    while kills < KILLS:
        assert process.stdin is not None
        process.stdin.write(b"go\n")
        process.stdin.flush()
        time.sleep(chance.uniform(0.0, 0.2) if kills else 0.5)
        kill(process)
        kills += 1
        is_committed = (tmp_path / ".backbud/commitment").exists()
        mid_commit += is_committed
        staging += not is_committed and (tmp_path / ".backbud/staged").exists()
        number = set_that_counts(tmp_path)
        if not is_committed:
            assert made(tmp_path) == files_of(number) | {"mine.txt": b"mine"}, kills
        elif chance.random() < 0.8:
            before = staged_count(tmp_path)
            process = start(tmp_path, number + 1)
            time.sleep(chance.uniform(0.7, 1.1) * finish_seconds)
            kill(process)
            kills += 1
            is_committed = (tmp_path / ".backbud/commitment").exists()
            mid_finish += is_committed and staged_count(tmp_path) < before
        began = time.monotonic()
        process = start(tmp_path, number + 1)
        assert hear(process) == str(is_committed)
        finish_seconds = time.monotonic() - began
        assert made(tmp_path) == files_of(number) | {"mine.txt": b"mine"}, kills
        assert not (tmp_path / ".backbud/commitment").exists()
        assert not (tmp_path / ".backbud/staged").exists()
    kill(process)
    print(
        f"{kills} kills: {staging} while staging, {mid_commit} in the midst of a commitment,"
        f" {mid_finish} in the midst of finishing one; {number} sets published"
    )
    assert mid_commit >= LEAST_MID_COMMIT
    assert mid_finish >= LEAST_MID_FINISH
