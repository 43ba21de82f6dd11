"""The weather as it is shown: the air, the sums, the frost and the water of every place.

Frozen values alone; skies.py makes them.
"""

from __future__ import annotations

from datetime import date

from msgspec import Struct

from backbud.plan.water import Water
from backbud.views.ahead import Ahead


class AirWeek(Struct, frozen=True, gc=False):
    """One week of air in °C: its mean as measured or expected, and the average one.

    `least_c`, `most_c`: the coldest and the warmest mean of this week in the years on record that
    the average is of, None where there are too few. `lowest_c`, `highest_c`: the coldest night and
    the warmest day of the days measured, None where there are none.
    """

    first: date
    days: int
    measured_days: int
    mean_c: float
    average_c: float
    least_c: float | None = None
    most_c: float | None = None
    lowest_c: float | None = None
    highest_c: float | None = None

    @property
    def measured(self) -> bool:
        """Whether most of its days were measured."""
        return 2 * self.measured_days > self.days


class Against(Struct, frozen=True, gc=False):
    """A sum at the end of a day: this year's, the average, the least and most on record.

    `least`, `most`: None where too few years are on record.
    """

    day: date
    this: float
    average: float
    least: float | None = None
    most: float | None = None


class Odds(Struct, frozen=True, gc=False):
    """For a day, in how many of a hundred winters a frost had come, and one was still to come."""

    day: date
    come_percent: float
    to_come_percent: float


class YearSum(Struct, frozen=True, gc=False):
    """A year on record: its name, its sum by the day that today is in it, and its whole sum."""

    name: str
    by_now: float
    whole: float


class Sum(Struct, frozen=True):
    """A sum of this year against the others.

    `points`: by week. `now`, `average_now`: at the end of today. `ahead_days`: how many days
    before the average year today's sum was reached, negative where later; None where that cannot
    be said. `years`: those on record, the latest first. `among`: of how many of them the average,
    the least and the most are; 0 where the average is that of the means. `days`, `measured`: how
    many days went into the sum of today, and how many of them were measured; `measured_until`: the
    last of these, None where there is none.
    """

    name: str
    points: tuple[Against, ...]
    now: float
    average_now: float
    ahead_days: int | None
    years: tuple[YearSum, ...]
    among: int
    days: int
    measured: int
    measured_until: date | None


class FrostOfWinter(Struct, frozen=True, gc=False):
    """A winter by its name, `2025/26`, and its first and last frost, None where it had none."""

    name: str
    first: date | None
    last: date | None


class Frosts(Struct, frozen=True):
    """Frost at a place.

    `odds`: by week of the season, where winters enough are on record. `winters`: how many are on
    record; `seasons`: these, oldest first. `this`: the winter that is on, or the last one, as far
    as it has come; `begins`: the first day of its season.
    `firsts`, `lasts`: the day by which one, five and nine of ten winters had their first and last
    frost, None where such a winter had none. `because`: what the plan goes by.
    """

    winters: int
    seasons: tuple[FrostOfWinter, ...]
    this: FrostOfWinter
    begins: date
    odds: tuple[Odds, ...]
    firsts: tuple[date | None, ...]
    lasts: tuple[date | None, ...]
    because: tuple[str, ...]


class Chilled(Struct, frozen=True, gc=False):
    """A kind's need of chill, in portions, and the day on which it is met; None where it is not."""

    kind: str
    portions: float
    met: date | None


class Sky(Struct, frozen=True):
    """Everything that the page shows of one sky.

    `places`: handles of those that share it. `cover`: as written on the card; `light`: the share
    it lets in. `weeks`: of the year; their averages are of so many years (`among`), 0 where they
    are of the monthly means. `mean_c`, `usual_c`: of the last week, of which so many days were
    `measured`, and the average of the same years.
    `frosts`: None where the open air's hold. `sources`: where each figure comes from, a sentence
    each.
    """

    places: tuple[str, ...]
    cover: str
    light: float
    year: str
    weeks: tuple[AirWeek, ...]
    among: int
    mean_c: float
    usual_c: float
    measured: int
    heat: Sum
    chill: Sum
    chilled: tuple[Chilled, ...]
    frosts: Frosts | None
    sources: tuple[str, ...]


class YearAir(Struct, frozen=True, gc=False):
    """A growing year of the home place: its heat sum, and its last frost of spring and first of
    autumn, None where there was none. `whole`: it is over; else the sum is that of today."""

    name: str
    heat: float
    last_frost: date | None
    first_frost: date | None
    whole: bool


class Weather(Struct, frozen=True):
    """The weather of all places: the home place's sky first, if it has one.

    `unknown`: places of which too little is known. `home`: the home place's handle, or "".
    `years`: of the home place, those on record and this one. `southern`: its growing year begins
    in July. `ahead`: the days to come as forecasts have them. `placed`: it is known where home
    lies.
    """

    home: str = ""
    home_known: bool = False
    skies: tuple[Sky, ...] = ()
    unknown: tuple[str, ...] = ()
    water: Water = Water()
    years: tuple[YearAir, ...] = ()
    southern: bool = False
    ahead: Ahead = Ahead()
    placed: bool = False

    @property
    def litres_now(self) -> float:
        """What all trees together ask for a day, by the last days' weather."""
        return sum(place.litres_now for place in self.water.places)

    @property
    def litres_week(self) -> float:
        """What all trees together ask for in the seven days from today."""
        return sum(place.litres_week for place in self.water.places)
