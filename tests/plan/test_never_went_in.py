"""A tree that nobody took under glass is not asked out of it."""

from __future__ import annotations

import pytest

CARDS = """
    place yard
      latitude  56
      low   0 0 1 3 6 9 11 11 8 6 3 1 C
      high  6 6 8 11 14 16 18 18 15 12 8 6 C
    place house
      within  yard
      cover   unheated glass
    tree tarn
      kind   satsuki azalea
      since  2015
      place  yard
    2026-06-20
    tarn
      repotted  same pot, 5 cm off below
"""
WENT_IN = f"{CARDS}    2026-06-22\n    tarn\n      moved  house\n"


def _glass(states, session) -> dict[str, str]:
    found = states(session, "satsuki-glass/repotted-2026-06-20")
    return {ident.rsplit("/", 1)[1]: state for ident, state in found.items()}


@pytest.mark.parametrize(
    ("day", "expected"),
    [
        # It may go in until 27 June, and comes out from 4 July on.
        ("2026-06-27", {"in": "now", "out": "coming"}),
        ("2026-06-28", {"in": "lapsed", "out": "replaced"}),
        ("2026-07-10", {"in": "lapsed", "out": "replaced"}),
    ],
)
def test_what_was_left_out_until_its_last_day_asks_for_nothing_more(
    written, states, day, expected
) -> None:
    assert _glass(states, written(CARDS, day)) == expected


def test_what_went_in_has_to_come_out(written, states) -> None:
    assert _glass(states, written(WENT_IN, "2026-07-10"))["in"] == "done"
    out = states(written(WENT_IN, "2026-07-10"), "/out")
    assert "now" in out.values()
