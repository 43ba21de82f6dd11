"""A place's card, a diary and weather files go in; what is known of the weather comes out."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest

from backbud.journal.problems import as_problems
from backbud.journal.read import Journal, read_journal
from backbud.journal.weather.record import WeatherRecord
from backbud.journal.weather.records import Records, records
from backbud_grammar.problems import Problem, show

TODAY = "2027-06-01"


class Told:
    """The records of a journal's places, and the problems found on the way to them."""

    def __init__(self, journal: Journal, known: Records) -> None:
        self.journal, self.records = journal, known

    def __getitem__(self, place: str) -> WeatherRecord:
        return self.records[place]

    @property
    def problems(self) -> list[Problem]:
        flaws = (*self.journal.flaws, *self.records.flaws())
        return list(as_problems(flaws, {**self.journal.texts, **self.records.texts}))

    @property
    def codes(self) -> list[str]:
        return [problem.code for problem in self.problems]

    def only(self) -> Problem:
        found = self.problems
        assert len(found) == 1, [show(problem) for problem in found]
        return found[0]


def marked(problem: Problem) -> str:
    """What stands over the mark."""
    return problem.source[problem.column - 1 : problem.column - 1 + problem.length]


@pytest.fixture
def mark() -> Callable[[Problem], str]:
    return marked


@pytest.fixture
def tell(tmp_path: Path) -> Callable[..., Told]:
    """Write a journal and open its weather: `tell(cards, "diary", **{"a.csv": "…"})`."""

    def write(
        cards: str = "place yard\n  latitude 52 N\n",
        diary: str = "",
        *,
        on: str = TODAY,
        as_of: bool = False,
        home: str = "yard",
        files: dict[str, str | bytes] | None = None,
    ) -> Told:
        settings = f'language = 1\nhome = "{home}"\n' if home else "language = 1\n"
        contents = {"backbud.toml": settings, "cards.txt": cards, "diary.txt": diary}
        for name, text in {**contents, **(files or {})}.items():
            path = tmp_path / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(text if isinstance(text, bytes) else text.encode())
        journal = read_journal(str(tmp_path), date.fromisoformat(on), as_of=as_of)
        return Told(journal, records(journal))

    return write


@pytest.fixture
def tell_file(tell) -> Callable[..., Told]:
    """The weather of a yard whose card names one file of this text."""

    def write(text: str | bytes, name: str = "station.csv", **more) -> Told:
        cards = f"place yard\n  latitude 52 N\n  weather {name}\n"
        return tell(cards, files={name: text}, **more)

    return write
