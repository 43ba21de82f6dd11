"""Reads a weather file that a card names, or says why it may not be read."""

from __future__ import annotations

import os
from typing import NamedTuple

from backbud.journal.load import Loaded, load
from backbud.journal.weather.flaws import Flaws
from backbud.journal.weather.named import is_outside
from backbud.journal.weather.recognise import FORMS, recognise
from backbud.journal.weather.series import Series, Until
from backbud_grammar.problems import Flaw

# A century of days with every column that NOAA publishes is under 20 MB.
LARGEST_WEATHER_FILE = 64 * 1024 * 1024
# Rows of one station's century, with a row for each of the elements that are read.
MOST_LINES = 250_000
# No row has so many cells.
LONGEST_LINE = 10_000


class Refused(NamedTuple):
    """Why a file is not opened at all; told of the card that names it."""

    code: str
    message: str
    hint: str


def refused(folder: str, name: str) -> Refused | None:
    """Return why the file may not be read: it lies outside the journal, is a link, is not there."""
    if is_outside(name):
        return Refused(
            "outside-journal",
            f"“{name}” lies outside the journal",
            "Copy the file into the journal's folder.",
        )
    parts = name.split("/")
    for count in range(1, len(parts) + 1):
        if os.path.islink(os.path.join(folder, *parts[:count])):
            return Refused(
                "link",
                f"“{'/'.join(parts[:count])}” is a link and was not followed",
                "Everything of a journal lies in its own folder.",
            )
    path = os.path.join(folder, *parts)
    if not os.path.lexists(path):
        return Refused(
            "missing-file",
            f"there is no file “{name}”",
            "The name is as seen from the journal's folder: weather/station.csv.",
        )
    if not os.path.isfile(path):
        return Refused("no-file", f"“{name}” is no file", "Name one file on a line.")
    return None


def read_file(loaded: Loaded, until: Until) -> Series:
    """Read a weather file as it was loaded: what it says."""
    text = loaded.data.decode()
    if not text.strip():
        empty = Flaw("empty-file", 0, 1, 1, "this weather file is empty", "Nothing was read of it.")
        return Series(flaws=loaded.flaws or (empty,))
    lines = text.split("\n")
    too_much = _too_much(lines)
    if too_much is not None:
        return Series(flaws=_cut((*loaded.flaws, too_much)))
    form = recognise(lines)
    if form is None:
        return Series(flaws=_cut((*loaded.flaws, _unknown(lines))))
    series = form.read(lines, until)
    return Series(
        series.form,
        series.days,
        series.months,
        series.station,
        series.flagged_values,
        series.estimated_values,
        _cut(loaded.flaws) + series.flaws if loaded.flaws else series.flaws,
    )


def load_file(folder: str, name: str) -> Loaded:
    """A weather file's bytes, as problems show them, and what was wrong with them."""
    try:
        size = os.path.getsize(os.path.join(folder, name))
    except OSError:
        size = 0  # `load` says why it cannot be read
    if size > LARGEST_WEATHER_FILE:
        message = f"this weather file is larger than {LARGEST_WEATHER_FILE // 2**20} MB"
        hint = "It was left out. Keep the rows of one station, and of the last thirty years."
        return Loaded(b"", (Flaw("large-file", 0, 1, 1, message, hint),))
    return load(folder, name)


def _too_much(lines: list[str]) -> Flaw | None:
    """A flaw where this is more than any station measured."""
    if len(lines) > MOST_LINES:
        message = (
            f"this weather file has {len(lines)} lines, and more than {MOST_LINES} are too many"
        )
        hint = "It was left out. Keep the rows of one station, and of the last thirty years."
        return Flaw("large-file", 0, 1, 1, message, hint)
    for number, line in enumerate(lines):
        if len(line) > LONGEST_LINE:
            message = f"a line of {len(line)} characters, so nothing of this file was read"
            hint = (
                f"No row of a weather file is longer than {LONGEST_LINE}. Are its line ends gone?"
            )
            return Flaw("long-line", number, 1, 1, message, hint)
    return None


def _cut(flaws: tuple[Flaw, ...]) -> tuple[Flaw, ...]:
    collected = Flaws()
    for flaw in flaws:
        collected.of_file(flaw)
    return collected.all()


def _unknown(lines: list[str]) -> Flaw:
    first = next(line for line in range(len(lines)) if lines[line].strip())
    return Flaw(
        "unknown-weather-form",
        first,
        1,
        len(lines[first]),
        "this weather file is in no form that is known here, so nothing of it was read",
        f"Known: {', '.join(form.title for form in FORMS)}. A plain one begins with the names of "
        "its columns: date, low, high, rain.",
    )
