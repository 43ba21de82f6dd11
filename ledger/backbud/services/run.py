"""Takes what this person named, asks for it, and says in a line or two what came of it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import UTC, date, datetime
from typing import Any

from msgspec import Struct

from backbud.climate.days import WeatherDay
from backbud.climate.forecast import OLDEST_DAYS, Forecast
from backbud.journal.read import Journal
from backbud.journal.weather.records import records
from backbud.services.agreed import Agreed
from backbud.services.errors import ServiceError
from backbud.services.fetch import Fetched, fetch
from backbud.services.naming import service_called, still_holds
from backbud.services.past import Filled, fill
from backbud.views.by_itself import WeatherView
from backbud.words import number


class Came(Struct, frozen=True):
    """What came of a run: a forecast and past days, and what went wrong with each, in words."""

    forecast: Fetched | None = None
    past: Filled | None = None
    failed: tuple[str, ...] = ()

    @property
    def changed(self) -> bool:
        """Whether a file of the journal is another one now."""
        new = self.forecast is not None and self.forecast.came == "new"
        return new or (self.past is not None and self.past.changed)

    def view(self) -> WeatherView:
        """The same for a program."""
        one = self.forecast
        return WeatherView(
            one.came if one is not None else "nothing",
            one.made if one is not None else "",
            one.file if one is not None else "",
            self.past.days if self.past is not None else 0,
            self.failed,
        )

    def lines(self) -> Iterator[str]:
        """What to tell the keeper."""
        one = self.forecast
        if one is not None:
            said = {
                "new": f"A new forecast, made {one.made}: {one.file}",
                "the same": f"The forecast of {one.made} still is the latest.",
                "not asked": f"The forecast of {one.made} holds until the next is out; nobody was "
                "asked.",
            }
            yield said[one.came]
            if one.deprecated:
                yield "The service says that this form of it will end: look for a new backbud."
        if self.past is not None and self.past.days:
            yield f"{number(self.past.days, 'past day')} filled in: {self.past.file}"


def run(journal: Journal, named: Agreed, now: datetime | None = None, **limits: Any) -> Came:
    """Fetch the forecast, and past days where a station is named. Nothing is raised by a service:
    what it did wrong is told, and what was there before stays."""
    still_holds(journal, named)
    now = now or datetime.now(UTC)
    service = service_called(named.service)
    failed: list[str] = []
    forecast: Fetched | None = None
    past: Filled | None = None
    try:
        forecast = fetch(journal.folder, named, service, now, **limits)
    except ServiceError as error:
        failed.append(f"No forecast came: {error}. {_last(journal, named.place, now.date())}")
    if named.station:
        try:
            past = fill(journal.folder, named, _known(journal, named.place), now, **limits)
        except ServiceError as error:
            failed.append(f"No past days came: {error}.")
    return Came(forecast, past, tuple(failed))


def _known(journal: Journal, place: str) -> Mapping[date, WeatherDay]:
    return records(journal).record_of(place).days


def _last(journal: Journal, place: str, today: date) -> str:
    """What is used in its stead: the last good forecast with its age."""
    last: Forecast | None = records(journal).record_of(place).forecast
    if last is None:
        return "There is none from before; all goes by the climate."
    age = number(last.age_days(today), "day")
    if last.is_usable(today):
        return f"The last one, {age} old, is used."
    return f"The last one is {age} old, over {OLDEST_DAYS}, and is not used."
