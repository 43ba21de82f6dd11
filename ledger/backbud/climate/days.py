"""What is known of the weather of one day, and of the twelve months of a place."""

from __future__ import annotations

from datetime import date

from msgspec import Struct


class WeatherDay(Struct, frozen=True, gc=False):
    """One day's weather as measured; None where nothing was written down.

    `low_c`, `high_c`: air temperature in °C. `rain_mm`: all precipitation. `humidity_percent`: the
    day's mean. `wind_m_per_s`: the day's mean at 2 m. `sun_hours`: hours of bright sunshine.
    """

    day: date
    low_c: float | None = None
    high_c: float | None = None
    rain_mm: float | None = None
    humidity_percent: float | None = None
    wind_m_per_s: float | None = None
    sun_hours: float | None = None

    @property
    def mean_c(self) -> float | None:
        """The middle of low and high, in °C; None unless both are known."""
        if self.low_c is None or self.high_c is None:
            return None
        return (self.low_c + self.high_c) / 2


class MonthlyMeans(Struct, frozen=True, gc=False):
    """Twelve means, January first: daily low and high in °C; total rain in mm, or () if unknown."""

    low_c: tuple[float, ...]
    high_c: tuple[float, ...]
    rain_mm: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        if len(self.low_c) != 12 or len(self.high_c) != 12 or len(self.rain_mm) not in (0, 12):
            raise ValueError("twelve means are needed for each")
