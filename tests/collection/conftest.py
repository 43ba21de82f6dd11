"""The tree of a written journal, as it was on a day."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import pytest

from backbud.collection.fold import tree_on
from backbud.collection.state import OnTree, Tree
from backbud.session import Session


@pytest.fixture
def tree() -> Callable[..., Tree]:
    """`tree(session, "hoshi", "2026-03-06")`; on the session's day without a date."""

    def on(session: Session, handle: str, day: str = "") -> Tree:
        when = date.fromisoformat(day) if day else session.today
        return tree_on(session.histories, session.journal.things, handle, when)

    return on


@pytest.fixture
def shown() -> Callable[[Tree], list[str]]:
    """What is on a tree, each as `sort: what x count on part`, `old` when from before."""

    def one(thing: OnTree) -> str:
        count = f" x {thing.count}" if thing.count > 1 else ""
        part = f" on {thing.part}" if thing.part else ""
        return f"{'old ' if thing.from_before else ''}{thing.sort}: {thing.what}{count}{part}"

    return lambda tree: [one(thing) for thing in tree.on_tree]
