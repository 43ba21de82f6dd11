"""Which proposals the keeper's own plan stands for: of the same work, part and check."""

from __future__ import annotations

import pytest

CARDS = """
    tree hoshi
      kind      garden shrub
      strength  strong
"""
WIRED = ("2026-05-01", "wired 3 mm Al on left 2, 2 mm Al on apex")


def diary(*pages: tuple[str, str]) -> str:
    return CARDS + "".join(f"\n    {day}\n    hoshi\n      {act}\n" for day, act in pages)


@pytest.mark.parametrize(
    ("plan", "replaced"),
    [
        # The wire is to come off from 30 October, at best on 8 January.
        ("unwire on left 2", {"left-2"}),
        ("unwire on apex", {"apex"}),
        ("unwire", {"left-2", "apex"}),
        ("unwire on left 2, on apex", {"left-2", "apex"}),
        ("unwire on right 1, on apex", {"apex"}),
        ("unwire on right 1", set()),
    ],
)
def test_a_plan_of_a_branch_stands_for_that_branch(written, states, plan, replaced) -> None:
    text = diary(WIRED, ("2026-11-10", f"planned {plan}, to 2027-01"))
    found = states(written(text, "2026-11-11"), "/wire-off/")
    assert {i.rpartition("/")[2] for i, state in found.items() if state == "replaced"} == replaced
    assert len(found) == 2


@pytest.mark.parametrize(
    ("looked_at", "state"), [("wire", "replaced"), ("guys", "coming")]
)  # fmt: skip
def test_a_planned_look_stands_for_a_look_at_the_same(written, states, looked_at, state) -> None:
    text = diary(
        ("2026-05-01", "wired 3 mm Al"), ("2026-05-02", f"planned check, {looked_at}, to 2026-06")
    )
    assert states(written(text, "2026-05-03"), "/wire-check/") == {
        "hoshi/wire-check/wired-2026-05-01": state
    }


def test_of_two_that_were_put_off_to_one_window_one_is_enough(written, states, pattern) -> None:
    text = diary(("2026-01-06", "watered"), ("2026-06-01", "put-off trim, to 2026-07"))
    assert states(written(text, "2026-06-02"), "/trim/2026", pattern) == {
        "hoshi/trim/2026/low": "coming",
        "hoshi/trim/2026/rest": "replaced",
    }


def test_of_two_that_were_put_off_to_two_windows_both_stand(written, states, pattern) -> None:
    text = diary(
        ("2026-01-06", "watered"),
        ("2026-05-10", "put-off trim, to 2026-07"),
        ("2026-05-25", "put-off trim, to 2026-09"),
    )
    # On 10 May only the first pass opens within four weeks; on 25 May the second does.
    assert states(written(text, "2026-06-02"), "/trim/2026", pattern) == {
        "hoshi/trim/2026/low": "coming",
        "hoshi/trim/2026/rest": "coming",
    }


def test_a_plan_that_was_put_off_goes_before_a_proposal_put_off_to_the_same(
    written, states, pattern
) -> None:
    text = diary(
        ("2023-03-20", "repotted same pot"),
        ("2026-01-10", "planned repot, to 2026-03"),
        ("2026-03-05", "put-off repot, to 2027-03"),
    )
    found = states(written(text, "2026-03-06"), "repot", pattern)
    assert found["hoshi/planned/repotted-2026-01-10"] == "coming"
    assert found["hoshi/repot/2026"] == "replaced"


@pytest.mark.parametrize(("to", "state"), [("2027-03", "replaced"), ("2027-04", "coming")])
def test_what_was_put_off_to_the_window_of_a_plan_is_that_plan(
    written, states, pattern, to: str, state: str
) -> None:
    """Put off, and then planned for the same month, it is one promise; what was put off to another
    year is that year's."""
    text = diary(
        ("2023-03-20", "repotted same pot"),
        ("2026-03-05", "put-off repot, to 2027-03"),
        ("2026-05-10", f"planned repot, to {to}"),
    )
    found = states(written(text, "2026-06-06"), "repot", pattern)
    assert found["hoshi/planned/repotted-2026-05-10"] == "coming"
    assert found["hoshi/repot/2027"] == state


