"""Says what each met service wants to be named by where its data are shown."""

from __future__ import annotations

from collections.abc import Mapping

# By the name that stands as `source` in a forecast or a past day. MET Norway's licence is CC BY
# 4.0 (its terms of service); what the US National Weather Service publishes is in the public
# domain, and so is GHCN-Daily.
MET_NORWAY, US_WEATHER_SERVICE, GHCN_DAILY = "MET Norway", "US National Weather Service", "NOAA"
_CREDITS: Mapping[str, str] = {
    MET_NORWAY: "Based on data from MET Norway, CC BY 4.0 "
    "(https://creativecommons.org/licenses/by/4.0/).",
    US_WEATHER_SERVICE: "Forecast data of the US National Weather Service, in the public domain.",
    GHCN_DAILY: "Past days from NOAA’s Global Historical Climatology Network, daily.",
}


def credit_of(source: str) -> str:
    """What to show beside data of a source, "" where nobody says whose they are."""
    if not source:
        return ""
    return _CREDITS.get(source, f"Weather data by {source}.")
