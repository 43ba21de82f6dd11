"""What a run without a keeper did, as a program reads it: fetched weather, and a whole night."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

Came = Literal["new", "the same", "not asked", "nothing"]


class WeatherView(Struct, frozen=True):
    """What came of asking: a `new` forecast, `the same`, nobody was asked since the last one holds,
    or nothing usable. `made`: when it was made, `file`: where it lies in the journal, "" for none.
    `past_days`: filled in. `failed`: a sentence for each thing that went wrong."""

    came: Came
    made: str
    file: str
    past_days: int
    failed: tuple[str, ...]


class NightView(Struct, frozen=True):
    """What a nightly run did. `line`: in one line; `whole`: every step was carried through; `ran`:
    it had something to do at all; `problems`: how many the journal has."""

    line: str
    whole: bool
    ran: bool = True
    problems: int = 0
