"""When to expect the last frost of spring and the first of autumn, and how cold the nights get.

The unit is the cold season, from one midsummer to the next: 1 July to 30 June in the north, the
calendar year in the south. So a winter is never cut in two, a first frost in January and a last
one in December are found too, and in each season the first frost is that of autumn and the last
that of spring. Nights are compared by month and day: 29 February has a place of its own in every
season, so that 1 April is the same day in all years.
"""

from __future__ import annotations

import calendar
from collections.abc import Callable, Iterable, Sequence
from datetime import date, timedelta
from math import ceil, inf, isfinite, isnan
from typing import NamedTuple

from msgspec import Struct

from backbud.climate.daily_from_months import daily_means

# Common practice; the freeze tables of the Utah Climate Center allow as many
# (climate.usu.edu/help/freezeTable.php).
MAX_MISSING_NIGHTS = 10
# 0.1 of ten is one, whatever binary fractions make of it.
_ROUNDING = 1e-9


class FrostSeason(Struct, frozen=True, gc=False):
    """One cold season: its first day, and its first and last frost; None where it had none."""

    begins: date
    first_frost: date | None
    last_frost: date | None


class FrostRecord(Struct, frozen=True):
    """The cold seasons of a place.

    `threshold_c`: a night at or below it is a frost. `seasons`: those whose nights are known well
    enough, oldest first. `left_out`: the first days of those that are not.
    """

    threshold_c: float
    southern: bool
    seasons: tuple[FrostSeason, ...]
    left_out: tuple[date, ...]


class FrostOdds(NamedTuple):
    """For a month and day, the share of seasons with a frost until then, and from then on."""

    month: int
    day: int
    on_or_before: float
    on_or_after: float


class Nights(NamedTuple):
    """The known minima (°C) of one cold season, by date."""

    begins: date
    lows: tuple[tuple[date, float], ...]

    @property
    def nights(self) -> int:
        """How many nights the season has, known or not."""
        return _nights(self.begins)


def nights_by_season(
    lows: Iterable[tuple[date, float | None]], *, southern: bool
) -> tuple[Nights, ...]:
    """Part daily minima (°C), in any order, into cold seasons, the oldest first.

    A low of None is a missing night. ValueError for two minima of one date, or a minimum that is
    no number.
    """
    by_season: dict[date, dict[date, float]] = {}
    for night, low_c in lows:
        if low_c is None:
            continue
        if isnan(low_c):
            raise ValueError(f"the minimum of {night} is no number")
        known = by_season.setdefault(_begins(night, southern), {})
        if night in known:
            raise ValueError(f"two minima for {night}")
        known[night] = low_c
    return tuple(
        Nights(begins, tuple(known.items())) for begins, known in sorted(by_season.items())
    )


def frost_record(
    lows: Iterable[tuple[date, float | None]],
    threshold_c: float,
    *,
    southern: bool,
    max_missing_nights: int = MAX_MISSING_NIGHTS,
) -> FrostRecord:
    """Return the frosts of each cold season from daily minima (°C), in any order.

    As `frosts_of` for what `nights_by_season` gives; errors as for both.
    """
    return frosts_of(
        nights_by_season(lows, southern=southern),
        threshold_c,
        southern=southern,
        max_missing_nights=max_missing_nights,
    )


def frosts_of(
    seasons: Iterable[Nights],
    threshold_c: float,
    *,
    southern: bool,
    max_missing_nights: int = MAX_MISSING_NIGHTS,
) -> FrostRecord:
    """Return the frosts of each cold season.

    A season with more missing nights than `max_missing_nights`, wherever in the season, is left
    out: so are the seasons that the record cuts short at its ends. A known season without a frost
    stays in. ValueError for fewer than no missing nights.
    """
    if max_missing_nights < 0:
        raise ValueError("fewer than no nights cannot be missing")
    kept, left_out = [], []
    for begins, known in seasons:
        if _nights(begins) - len(known) > max_missing_nights:
            left_out.append(begins)
            continue
        frosts = [night for night, low_c in known if low_c <= threshold_c]
        kept.append(FrostSeason(begins, min(frosts, default=None), max(frosts, default=None)))
    return FrostRecord(threshold_c, southern, tuple(kept), tuple(left_out))


def odds_on_or_after(record: FrostRecord, day: date) -> float | None:
    """Return the share (0 to 1) of seasons with a frost from this month and day to midsummer.

    A season with no frost counts as one without. None where no season is known.
    """
    if not record.seasons:
        return None
    return _share_from(_lasts(record), place_in_season(day, record.southern))


def odds_on_or_before(record: FrostRecord, day: date) -> float | None:
    """Return the share (0 to 1) of seasons with a frost from midsummer to this month and day.

    A season with no frost counts as one without. None where no season is known.
    """
    if not record.seasons:
        return None
    return _share_until(_firsts(record), place_in_season(day, record.southern))


def odds_by_day(record: FrostRecord) -> tuple[FrostOdds, ...]:
    """Return the odds for each of the 366 days of a season, from midsummer on.

    Empty where no season is known.
    """
    if not record.seasons:
        return ()
    firsts, lasts = _firsts(record), _lasts(record)
    return tuple(
        FrostOdds(month, day, _share_until(firsts, place), _share_from(lasts, place))
        for place, (month, day) in enumerate(_DAYS[record.southern])
    )


