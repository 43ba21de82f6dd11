"""The air of a place goes in; how cold its nights get, when they turn cold and mild, comes out."""

from __future__ import annotations

from datetime import date, timedelta
from functools import cached_property, lru_cache
from typing import NamedTuple

from backbud.climate.air import PlaceAir
from backbud.climate.cold_nights import MONTH_ERROR_K, drop_on, month_drop
from backbud.climate.cold_region import Region
from backbud.climate.cold_to_come import cold_to_come
from backbud.climate.coldest_night import (
    ColdestNight,
    SaidCold,
    Verdict,
    coldest_night,
    range_k,
)
from backbud.climate.datum import Datum
from backbud.climate.days import WeatherDay
from backbud.climate.degrees import degrees
from backbud.climate.frost import (
    FrostRecord,
    FrostSeason,
    LikelyNights,
    Nights,
    first_autumn_frost,
    frosts_among,
    frosts_of,
    last_spring_frost,
    likely_nights,
    nights_by_season,
)
from backbud.climate.once import Answers, once
from backbud.climate.stages import FEWEST_YEARS
from backbud.climate.winter_lows import extremes_of, month_extremes, winter_lows
from backbud.tongue import phrase, spoken_months

# One, five and nine of ten years.
TENTHS = (0.1, 0.5, 0.9)
# The places in a `Drop` of nine, five and one of ten years.
_SHARES = (0, 1, 2)


class NightsTurn(NamedTuple):
    """When cold nights end or begin: in one, five and nine of ten years by then; and why."""

    first: date
    day: date
    last: date
    because: Datum


class HardNights(NamedTuple):
    """When nights that a tree does not bear come in a winter: the first of one year in ten and
    the last; whether they come or are only close; the night itself, with its ±; and that of one
    year in ten in °C, with its ± in K."""

    first: date
    last: date
    verdict: Verdict
    because: Datum
    one_in_ten_c: float
    give_or_take_k: float


class DayAndNight(NamedTuple):
    """The mean of a month and the mean of its highs, in °C."""

    mean_c: float
    high_c: float


