"""Plain words for when a work is due: by a growth stage, between two stages, or by months."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from typing import Any, Literal, NamedTuple

from backbud.species import Season, Stage, Window, Year, after_stage, phrase
from backbud_species.habits.repotting import until

MonthDay = tuple[int, int]
Days = tuple[int, int, int]
SeasonName = Literal["spring", "summer", "autumn", "winter", "year"]


# BBCH stages: shoot growth complete, leaf fall begins, leaf fall over, buds swelling.
END_OF_GROWTH, COLOUR, LEAF_FALL, SWELLING = 91, 93, 97, 1
_A_WEEK, _THREE_WEEKS = timedelta(weeks=1), timedelta(weeks=3)
_EIGHT_WEEKS = timedelta(weeks=8)


class Time(NamedTuple):
    """What a yearly rule hangs on, and the window and the datum that it gives in a year."""

    hangs_on: Literal["season", "stage"]
    season: SeasonName
    stage: int
    window: Callable[[Any, Year], Window]
    datum: Callable[[Any, Year], str]


def at(
    stage: int,
    opens: int,
    best: int,
    closes: int,
    *,
    open_from: int | None = None,
    end: int | None = None,
) -> Time:
    """So many days after a BBCH stage's first, usual and last day; before it, if negative.

    Work of a bare tree's rest, which hangs on the end of growth (91 to 97) or comes before the buds
    swell (01), ends as they swell, wherever that falls. `open_from`: an earlier stage, with whose
    first day the window opens already; `end`: a later one, by whose usual day it is over.
    """

    def window(given: Stage, year: Year) -> Window:
        found = after_stage(given, opens, best, closes)
        resting = stage >= END_OF_GROWTH or (stage == SWELLING and best < 0)
        if resting and LEAF_FALL in year.stage_months:
            return until_buds_swell(found, year)
        last = year.stage(end) if end is not None else None
        if last is not None:
            closes_by = max(min(found.closes, last.day), found.opens)
            found = Window(found.opens, min(found.best, closes_by), closes_by)
        earlier = year.stage(open_from) if open_from is not None else None
        if earlier is None:
            return found
        return Window(min(earlier.first, found.opens), found.best, found.closes)

    return Time("stage", "year", stage, window, _because)


def until_buds_swell(window: Window, year: Year) -> Window:
    """The window, ended on the usual day of the next bud swelling after it opens."""
    for one in (year, year.following):
        swelling = one.stage(SWELLING)
        if swelling is not None and swelling.day >= window.opens:
            closes = min(window.closes, swelling.day)
            opens = min(max(window.opens, _last_bare(year, window.best)), closes)
            return Window(opens, min(max(window.best, opens), closes), closes)
    return window


def once_thawed(window: Window, year: Year) -> Window:
    """The window of root work, from when the pot has thawed; at least a week of it."""
    thaws = year.outlook.thaws(year.first) if year.outlook is not None else None
    if thaws is None or not window.opens < thaws <= window.opens + _EIGHT_WEEKS:
        return window
    best = max(window.best, thaws)
    return Window(thaws, best, max(window.closes, best, thaws + _A_WEEK))


def _last_bare(year: Year, day: date) -> date:
    """The end of the leaf fall before a day that lies before this year's; as it is this year."""
    fallen = year.stage(LEAF_FALL)
    if fallen is None or fallen.day <= day or day >= year.on((6, 1)):
        return day.min
    return fallen.day - timedelta(days=365)


def between(stage: int, end: int) -> Time:
    """From the first day of a BBCH stage to the usual day of a later one."""

    def window(given: Stage, year: Year) -> Window:
        return until(given, year.stage(end))

    return Time("stage", "year", stage, window, _because)


def by_warmth(opens: MonthDay, best: MonthDay, closes: MonthDay) -> Time:
    """Northern days of a cool temperate place, moved as a place's heat or cold moves the best.

    Six months later in the south; they may cross New Year. For what hangs on no stage of the tree
    itself: a pest that comes with the warmth, a later flush, a feed.
    """

    def window(given: Season, year: Year) -> Window:
        usual = _by_the_calendar(year, opens, best, closes)
        moved, _ = year.by_warmth(best)
        if not moved:
            return usual
        return year.rounded(Window(usual.opens + moved, usual.best + moved, usual.closes + moved))

    return Time(
        "season", _season_of(opens), -1, window, lambda given, year: year.by_warmth(best)[1]
    )


def months(opens: MonthDay, best: MonthDay, closes: MonthDay, *, why: str) -> Time:
    """Northern months and days wherever the place lies; six months later in the south.

    They may cross New Year. `why`: why months serve, as what it hangs on: "the short days".
    """

    def window(given: Season, year: Year) -> Window:
        return _by_the_calendar(year, opens, best, closes)

    def datum(given: Season, year: Year) -> str:
        return phrase(
            "{removesuffix}, since it goes by {why}.",
            removesuffix=year.by_months.removesuffix("."),
            why=why,
        )

    return Time("season", _season_of(opens), -1, window, datum)


def _by_the_calendar(year: Year, opens: MonthDay, best: MonthDay, closes: MonthDay) -> Window:
    first = year.on(opens)
    usual = _not_before(first, year.on(best))
    return Window(first, usual, _not_before(usual, year.on(closes)))


def bare_before_the_sap_rises() -> Time:
    """From the colour of the leaves to three weeks after they are off, 31 December at the latest.

    A maple's sap runs by mid January (in the south by mid July).
    """

    def window(given: Stage, year: Year) -> Window:
        fallen = year.stage(LEAF_FALL)
        last = year.on((12, 31))
        closes = min(fallen.day + _THREE_WEEKS, last) if fallen else min(given.last, last)
        closes = max(closes, given.first)
        best = min(fallen.day if fallen else given.day, closes)
        return Window(given.first, max(best, given.first), closes)

    return Time("stage", "year", COLOUR, window, _because)


def weeks(opens: int, best: int, closes: int) -> Days:
    """Weeks as the days that `after_work` takes."""
    return 7 * opens, 7 * best, 7 * closes


def week_of(day: date) -> date:
    """The Monday nearest to a day.

    Days far ahead are given as such Mondays, near ones exactly. What compares two days to decide
    whether there is a work at all compares these, so that no work comes and goes as they near.
    """
    return date.fromordinal(round((day.toordinal() - 1) / 7) * 7 + 1)


def _because(given: Stage, year: Year) -> str:
    return given.because


def _not_before(day: date, later: date) -> date:
    """The later day, in the next year where it would come before."""
    if later >= day:
        return later
    # There is no 29 February in most years.
    return later.replace(year=later.year + 1, day=min(later.day, 28 if later.month == 2 else 31))


def _season_of(opens: MonthDay) -> SeasonName:
    """The season in which a window opens: a rule looks at the tree as it was just before it."""
    names: tuple[SeasonName, ...] = ("winter", "spring", "summer", "autumn")
    return names[min((opens[0] % 12) // 3, 3)] if opens[0] != 12 else "autumn"
