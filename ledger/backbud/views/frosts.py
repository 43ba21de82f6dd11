"""Makes the frosts of a place as they are shown: on record, this winter's, and the odds ahead."""

from __future__ import annotations

from datetime import date

from backbud.climate.air import DAY, OPEN_AIR
from backbud.climate.cold_turns import TENTHS
from backbud.climate.frost import (
    FrostRecord,
    first_autumn_frost,
    last_spring_frost,
    odds_by_day,
)
from backbud.climate.outlook import Outlook
from backbud.climate.winter import FEWEST_ON_RECORD
from backbud.views.sky import (
    FrostOfWinter,
    Frosts,
    Odds,
)
from backbud.views.sums import WEEK
from backbud_grammar.dates import growing_year_days

FROST_C = 0.0


def frosts_view(outlook: Outlook) -> Frosts | None:
    """Frost in the open, or as a thermometer under the cover found it; None where neither is."""
    in_the_open = outlook.shift == OPEN_AIR
    if not in_the_open and not outlook.air.felt:
        return None
    today = outlook.air.today
    known = outlook.frosts(FROST_C, in_the_open=in_the_open)
    first, last = growing_year_days(today, outlook.southern)
    turns = [outlook.cold_nights_begin(first, FROST_C)]
    # When nights are over, the open air tells under a cover too.
    turns += [outlook.cold_nights_end(last + DAY, FROST_C)] if in_the_open else []
    begins = _season_begins(known.southern, today)
    return Frosts(
        len(known.seasons),
        tuple(
            FrostOfWinter(_frost_name(one.begins), one.first_frost, one.last_frost)
            for one in known.seasons
        ),
        _this_frost(outlook, begins, in_the_open),
        begins,
        _odds(known, today) if len(known.seasons) >= FEWEST_ON_RECORD else (),
        tuple(first_autumn_frost(known, share, today) for share in TENTHS),
        tuple(last_spring_frost(known, share, today) for share in TENTHS),
        tuple(turn.because for turn in turns if turn is not None),
    )


def _season_begins(southern: bool, today: date) -> date:
    """The first day of the cold season that a day is in."""
    if southern:
        return date(today.year, 1, 1)
    return date(today.year if today.month >= 7 else today.year - 1, 7, 1)


def _frost_name(begins: date) -> str:
    """`2026/27` where a cold season crosses New Year, `2026` where it does not."""
    return str(begins.year) if begins.month == 1 else f"{begins.year}/{(begins.year + 1) % 100:02}"


def _this_frost(outlook: Outlook, begins: date, in_the_open: bool) -> FrostOfWinter:
    """The first and the last frost of a cold season that is not over, as far as it was measured."""
    air = outlook.air
    frosts = [
        seen.day
        for seen in air.measured.values()
        if seen.day >= begins
        and seen.low_c is not None
        and seen.low_c <= FROST_C
        and (seen.day in air.felt) != in_the_open
    ]
    return FrostOfWinter(_frost_name(begins), min(frosts, default=None), max(frosts, default=None))


def _odds(known: FrostRecord, today: date) -> tuple[Odds, ...]:
    """The odds week by week of the cold season that today is in."""
    by_day = {(odds.month, odds.day): odds for odds in odds_by_day(known)}
    begins = _season_begins(known.southern, today)
    found = []
    for n in range(0, 365, WEEK):
        day = begins + n * DAY
        odds = by_day[day.month, day.day]
        found.append(Odds(day, round(100 * odds.on_or_before, 1), round(100 * odds.on_or_after, 1)))
    return tuple(found)
