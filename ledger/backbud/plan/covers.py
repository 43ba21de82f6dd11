"""Says what the cover of a place does to the air, the light and the water lost under it.

Unless its source is named, a figure is common practice, no source; each is a setting under its
name.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from msgspec import Struct

from backbud.bench.water import NET_EFFECT, WaterCover, shade_net
from backbud.climate.air import OPEN_AIR, Shift
from backbud.species import Figure

FRAME_LOW = Figure("frame_low_c", 1.0, "°C a cold frame or tunnel adds to the low.")
FRAME_HIGH = Figure("frame_high_c", 3.0, "°C a cold frame or tunnel adds to the high.")
GLASS_LOW = Figure("glass_low_c", 1.5, "°C unheated glass adds to the low.")
GLASS_HIGH = Figure("glass_high_c", 6.0, "°C unheated glass adds to the high.")
INDOORS_LEAST = Figure("indoors_least_c", 15.0, "The coldest it gets indoors, in °C.")
SHADE_HIGH = Figure("shade_high_c", 2.0, "°C a full shade net takes from the high.")
GLASS_LIGHT = Figure("glass_light", 0.7, "Share of the light under glass, in a tunnel or frame.")
INDOOR_LIGHT = Figure("indoor_light", 0.1, "Share of the light indoors.")
FRAME_WATER = Figure("frame_water", 0.6, "Water lost in a cold frame over that in the open.")
TUNNEL_WATER = Figure("tunnel_water", 0.75, "Water lost in a tunnel over that in the open.")
# ET0 by pan was 17.6 mm a week within and 27.6 mm without (Amiri, Abedi-Koupai & Eslamian 2018,
# Int. J. Global Environmental Issues 17(4), abstract).
GLASS_WATER = Figure("glass_water", 0.64, "Water lost under glass over that in the open.")
INDOOR_WATER = Figure("indoor_water", 0.4, "Water lost indoors over that in the open.")
NET_WATER = Figure(
    "net_water", NET_EFFECT, "Of the light that a net takes, the share that shows in water lost."
)

COVER_FIGURES = (
    FRAME_LOW,
    FRAME_HIGH,
    GLASS_LOW,
    GLASS_HIGH,
    INDOORS_LEAST,
    SHADE_HIGH,
    GLASS_LIGHT,
    INDOOR_LIGHT,
    FRAME_WATER,
    TUNNEL_WATER,
    GLASS_WATER,
    INDOOR_WATER,
    NET_WATER,
)
_NUMBER = re.compile(r"-?\d+(?:[.,]\d+)?")


class Cover(Struct, frozen=True, gc=False):
    """What a cover does to the air, the share of light (0 to 1) it lets in, and to water."""

    shift: Shift = OPEN_AIR
    light: float = 1.0
    water: WaterCover = WaterCover()


def cover_from(words: str, figures: Mapping[str, float]) -> Cover:
    """What a cover as written on a place's card does; words that say nothing are the open.

    A share beyond what makes sense counts as none, or as the whole.
    """
    said = words.casefold()
    found = _NUMBER.search(said)
    number = float(found[0].replace(",", ".")) if found else None
    glass_light = GLASS_LIGHT.among(figures)
    if said.startswith("shade"):
        percent = 50.0 if number is None else min(max(number, 0.0), 100.0)
        high = -SHADE_HIGH.among(figures) * percent / 100
        water = shade_net(percent, min(max(NET_WATER.among(figures), 0.0), 1.0))
        return Cover(Shift(0.0, high), 1 - percent / 100, water)
    if said.startswith(("cold frame", "tunnel")):
        shift = Shift(FRAME_LOW.among(figures), FRAME_HIGH.among(figures))
        kind = TUNNEL_WATER if said.startswith("tunnel") else FRAME_WATER
        return Cover(shift, glass_light, _roof(kind, figures))
    if said.startswith(("unheated glass", "heated glass")):
        least = (5.0 if number is None else number) if said.startswith("heated") else None
        shift = Shift(GLASS_LOW.among(figures), GLASS_HIGH.among(figures), least)
        return Cover(shift, glass_light, _roof(GLASS_WATER, figures))
    if said.startswith("indoors"):
        least = INDOORS_LEAST.among(figures) if number is None else number
        return Cover(
            Shift(0.0, 0.0, least), INDOOR_LIGHT.among(figures), _roof(INDOOR_WATER, figures)
        )
    return Cover()


def _roof(figure: Figure, figures: Mapping[str, float]) -> WaterCover:
    """What no rain comes through."""
    return WaterCover(max(figure.among(figures), 0.0), 0.0)
