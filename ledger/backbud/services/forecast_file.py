"""Writes a forecast as the plain file that a keeper could have written."""

from __future__ import annotations

from datetime import UTC

from backbud.climate.forecast import ForecastDay
from backbud.journal.weather.credits import credit_of
from backbud.services.service import Told

HEAD = "date,low C,high C,rain mm,wind m/s,gust m/s,made,source"


def forecast_text(told: Told, source: str) -> str:
    """The bytes of the file: the same forecast gives the same text."""
    made = told.made.astimezone(UTC).strftime("%Y-%m-%d %H:%M")
    rows = [
        f"{_row(day)},{made if n == 0 else ''},{source if n == 0 else ''}"
        for n, day in enumerate(told.days.values())
    ]
    remark = f"# {credit_of(source)} What is foretold here, nobody measured."
    return "\n".join((remark, HEAD, *rows)) + "\n"


def _row(day: ForecastDay) -> str:
    figures = (day.low_c, day.high_c, day.rain_mm, day.wind_m_per_s, day.gust_m_per_s)
    return ",".join((f"{day.day}", *("" if one is None else f"{one:z.1f}" for one in figures)))
