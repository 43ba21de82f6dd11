"""The card of a place and its weather files go in; where the place is comes out."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from backbud.climate.radiation import is_elevation
from backbud.journal.notes import Notes
from backbud.journal.things import Thing
from backbud.journal.weather.record import Position, PositionFrom
from backbud.journal.weather.series import Station
from backbud.publish.memory import MemoryOf


def own_position(
    place: Thing, stations: Callable[[], Sequence[Station]], memory: MemoryOf, notes: Notes
) -> Position:
    """Return what the place itself says: its card, else its town, else its files' station.

    The town is looked up only where the card leaves latitude or longitude open; a town that is
    not known, or shares its name with others, is noted. The `stations` are asked for only where
    neither tells the latitude. `memory`: the journal's.
    """
    latitude = _degrees(place, "latitude", "N", "S", notes)
    longitude = _degrees(place, "longitude", "E", "W", notes)
    elevation_m = _elevation_m(place, notes)
    known_from: PositionFrom = "" if latitude is None else "card"
    if latitude is None or longitude is None:
        town = _town(place, memory, notes)
        if town is not None:
            known_from = known_from or "town"
            latitude = town[0] if latitude is None else latitude
            longitude = town[1] if longitude is None else longitude
    if latitude is None:
        station = next((one for one in stations() if one.latitude is not None), None)
        if station is not None:
            latitude, known_from = station.latitude, "weather file"
            longitude = station.longitude if longitude is None else longitude
            elevation_m = station.elevation_m if elevation_m is None else elevation_m
    return Position(
        latitude, longitude, elevation_m, known_from, place.handle if known_from else ""
    )


def taken_over(own: Position, around: Position) -> Position:
    """Return the place's own position, or where its latitude is not known, the one around it."""
    if own.latitude is not None:
        return own
    return Position(
        around.latitude,
        around.longitude if own.longitude is None else own.longitude,
        around.elevation_m if own.elevation_m is None else own.elevation_m,
        around.known_from,
        around.place,
    )


def _degrees(place: Thing, label: str, positive: str, negative: str, notes: Notes) -> float | None:
    """What a line says; None where it contradicts itself, which is noted."""
    line = next((line for line in place.lines if line.detail.name == label), None)
    if line is None or line.detail.measure is None:
        return None
    degrees = float(line.detail.measure.number)
    letters = line.detail.words.split()
    message = ""
    if {positive, negative} <= set(letters):
        message = f"one letter says {letters[0]}, the other says {letters[1]}"
    elif degrees < 0 and positive in letters:
        message = f"the minus says {negative}, the letter says {positive}"
    if message:
        size = f"{label} {abs(degrees):g}"
        notes.at(
            line.origin,
            "two-signs",
            message,
            f"Write {size} {negative}, or {size} {positive}.",
            0,
            len(line.written.text),
        )
        return None
    return -abs(degrees) if negative in letters else degrees


def _elevation_m(place: Thing, notes: Notes) -> float | None:
    line = next((line for line in place.lines if line.detail.name == "elevation"), None)
    if line is None or line.detail.measure is None:
        return None
    elevation_m = line.detail.measure.within("m")
    if is_elevation(elevation_m):
        return elevation_m
    message = f"no land lies at {elevation_m:g} m"
    hint = "It lies between -500 and 9000 m. Is the unit right? The line was left out."
    notes.at(line.origin, "impossible-value", message, hint, 0, len("elevation"))
    return None


def _town(place: Thing, memory: MemoryOf, notes: Notes) -> tuple[float, float] | None:
    written = place.text("town")
    if not written:
        return None
    from backbud.journal.weather.town import town_called

    line = next(line for line in place.lines if line.detail.name == "town")
    at = line.where(written)
    town = town_called(written, memory)
    if town is None:
        notes.at(
            at,
            "unknown-town",
            f"no town called “{written}” is known here",
            "Write latitude and longitude on the card: latitude 52.4 N, longitude 4.6 E.",
            0,
            len(written),
        )
        return None
    if town.others:
        others = "another town is" if town.others == 1 else f"{town.others} more towns are"
        notes.at(
            at,
            "several-towns",
            f"{others} called “{written}”; the largest, in {town.country}, was taken",
            "Latitude and longitude on the card settle which one is meant, and so may its "
            f"country: town {town.name}, {town.country}",
            0,
            len(written),
            "warning",
        )
    return town.latitude, town.longitude
