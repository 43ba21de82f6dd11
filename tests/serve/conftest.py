"""A small journal in a folder; and `backbud watch` as a process of its own, spoken to over HTTP."""

from __future__ import annotations

import http.client
import os
import re
import select
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from textwrap import dedent

import pytest

BACKBUD = str(Path(sys.executable).with_name("backbud"))
PATIENCE_S = 30.0

SETTINGS = 'language = 1\nname = "The upper yard"\n'
CARDS = """\
    place yard
      latitude  52.1

    tree hoshi
      kind   trident maple
      place  yard

    tree yuki
      kind   satsuki azalea
      place  yard
    """
DIARY = """\
    2026-03-06

    hoshi
      repotted  same pot, 2 cm off below, wedges N E S

    yuki
      noted     buds are swelling
    """


@pytest.fixture
def journal(tmp_path: Path) -> Path:
    """A journal of two trees."""
    folder = tmp_path / "journal"
    write_journal(folder)
    return folder


def write_journal(folder: Path) -> None:
    """Write the journal of two trees."""
    (folder / "cards").mkdir(parents=True)
    (folder / "diary").mkdir()
    (folder / "backbud.toml").write_text(SETTINGS)
    (folder / "cards" / "trees.txt").write_text(dedent(CARDS))
    (folder / "diary" / "2026.txt").write_text(dedent(DIARY))


class Answer:
    """What a server said to one request."""

    def __init__(self, said: http.client.HTTPResponse) -> None:
        self.status, self.headers, self.body = said.status, said.headers, said.read()

    @property
    def text(self) -> str:
        return self.body.decode()


class Watching:
    """One `backbud watch` of a journal."""

    def __init__(self, folder: Path, *options: str) -> None:
        self.process = subprocess.Popen(
            [BACKBUD, "watch", str(folder), "--port", "0", *options],
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            env={**os.environ, "PYTHONUNBUFFERED": "1"},
        )
        self.told = ""
        found = self.told_of(r"http://(\S+?):(\d+)/(\S*)")
        self.host, self.port, self.below = found[1], int(found[2]), f"/{found[3]}"

    def told_of(self, pattern: str) -> re.Match[str]:
        """Wait until the terminal shows something."""
        assert self.process.stdout is not None
        until = time.monotonic() + PATIENCE_S
        while (found := re.search(pattern, self.told)) is None:
            ready, _, _ = select.select([self.process.stdout], [], [], until - time.monotonic())
            assert ready, f"no {pattern!r} in {self.told!r}"
            got = os.read(self.process.stdout.fileno(), 1 << 16)
            assert got, f"it ended: {self.told}"
            self.told += got.decode()
        return found

    def get(
        self, path: str = "", *, method: str = "GET", raw: bool = False, **headers: str
    ) -> Answer:
        """Ask for a path below the pages, or, `raw`, for exactly this one."""
        connection = http.client.HTTPConnection("127.0.0.1", self.port, timeout=PATIENCE_S)
        try:
            target = path if raw else self.below + path
            named = {name.replace("_", "-"): value for name, value in headers.items()}
            connection.request(method, target, headers=named)
            return Answer(connection.getresponse())
        finally:
            connection.close()

    def page_with(self, path: str, wanted: str, *, status: int = 200) -> Answer:
        """Wait until a page holds a text."""
        return self.until(path, lambda said: said.status == status and wanted in said.text)

    def until(self, path: str, is_so: Callable[[Answer], bool]) -> Answer:
        """Ask for a page until it is so."""
        until = time.monotonic() + PATIENCE_S
        while True:
            said = self.get(path)
            if is_so(said):
                return said
            assert time.monotonic() < until, f"{said.status} {said.text[:3000]}"
            time.sleep(0.02)

    def stop(self, number: int = signal.SIGINT) -> int:
        """Send a signal; returns the exit status."""
        self.process.send_signal(number)
        return self.process.wait(PATIENCE_S)

    def close(self) -> None:
        if self.process.poll() is None:
            self.process.kill()
        self.process.wait(PATIENCE_S)
        if self.process.stdout is not None:
            self.process.stdout.close()


@pytest.fixture
def watch(journal: Path) -> Iterator[Callable[..., Watching]]:
    """Start watching the journal; all is ended with the test."""
    begun: list[Watching] = []

    def start(*options: str, folder: Path = journal) -> Watching:
        begun.append(Watching(folder, *options))
        return begun[-1]

    yield start
    for one in begun:
        one.close()
