"""Autumn root work in soil that has cooled, with weeks left to root in before the frost.

Crown gall thrives near 22 °C, so cut roots wait for cooler soil; six frost-free weeks let them heal
(from memory). Growers give September to October (2018 to 2021, as gathered for the trade's facts).
"""

from __future__ import annotations

from datetime import timedelta

from backbud.species import Stage, Window, Year, phrase
from backbud_species.habits.repotting import until
from backbud_species.habits.times import Time

# The mean of the day under which the soil of a pot stays well below 22 °C; ours: so Tokyo begins in
# the middle of October, and Britain in September.
_COOL_C = 18.0
# Autumn, where no summer is so warm.
_AUTUMN = (9, 1)
# And under which a summer is over; ours.
_MILD_C = 20.0
_SIX_WEEKS = timedelta(weeks=6)
# Nights that freeze a pot, and not only its surface; ours.
_FROST_C = -2.0


def in_cooled_soil_or_spring() -> Time:
    """From the day of autumn on which the mean stays under 18 °C, until six weeks before frosts of
    -2 °C.

    As the buds swell where autumn is too short for that, or nothing is known of the weather.
    """

    def window(given: Stage, year: Year) -> Window:
        autumn = _autumn(year)
        return autumn if autumn is not None else until(given, year.stage(7))

    def datum(given: Stage, year: Year) -> str:
        if year.outlook is None or _autumn(year) is None:
            return given.because
        return phrase(
            "The mean of the day stays under {cool_c:g} °C from the first day of this time on.",
            cool_c=_COOL_C,
        )

    return Time("stage", "year", 1, window, datum)


def _autumn(year: Year) -> Window | None:
    if year.outlook is None:
        return None
    warm, first = year.stays_over(_COOL_C), year.on(_AUTUMN)
    opens = max(warm + timedelta(days=1), first) if warm else first
    frost = year.cold_nights_begin(_FROST_C)
    closes = opens + _SIX_WEEKS
    if frost is not None:
        closes = min(closes, frost.day - _SIX_WEEKS)
    if closes < opens + timedelta(days=7):
        return None
    best = opens + (closes - opens) / 3
    return year.rounded(Window(opens, best, closes))


def as_summer_cools(year: Year) -> Window | None:
    """From the day on which the mean stays under 20 °C to six weeks before frosts of -2 °C: the
    autumn time of conifers. Common practice; the figures are ours."""
    if year.outlook is None:
        return year.months((8, 25), (9, 10), (9, 30))
    warm = year.stays_over(_MILD_C)
    opens = max(warm + timedelta(days=1) if warm else year.on((8, 15)), year.on((8, 15)))
    frost = year.cold_nights_begin(_FROST_C)
    closes = min(opens + _SIX_WEEKS, frost.day - _SIX_WEEKS) if frost else opens + _SIX_WEEKS
    return Window(opens, opens, closes) if opens <= closes else None
