"""What a rule asks of the weather at a place, and the reason that goes with each answer.

How warm some days will be, when a stage comes, when it is hot; and of its nights what
cold_turns.py tells.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from datetime import date, timedelta
from functools import cached_property
from typing import NamedTuple

from msgspec import Struct

from backbud.climate.air import DAY, PlaceAir, Shift
from backbud.climate.cold_region import Region
from backbud.climate.cold_turns import ColdTurns
from backbud.climate.coldest_night import SaidCold
from backbud.climate.daily_from_months import daily_means
from backbud.climate.datum import Datum, joined
from backbud.climate.days import WeatherDay
from backbud.climate.degrees import degrees
from backbud.climate.forecast import ForecastDay
from backbud.climate.heat import Trace
from backbud.climate.hot_spells import hot_spells, rainy_months
from backbud.climate.long_rain import WetSpell, wet_spells
from backbud.climate.once import once
from backbud.climate.reference import cold_by, heat_by
from backbud.climate.slug_weather import SlugNights, slug_nights, tells_rain
from backbud.climate.stages import (
    Expected,
    Need,
    Own,
    Traces,
    expected_stage,
    own_sum,
)
from backbud.climate.winter import LATEST, Winters
from backbud.tongue import phrase

# A stage whose usual northern day is later waits for cold, not for heat: nights count from then on.
LAST_OF_HEAT = (8, 25)
# Cold is counted from northern 1 August on, under this mean; fitted by us (see `LONG_NIGHT`).
COLD_UNDER_C = 25.0
LATE_AUTUMN = timedelta(weeks=6)
# Under this mean of the day a pot stays frozen or as good as that, and no bud moves; ours.
THAW_C = 3.0
_HALF_A_YEAR = 181
# A coldest month under it freezes pots; ours, no source.
_FREEZES_C = 0.0


class Wants(Struct, frozen=True, gc=False):
    """What moves a species through its year: base temperature in °C and chill portions."""

    base_c: float = 5.0
    chill_portions: float = 0.0


class Mean(NamedTuple):
    """A mean temperature in °C, and how it is known."""

    celsius: float
    because: Datum


class Span(NamedTuple):
    """A time of the year, its first and last day, and how it is known."""

    first: date
    last: date
    because: Datum


class Outlook(ColdTurns):
    """What is known of the air at a place and under its cover, at the end of a day.

    `air`: as measured in the open, or by a thermometer that hangs under the cover. `shift`: what
    the cover does to sums and means; frost is judged without it, but for a heater, and for
    `night_shift_c`: how much milder a thermometer under the cover found the nights. `region`:
    where the place lies; `said`: what its card says of its winters.
    """

    def __init__(
        self,
        air: PlaceAir,
        shift: Shift,
        *,
        latitude: float,
        southern: bool,
        region: Region = "",
        said: SaidCold | None = None,
        night_shift_c: float = 0.0,
    ) -> None:
        super().__init__(
            air, southern=southern, region=region, said=said, night_shift_c=night_shift_c
        )
        self.shift, self.latitude = shift, latitude
        self.winters = Winters(air, shift, latitude)

    def is_of_one(self, key: tuple[object, ...]) -> bool:
        """A tree whose stages were seen asks for sums of its own."""
        return any(type(part) is Own and part.observations for part in key)

    @cached_property
    def last_monday(self) -> Outlook:
        """What was known at the end of the last Monday: what is far off is foretold by it, so that
        it moves once a week and not every day."""
        monday = self.air.today - timedelta(days=self.air.today.weekday())
        # No forecast is in it, on a Monday either: what is far off does not hang on ten days.
        if monday == self.air.today and self.air.forecast is None:
            return self
        air = self.air
        before = PlaceAir(air.measured, air.means, monday, air.means_from, air.felt)
        outlook = Outlook(
            before,
            self.shift,
            latitude=self.latitude,
            southern=self.southern,
            region=self.region,
            said=self.said,
            night_shift_c=self.night_shift_c,
        )
        outlook.winters = Winters(before, self.shift, self.latitude, self.winters.past)
        return outlook

    @cached_property
    def traces(self) -> Traces:
        """The sums under the cover."""
        return Traces(self.air, self.shift, self.latitude)

    @once
    def mean(self, day: date, days: int) -> Mean:
        """The mean of so many days from a day on, as measured and else as the climate leads to
        expect. ValueError for no day."""
        if days < 1:
            raise ValueError("at least one day is needed")
        seen = [self.shift.under(self.air.of(day + timedelta(days=n))) for n in range(days)]
        celsius = sum(one.mean_c for one in seen) / days
        measured = sum(one.measured for one in seen)
        known = self._known_by(days, measured, sum(one.foretold for one in seen))
        because = phrase(
            "The {days} days from {day} average {degrees} here ({known}).",
            days=days,
            day=day,
            degrees=degrees(celsius, ".1f"),
            known=known,
        )
        return Mean(celsius, Datum(because, measured < days))

    def _known_by(self, days: int, measured: int, foretold: int) -> str:
        """What the mean of some days rests on, as words in brackets."""
        forecast = self.air.forecast.said if self.air.forecast is not None else ""
        if measured == days:
            return phrase("as measured")
        if foretold == days:
            return phrase("by {forecast}", forecast=forecast)
        parts = [phrase("{measured} measured", measured=measured)] if measured else []
        parts += (
            [phrase("{foretold} by {forecast}", foretold=foretold, forecast=forecast)]
            if foretold
            else []
        )
        rest = phrase("by {means_from}", means_from=self.air.means_from)
        return ", ".join([*parts, phrase("the rest {rest}", rest=rest)]) if parts else rest

    @once
    def usual_mean(self, day: date, days: int) -> Mean:
        """The mean of so many days from a day on in the average year. ValueError for no day."""
        if days < 1:
            raise ValueError("at least one day is needed")
        celsius = sum(self.traces.usual(day + timedelta(days=n)).mean_c for n in range(days)) / days
        said = phrase(
            "The {days} days from {day} average {degrees} here",
            days=days,
            day=day,
            degrees=degrees(celsius, ".1f"),
        )
        return Mean(
            celsius,
            Datum(
                phrase("{said} (by {means_from}).", said=said, means_from=self.air.means_from), True
            ),
        )

    @once
    def heat(self, year: date, base_c: float) -> Trace:
        """Degree-days over a base, day by day from the first day of a growing year."""
        return self.traces.even("heat", year, base_c)

    # -------------------------------------------------------------- warm and hot days

    @once
    def stays_over(self, year: date, celsius: float) -> date | None:
        """The last day of a growing year whose usual mean is not under a temperature; None where
        none is."""
        days = (year + timedelta(days=n) for n in range(364, -1, -1))
        return next((day for day in days if self.traces.usual(day).mean_c >= celsius), None)

    @once
    def hot_spells(self, year: date, high_c: float) -> tuple[Span, ...]:
        """The times of the average year whose days reach a temperature: two where a cooler time or
        the rains part them; none where no day does. `year`: the first day of the growing year.
        """
        days = (year + timedelta(days=n) for n in range(365))
        hot = [day for day in days if self.traces.usual(day).high_c >= high_c]
        found = hot_spells(hot, rainy_months(self.air.means))
        told, by = degrees(high_c), self.air.means_from
        if len(found) > 1:
            said = phrase(
                "The days reach {degrees} on the average, in two hot seasons with a cooler one "
                "between (by {means_from}).",
                degrees=told,
                means_from=by,
            )
        else:
            said = phrase(
                "The days reach {degrees} on the average (by {means_from}).",
                degrees=told,
                means_from=by,
            )
        return tuple(Span(first, last, Datum(said, True)) for first, last in found)

    @once
    def mild_nights(self, year: date, low_c: float) -> Span | None:
        """The days round the warmest of the average year whose night stays over a temperature, in
        the open or by a thermometer under the cover; None where none does.

        `year`: the first day of the growing year. Where every night does, it is the whole of it.
        """
        days = [year + timedelta(days=n) for n in range(365)]
        usual = {one: daily_means(self.air.means.low_c, one) for one in {year.year, days[-1].year}}
        lows = [usual[day.year][day.timetuple().tm_yday - 1] + self.night_shift_c for day in days]
        first = last = max(range(365), key=lows.__getitem__)
        if lows[first] <= low_c:
            return None
        while first > 0 and lows[first - 1] > low_c:
            first -= 1
        while last < 364 and lows[last + 1] > low_c:
            last += 1
        because = phrase(
            "The usual night is over {degrees} from {days} to {days_2}",
            degrees=degrees(low_c),
            days=days[first],
            days_2=days[last],
        )
        return Span(
            days[first],
            days[last],
            Datum(
                phrase(
                    "{because} (by {means_from}).", because=because, means_from=self.air.means_from
                ),
                True,
            ),
        )

    # -------------------------------------------------------------- stages

    @once
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
        if found is not None and usual <= LAST_OF_HEAT:
            found = self._thawed(found, year)
        if found is None or not wants.chill_portions or begins != year:
            return found
        if self.lacks_chill(year, wants.chill_portions):
            return found._replace(
                because=joined(
                    phrase(
                        "{because} Its chill is not met here, so buds open late and unevenly.",
                        because=found.because,
                    ),
                    found.because,
                )
            )
        return found

    def _thawed(self, found: Expected, year: date) -> Expected:
        """A stage of spring, no sooner than the average day is over what thaws a pot."""
        thaws = self.thaws(year)
        if thaws is None or found.day >= thaws:
            return found
        late = thaws - found.day
        said = phrase(
            "{because} But days are usually under {thaw_c:g} °C until {thaws}.",
            because=found.because,
            thaw_c=THAW_C,
            thaws=thaws,
        )
        return Expected(found.first + late, thaws, found.last + late, joined(said, found.because))

    @once
    def thaws(self, year: date) -> date | None:
        """The first day after the coldest of the average year on which its mean is over what thaws
        a pot; None where no winter is so cold.

        `year`: the first day of the growing year.
        """
        return _first_over(year, THAW_C, lambda day: self.traces.usual(day).mean_c)

    @once
    def warms_to(self, year: date, celsius: float) -> date | None:
        """The first day after the coldest of the average year whose mean in the open reaches a
        temperature; None where none is under it.

        `year`: the first day of the growing year.
        """
        return _first_over(year, celsius, lambda day: self.air.expected(day).mean_c)

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

    @once
    def wet_spells(self, year: date) -> tuple[WetSpell, ...]:
        """The days of a growing year by which it had rained long, as measured, or will have by a
        forecast."""
        next_year = year.replace(year=year.year + 1)
        return tuple(wet_spells(self._days, year, next_year - timedelta(days=1)))

    @once
    def slug_nights(self, first: date, last: date) -> SlugNights | None:
        """The first day between two days after which slugs are about, as measured or foretold."""
        return slug_nights(self._days, first, last)

    @once
    def tells_rain(self, first: date, last: date) -> bool:
        """Whether the rain of any day between two days was measured or is foretold."""
        return tells_rain(self._days, first, last)

    @cached_property
    def _days(self) -> Mapping[date, WeatherDay | ForecastDay]:
        """The days that were measured, and those that are foretold."""
        return {**self.air.measured, **self.air.foretold}

    def chill_met(self, year: date, portions: float) -> date | None:
        """The day on which the winter round the first day of a growing year has given the chill."""
        return self.chill(year).reaches(portions)

    def lacks_chill(self, year: date, portions: float) -> bool:
        """Whether that winter is too mild to give the chill. One whose coldest month freezes is
        not: the model counts nothing in frost, and buds have what they want all the same."""
        return self.chill_met(year, portions) is None and self.coldest_month.mean_c > _FREEZES_C

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


def _first_over(year: date, celsius: float, mean_on: Callable[[date], float]) -> date | None:
    """The first day after the coldest whose mean reaches a temperature; None where none is under
    it."""
    days = [year + timedelta(days=n) for n in range(_HALF_A_YEAR)]
    means = [mean_on(day) for day in days]
    coldest = min(range(_HALF_A_YEAR), key=means.__getitem__)
    if means[coldest] >= celsius:
        return None
    return next((days[n] for n in range(coldest, _HALF_A_YEAR) if means[n] >= celsius), None)


def need_of(usual: tuple[int, int], wants: Wants) -> Need:
    """The sum that the reference climate has had by a stage's usual day."""
    if usual > LAST_OF_HEAT:
        return Need("cold", COLD_UNDER_C, cold_by(*usual, COLD_UNDER_C))
    return Need("heat", wants.base_c, heat_by(*usual, wants.base_c, wants.chill_portions))
