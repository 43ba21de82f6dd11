"""How well growth stages are foretold, and how long a year's plan takes with years of weather.

Not part of the suite: `pytest tests/benchmarks/bench_climate.py -s`.
"""

from __future__ import annotations

import os
import shutil
import time
from collections.abc import Mapping
from datetime import date, timedelta
from pathlib import Path
from random import Random
from statistics import mean

import pytest
from generate import generate

from backbud.climate.air import OPEN_AIR, PlaceAir
from backbud.climate.days import MonthlyMeans, WeatherDay
from backbud.climate.forecast import MOST_DAYS_AHEAD, Forecast, ForecastDay, low_error_k
from backbud.climate.stages import Need, Own, Traces, expected_stage
from backbud.session import open_session

ACTS = int(os.environ.get("ACTS", "100000"))
YEARS = range(2012, 2016)
LATITUDE = 47.6
# What a stage of early, middle and late spring and of summer may ask for.
SUMS = (10.0, 30.0, 60.0, 120.0, 200.0, 400.0, 800.0)
TODAY = date(2026, 11, 25)

Days = Mapping[date, WeatherDay]


@pytest.fixture(scope="module")
def seattle() -> Days:
    """Daily lows, highs and rain of Seattle 2012-15 (NOAA, from the vega_datasets package)."""
    from vega_datasets import data

    return {
        row.date.date(): WeatherDay(row.date.date(), row.temp_min, row.temp_max, row.precipitation)
        for row in data.seattle_weather().itertuples()
    }


def means_of(days: Days) -> MonthlyMeans:
    months = [[d for d in days.values() if d.day.month == month] for month in range(1, 13)]
    return MonthlyMeans(
        tuple(mean(d.low_c or 0.0 for d in month) for month in months),
        tuple(mean(d.high_c or 0.0 for d in month) for month in months),
    )


def traces(days: Days, means: MonthlyMeans, today: date) -> Traces:
    return Traces(PlaceAir(days, means, today, "means"), OPEN_AIR, LATITUDE)


def test_stages_are_foretold_better_than_by_the_average_year(seattle: Days) -> None:
    """For each year, foretold from its days up to 1 March and from the other years' averages only.

    The truth is the day on which the year's own days reach the sum; the naive guess is the same
    date as in the average of the other years.
    """
    ours, naive = [], []
    for year in YEARS:
        first = date(year, 1, 1)
        others = {day: seen for day, seen in seattle.items() if day.year != year}
        until_march = {d: s for d, s in seattle.items() if first <= d < date(year, 3, 1)}
        foretold = traces(until_march, means_of(others), date(year, 2, 29 if year == 2012 else 28))
        whole = traces(seattle, means_of(seattle), date(2015, 12, 31))
        for degree_days in SUMS:
            need = Need("heat", 5.0, degree_days)
            truth = whole.of("heat", first, 5.0).reaches(degree_days)
            guess = expected_stage(foretold, first, first, need, Own(), date(year, 12, 31))
            assert truth is not None and guess is not None
            ours.append(abs((guess.day - truth).days))
            before = [
                (reached - date(other, 1, 1)).days
                for other in YEARS
                if other != year
                and (reached := whole.of("heat", date(other, 1, 1), 5.0).reaches(degree_days))
            ]
            usual = first + timedelta(days=round(mean(before)))
            naive.append(abs((usual - truth).days))
    print(
        f"\nfrom days up to 1 March, {len(ours)} stages in {len(YEARS)} years of Seattle: "
        f"{mean(ours):.1f} days off (the most {max(ours)}); "
        f"same date as the average year: {mean(naive):.1f} days off (the most {max(naive)})"
    )
    assert mean(ours) < mean(naive)


# Mean absolute error of temperature by days ahead at Schmittenhöhe, Austria, in the winter of
# 2011/2012, of more than 300 forecasts; MetGIS, "Forecast Quality: Temperature", read on its page.
PUBLISHED_ERROR_K = {1: 1.03, 2: 1.15, 3: 1.36, 4: 1.82, 5: 2.32}


