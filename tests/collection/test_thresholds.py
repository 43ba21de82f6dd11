"""Each threshold of what a tree was that decides what a keeper is told, on both sides of it."""

from __future__ import annotations

import pytest

CARDS = """
    tree hoshi
      kind  trident maple
"""


def diary(*pages: tuple[str, str], cards: str = CARDS) -> str:
    return cards + "".join(f"\n    {day}\n    hoshi\n      {act}\n" for day, act in pages)


# ------------------------------------------------------------------ fold.py


@pytest.mark.parametrize(
    ("zones", "strength"),
    [
        # (2 + 2 + 3) / 3 is under 2.5, (2 + 3) / 2 is 2.5; (3 + 4 + 4) / 3 is under 4.
        ("apex 2, middle 2, low 3", "weak"),
        ("apex 2, low 3", "fair"),
        ("apex 3, middle 4, low 4", "fair"),
        ("apex 4, low 4", "strong"),
    ],
)
def test_the_mean_of_the_zones_is_the_trees_strength(written, tree, zones, strength) -> None:
    assert tree(written(diary(("2026-05-01", f"vigour {zones}"))), "hoshi").strength == strength


@pytest.mark.parametrize(
    ("day", "strength"),
    [
        # 365 days after 1 May 2025 is 1 May 2026: (1 + 4) / 2 is fair; the 4 alone is strong.
        ("2026-05-01", "fair"),
        ("2026-05-02", "strong"),
    ],
)
def test_a_zones_vigour_speaks_for_the_tree_for_a_year(written, tree, day, strength) -> None:
    text = diary(("2025-05-01", "vigour low 1"), (day, "vigour apex 4"))
    assert tree(written(text), "hoshi").strength == strength


# ------------------------------------------------------------------ corrections.py


@pytest.mark.parametrize(
    ("correction", "on"),
    [
        # It was on left 3 and not on left 2: the only wire is another one.
        ("3 mm Al on left 3", ["wire: 3 mm Al on left 3"]),
        # The wire of that part only, since the line has it.
        ("2 mm Al on left 2", ["wire: 2 mm Al on left 2"]),
        # Without a part it is a correction of all of it.
        ("2 mm Al", ["wire: 2 mm Al"]),
    ],
)
def test_a_correction_of_a_part_that_the_line_has_not_replaces_all(
    written, tree, shown, correction, on
) -> None:
    text = diary(
        ("2026-05-01", "wired 3 mm Al on left 2"),
        ("2026-05-03", f"corrected wired 2026-05-01, {correction}"),
    )
    assert shown(tree(written(text), "hoshi")) == on


def test_a_correction_of_a_part_that_the_line_has_leaves_the_others(written, tree, shown) -> None:
    text = diary(
        ("2026-05-01", "wired 3 mm Al on left 2, 2 mm Al on apex"),
        ("2026-05-03", "corrected wired 2026-05-01, 2.5 mm Al on apex"),
    )
    assert sorted(shown(tree(written(text), "hoshi"))) == [
        "wire: 2.5 mm Al on apex",
        "wire: 3 mm Al on left 2",
    ]