class ColdTurns(Answers):
    """What is known of the cold nights of a place, in the open and under its cover.

    `air`: as measured in the open, or by a thermometer that hangs under the cover. `region`: where
    the place lies; `said`: what its card says of its winters; `night_shift_c`: how much milder a
    thermometer under the cover found the nights.
    """

    def __init__(
        self,
        air: PlaceAir,
        *,
        southern: bool,
        region: Region = "",
        said: SaidCold | None = None,
        night_shift_c: float = 0.0,
    ) -> None:
        super().__init__()
        self.air, self.southern, self.region, self.said = air, southern, region, said
        self.night_shift_c = night_shift_c

    @cached_property
    def coldest(self) -> ColdestNight:
        """The coldest night of a winter in the open, by what is believed most."""
        seasons = self._nights(True)
        record = extremes_of(seasons)
        lows_c = self.air.means.low_c
        return coldest_night(
            min(lows_c),
            range_k(lows_c, self.air.means.high_c),
            self.region,
            record=record if record is not None and record.winters >= FEWEST_YEARS else None,
            said=self.said,
            lows=winter_lows(seasons, lows_c, southern=self.southern),
        )

    @cached_property
    def coldest_month(self) -> DayAndNight:
        """The mean and the mean high (°C) of the month with the lowest mean, in the open."""
        means = self.air.means
        return min(
            DayAndNight((low + high) / 2, high)
            for low, high in zip(means.low_c, means.high_c, strict=True)
        )

    @cached_property
    def annual_range_k(self) -> float:
        """How far the mean of the warmest month lies over that of the coldest, in the open."""
        means = self.air.means
        warmest = max((low + high) / 2 for low, high in zip(means.low_c, means.high_c, strict=True))
        return warmest - self.coldest_month.mean_c

    @once
    def hard_nights(self, year: date, limit_c: float) -> HardNights | None:
        """When nights at or under a temperature come in the winter that a growing year ends with.

        `year`: its first day. Under the cover, as far as a thermometer there tells. Whether they
        come is judged with a lean to the cold side; None where none is to be expected, nor close.
        The three months of winter are always in it: a night that comes in one year of ten keeps to
        no date.
        """
        cold, milder = self.coldest, self.night_shift_c
        verdict = cold.against(limit_c, milder)
        if verdict == "does not come":
            return None
        autumn = self.cold_nights_begin(year, limit_c)
        spring = self.cold_nights_end(year.replace(year=year.year + 1), limit_c)
        first, last = self._winter(year)
        because = Datum(said_against(cold, milder, limit_c), True)
        return HardNights(
            min(autumn.first, first) if autumn else first,
            max(spring.last, last) if spring else last,
            verdict,
            because,
            cold.one_in_ten_c + milder,
            cold.give_or_take_k,
        )

    @once
    def cold_to_come(self, day: date) -> ColdestNight:
        """The coldest night of a winter in the open that may still come from a day of it on."""
        return cold_to_come(
            self.coldest,
            self._nights(True),
            self.air.means.low_c,
            day,
            southern=self.southern,
        )

    def _winter(self, year: date) -> tuple[date, date]:
        """The first and last day of the meteorological winter that a growing year ends with."""
        if self.southern:
            return date(year.year + 1, 6, 1), date(year.year + 1, 8, 31)
        return date(year.year, 12, 1), date(year.year + 1, 2, 28)

    @once
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
            return NightsTurn(
                first, day, last, self._by_record("last", record, last, limit_c, True)
            )
        usual, half, cold = (
            self._expected_frosts(limit_c, spring, share).last_frost for share in _SHARES
        )
        if cold is None:
            return None
        half = half or cold
        return NightsTurn(usual or half, half, cold, self._by_means("last", cold, limit_c))

    @once
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
            return NightsTurn(
                first, day, last, self._by_record("first", record, first, limit_c, False)
            )
        milder = limit_c - self.night_shift_c
        usual, half, cold = (
            self._expected_frosts(milder, autumn, share).first_frost for share in _SHARES
        )
        if cold is None:
            return None
        half = half or cold
        return NightsTurn(cold, half, usual or half, self._by_means("first", cold, limit_c))

    @once
    def frosts(self, limit_c: float, *, in_the_open: bool) -> FrostRecord:
        """The nights on record at or under a temperature, by season: in the open, or under the
        cover as far as a thermometer tells."""
        return frosts_of(self._nights(in_the_open), limit_c, southern=self.southern)

    @once
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

    def _expected_frosts(self, limit_c: float, day: date, share: int) -> FrostSeason:
        """`share`: the place of the share of years in a `Drop`."""
        return frosts_among(self._likely_nights(day, share), limit_c)

    @once
    def _likely_nights(self, day: date, share: int) -> LikelyNights:
        low_c = tuple(self.air.means.low_c)
        return _nights_by_means(low_c, day, self.coldest.winter_drop_k, share, self.southern)

    def _by_means(self, which: str, day: date, limit_c: float) -> Datum:
        return Datum(
            phrase(
                "The {which} night of {degrees} is to be expected by {day} in one year "
                "of ten ({means_from}). {coldest_of}",
                which=phrase("last") if which == "last" else phrase("first"),
                degrees=degrees(limit_c),
                day=day,
                means_from=self.air.means_from,
                coldest_of=self._coldest_of(day),
            ),
            True,
        )

    def _coldest_of(self, day: date) -> str:
        """The coldest night of a day's month by the means, in words, with its ±."""
        drop = month_drop(self.coldest.winter_drop_k, day.month, southern=self.southern)
        low_c = self.air.means.low_c[day.month - 1]
        return _month_said(day, low_c - drop.mean_k, low_c - drop.one_in_ten_k, MONTH_ERROR_K)

    def _by_record(
        self, which: str, record: FrostRecord, day: date, limit_c: float, in_the_open: bool
    ) -> Datum:
        side = phrase("by") if which == "last" else phrase("not before")
        known = month_extremes(self._nights(in_the_open), day.month)
        month = "" if known is None else f" {_month_said(day, *known[:3])}"
        return Datum(
            phrase(
                "In nine of ten years the {which} night of {degrees} came {side} {day} "
                "{month_name} ({seasons} winters on record).{month}",
                which=phrase("last") if which == "last" else phrase("first"),
                degrees=degrees(limit_c),
                side=side,
                day=day.day,
                month_name=spoken_months()[day.month - 1],
                seasons=len(record.seasons),
                month=month,
            ),
            True,
        )


def _month_said(day: date, mean_c: float, one_in_ten_c: float, error_k: float) -> str:
    """How cold the coldest night of a day's month is."""
    mean, tenth = degrees(mean_c, ".1f"), degrees(one_in_ten_c, ".1f")
    return phrase(
        "{month_name}'s coldest night is {mean} in the mean year and {tenth} "
        "in one of ten, ± {error_k:.1f} K.",
        month_name=spoken_months()[day.month - 1],
        mean=mean,
        tenth=tenth,
        error_k=error_k,
    )


def said_against(cold: ColdestNight, milder_k: float, limit_c: float) -> str:
    """The coldest night in words, and how far it lies over a limit, where it does; `milder_k`:
    under a cover."""
    said, over_k = cold.said(milder_k), cold.one_in_ten_c + milder_k - limit_c
    if over_k <= 0:
        return said
    return said + phrase(" That is close: {over_k:.1f} K over what it bears.", over_k=over_k)


# Covers change no night in the open, nor does what was known last Monday.
@lru_cache(maxsize=256)
def _nights_by_means(
    low_c: tuple[float, ...], day: date, winter_drop_k: float, share: int, southern: bool
) -> LikelyNights:
    """The nights to be expected of the season that a day falls in, in a share of years."""
    return likely_nights(
        low_c,
        day,
        drop_k_on=lambda night: drop_on(winter_drop_k, night, southern=southern)[share],
        southern=southern,
    )
