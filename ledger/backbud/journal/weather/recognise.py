"""Tells in which of the known forms a weather file is written."""

from __future__ import annotations

from collections.abc import Sequence

from backbud.journal.weather import ghcn_daily, plain_csv, station_months
from backbud.journal.weather.series import WeatherForm

# The plain one comes last: its columns may be any, so it would take others for its own.
FORMS: tuple[WeatherForm, ...] = (
    ghcn_daily.WIDE,
    ghcn_daily.LONG,
    station_months.FORM,
    plain_csv.FORM,
)


def recognise(lines: Sequence[str]) -> WeatherForm | None:
    """Return the first form that knows the text as its own, or None."""
    return next((form for form in FORMS if form.recognises(lines)), None)
