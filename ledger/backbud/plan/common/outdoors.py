"""Whether a tree lives outdoors, and from when on it is warm there: for rounds of all trees."""

from __future__ import annotations

from datetime import date

from backbud.climate.datum import Datum
from backbud.climate.degrees import degrees
from backbud.species import Tree, Year, has_no_winter
from backbud.species.year import DAYS_EXACT
from backbud.tongue import phrase

# Köppen's letter i, isothermal: all months lie within less (Köppen 1936; from memory).
SEASONS_FROM_K = 5.0
# Warmed places hold no weather.
_INSIDE = ("heated glass", "indoors")


def lives_outdoors(tree: Tree, year: Year) -> bool:
    """Whether it stands in a pot in the open or under a cover without heat, all the year."""
    tender = year.comes_in_below_c is not None
    return not (tender or tree.planted_out or year.cover.casefold().startswith(_INSIDE))


def growth_begins(year: Year) -> bool:
    """Whether growth begins at some time of the year: not where every month is as warm as in the
    tropics, nor where all months are as good as alike, as in tropical mountains."""
    alike = year.outlook is not None and year.outlook.annual_range_k < SEASONS_FROM_K
    return not alike and not has_no_winter(year)


def warms_to(year: Year, celsius: float) -> date | None:
    """From when on the days are so warm on the average, in the open; what is far off by what was
    known last Monday. None where no winter week is under it, or nothing is known."""
    if year.outlook is None:
        return None
    day = year.outlook.warms_to(year.first, celsius)
    if day is None or (day - year.today).days <= DAYS_EXACT:
        return day
    return year.outlook.last_monday.warms_to(year.first, celsius)


def usually_over(celsius: float, day: date) -> Datum:
    """That from a day on the days are so warm on the average."""
    said = phrase(
        "The days are usually over {degrees} from {day} on.", degrees=degrees(celsius), day=day
    )
    return Datum(said, True)