@pytest.mark.parametrize(
    ("done", "state"),
    [
        ("checked wire fine", "done"),
        ("checked", "done"),
        ("checked pests none", "coming"),
    ],
)
def test_a_planned_look_is_done_by_a_look_at_the_same(written, states, done, state) -> None:
    text = diary(
        ("2026-05-01", "wired 3 mm Al"),
        ("2026-05-02", "planned check, wire, to 2026-06"),
        ("2026-05-20", done),
    )
    assert states(written(text, "2026-05-21"), "planned") == {
        "hoshi/planned/checked-2026-05-02": state
    }


def test_a_plan_goes_before_a_proposal_whatever_their_ids(written, find, pattern) -> None:
    """Both were put off to the same window; the id of the proposal comes first."""
    text = diary(
        ("2025-06-06", "watered"),
        ("2026-02-01", "planned feed, to 2026-04"),
        ("2026-04-02", "put-off feed, to 2026-06"),
    )
    session = written(text, "2026-04-03")
    assert find(session, "hoshi/planned/fed-2026-02-01", pattern).outcome == "open"
    assert find(session, "hoshi/feed-spring/2026", pattern).outcome == "replaced"


@pytest.mark.parametrize(
    ("word", "state"), [("noted the buds swell", "replaced"), ("skipped repot", "coming")]
)
def test_a_plan_that_was_skipped_stands_for_nothing(written, states, pattern, word, state) -> None:
    text = diary(
        ("2024-03-20", "repotted same pot"),
        ("2026-05-01", "planned repot, to 2026-12"),
        ("2026-12-05", word),
    )
    # 180 days after its window is 29 June 2027.
    found = states(written(text, "2026-12-06"), "hoshi/repot/2027", pattern)
    assert found == {"hoshi/repot/2027": state}


@pytest.mark.parametrize(
    ("pages", "state"),
    [
        # One feed settles both: the plan stands for it. Of two each settles its own.
        ([("2026-04-01", "planned feed, to 2026-04"), ("2026-04-20", "fed 4 cakes")], "replaced"),
        ([("2026-04-05", "fed 4 cakes"), ("2026-04-06", "planned feed, to 2026-04"),
          ("2026-04-20", "fed 4 cakes")], "done"),
        ([("2026-04-05", "fed 4 cakes"), ("2026-04-06", "planned feed, to 2026-04")], "done"),
    ],
)  # fmt: skip
def test_what_was_done_before_the_plan_stays_done(written, states, pattern, pages, state) -> None:
    text = diary(("2025-06-06", "watered"), *pages)
    assert states(written(text, "2026-04-21"), "feed-spring/2026", pattern) == {
        "hoshi/feed-spring/2026": state
    }


@pytest.mark.parametrize(
    ("first", "second", "states_of"),
    [
        # Said twice of one window: the later word counts.
        ("prune, to 2026-07", "prune, to 2026-07", ["replaced", "coming"]),
        ("prune hard, to 2026-07", "prune light, to 2026-07", ["replaced", "coming"]),
        # Two windows, or two branches: both stand.
        ("prune, to 2026-07", "prune, to 2026-09", ["coming", "coming"]),
        ("prune on left 1, to 2026-07", "prune, to 2026-07", ["coming", "coming"]),
    ],
)
def test_a_plan_said_twice_is_one(written, states, first, second, states_of) -> None:
    text = diary(("2026-01-06", f"planned {first}"), ("2026-02-01", f"planned {second}"))
    found = states(written(text, "2026-02-02"), "/planned/")
    assert [found[ident] for ident in sorted(found)] == states_of


def test_what_was_put_off_when_nothing_was_due_and_then_planned_is_one(written, states) -> None:
    text = diary(
        ("2026-01-06", "put-off bend, to 2026-07"), ("2026-02-01", "planned bend, to 2026-07")
    )
    found = states(written(text, "2026-02-02"), "/planned/")
    assert sorted(found.values()) == ["coming", "replaced"]


def test_what_was_put_off_gives_way_to_a_plan_of_that_window(written, states, pattern) -> None:
    """The feed of spring is put off to June, and then planned for June: it is asked once."""
    text = diary(
        ("2025-06-06", "watered"),
        ("2026-04-02", "put-off feed, to 2026-06"),
        ("2026-04-05", "planned feed, to 2026-06"),
    )
    session = written(text, "2026-06-05")
    assert states(session, "/feed-spring/2026", pattern) == {"hoshi/feed-spring/2026": "replaced"}
    assert states(session, "/planned/", pattern) == {"hoshi/planned/fed-2026-04-05": "now"}
