"""How many litres a potted tree loses on a day, and how long the water in its pot lasts.

Every figure here is an estimate to plan by, never "water now": a finger in the soil decides.
Unless its source is named, a figure is common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, timedelta
from itertools import pairwise
from math import pi

from msgspec import Struct

from backbud.bench.pots import not_negative, positive

ESTIMATE = "An estimate to plan by: a finger in the soil decides."

# Water lost over ET0, for each m² the canopy covers, by how dense the foliage is.
CANOPY_FACTORS: Mapping[str, float] = {"bare": 0.15, "thin": 0.5, "medium": 0.8, "dense": 1.1}
# Share of the rain over the pot that a canopy lets through or leads into it.
RAIN_PAST_CANOPY = 0.6
# Share of a pot's volume that a drained mix holds as water.
SHARE_HELD = 0.35
# Of the light that a net takes, so much shows in the water lost: dry wind goes on drinking.
NET_EFFECT = 0.7


class WaterCover(Struct, frozen=True, gc=False):
    """What is over a place: water lost under it over that in the open, and rain that comes in."""

    factor: float = 1.0
    rain_share: float = 1.0


def shade_net(shade_percent: float, net_effect: float = NET_EFFECT) -> WaterCover:
    """Return a net's cover: it takes so many percent of the light, and lets the rain through.

    The water lost falls evenly with the light let through; `net_effect` 1 takes it down by the
    whole percent. ValueError unless the percent is from 0 to 100 and the effect from 0 to 1.
    """
    _share(shade_percent / 100, "share of the light the net takes")
    _share(net_effect, "effect of the net")
    return WaterCover(1 - net_effect * shade_percent / 100)


class PottedTree(Struct, frozen=True, gc=False):
    """What a pot's water hangs on: canopy and pot as seen from above (m²), litres held, cover.

    ValueError where a figure is below zero, or a share above one.
    """

    canopy_area_m2: float
    pot_area_m2: float
    held_litres: float
    canopy_factor: float = CANOPY_FACTORS["medium"]
    cover: WaterCover = WaterCover()
    rain_past_canopy: float = RAIN_PAST_CANOPY

    def __post_init__(self) -> None:
        not_negative(self.canopy_area_m2, "area of the canopy in m²")
        not_negative(self.pot_area_m2, "area of the pot in m²")
        not_negative(self.held_litres, "litres of water the pot holds")
        not_negative(self.canopy_factor, "factor of the canopy")
        not_negative(self.cover.factor, "factor of the cover")
        _share(self.rain_past_canopy, "share of rain that gets past the canopy")
        _share(self.cover.rain_share, "share of rain that gets past the cover")


class WeekOfWater(Struct, frozen=True, gc=False):
    """Seven days, the first and last included, and the litres a pot must be given in them."""

    first: date
    last: date
    litres: float


def canopy_area_m2(spread_cm: float, across_cm: float | None = None) -> float:
    """Return the area (m²) under a canopy, an ellipse by its two spreads (cm; round if one)."""
    across_cm = spread_cm if across_cm is None else across_cm
    not_negative(spread_cm, "spread of the canopy in cm")
    not_negative(across_cm, "spread of the canopy across in cm")
    return pi / 4 * spread_cm * across_cm / 10_000


def litres_held(pot_litres: float, share_held: float = SHARE_HELD) -> float:
    """Return the water (L) a drained pot holds: an estimate, a finger in the soil decides."""
    not_negative(pot_litres, "litres of the pot")
    _share(share_held, "share of water the mix holds")
    return pot_litres * share_held


def litres_lost_a_day(tree: PottedTree, et0_mm: float) -> float:
    """Return the litres lost on a day of so much ET0 (mm); 1 mm on 1 m² is 1 litre.

    ET0 x canopy factor x canopy area x cover factor: a crop's water is a coefficient x ET0 (from
    memory of FAO-56, Allen et al. 1998). An estimate: a finger in the soil decides. ValueError
    below zero.
    """
    not_negative(et0_mm, "ET0 in mm")
    return et0_mm * tree.canopy_factor * tree.canopy_area_m2 * tree.cover.factor


def litres_of_rain_caught(tree: PottedTree, rain_mm: float) -> float:
    """Return the litres of a day's rain (mm) that reach the soil: pot area x share let past.

    An estimate: a finger in the soil decides. ValueError below zero.
    """
    not_negative(rain_mm, "rain in mm")
    return rain_mm * tree.pot_area_m2 * tree.rain_past_canopy * tree.cover.rain_share


def litres_a_day(tree: PottedTree, et0_mm: float, rain_mm: float = 0.0) -> float:
    """Return the litres lost on a day less the rain caught; below zero where rain brings more.

    An estimate: a finger in the soil decides. ValueError where ET0 or rain is below zero.
    """
    return litres_lost_a_day(tree, et0_mm) - litres_of_rain_caught(tree, rain_mm)


def days_until_half_gone(tree: PottedTree, days: Iterable[tuple[float, float]]) -> float | None:
    """Return in how many days, parts of a day too, a watered pot has lost half of what it holds.

    `days`: ET0 and rain (mm) of each day from the watering on, each spread evenly over its day;
    rain beyond a full pot runs off. None where it lasts longer than the days given.
    An estimate: a finger in the soil decides. ValueError below zero, or where nothing is held.
    """
    positive(tree.held_litres, "litres of water the pot holds")
    half = tree.held_litres / 2
    gone = 0.0
    for count, (et0_mm, rain_mm) in enumerate(days):
        loss = litres_a_day(tree, et0_mm, rain_mm)
        if gone + loss >= half:
            return count + (half - gone) / loss
        gone = max(gone + loss, 0.0)
    return None


def hottest_week(tree: PottedTree, days: Sequence[tuple[date, float, float]]) -> WeekOfWater | None:
    """Return the seven days running in which a pot must be given most; the first of equals.

    `days`: day, ET0 and rain (mm), rising; a day on which rain brings more than is lost counts as
    none. None where no seven days run without a gap. An estimate: a finger in the soil decides.
    ValueError where days do not rise, or a figure is below zero.
    """
    dates = [day for day, _, _ in days]
    if any(later <= day for day, later in pairwise(dates)):
        raise ValueError("The days must rise, each once.")
    litres = [max(litres_a_day(tree, et0_mm, rain_mm), 0.0) for _, et0_mm, rain_mm in days]
    weeks = (
        WeekOfWater(dates[at], dates[at + 6], sum(litres[at : at + 7]))
        for at in range(len(days) - 6)
        if dates[at + 6] - dates[at] == timedelta(days=6)
    )
    return max(weeks, key=lambda week: week.litres, default=None)


def _share(value: float, name: str) -> None:
    if not 0 <= value <= 1:
        raise ValueError(f"Give the {name}, from 0 to 1 (not {value:g}).")
