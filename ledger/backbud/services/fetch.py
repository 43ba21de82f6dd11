"""Fetches a forecast from the service that this person named, no more often than it wants.

What it is told: the coordinates to two decimals, who asks, and when the last answer changed. What
is kept of an answer for the next time lies in `.backbud/`: its date and mark, and when it expires.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime, timedelta
from email.utils import parsedate_to_datetime
from typing import Any, Literal

import msgspec
from msgspec import Struct

from backbud import __version__
from backbud.journal.weather.arrived import FORECAST, arrived_file
from backbud.publish.memory import keep_bytes, recall_bytes
from backbud.services.agreed import Agreed
from backbud.services.asking import Answer, get, origin_of
from backbud.services.errors import ServiceError
from backbud.services.files import put, text_of_file
from backbud.services.forecast_file import forecast_text
from backbud.services.hours import sun_time
from backbud.services.service import Service, Told

_SLOT = "weather"
# Where a service names no time: no more often than this. Nor later than a day, whatever it says.
_LEAST, _MOST = timedelta(minutes=30), timedelta(days=1)
# A server that says that it was asked too often, or not by the likes of us, is left alone for so
# long at the least; ours, no source.
_REFUSED, _REFUSED_SLOT, _LEFT_ALONE = (403, 429), "weather-refused", timedelta(hours=3)
# A forecast whose days end sooner than this, or that says nothing of the coming night, is broken.
FEWEST_DAYS = 2
Came = Literal["new", "the same", "not asked"]


class Fetched(Struct, frozen=True):
    """How a fetch ended: a new forecast, the same, or nobody asked since the last one still holds.
    `made`: when it was made, "" where nobody asked. `deprecated`: the service says that it will
    end."""

    came: Came
    made: str = ""
    file: str = ""
    deprecated: bool = False


class _Kept(Struct, frozen=True):
    """Of the last answer: what it was asked for, its own marks, until when it holds."""

    url: str
    expires: float
    last_modified: str = ""
    etag: str = ""
    made: str = ""


def fetch(journal: str, named: Agreed, service: Service, now: datetime, **limits: Any) -> Fetched:
    """Fetch the forecast and put it into the journal. ServiceError where nothing usable came: then
    the last good forecast stays. `limits`: as for `get`."""
    address = named.address or service.address
    url = service.url(address, named.latitude, named.longitude)
    name = arrived_file(named.place, FORECAST)
    kept = _kept(journal)
    held = kept is not None and kept.url == url and text_of_file(journal, name) is not None
    if kept is not None and held and now.timestamp() < kept.expires:
        return Fetched("not asked", kept.made, name)
    _check_refused(journal, address, now)
    headers = {"User-Agent": user_agent(named.contact), "Accept": "application/json"}
    answer = get(
        url, {**headers, **(_conditions(kept) if held and not service.next_url else {})}, **limits
    )
    if service.next_url is not None and answer.status == 200:
        then = service.next_url(_json(answer))
        if origin_of(then) != origin_of(url):
            raise ServiceError(f"{origin_of(url)} sends to another server, {origin_of(then)}")
        answer = get(then, {**headers, **(_conditions(kept) if held else {})}, **limits)
    if answer.status == 304 and kept is not None:
        _keep(journal, msgspec.structs.replace(kept, expires=_expires(answer, now)))
        return Fetched("the same", kept.made, name)
    if answer.status in _REFUSED:
        _keep_refused(journal, address, answer, now)
    _check(answer)
    told = service.read(_json(answer), float(named.longitude))
    today = sun_time(now, float(named.longitude)).date()
    ahead = {day: said for day, said in told.days.items() if day > today}
    if len(ahead) < FEWEST_DAYS:
        raise ServiceError("its answer tells of no more than a day, so it was not used")
    if told.made.astimezone(UTC) < now - timedelta(days=2):
        raise ServiceError(f"its forecast is of {told.made:%Y-%m-%d} and was not used")
    made = told.made.astimezone(UTC).strftime("%Y-%m-%d %H:%M UTC")
    changed = put(journal, name, forecast_text(Told(told.made, ahead), service.name))
    _keep(
        journal,
        _Kept(
            url,
            _expires(answer, now),
            answer.headers.get("last-modified", ""),
            answer.headers.get("etag", ""),
            made,
        ),
    )
    return Fetched("new" if changed else "the same", made, name, answer.status == 203)


def user_agent(contact: str) -> str:
    """How a service is told who asks: the program, its version, and how to reach its user."""
    return f"backbud/{__version__} {contact}"


def _conditions(kept: _Kept | None) -> Mapping[str, str]:
    if kept is None:
        return {}
    told = {"If-Modified-Since": kept.last_modified, "If-None-Match": kept.etag}
    return {name: value for name, value in told.items() if value}


def _check_refused(journal: str, address: str, now: datetime) -> None:
    """ServiceError while a server that refused is left alone."""
    content = recall_bytes(journal, _REFUSED_SLOT)
    until, _, whom = (content or b"0").decode().partition(" ")
    if whom == address and now.timestamp() < float(until):
        at = datetime.fromtimestamp(float(until), UTC)
        raise ServiceError(f"{address} refused lately and is left alone until {at:%H:%M} UTC")


def _keep_refused(journal: str, address: str, answer: Answer, now: datetime) -> None:
    said = answer.headers.get("retry-after", "")
    wait = timedelta(seconds=min(int(said), 86400)) if said.isdecimal() else _LEFT_ALONE
    until = (now + max(wait, _LEFT_ALONE)).timestamp()
    keep_bytes(journal, _REFUSED_SLOT, f"{until:.0f} {address}".encode())


def _check(answer: Answer) -> None:
    origin = origin_of(answer.url)
    if answer.status == 403:
        raise ServiceError(f"{origin} refuses the request (403); is the contact one that it takes?")
    if answer.status == 429:
        raise ServiceError(f"{origin} was asked too often (429); it is left alone until later")
    if answer.status not in (200, 203):
        raise ServiceError(f"{origin} answers {answer.status}")
    sort = answer.headers.get("content-type", "").partition(";")[0].strip().casefold()
    if not (sort.endswith(("/json", "+json"))):
        raise ServiceError(f"{origin} answers with {sort or 'something'} where JSON was expected")


def _json(answer: Answer) -> Any:
    try:
        return msgspec.json.decode(answer.body)
    except (msgspec.DecodeError, RecursionError):
        raise ServiceError(
            f"{origin_of(answer.url)} answers with something that is no JSON"
        ) from None


def _expires(answer: Answer, now: datetime) -> float:
    try:
        until = parsedate_to_datetime(answer.headers["expires"])
    except (KeyError, ValueError, TypeError):
        until = now + _LEAST
    if until.tzinfo is None:
        until = until.replace(tzinfo=UTC)
    return min(max(until, now + _LEAST / 30), now + _MOST).timestamp()


def _kept(journal: str) -> _Kept | None:
    content = recall_bytes(journal, _SLOT)
    try:
        return None if content is None else msgspec.json.decode(content, type=_Kept)
    except msgspec.DecodeError:
        return None


def _keep(journal: str, kept: _Kept) -> None:
    keep_bytes(journal, _SLOT, msgspec.json.encode(kept))
