"""Lines that could end, free, move or settle something by half a sentence: none does anything.

Questions, wishes, negations, reported speech, other trees and days, "if" and "until": each stands
on a tree of its own that has wire, ties and fleece on it.
"""

from __future__ import annotations

from datetime import date
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from backbud.journal.dated import Event
from backbud.session import Session, open_session

OWN = Path(__file__).with_name("own")
LINES, STRANGERS = (
    list(dict.fromkeys(filter(None, OWN.joinpath(name).read_text("utf-8").split("\n"))))
    for name in ("nothing_done.txt", "stranger.txt")
)
CARDS = """\
person gwen
person marrow
place yard
  latitude 52 N
place tunnel
  within yard
pot tray-7
pot grey-oval
material soap
  sold in bag of 1 L
tree yuki
  kind trident maple
  since 2011
"""
# What a stranger's lines name besides.
MORE_CARDS = """\
place bench
  within yard
tree moll
  kind trident maple
  since 2011
"""
# They change nothing: words that are kept.
KEPT = ("noted", "private")


def _session(folder: str, lines: list[str], more: str = "") -> Session:
    trees = "".join(
        f"tree zz{i}\n  kind  trident maple\n  since  2011\n  place  yard\n  owner  marrow\n"
        for i in range(len(lines))
    )
    everyone = ", ".join(f"zz{i}" for i in range(len(lines)))
    acts = "".join(f"\nzz{i}\n  {line}\n" for i, line in enumerate(lines))
    Path(folder, "backbud.toml").write_text('language = 1\nhome = "yard"\ncurrency = "EUR"\n')
    Path(folder, "cards.txt").write_text(f"{CARDS}{more}{trees}")
    Path(folder, "diary.txt").write_text(
        f"2026-03-01\n\n{everyone}\n  wired  3 mm Al on left 1, 2 mm Al on apex\n"
        f"  tied  2 mm x 2\n  protected  fleece\n\n2026-06-01\n{acts}"
    )
    return open_session(folder, date(2026, 6, 2))


def test_there_are_so_many() -> None:
    assert len(LINES) >= 400
    assert len(STRANGERS) >= 200


@pytest.mark.parametrize("whose", ["ours", "a stranger's"])
def test_nothing_is_done(whose: str) -> None:
    lines, more = (LINES, "") if whose == "ours" else (STRANGERS, MORE_CARDS)
    with TemporaryDirectory() as folder:
        trees = _session(folder, lines, more).histories.trees
        done = {}
        for i, line in enumerate(lines):
            of_line = [
                one.event for one in trees[f"zz{i}"].entries if one.event.day == date(2026, 6, 1)
            ]
            assert of_line, f"{line} is lost"
            acts = [one.act for one in of_line if not one.held and one.act not in KEPT]
            if acts:
                done[line] = acts
        assert done == {}


@pytest.mark.parametrize(
    ("line", "acts"),
    [
        ("wire off left 1", ["unwired"]),
        ("wire off left 1, rest stays", ["unwired"]),
        ("into tunnel, frost tonight", ["moved"]),
        ("fleece off, mild enough", ["unprotected"]),
        ("feed next week", ["planned"]),
        ("not repotted, watered", ["noted", "watered"]),
        ("no mekiri, too weak", ["skipped"]),
        ("no mekiri this year", ["skipped"]),
        ("no feed 4 weeks", ["put-off"]),
    ],
)
def test_what_is_plain_is_done(line: str, acts: list[str]) -> None:
    """The other side: the same words where nothing turns them."""
    with TemporaryDirectory() as folder:
        entries = _session(folder, [line]).histories.trees["zz0"].entries
        found: list[Event] = [one.event for one in entries if one.event.day == date(2026, 6, 1)]
        assert [one.act for one in found if not one.held] == acts
