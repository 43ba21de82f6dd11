"""In a dry winter the soil of what stands in the open is looked at once.

Monthly means of 1991 to 2020, from memory. Denver's winter has 30 mm from December on, and
Johannesburg's 19 mm from June on: growers of both water in winter, on days that thaw. Days are
counted by hand.
"""

from __future__ import annotations

import pytest

DENVER = """
place yard
  latitude   39.7 N
  longitude  105 W
  low  -8 -7.3 -2.9 0.8 6.4 11.9 15.4 14.5 9.4 2.1 -3.9 -8 C
  high 7.1 7.9 13.1 16.4 21.8 28.2 32.3 31.2 26.6 18.6 11.8 6.9 C
"""
DRY = "  rain 10 11 22 43 55 50 54 46 34 26 16 9 mm\n"
WET = "  rain 168 105 114 89 65 54 36 37 51 121 189 162 mm\n"
JOHANNESBURG = """
place yard
  latitude   26.2 S
  longitude  28 E
  low  14.7 14.1 13.1 10.3 7.2 4.1 4.1 6.2 9.3 11.2 12.7 13.9 C
  high 25.6 25.1 24 21.1 18.9 16 16.7 19.4 22.8 23.8 24.2 25.2 C
  rain 125 90 91 54 13 9 4 6 27 72 117 105 mm
"""
PHOENIX = """
place yard
  latitude   33.4 N
  longitude  112 W
  low  8.2 9.6 12.6 16 20.9 25.4 29.2 29 25.6 18.7 12.1 7.6 C
  high 20 21.9 26 30.3 35.6 41 41.5 40.8 37.8 31.5 24.7 19.2 C
  rain 22 22 21 6 3 1 23 24 15 14 14 19 mm
"""
TREE = """
place glass
  within  yard
  cover   unheated glass
tree hoshi
  kind   Scots pine
  place  yard
2025-03-01
hoshi
  noted  well
"""
HOME = 'home = "yard"\n'


@pytest.mark.parametrize(
    ("yard", "on", "window"),
    [
        # 1 January, three weeks and ten weeks later.
        (DENVER + DRY, "2026-01-10", ["2026-01-01", "2026-01-22", "2026-03-12"]),
        (JOHANNESBURG, "2026-07-10", ["2026-07-01", "2026-07-22", "2026-09-09"]),
    ],
)
def test_it_is_asked_for_once_a_winter(written, find, days, yard, on, window) -> None:
    one = find(written(yard + TREE, on, settings=HOME, as_of=True), f"dry-winter/{on[:4]}")
    assert days(one) == window
    assert one.title.startswith("check soil, and water it") and one.weight.must


@pytest.mark.parametrize(
    ("yard", "more"),
    [
        # Rain enough; none known of; no rest, so it is watered all winter.
        (DENVER + WET, ""),
        (DENVER, ""),
        (PHOENIX, ""),
        # Under a cover for the winter another look is asked for.
        (DENVER + DRY, "\n2025-11-10\nhoshi\n  moved glass\n"),
        (DENVER + DRY, "\n2025-11-10\nhoshi\n  protected mulch\n"),
    ],
)
def test_nobody_is_asked(written, states, yard, more) -> None:
    session = written(yard + TREE + more, "2026-01-10", settings=HOME, as_of=True)
    assert "hoshi/dry-winter/2026" not in states(session, "dry-winter/")


@pytest.mark.parametrize(("done", "state"), [("watered", "done"), ("checked soil", "done")])
def test_who_waters_or_looks_has_done_it(written, states, done, state) -> None:
    text = f"{DENVER}{DRY}{TREE}\n2026-01-09\nhoshi\n  {done}\n"
    found = states(written(text, "2026-01-10", settings=HOME, as_of=True), "dry-winter/2026")
    assert found == {"hoshi/dry-winter/2026": state}
