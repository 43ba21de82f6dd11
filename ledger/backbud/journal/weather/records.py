"""Puts together what is known of the weather of each place, once it is asked for.

The steps, in order, for one place:
    files      its weather files, read once each (on_file.py, files.py, recognise.py)
    arrived    its forecast and its past days that came by themselves (arrived.py, forecast.py)
    days       its day lines before its files, and past days where both are silent (record.py)
    means      of its card, else of its station text, else of its days (means.py)
    winter     how cold it gets, by its card (coldest.py)
    around     what it lacks, from the place it is within, else from the home place
    position   where it is (positions.py)
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Mapping
from datetime import date
from functools import cached_property
from typing import Any, TypeVar

from msgspec.structs import replace

from backbud.climate.forecast import Forecast
from backbud.journal.problems import PlacedFlaw, PlacedFlaws, WithFlaws
from backbud.journal.read import Journal
from backbud.journal.things import Thing
from backbud.journal.weather.arrived import Arrived
from backbud.journal.weather.coldest import said_of_winter
from backbud.journal.weather.day_lines import DayLines, read_day_lines
from backbud.journal.weather.means import means_of_place
from backbud.journal.weather.record import Source, WeatherRecord, merged_days, merged_months
from backbud.journal.weather.series import Series

T = TypeVar("T")


def records(journal: Journal) -> Records:
    """Return what is known of the weather of every place, by handle; nothing is read yet."""
    return Records(journal)


class Records(Mapping[str, WeatherRecord]):
    """What is known of the weather, by place; each place is read when it is first asked for."""

    def __init__(self, journal: Journal) -> None:
        self._journal, self._positions = journal, journal.positions
        self._own: dict[str, WithFlaws[WeatherRecord]] = {}
        self._whole: dict[str, WeatherRecord] = {}
        self._reckoned: dict[Hashable, Any] = {}

    def reckoned(self, what: Hashable, work: Callable[[], T]) -> T:
        """What was reckoned from this weather, reckoned once.

        `what` names all that it was reckoned from beside the weather, the cards of places and pots,
        the settings and the day: these stay the same as long as the records are handed on.
        """
        if what not in self._reckoned:
            self._reckoned[what] = work()
        found: T = self._reckoned[what]
        return found

    def __getitem__(self, place: str) -> WeatherRecord:
        if self._place(place) is None:
            raise KeyError(place)
        return self.record_of(place)

    def __iter__(self) -> Iterator[str]:
        return (place.handle for place in self._journal.things.of_kind("place"))

    def __len__(self) -> int:
        return len(self._journal.things.of_kind("place"))

    def record_of(self, place: str) -> WeatherRecord:
        """Return what is known of a place; of one that has no card, what the home place knows.

        "" is the home place.
        """
        found = self._place(place) or self._place(self.home)
        handle = found.handle if found else ""
        if handle not in self._whole:
            self._whole[handle] = self._with_around(found) if found else self._own_of("").value
        return self._whole[handle]

    def flaws(self) -> PlacedFlaws:
        """What is wrong with the weather of all places: every one is read."""
        flaws: list[PlacedFlaw] = [*self._day_lines.flaws, *self._arrived.flaws]
        for place in self:
            flaws += self._own_of(place).flaws
        if self.record_of("").tells_no_season:
            flaws += self._positions.flaws_without_weather()
        return tuple(flaws)

    @property
    def texts(self) -> Mapping[str, bytes]:
        """The bytes of the weather files that were read so far, by name."""
        return self._positions.files.texts

    @property
    def home(self) -> str:
        """The handle of the home place; "" where no place has a card."""
        return self._positions.home

    def _place(self, written: str) -> Thing | None:
        return self._positions.place(written)

    # -------------------------------------------------------------- of its own

    def _own_of(self, handle: str) -> WithFlaws[WeatherRecord]:
        """What is known of a place from its own card, day lines and files."""
        if handle not in self._own:
            self._own[handle] = self._read(handle)
        return self._own[handle]

    def _read(self, handle: str) -> WithFlaws[WeatherRecord]:
        lines = self._day_lines.value.get(handle, DayLines())
        place = self._place(handle)
        if place is None:
            return WithFlaws(WeatherRecord("", lines.days, lines.days, words=lines.words))
        files, of_files = self._positions.files.of(place)
        files, forecast, of_arrived = self._with_arrived(handle, files)
        days = merged_days([lines.days, *(series.days for series in files.values())])
        months = merged_months([series.months for series in files.values()])
        (means, means_from), of_card = means_of_place(place, days.values(), months.values())
        coldest, of_winter = said_of_winter(place, means)
        record = WeatherRecord(
            handle,
            days,
            days,
            words=lines.words,
            months=months,
            means=means,
            means_from=means_from,
            means_place=handle if means else "",
            coldest=coldest,
            sources=tuple(
                _source(name, series)
                for name, series in files.items()
                if series.days or series.months
            ),
            forecast=forecast,
        )
        return WithFlaws(record, (*of_files, *of_arrived, *of_card, *of_winter))

    @property
    def _arrived(self) -> Arrived:
        return self._positions.files.arrived(self._place)

    def _with_arrived(
        self, handle: str, files: dict[str, Series]
    ) -> tuple[dict[str, Series], Forecast | None, PlacedFlaws]:
        """The files of a place with its past days after them, its forecast, and what is wrong."""
        flaws: PlacedFlaws = ()
        forecast: Forecast | None = None
        past = self._arrived.past.get(handle)
        if past is not None and past not in files:
            series, flaws = self._positions.files.past(past)
            files = {**files, past: series} if series is not None else files
        ahead = self._arrived.forecasts.get(handle)
        if ahead is not None:
            forecast, found = self._positions.files.forecast(ahead, handle)
            flaws = (*flaws, *found)
        return files, forecast, flaws

    @cached_property
    def _day_lines(self) -> WithFlaws[dict[str, DayLines]]:
        return read_day_lines(self._journal.weather, self.home)

    # -------------------------------------------------------------- from around

    def _with_around(self, place: Thing) -> WeatherRecord:
        """The place's own record, and what it lacks from around it."""
        own = self._own_of(place.handle).value
        site = self._positions.outward(place)
        around = [self._own_of(handle).value for handle in site]
        elsewhere = [
            self._own_of(handle).value
            for home in (self._place(self.home),)
            if home is not None
            for handle in self._positions.outward(home)
            if handle not in site
        ]
        # Another site's days mend no gap in the file of this one.
        has_file = any(record.sources for record in around)
        layers = [
            record for record in (around if has_file else around + elsewhere) if record.own_days
        ]
        everything = around + elsewhere
        # So it is with a forecast: another site's stands in only where this one has nothing.
        foretold = around if has_file else everything
        means = next((record for record in everything if record.means), own)
        return replace(
            own,
            days=merged_days([record.own_days for record in layers]),
            days_from=tuple(record.place for record in layers if record is not own),
            months=next((record.months for record in everything if record.months), {}),
            means=means.means,
            means_from=means.means_from,
            means_place=means.means_place,
            coldest=next((record.coldest for record in everything if record.coldest), None),
            position=self._positions.of(place.handle),
            forecast=next((one.forecast for one in foretold if one.forecast), None),
        )


def _source(name: str, series: Series) -> Source:
    days = list(series.days)
    if not days:
        days = [date(year, month, 1) for year, month in series.months]
    return Source(
        name,
        series.form,
        series.station.name,
        days[0],
        days[-1],
        len(series.days),
        len(series.months),
        series.flagged_values,
        series.estimated_values,
    )
