"""When a plant reaches a growth stage at a place, by the heat, chill and cold that it waits for.

A stage of spring and summer comes at a heat sum, counted from midwinter or from the day the chill
is met; a stage of autumn at a sum of cold, counted from midsummer, to which each long night adds
of itself, or mild places would never be bare.
Warmth alone would open a tree in a mild January: so heat counts for more the longer the day, as
photothermal units have it (Nuttonson 1948, from memory), and cold the shorter it is, as in the
model of leaf colouring by Delpierre et al. 2009 (Agric. For. Meteorol. 149: 938-948, from
memory). The hours are ours.

Each range holds eight of ten years: from the years on record where there are enough, else by a
spread that shrinks as the sum fills up.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from functools import lru_cache
from statistics import median
from typing import Literal, NamedTuple

from msgspec import Struct

from backbud.climate.air import DAY, Air, PlaceAir, Shift
from backbud.climate.datum import Datum
from backbud.climate.heat import DAYS_OF_TRACE, DaySums, Trace, cold_sums, heat_sums
from backbud.climate.radiation import daylight_hours
from backbud.tongue import phrase, spoken

# Below so many years on record the range is the spread, and the date the average year's.
FEWEST_YEARS = 5
# Four fifths of all years lie within so many days of the usual date, at midwinter; common
# practice, no source.
SPREAD_DAYS = 12
LEAST_SPREAD_DAYS = 2
# What is further off is told without today's sum, so that it does not change every day.
NEAR = timedelta(weeks=3)
# An own sum so far from the species' is more likely a slip of the pen.
LEAST_OWN, MOST_OWN = 0.5, 2.0

# What a long night adds beside its cold, in degree-days: fitted by us, with `COLD_UNDER_C`, to
# Tokyo, where maples are red about 28 November and bare about 10 December (Japan's autumn
# normals): both within a week.
LONG_NIGHT = 8.0

Counts = Literal["heat", "cold"]


class Need(Struct, frozen=True, gc=False):
    """What a stage waits for: so many degree-days over (or under) a temperature, weighed by the
    length of the day."""

    counts: Counts
    threshold_c: float
    degree_days: float


class Own(Struct, frozen=True, gc=False):
    """How this tree's sums compare with its species', and on how many observations that rests."""

    ratio: float = 1.0
    observations: int = 0


class Expected(NamedTuple):
    """When a stage is expected: eight of ten years lie from `first` to `last`; and why."""

    first: date
    day: date
    last: date
    because: Datum


class Traces:
    """The sums of one place and cover, each reckoned once."""

    def __init__(self, air: PlaceAir, shift: Shift, latitude: float) -> None:
        self.air, self.shift, self.latitude = air, shift, latitude
        self._found: dict[tuple[Counts, date, float, date | None], Trace] = {}
        self._sums: dict[tuple[Counts, float], DaySums] = {}
        self._weights: dict[tuple[Counts, date], tuple[float, ...]] = {}
        self._under: dict[date, Air] = {}
        self._usual: dict[date, Air] = {}

    def of(
        self, counts: Counts, first: date, threshold_c: float, as_in: date | None = None
    ) -> Trace:
        """The weighed sums from `first` on; `as_in` as for `DaySums.trace`."""
        key = (counts, first, threshold_c, as_in)
        if key not in self._found:
            sums = self._day_sums(counts, threshold_c)
            self._found[key] = sums.trace(first, as_in, self._weights_from(counts, first))
        return self._found[key]

    def usual(self, day: date) -> Air:
        """The air under the cover on a day of the average year."""
        found = self._usual.get(day)
        if found is None:
            found = self._usual[day] = self.shift.under(self.air.expected(day))
        return found

    def even(self, counts: Counts, first: date, threshold_c: float) -> Trace:
        """The sums from `first` on, in which every day counts alike."""
        return self._day_sums(counts, threshold_c).trace(first)

    def _weights_from(self, counts: Counts, first: date) -> tuple[float, ...]:
        key = (counts, first)
        if key not in self._weights:
            weight = self._of_heat if counts == "heat" else self._of_cold
            self._weights[key] = tuple([weight(first + n * DAY) for n in range(DAYS_OF_TRACE)])
        return self._weights[key]

    def _day_sums(self, counts: Counts, threshold_c: float) -> DaySums:
        key = (counts, threshold_c)
        if key not in self._sums:
            sums = heat_sums if counts == "heat" else cold_sums
            extra = LONG_NIGHT if counts == "cold" else 0.0
            self._sums[key] = sums(self.air, self.shift, threshold_c, extra, self._under)
        return self._sums[key]

    def _of_heat(self, day: date) -> float:
        """What a day's heat counts for: nothing at ten hours of light, its full sum at 14."""
        return max(0.0, _hours_of_light(self.latitude, day) - 10.0) / 4.0

    def _of_cold(self, day: date) -> float:
        """What a day's cold counts for: nothing at 14 hours of light, its full sum from 12 down."""
        return min(max(0.0, 14.0 - _hours_of_light(self.latitude, day)) / 2.0, 1.0)


# Every cover at a latitude has the same days, and so has what was known last Monday.
@lru_cache(maxsize=8192)
def _hours_of_light(latitude: float, day: date) -> float:
    return daylight_hours(latitude, day)


