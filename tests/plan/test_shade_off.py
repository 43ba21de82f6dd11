"""Summer shade comes off once the heat is over, and in the rains between two hot times.

Monthly means of Nottingham, Phoenix and Delhi, from memory. Their days reach 28 °C: never; from the
end of March to early November (31.5 in October, 24.7 in November); from March to the end
of June, and from September to the middle of November.
"""

from __future__ import annotations

import pytest

COOL = """
place yard
  latitude   53 N
  longitude  1.1 W
  low   1.4 1.2 2.7 4.1 6.9 9.8 11.9 11.8 9.8 7.1 3.9 1.6 C
  high  6.9 7.3 9.9 12.6 16.0 18.9 21.3 20.9 18.0 13.8 9.8 7.1 C
"""
PHOENIX = """
place yard
  latitude   33.4 N
  longitude  112 W
  low  8.2 9.6 12.6 16 20.9 25.4 29.2 29 25.6 18.7 12.1 7.6 C
  high 20 21.9 26 30.3 35.6 41 41.5 40.8 37.8 31.5 24.7 19.2 C
"""
DELHI = """
place yard
  latitude   28.6 N
  longitude  77.2 E
  low  7.5 10.3 15 20.4 25 27.6 27.4 26.7 24.7 19 12.9 8.4 C
  high 20.1 24.2 29.9 36.7 40.1 39.5 35.4 34 34 33 28 22.8 C
  rain 20 22 16 16 31 82 210 247 130 15 6 8 mm
"""
TREE = """
tree hoshi
  kind   Japanese maple
  place  yard
"""


@pytest.fixture
def off(written, find, days):
    def window(yard: str, shaded: str) -> list[str]:
        page = f"\n{shaded}\nhoshi\n  shaded 40 %\n"
        session = written(yard + TREE + page, shaded, settings='home = "yard"\n')
        return days(find(session, "shade-off"))

    return window


@pytest.mark.parametrize(
    ("yard", "shaded", "first", "last"),
    [
        # By months: September to mid-October.
        (COOL, "2026-06-11", "2026-09-01", "2026-10-15"),
        # Not in mid-September, at 38 °C: four weeks from the first week of November on.
        (PHOENIX, "2026-05-11", "2026-11-02", "2026-11-30"),
        (PHOENIX, "2026-10-05", "2026-11-02", "2026-11-30"),
        # Once it rains, and again in the middle of November.
        (DELHI, "2026-04-06", "2026-06-29", "2026-07-27"),
        (DELHI, "2026-09-07", "2026-11", "2026-12"),
    ],
)
def test_shade_comes_off_as_the_heat_ends(off, yard, shaded, first, last) -> None:
    opens, _, closes = off(yard, shaded)
    assert opens.startswith(first) and closes.startswith(last), (opens, closes)


def test_shade_of_late_autumn_in_a_cool_place_is_not_for_summer(written, states) -> None:
    page = "\n2026-10-01\nhoshi\n  shaded 40 %\n"
    assert states(written(COOL + TREE + page, settings='home = "yard"\n'), "shade-off") == {}


# ------------------------------------------------------------------ and is asked for again


@pytest.mark.parametrize(
    ("more", "again"),
    [
        ("", {}),
        ("\n2026-07-06\nhoshi\n  unshaded\n", {"hoshi/palmatum-shade/2026/again": "now"}),
    ],
)
def test_where_the_rains_part_the_heat_shade_is_asked_for_twice(
    written, states, more, again
) -> None:
    """In September, where it was taken off for the rains; and not while it is on."""
    page = f"\n2026-04-06\nhoshi\n  shaded 40 %\n{more}"
    session = written(DELHI + TREE + page, "2026-09-07", settings='home = "yard"\n')
    found = states(session, "shade/2026")
    assert {ident: state for ident, state in found.items() if ident.endswith("again")} == again
    assert [state for ident, state in found.items() if not ident.endswith("again")] == ["done"]