def last_spring_frost_day(record: FrostRecord, share: float) -> int | None:
    """Return the first day of the season by which this share of seasons had their last frost.

    Days are counted from midsummer day = 0. The inverse of the odds by day, so that both say the
    same (Hyndman & Fan 1996, type 1). A season with no frost had its last one before any day: None
    where the quantile rests on such a season, or no season is known. ValueError unless
    0 <= share <= 1.
    """
    return _quantile(_lasts(record), share)


def first_autumn_frost_day(record: FrostRecord, share: float) -> int | None:
    """Return the first day of the season by which this share of seasons had their first frost.

    As `last_spring_frost_day`, but a season with no frost has its first one after any day.
    """
    return _quantile(_firsts(record), share)


def last_spring_frost(record: FrostRecord, share: float, day: date) -> date | None:
    """Return `last_spring_frost_day` as a date of the season that `day` falls in.

    29 February is 1 March where there is none, the careful side.
    """
    place = last_spring_frost_day(record, share)
    return None if place is None else _dated(place, day, record.southern, late=True)


def first_autumn_frost(record: FrostRecord, share: float, day: date) -> date | None:
    """Return `first_autumn_frost_day` as a date of the season that `day` falls in.

    29 February is 28 February where there is none, the careful side.
    """
    place = first_autumn_frost_day(record, share)
    return None if place is None else _dated(place, day, record.southern, late=False)


def expected_frosts(
    monthly_mean_lows_c: Sequence[float],
    threshold_c: float,
    day: date,
    *,
    drop_k_on: Callable[[date], float],
    southern: bool,
) -> FrostSeason:
    """Return the season that `day` falls in, with the first and last night to expect a frost.

    `drop_k_on`: how far (K) a cold night of a date lies under its mean low. A frost is expected
    where that night is at or below the threshold. Where every night is, they are the first and
    the last night of the season. ValueError unless there are twelve means.
    """
    nights = likely_nights(monthly_mean_lows_c, day, drop_k_on=drop_k_on, southern=southern)
    return frosts_among(nights, threshold_c)


class LikelyNights(NamedTuple):
    """The nights of a season from its first on: how cold (°C) each is to be expected."""

    begins: date
    lows_c: tuple[float, ...]


def likely_nights(
    monthly_mean_lows_c: Sequence[float],
    day: date,
    *,
    drop_k_on: Callable[[date], float],
    southern: bool,
) -> LikelyNights:
    """Return the nights of the season that `day` falls in; else as `expected_frosts`."""
    begins = _begins(day, southern)
    years = {begins.year, begins.year + (begins.month > 1)}
    lows = [low for year in sorted(years) for low in daily_means(monthly_mean_lows_c, year)]
    skipped = (begins - date(begins.year, 1, 1)).days
    season = lows[skipped : skipped + _nights(begins)]
    colder = (low_c - drop_k_on(begins + timedelta(days=n)) for n, low_c in enumerate(season))
    return LikelyNights(begins, tuple(colder))


def frosts_among(nights: LikelyNights, threshold_c: float) -> FrostSeason:
    """Return the season with the first and last of its nights at or below the threshold."""
    begins, lows_c = nights
    first = next((n for n, low_c in enumerate(lows_c) if low_c <= threshold_c), None)
    if first is None:
        return FrostSeason(begins, None, None)
    after = next(n for n, low_c in enumerate(reversed(lows_c)) if low_c <= threshold_c)
    last = len(lows_c) - 1 - after
    return FrostSeason(begins, begins + timedelta(days=first), begins + timedelta(days=last))


def _begins(day: date, southern: bool) -> date:
    if southern:
        return date(day.year, 1, 1)
    return date(day.year if day.month >= 7 else day.year - 1, 7, 1)


def _nights(begins: date) -> int:
    return (begins.replace(year=begins.year + 1) - begins).days


# The 366 months and days of a season in order, by whether it is a southern one.
_DAYS = {
    southern: tuple((day.month, day.day) for day in (first + timedelta(days=n) for n in range(366)))
    for southern, first in ((False, date(2023, 7, 1)), (True, date(2024, 1, 1)))
}
_PLACES = {
    southern: {month_day: place for place, month_day in enumerate(days)}
    for southern, days in _DAYS.items()
}


def place_in_season(day: date, southern: bool) -> int:
    """The place of a month and day among the 366 of a season, 0 for the first."""
    return _PLACES[southern][(day.month, day.day)]


def _dated(place: int, near: date, southern: bool, *, late: bool) -> date:
    begins = _begins(near, southern)
    month, day = _DAYS[southern][place]
    year = begins.year + (month < begins.month)
    if (month, day) == (2, 29) and not calendar.isleap(year):
        return date(year, 3, 1) if late else date(year, 2, 28)
    return date(year, month, day)


def _firsts(record: FrostRecord) -> list[float]:
    days = (season.first_frost for season in record.seasons)
    return [inf if day is None else place_in_season(day, record.southern) for day in days]


def _lasts(record: FrostRecord) -> list[float]:
    days = (season.last_frost for season in record.seasons)
    return [-inf if day is None else place_in_season(day, record.southern) for day in days]


def _share_until(firsts: Sequence[float], place: int) -> float:
    return sum(first <= place for first in firsts) / len(firsts)


def _share_from(lasts: Sequence[float], place: int) -> float:
    return sum(last >= place for last in lasts) / len(lasts)


def _quantile(days: Sequence[float], share: float) -> int | None:
    """The least of these days that at least this share of them do not exceed."""
    if not 0 <= share <= 1:
        raise ValueError(f"a share is from 0 to 1, not {share}")
    if not days:
        return None
    found = sorted(days)[max(ceil(len(days) * share - _ROUNDING) - 1, 0)]
    return int(found) if isfinite(found) else None
