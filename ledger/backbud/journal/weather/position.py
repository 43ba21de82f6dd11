"""Tells where a place lies by what it says itself: its card, its town, its weather station."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

from backbud.climate.radiation import is_elevation
from backbud.journal.problems import PlacedFlaw, WithFlaws, flaw_at
from backbud.journal.things import Thing
from backbud.journal.weather.record import Position, PositionFrom
from backbud.journal.weather.series import Station

if TYPE_CHECKING:
    from backbud.journal.weather.town import Town

# Which town a card means, if any is known.
TownCalled = Callable[[str], "Town | None"]


def own_position(
    place: Thing, stations: Callable[[], Sequence[Station]], town_called: TownCalled
) -> WithFlaws[Position]:
    """Return what the place itself says: its card, else its town, else its files' station.

    The town is looked up only where the card leaves latitude or longitude open; a town that is
    not known, or shares its name with others, is a flaw. The `stations` are asked for only where
    neither tells the latitude.
    """
    latitude, of_latitude = _degrees(place, "latitude", "N", "S")
    longitude, of_longitude = _degrees(place, "longitude", "E", "W")
    elevation_m, of_elevation = _elevation_m(place)
    flaws = (*of_latitude, *of_longitude, *of_elevation)
    known_from: PositionFrom = "" if latitude is None else "card"
    if latitude is None or longitude is None:
        town, of_town = _town(place, town_called)
        flaws += of_town
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
    known_of = place.handle if known_from else ""
    return WithFlaws(Position(latitude, longitude, elevation_m, known_from, known_of), flaws)


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


def _degrees(place: Thing, label: str, positive: str, negative: str) -> WithFlaws[float | None]:
    """What a line says; None where it contradicts itself."""
    line = next((line for line in place.lines if line.detail.name == label), None)
    if line is None or line.detail.measure is None:
        return WithFlaws(None)
    degrees = float(line.detail.measure.number)
    letters = line.detail.words.split()
    message = ""
    if {positive, negative} <= set(letters):
        message = f"one letter says {letters[0]}, the other says {letters[1]}"
    elif degrees < 0 and positive in letters:
        message = f"the minus says {negative}, the letter says {positive}"
    if message:
        size = f"{label} {abs(degrees):g}"
        hint = f"Write {size} {negative}, or {size} {positive}."
        length = len(line.written.text)
        return WithFlaws(None, (flaw_at(line.origin, "two-signs", message, hint, 0, length),))
    return WithFlaws(-abs(degrees) if negative in letters else degrees)


def _elevation_m(place: Thing) -> WithFlaws[float | None]:
    line = next((line for line in place.lines if line.detail.name == "elevation"), None)
    if line is None or line.detail.measure is None:
        return WithFlaws(None)
    elevation_m = line.detail.measure.within("m")
    if is_elevation(elevation_m):
        return WithFlaws(elevation_m)
    message = f"no land lies at {elevation_m:g} m"
    hint = "It lies between -500 and 9000 m. Is the unit right? The line was left out."
    flaw = flaw_at(line.origin, "impossible-value", message, hint, 0, len("elevation"))
    return WithFlaws(None, (flaw,))


def _town(place: Thing, town_called: TownCalled) -> WithFlaws[tuple[float, float] | None]:
    written = place.text("town")
    if not written:
        return WithFlaws(None)
    line = next(line for line in place.lines if line.detail.name == "town")
    at = line.where(written)
    town = town_called(written)
    if town is None:
        message = f"no town called “{written}” is known here"
        hint = "Write latitude and longitude on the card: latitude 52.4 N, longitude 4.6 E."
        return WithFlaws(None, (flaw_at(at, "unknown-town", message, hint, 0, len(written)),))
    flaws: list[PlacedFlaw] = []
    if town.others:
        others = "another town is" if town.others == 1 else f"{town.others} more towns are"
        message = f"{others} called “{written}”; the largest, in {town.country}, was taken"
        hint = (
            "Latitude and longitude on the card settle which one is meant, and so may its "
            f"country: town {town.name}, {town.country}"
        )
        flaws.append(flaw_at(at, "several-towns", message, hint, 0, len(written), "warning"))
    return WithFlaws((town.latitude, town.longitude), tuple(flaws))
