"""Telling an open page that it changed, so that the browser loads it again.

Server-sent events (WHATWG HTML, 9.2). A page is told only when its own bytes changed, also when
that was before it asked, or while the server was away.
"""

from __future__ import annotations

import asyncio
from base64 import b64encode
from collections.abc import AsyncIterator, Callable
from hashlib import sha256
from html import escape

# Below the pages, and no name that any page has.
CHANGES = "-changes"
MEDIA_TYPE = "text/event-stream"
# So often a quiet connection says that it is alive, in seconds.
BREATH_SECONDS = 15.0
CHANGED = b"event: changed\ndata: \n\n"
BREATH = b": \n\n"

# The whole of the script; its digest stands in the header that lets it run.
SCRIPT = (
    "(s=>{const e=new EventSource(s.dataset.changes);"
    "e.addEventListener('changed',()=>{e.close();location.reload()});"
    "addEventListener('pagehide',()=>e.close());"
    "addEventListener('pageshow',p=>{if(p.persisted)location.reload()})"
    "})(document.currentScript)"
)
SCRIPT_SOURCE = f"'sha256-{b64encode(sha256(SCRIPT.encode()).digest()).decode()}'"


def script_tag(address: str) -> str:
    """The script for a page; `address`: where it hears of changes."""
    return f'<script data-changes="{escape(address)}">{SCRIPT}</script>'


class Hub:
    """Wakes every open page's connection after a run; lives in one event loop."""

    def __init__(self) -> None:
        self._turned = asyncio.Event()
        self.closed = False

    def turn(self) -> None:
        """Something was made: let every connection look whether it was its page."""
        self._turned.set()
        self._turned = asyncio.Event()

    def close(self) -> None:
        """End every connection."""
        self.closed = True
        self.turn()

    async def stream(self, seen: str, now: Callable[[], str]) -> AsyncIterator[bytes]:
        """What one page is told. `seen`: its mark as the browser has it; `now`: asks for it."""
        yield BREATH
        while not self.closed:
            turned = self._turned
            if now() != seen:
                yield CHANGED
                return
            try:
                await asyncio.wait_for(turned.wait(), BREATH_SECONDS)
            except TimeoutError:
                yield BREATH
