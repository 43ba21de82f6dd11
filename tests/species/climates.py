"""Five climates for the tests: growing years of a species at each, by twelve monthly means.

Means of the lows and highs of 1991 to 2020 or near it, from memory; Nottingham's are those of the
reference climate.
"""

from __future__ import annotations

from datetime import date, timedelta
from functools import cache
from typing import NamedTuple

from backbud.climate.air import OPEN_AIR, PlaceAir
from backbud.climate.cold_region import region_of
from backbud.climate.days import MonthlyMeans
from backbud.climate.outlook import Outlook
from backbud.climate.reference import LATITUDE, NOTTINGHAM
from backbud.plan.root_limits import roots_bear, young_roots_bear
from backbud.plan.year import wants_of
from backbud.species import Species, Year
from backbud_grammar.dates import growing_year, growing_year_days


class Place(NamedTuple):
    """What is known of a place; degrees north and east."""

    climate: str
    latitude: float
    longitude: float
    means: MonthlyMeans


PLACES = {
    "Nottingham": Place("cool oceanic", LATITUDE, -1.15, NOTTINGHAM),
    "Seville": Place(
        "warm dry",
        37.4,
        -6.0,
        MonthlyMeans(
            (5.7, 7.0, 9.2, 11.1, 14.2, 18.0, 20.3, 20.4, 18.2, 14.4, 10.0, 7.3),
            (16.0, 18.1, 21.9, 23.4, 27.2, 32.2, 36.0, 35.5, 31.7, 26.0, 20.2, 16.6),
        ),
    ),
    "Tokyo": Place(
        "humid warm",
        35.7,
        139.75,
        MonthlyMeans(
            (1.2, 2.1, 5.0, 9.8, 14.6, 18.5, 22.4, 23.5, 20.3, 14.8, 8.8, 3.8),
            (9.8, 10.9, 14.2, 19.4, 23.6, 26.1, 29.9, 31.3, 27.5, 22.0, 16.7, 12.0),
        ),
    ),
    "Christchurch": Place(
        "southern",
        -43.5,
        172.6,
        MonthlyMeans(
            (12.2, 12.1, 10.4, 7.5, 4.9, 2.2, 1.5, 2.5, 4.5, 6.4, 8.3, 10.8),
            (22.6, 22.1, 20.5, 17.6, 14.8, 12.0, 11.3, 12.7, 15.3, 17.2, 19.1, 21.1),
        ),
    ),
    "Minneapolis": Place(
        "continental",
        45.0,
        -93.3,
        MonthlyMeans(
            (-12.9, -10.6, -3.6, 3.0, 9.8, 15.5, 18.4, 17.2, 12.4, 5.1, -2.4, -9.5),
            (-4.8, -2.1, 5.4, 13.9, 21.0, 26.3, 28.6, 27.3, 22.8, 14.6, 5.7, -2.2),
        ),
    ),
}


@cache
def outlook_of(name: str) -> Outlook:
    """A place's weather as it is known before the growing year begins."""
    return outlook_at(PLACES[name])


def outlook_at(place: Place) -> Outlook:
    """The same of a place that is none of the five."""
    southern = place.latitude < 0
    first, _ = growing_year_days(date(2027, 8, 1), southern)
    air = PlaceAir({}, place.means, first - timedelta(days=1), "the place's monthly means")
    return Outlook(
        air,
        OPEN_AIR,
        latitude=place.latitude,
        southern=southern,
        region=region_of(place.latitude, place.longitude),
    )


def year_at(species: Species, name: str, cover: str = "") -> Year:
    """The growing year 2027 (south: 2027/28) of a species at a place, looked at from before it."""
    return year_under(species, name, outlook_of(name), cover)


def year_under(species: Species, name: str, outlook: Outlook, cover: str = "") -> Year:
    """The same by the weather of a place that is none of the five."""
    day = date(2027, 8, 1)
    first, last = growing_year_days(day, outlook.southern)
    comes_in = species.comes_in_below_c
    return Year(
        growing_year(day, outlook.southern),
        first,
        last,
        outlook.air.today,
        outlook.southern,
        name,
        cover,
        {},
        species.stage_months,
        {},
        species.wire_check_weeks.value,
        outlook,
        wants_of(species),
        roots_bear=roots_bear(species, None, {}),
        young_roots_bear=young_roots_bear(species, {}),
        comes_in_below_c=comes_in.value if comes_in else None,
        why_frost=species.why_frost,
        rests_under_c=species.rests_under_c.value if species.rests_under_c else None,
    )
