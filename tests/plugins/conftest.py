"""A journal with plugins, written in a test, and a folder for the person's consent beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date
from pathlib import Path
from textwrap import dedent

import pytest

from backbud import cli
from backbud.consent.files import read_plugins
from backbud.consent.record import record
from backbud.person import CONFIG_VARIABLE
from backbud.session import Session, open_session
from backbud_grammar.problems import Problem

TODAY = date(2026, 11, 20)
JOURNAL = """\
place yard
  latitude  52 N
tree hoshi
  kind      trident maple
  place     yard
tree yuki
  kind      trident maple
  place     yard
2026-05-01
hoshi, yuki
  wired     3 mm Al
"""


class Yard:
    """A journal in a folder, and what is asked of it."""

    def __init__(self, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
        self.folder, self._capsys = folder, capsys
        (folder / "plugins").mkdir(parents=True)
        (folder / "backbud.toml").write_text('language = 1\nhome = "yard"\n')
        (folder / "journal.txt").write_text(JOURNAL)

    def plugin(self, text: str, name: str = "own.py") -> Path:
        """Write a file of plugins/."""
        path = self.folder / "plugins" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(dedent(text))
        return path

    def append(self, text: str) -> None:
        """Write on in the diary."""
        with (self.folder / "journal.txt").open("a") as file:
            file.write(dedent(text))

    def digest(self) -> str:
        return read_plugins(str(self.folder)).digest

    def trust(self) -> None:
        """Consent to the plugins as they are."""
        record(str(self.folder), read_plugins(str(self.folder)).files)

    def run(self, *words: str) -> tuple[int, str, str]:
        """Run a command on the journal: exit status, output, messages."""
        self._capsys.readouterr()
        status = cli.main([*words, str(self.folder)])
        out, err = self._capsys.readouterr()
        return status, out, err

    def open(self, on: date = TODAY) -> Session:
        return open_session(str(self.folder), on)

    def problems(self) -> list[Problem]:
        """Every problem, those of its plan too."""
        return list(self.open().problems())

    def fault(self) -> Problem:
        """The one problem there is, once trusted; and everything else is planned all the same."""
        self.trust()
        session = self.open()
        plan = session.plan()
        assert any("/wire-check/" in f.id and f.tree == "yuki" for f in plan.all())
        (problem,) = session.problems()
        return problem


@pytest.fixture
def config(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Where the consent is recorded: outside the journal."""
    folder = tmp_path / "config"
    monkeypatch.setenv(CONFIG_VARIABLE, str(folder))
    return folder


@pytest.fixture
def yard(tmp_path: Path, config: Path, capsys: pytest.CaptureFixture[str]) -> Iterator[Yard]:
    yield Yard(tmp_path / "journal", capsys)


Writes = Callable[[Path], str]


@pytest.fixture
def writes() -> Writes:
    """A plugin that would write a file as soon as it runs."""

    def text(path: Path) -> str:
        return f"from pathlib import Path\n\nPath({str(path)!r}).write_text('it ran')\n"

    return text
