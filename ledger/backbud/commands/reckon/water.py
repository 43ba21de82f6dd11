"""`reckon water`: the litres a tree in its pot loses on a day, and how long its water lasts."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from itertools import repeat

from msgspec.structs import replace

from backbud.bench.pots import Pot, soil_surface_cm2, volume_litres
from backbud.bench.water import (
    CANOPY_FACTORS,
    ESTIMATE,
    SHARE_HELD,
    PottedTree,
    canopy_area_m2,
    days_until_half_gone,
    litres_held,
    litres_lost_a_day,
    litres_of_rain_caught,
)
from backbud.bench.weights import water_held_litres
from backbud.climate.days import WeatherDay
from backbud.climate.evapotranspiration import (
    ReferenceEvapotranspiration,
    reference_evapotranspiration,
)
from backbud.commands.reckon.asked import (
    Asked,
    Option,
    amount,
    as_on_card,
    asked_for,
    chosen,
    detail,
    measured,
    sentence_of,
    sizes_cm,
    word,
)
from backbud.commands.reckon.mix import DENSITY, MIX, own_densities, recipe_parts
from backbud.commands.reckon.pot import INSIDE_OPTIONS, POT, RIM_GAP, SHAPE, inside_pot
from backbud.commands.reckon.sheet import SumLine, SumSheet, precise
from backbud_grammar.dates import read_date
from backbud_grammar.forms import Form
from backbud_grammar.kinds import COVERS
from backbud_grammar.problems import Misread

LATITUDE = as_on_card(
    "place", "latitude", "--latitude", "degrees, north positive", "degrees such as 47.6 or “33 S”"
)
DATE = Option(
    "--date", "the day, for the sun", Form("date", ("--date",), date=True),
    "one exact day such as 2027-07-15",
)  # fmt: skip
LOW = measured(
    "--low", "the night's low", "temperature", "number", negative=True,
    give="a temperature such as 14 C",
)  # fmt: skip
HIGH = measured(
    "--high", "the day's high", "temperature", "number", negative=True,
    give="a temperature such as 27 C",
)  # fmt: skip
HUMIDITY = measured(
    "--humidity", "the day's mean; with --wind and --sun, for the better sum", "share", "number",
    give="a share such as 60 %",
)  # fmt: skip
WIND = measured(
    "--wind", "the day's mean, two metres up", "speed", "number", give="a speed such as 2 m/s"
)
SUN = measured("--sun", "hours of bright sunshine", "duration", "number", give="hours such as 8 h")
ELEVATION = as_on_card(
    "place", "elevation", "--elevation", "above the sea, for that sum; 0 m unless given",
    "a length such as 200 m",
)  # fmt: skip
CANOPY = as_on_card(
    "tree", "spread", "--canopy", "the crown from above, across and across",
    "sizes such as 40 x 35 cm",
)  # fmt: skip
FOLIAGE = chosen("--foliage", "how dense it is; medium unless given", tuple(CANOPY_FACTORS))
RAIN = measured("--rain", "the day's rain; needs --pot", "length", give="a length such as 4 mm")
COVER = as_on_card(
    "place", "cover", "--cover", "what is over the place",
    f"one of {', '.join(COVERS)}; a net with its shade, “shade net 40 %”",
)  # fmt: skip

OPTIONS: tuple[Option, ...] = (
    LATITUDE, DATE, LOW, HIGH, CANOPY, FOLIAGE, COVER, POT, SHAPE, *INSIDE_OPTIONS, MIX, DENSITY,
    RAIN, HUMIDITY, WIND, SUN, ELEVATION,
)  # fmt: skip
EXAMPLE = (
    "backbud reckon water --latitude 47.6 --date 2027-07-15 --low 14 --high 27 "
    '--canopy "40 x 35 cm" --pot "36 x 28 x 12 cm" --cover "shade net 40 %"'
)

# Nothing in a pot is planned by further than this.
_DAYS_AHEAD = 60
_CM2_PER_M2 = 10_000
_SOURCES = {
    "Hargreaves": "by Hargreaves from low, high and the sun (FAO-56, Allen et al. 1998, eq. 52)",
    "Penman-Monteith": "by Penman-Monteith (FAO-56, Allen et al. 1998, eq. 6)",
}


def reckon(asked: Asked) -> SumSheet:
    """The sheet of a day's water."""
    et0 = _et0(asked)
    tree = _tree(asked)
    rain_mm = amount(asked, RAIN, "mm")
    if rain_mm is not None and POT.flag not in asked:
        raise ValueError(f"Give --pot as {POT.give}: the rain falls into it.")
    lines = [_et0_line(et0), _lost_line(asked, tree, et0.et0_mm)]
    lines += _rain_lines(tree, rain_mm)
    if POT.flag in asked:
        lines += _held_lines(asked, tree, et0.et0_mm, 0.0 if rain_mm is None else rain_mm)
    return SumSheet(lines, [ESTIMATE])


# ------------------------------------------------------------------ text to values


def _et0(asked: Asked) -> ReferenceEvapotranspiration:
    low_c = asked_for(amount(asked, LOW, "C"), LOW)
    high_c = asked_for(amount(asked, HIGH, "C"), HIGH)
    if low_c > high_c:
        raise ValueError(f"Give --low below --high: {low_c:g} °C is above {high_c:g} °C.")
    more = [amount(asked, HUMIDITY, "%"), amount(asked, WIND, "m/s"), amount(asked, SUN, "h")]
    if any(figure is None for figure in more) and any(figure is not None for figure in more):
        raise ValueError("Give --humidity, --wind and --sun all three, or none of them.")
    elevation_m = amount(asked, ELEVATION, "m")
    et0 = reference_evapotranspiration(
        WeatherDay(_day(asked), low_c, high_c, None, *more),
        _latitude_degrees(asked),
        0.0 if elevation_m is None else elevation_m,
    )
    assert et0 is not None
    return et0


