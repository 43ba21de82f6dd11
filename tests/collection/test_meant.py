"""When the trees of a subject line need no look: each side of each bound, of trees made by hand."""

from __future__ import annotations

from datetime import date
from types import SimpleNamespace
from typing import Any

import pytest

from backbud.collection.batch import Batch
from backbud.collection.meant import Meant

DAY = date(2026, 6, 10)


def a_tree(standing: str = "here", batch: Batch | None = None, since: str = "") -> Any:
    """`since`: the day that its card speaks of."""
    first = SimpleNamespace(first=date.fromisoformat(since)) if since else None
    return SimpleNamespace(standing=standing, batch=batch, since=first)


def is_calm(*trees: Any, others: tuple[str, ...] = (), turned: int = 0) -> bool:
    return Meant(list(trees), [True] * len(trees), list(others)).is_calm(DAY, turned)


@pytest.mark.parametrize(
    ("tree", "calm"),
    [
        (a_tree(), True),
        (a_tree("sold"), False),
        (a_tree("not yet"), False),
        # To how many of fifty a line was done must be looked at.
        (a_tree(batch=Batch(50)), False),
        (a_tree(since="2026-06-09"), True),
        (a_tree(since="2026-06-10"), True),
        (a_tree(since="2026-06-11"), False),
    ],
)
def test_one_tree_and_one_of_two_are_told_alike(tree, calm) -> None:
    assert is_calm(tree) is calm
    assert is_calm(tree, a_tree()) is calm
    assert is_calm(a_tree(since="2020-01-01"), tree) is calm
    assert is_calm(tree, a_tree(since="2020-01-01"), turned=3) is calm


def test_what_is_no_tree_must_be_looked_at() -> None:
    assert not is_calm(a_tree(), others=("pot-1",))
    assert not is_calm(a_tree(), a_tree(), others=("pot-1",))
    assert not is_calm(others=("pot-1",))


def test_the_latest_card_counts() -> None:
    early, late = a_tree(since="2026-06-01"), a_tree(since="2026-06-11")
    for trees in ([early, late], [late, early]):
        meant = Meant(trees, [True, True], [])
        assert not meant.is_calm(DAY, 0)
        assert meant.is_calm(date(2026, 6, 11), 0)


def test_it_is_looked_at_anew_whenever_a_tree_came_or_went() -> None:
    one, two = a_tree(), a_tree(since="2026-06-20")
    meant = Meant([one, two], [True, True], [])
    assert not meant.is_calm(DAY, 4)
    assert meant.is_calm(date(2026, 6, 20), 4)
    two.since = None
    assert meant.is_calm(DAY, 5)
    one.standing = "sold"
    assert not meant.is_calm(DAY, 6)
    one.standing = "here"
    assert meant.is_calm(DAY, 6)
