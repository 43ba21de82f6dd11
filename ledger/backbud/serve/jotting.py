"""The page to jot from a phone: one field, how it reads, and only then the diary.

It opens no other page: whoever is paired reads nothing of the journal here but what the own line
means. Every post is checked for its origin, its form's token, its size and its rate.
"""

from __future__ import annotations

import asyncio
import gc
import secrets
import threading
import time
from collections import deque
from collections.abc import Callable
from datetime import date
from http.cookies import CookieError, SimpleCookie
from typing import TYPE_CHECKING
from urllib.parse import parse_qs

from msgspec import Struct

from backbud.jot.from_phone import only_at_the_keyboard, place_for_phone
from backbud.jot.line import LONGEST_JOT, JotError
from backbud.jot.reading import AsRead, as_read, parted
from backbud.jot.write import write_lines
from backbud.publish.refused import PublishError
from backbud.serve.pairing import Devices, Pairing, form_token
from backbud.serve.site import PATH
from backbud.session import Session, open_session
from backbud.tongue import ENGLISH, full_day, speak

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

STYLE = f"{PATH}/style.css"
COOKIE = "backbud-jot"
# Half a year; a phone that is used all the time is paired anew twice a year.
_COOKIE_SECONDS = 180 * 86_400
# A line of the longest kind, each sign written as three bytes of three signs.
MOST_BODY = LONGEST_JOT * 9 + 1000
_BODY_SECONDS = 10.0
# Nobody writes as quickly by thumb: posts a minute, of one device and of all together.
MOST_POSTS = 30
_MINUTE = 60.0
_MOST_KEPT = 256
HEADERS = {
    "Content-Security-Policy": (
        "default-src 'none'; style-src 'self'; form-action 'self'; base-uri 'none'; "
        "frame-ancestors 'none'"
    ),
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    # With none at all a browser would not say where a form comes from (Fetch, “Origin” header).
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cache-Control": "no-store",
}


class _NotAnswered(Exception):
    """A request that is not answered as it was meant: its status and a sentence."""

    def __init__(self, status: int, why: str) -> None:
        super().__init__(why)
        self.status, self.why = status, why


class _Form(Struct, frozen=True):
    """What a form may say."""

    code: str
    line: str
    token: str
    once: str
    write: bool


