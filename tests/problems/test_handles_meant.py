"""Names with blanks on a subject line: which handles are proposed, and where none is."""

from __future__ import annotations

import pytest

CARDS = """place south-shelf
  name  The long shelf
person mrs-sommer
  name  Mrs Sommer
tree black-pine
  kind  Japanese black pine
  name  Old Fritz
tree beech-1
  kind  European beech
  name  Twin
tree beech-2
  kind  European beech
  name  Twin
"""


@pytest.mark.parametrize(
    ("line", "meant"),
    [
        ("black pine", "black-pine"),
        ("Black  Pine, beech 1", "black-pine, beech-1"),
        ("old fritz", "black-pine"),
        ("all of Mrs Sommer", "all of mrs-sommer"),
        ("all on the long shelf", "all in south-shelf"),
        ("all at the south shelf, beech 1", "all in south-shelf, beech-1"),
        ("all in Mrs Sommer", ""),
        ("Twin", ""),
        ("black pine, larch", ""),
        ("black-pine", ""),
    ],
)
def test_names_are_put_into_handles_where_they_mean_one_thing(written, line, meant) -> None:
    from backbud.journal.handles_meant import handles_meant

    things = written(CARDS).journal.things
    assert handles_meant(line, things) == meant


def test_a_place_is_no_turn_of_speech(written) -> None:
    text = CARDS + "place house-wall\n\n2026-11-01\nblack-pine\n  moved  house-wall\n"
    assert written(text).histories.trees["black-pine"].place == "house-wall"
