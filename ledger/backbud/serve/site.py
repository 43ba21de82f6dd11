"""Answering requests with the pages and feeds that were published, problems on top of each page.

Served are the bytes that were published and nothing else: no file is opened for a request, so
nothing that others put into made/ can be had, nor anything outside.
What is put into a page stands in the answer only, and is never written.
"""

from __future__ import annotations

import hmac
import os
from collections.abc import Callable, Mapping
from hashlib import blake2b
from html import escape
from typing import TYPE_CHECKING
from urllib.parse import quote

from msgspec import Struct

from backbud.serve.lan import host_is_ours
from backbud.serve.reload import CHANGES, MEDIA_TYPE, SCRIPT_SOURCE, Hub, script_tag

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response
    from starlette.types import Receive, Scope, Send

    from backbud.serve.jotting import JotDesk

INDEX = "index.html"
# The one page that has a script, and the folder of what it loads: nothing but what was published.
FIND, FIND_FOLDER = "find.html", "find/"
PATH = "/jot"
TYPES = {
    ".html": "text/html; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".jpg": "image/jpeg",
    ".jpeg": "image/jpeg",
    ".webp": "image/webp",
    ".ics": "text/calendar; charset=utf-8",
    ".csv": "text/csv; charset=utf-8",
    ".json": "application/json",
    ".txt": "text/plain; charset=utf-8",
    ".pdf": "application/pdf",
    ".sqlite": "application/vnd.sqlite3",
}
_SCRIPTS = f"script-src {SCRIPT_SOURCE}"
HEADERS = {
    "Content-Security-Policy": (
        f"default-src 'self'; {_SCRIPTS}; worker-src 'none'; "
        "style-src 'self' 'unsafe-inline'; img-src 'self' data:; object-src 'none'; "
        "base-uri 'none'; form-action 'none'; frame-ancestors 'none'"
    ),
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    # May be kept, but is asked for each time; never by a cache that others share.
    "Cache-Control": "private, no-cache",
}
_BANNER_PROBLEMS = 20
_NOT_HERE = (
    '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
    '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
    '<meta name="color-scheme" content="light dark">\n<title>{title}</title>\n</head>\n<body>\n'
    "<main>\n<h1>{title}</h1>\n<p>{text}</p>\n</main>\n</body>\n</html>\n"
)


class Banner(Struct, frozen=True):
    """What stands on top of every page: why it may be old, and the journal's problems."""

    failure: str = ""
    problems: tuple[str, ...] = ()


class Site:
    """An ASGI application that serves one journal's output.

    `base`: "/" or "/SECRET/". `files`: asks for what is published now, by relative POSIX path.
    `banner`: asks for what is to stand on top now. `desk`: the page to jot on; it stands beside
    `base`, so that whoever may jot does not know it.
    """

    def __init__(
        self,
        files: Callable[[], Mapping[str, bytes]],
        banner: Callable[[], Banner],
        hub: Hub,
        secret: str = "",
        desk: JotDesk | None = None,
    ) -> None:
        self._files, self._banner, self._hub = files, banner, hub
        self._secret, self._desk = secret, desk
        self.base = f"/{secret}/" if secret else "/"

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        from starlette.requests import Request

        if scope["type"] == "http":
            request = Request(scope, receive)
            answer = await self._jot(request) or self._answer(request)
            await answer(scope, receive, send)

    async def _jot(self, request: Request) -> Response | None:
        """What the page to jot on says; None where it is off, or something else is asked for."""
        path = request.scope["path"]
        if self._desk is None or not (path == PATH or path.startswith(f"{PATH}/")):
            return None
        if not host_is_ours(request.headers.get("host", ""), bool(self._secret)):
            return None
        return await self._desk.answer(request)

    def _answer(self, request: Request) -> Response:
        if not host_is_ours(request.headers.get("host", ""), bool(self._secret)):
            return _plain(421, "This is not the address of this server.")
        if request.method not in ("GET", "HEAD"):
            return _plain(405, "Pages here can only be read.", {"Allow": "GET, HEAD"})
        if "service-worker" in request.headers:
            # Service Workers (W3C), "Service-Worker": it is sent when a worker is asked for.
            return _plain(403, "No page here needs a service worker.")
        name = self._name(request.scope["path"])
        if name is None:
            return _plain(404, "There is nothing here.")
        if name == CHANGES:
            return self._changes(request)
        return self._file(request, name or INDEX)

    def _name(self, path: str) -> str | None:
        """The path below the base; None where it does not begin with it."""
        base = self.base.encode()
        written = path.encode(errors="surrogateescape")
        if not hmac.compare_digest(written[: len(base)], base):
            return None
        return path[len(self.base) :]

    # -------------------------------------------------------------- files

    def _file(self, request: Request, name: str) -> Response:
        content = self._files().get(name)
        ending = os.path.splitext(name)[1].casefold()
        if content is None:
            if ending not in ("", ".html"):
                return _plain(404, "There is nothing here.")
            return self._answered(request, self._page(name, None), TYPES[".html"], 404)
        if ending == ".html":
            content = self._page(name, content)
        sort = TYPES.get(ending, "application/octet-stream")
        return self._answered(request, content, sort, 200, name == FIND)

    def _answered(
        self, request: Request, content: bytes, sort: str, status: int, finds: bool = False
    ) -> Response:
        """`finds`: the page loads the scripts of the index, and none from elsewhere."""
        from starlette.responses import Response

        tag = f'"{_mark(content)}"'
        headers = {**HEADERS, "ETag": tag, "Content-Type": sort}
        if finds:
            # Whoever asks is one of our names (host_is_ours), so it ends no directive.
            there = f"{request.headers['host']}{self.base}{FIND_FOLDER}"
            policy = headers["Content-Security-Policy"]
            headers["Content-Security-Policy"] = policy.replace(_SCRIPTS, f"{_SCRIPTS} {there}")
        if status == 200 and _has(request.headers.getlist("if-none-match"), tag):
            del headers["Content-Type"]
            return Response(status_code=304, headers=headers)
        return Response(content, status, headers)

    # -------------------------------------------------------------- pages

    def _page(self, name: str, made: bytes | None) -> bytes:
        """A page as it is served: with the banner, and with the script that hears of changes."""
        shown = self._with_banner(made)
        seen = _mark(shown)
        address = f"{self.base}{CHANGES}?page={quote(name, safe='')}&seen={seen}"
        return _before(b"</body>", shown, script_tag(address).encode())

    def _with_banner(self, made: bytes | None) -> bytes:
        banner = self._banner()
        if made is None:
            made = _nothing_here(banner).encode()
        return _behind_body(made, banner_html(banner).encode())

    def _changes(self, request: Request) -> Response:
        from starlette.responses import StreamingResponse

        name, seen = (request.query_params.get(key, "") for key in ("page", "seen"))

        def now() -> str:
            return _mark(self._with_banner(self._files().get(name)))

        return StreamingResponse(
            self._hub.stream(seen, now),
            headers={**HEADERS, "Cache-Control": "no-store"},
            media_type=MEDIA_TYPE,
        )