def expected_stage(
    traces: Traces, begins: date, counted_from: date, need: Need, own: Own, until: date
) -> Expected | None:
    """When a sum that is counted from a day is reached; None where it is not by `until`.

    `begins`: the first day of the trace (midwinter for heat, midsummer for cold), from which
    earlier years are taken too. `counted_from`: the day from whose start the sum counts.
    """
    air = traces.air
    wanted = need.degree_days * own.ratio
    usual = traces.of(need.counts, begins, need.threshold_c)
    start = usual.at(counted_from - DAY)
    day = usual.reaches(wanted, start)
    if day is None or day > until:
        return None
    because = _because(need, own, wanted)
    if day <= air.today:
        return Expected(
            day,
            day,
            day,
            Datum(
                phrase(
                    "{because}; reached by {seen_or_means}.",
                    because=because,
                    seen_or_means=air.seen_or_means(begins),
                )
            ),
        )
    near = day - air.today <= NEAR
    so_far = max(usual.at(air.today) - start, 0.0)
    if so_far and near and air.has_days_from(begins):
        because += phrase("; {so_far:.0f} by {today}", so_far=so_far, today=air.today)
    if day <= air.known_until and air.forecast is not None:
        # What the forecast may be off by shifts it by a day or two at this range.
        around = timedelta(days=LEAST_SPREAD_DAYS)
        because += phrase("; reached by {said}.", said=air.forecast.said)
        first = max(day - around, air.today + DAY)
        return Expected(first, day, day + around, Datum(because, True))
    if air.forecast is not None and air.known_until > counted_from:
        because += phrase(
            "; until {known_until} by {said}", known_until=air.known_until, said=air.forecast.said
        )
        so_far = max(usual.at(air.known_until) - start, 0.0)
    years = air.complete_years(begins)
    if len(years) >= FEWEST_YEARS:
        days = _in_years(traces, begins, counted_from, need, wanted, years, until)
        return Expected(
            *_quantiles(days),
            Datum(
                phrase(
                    "{because}; the rest as in {years} years on record.",
                    because=because,
                    years=len(years),
                ),
                True,
            ),
        )
    spread = timedelta(days=max(LEAST_SPREAD_DAYS, round(SPREAD_DAYS * (1 - so_far / wanted))))
    first = max(day - spread, min(air.today + DAY, day))
    because += phrase("; the rest by {means_from}.", means_from=air.means_from)
    return Expected(first, day, day + spread, Datum(because, True))


def own_sum(traces: Traces, seen: Iterable[tuple[date, date, Need, date]]) -> Own:
    """Compare the sums at which stages were seen with those that were expected.

    `seen`: for each, the first day of its trace, the day from which it counts, what was needed,
    and the day it was seen. The middle of all ratios holds, between 0.5 and 2.
    """
    ratios: list[float] = []
    for begins, counted_from, need, day in seen:
        trace = traces.of(need.counts, begins, need.threshold_c)
        # On the day it is seen a stage is reached: half of the day's own sum counts.
        reached = (trace.at(day) + trace.at(day - DAY)) / 2 - trace.at(counted_from - DAY)
        ratios.append(min(max(reached / need.degree_days, LEAST_OWN), MOST_OWN))
    return Own(median(ratios), len(ratios)) if ratios else Own()


def _in_years(
    traces: Traces,
    begins: date,
    counted_from: date,
    need: Need,
    wanted: float,
    years: Sequence[date],
    until: date,
) -> list[date]:
    """The day on which the sum would be reached, were the rest of the year as each on record."""
    out: list[date] = []
    for year in years:
        trace = traces.of(need.counts, begins, need.threshold_c, year)
        day = trace.reaches(wanted, trace.at(counted_from - DAY))
        out.append(until if day is None else min(day, until))
    return sorted(out)


def _quantiles(days: Sequence[date]) -> tuple[date, date, date]:
    """The days below which a tenth, a half and nine tenths lie (linear between neighbours)."""
    numbers = [day.toordinal() for day in days]
    first, middle, last = (round(_quantile(numbers, share)) for share in (0.1, 0.5, 0.9))
    return date.fromordinal(first), date.fromordinal(middle), date.fromordinal(last)


def _quantile(numbers: Sequence[int], share: float) -> float:
    at = share * (len(numbers) - 1)
    below = int(at)
    above = min(below + 1, len(numbers) - 1)
    return numbers[below] + (numbers[above] - numbers[below]) * (at - below)


def _because(need: Need, own: Own, wanted: float) -> str:
    # A figure is told without its fraction.
    return _comes_at(need.counts, need.threshold_c, round(wanted), own.observations, spoken())


# The years round today come at the same sum, and so does what was known last Monday.
@lru_cache(maxsize=4096)
def _comes_at(
    counts: Counts, threshold_c: float, wanted: int, observations: int, language: str
) -> str:
    """What a stage waits for; `language`: the one that is spoken."""
    side, by = (
        (phrase("over"), phrase("day")) if counts == "heat" else (phrase("under"), phrase("night"))
    )
    long = (
        phrase(", {long_night:g} more for each long night", long_night=LONG_NIGHT)
        if counts == "cold"
        else ""
    )
    whose = ""
    if observations:
        times = phrase("observation") if observations == 1 else phrase("observations")
        whose = phrase(
            " (this tree's own sum, from {observations} {times})",
            observations=observations,
            times=times,
        )
    sums = phrase(
        "{wanted:.0f} degree-days {side} {threshold_c:g} °C{long}",
        wanted=wanted,
        side=side,
        threshold_c=threshold_c,
        long=long,
    )
    return phrase(
        "It comes at {sums}, weighed by the length of the {by}{whose}",
        sums=sums,
        by=by,
        whose=whose,
    )
