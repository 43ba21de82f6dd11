"""Reads from a place's card how cold its winters get: `coldest` and `hardiness zone`."""

from __future__ import annotations

from backbud.climate.coldest_night import SaidCold, zone_minimum_c
from backbud.climate.days import MonthlyMeans
from backbud.journal.problems import PlacedFlaw, WithFlaws, flaw_at
from backbud.journal.things import Line, Thing
from backbud.journal.weather.limits import OF_A_DAY, impossible


def said_of_winter(place: Thing, means: MonthlyMeans | None) -> WithFlaws[SaidCold | None]:
    """Return what the card says, None where that is nothing that can be so; and what is wrong.

    `means`: of the place, as far as they are known: a coldest night above the mean low of the
    coldest month is no coldest night.
    """
    coldest_c, of_night = _coldest_c(place, means)
    zone, of_zone = _zone(place)
    said = SaidCold(coldest_c, zone)
    return WithFlaws(None if said == SaidCold() else said, (*of_night, *of_zone))


def _line(place: Thing, label: str) -> Line | None:
    return next((line for line in place.lines if line.detail.name == label), None)


def _coldest_c(
    place: Thing, means: MonthlyMeans | None
) -> tuple[float | None, tuple[PlacedFlaw, ...]]:
    line = _line(place, "coldest")
    if line is None or line.detail.measure is None:
        return None, ()
    celsius = line.detail.measure.within("C")
    why = impossible("low_c", celsius, OF_A_DAY).replace("low of", "a night of", 1)
    if not why and means is not None and celsius > min(means.low_c):
        why = f"the coldest night is milder than the mean low of its month, {min(means.low_c):g} °C"
    if not why:
        return celsius, ()
    hint = "It is the coldest night of about ten years. The line was left out."
    return None, (flaw_at(line.origin, "impossible-value", why, hint, 0, len("coldest")),)


def _zone(place: Thing) -> tuple[str, tuple[PlacedFlaw, ...]]:
    line = _line(place, "hardiness zone")
    if line is None:
        return "", ()
    zone = place.text("hardiness zone").strip().lower()
    try:
        zone_minimum_c(zone)
    except ValueError:
        message = f"there is no hardiness zone “{zone}”"
        hint = "Zones run from 1a to 13b: hardiness zone 8b. The line was left out."
        return "", (flaw_at(line.where(zone), "unknown-zone", message, hint, 0, len(zone)),)
    return zone, ()
