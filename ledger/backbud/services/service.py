"""What a met service is to this program: how it is asked, how its answer reads, what it wants."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date, datetime
from typing import Any, NamedTuple

from msgspec import Struct

from backbud.climate.forecast import ForecastDay
from backbud.services.errors import ServiceError


class Told(Struct, frozen=True):
    """A forecast as a service told it: when it was made, and its days."""

    made: datetime
    days: Mapping[date, ForecastDay]


class Service(NamedTuple):
    """A met service. `key`: as the settings name it; `name`: as people say it. `terms`: where its
    terms stand. `covers`: where its forecasts are for, in words.

    `url`: of a forecast, from address, latitude and longitude as text. `next_url`: where its first
    answer only says where the forecast lies, that place. `read`: the forecast of an answer for a
    longitude; ServiceError where it is not in the shape that the service documents.
    """

    key: str
    name: str
    terms: str
    covers: str
    address: str
    url: Callable[[str, str, str], str]
    read: Callable[[Any, float], Told]
    next_url: Callable[[Any], str] | None = None


def checked_figure(value: object, what: str, least: float, most: float) -> float | None:
    """A number of an answer; None where it is null. ServiceError for anything else, or for a figure
    that no weather has."""
    if value is None:
        return None
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        raise ServiceError(f"its answer has changed its form: {what} is no number")
    if not least <= value <= most:
        raise ServiceError(f"its answer cannot be: {what} of {value:g}")
    return float(value)


def changed(what: str) -> ServiceError:
    """That an answer is not in the shape that the service documents."""
    return ServiceError(f"its answer has changed its form: {what}")


def moment(text: object) -> datetime:
    """A moment of ISO 8601 with its offset. ServiceError for anything else."""
    try:
        found = datetime.fromisoformat(str(text))
    except ValueError:
        raise changed(f"“{str(text)[:40]}” is no time") from None
    if found.tzinfo is None:
        raise changed(f"the time “{str(text)[:40]}” has no offset")
    return found
