"""A place's card goes in; what it says of how cold its winters get comes out."""

from __future__ import annotations

from backbud.climate.coldest_night import SaidCold, zone_minimum_c
from backbud.climate.days import MonthlyMeans
from backbud.journal.notes import Notes
from backbud.journal.things import Line, Thing
from backbud.journal.weather.limits import OF_A_DAY, impossible


def said_of_winter(place: Thing, means: MonthlyMeans | None, notes: Notes) -> SaidCold | None:
    """Return what the card says; None where it says nothing that can be so, which is noted.

    `means`: of the place, as far as they are known: a coldest night above the mean low of the
    coldest month is no coldest night.
    """
    said = SaidCold(_coldest_c(place, means, notes), _zone(place, notes))
    return None if said == SaidCold() else said


def _line(place: Thing, label: str) -> Line | None:
    return next((line for line in place.lines if line.detail.name == label), None)


def _coldest_c(place: Thing, means: MonthlyMeans | None, notes: Notes) -> float | None:
    line = _line(place, "coldest")
    if line is None or line.detail.measure is None:
        return None
    celsius = line.detail.measure.within("C")
    why = impossible("low_c", celsius, OF_A_DAY).replace("low of", "a night of", 1)
    if not why and means is not None and celsius > min(means.low_c):
        why = f"the coldest night is milder than the mean low of its month, {min(means.low_c):g} °C"
    if not why:
        return celsius
    hint = "It is the coldest night of about ten years. The line was left out."
    notes.at(line.origin, "impossible-value", why, hint, 0, len("coldest"))
    return None


def _zone(place: Thing, notes: Notes) -> str:
    line = _line(place, "hardiness zone")
    if line is None:
        return ""
    zone = place.text("hardiness zone").strip().lower()
    try:
        zone_minimum_c(zone)
    except ValueError:
        notes.at(
            line.where(zone),
            "unknown-zone",
            f"there is no hardiness zone “{zone}”",
            "Zones run from 1a to 13b: hardiness zone 8b. The line was left out.",
            0,
            len(zone),
        )
        return ""
    return zone
