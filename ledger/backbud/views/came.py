"""What came of runs that nobody sits at, as it is shown to a program: of a fetch, of a night."""

from __future__ import annotations

from datetime import date
from typing import Literal

from msgspec import Struct


class FetchedForecast(Struct, frozen=True):
    """How a fetch of the forecast ended: a new one `came`, the same, or nobody was asked, since the
    last one still holds. `made`: when it was made; `file`: where it stands in the journal; ""
    where nobody asked. `deprecated`: the service says that it will end."""

    came: Literal["new", "the same", "not asked"]
    made: str
    file: str
    deprecated: bool


class FetchedPast(Struct, frozen=True):
    """How many days came of a station, and the `last` that it has, null where none did. `changed`:
    the `file` is another one now."""

    days: int
    last: date | None
    changed: bool
    file: str


class FetchedView(Struct, frozen=True):
    """What `backbud weather` fetched; null for what nobody asked for. `failed`: what went wrong, a
    sentence each."""

    forecast: FetchedForecast | None
    past: FetchedPast | None
    failed: tuple[str, ...]


class NightView(Struct, frozen=True):
    """What a run of `backbud nightly` did. `line`: in one line; `whole`: every step was carried
    through; `ran`: it had something to do at all; `problems`: how many the journal has."""

    line: str
    whole: bool
    ran: bool = True
    problems: int = 0
