"""Lines go in, each on a tree of its own; out comes what is done of each, to the word."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date, timedelta
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory

from backbud.session import open_session

CARDS = """\
person gwen
person lowe
  name  Mrs Lowe
place yard
  latitude  52 N
place tunnel
  within  yard
place shade-house
  within  yard
place field-row
  within  yard
pot oval
  shape  oval
mix pine
  akadama  1
material soap
  sold in  bag of 1 L
tree moll
  kind  trident maple
  since  2011
"""
KEPT = ("noted", "private")
PAGE = date(2026, 6, 1)


@cache
def done(lines: Sequence[str], page: date = PAGE) -> dict[str, list[str]]:
    """What is done of each line on a page of that day: acts that were not held back, but for notes.

    Each tree is Mrs Lowe's, wired on left 1 and on its apex, tied in, fleeced and wrapped.
    """
    trees = "".join(
        f"tree zz{n}\n  kind  trident maple\n  since  2011\n  place  yard\n  owner  lowe\n"
        for n in range(len(lines))
    )
    everyone = ", ".join(f"zz{n}" for n in range(len(lines)))
    said = "".join(f"\nzz{n}\n  {line}\n" for n, line in enumerate(lines))
    with TemporaryDirectory() as folder:
        Path(folder, "backbud.toml").write_text('language = 1\nhome = "yard"\ncurrency = "EUR"\n')
        Path(folder, "cards.txt").write_text(CARDS + trees)
        Path(folder, "diary.txt").write_text(
            f"{page - timedelta(days=60)}\n\n{everyone}\n  wired  3 mm Al on left 1, 2 mm Al on"
            f" apex\n  tied  2 mm x 2\n  protected  fleece\n  wrapped  raffia on big bend\n\n"
            f"{page}\n{said}"
        )
        histories = open_session(folder, page + timedelta(days=1)).histories.trees
    return {
        line: [
            f"{one.event.said} {one.event.text}".rstrip()
            + (f" -- {one.event.remark}" if one.event.remark else "")
            for one in histories[f"zz{n}"].entries
            if one.event.day == page and not one.event.held and one.event.act not in KEPT
        ]
        for n, line in enumerate(lines)
    }
