"""What a potting leaves behind in the old pot, by its line alone."""

from __future__ import annotations

import pytest
from tests.species.conftest import Made

from backbud.collection.on_tree import put_on_by

MADE = Made()


@pytest.mark.parametrize(
    ("act", "text", "mesh_gone"),
    [
        # A repotting that names no other pot keeps the one it has, and the mesh in it.
        ("repotted", "2 cm off below", False),
        ("repotted", "same pot, 2 cm off below", False),
        ("repotted", "same pot, mesh 2", True),
        ("repotted", "12 cm pot", True),
        ("potted-on", "", True),
        ("potted-on", "12 cm pot", True),
        ("slipped", "same pot", False),
    ],
)
def test_the_mesh_stays_in_a_pot_that_is_left(act, text, mesh_gone) -> None:
    event = MADE.event("2027-03-06", act, text)
    put_on = put_on_by(event.row)
    assert put_on is not None
    change = put_on(event)
    assert ("mesh" in change.off) is mesh_gone
    # What is not said to be out may be in it still.
    assert ("mesh" in change.older) is not mesh_gone
