"""When the nights of a place let a tender tree stand outside."""

from __future__ import annotations

from datetime import date, timedelta

from msgspec import Struct

from backbud.climate.datum import Datum, joined
from backbud.climate.degrees import degrees
from backbud.climate.outlook import Outlook, Span
from backbud.species.windows import Window
from backbud.species.year import Year
from backbud.tongue import phrase

# A shorter summer is not worth two moves; common practice, no source.
_WORTH_THE_MOVE = timedelta(weeks=6)
# So far over what its roots bear a single night already sends it in; ours, to the cold side.
_SPARED_K = 2.0
_A_YEAR = timedelta(days=364)
# Where the days of the coldest month are so warm, a cold night passes by noon; ours, no source.
_WARM_DAYS_C = 17.0


class SummerOutside(Struct, frozen=True, gc=False):
    """The first and the last day on which a tender tree stands outside, and why. `always`: no
    night of the year sends it in. `worth_it`: it lasts for six weeks and more."""

    first: date
    last: date
    because: str
    always: bool

    @property
    def worth_it(self) -> bool:
        """Whether two moves are worth it."""
        return self.last - self.first >= _WORTH_THE_MOVE


def summer_outside(year: Year) -> SummerOutside | None:
    """While the usual night is over what sends a tender tree in, and single nights stay clear of
    what its roots bear in half of the years; None where no night is so mild, where the tree is not
    tender, or where nothing is known of the nights.

    In a winter of warm days single nights alone send it in: what stops its roots is the cold that
    lasts.
    """
    limit, outlook = year.comes_in_below_c, year.outlook
    if limit is None or outlook is None:
        return None
    bears = year.roots_bear.celsius if year.roots_bear is not None else 0.0
    all_year = _all_year(year, outlook, limit)
    if all_year is not None and outlook.last_monday.coldest.mean_annual_minimum_c > bears:
        return SummerOutside(all_year.first, all_year.last, all_year.because, True)
    mild = all_year or outlook.last_monday.mild_nights(year.first, limit)
    if mild is None:
        return None
    first, last = mild.first, mild.last
    first_why: str = mild.because
    last_why: str = mild.because
    spared = 0.0 if all_year is not None else _SPARED_K
    spring = year.cold_nights_end(bears + spared)
    autumn = year.cold_nights_begin(bears + spared)
    if spring is not None and spring.day > first:
        first, first_why = spring.day, spring.because
    if autumn is not None and autumn.day < last:
        last, last_why = autumn.day, autumn.because
    because = first_why if first_why == last_why else f"{first_why} {last_why}"
    always = spring is autumn is None and last - first >= _A_YEAR
    return SummerOutside(first, last, joined(because, first_why, last_why), always)


def _all_year(year: Year, outlook: Outlook, limit_c: float) -> Span | None:
    """The whole year, where even the coldest month is warm by day and on the average."""
    coldest = outlook.last_monday.coldest_month
    if coldest.mean_c < limit_c or coldest.high_c < _WARM_DAYS_C:
        return None
    said = phrase(
        "The coldest month averages {mean}, and its days {high}: a cold night passes by noon.",
        mean=degrees(coldest.mean_c, ".1f"),
        high=degrees(coldest.high_c, ".1f"),
    )
    return Span(year.first, year.last, Datum(said, True))


def goes_in_by(summer: SummerOutside, year: Year) -> Window:
    """The window for bringing a tender tree in: a fortnight, its best day four days before its
    last."""
    days = timedelta(days=14), timedelta(days=4)
    return year.rounded(Window(summer.last - days[0], summer.last - days[1], summer.last))


def comes_in(year: Year) -> tuple[Window, str] | None:
    """When a tender tree that stands outside comes in, and why; None where no night sends it in,
    where it is not tender, or where nothing is known of the nights.

    Where no summer is worth two moves it has the warm days alone, and they end with the summer:
    by months, but never after a night that its roots do not bear; common practice, no source.
    """
    if year.comes_in_below_c is None or year.outlook is None:
        return None
    summer = summer_outside(year)
    if summer is None or not summer.worth_it:
        return _before_frost(year, year.months((8, 25), (9, 7), (9, 20)))
    return None if summer.always else (goes_in_by(summer, year), summer.because)


def _before_frost(year: Year, window: Window) -> tuple[Window, str]:
    bears = year.roots_bear.celsius if year.roots_bear is not None else 0.0
    frost = year.cold_nights_begin(bears)
    if frost is None or frost.first >= window.closes:
        return window, year.by_months
    days = (frost.first - timedelta(days=n) for n in (14, 4, 0))
    return year.rounded(Window(*days)), frost.because


def goes_out_from(summer: SummerOutside, year: Year) -> Window:
    """The window for bringing it out: three weeks, its best day a week after the first."""
    days = timedelta(days=7), timedelta(days=21)
    return year.rounded(Window(summer.first, summer.first + days[0], summer.first + days[1]))
