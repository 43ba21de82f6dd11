"""The calendars of a CalDAV server (RFC 4791), read and written.

Only this module knows the `caldav` library. Every error of it comes out as one sentence, which
holds nothing that the server said: it may have been told the password.
"""

from __future__ import annotations

import logging
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any, NamedTuple
from urllib.parse import unquote, urljoin, urlsplit

from backbud.subscribe.address import Address
from backbud.subscribe.bounds import Bounded, stay_at
from backbud.subscribe.errors import EntryRefused, SubscribeError, Unreachable
from backbud.subscribe.login import Login

if TYPE_CHECKING:
    from caldav.davclient import DAVClient

TIMEOUT_SECONDS = 30
_DONE = (200, 201, 204)
_CHANGED = 412  # Precondition Failed: it is no longer what it was when it was read
_GONE = 404
_REFUSED = (400, 409, 413, 415, 422)  # what is wrong is the entry, in the server's eyes
_CALENDAR = "{urn:ietf:params:xml:ns:caldav}calendar"

_QUERY = """\
<?xml version="1.0" encoding="utf-8"?>
<C:calendar-query xmlns:D="DAV:" xmlns:C="urn:ietf:params:xml:ns:caldav">
  <D:prop><D:getetag/><C:calendar-data/></D:prop>
  <C:filter>
    <C:comp-filter name="VCALENDAR"><C:comp-filter name="{sort}"/></C:comp-filter>
  </C:filter>
</C:calendar-query>
"""


class Collection(NamedTuple):
    """A calendar on the server: its address, the last part of it, and what people call it."""

    url: str
    slug: str
    name: str


class Stored(NamedTuple):
    """What a calendar holds: its address, the mark of its version ("" unknown), its iCalendar."""

    url: str
    etag: str
    data: str