# ------------------------------------------------------------------ what is put into a page


def banner_html(banner: Banner) -> str:
    """The banner; "" where all is well."""
    if not banner.failure and not banner.problems:
        return ""
    lines = [
        "<style>#backbud-watch{position:relative;padding:.6rem 1rem;border-bottom:3px solid;"
        "background:Canvas;color:CanvasText;font:1rem/1.5 system-ui,sans-serif}"
        "#backbud-watch pre{overflow-x:auto;margin:.5rem 0}"
        "@media print{#backbud-watch{display:none}}</style>",
        '<aside id="backbud-watch" role="status" aria-label="The journal as it is being written">',
    ]
    if banner.failure:
        why = escape(banner.failure)
        lines.append(f"<p><strong>These pages are from before.</strong> <bdi>{why}</bdi></p>")
    if banner.problems:
        count = len(banner.problems)
        what = "1 problem" if count == 1 else f"{count} problems"
        lines.append(f"<details open><summary>{what} in the journal</summary>")
        shown = banner.problems[:_BANNER_PROBLEMS]
        lines += [f'<pre tabindex="0" dir="auto">{escape(problem)}</pre>' for problem in shown]
        if count > len(shown):
            lines.append(f"<p>… and {count - len(shown)} more; backbud check shows all.</p>")
        lines.append("</details>")
    return "\n".join([*lines, "</aside>", ""])


def _nothing_here(banner: Banner) -> str:
    text = "It may come back with the next change of the journal. "
    return _NOT_HERE.format(
        title="No such page",
        text=text
        + ("" if banner.failure else 'Everything begins at <a href="/">the first page</a>.'),
    )


def _behind_body(page: bytes, more: bytes) -> bytes:
    """The page with more behind its opening body tag."""
    at = page.find(b">", page.find(b"<body")) + 1
    return page[:at] + b"\n" + more + page[at:] if more else page


def _before(mark: bytes, page: bytes, more: bytes) -> bytes:
    at = page.rfind(mark)
    return page[:at] + more + page[at:] if at >= 0 else page + more


# ------------------------------------------------------------------ answers


def _mark(content: bytes) -> str:
    return blake2b(content, digest_size=16).hexdigest()


def _has(headers: list[str], tag: str) -> bool:
    """Whether If-None-Match names the tag, compared weakly (RFC 9110, 13.1.2)."""
    named = [one.strip().removeprefix("W/") for header in headers for one in header.split(",")]
    return "*" in named or tag in named


def _plain(status: int, text: str, more: dict[str, str] | None = None) -> Response:
    from starlette.responses import PlainTextResponse

    return PlainTextResponse(f"{text}\n", status, {**HEADERS, **(more or {})})