def forecast_of(days: Days, today: date, random: Random) -> Forecast:
    """A forecast as one might have been: what came, and an error drawn for each day.

    No forecast of those years is at hand. The error is normal, the same for low and high of a day
    and half of the day's before, with the mean size that is published for its lead, up to five
    days (`PUBLISHED_ERROR_K`); of later ones with that of climate/forecast.py, from memory. A real
    forecast may be off for a whole week in one direction; this one seldom is.
    """
    found: dict[date, ForecastDay] = {}
    error = 0.0
    for ahead in range(1, MOST_DAYS_AHEAD + 1):
        seen = days.get(today + timedelta(days=ahead))
        if seen is None or seen.low_c is None or seen.high_c is None:
            break
        # Of a normal error the mean size is 0.798 of its standard deviation.
        stray = PUBLISHED_ERROR_K.get(ahead, low_error_k(ahead)) / 0.798
        error = 0.5 * error + random.gauss(0.0, stray * (1 - 0.25) ** 0.5)
        found[seen.day] = ForecastDay(seen.day, seen.low_c + error, seen.high_c + error)
    return Forecast(today, found)


def test_a_forecast_gains_days_on_stages_that_are_near(seattle: Days) -> None:
    """Each stage foretold five and ten days before it comes, with a forecast and without."""
    random = Random(18)
    whole = traces(seattle, means_of(seattle), date(2015, 12, 31))
    for before in (5, 10):
        off: dict[bool, list[int]] = {True: [], False: []}
        for year in YEARS:
            first = date(year, 1, 1)
            others = {day: seen for day, seen in seattle.items() if day.year != year}
            for degree_days in SUMS:
                truth = whole.of("heat", first, 5.0).reaches(degree_days)
                assert truth is not None
                today = truth - timedelta(days=before)
                known = {d: s for d, s in seattle.items() if first <= d <= today}
                need = Need("heat", 5.0, degree_days)
                for has in off:
                    forecast = forecast_of(seattle, today, random) if has else None
                    air = PlaceAir(known, means_of(others), today, "means", forecast=forecast)
                    traced = Traces(air, OPEN_AIR, LATITUDE)
                    guess = expected_stage(traced, first, first, need, Own(), date(year, 12, 31))
                    assert guess is not None
                    off[has].append(abs((guess.day - truth).days))
        print(
            f"\n{before} days before, {len(off[True])} stages: {mean(off[True]):.2f} days off with "
            f"a forecast (the most {max(off[True])}), {mean(off[False]):.2f} by the climate alone "
            f"(the most {max(off[False])})"
        )
        assert mean(off[True]) < mean(off[False])


def test_a_plan_with_twenty_years_of_weather(seattle: Days, tmp_path: Path) -> None:
    """A year's plan of about a thousand trees against the time to parse their journal, cold."""
    folder = tmp_path / "journal"
    generate(folder, ACTS)
    rows = ["date,low,high,rain"]
    day = date(TODAY.year - 20, TODAY.month, 1)
    while day < TODAY:
        # The four open years over and over.
        like = seattle[date(2012 + day.year % 4, day.month, min(day.day, 28))]
        rows.append(f"{day},{like.low_c},{like.high_c},{like.rain_mm}")
        day += timedelta(days=1)
    (folder / "weather.csv").write_text("\n".join(rows) + "\n")
    cards = folder / "cards" / "places.txt"
    text = cards.read_text()
    cards.write_text(
        text.replace("  elevation 60 m\n", "  elevation 60 m\n  weather weather.csv\n")
    )

    parse, plan, trees = float("inf"), float("inf"), 0
    for _ in range(3):
        shutil.rmtree(folder / ".backbud", ignore_errors=True)
        start = time.process_time()
        session = open_session(str(folder), TODAY)
        parsed = time.process_time()
        session.weather.record_of("")
        trees = len(session.plan().trees)
        parse, plan = min(parse, parsed - start), min(plan, time.process_time() - parsed)
    print(
        f"\nplan of {trees} trees with 20 years of weather: {plan:.2f} s, parsing {parse:.2f} s, "
        f"ratio {plan / parse:.1f} (limit 5)"
    )
    assert plan < 5 * parse
