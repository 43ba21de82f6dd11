"""What a rule asks of the weather at a place, and the reason that goes with each answer.

How warm some days will be, when a stage comes, when cold nights end and begin, when it is hot.
"""

from __future__ import annotations

import calendar
from collections.abc import Callable, Iterable
from datetime import date, timedelta
from functools import cached_property, wraps
from typing import Any, Concatenate, NamedTuple, ParamSpec, TypeVar, cast

from msgspec import Struct

from backbud.climate.air import DAY, Air, PlaceAir, Shift
from backbud.climate.datum import Datum, joined
from backbud.climate.days import WeatherDay
from backbud.climate.frost import (
    FrostRecord,
    FrostSeason,
    Nights,
    expected_frosts,
    first_autumn_frost,
    frosts_of,
    last_spring_frost,
    nights_by_season,
)
from backbud.climate.heat import Trace, heat_trace
from backbud.climate.reference import cold_by, heat_by
from backbud.climate.stages import (
    FEWEST_YEARS,
    Expected,
    Need,
    Own,
    Traces,
    expected_stage,
    own_sum,
)
from backbud.climate.winter import LATEST, Winters

P = ParamSpec("P")
R = TypeVar("R")

# A stage whose usual northern day is later waits for cold, not for heat.
LAST_OF_HEAT = (8, 15)
# Cold is counted from northern 1 August on, under this mean; common practice, no source.
COLD_UNDER_C = 20.0
LATE_AUTUMN = timedelta(weeks=6)
# One, five and nine of ten years.
TENTHS = (0.1, 0.5, 0.9)


class Wants(Struct, frozen=True, gc=False):
    """What moves a species through its year: base temperature in °C and chill portions."""

    base_c: float = 5.0
    chill_portions: float = 0.0


class Mean(NamedTuple):
    """A mean temperature in °C, and how it is known."""

    celsius: float
    because: Datum


class NightsTurn(NamedTuple):
    """When cold nights end or begin: in one, five and nine of ten years by then; and why."""

    first: date
    day: date
    last: date
    because: Datum


class Span(NamedTuple):
    """A time of the year, its first and last day, and how it is known."""

    first: date
    last: date
    because: Datum


def _once(
    method: Callable[Concatenate[Outlook, P], R],
) -> Callable[Concatenate[Outlook, P], R]:
    """Answer a question once for each set of arguments: every tree of a place asks the same."""

    @wraps(method)
    def answer(self: Outlook, *args: P.args, **kwargs: P.kwargs) -> R:
        key = (method.__name__, *args, *kwargs.items())
        if key not in self._answers:
            self._answers[key] = method(self, *args, **kwargs)
        found: R = self._answers[key]
        return found

    return cast("Callable[Concatenate[Outlook, P], R]", answer)


