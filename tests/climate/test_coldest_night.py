"""How cold a winter gets: both formulas fitted again, stations left out, and the order of belief.

The table frost_drop.csv holds figures of 22 stations: 18 gathered from open series by others (their
lengths and names stand in it; figures only, no series), and four worked out here from daily
minima that test packages bring (stations.py).
"""

from __future__ import annotations

from datetime import date
from math import sqrt

import numpy as np
import pytest
from tests.climate.stations import daily, monthly, stations

from backbud.climate.cold_region import Region, region_of
from backbud.climate.coldest_night import (
    BY_RANGE_ERROR_K,
    BY_REGION_K,
    BY_SPREAD_ERROR_K,
    ONE_IN_TEN,
    ONE_IN_TEN_ERROR_K,
    UNKNOWN_REGION_ERROR_K,
    SaidCold,
    coldest_night,
    drop_by_range_k,
    drop_by_spread_k,
    range_k,
    said_alone,
    zone_minimum_c,
)
from backbud.climate.frost import nights_by_season
from backbud.climate.winter_lows import Extremes, WinterLows, extremes_of, winter_lows

# Worked out from daily series, and never in the fit by range.
OURS = ("Brussels", "Champion", "Tunis", "Seattle")
MEDITERRANEAN: Region = "the Mediterranean and its like"
REGIONS: tuple[Region, ...] = ("Europe", "North America", "East Asia", MEDITERRANEAN)


def region(row) -> Region:
    return region_of(float(row["latitude"]), float(row["longitude"]))


def fitted() -> list:
    return [row for row in stations() if row["station"] not in OURS]


def least_squares(rows, terms, of: str = "drop_k") -> np.ndarray:
    return np.linalg.lstsq(
        np.array([terms(row) for row in rows]),
        np.array([float(row[of]) for row in rows]),
        rcond=None,
    )[0]


def left_out_errors(rows, terms) -> list[float]:
    """What the fit to all the others says of each, less what is true of it."""
    errors = []
    for row in rows:
        rest = least_squares([other for other in rows if other is not row], terms)
        errors.append(float(rest @ np.array(terms(row))) - float(row["drop_k"]))
    return errors


def rms(errors) -> float:
    return sqrt(sum(error**2 for error in errors) / len(errors))


def by_range(row) -> list[float]:
    dummies = [float(region(row) == one) for one in REGIONS[1:]]
    return [1.0, float(row["range_of_monthly_means_k"]), *dummies]


def by_spread(row) -> list[float]:
    return [1.0, float(row["spread_of_winter_lows_k"])]


# ------------------------------------------------------------------ the fits


def test_the_range_and_the_region_fitted_again() -> None:
    base, slope, *extra = least_squares(fitted(), by_range)
    assert base == pytest.approx(5.2, abs=0.1)
    assert slope == pytest.approx(0.28, abs=0.005)
    assert extra == pytest.approx([1.4, -7.3, -3.7], abs=0.05)
    assert list(BY_REGION_K.values()) == [0.0, 1.4, -7.3, -3.7, 0.0]


def test_each_station_left_out_once_of_the_fit_by_range() -> None:
    errors = left_out_errors(fitted(), by_range)
    assert len(errors) == 18
    assert 2.0 < rms(errors) < 2.15
    assert 3.4 < max(map(abs, errors)) < 3.5
    assert (BY_RANGE_ERROR_K, UNKNOWN_REGION_ERROR_K) == (2.1, 3.5)


def test_the_annual_range_alone_explains_nothing() -> None:
    """Tokyo drops 4 K, Kyiv 13 K at like ranges."""
    rows = fitted()
    line = least_squares(rows, lambda row: by_range(row)[:2])
    true = np.array([float(row["drop_k"]) for row in rows])
    said = np.array([line @ np.array(by_range(row)[:2]) for row in rows])
    assert 1 - ((said - true) ** 2).sum() / ((true - true.mean()) ** 2).sum() < 0.05


def test_the_spread_fitted_again_and_each_station_left_out_once() -> None:
    rows = [row for row in stations() if row["spread_of_winter_lows_k"]]
    assert len(rows) == 14
    assert least_squares(rows, by_spread) == pytest.approx([-3.0, 3.1], abs=0.05)
    assert 1.1 < rms(left_out_errors(rows, by_spread)) < 1.25
    assert BY_SPREAD_ERROR_K == 1.2


