"""Tells which parts of the list of all trees are too long for one page with the others."""

from __future__ import annotations

from backbud.views.tree import TreesView

# More trees on a page are slow to open and to print; ours.
MOST_ROWS = 2000


def parts_apart(shown: TreesView) -> tuple[str, ...]:
    """The names of the parts that have pages of their own, the longest first: so many that no more
    than `MOST_ROWS` trees stand on the page of all."""
    rows = {"own": len(shown.own), "others": len(shown.others), "gone": len(shown.gone)}
    apart: list[str] = []
    while sum(rows.values()) > MOST_ROWS:
        longest = max(rows, key=rows.__getitem__)
        apart.append(longest)
        del rows[longest]
    return tuple(apart)
