"""A year goes in; the numbers that are ours and not the trade's come out.

Each may be set in the settings' table of figures under its name.
"""

from __future__ import annotations

from typing import NamedTuple

from backbud.species import Year


class Figure(NamedTuple):
    """A number of ours: its name in the settings, its default, what it decides."""

    name: str
    default: float
    about: str

    def of(self, year: Year) -> float:
        return year.figure(self.name, self.default)


SHELTER_BELOW = Figure(
    "shelter_below_c", 17.0, "Mean of three weeks in °C under which an azalea gains by glass."
)
WARM_SUMMER_FROM = Figure(
    "warm_summer_from_c", 19.0, "Mean of the three summer months in °C from which a place is warm."
)
DECANDLE_FROM = Figure(
    "decandle_from_c", 17.0, "Mean of the summer in °C from which a pine makes its second flush."
)
COLD_NIGHT_DROP = Figure(
    "cold_night_drop_c", 8.0, "How far in °C the coldest night lies under its month's mean low."
)
LATE_FROST_BELOW = Figure(
    "late_frost_below_c", 5.0, "Mean low of a month in °C under which its nights can freeze."
)
SLOW_DRAIN_FROM = Figure(
    "slow_drain_from_s", 60.0, "Seconds a can of water takes to pass from which soil drains slowly."
)

FIGURES = (
    SHELTER_BELOW,
    WARM_SUMMER_FROM,
    DECANDLE_FROM,
    COLD_NIGHT_DROP,
    LATE_FROST_BELOW,
    SLOW_DRAIN_FROM,
)
