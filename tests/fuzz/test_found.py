"""Each fault that was found by sending odd journals through, in the smallest that shows it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from through import fault_of

from backbud.make import make

FOUND = {
    # An escape of a terminal stood as it was in a page that showed the problem.
    "a control character on a page": {"diary.txt": b"2027-05-31\n\x1b[31m\n  watered\n"},
    "a control character in a name": {"cards.txt": b"tree hoshi\n  name a\x01\x7f\xc2\x85b\n"},
    # No file system takes the name of its page.
    "a handle of 300 letters": {"cards.txt": b"tree " + b"x" * 300 + b"\n"},
    # The curves through the monthly means crossed, and no air is so.
    "a month whose lows are its highs": {
        "cards.txt": b"place yard\n  latitude 52 N\n"
        b"  low 0 0 0 0 0 0 10 0 0 0 0 0 C\n  high 10 10 10 10 10 10 10 10 10 10 10 10 C\n"
        b"pot tray-1\n  inside 38 x 27 x 7 cm\n"
        b"tree hoshi\n  kind trident maple\n  place yard\n  pot tray-1\n"
    },
    # Their follow-ups had the same ids, and nothing to be put in order by.
    "the former handle of a tree is the handle of another": {
        "cards.txt": b"tree hoshi\n  kind trident maple\ntree i\n  kind olive\n  formerly hoshi\n",
    },
    # A calendar was named for it, in a folder of its own.
    "a former handle that is a path": {"cards.txt": b"tree x\n  formerly /, ../../y\n"},
    # The day that a broken date may mean was sought in the year 10000.
    "a broken date below the last year there is": {"diary.txt": b"9999\n2X5\n"},
    # The places in a line that goes on below were lost where the card's lines had slipped.
    "a line at the edge, the next of which goes on": {
        "cards.txt": b"place d\nlow 1 1 2 4 6 9 1 1 9 7 4 2 C\n high 9\n  r\n",
    },
}


@pytest.mark.parametrize("case", FOUND)
def test_what_was_found_is_mended(case: str) -> None:
    assert fault_of({"backbud.toml": b'language = 1\nhome = "yard"\n', **FOUND[case]}) is None


def test_what_no_page_may_hold_is_a_sign_there(tmp_path: Path) -> None:
    (tmp_path / "backbud.toml").write_text("language = 1\n")
    (tmp_path / "a.txt").write_bytes(b"tree hoshi\n  name a\x01\x7f\xc2\x85b\n")
    make(str(tmp_path), date(2027, 6, 1))
    page = (tmp_path / "made" / "trees" / "hoshi.html").read_text()
    # U+0085 is a blank of the language.
    assert "a\ufffd\ufffd b" in page
    assert "\x01" not in page