class Outlook:
    """What is known of the air at a place and under its cover, at the end of a day.

    `air`: as measured in the open, or by a thermometer that hangs under the cover. `shift`: what
    the cover does to sums and means; frost is judged without it, but for a heater, and for
    `night_shift_c`: how much milder a thermometer under the cover found the nights.
    """

    def __init__(
        self,
        air: PlaceAir,
        shift: Shift,
        *,
        latitude: float,
        southern: bool,
        cold_night_drop_c: float,
        night_shift_c: float = 0.0,
    ) -> None:
        self.air, self.shift = air, shift
        self.latitude, self.southern = latitude, southern
        self.cold_night_drop_c, self.night_shift_c = cold_night_drop_c, night_shift_c
        self._answers: dict[tuple[object, ...], Any] = {}
        self.winters = Winters(air, shift, latitude)

    def kept(self, key: tuple[object, ...], make: Callable[[], R]) -> R:
        """What was worked out under a key before, or else is now."""
        if key not in self._answers:
            self._answers[key] = make()
        found: R = self._answers[key]
        return found

    @cached_property
    def last_monday(self) -> Outlook:
        """What was known at the end of the last Monday: what is far off is foretold by it, so that
        it moves once a week and not every day."""
        monday = self.air.today - timedelta(days=self.air.today.weekday())
        if monday == self.air.today:
            return self
        air = self.air
        before = PlaceAir(air.measured, air.means, monday, air.means_from, air.felt)
        outlook = Outlook(
            before,
            self.shift,
            latitude=self.latitude,
            southern=self.southern,
            cold_night_drop_c=self.cold_night_drop_c,
            night_shift_c=self.night_shift_c,
        )
        outlook.winters = Winters(before, self.shift, self.latitude, self.winters.past)
        return outlook

    @cached_property
    def traces(self) -> Traces:
        """The sums under the cover."""
        return Traces(self.air, self.shift, self.latitude)

    @_once
    def mean(self, day: date, days: int) -> Mean:
        """The mean of so many days from a day on, as measured and else as the climate leads to
        expect. ValueError for no day."""
        if days < 1:
            raise ValueError("at least one day is needed")
        seen = [self.shift.under(self.air.of(day + timedelta(days=n))) for n in range(days)]
        celsius = sum(one.mean_c for one in seen) / days
        measured = sum(one.measured for one in seen)
        if measured == days:
            known = "as measured"
        elif measured:
            known = f"{measured} measured, the rest by {self.air.means_from}"
        else:
            known = f"by {self.air.means_from}"
        because = f"The {days} days from {day} average {celsius:z.1f} °C here ({known})."
        return Mean(celsius, Datum(because, measured < days))

    @_once
    def usual_mean(self, day: date, days: int) -> Mean:
        """The mean of so many days from a day on in the average year. ValueError for no day."""
        if days < 1:
            raise ValueError("at least one day is needed")
        celsius = sum(self._usual(day + timedelta(days=n)).mean_c for n in range(days)) / days
        said = f"The {days} days from {day} average {celsius:z.1f} °C here"
        return Mean(celsius, Datum(f"{said} (by {self.air.means_from}).", True))

    @_once
    def heat(self, year: date, base_c: float) -> Trace:
        """Degree-days over a base, day by day from the first day of a growing year."""
        return heat_trace(self.air, self.shift, year, base_c)

    # -------------------------------------------------------------- cold nights and hot days

    @_once
    def cold_nights_end(self, year: date, limit_c: float) -> NightsTurn | None:
        """The last night of spring, in the open, at or under a temperature; None where none is.

        `year`: the first day of the growing year. From the years on record where there are
        enough, else from the monthly means less a drop.
        """
        spring = year + timedelta(days=90)
        record = self.frosts(limit_c, in_the_open=True)
        if len(record.seasons) >= FEWEST_YEARS:
            first, day, last = (last_spring_frost(record, share, spring) for share in TENTHS)
            if last is None:
                return None
            # Fewer than half, or a tenth, of the winters had such a night.
            day = day or last
            first = first or day
            return NightsTurn(first, day, last, self._by_record("last", record, last, limit_c))
        usual, half, cold = (
            self._expected_frosts(limit_c, spring, drop).last_frost for drop in self._drops
        )
        if cold is None:
            return None
        half = half or cold
        return NightsTurn(usual or half, half, cold, self._by_means("last", cold, limit_c))

    @_once
    def cold_nights_begin(self, year: date, limit_c: float) -> NightsTurn | None:
        """The first night of autumn at or under a temperature; None where there is none.

        Under a cover, as far as a thermometer that hangs there tells.
        """
        autumn = year + timedelta(days=270)
        record = self.frosts(limit_c, in_the_open=False)
        if len(record.seasons) >= FEWEST_YEARS:
            first, day, last = (first_autumn_frost(record, share, autumn) for share in TENTHS)
            if first is None:
                return None
            day = day or first
            last = last or day
            return NightsTurn(first, day, last, self._by_record("first", record, first, limit_c))
        milder = limit_c - self.night_shift_c
        usual, half, cold = (
            self._expected_frosts(milder, autumn, drop).first_frost for drop in self._drops
        )
        if cold is None:
            return None
        half = half or cold
        return NightsTurn(cold, half, usual or half, self._by_means("first", cold, limit_c))

    @_once
    def stays_over(self, year: date, celsius: float) -> date | None:
        """The last day of a growing year whose usual mean is not under a temperature; None where
        none is."""
        days = (year + timedelta(days=n) for n in range(364, -1, -1))
        return next((day for day in days if self._usual(day).mean_c >= celsius), None)

    @_once
    def hot_days(self, year: date, high_c: float) -> Span | None:
        """The days of the average year whose high reaches a temperature; None where none does.

        `year`: the first day of the growing year.
        """
        days = [year + timedelta(days=n) for n in range(365)]
        hot = [day for day in days if self._usual(day).high_c >= high_c]
        if not hot:
            return None
        because = f"The days reach {high_c:g} °C on the average (by {self.air.means_from})."
        return Span(min(hot), max(hot), Datum(because, True))

    def _usual(self, day: date) -> Air:
        """The air under the cover on a day of the average year."""
        return self.shift.under(self.air.expected(day))

    @property
    def _drops(self) -> tuple[float, float, float]:
        """How far the coldest night of one, five and nine years in ten lies under the mean low."""
        return (0.0, self.cold_night_drop_c / 2, self.cold_night_drop_c)

    @_once
    def frosts(self, limit_c: float, *, in_the_open: bool) -> FrostRecord:
        """The nights on record at or under a temperature, by season: in the open, or under the
        cover as far as a thermometer tells."""
        return frosts_of(self._nights(in_the_open), limit_c, southern=self.southern)

    @_once
    def _nights(self, in_the_open: bool) -> tuple[Nights, ...]:
        night = self._outside if in_the_open else self._inside
        lows = ((day, night(seen)) for day, seen in self.air.measured.items())
        return nights_by_season(lows, southern=self.southern)

    def _outside(self, seen: WeatherDay) -> float | None:
        """The low of a measured night in the open; None where it was measured under a cover."""
        return None if seen.day in self.air.felt else seen.low_c

    def _inside(self, seen: WeatherDay) -> float | None:
        """The low of a measured night under the cover, as far as a thermometer tells."""
        if seen.low_c is None or seen.day in self.air.felt:
            return seen.low_c
        return seen.low_c + self.night_shift_c

    def _expected_frosts(self, limit_c: float, day: date, drop_c: float) -> FrostSeason:
        return expected_frosts(
            self.air.means.low_c, limit_c, day, drop_c=drop_c, southern=self.southern
        )

    def _by_means(self, which: str, day: date, limit_c: float) -> Datum:
        return Datum(
            f"The {which} night of {limit_c:g} °C is to be expected by {day} "
            f"({self.air.means_from}; cold nights lie {self.cold_night_drop_c:g} °C under the mean "
            "low: cold_night_drop_c, a setting of ours).",
            True,
        )

    def _by_record(self, which: str, record: FrostRecord, day: date, limit_c: float) -> Datum:
        side = "by" if which == "last" else "not before"
        return Datum(
            f"In nine of ten years the {which} night of {limit_c:g} °C came {side} "
            f"{day.day} {calendar.month_name[day.month]} "
            f"({len(record.seasons)} winters on record).",
            True,
        )

    # -------------------------------------------------------------- stages

    @_once
    def stage(
        self, year: date, usual: tuple[int, int], wants: Wants, own: Own, until: date
    ) -> Expected | None:
        """When a stage is expected whose usual northern month and day is given.

        `year`: the first day of the growing year; `until`: its last. None where the sum is not
        reached in it; what waits for cold may still come six weeks later.
        """
        begins, counted_from = self._counted(year, usual, wants)
        if usual > LAST_OF_HEAT:
            until += LATE_AUTUMN
        found = expected_stage(self.traces, begins, counted_from, need_of(usual, wants), own, until)
        if found is None or not wants.chill_portions or begins != year:
            return found
        if self.chill_met(year, wants.chill_portions) is None:
            return found._replace(
                because=joined(
                    f"{found.because} Its chill is not met here, so buds open late and unevenly.",
                    found.because,
                )
            )
        return found

    def own(self, seen: Iterable[tuple[date, tuple[int, int], date]], wants: Wants) -> Own:
        """How this tree's sums compare with the species'.

        `seen`: for each stage seen the first day of its growing year, the stage's usual northern
        day, and the day it was seen.
        """
        return own_sum(
            self.traces,
            (
                (*self._counted(year, usual, wants), need_of(usual, wants), day)
                for year, usual, day in seen
            ),
        )

    def chill_met(self, year: date, portions: float) -> date | None:
        """The day on which the winter round the first day of a growing year has given the chill."""
        return self.chill(year).reaches(portions)

    def chill(self, year: date) -> Trace:
        """Chill portions, day by day, of the winter round the first day of a growing year."""
        return self.winters.chill(year)

    def _counted(self, year: date, usual: tuple[int, int], wants: Wants) -> tuple[date, date]:
        """The first day of the trace, and the day from which the sum counts."""
        if usual > LAST_OF_HEAT:
            midsummer = year.replace(month=8 if not self.southern else 2)
            midsummer = midsummer if midsummer >= year else midsummer.replace(year=year.year + 1)
            return midsummer, midsummer
        if not wants.chill_portions:
            return year, year
        met = self.chill_met(year, wants.chill_portions)
        return year, max(year, year + LATEST if met is None else met + DAY)


def need_of(usual: tuple[int, int], wants: Wants) -> Need:
    """The sum that the reference climate has had by a stage's usual day."""
    if usual > LAST_OF_HEAT:
        return Need("cold", COLD_UNDER_C, cold_by(*usual, COLD_UNDER_C))
    return Need("heat", wants.base_c, heat_by(*usual, wants.base_c, wants.chill_portions))
