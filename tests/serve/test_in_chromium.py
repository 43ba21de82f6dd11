"""A page that is open in a real browser shows what was saved, and nobody touched the browser.

Chromium is spoken to over its debugging pipe (Chrome DevTools Protocol), so no driver is needed.
"""

from __future__ import annotations

import fcntl
import json
import os
import select
import shutil
import subprocess
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

PATIENCE_S = 60.0
CHROMIUM = shutil.which("chromium")

pytestmark = [
    pytest.mark.chromium,
    pytest.mark.skipif(CHROMIUM is None, reason="chromium is not installed"),
]


class Browser:
    """One page of a headless Chromium; after `open` nothing is done but to look at it."""

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
             "--no-first-run", "--remote-debugging-pipe", f"--user-data-dir={profile}",
             "about:blank"],
            close_fds=False, preexec_fn=place_ends,
            stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        for end in (to_read, to_speak, *ends):
            os.close(end)
        self._heard = b""
        self._count = 0
        self._session = ""
        self.said: list[str] = []
        target = self._call("Target.createTarget", url="about:blank")["targetId"]
        self._session = self._call("Target.attachToTarget", targetId=target, flatten=True)[
            "sessionId"
        ]
        for domain in ("Page", "Log", "Runtime"):
            self._call(f"{domain}.enable")

    def _call(self, method: str, **params: Any) -> dict[str, Any]:
        self._count += 1
        message: dict[str, Any] = {"id": self._count, "method": method, "params": params}
        if self._session:
            message["sessionId"] = self._session
        os.write(self._to_write, json.dumps(message).encode() + b"\0")
        while (answer := self._hear()).get("id") != self._count:
            if answer.get("method") in ("Log.entryAdded", "Runtime.exceptionThrown"):
                self.said.append(json.dumps(answer["params"]))
        assert "error" not in answer, answer
        result: dict[str, Any] = answer["result"]
        return result

    def _hear(self) -> dict[str, Any]:
        while b"\0" not in self._heard:
            ready, _, _ = select.select([self._to_hear], [], [], PATIENCE_S)
            assert ready, f"chromium said nothing for {PATIENCE_S} s"
            got = os.read(self._to_hear, 1 << 20)
            assert got, "chromium ended"
            self._heard += got
        line, _, self._heard = self._heard.partition(b"\0")
        message: dict[str, Any] = json.loads(line)
        return message

    def open(self, address: str) -> None:
        self._call("Page.navigate", url=address)

    def value(self, script: str) -> Any:
        answer = self._call("Runtime.evaluate", expression=script, returnByValue=True)
        return answer["result"].get("value")

    def shows(self, wanted: str, *, is_there: bool = True) -> None:
        """Wait until the page shows a text, or does not any more."""
        until = time.monotonic() + PATIENCE_S
        while (
            wanted in (self.value("document.body && document.body.innerText") or "")
        ) != is_there:
            assert time.monotonic() < until, f"{wanted!r}: {self.value('document.body.innerText')}"
            time.sleep(0.02)

    def close(self) -> None:
        self._process.kill()
        self._process.wait()
        for end in (self._to_write, self._to_hear):
            os.close(end)


@pytest.fixture
def browser(tmp_path: Path) -> Iterator[Browser]:
    one = Browser(tmp_path / "profile")
    yield one
    one.close()


def add(journal: Path, line: str) -> None:
    diary = journal / "diary" / "2026.txt"
    diary.write_text(f"{diary.read_text()}\n2026-03-09\n\nyuki\n  {line}\n")


def test_a_saved_change_is_seen_on_the_open_page(
    journal: Path, watch: Any, browser: Browser
) -> None:
    server = watch()
    server.page_with("trees/yuki.html", "buds are swelling")
    browser.open(f"http://127.0.0.1:{server.port}/trees/yuki.html")
    browser.shows("buds are swelling")
    for line in ("two buds open", "five buds open", "all buds open"):
        add(journal, f"noted     {line}")
        browser.shows(line)
    assert browser.said == []


def test_a_page_that_did_not_change_is_not_loaded_again(
    journal: Path, watch: Any, browser: Browser
) -> None:
    server = watch()
    server.page_with("trees/yuki.html", "buds are swelling")
    browser.open(f"http://127.0.0.1:{server.port}/trees/hoshi.html")
    browser.shows("2 cm off below")
    browser.value("window.mark = 'the same'")
    add(journal, "noted     two buds open")
    server.page_with("trees/yuki.html", "two buds open")
    time.sleep(0.5)
    assert browser.value("window.mark") == "the same"


def test_a_problem_comes_and_goes_on_the_open_page(
    journal: Path, watch: Any, browser: Browser
) -> None:
    server = watch()
    server.page_with("trees/yuki.html", "buds are swelling")
    browser.open(f"http://127.0.0.1:{server.port}/trees/hoshi.html")
    browser.shows("2 cm off below")
    good = (journal / "diary" / "2026.txt").read_text()
    add(journal, "reptted   same pot")
    browser.shows("1 problem in the journal")
    browser.shows("reptted")
    (journal / "diary" / "2026.txt").write_text(good)
    browser.shows("1 problem in the journal", is_there=False)
    assert browser.said == []


def test_it_works_below_the_secret_path_too(journal: Path, watch: Any, browser: Browser) -> None:
    server = watch("--on-lan")
    server.page_with("trees/yuki.html", "buds are swelling")
    browser.open(f"http://127.0.0.1:{server.port}{server.below}trees/yuki.html")
    browser.shows("buds are swelling")
    add(journal, "noted     two buds open")
    browser.shows("two buds open")
    # Its links stay below it.
    browser.value("document.querySelector('nav a').click()")
    browser.shows("What wants doing")
    assert browser.value("location.pathname").startswith(server.below)


def test_a_server_that_was_away_is_found_again(journal: Path, watch: Any, browser: Browser) -> None:
    server = watch()
    server.page_with("trees/yuki.html", "buds are swelling")
    browser.open(f"http://127.0.0.1:{server.port}/trees/yuki.html")
    browser.shows("buds are swelling")
    server.stop()
    add(journal, "noted     two buds open")
    watch("--port", str(server.port))
    browser.shows("two buds open")
