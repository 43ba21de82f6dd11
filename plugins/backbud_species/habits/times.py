"""Plain words for when a work is due: by a growth stage, between two stages, or by months."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any, Literal, NamedTuple

from backbud.species import Season, Stage, Window, Year, after_stage
from backbud_species.habits.repotting import until

MonthDay = tuple[int, int]
Days = tuple[int, int, int]
SeasonName = Literal["spring", "summer", "autumn", "winter", "year"]


class Time(NamedTuple):
    """What a yearly rule hangs on, and the window and the datum that it gives in a year."""

    hangs_on: Literal["season", "stage"]
    season: SeasonName
    stage: int
    window: Callable[[Any, Year], Window]
    datum: Callable[[Any, Year], str]


def at(stage: int, opens: int, best: int, closes: int) -> Time:
    """So many days after a BBCH stage's first, usual and last day; before it, if negative."""

    def window(given: Stage, year: Year) -> Window:
        return after_stage(given, opens, best, closes)

    return Time("stage", "year", stage, window, _because)


def between(stage: int, end: int) -> Time:
    """From the first day of a BBCH stage to the usual day of a later one."""

    def window(given: Stage, year: Year) -> Window:
        return until(given, year.stage(end))

    return Time("stage", "year", stage, window, _because)


def months(opens: MonthDay, best: MonthDay, closes: MonthDay) -> Time:
    """Northern months and days, six months later in the south; they may cross New Year."""

    def window(given: Season, year: Year) -> Window:
        first = year.on(opens)
        usual = _not_before(first, year.on(best))
        return Window(first, usual, _not_before(usual, year.on(closes)))

    return Time("season", _season_of(opens), -1, window, lambda given, year: year.by_months)


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
