"""A repotting takes old ties out unless its line says other; mesh stays in its pot."""

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
  {}
"""


# In a ball that is not opened, or of which nobody read all, they may still be.
OLD = (("tie", "2 mm", True), ("mesh", "mesh", False))


@pytest.mark.parametrize(
    ("potting", "told"),
    [
        ("repotted  same pot", [("mesh", "mesh", False)]),
        ("repotted  same pot, tied 3 mm x 2", [("mesh", "mesh", False), ("tie", "3 mm", False)]),
        ("repotted  same pot, old ties out", [("mesh", "mesh", False)]),
        ("repotted  same pot, quite hard this time", [("mesh", "mesh", False)]),
        ("repotted  same pot, old ties left", [*OLD]),
        ("repotted  same pot, old ties left in", [*OLD]),
        ("repotted  same pot, no root work", [*OLD]),
        ("repotted  same pot, the big string stays", [*OLD]),
        ("repotted  same pot, raffia stays", [*OLD]),
        ("repotted  same pot, fastened as before", [*OLD]),
        ("repotted  same pot, core untouched", [*OLD]),
        ("repotted  same pot, Draht bleibt drin", [*OLD]),
        ("repotted  same pot -- ties stay", [*OLD]),
        ("repotted  same pot -- ball went back whole", [*OLD]),
        ("repotted  same pot -- thick root on left gone", [("mesh", "mesh", False)]),
        ("slipped  same pot", [*OLD]),
        ("potted-on  same pot", [*OLD]),
        ("potted-on  same pot, old ties out", [("mesh", "mesh", False)]),
    ],
)
def test_what_is_from_before(written, potting: str, told: list[tuple[str, str, bool]]) -> None:
    session = written(CARDS.format(potting), "2026-11-25", settings='home = "yard"\n')
    tree = planned_tree_view(session.plan(), "hoshi", session.names(), session.today)
    found = [(one.sort, one.what, one.from_before) for one in tree.on_it]
    assert found == told
