"""A journal goes in; the weather files that its places' cards name come out."""

from __future__ import annotations

from os.path import isabs

from backbud.journal.read import Journal, weather_file_name
from backbud.journal.things import Line, Thing


def files_named_by(place: Thing) -> list[tuple[str, Line]]:
    """Return the name of each weather file on a card, from the journal's folder, and its line."""
    return [
        (weather_file_name(line.detail.words), line)
        for line in place.lines
        if line.detail.name == "weather"
    ]


def is_outside(name: str) -> bool:
    """Whether a name leads out of the journal's folder."""
    return name == ".." or name.startswith("../") or isabs(name) or name[1:2] == ":"


def weather_files(journal: Journal) -> tuple[str, ...]:
    """Return the names of all weather files that lie in the journal, or should; sorted."""
    named = {name for place in journal.things.of_kind("place") for name, _ in files_named_by(place)}
    return tuple(sorted(name for name in named if not is_outside(name)))
