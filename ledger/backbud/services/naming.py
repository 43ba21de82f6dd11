"""Decides whether a service may be asked: only what this person named on this machine.

What a journal's settings say is a proposal. A place that lies elsewhere than it did when it was
named, and another service in the settings, ask again.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from msgspec.structs import replace

from backbud.journal.read import Journal
from backbud.services.agreed import Agreed
from backbud.services.errors import NotNamed
from backbud.services.known import SERVICES
from backbud.services.past import ADDRESS
from backbud.services.service import Service
from backbud_grammar.problems import did_you_mean

# Two decimals are about a kilometre.
DECIMALS = 2
_CONTACT = re.compile(r"[\x21-\x7e]+(?: [\x21-\x7e]+)*")
_STATION = re.compile(r"[A-Z]{2}[A-Z0-9_-]{9}")
LONGEST_CONTACT = 120


def service_called(key: str) -> Service:
    """The service so called. NotNamed where none is."""
    if key not in SERVICES:
        known = ", ".join(SERVICES)
        hint = did_you_mean(key, tuple(SERVICES), f"Known: {known}.")
        raise NotNamed(f"no met service is called “{key}”. {hint}")
    return SERVICES[key]


def where(journal: Journal, place: str) -> tuple[str, str, str]:
    """A place's handle, latitude and longitude to two decimals, as text. NotNamed where it is not
    known where it lies. `place`: "" for home."""
    positions = journal.positions
    found = positions.place(place or positions.home)
    if found is None:
        raise NotNamed(f"no place is called “{place}”" if place else "no place has a card yet")
    at = positions.of(found.handle)
    if at.latitude is None or at.longitude is None:
        raise NotNamed(
            f"nobody says where “{found.handle}” lies. Write on its card: latitude 52.4 N and "
            "longitude 4.6 E, or a town"
        )
    return found.handle, f"{at.latitude:.{DECIMALS}f}", f"{at.longitude:.{DECIMALS}f}"


def proposed(
    journal: Journal, known: Agreed | None, service: str, place: str, contact: str, station: str
) -> Agreed:
    """What is to be named: what was said now, else what was named before, else what the journal
    proposes. NotNamed where it cannot be used as it is."""
    before = known or Agreed()
    wish = journal.settings.weather
    key = service or before.service or wish.get("from", "")
    if not key:
        raise NotNamed(
            "nobody named a met service. Name one: backbud weather --from "
            + " or --from ".join(SERVICES)
        )
    service_called(key)
    handle, latitude, longitude = where(journal, place or before.place)
    said = contact or before.contact
    if said and (len(said) > LONGEST_CONTACT or not _CONTACT.fullmatch(said)):
        raise NotNamed(
            f"“{said}” is no address that a service can read: an e-mail or a web address"
        )
    number = station or before.station or wish.get("station", "")
    if number and not _STATION.fullmatch(number):
        raise NotNamed(f"“{number}” is no station of GHCN-Daily: two letters and nine signs")
    return replace(
        before,
        service=key,
        place=handle,
        latitude=latitude,
        longitude=longitude,
        contact=said,
        station=number,
    )


def still_holds(journal: Journal, known: Agreed) -> None:
    """NotNamed where the journal now says something else than what this person named."""
    wish = journal.settings.weather.get("from", "")
    if wish and wish != known.service:
        raise NotNamed(
            f"the settings name “{wish}”, and you named “{known.service}” on this machine; nothing "
            f"was asked. Name it yourself: backbud weather --from {wish}"
        )
    _, latitude, longitude = where(journal, known.place)
    if (latitude, longitude) != (known.latitude, known.longitude):
        raise NotNamed(
            f"“{known.place}” lies at {latitude}, {longitude} now, and you named {known.latitude}, "
            f"{known.longitude}; nothing was asked. Name it anew: backbud weather --from "
            f"{known.service}"
        )


def told_beforehand(named: Agreed) -> Iterator[str]:
    """What will be sent to whom, to be read before it is agreed to."""
    service = service_called(named.service)
    yield f"{service.name} will be asked for the forecast of “{named.place}”:"
    yield f"  server       {named.address or service.address}"
    yield f"  coordinates  {named.latitude}, {named.longitude} (two decimals, about a kilometre)"
    yield f"  who asks     backbud, {named.contact}"
    yield f"  its terms    {service.terms}"
    yield f"It covers {service.covers}. Nothing else is sent."
    if named.station:
        yield f"Past days of the station {named.station} come from {named.records or ADDRESS}."
