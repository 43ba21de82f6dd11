"""What a forecast says of the days ahead, how far it can be trusted, and when it is too old."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from itertools import pairwise

from msgspec import Struct

from backbud.tongue import phrase

# A forecast that is older than so many days is not used; ours, no source.
OLDEST_DAYS = 3
# Further ahead than so many days no forecast is used: beyond them it knows little more than the
# climate does. Common practice, no source.
MOST_DAYS_AHEAD = 10


class ForecastDay(Struct, frozen=True, gc=False):
    """What is expected of one day; None where the forecast does not say.

    `low_c`: of the night that ends on the morning of this day. `rain_mm`: all precipitation.
    `wind_m_per_s`: the strongest mean wind, and `gust_m_per_s` the strongest gust, at 10 m.
    """

    day: date
    low_c: float | None = None
    high_c: float | None = None
    rain_mm: float | None = None
    wind_m_per_s: float | None = None
    gust_m_per_s: float | None = None


class Forecast(Struct, frozen=True):
    """A forecast as it stands in its file.

    `made`: the day it was made on; `made_at`: when, as written, "" where only the day is known.
    `source`: whose it is, as people say it, "" where nobody says. `place`: for which place.
    """

    made: date
    days: Mapping[date, ForecastDay]
    made_at: str = ""
    source: str = ""
    place: str = ""
    file: str = ""

    def age_days(self, today: date) -> int:
        """How many days ago it was made; never less than none."""
        return max((today - self.made).days, 0)

    def is_usable(self, today: date) -> bool:
        """Whether it is young enough, says anything of a day to come, and was made by then.

        By UTC it may have been made tomorrow; of one that does not say when, its first day counts,
        and that may be further ahead.
        """
        age = (today - self.made).days
        was_made = age >= -1 or not self.made_at
        return was_made and age <= OLDEST_DAYS and any(day > today for day in self.days)

    def ahead(self, today: date) -> dict[date, ForecastDay]:
        """The days to come that it is used for, in order; none where it is too old."""
        if not self.is_usable(today):
            return {}
        last = today + timedelta(days=MOST_DAYS_AHEAD)
        return {day: said for day, said in sorted(self.days.items()) if today < day <= last}

    @property
    def said(self) -> str:
        """Whose it is and of which day, as words in a sentence."""
        whose = phrase(" by {source}", source=self.source) if self.source else ""
        return phrase("the forecast of {made}{whose}", made=self.made, whose=whose)


NO_FORECAST: Mapping[date, ForecastDay] = {}

# The mean error of a night's low, K, by how many days ahead it is foretold. Three days: 1.6 °C at
# Melbourne about 2006 (Stern 2008, Meteorol. Appl. 15: 65-71, abstract); the others from memory,
# and up to five days within 0.4 K of a published table (tests/weather/test_forecast.py).
_ERROR_K = ((1, 1.2), (3, 1.6), (7, 2.4), (10, 3.0))


def low_error_k(days_ahead: int) -> float:
    """How far the low of a night so many days ahead is off on the average, in K."""
    days = min(max(days_ahead, _ERROR_K[0][0]), _ERROR_K[-1][0])
    for (before, one), (after, other) in pairwise(_ERROR_K):
        if days <= after:
            return one + (other - one) * (days - before) / (after - before)
    return _ERROR_K[-1][1]
