"""Ratings and zones in °C, and how cold roots in a pot may get."""

from __future__ import annotations

from functools import partial
from itertools import pairwise

import pint
import pytest

from backbud.climate.hardiness import (
    RHS_RATINGS,
    TemperatureRange,
    coldest_night_for_roots_c,
    rhs_range_c,
    rhs_rating_for_c,
    usda_range_c,
    usda_zone_for_c,
)

UNITS = pint.get_application_registry()

roots_bear_c = partial(coldest_night_for_roots_c, pot_margin_c=4.0)


def celsius(fahrenheit: float) -> float:
    """By pint."""
    return float(UNITS.Quantity(fahrenheit, "degF").to("degC").magnitude)


# RHS hardiness ratings, 2012/13, from memory of the published table.
@pytest.mark.parametrize(
    ("rating", "lower_c", "upper_c"),
    [
        ("H1a", 15, None),
        ("H1b", 10, 15),
        ("H1c", 5, 10),
        ("H2", 1, 5),
        ("H3", -5, 1),
        ("H4", -10, -5),
        ("H5", -15, -10),
        ("H6", -20, -15),
        ("H7", None, -20),
    ],
)
def test_rhs_ratings(rating: str, lower_c: float | None, upper_c: float | None) -> None:
    assert rhs_range_c(rating) == TemperatureRange(lower_c, upper_c)
    assert rhs_range_c(f" {rating.upper()} ") == TemperatureRange(lower_c, upper_c)


def test_there_are_nine_ratings_without_a_gap() -> None:
    ranges = list(RHS_RATINGS.values())
    assert len(ranges) == 9
    for warmer, colder in pairwise(ranges):
        assert warmer.lower_c == colder.upper_c


@pytest.mark.parametrize(
    ("coldest_c", "rating"),
    [
        (18, "H1a"),
        (15.1, "H1a"),
        (15, "H1b"),
        (10, "H1b"),
        (9.9, "H1c"),
        (1, "H2"),
        (0.9, "H3"),
        (-5, "H3"),
        (-5.1, "H4"),
        (-12, "H5"),
        (-20, "H6"),
        (-20.1, "H7"),
        (-45, "H7"),
    ],
)
def test_the_rating_that_a_night_asks_for(coldest_c: float, rating: str) -> None:
    assert rhs_rating_for_c(coldest_c) == rating


@pytest.mark.parametrize("rating", ["H1", "H8", "7a", "", "H1d"])
def test_no_such_rating(rating: str) -> None:
    with pytest.raises(ValueError, match="H1a"):
        rhs_range_c(rating)


def test_a_night_that_is_no_number() -> None:
    with pytest.raises(ValueError, match="no number"):
        rhs_rating_for_c(float("nan"))


# USDA Plant Hardiness Zone Map, from memory, in °F; to °C by pint.
@pytest.mark.parametrize(
    ("zone", "lower_f", "upper_f"),
    [
        ("1a", -60, -55),
        ("1b", -55, -50),
        ("5a", -20, -15),
        ("6b", -5, 0),
        ("7a", 0, 5),
        ("7b", 5, 10),
        ("8a", 10, 15),
        ("8b", 15, 20),
        ("9a", 20, 25),
        ("10b", 35, 40),
        ("13b", 65, 70),
        ("1", -60, -50),
        ("7", 0, 10),
        ("13", 60, 70),
    ],
)
def test_usda_zones(zone: str, lower_f: float, upper_f: float) -> None:
    of = usda_range_c(zone)
    assert of.lower_c == pytest.approx(celsius(lower_f), abs=1e-9)
    assert of.upper_c == pytest.approx(celsius(upper_f), abs=1e-9)
    assert usda_range_c(zone.upper()) == of


def test_all_twenty_six_half_zones_hold_their_lower_limit_and_their_middle() -> None:
    zones = [f"{number}{half}" for number in range(1, 14) for half in "ab"]
    for place, zone in enumerate(zones):
        lower_f = -60 + 5 * place
        assert usda_range_c(zone).lower_c == pytest.approx(celsius(lower_f), abs=1e-9)
        assert usda_zone_for_c(celsius(lower_f + 2.5)) == zone
        lower_c = usda_range_c(zone).lower_c
        assert lower_c is not None
        assert usda_zone_for_c(lower_c) == zone


def test_a_usda_zone_from_a_night() -> None:
    assert usda_zone_for_c(-18) == "6b"  # -0.4 °F
    assert usda_zone_for_c(-17.7) == "7a"  # 0.1 °F
    assert usda_zone_for_c(-5) == "9a"  # 23 °F
    assert usda_zone_for_c(celsius(-60.1)) is None
    assert usda_zone_for_c(celsius(70.1)) is None


@pytest.mark.parametrize("zone", ["0a", "14", "14a", "7c", "a", "", "7aa", "H4", "-1", "07"])
def test_no_such_zone(zone: str) -> None:
    with pytest.raises(ValueError, match="1a to 13b"):
        usda_range_c(zone)


def test_roots_in_a_pot_die_sooner() -> None:
    assert roots_bear_c("H5") == -11.0


def test_the_hardiest_have_no_lower_limit() -> None:
    assert roots_bear_c("H7") == -16.0
    assert roots_bear_c("H6") == -16.0


def test_half_hardy_roots_never_want_more_than_freezing() -> None:
    assert roots_bear_c("H3") == -1.0
    assert roots_bear_c("H3", pot_margin_c=6.0) == 0.0


@pytest.mark.parametrize(("rating", "limit_c"), [("H1a", 15), ("H1b", 10), ("H1c", 5), ("H2", 1)])
def test_the_tender_keep_their_own_limit(rating: str, limit_c: float) -> None:
    assert roots_bear_c(rating) == limit_c


def test_margins_and_ratings_that_make_no_sense() -> None:
    with pytest.raises(ValueError, match="margin"):
        roots_bear_c("H4", pot_margin_c=-1.0)
    with pytest.raises(ValueError, match="RHS"):
        roots_bear_c("hardy")
