"""A headless Chromium for the tests: a script or a method goes in, what the page says comes out.

It is spoken to over its debugging pipe (Chrome DevTools Protocol), so no driver is needed.
"""

from __future__ import annotations

import base64
import fcntl
import json
import os
import select
import shutil
import subprocess
from pathlib import Path
from typing import Any

import pytest

PATIENCE_S = 60.0
CHROMIUM = shutil.which("chromium")

# For a module whose tests need the browser.
needs_chromium = [
    pytest.mark.chromium,
    pytest.mark.skipif(CHROMIUM is None, reason="chromium is not installed"),
]


class PageLeft(Exception):
    """The page went away, to be loaded again, while a question to it was under way."""


class Browser:
    """One page of a headless Chromium.

    `requests`: every address it asked for. `said`: what stood in its console of errors.
    """

    def __init__(self, profile: Path) -> None:
        to_read, self._to_write = os.pipe()
        self._to_hear, to_speak = os.pipe()
        # Chromium reads from 3 and writes to 4; out of the way first, or one could hide the other.
        ends = [fcntl.fcntl(end, fcntl.F_DUPFD, 10) for end in (to_read, to_speak)]

        def place_ends() -> None:
            os.dup2(ends[0], 3)
            os.dup2(ends[1], 4)

        assert CHROMIUM is not None
        self._process = subprocess.Popen(
            [CHROMIUM, "--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage",
             "--no-first-run", "--hide-scrollbars", "--remote-debugging-pipe",
             f"--user-data-dir={profile}", "about:blank"],
            close_fds=False, preexec_fn=place_ends,
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        for end in (to_read, to_speak, *ends):
            os.close(end)
        self._heard = b""
        self._count = 0
        self._session = ""
        self.requests: list[str] = []
        self.said: list[str] = []
        target = self.call("Target.createTarget", url="about:blank")["targetId"]
        self._session = self.call("Target.attachToTarget", targetId=target, flatten=True)[
            "sessionId"
        ]
        for domain in ("Page", "Network", "Log", "Runtime"):
            self.call(f"{domain}.enable")

    def call(self, method: str, **params: Any) -> dict[str, Any]:
        """Call a method of the protocol and wait for its answer.

        PageLeft where the page was left meanwhile; AssertionError for every other refusal.
        """
        self._count += 1
        number = self._count
        message: dict[str, Any] = {"id": number, "method": method, "params": params}
        if self._session:
            message["sessionId"] = self._session
        os.write(self._to_write, json.dumps(message).encode() + b"\0")
        while (answer := self._hear()).get("id") != number:
            pass
        if answer.get("error", {}).get("message") == "Inspected target navigated or closed":
            raise PageLeft
        assert "error" not in answer, answer
        result: dict[str, Any] = answer["result"]
        return result

    def wait_for(self, event: str) -> None:
        while self._hear().get("method") != event:
            pass

    def _hear(self) -> dict[str, Any]:
        while b"\0" not in self._heard:
            ready, _, _ = select.select([self._to_hear], [], [], PATIENCE_S)
            assert ready, f"chromium said nothing for {PATIENCE_S} s"
            got = os.read(self._to_hear, 1 << 20)
            assert got, "chromium ended"
            self._heard += got
        line, _, self._heard = self._heard.partition(b"\0")
        message: dict[str, Any] = json.loads(line)
        if message.get("method") == "Network.requestWillBeSent":
            self.requests.append(message["params"]["request"]["url"])
        if message.get("method") in ("Log.entryAdded", "Runtime.exceptionThrown"):
            self.said.append(json.dumps(message["params"]))
        return message

    def value(self, script: str) -> Any:
        """What a script says; AssertionError where it fails."""
        answer = self.call("Runtime.evaluate", expression=script, returnByValue=True)
        assert "exceptionDetails" not in answer, answer
        return answer["result"].get("value")

    def picture(self) -> bytes:
        """The whole page as PNG."""
        shot = self.call("Page.captureScreenshot", captureBeyondViewport=True)
        return base64.b64decode(shot["data"])

    def print(self) -> bytes:
        """The page as PDF, on the paper that its stylesheet asks for."""
        printed = self.call("Page.printToPDF", preferCSSPageSize=True, printBackground=False)
        return base64.b64decode(printed["data"])

    def close(self) -> None:
        os.close(self._to_write)
        os.close(self._to_hear)
        self._process.terminate()
        self._process.wait(20)
