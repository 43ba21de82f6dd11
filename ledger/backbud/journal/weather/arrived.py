"""Finds the files of weather that came by themselves: a place's forecast, and its past days.

They lie in the folder `weather` under the handle of their place, `yard-forecast.csv` and
`yard-past.csv`, and no card names them. The command `weather` writes them; a keeper without a
network may, too.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping

from msgspec import Struct

from backbud.journal.problems import PlacedFlaw, PlacedFlaws
from backbud.journal.things import Thing
from backbud_grammar.problems import Flaw

FOLDER = "weather"
FORECAST, PAST = "-forecast.csv", "-past.csv"


class Arrived(Struct, frozen=True):
    """The names of such files, from the journal's folder, by the handle of their place."""

    forecasts: Mapping[str, str] = {}
    past: Mapping[str, str] = {}
    flaws: PlacedFlaws = ()

    @property
    def names(self) -> tuple[str, ...]:
        """All of them."""
        return (*self.forecasts.values(), *self.past.values())


def arrived_file(place: str, ending: str) -> str:
    """Where the file of a place lies, from the journal's folder."""
    return f"{FOLDER}/{place}{ending}"


def arrived(folder: str, find_place: Callable[[str], Thing | None]) -> Arrived:
    """The files that are there. One of a place that nobody knows is told, and left out."""
    try:
        names = sorted(os.listdir(os.path.join(folder, FOLDER)))
    except OSError:
        return Arrived()
    found: dict[str, dict[str, str]] = {FORECAST: {}, PAST: {}}
    flaws: list[PlacedFlaw] = []
    for name in names:
        ending = next((one for one in (FORECAST, PAST) if name.endswith(one)), "")
        if not ending or name.startswith("."):
            continue
        handle = name.removesuffix(ending)
        place = find_place(handle)
        path = f"{FOLDER}/{name}"
        if place is not None:
            found[ending].setdefault(place.handle, path)
            continue
        sort = "forecast" if ending == FORECAST else "past weather"
        # What is no UTF-8 in a name is written out.
        shown = os.fsencode(path).decode(errors="backslashreplace")
        flaws.append(
            PlacedFlaw(
                shown,
                0,
                Flaw(
                    "unknown-place",
                    0,
                    1,
                    1,
                    f"this is the {sort} of a place that nobody knows",
                    "The file's name begins with the handle of its place. It was left out.",
                ),
            )
        )
    return Arrived(found[FORECAST], found[PAST], tuple(flaws))
