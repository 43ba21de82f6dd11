"""What is put on a tree, where its part is told before it: each thing once, and on that part."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from backbud.collection.state import Tree
from backbud.session import Session

CARDS = "tree moll\n  kind  trident maple\n\n2026-06-01\n\nmoll\n  "


@pytest.mark.parametrize(
    ("line", "on"),
    [
        ("layered  on left 1, ring 2 cm", ["layer: 2 cm ring on left 1"]),
        ("layered  left 1, ring 2 cm", ["layer: 2 cm ring on left 1"]),
        ("layered  ring 2 cm on left 1", ["layer: 2 cm ring on left 1"]),
        ("layered  on left 1, ring, 2 cm, moss, in plastic", ["layer: 2 cm ring on left 1"]),
        (
            "layered  on left 1, on left 2, ring 2 cm",
            ["layer: 2 cm ring on left 1", "layer: 2 cm ring on left 2"],
        ),
        ("layered  on left 1", ["layer: layer on left 1"]),
        ("grafted  on apex, approach", ["graft: approach on apex"]),
        ("wrapped  on trunk, raffia", ["wrap: raffia on trunk"]),
        ("guyed  on left 1, 1 mm Al x 2", ["guy: 1 mm Al x 2 on left 1"]),
        (
            "wired  on left 1, 3 mm Al, on apex",
            ["wire: 3 mm Al on left 1", "wire: 3 mm Al on apex"],
        ),
        # Nobody said what is on left 1.
        (
            "wired  on left 1, 3 mm Al on left 2",
            ["wire: wire on left 1", "wire: 3 mm Al on left 2"],
        ),
        ("wired  on left 1, on left 2", ["wire: wire on left 1", "wire: wire on left 2"]),
    ],
)
def test_each_thing_is_on_its_part_once(
    written: Callable[[str], Session],
    tree: Callable[..., Tree],
    shown: Callable[[Tree], list[str]],
    line: str,
    on: list[str],
) -> None:
    assert shown(tree(written(f"{CARDS}{line}\n"), "moll")) == on
