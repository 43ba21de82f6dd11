"""What is folded of a tree's vessel alone is what is folded of the whole tree."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from backbud.collection.fold import each_after
from backbud.session import Session, open_session

EXAMPLE = Path(__file__).parents[2] / "example_journal"
ITS_OWN = ("standing", "pot", "mix", "sizes", "batch", "count", "counted", "title")


@pytest.fixture(scope="module")
def session() -> Session:
    return open_session(str(EXAMPLE), date(2026, 6, 2), keeps=False)


def test_pot_mix_sizes_and_count_are_the_same_after_every_line(session: Session) -> None:
    things, trees = session.journal.things, session.histories.trees
    seen = set()
    for handle, tree in trees.items():
        counts = range(len(tree.entries) + 1)
        whole = dict(each_after(session.histories, things, handle, counts))
        vessel = dict(each_after(session.histories, things, handle, counts, only_vessel=True))
        for n in counts:
            told = [getattr(vessel[n], field) for field in ITS_OWN]
            assert told == [getattr(whole[n], field) for field in ITS_OWN], (handle, n)
        seen |= {(whole[n].pot, whole[n].mix, len(whole[n].sizes)) for n in counts}
    # The example repots, measures and raises, so there is something to compare.
    assert len(seen) > len(trees)
