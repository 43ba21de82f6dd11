"""Old ties are told not to be said to be out; mesh stays in its pot, and is told as it is."""

from __future__ import annotations

import pytest

from backbud.views.tree import planned_tree_view

CARDS = """
place yard
tree hoshi
  kind   trident maple
  place  yard
2024-03-12
hoshi
  repotted  same pot, tied 2 mm x 2, mesh 4
2026-03-12
hoshi
  repotted  {}
"""


@pytest.mark.parametrize(
    ("repotting", "told"),
    [
        ("same pot, tied 3 mm x 2", [("tie", "2 mm", True), ("mesh", "mesh", False)]),
        ("same pot, tied 3 mm x 2, old ties out", [("mesh", "mesh", False)]),
    ],
)
def test_what_is_from_before(written, repotting: str, told: list[tuple[str, str, bool]]) -> None:
    session = written(CARDS.format(repotting), "2026-11-25", settings='home = "yard"\n')
    tree = planned_tree_view(session.plan(), "hoshi", session.names(), session.today)
    found = [(one.sort, one.what, one.from_before) for one in tree.on_it]
    assert found == [*told, ("tie", "3 mm", False)]