def test_one_year_in_ten_lies_1_39_times_as_far_under() -> None:
    pairs = [(float(row["drop_k"]), float(row["drop_one_in_ten_k"])) for row in fitted()]
    assert np.mean([tenth / drop for drop, tenth in pairs]) == pytest.approx(1.39, abs=0.005)
    assert 0.7 < rms([ONE_IN_TEN * drop - tenth for drop, tenth in pairs]) < 0.8
    assert ONE_IN_TEN_ERROR_K == 0.8


# ------------------------------------------------------------------ stations left out


@pytest.mark.parametrize("name", OURS)
def test_the_table_is_true_to_the_daily_series(name: str) -> None:
    series = daily(name)
    lows, highs = monthly(series)
    seasons = nights_by_season([(day, low) for day, low, _ in series], southern=False)
    spread = winter_lows(seasons, lows, southern=False)
    known = extremes_of(seasons)
    row = next(row for row in stations() if row["station"] == name)
    assert spread is not None and known is not None
    assert known.winters == int(row["winters"])
    assert min(lows) == pytest.approx(float(row["coldest_month_mean_low_c"]), abs=0.051)
    assert range_k(lows, highs) == pytest.approx(float(row["range_of_monthly_means_k"]), abs=0.051)
    assert spread.spread_k == pytest.approx(float(row["spread_of_winter_lows_k"]), abs=0.0051)
    drop = min(lows) - known.mean_annual_minimum_c
    assert drop == pytest.approx(float(row["drop_k"]), abs=0.051)
    assert abs(drop_by_spread_k(spread.spread_k) - drop) < 1.35
    assert abs(drop_by_range_k(range_k(lows, highs), region(row)) - drop) < 2.7


@pytest.mark.parametrize(
    ("name", "at", "low_c", "range_of_means_k", "mean_year_c", "one_in_ten_c"),
    [
        # Means from memory; what is expected of them is worked out by hand: 5.2 + 0.28 R + k.
        ("Nottingham", (52.95, -1.15), 1.2, 12.4, -7.5, -10.9),
        ("Milan", (45.5, 9.2), -0.9, 22.0, -8.6, -11.5),
        ("Seville", (37.4, -6.0), 5.7, 17.3, -0.6, -3.1),
        ("Lisbon", (38.7, -9.1), 8.3, 11.9, 3.5, 1.6),
        ("Christchurch", (-43.5, 172.6), 1.4, 11.1, -3.2, -5.0),
        ("Minneapolis", (45.0, -93.3), -13.0, 32.1, -28.6, -34.7),
    ],
)
def test_places_kept_out_of_the_fit(
    name: str,
    at: tuple[float, float],
    low_c: float,
    range_of_means_k: float,
    mean_year_c: float,
    one_in_ten_c: float,
) -> None:
    found = coldest_night(low_c, range_of_means_k, region_of(*at))
    assert found.mean_annual_minimum_c == pytest.approx(mean_year_c, abs=0.06)
    assert found.one_in_ten_c == pytest.approx(one_in_ten_c, abs=0.06)
    # What their stations had: Nottingham's -6.6 °C by the issue, Christchurch's about -5 °C.
    true_c = {"Nottingham": -6.6, "Christchurch": -5.0}.get(name)
    assert true_c is None or abs(found.mean_annual_minimum_c - true_c) < BY_RANGE_ERROR_K


def test_a_monsoon_winter_is_as_shielded_as_the_mediterranean() -> None:
    """Hyderabad 2000-2010, ten winters, the weather that `aquacrop` brings: in no fit. Its coldest
    night of the mean year was 7.6 °C, 5.0 °C in one of ten; as in Europe it would be 3.8 and 0.6.
    """
    lows, highs = monthly(daily("Hyderabad"))
    found = coldest_night(min(lows), range_k(lows, highs), region_of(17.4, 78.5))
    known = extremes_of(
        nights_by_season([(day, low) for day, low, _ in daily("Hyderabad")], southern=False)
    )
    assert known is not None and known.winters == 10
    assert abs(found.mean_annual_minimum_c - known.mean_annual_minimum_c) < 0.2
    assert abs(found.one_in_ten_c - known.one_in_ten_c) < BY_RANGE_ERROR_K
    europe = coldest_night(min(lows), range_k(lows, highs), "Europe")
    assert known.mean_annual_minimum_c - europe.mean_annual_minimum_c > 3.5


