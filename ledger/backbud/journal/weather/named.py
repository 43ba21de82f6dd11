"""Tells which weather files the cards of the places name."""

from __future__ import annotations

import posixpath
from os.path import isabs

from backbud.journal.things import Line, Thing, Things


def weather_file_name(written: str) -> str:
    """The path, from the journal's folder, of the weather file that a card names."""
    return posixpath.normpath(written.strip().replace("\\", "/"))


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


def weather_files(things: Things) -> tuple[str, ...]:
    """Return the names of all weather files that lie in the journal, or should; sorted."""
    named = {name for place in things.of_kind("place") for name, _ in files_named_by(place)}
    return tuple(sorted(name for name in named if not is_outside(name)))
