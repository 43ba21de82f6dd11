"""Where trees stood on a day, and in whose history a line stands, told without whole histories."""

from __future__ import annotations

from datetime import date

from tests.conftest import Written

from backbud.collection.fold import tree_on
from backbud.collection.meant_by import trees_meant
from backbud.collection.standing_on import standing_on


def test_where_a_tree_stood_on_a_day_is_what_its_whole_history_says(written: Written) -> None:
    """`standing_on` looks at few lines, the fold at all of them: both must say the same."""
    session = written(
        """\
        person marrow
        place yard
        place tunnel
        pot tray-1
        pot tray-2
        tree hoshi
          kind trident maple
          place yard
          pot tray-1
        tree yuki
          kind trident maple
        2026-01-05
        hoshi
          moved tunnel
        2026-02-05
        hoshi
          repotted into tray-2
          watered
        yuki
          bought from marrow, 20 EUR
          moved yard
        2026-03-05
        hoshi
          lent to marrow
        2026-04-05
        hoshi
          returned
          moved yard
        2026-05-05
        yuki
          died
        """,
        any_problems=True,
    )
    things, histories = session.journal.things, session.histories
    for day in ("2026-01-01", "2026-01-05", "2026-02-20", "2026-03-20", "2026-04-20", "2026-06-01"):
        on = date.fromisoformat(day)
        for handle, at in histories.trees.items():
            tree, stand = tree_on(histories, things, handle, on), standing_on(at, things, on)
            assert (stand.standing, stand.place, stand.pot, stand.owner) == (
                tree.standing, tree.place, tree.pot, tree.owner,
            )  # fmt: skip
    hoshi = histories.trees["hoshi"]
    seen = [standing_on(hoshi, things, date(2026, month, 20)) for month in (1, 2, 3, 4)]
    assert [(one.standing, one.place, one.pot) for one in seen] == [
        ("here", "tunnel", "tray-1"),
        ("here", "tunnel", "tray-2"),
        ("lent", "tunnel", "tray-2"),
        ("here", "yard", "tray-2"),
    ]


def test_a_tree_stands_where_it_was_cut_free_under_whatever_handle_it_was_named(
    written: Written,
) -> None:
    """One has no card; of the other the line names the handle that it had before."""
    session = written(
        "place yard\ntree hoshi\n  place yard\ntree reds\n  formerly sprout\n"
        "2026-01-05\nhoshi\n  separated on left 1, as chip\n  separated on left 2, as sprout\n"
        "2026-03-05\nchip, reds\n  died\n",
        any_problems=True,
    )
    things, trees = session.journal.things, session.histories.trees
    for handle in ("chip", "reds"):
        days = (date(2026, 1, 4), date(2026, 1, 5), date(2026, 3, 5))
        seen = [standing_on(trees[handle], things, day) for day in days]
        assert [one.standing for one in seen] == ["not yet", "here", "died"]
        assert seen[1].place == "yard"


def test_whose_line_it_is(written: Written) -> None:
    """Lines count from 1: yuki had left by the second page."""
    session = written(
        "place yard\ntree hoshi\n  place yard\ntree yuki\n  place yard\n"
        "2026-01-05\nall in yard\n  watered\n  fed\nyuki\n  sold\n"
        "2026-02-05\nall in yard\n  watered\n",
        any_problems=True,
    )
    found = session.histories
    assert trees_meant(found, "journal.txt", 7, (8, 9)) == ["hoshi", "yuki"]
    assert trees_meant(found, "journal.txt", 10, (11,)) == ["yuki"]
    assert trees_meant(found, "journal.txt", 13, (14,)) == ["hoshi"]
    assert trees_meant(found, "other.txt", 13, (14,)) == []
