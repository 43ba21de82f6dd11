"""A diary with something wrong in it goes in; its problems and what was read come out."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from backbud.collection.replay import replay
from backbud.collection.whereabouts import Histories
from backbud.journal.problems import WithFlaws, as_problems
from backbud.journal.read import Journal, read_journal
from backbud_grammar.problems import Problem, show

TODAY = date(2027, 6, 1)
SETTINGS = 'language = 1\nhome = "yard"\ncurrency = "EUR"\n'
CARDS = """\
person marrow
person quill
place yard
  latitude 52 N
place tunnel
  within yard
mix maple
  akadama 2
pot tray-1
pot tray-2
pot tray-3
material gold
tree hoshi
  kind trident maple
  place yard
  pot tray-1
tree yuki
  kind trident maple
  place yard
  pot tray-2
tree kaze
  kind satsuki azalea 'Kaho'
  place tunnel
  owner marrow
"""


class Told:
    """A journal that was read: what is wrong with it, and which acts stand all the same."""

    def __init__(self, journal: Journal, replayed: WithFlaws[Histories]) -> None:
        self.journal, self.histories = journal, replayed.value
        flaws = (*journal.flaws, *replayed.flaws)
        self.problems = list(as_problems(flaws, journal.texts))
        self.codes = [problem.code for problem in self.problems]
        self.acts = [
            f"{event.subjects} {event.written}"
            for page in journal.pages
            for block in page.blocks
            for event in block.events
        ]

    def only(self) -> Problem:
        assert len(self.problems) == 1, [show(problem) for problem in self.problems]
        return self.problems[0]


def marked(problem: Problem) -> str:
    """What stands over the mark."""
    return problem.source[problem.column - 1 : problem.column - 1 + problem.length]


@pytest.fixture
def tell(tmp_path: Path) -> Callable[..., Told]:
    """Write a journal and read it: `tell("2027-03-06\\n…", cards=…)`."""

    def write(
        diary: str | bytes = "",
        *,
        cards: str = CARDS,
        as_of: str = "",
        settings: str | bytes | None = SETTINGS,
        files: dict[str, str | bytes] | None = None,
    ) -> Told:
        contents = {"cards.txt": cards, "diary.txt": diary, **(files or {})}
        if settings is not None:
            contents["backbud.toml"] = settings
        for name, text in contents.items():
            (tmp_path / name).write_bytes(text if isinstance(text, bytes) else text.encode())
        on = date.fromisoformat(as_of) if as_of else TODAY
        journal = read_journal(str(tmp_path), on, as_of=bool(as_of))
        return Told(journal, replay(journal))

    return write


SOUND = ["hoshi watered", "hoshi turned", "yuki moved tunnel"]


@pytest.fixture
def tell_line(tell) -> Callable[[str], Problem]:
    """The one problem of an act line; every other line of its file is sure to be read.

    The line stands in line 4 of diary.txt, below `hoshi` and `  watered`.
    """

    def write(line: str) -> Problem:
        told = tell(f"2027-03-06\nhoshi\n  watered\n{line}\n  turned\nyuki\n  moved tunnel\n")
        assert [act for act in told.acts if act in SOUND] == SOUND
        problem = told.only()
        assert (problem.file, problem.line) == ("diary.txt", 4)
        return problem

    return write


@pytest.fixture
def mark() -> Callable[[Problem], str]:
    return marked
