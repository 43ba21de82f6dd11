"""The bounds beyond which a measured value is a slip or in a wrong unit."""

from __future__ import annotations

# Lowest and highest, and how they are said. Rain of a day has reached 1825 mm, air -89.2 °C and
# 56.7 °C (from memory of the WMO's archive of extremes); beyond these it is a slip or a wrong unit.
OF_A_DAY: dict[str, tuple[float, float, str]] = {
    "low_c": (-90, 57, "-90 to 57 °C"),
    "high_c": (-90, 57, "-90 to 57 °C"),
    "rain_mm": (0, 2000, "0 to 2000 mm"),
    "humidity_percent": (0, 100, "0 to 100 %"),
    "wind_m_per_s": (0, 100, "0 to 100 m/s"),
    "sun_hours": (0, 24, "0 to 24 h"),
}
OF_A_MONTH: dict[str, tuple[float, float, str]] = {
    "low_c": OF_A_DAY["low_c"],
    "high_c": OF_A_DAY["high_c"],
    # A month's rain has reached 9300 mm (from memory of the same archive).
    "rain_mm": (0, 10000, "0 to 10000 mm"),
    "sun_hours": (0, 744, "0 to 744 h"),
}
# Gusts have reached 113 m/s (from memory of the same archive).
OF_A_FORECAST: dict[str, tuple[float, float, str]] = {
    **{field: OF_A_DAY[field] for field in ("low_c", "high_c", "rain_mm", "wind_m_per_s")},
    "gust_m_per_s": (0, 120, "0 to 120 m/s"),
}
SAID = {
    "low_c": "low",
    "high_c": "high",
    "rain_mm": "rain",
    "humidity_percent": "humidity",
    "wind_m_per_s": "wind",
    "sun_hours": "sun",
    "gust_m_per_s": "gust",
}


def impossible(field: str, value: float, limits: dict[str, tuple[float, float, str]]) -> str:
    """Return why a value cannot be, or "" when it can."""
    lowest, highest, said = limits[field]
    if lowest <= value <= highest:
        return ""
    unit = said.rsplit(" ", 1)[1]
    return f"{SAID[field]} of {value:g} {unit} cannot be; expected {said}"
