"""Open daily minima that test packages bring, and the stations of the frost figures.

Brussels 1976-2005, Champion (Nebraska) 1982-2018, Tunis 1979-2002 and Hyderabad 2000-2010 are the
example weather of `aquacrop` (MIT licence); Seattle 2012-15 is NOAA's, in `vega_datasets`. They are
read from where the packages lie, without importing the former.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from datetime import date
from functools import cache
from importlib.metadata import files
from pathlib import Path
from statistics import mean

TABLE = Path(__file__).with_name("frost_drop.csv")
Series = tuple[tuple[date, float, float], ...]


@cache
def daily(name: str) -> Series:
    """The day, the low and the high (°C) of each day."""
    if name == "Seattle":
        from vega_datasets import data

        rows = data.seattle_weather().itertuples()
        return tuple((row.date.date(), row.temp_min, row.temp_max) for row in rows)
    wanted = f"{name.lower()}_climate.txt"
    path = next(file for file in files("aquacrop") or () if file.name == wanted)
    lines = Path(path.locate()).read_text(encoding="utf-8").splitlines()[1:]
    fields = (line.split() for line in lines if line.strip())
    return tuple((date(int(f[2]), int(f[1]), int(f[0])), float(f[3]), float(f[4])) for f in fields)


def monthly(series: Series) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """The mean lows and highs (°C) of the twelve months."""
    by_month = [[day for day in series if day[0].month == month] for month in range(1, 13)]
    return (
        tuple(mean(low for _, low, _ in days) for days in by_month),
        tuple(mean(high for _, _, high in days) for days in by_month),
    )


def stations() -> tuple[Mapping[str, str], ...]:
    """The rows of the table."""
    with TABLE.open(encoding="utf-8", newline="") as file:
        return tuple(csv.DictReader(file))
