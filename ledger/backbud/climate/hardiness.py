"""What hardiness ratings and zones mean in °C, and how much less roots in a pot bear.

RHS ratings speak of the coldest night that a plant's top bears in open ground, USDA zones of the
mean of each year's coldest night at a place. Roots die at a temperature several degrees higher
than shoots, and in a pot they have no soil around them that holds the day's warmth: so they are
what a hard night kills first.
"""

from __future__ import annotations

from math import isnan

from msgspec import Struct


class TemperatureRange(Struct, frozen=True, gc=False):
    """From `lower_c` to `upper_c`, in °C; None where the range is open on that side."""

    lower_c: float | None
    upper_c: float | None


_H7_UPPER_C = -20.0

# Royal Horticultural Society hardiness ratings, 2012/13; from memory of the published table.
# The most tender first.
RHS_RATINGS: dict[str, TemperatureRange] = {
    "H1a": TemperatureRange(15.0, None),
    "H1b": TemperatureRange(10.0, 15.0),
    "H1c": TemperatureRange(5.0, 10.0),
    "H2": TemperatureRange(1.0, 5.0),
    "H3": TemperatureRange(-5.0, 1.0),
    "H4": TemperatureRange(-10.0, -5.0),
    "H5": TemperatureRange(-15.0, -10.0),
    "H6": TemperatureRange(-20.0, -15.0),
    "H7": TemperatureRange(None, _H7_UPPER_C),
}

# Frost kills these, in a pot or not.
_TENDER = frozenset({"H1a", "H1b", "H1c", "H2"})


def _celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) * 5 / 9


# USDA Plant Hardiness Zone Map, from memory: zone 1a begins at -60 °F, each half-zone is 5 °F wide.
# The coldest first.
_USDA_HALF_ZONES_C: dict[str, tuple[float, float]] = {
    f"{number}{half}": (_celsius(lower_f), _celsius(lower_f + 5))
    for number in range(1, 14)
    for half, lower_f in (("a", 10 * number - 70), ("b", 10 * number - 65))
}


def rhs_range_c(rating: str) -> TemperatureRange:
    """Return the range (°C) of an RHS rating, H1a to H7, in either case; ValueError for others."""
    return RHS_RATINGS[_rhs_rating(rating)]


def rhs_rating_for_c(coldest_night_c: float) -> str:
    """Return the most tender RHS rating that bears a night of so many °C.

    A range holds its own lower limit, but H1a is for more than 15 °C. What is colder than every
    lower limit asks for H7. ValueError for what is no number.
    """
    if isnan(coldest_night_c):
        raise ValueError("the coldest night is no number")
    return next(
        rating
        for rating, of in RHS_RATINGS.items()
        if of.lower_c is None
        or coldest_night_c > of.lower_c
        or (coldest_night_c == of.lower_c and of.upper_c is not None)
    )


def usda_range_c(zone: str) -> TemperatureRange:
    """Return the range (°C) of a USDA zone (`7`, 10 °F wide) or half-zone (`7a`, 5 °F wide).

    Zones 1 to 13; ValueError for others.
    """
    name = zone.strip().lower()
    # A whole zone is its two halves.
    halves = [half for half in _USDA_HALF_ZONES_C if name in (half, half[:-1])]
    if not halves:
        raise ValueError(f"USDA zones run from 1a to 13b, not {zone!r}")
    return TemperatureRange(_USDA_HALF_ZONES_C[halves[0]][0], _USDA_HALF_ZONES_C[halves[-1]][1])


def usda_zone_for_c(coldest_night_c: float) -> str | None:
    """Return the USDA half-zone, 1a to 13b, of a mean yearly coldest night in °C.

    A half-zone holds its lower limit and not its upper one. None where no zone is that cold or
    that warm.
    """
    for zone, (lower_c, upper_c) in _USDA_HALF_ZONES_C.items():
        if lower_c <= coldest_night_c < upper_c:
            return zone
    return None


def coldest_night_for_roots_c(rating: str, *, pot_margin_c: float) -> float:
    """Return the coldest night (°C) that mature roots in a pot bear, by the plant's RHS rating.

    Ratings speak of tops in open ground, and roots in a pot die sooner: so the lower limit of the
    rating is raised by `pot_margin_c`, a setting (common practice, no source). The pot itself is
    no help: above ground it reaches the air's temperature within hours (Gouin, Bay Weekly). For
    H3 and hardier the outcome is never above 0 °C; tender ratings (H1, H2) give their own lower
    limit. H7 has none, so its upper one is taken. ValueError for an unknown rating or a negative
    margin.
    """
    if pot_margin_c < 0:
        raise ValueError("a margin of less than 0 °C would make roots hardier than the top")
    known = _rhs_rating(rating)
    of = RHS_RATINGS[known]
    limit_c = _H7_UPPER_C if of.lower_c is None else of.lower_c
    return limit_c if known in _TENDER else min(limit_c + pot_margin_c, 0.0)


def _rhs_rating(rating: str) -> str:
    name = rating.strip().capitalize()
    if name not in RHS_RATINGS:
        raise ValueError(f"RHS ratings are {', '.join(RHS_RATINGS)}, not {rating!r}")
    return name