@pytest.mark.parametrize(
    ("name", "at", "low_c", "range_of_means_k", "mean_year_c"),
    [
        # Means and coldest nights from memory: told apart from what was fitted.
        ("Phoenix", (33.4, -112.0), 7.6, 22.0, 0.0),
        ("Cape Town", (-33.9, 18.6), 7.0, 9.0, 2.0),
        ("Perth", (-32.0, 115.9), 8.0, 11.8, 2.5),
        ("Los Angeles", (34.0, -118.3), 9.5, 8.0, 5.0),
        ("Santiago", (-33.4, -70.7), 3.5, 12.5, -2.0),
        ("Delhi", (28.6, 77.2), 7.5, 19.7, 2.5),
        ("Taipei", (25.0, 121.5), 13.9, 14.1, 7.0),
    ],
)
def test_warm_winters_far_from_the_stations(
    name: str, at: tuple[float, float], low_c: float, range_of_means_k: float, mean_year_c: float
) -> None:
    found = coldest_night(low_c, range_of_means_k, region_of(*at))
    assert abs(found.mean_annual_minimum_c - mean_year_c) < BY_RANGE_ERROR_K, name


def test_the_regions_of_the_stations() -> None:
    found = {row["station"].split()[0]: region(row) for row in stations()}
    assert found["Denver"] == found["Vancouver"] == found["Champion"] == "North America"
    assert found["Bonn"] == found["Kyiv"] == found["Zagreb"] == found["Brussels"] == "Europe"
    assert found["Tokyo"] == found["Beijing"] == "East Asia"
    assert found["Rovereto"] == found["Algiers"] == found["Melbourne"] == MEDITERRANEAN
    assert region_of(52.0, None) == region_of(None, 5.0) == region_of(-1.3, 36.8) == ""


# ------------------------------------------------------------------ the order of belief

LOWS = WinterLows(4.0, 4.0)
RECORD = Extremes(-6.0, -9.0, 1.5, 12)


def test_a_record_of_years_beats_all() -> None:
    found = coldest_night(1.0, 12.0, "Europe", record=RECORD, said=SaidCold(-11.0, "8b"), lows=LOWS)
    assert (found.mean_annual_minimum_c, found.one_in_ten_c) == (-6.0, -9.0)
    assert (found.give_or_take_k, found.lean_k) == (1.5, 1.5)
    assert found.winter_drop_k == 7.0
    assert found.known_from == "12 winters on record"


def test_then_the_coldest_night_on_the_card() -> None:
    """12 K under the mean low in one year of ten, so 12 / 1.39 = 8.63 K in the mean year."""
    found = coldest_night(1.0, 12.0, "Europe", said=SaidCold(-11.0, "8b"), lows=LOWS)
    assert found.one_in_ten_c == -11.0
    assert found.mean_annual_minimum_c == pytest.approx(-7.63, abs=0.01)
    assert (found.give_or_take_k, found.lean_k) == (0.8, 0.8)


def test_then_the_hardiness_zone() -> None:
    """Zone 8b is 15 to 20 °F, so -9.44 to -6.67 °C, a mean annual minimum of -8.06 ± 1.39; one
    in ten: 1 - 1.39 x 9.06 = -11.59, ± the root of (1.39 x 1.39)² + 0.8²."""
    assert zone_minimum_c("8b") == pytest.approx((-8.056, 1.389), abs=0.001)
    found = coldest_night(1.0, 12.0, "Europe", said=SaidCold(None, "8b"), lows=LOWS)
    assert found.mean_annual_minimum_c == pytest.approx(-8.06, abs=0.01)
    assert found.one_in_ten_c == pytest.approx(-11.59, abs=0.01)
    assert found.give_or_take_k == pytest.approx(2.09, abs=0.01)


