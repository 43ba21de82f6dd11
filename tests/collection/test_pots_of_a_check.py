"""A check, which makes no event of a potting that names no pot, tells where two trees would share
one, as a whole replay does."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from backbud.session import open_session

JOURNAL = """\
place yard
  latitude  52 N
pot tray-7
pot tray-9
tree hoshi
  kind  trident maple
tree yuki
  kind  trident maple
words
  since  2026-01-01
  rein  into
  T7  into tray-7

2026-03-01

hoshi
  {first}

2026-03-02

yuki
  {then}
"""
YUKI = JOURNAL[: JOURNAL.index("  {then}")].count("\n") + 1


@pytest.mark.parametrize(
    ("first", "then", "taken"),
    [
        ("repotted  into tray-7", "repotted  into tray-7", True),
        ("repotted  2 cm off below, onto tray-7", "slipped  into tray-7", True),
        ("potted-on  Into Tray-7", "repotted  INTO tray-7, moss", True),
        ("repotted  rein tray-7", "repotted  Rein tray-7, 2 cm off below", True),
        ("repotted  T7", "repotted  2 cm off below, t7", True),
        ("repotted  T7", "repotted  into tray-9", False),
        ("repotted  into tray-7", "repotted  same pot, 2 cm off below, moss", False),
    ],
)
def test_a_pot_that_two_are_put_into_is_told_by_a_check(
    tmp_path: Path, first: str, then: str, taken: bool
) -> None:
    (tmp_path / "backbud.toml").write_text('language = 1\nhome = "yard"\n')
    (tmp_path / "journal.txt").write_text(JOURNAL.format(first=first, then=then))
    for only_check in (True, False):
        session = open_session(str(tmp_path), date(2026, 11, 20), only_check=only_check)
        found = [(one.code, one.line, one.message) for one in session.problems()]
        assert found == ([("pot-taken", YUKI, "“hoshi” stands in “tray-7”")] if taken else [])