class Server:
    """The calendars of one login. SubscribeError wherever the server does not do as asked."""

    def __init__(self, address: Address, login: Login) -> None:
        try:
            from caldav.davclient import DAVClient
            from caldav.lib import error
        except ImportError as missing:
            raise SubscribeError(
                "to speak with a CalDAV server, backbud needs one more library; where backbud was "
                "installed: pip install caldav"
            ) from missing
        # Both may write down requests, with the password in them.
        error.debug_dump_communication = False
        logging.getLogger("caldav").setLevel(logging.CRITICAL + 1)
        self.origin = address.origin
        self._client: DAVClient = DAVClient(
            address.url,
            username=login.user,
            password=login.password,
            timeout=TIMEOUT_SECONDS,
            enable_rfc6764=False,
        )
        self._client.session.hooks["response"] = [self._stay]
        # The library asks nothing else of it.
        session: Any = Bounded(self._client.session, self.origin)
        self._client.session = session
        with self._in_words("show its calendars"):
            principal: Any = self._client.get_principal()
            self._home: Any = principal.calendar_home_set

    def _stay(self, answer: Any, **_: Any) -> None:
        """Follow no answer to another server: it would be told what stands in the journal."""
        if answer.is_redirect:
            stay_at(self.origin, urljoin(str(answer.url), str(answer.headers["location"])))

    def close(self) -> None:
        self._client.close()

    def collections(self) -> list[Collection]:
        """Every calendar of the login."""
        home = str(self._home.url)
        with self._in_words("show its calendars"):
            answer = self._client.propfind(home, ["displayname", "resourcetype"], depth=1)
            results: Any = answer.results
            return [
                Collection(
                    urljoin(home, one.href),
                    _last_part(one.href),
                    str(one.properties.get("{DAV:}displayname") or _last_part(one.href)),
                )
                for one in results or []
                if _CALENDAR in (one.properties.get("{DAV:}resourcetype") or ())
            ]

    def create(self, slug: str, name: str, sort: str) -> Collection:
        """Make a calendar that holds events (VEVENT) or tasks (VTODO)."""
        with self._in_words(f"make the calendar “{name}”"):
            made = self._home.make_calendar(
                name=name, cal_id=slug, supported_calendar_component_set=[sort]
            )
            return Collection(str(made.url), _last_part(str(made.url)), name)

    def entries(self, collection: Collection, sort: str) -> list[Stored]:
        """Every event (VEVENT) or task (VTODO) of a calendar."""
        with self._in_words(f"show what is in “{collection.name}”"):
            answer = self._client.report(collection.url, _QUERY.format(sort=sort), depth=1)
            found = [
                Stored(urljoin(collection.url, one.href), one.etag or "", one.calendar_data)
                for one in answer.parse_calendar_query()
                if one.calendar_data
            ]
        for one in found:
            if not one.url.startswith(urljoin(collection.url, "/")):
                raise SubscribeError(f"{self.origin} names an entry of another server")
        return found

    def put(self, collection: Collection, url: str, data: str, etag: str | None) -> bool:
        """Write an entry; False where somebody changed it meanwhile, Refused where the server does
        not take it.

        `etag`: the version that it replaces, or None where nothing is to stand there yet.
        """
        headers = {"Content-Type": "text/calendar; charset=utf-8"}
        headers |= {"If-None-Match": "*"} if etag is None else _only_if(etag)
        with self._in_words(f"take what belongs into “{collection.name}”", collection):
            return self._done(self._client.put(url, data, headers).status, collection)

    def delete(self, collection: Collection, stored: Stored) -> bool:
        """Take an entry out; False where somebody changed it meanwhile."""
        with self._in_words(f"take anything out of “{collection.name}”", collection):
            status = self._client.delete(stored.url, _only_if(stored.etag)).status
            return status == _GONE or self._done(status, collection)

    def _done(self, status: int, collection: Collection) -> bool:
        if status == _CHANGED:
            return False
        if status in _DONE:
            return True
        if status in (405, 423):
            raise _read_only(collection)
        error = EntryRefused if status in _REFUSED else SubscribeError
        raise error(f"{self.origin} did not take an entry of “{collection.name}” (HTTP {status})")

    @contextmanager
    def _in_words(self, what: str, written: Collection | None = None) -> Iterator[None]:
        """Say what went wrong in a sentence. Whatever raises in here, the library raised."""
        from caldav.lib.error import AuthorizationError, DAVError

        try:
            yield
        except SubscribeError:
            raise
        except AuthorizationError as error:
            if error.status == 403 and written is not None:
                raise _read_only(written) from None
            if error.status == 403:
                raise SubscribeError(f"{self.origin} does not allow this login to {what}") from None
            raise SubscribeError(
                f"{self.origin} refused the login: is the name and the password right?"
            ) from None
        except DAVError as error:
            status = f" (HTTP {error.status})" if error.status else ""
            raise SubscribeError(f"{self.origin} did not {what}{status}") from None
        except OSError as error:
            raise Unreachable(self._unreachable(error)) from None
        except Exception:
            # A web page, or half an answer: the library trips over it in many ways.
            raise SubscribeError(
                f"{self.origin} did not {what}: it does not answer as a calendar server does"
            ) from None

    def _unreachable(self, error: OSError) -> str:
        kinds = {kind.__name__ for kind in type(error).__mro__}
        if "SSLError" in kinds:
            return f"{self.origin} has no certificate that can be trusted"
        if "TooManyRedirects" in kinds:
            return f"{self.origin} sends from one address to the next without end"
        if "Timeout" in kinds:
            return f"{self.origin} did not answer within {TIMEOUT_SECONDS} seconds"
        causes = {kind.__name__ for cause in error.args for kind in type(cause).__mro__}
        if "ProtocolError" in causes:
            return f"{self.origin} broke off its answer"
        return f"{self.origin} cannot be reached"


def _only_if(etag: str) -> dict[str, str]:
    """The condition that an entry is still what was read, where the server marks versions."""
    return {"If-Match": etag} if etag else {}


def _read_only(collection: Collection) -> SubscribeError:
    return SubscribeError(f"“{collection.name}” may only be read with this login, not written")


def _last_part(url: str) -> str:
    return unquote(urlsplit(url).path.rstrip("/").rpartition("/")[2])
