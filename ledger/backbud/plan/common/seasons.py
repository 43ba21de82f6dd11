"""Helps the rules for every tree to tell growth from rest, and to find the spring to come.

Months, where no weather decides, are common practice, no source.
"""

from __future__ import annotations

from datetime import date, timedelta

from backbud.species import Schedule, Window, Year, has_no_winter, next_after

MonthDay = tuple[int, int]


# So many days at the least something can be done on, whatever day nights turn: ours, no source.
LEAST_TIME = timedelta(days=14)
# From the thaw of a pot to the first buds; common practice.
_THAWED, _UNTIL_BURST = timedelta(days=7), timedelta(days=28)
_BEFORE_REST = timedelta(weeks=6)
_MIDSUMMER = (7, 1)
# From bud burst on until a tree shows how strong it is; common practice, no source.
_SHOWS, _A_DAY = timedelta(weeks=3), timedelta(days=1)
# BBCH: leaf fall begins; bud burst, shoot growth complete.
LEAF_FALL = 93
_BURST, _GROWN = 7, 91


def in_growth(day: date, year: Year) -> bool:
    """Whether wood thickens then: from bud burst until leaf fall, or until shoots are ripe; in the
    tropics all year.

    By months where the species has no such stage: mid-March to mid-October.
    """
    if has_no_winter(year):
        return True
    burst = year.stage(_BURST)
    ends = year.stage(LEAF_FALL) or year.stage(_GROWN)
    first = burst.first if burst else year.on((3, 15))
    return first <= day <= (ends.last if ends else year.on((10, 15)))


def leaves_last(day: date, year: Year) -> bool:
    """Whether leaves of a day still work for weeks: not where they are about to fall, or fell."""
    return in_growth(day, year) and in_growth(day + _BEFORE_REST, year)


def rests_from(day: date, year: Year) -> date | None:
    """The first day after this one on which a tree shows nothing of its strength, since it rests:
    once its leaves have fallen, of an evergreen by months; None where there is no winter."""
    if has_no_winter(year):
        return None
    for one in (year, year.following):
        bare = one.stage(LEAF_FALL)
        rests = bare.last if bare else one.on((10, 15))
        if rests > day:
            return rests
    return None


def is_at_rest(day: date, year: Year) -> bool:
    """Whether it shows nothing of its strength on a day: leaves fell, or have not come."""
    grows = once_it_grows(year, year.first)
    rests = rests_from(year.first, year)
    return rests is not None and not grows.opens <= day < rests


def not_while_it_rests(window: Window, year: Year) -> Schedule:
    """Of a look at a tree's strength: late until it rests, and asked anew once it grows."""
    closes = window.closes
    over = closes + _A_DAY if is_at_rest(closes, year) else rests_from(closes, year)
    return Schedule(over=over, again=once_it_grows(year, closes))


def once_it_grows(year: Year, day: date) -> Window:
    """The weeks from the next bud burst on, after a day; by months where the species has none."""
    for one in (year, year.following):
        burst = one.stage(_BURST)
        if burst is not None and burst.day >= day:
            return Window(burst.day, burst.day + _SHOWS, burst.day + 2 * _SHOWS)
    return coming(year, day, (4, 15), (5, 1), (5, 31))


def before_growth(year: Year, day: date) -> Window:
    """The last weeks of rest, of the first winter that is not over on a day: what was left on a
    tree is reached best then, and comes off before it cuts in; not while pots are frozen, or lie
    in mulch. Common practice, no source."""
    window = year.months((1, 15), (2, 20), (3, 31))
    thaws = year.outlook.thaws(year.first) if year.outlook is not None else None
    if thaws is None or thaws + _THAWED <= window.best:
        return next_after(day, window)
    closes = max(window.closes, thaws + _UNTIL_BURST)
    return year.rounded(next_after(day, Window(thaws, thaws + _THAWED, closes)))


def while_it_grows_on(day: date, year: Year) -> Window:
    """The next weeks, while new roots have time to fill a pot before the cold; else the last weeks
    of rest. Common practice, no source."""
    if leaves_last(day, year):
        return Window(day, day + timedelta(days=7), day + timedelta(days=28))
    return before_growth(year, day)


def coming_turn(year: Year, day: date, limit_c: float) -> tuple[Window, str] | None:
    """When the next cold nights end after a day, and the datum; None where they do not come, or
    nothing is known of them. Where those of this spring are over, from that day on."""
    turn = year.cold_nights_end(limit_c)
    if (turn is None or turn.last <= day) and day > year.on(_MIDSUMMER):
        turn = year.following.cold_nights_end(limit_c)
    if turn is None:
        return None
    return left_of(day, Window(turn.first, turn.day, turn.last)), turn.because


def is_late_frost_over(year: Year, day: date) -> bool:
    """Whether the frosts of the first spring after a day are past today; not where nothing is known
    of them."""
    turn = coming_turn(year, day, 0.0)
    return turn is not None and turn[0].closes < year.today


def coming(year: Year, day: date, opens: MonthDay, best: MonthDay, closes: MonthDay) -> Window:
    """The window by northern months, the first that is not over on a day; it opens after it."""
    window = year.months(opens, best, closes)
    if window.closes <= day:
        window = year.following.months(opens, best, closes)
    return left_of(day, window)


def left_of(day: date, window: Window) -> Window:
    """What is left of a window from a day on, and never so little that nobody finds the time."""
    opens = max(window.opens, day)
    best = max(window.best, opens)
    return Window(opens, best, max(window.closes, best, opens + LEAST_TIME))