class JotDesk:
    """Answers all below `/jot`. `clock`: seconds that never go back."""

    def __init__(
        self,
        folder: str,
        ask_today: Callable[[], date],
        tell: Callable[[str], None],
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        self._folder, self._ask_today, self._tell = folder, ask_today, tell
        self._clock = clock
        self.pairing = Pairing(clock)
        self.devices = Devices(folder)
        # Of devices that may jot, and of all others.
        self._posts: dict[bool, deque[float]] = {True: deque(), False: deque()}
        # What was shown and may be written; and what was: a second tap writes nothing.
        self._shown: dict[str, tuple[str, AsRead]] = {}
        self._used: deque[str] = deque(maxlen=_MOST_KEPT)
        self._done: dict[str, deque[str]] = {}
        self._one_at_a_time = threading.Lock()

    async def answer(self, request: Request) -> Response:
        """The answer to a request whose host is ours."""
        try:
            return await self._answer(request)
        except _NotAnswered as refused:
            return _page(refused.status, self._today(), refused=refused.why)

    async def _answer(self, request: Request) -> Response:
        path = request.scope["path"]
        if "service-worker" in request.headers:
            raise _NotAnswered(403, "No page here needs a service worker.")
        if path == STYLE and request.method in ("GET", "HEAD"):
            return _style()
        if path != PATH:
            raise _NotAnswered(404, "There is nothing here.")
        key = _key_in(request)
        known = self.devices.knows(key)
        if request.method in ("GET", "HEAD"):
            return self._field(key) if known else self._ask_for_code()
        if request.method != "POST":
            raise _NotAnswered(405, "This page can be read, and its form sent.")
        self._check_origin(request)
        self._check_rate(known)
        form = await _form(request)
        if not known:
            return self._pair(form, request)
        if not secrets.compare_digest(form.token.encode(), form_token(key).encode()):
            raise _NotAnswered(403, "This form is not of this device. Open the page anew.")
        try:
            return await asyncio.to_thread(self._jot, form, key)
        finally:
            # Whoever watches collects nothing in between, and a journal was read here.
            gc.collect()

    # -------------------------------------------------------------- who may

    def _check_origin(self, request: Request) -> None:
        """A form of another site is not ours, whatever cookie the browser sends with it."""
        host = request.headers.get("host", "")
        if request.headers.get("origin", "") != f"http://{host}":
            raise _NotAnswered(403, "This form does not come from this page.")
        if request.headers.get("sec-fetch-site", "same-origin") != "same-origin":
            raise _NotAnswered(403, "This form does not come from this page.")

    def _check_rate(self, known: bool) -> None:
        now, posts = self._clock(), self._posts[known]
        while posts and now - posts[0] >= _MINUTE:
            posts.popleft()
        if len(posts) >= MOST_POSTS:
            raise _NotAnswered(429, "That is more than a hand can write. Wait a minute.")
        posts.append(now)

    def _ask_for_code(self, wrong: str = "") -> Response:
        if not self.pairing.is_open:
            wrong = "The code is used up. Start backbud watch --on-lan --jot again for a new one."
        return _page(403 if wrong else 200, self._today(), pair=True, wrong=wrong)

    def _pair(self, form: _Form, request: Request) -> Response:
        if not form.code:
            raise _NotAnswered(
                403, "This device is not paired, or was forgotten. Open the page anew."
            )
        if not self.pairing.takes(form.code):
            return self._ask_for_code("This is not the code.")
        try:
            key = self.devices.add()
        except (PublishError, OSError):
            raise _NotAnswered(500, "The pairing cannot be kept; see the terminal.") from None
        client = request.client.host if request.client else "somewhere"
        self._tell(f"A device at {client} may jot from now on. --forget-devices takes that back.")
        response = _to_field()
        response.set_cookie(
            COOKIE, key, max_age=_COOKIE_SECONDS, path=PATH, httponly=True, samesite="strict"
        )
        return response

    # -------------------------------------------------------------- a line

    def _today(self) -> date:
        return self._ask_today()

    def _field(self, key: str) -> Response:
        done = self._done.get(form_token(key), ())
        return _page(200, self._today(), token=form_token(key), done=tuple(done))

    def _jot(self, form: _Form, key: str) -> Response:
        """How a line reads; or, the second time, into the diary."""
        with self._one_at_a_time:
            day, token = self._today(), form_token(key)
            if form.write and form.once in self._used:
                return _to_field()
            try:
                session = self._opened()
                (line,) = parted(session, [form.line], day)
                placing = place_for_phone(day)
                (read,) = as_read(session, (line,), day, placing(session))
                refused = only_at_the_keyboard(session.journal, line, read, day)
                # Only what was shown is written, as it was shown.
                was_shown = self._shown.get(form.once) == (form.line, read)
                if form.write and was_shown and not refused:
                    del self._shown[form.once]
                    _, done = write_lines(session, (line,), placing, self._opened)
                    self._used.append(form.once)
                    self._done.setdefault(token, deque(maxlen=5)).appendleft(form.line)
                    self._tell(f"From a phone, into {done.file}: {form.line}")
                    return _to_field()
            except JotError as error:
                return _page(400, day, token=token, line=form.line, wrong=f"Not written: {error}.")
            except (PublishError, OSError):
                raise _NotAnswered(500, "The diary cannot be written just now.") from None
            if refused:
                wrong = f"Not written: {refused}."
                return _page(400, day, token=token, line=form.line, wrong=wrong)
            once = self._show(form, read)
            return _page(200, day, token=token, line=form.line, read=read, once=once)

    def _show(self, form: _Form, read: AsRead) -> str:
        """What the form bears that writes the line as it is shown now."""
        once = secrets.token_urlsafe(12)
        self._shown[once] = (form.line, read)
        while len(self._shown) > _MOST_KEPT:
            del self._shown[next(iter(self._shown))]
        return once

    def _opened(self) -> Session:
        return open_session(self._folder, self._today(), only_check=True, keeps=False)


# ------------------------------------------------------------------ requests


def _key_in(request: Request) -> str:
    """The key in the cookie of a device; "" where there is none."""
    try:
        cookies: SimpleCookie = SimpleCookie("; ".join(request.headers.getlist("cookie"))[:4096])
    except CookieError:
        return ""
    return cookies[COOKIE].value if COOKIE in cookies else ""


async def _form(request: Request) -> _Form:
    """What a form says, read as far as such a form can go."""
    sort = request.headers.get("content-type", "").partition(";")[0].strip().casefold()
    if sort != "application/x-www-form-urlencoded":
        raise _NotAnswered(415, "Only the form of this page is read.")
    body = bytearray()
    try:
        async with asyncio.timeout(_BODY_SECONDS):
            async for piece in request.stream():
                body += piece
                if len(body) > MOST_BODY:
                    raise _NotAnswered(413, "This is too long for one line.")
    except TimeoutError:
        raise _NotAnswered(408, "This form did not come to its end.") from None
    try:
        said = parse_qs(
            body.decode("ascii"), keep_blank_values=True, max_num_fields=8, errors="strict"
        )
    except ValueError:
        raise _NotAnswered(400, "This form cannot be read.") from None

    def one(name: str) -> str:
        values = said.get(name, [""])
        if len(values) > 1:
            raise _NotAnswered(400, "This form says something twice.")
        return values[0]

    return _Form(one("code"), one("line"), one("token"), one("once"), bool(one("write")))


# ------------------------------------------------------------------ answers


def _page(status: int, today: date, **shown: object) -> Response:
    from starlette.responses import HTMLResponse

    from backbud.pages.templating import lone_page

    # What is told of a line is English, so all of this page is, whatever the journal speaks.
    speak(ENGLISH)
    nothing: dict[str, object] = {
        "refused": "",
        "pair": False,
        "wrong": "",
        "token": "",
        "line": "",
        "read": None,
        "once": "",
        "done": (),
    }
    shown = {**nothing, **shown, "style": STYLE, "path": PATH, "longest": LONGEST_JOT}
    shown["today"], shown["today_iso"] = full_day(today), today.isoformat()
    return HTMLResponse(lone_page("jot.html", shown), status, HEADERS)


def _to_field() -> Response:
    from starlette.responses import RedirectResponse

    # 303: the answer to a form is read by asking for another page (RFC 9110, 15.4.4).
    return RedirectResponse(PATH, 303, HEADERS)


def _style() -> Response:
    from starlette.responses import Response

    from backbud.pages.templating import stylesheet

    return Response(
        stylesheet(), 200, {**HEADERS, "Cache-Control": "private, no-cache"}, "text/css"
    )
