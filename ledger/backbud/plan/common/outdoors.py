"""Whether a tree lives outdoors, and from when on it is warm there: for rounds of all trees."""

from __future__ import annotations

from datetime import date

from backbud.climate.datum import Datum
from backbud.climate.degrees import degrees
from backbud.species import Tree, Year
from backbud.species.year import DAYS_EXACT
from backbud.tongue import phrase

# Warmed places hold no weather.
_INSIDE = ("heated glass", "indoors")


def lives_outdoors(tree: Tree, year: Year) -> bool:
    """Whether it stands in a pot in the open or under a cover without heat, all the year."""
    tender = year.comes_in_below_c is not None
    return not (tender or tree.planted_out or year.cover.casefold().startswith(_INSIDE))


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
