"""A page that is open in a real browser shows what was saved, and nobody touched the browser."""

from __future__ import annotations

import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.browser import PATIENCE_S, Browser, PageLeft, needs_chromium

pytestmark = needs_chromium


class Watcher(Browser):
    """A browser in which, after `open`, nothing is done but to look at the page."""

    def open(self, address: str) -> None:
        self.call("Page.navigate", url=address)

    def shows(self, wanted: str, *, is_there: bool = True) -> None:
        """Wait until the page shows a text, or does not any more."""
        until = time.monotonic() + PATIENCE_S
        while (text := self._text()) is None or (wanted in text) != is_there:
            assert time.monotonic() < until, f"{wanted!r}: {text}"
            time.sleep(0.02)

    def send(self, name: str, value: str) -> None:
        """Fill in a field and send its form by its button; a button is pressed."""
        self.value(
            f"(() => {{ const found = 'main [name={name}]:not([type=hidden])';"
            " const one = document.querySelector(found); const form = one.form;"
            f" if (one.tagName === 'INPUT') one.value = '{value}';"
            " form.querySelector('button').click(); return true })()"
        )

    def _text(self) -> str | None:
        """What stands on the page; None while it is being loaded again."""
        try:
            text: str | None = self.value("document.body && document.body.innerText")
        except PageLeft:
            return None
        return text


@pytest.fixture
def browser(tmp_path: Path) -> Iterator[Watcher]:
    one = Watcher(tmp_path / "profile")
    yield one
    one.close()


def add(journal: Path, line: str) -> None:
    diary = journal / "diary" / "2026.txt"
    diary.write_text(f"{diary.read_text()}\n2026-03-09\n\nyuki\n  {line}\n")


def test_a_saved_change_is_seen_on_the_open_page(
    journal: Path, watch: Any, browser: Watcher
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
    journal: Path, watch: Any, browser: Watcher
) -> None:
    server = watch()
    server.page_with("trees/yuki.html", "buds are swelling")
    browser.open(f"http://127.0.0.1:{server.port}/trees/hoshi.html")
    browser.shows("2 cm off below")
    # It stands on top until the first run has ended, and goes with a change of its own.
    browser.shows("The journal is being read.", is_there=False)
    browser.value("window.mark = 'the same'")
    add(journal, "noted     two buds open")
    server.page_with("trees/yuki.html", "two buds open")
    time.sleep(0.5)
    assert browser.value("window.mark") == "the same"


def test_a_problem_comes_and_goes_on_the_open_page(
    journal: Path, watch: Any, browser: Watcher
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


def test_it_works_below_the_secret_path_too(journal: Path, watch: Any, browser: Watcher) -> None:
    server = watch("--on-lan")
    server.page_with("trees/yuki.html", "buds are swelling")
    browser.open(f"http://127.0.0.1:{server.port}{server.below}trees/yuki.html")
    browser.shows("buds are swelling")
    add(journal, "noted     two buds open")
    browser.shows("two buds open")
    # Its links stay below it.
    browser.value("document.querySelector('nav a').click()")
    browser.shows("What comes next stands in the year")
    assert browser.value("location.pathname").startswith(server.below)


def test_it_finds_below_the_secret_path(journal: Path, watch: Any, browser: Watcher) -> None:
    """Its scripts are let in by the policy, and no others are."""
    server = watch("--on-lan")
    server.page_with("trees/yuki.html", "buds are swelling")
    browser.open(f"http://127.0.0.1:{server.port}{server.below}find.html")
    browser.shows("a word that you wrote")
    browser.value(
        "(() => { const field = document.getElementById('words'); field.value = 'swelling';"
        " field.dispatchEvent(new Event('input')) })()"
    )
    browser.shows("1 found:")
    browser.value("document.querySelector('#found a').click()")
    browser.shows("buds are swelling")
    assert browser.said == []
    browser.open(f"http://127.0.0.1:{server.port}{server.below}index.html")
    browser.shows("What comes next")
    browser.value(
        "(() => { const one = document.createElement('script'); one.src = 'find/t0.js';"
        " document.head.append(one) })()"
    )
    until = time.monotonic() + PATIENCE_S
    while not any("Content Security Policy" in one for one in browser.said):
        assert time.monotonic() < until
        browser.value("1")


def test_a_server_that_was_away_is_found_again(journal: Path, watch: Any, browser: Watcher) -> None:
    server = watch()
    server.page_with("trees/yuki.html", "buds are swelling")
    browser.open(f"http://127.0.0.1:{server.port}/trees/yuki.html")
    browser.shows("buds are swelling")
    server.stop()
    add(journal, "noted     two buds open")
    watch("--port", str(server.port))
    browser.shows("two buds open")


def test_a_phone_is_paired_and_jots_with_no_script(
    journal: Path, watch: Any, browser: Watcher
) -> None:
    """A real browser sends the origin and the cookie that the page asks for."""
    server = watch("--on-lan", "--jot")
    code = server.told_of(r"Code: (\S+)")[1]
    browser.call("Emulation.setScriptExecutionDisabled", value=True)
    browser.open(f"http://127.0.0.1:{server.port}/jot")
    browser.shows("The code from the terminal")
    browser.send("code", code)
    browser.shows("Whose, and what was done")
    browser.send("line", "hoshi pruned 2 cm off")
    browser.shows("pruned 2 cm off")
    browser.send("write", "yes")
    browser.shows("Written")
    (jotted,) = (journal / "diary" / "jotted").iterdir()
    assert jotted.read_text().endswith("\n\nhoshi\n  pruned    2 cm off\n")