def test_then_the_spread_of_its_winter_lows() -> None:
    """3.1 x 4 - 3 = 9.4 K; one winter of a spread of 4 K is uncertain by 1.4 + 2.2 / 3 = 2.13 K,
    so four by 1.07, and with the formula's 1.2 by 1.61 K."""
    found = coldest_night(1.0, 12.0, "Europe", lows=LOWS)
    assert found.mean_annual_minimum_c == pytest.approx(-8.4)
    assert found.give_or_take_k == pytest.approx(sqrt((1.39 * 1.605) ** 2 + 0.64), abs=0.01)
    assert found.known_from == "by how its winter lows spread, 4.0 K"


def test_and_last_its_months_and_its_region() -> None:
    """5.2 + 0.28 x 12 = 8.56 K. One continental winter, ± 3.8 K, tells less than that."""
    plain = coldest_night(1.0, 12.0, "Europe")
    assert plain.mean_annual_minimum_c == pytest.approx(-7.56)
    assert plain.one_in_ten_c == pytest.approx(1 - 1.39 * 8.56)
    assert plain.give_or_take_k == pytest.approx(3.03, abs=0.01)
    assert plain.lean_k == 2.0
    assert coldest_night(1.0, 12.0, "Europe", lows=WinterLows(6.0, 1.0)) == plain
    nowhere = coldest_night(1.0, 12.0, "")
    assert nowhere.mean_annual_minimum_c == plain.mean_annual_minimum_c
    assert nowhere.give_or_take_k == pytest.approx(4.93, abs=0.01)
    assert nowhere.known_from.startswith("by its months, as in Europe: where it lies is not known")


def test_a_card_alone() -> None:
    assert said_alone(SaidCold()) is None
    coldest, zone = said_alone(SaidCold(-11.0)), said_alone(SaidCold(None, "8b"))
    assert coldest is not None and zone is not None
    assert coldest.one_in_ten_c == -11.0
    assert zone.mean_annual_minimum_c == pytest.approx(-8.06, abs=0.01)
    # 0.39 x 9 K under that.
    assert zone.one_in_ten_c == pytest.approx(-11.57, abs=0.01)


# ------------------------------------------------------------------ against a limit


@pytest.mark.parametrize(
    ("limit_c", "verdict"),
    [
        (-10.0, "comes"),
        (-11.8, "comes"),
        (-12.0, "nearly"),
        (-12.8, "nearly"),
        (-13.0, "close"),
        (-13.9, "close"),
        (-14.0, "does not come"),
    ],
)
def test_it_leans_two_kelvin_to_the_cold_side_and_tells_what_is_close(
    limit_c: float, verdict: str
) -> None:
    """One in ten -10.898 °C: with half the lean -11.898, with all of it -12.898, with the
    ± of 3.026 K -13.925 °C."""
    found = coldest_night(1.0, 12.0, "Europe")
    assert found.against(limit_c) == verdict


def test_milder_nights_under_a_cover_count() -> None:
    found = coldest_night(1.0, 12.0, "Europe")
    assert found.against(-8.0) == "comes"
    assert found.against(-8.0, milder_k=6.0) == "does not come"


def test_the_night_in_words() -> None:
    assert coldest_night(1.0, 12.0, "Europe").said() == (
        "The coldest night here is −7.6 °C in the mean year and −10.9 °C in one of ten, ± 3.0 K "
        "(by its months, as in Europe)."
    )


@pytest.mark.parametrize(
    ("southern", "month", "counts"),
    [
        (False, 2, True),
        (False, 12, True),
        (False, 3, False),
        (True, 6, True),
        (True, 8, True),
        (True, 9, False),
    ],
)
def test_winter_is_december_to_february_and_in_the_south_june_to_august(
    southern: bool, month: int, counts: bool
) -> None:
    """Twenty nights of each of three years."""
    nights = [date(year, month, n) for year in (2021, 2022, 2023) for n in range(1, 21)]
    lows = [(night, float(night.day % 4)) for night in nights]
    found = winter_lows(nights_by_season(lows, southern=southern), [1.0] * 12, southern=southern)
    assert (found is not None) is counts
