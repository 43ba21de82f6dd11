"""Fleece is to be kept at hand while late frost is to come, and no longer.

Inland, a mean low of 1 C in April and 6 C in May: frost is usual on 26 April, and past by
20 July; the same half a year later in the south.
"""

from __future__ import annotations

import pytest

LOW = ["-8", "-7", "-3", "1", "6", "9", "11", "10", "7", "2", "-2", "-6"]
HIGH = ["0", "2", "8", "13", "18", "21", "24", "23", "18", "12", "5", "1"]
NORTH = f"""
  latitude   48 N
  longitude  13 E
  low        {" ".join(LOW)} C
  high       {" ".join(HIGH)} C
"""
SOUTH = f"""
  latitude   48 S
  longitude  170 E
  low        {" ".join(LOW[6:] + LOW[:6])} C
  high       {" ".join(HIGH[6:] + HIGH[:6])} C
"""
UNKNOWN = "\n  latitude   48 N\n"
DULL = "Choose a dull day."
FLEECE = "Choose a dull day, and keep fleece at hand for late frost."


@pytest.mark.parametrize(
    ("weather", "covered", "on", "expected"),
    [
        (NORTH, "2025-11-08", "2026-04-26", FLEECE),
        (NORTH, "2025-11-08", "2026-07-20", DULL),
        (NORTH, "2026-04-20", "2026-04-26", FLEECE),
        (NORTH, "2026-04-20", "2026-07-20", DULL),
        (SOUTH, "2026-05-08", "2026-10-26", FLEECE),
        (SOUTH, "2026-05-08", "2027-01-20", DULL),
        # Nobody knows the nights there.
        (UNKNOWN, "2025-11-08", "2026-07-20", FLEECE),
    ],
)
def test_a_cover_comes_off_with_fleece_at_hand_until_late_frost_is_over(
    written, weather: str, covered: str, on: str, expected: str
) -> None:
    text = f"""
place yard{weather}
tree hoshi
  kind   field maple
  place  yard

{covered}
hoshi
  protected  mulch
"""
    session = written(text, on, settings='home = "yard"\n')
    (off,) = [one for one in session.plan().all() if "/protection-off/" in one.id]
    assert off.is_open(session.today)
    assert off.cautions == (expected,)