def _latitude_degrees(asked: Asked) -> float:
    degrees = asked_for(amount(asked, LATITUDE, "degrees"), LATITUDE)
    found = detail(asked, LATITUDE)
    assert found is not None
    if found.words.casefold() != "s":
        return degrees
    if degrees < 0:
        raise ValueError(
            f"Give --latitude with a minus or with an S, not with both: {-degrees:g} S."
        )
    return -degrees


def _day(asked: Asked) -> date:
    written = asked_for(detail(asked, DATE), DATE).date
    try:
        day = read_date(written)
    except Misread as error:
        raise ValueError(sentence_of(error, DATE)) from None
    if not day.exact:
        raise ValueError(f"Give --date as {DATE.give}, not “{written}”.")
    return day.first


def _tree(asked: Asked) -> PottedTree:
    pot = inside_pot(asked, POT) if POT.flag in asked else None
    area_m2, held = (0.0, 0.0) if pot is None else _of_pot(asked, pot)
    canopy_factor = CANOPY_FACTORS[word(asked, FOLIAGE, "medium")]
    return _under_cover(asked, PottedTree(_canopy_m2(asked), area_m2, held, canopy_factor))


def _canopy_m2(asked: Asked) -> float:
    spreads = asked_for(sizes_cm(asked, CANOPY), CANOPY)
    if len(spreads) > 2:
        raise ValueError(f"Give --canopy as {CANOPY.give}, without a height.")
    return canopy_area_m2(*spreads)


def _of_pot(asked: Asked, pot: Pot) -> tuple[float, float]:
    """The soil's surface in m² and the water it holds in litres."""
    gap_cm = amount(asked, RIM_GAP, "cm") or 0.0
    litres = volume_litres(pot, gap_cm)
    parts = recipe_parts(asked)
    held = (
        litres_held(litres)
        if parts is None
        else water_held_litres(parts, litres, own_densities(asked, parts))
    )
    return soil_surface_cm2(pot, gap_cm) / _CM2_PER_M2, held


def _under_cover(asked: Asked, tree: PottedTree) -> PottedTree:
    """The tree under the cover that was given, or in the open."""
    found = detail(asked, COVER)
    if found is None:
        return tree
    named, measure = found.words.casefold(), found.measure
    sort = "" if measure is None else measure.sort
    fits = {"shade net": ("share",), "heated glass": ("temperature", "")}.get(named, ("",))
    if named not in COVERS or sort not in fits:
        raise ValueError(f"Give --cover as {COVER.give}.")
    # The figures stand in one place, with the settings that may change them in a journal.
    from backbud.plan.covers import cover_from

    return replace(tree, cover=cover_from(f"{named} {measure or ''}", {}).water)


# ------------------------------------------------------------------ values to lines


def _et0_line(et0: ReferenceEvapotranspiration) -> SumLine:
    return SumLine(
        "ET0",
        precise(et0.et0_mm, "mm a day"),
        _SOURCES[et0.method],
        {"et0_mm": et0.et0_mm, "et0_method": et0.method},
    )


def _lost_line(asked: Asked, tree: PottedTree, et0_mm: float) -> SumLine:
    lost = litres_lost_a_day(tree, et0_mm)
    foliage = word(asked, FOLIAGE, "medium")
    return SumLine(
        "lost",
        precise(lost, "L a day"),
        f"ET0 × {tree.canopy_factor:g} ({foliage} foliage) × {tree.canopy_area_m2:.3f} m² canopy × "
        f"{tree.cover.factor:g} (cover); factors: common practice",
        {
            "canopy_m2": tree.canopy_area_m2,
            "canopy_factor": tree.canopy_factor,
            "cover_factor": tree.cover.factor,
            "lost_litres_a_day": lost,
        },
    )


def _rain_lines(tree: PottedTree, rain_mm: float | None) -> Iterator[SumLine]:
    if rain_mm is None:
        return
    caught = litres_of_rain_caught(tree, rain_mm)
    yield SumLine(
        "rain caught",
        precise(caught, "L"),
        f"{rain_mm:g} mm × {tree.pot_area_m2:.3f} m² of soil × "
        f"{tree.rain_past_canopy * tree.cover.rain_share:g} let past; common practice, no source",
        {"rain_mm": rain_mm, "rain_caught_litres": caught},
    )


def _held_lines(asked: Asked, tree: PottedTree, et0_mm: float, rain_mm: float) -> Iterator[SumLine]:
    by_mix = "by the mix's weights, dry and drained"
    by_share = f"{SHARE_HELD:.0%} of the pot (--mix knows better); common practice, no source"
    yield SumLine(
        "held",
        precise(tree.held_litres, "L"),
        by_mix if MIX.flag in asked else by_share,
        {"held_litres": tree.held_litres},
    )
    half_gone = days_until_half_gone(tree, repeat((et0_mm, rain_mm), _DAYS_AHEAD))
    yield SumLine(
        "half gone in",
        f"over {_DAYS_AHEAD} days" if half_gone is None else precise(half_gone, "days"),
        "if every day is like this one",
        {"half_gone_days": half_gone},
    )
