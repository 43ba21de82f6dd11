"""What becomes of a follow-up: done, skipped, put off, replaced by the next, or still to do."""

from __future__ import annotations

import pytest

CARDS = """
    place yard
      cover     open
      latitude  56
    place glass
      cover     unheated glass
    pot tray-7
    tree hoshi
      kind      garden shrub
      place     yard
      strength  strong
"""


def diary(*pages: tuple[str, str]) -> str:
    """Pages of one tree and one act each: `("2026-05-01", "hoshi wired 3 mm Al")`."""
    text = CARDS
    for day, line in pages:
        tree, act = line.split(None, 1)
        text += f"\n    {day}\n    {tree}\n      {act}\n"
    return text


# ------------------------------------------------------------------ done


@pytest.mark.parametrize(
    ("day", "state"),
    [
        # The window of the check is 29 May to 26 June.
        ("2026-05-10", "done"), ("2026-06-10", "done"), ("2026-08-01", "done"),
    ],
)  # fmt: skip
@pytest.mark.parametrize("act", ["checked wire fine", "unwired", "unwired on left"])
def test_a_check_is_settled_before_inside_and_after_its_window(
    written, states, day, state, act
) -> None:
    session = written(diary(("2026-05-01", "hoshi wired 3 mm Al on left 2"), (day, f"hoshi {act}")))
    assert states(session, "/wire-check/") == {"hoshi/wire-check/wired-2026-05-01/left-2": state}


@pytest.mark.parametrize(
    "act",
    ["checked ties fine", "checked wire fine on apex", "unwired on apex", "unwired partly",
     "unwired on left 2 tip", "corrected wired 2026-05-01, 2 mm Al on left 2", "noted wire"],
)  # fmt: skip
def test_a_check_is_not_settled_by_a_look_at_something_else(written, states, act) -> None:
    session = written(
        diary(("2026-05-01", "hoshi wired 3 mm Al on left 2"), ("2026-06-10", f"hoshi {act}")),
        "2026-06-11",
        problems=("held-back",) if act == "unwired on apex" else (),
    )
    assert states(session, "/wire-check/") == {"hoshi/wire-check/wired-2026-05-01/left-2": "now"}


def test_nothing_before_its_cause_settles_it(written, states) -> None:
    text = (
        CARDS
        + """
    2026-05-01
    hoshi
      unwired
      wired    3 mm Al
    """
    )
    assert states(written(text, "2026-06-01"), "/wire-check/") == {
        "hoshi/wire-check/wired-2026-05-01": "now"
    }
    swapped = text.replace("unwired\n      wired    3 mm Al", "wired    3 mm Al\n      unwired")
    assert states(written(swapped, "2026-06-01"), "/wire-check/") == {
        "hoshi/wire-check/wired-2026-05-01": "done"
    }


def test_bare_unwired_settles_every_part_and_a_part_only_its_own(written, states) -> None:
    wired = ("2026-05-01", "hoshi wired 3 mm Al on left 2, 2 mm Al on left 3, 2 mm Al on apex")
    part = written(diary(wired, ("2026-06-01", "hoshi unwired on left 3")), "2026-06-02")
    assert states(part, "/wire-off/") == {
        "hoshi/wire-off/wired-2026-05-01/left-2": "coming",
        "hoshi/wire-off/wired-2026-05-01/left-3": "done",
        "hoshi/wire-off/wired-2026-05-01/apex": "coming",
    }
    side = written(diary(wired, ("2026-06-01", "hoshi unwired on left")), "2026-06-02")
    assert states(side, "/wire-off/") == {
        "hoshi/wire-off/wired-2026-05-01/left-2": "done",
        "hoshi/wire-off/wired-2026-05-01/left-3": "done",
        "hoshi/wire-off/wired-2026-05-01/apex": "coming",
    }
    bare = written(diary(wired, ("2026-06-01", "hoshi unwired")), "2026-06-02")
    assert set(states(bare, "/wire-").values()) == {"done"}


def test_a_look_without_a_part_ends_when_the_last_wire_is_off(written, states) -> None:
    text = diary(
        ("2026-05-01", "hoshi wired 3 mm Al on left 2, 2 mm Al on apex"),
        ("2026-05-20", "hoshi checked wire fine, again in 4 weeks"),
        ("2026-05-25", "hoshi unwired on left 2"),
    )
    assert states(written(text, "2026-06-01"), "check-again") == {
        "hoshi/check-again/checked-2026-05-20/wire": "coming"
    }
    text += diary(("2026-05-28", "hoshi unwired on apex")).removeprefix(CARDS)
    assert states(written(text, "2026-06-01"), "check-again") == {
        "hoshi/check-again/checked-2026-05-20/wire": "done"
    }


@pytest.mark.parametrize("day", ["2026-03-01", "2026-03-20", "2026-05-01"])
def test_done_inside_and_after_its_window(written, states, pattern, day) -> None:
    session = written(diary(("2023-03-20", "hoshi repotted same pot"), (day, "hoshi repotted")))
    assert states(session, "hoshi/repot/2026", pattern) == {"hoshi/repot/2026": "done"}


@pytest.mark.parametrize(("day", "left"), [
    # Four weeks before 1 April; a day more is another feeding, which lasts until 7 April.
    ("2026-03-04", "done"), ("2026-03-03", "coming"),
])  # fmt: skip
def test_shortly_before_counts(written, states, pattern, day, left) -> None:
    session = written(
        diary(("2025-03-01", "hoshi watered"), (day, "hoshi fed 4 cakes")), "2026-04-02"
    )
    assert states(session, "feed-spring/2026", pattern) == {"hoshi/feed-spring/2026": left}


def test_early_root_work_counts_else_the_roots_are_done_twice(written, wanted, pattern) -> None:
    for early in ("2026-02-20", "2025-10-01"):
        session = written(
            diary(("2023-03-20", "hoshi repotted same pot"), (early, "hoshi repotted same pot")),
            "2026-03-10",
        )
        assert wanted(session, "/repot/", pattern) == set()
        planned = written(
            diary(
                ("2025-09-01", "hoshi planned repot, to 2026-03"),
                (early, "hoshi repotted same pot"),
            ),
            "2026-03-10",
        )
        assert wanted(planned, "/planned/") == set()


@pytest.mark.parametrize(("act", "state"), [
    ("repotted same pot", "done"), ("potted-on into tray-7", "done"),
    ("slipped into tray-7", "done"), ("root-pruned off 20 %", "promised"),
])  # fmt: skip
def test_new_soil_is_new_soil(written, states, act, state) -> None:
    session = written(
        diary(("2026-01-10", "hoshi planned repot, to 2026-03"), ("2026-03-20", f"hoshi {act}"))
    )
    assert states(session, "planned") == {"hoshi/planned/repotted-2026-01-10": state}


def test_work_settles_the_pass_whose_turn_it_is(written, states, pattern) -> None:
    """Low shoots from 1 to 15 June, the rest from 20 June."""
    first = ("2026-06-06", "hoshi trimmed outline")
    session = written(diary(("2025-06-06", "hoshi watered"), first), "2026-06-10")
    assert states(session, "/trim/2026", pattern) == {
        "hoshi/trim/2026/low": "done",
        "hoshi/trim/2026/rest": "coming",
    }
    session = written(
        diary(("2025-06-06", "hoshi watered"), first, ("2026-06-18", "hoshi trimmed outline")),
        "2026-06-19",
    )
    assert states(session, "/trim/2026", pattern) == {
        "hoshi/trim/2026/low": "done",
        "hoshi/trim/2026/rest": "done",
    }


def test_one_late_trim_settles_every_pass_that_was_due(written, states, pattern) -> None:
    session = written(diary(("2025-06-06", "hoshi watered"), ("2026-06-21", "hoshi trimmed")))
    assert set(states(session, "/trim/2026", pattern).values()) == {"done"}


def test_in_and_out_are_two_moves(written, states, pattern) -> None:
    pages = [("2026-04-11", "hoshi pruned hard"), ("2026-04-12", "hoshi moved glass")]
    assert states(written(diary(*pages), "2026-04-13"), "/shelter/", pattern) == {
        "hoshi/shelter/pruned-2026-04-11/in": "done",
        "hoshi/shelter/pruned-2026-04-11/out": "coming",
    }
    pages.append(("2026-05-02", "hoshi moved yard"))
    assert set(states(written(diary(*pages)), "/shelter/", pattern).values()) == {"done"}


# ------------------------------------------------------------------ the next one


def test_the_next_cycle_stands_for_the_last(written, states, pattern) -> None:
    text = diary(("2023-03-20", "hoshi repotted same pot"))
    assert states(written(text, "2027-02-28"), "/repot/", pattern) == {
        # Late for a season, and no longer.
        "hoshi/repot/2026": "lapsed",
        "hoshi/repot/2027": "coming",
        "hoshi/repot/2028": "coming",
    }
    assert states(written(text, "2027-03-01"), "/repot/", pattern) == {
        "hoshi/repot/2026": "replaced",
        "hoshi/repot/2027": "now",
        "hoshi/repot/2028": "coming",
    }


def test_feed_that_was_missed_is_not_owed_once_the_next_is_due(written, states, pattern) -> None:
    text = diary(("2023-03-20", "hoshi watered"))
    assert states(written(text, "2026-09-14"), "feed-spring/2026", pattern) == {
        "hoshi/feed-spring/2026": "overdue"
    }
    # From 15 September the autumn feed stands for it.
    assert states(written(text, "2026-09-15"), "feed-spring/2026", pattern) == {
        "hoshi/feed-spring/2026": "replaced"
    }


def test_cover_put_on_twice_comes_off_once(written, states) -> None:
    text = diary(("2025-12-01", "hoshi protected fleece"), ("2026-01-17", "hoshi protected fleece"))
    assert states(written(text, "2026-02-01"), "protection-off") == {
        "hoshi/protection-off/protected-2025-12-01": "replaced",
        "hoshi/protection-off/protected-2026-01-17": "coming",
    }


def test_what_is_overtaken_is_no_longer_open(written, find) -> None:
    text = diary(("2025-12-01", "hoshi protected fleece"), ("2026-01-17", "hoshi protected fleece"))
    first = find(written(text, "2026-02-01"), "protection-off/protected-2025-12-01")
    assert first.outcome == "replaced"
    off = diary(
        ("2025-12-01", "hoshi protected fleece"),
        ("2026-01-05", "hoshi unprotected"),
        ("2026-01-17", "hoshi protected fleece"),
    )
    first = find(written(off, "2026-02-01"), "protection-off/protected-2025-12-01")
    assert first.outcome == "done"


def test_a_fleece_taken_off_early_is_off(written, states) -> None:
    text = diary(("2026-01-17", "hoshi protected fleece"), ("2026-02-03", "hoshi unprotected"))
    assert set(states(written(text), "protection-off").values()) == {"done"}


def test_out_of_winter_quarters_by_any_move_out(written, states) -> None:
    moved = diary(("2025-11-14", "hoshi moved glass"), ("2026-01-30", "hoshi moved yard"))
    assert states(written(moved), "winter-quarters") == {
        "hoshi/winter-quarters-out/moved-2025-11-14": "done"
    }
    deeper = (
        CARDS
        + """
    place tunnel
      cover     tunnel
    """
        + diary(
            ("2025-11-14", "hoshi moved tunnel"), ("2026-01-30", "hoshi moved glass")
        ).removeprefix(CARDS)
    )
    assert states(written(deeper, "2026-02-01"), "winter-quarters") == {
        "hoshi/winter-quarters-out/moved-2025-11-14": "replaced",
        "hoshi/winter-quarters-out/moved-2026-01-30": "coming",
    }


# ------------------------------------------------------------------ the keeper's word


def test_skipped_is_honoured_and_shown(written, find, pattern) -> None:
    session = written(
        diary(
            ("2023-03-20", "hoshi repotted same pot"),
            ("2026-03-05", "hoshi skipped repot -- too weak"),
        )
    )
    repot = find(session, "hoshi/repot/2026", pattern)
    assert (repot.state(session.today), repot.settled.day.isoformat()) == ("skipped", "2026-03-05")
    assert repot.because[-1].text == "5 March 2026: skipped repot – too weak."
    assert repot.because[-1].origin.line == repot.settled.line


def test_a_skip_speaks_of_what_is_due_and_not_of_what_comes_later(written, states, pattern) -> None:
    session = written(
        diary(("2025-06-06", "hoshi watered"), ("2026-06-05", "hoshi skipped trim")), "2026-06-06"
    )
    trims = states(session, "hoshi/trim", pattern)
    # The second pass opens within four weeks, so the word is about it too.
    assert (trims["hoshi/trim/2026/low"], trims["hoshi/trim/2026/rest"]) == ("skipped", "skipped")
    assert trims["hoshi/trim-late/2026"] == "coming"
    assert trims["hoshi/trim/2027/low"] == "coming"


def test_a_skip_ahead_speaks_of_the_next(written, states, pattern) -> None:
    session = written(
        diary(("2026-01-01", "hoshi watered"), ("2026-01-05", "hoshi skipped feed")), "2026-01-06"
    )
    feeds = states(session, "hoshi/feed", pattern)
    assert feeds["hoshi/feed-spring/2026"] == "skipped"
    assert feeds["hoshi/feed-autumn/2026"] == "coming"


def test_put_off_moves_the_window_and_shows_both(written, find, days, states, pattern) -> None:
    pages = [
        ("2023-03-20", "hoshi repotted same pot"),
        ("2026-03-07", "hoshi put-off repot, to 2027-03 -- the layer comes off this month"),
    ]
    session = written(diary(*pages), "2026-03-08")
    repot = find(session, "hoshi/repot/2027", pattern)
    assert days(repot) == ["2027-03-01", "2027-03-16", "2027-03-31"]
    assert repot.moved_from.opens.isoformat() == "2026-03-01"
    assert repot.state(session.today) == "coming"
    assert repot.because[-1].text == (
        "7 March 2026: put-off repot, to 2027-03 – the layer comes off this month."
    )
    # It is the repotting of next year now, so it is not asked for twice, nor as a plan of its own.
    assert states(session, "hoshi/repot/", pattern) == {
        "hoshi/repot/2026": "replaced",
        "hoshi/repot/2027": "coming",
    }
    done = written(diary(*pages, ("2027-03-12", "hoshi repotted same pot")), "2027-03-13")
    assert states(done, "hoshi/repot/2026", pattern) == {"hoshi/repot/2026": "replaced"}
    assert states(done, "hoshi/repot/2027", pattern) == {"hoshi/repot/2027": "done"}


def test_what_was_put_off_for_years_is_that_year_s(written, wanted, pattern) -> None:
    text = diary(
        ("2022-03-20", "hoshi repotted same pot"), ("2025-03-07", "hoshi put-off repot, to 2028-03")
    )
    for today in ("2025-03-08", "2026-06-01", "2027-12-01", "2028-03-10"):
        asked = {f"hoshi/repot/{year}" for year in range(2025, 2029)}
        found = wanted(written(text, today), "hoshi/repot/", pattern)
        assert found & asked == {"hoshi/repot/2028"}, today


def test_put_off_twice_shows_where_it_began(written, find, days, pattern) -> None:
    session = written(
        diary(
            ("2023-03-20", "hoshi repotted same pot"),
            ("2026-03-07", "hoshi put-off repot, to 2026-04"),
            ("2026-04-20", "hoshi put-off repot, in 2 weeks"),
        ),
        "2026-04-21",
    )
    repot = find(session, "hoshi/repot/2026", pattern)
    assert days(repot) == ["2026-05-04", "2026-05-04", "2026-05-07"]
    assert repot.moved_from.opens.isoformat() == "2026-03-01"
    assert [reason.sort for reason in repot.because] == ["season", "rule", "datum", "plan", "plan"]


def test_a_check_is_put_off_by_what_is_looked_at(written, states, find, days) -> None:
    session = written(
        CARDS
        + """
    2026-05-01
    hoshi
      wired    3 mm Al
      guyed    1 mm Cu
    2026-06-01
    hoshi
      put-off  check, wire, in 4 weeks
    """,
        "2026-06-02",
    )
    assert days(find(session, "wire-check")) == ["2026-06-29", "2026-06-29", "2026-07-06"]
    assert days(find(session, "guy-check")) == ["2026-06-26", "2026-07-10", "2026-08-07"]


def test_put_off_without_a_day_is_not_this_time(written, states, pattern) -> None:
    session = written(
        diary(("2023-03-20", "hoshi repotted same pot"), ("2026-03-07", "hoshi put-off repot")),
        "2026-03-08",
    )
    assert states(session, "repot/2026", pattern) == {"hoshi/repot/2026": "skipped"}


def test_put_off_of_what_nobody_asked_for_is_a_plan(written, find, days) -> None:
    session = written(diary(("2026-03-07", "hoshi put-off repot, in 2-3 weeks")), "2026-03-08")
    plan = find(session, "hoshi/planned/")
    assert plan.id == "hoshi/planned/repotted-2026-03-07"
    assert days(plan) == ["2026-03-21", "2026-03-24", "2026-03-28"]


@pytest.mark.parametrize(("when", "window"), [
    ("to 2027-03/2027-04", ["2027-03-01", "2027-03-31", "2027-04-30"]),
    ("to 2027-03-06", ["2027-03-06", "2027-03-06", "2027-03-06"]),
    ("in 2-3 weeks", ["2026-11-15", "2026-11-18", "2026-11-22"]),
    # Four weeks on, with a week's room.
    ("in 4 weeks", ["2026-11-29", "2026-11-29", "2026-12-06"]),
    ("in 1 year", ["2027-11-01", "2027-11-01", "2028-01-31"]),
    ("-- soon", ["2026-11-01", "2026-11-01", "2026-12-01"]),
])  # fmt: skip
def test_a_plan_and_its_window(written, find, days, when, window) -> None:
    comma = "" if when.startswith("--") else ","
    session = written(diary(("2026-11-01", f"hoshi planned repot{comma} {when}")), "2026-11-02")
    plan = find(session, "hoshi/planned/repotted-2026-11-01")
    assert (plan.planned, plan.act, plan.title) == (True, "repotted", "repot")
    assert days(plan) == window


def test_a_plan_shows_its_details_and_parts_keep_plans_apart(written, states, find) -> None:
    session = written(
        CARDS
        + """
    2026-11-01
    hoshi
      planned   repot into tray-7, wedges N E, to 2027-03
      planned   prune on left 1, hard, to 2027-02
      planned   prune on right 3, to 2027-02
    """,
        "2026-11-02",
    )
    assert find(session, "planned/repotted").title == "repot into tray-7, wedges N E"
    assert set(states(session, "planned/pruned")) == {
        "hoshi/planned/pruned-2026-11-01/left-1",
        "hoshi/planned/pruned-2026-11-01/right-3",
    }
    assert find(session, "left-1").title == "prune on left 1, hard"


def test_a_plan_of_several_parts_keeps_them_all(written, states, find) -> None:
    text = diary(
        ("2026-11-01", "hoshi planned prune on left 1, hard, on right 3, to 2027-02"),
        ("2027-02-03", "hoshi pruned on right 3"),
    )
    session = written(text, "2027-02-04")
    found = {i.rpartition("/")[2]: state for i, state in states(session, "planned/").items()}
    assert found == {"left-1": "now", "right-3": "done"}
    assert find(session, "/left-1").title == "prune on left 1, hard"
    assert find(session, "/right-3").title == "prune hard, on right 3"


@pytest.mark.parametrize(
    ("act", "skipped"),
    [
        ("skipped unwire on left 2", {"left-2"}),
        ("skipped unwire on left 2, on apex", {"left-2", "apex"}),
        ("skipped unwire on right 9", set()),
        ("skipped unwire", {"left-2", "apex", "low"}),
    ],
)
def test_a_skip_of_parts_skips_those_and_no_more(written, states, act, skipped) -> None:
    text = diary(
        ("2026-05-01", "hoshi wired 3 mm Al on left 2, 2 mm Al on apex, 2 mm Al on low"),
        ("2026-11-10", f"hoshi {act}"),
    )
    found = states(written(text, "2026-11-11"), "/wire-off/")
    assert {i.rpartition("/")[2] for i, state in found.items() if state == "skipped"} == skipped
    assert len(found) == 3


@pytest.mark.parametrize(("what", "state"), [("wire on left 2", "now"), ("wire", "skipped")])
def test_a_skip_of_a_part_leaves_what_is_asked_of_all(written, states, what, state) -> None:
    text = diary(
        ("2026-05-01", "hoshi wired 3 mm Al"), ("2026-06-10", f"hoshi skipped check, {what}")
    )
    found = states(written(text, "2026-06-11"), "/wire-check/")
    assert found == {"hoshi/wire-check/wired-2026-05-01": state}


@pytest.mark.parametrize(
    ("act", "state"),
    [
        ("checked wire fine on left 2", "done"),
        ("checked wire fine on apex", "overdue"),
        ("skipped check, wire on left 2", "skipped"),
        ("skipped check, wire on apex", "overdue"),
    ],
)
def test_a_look_set_for_later_on_a_part_is_about_that_part(written, states, act, state) -> None:
    text = diary(
        ("2026-05-01", "hoshi wired 3 mm Al on left 2, 2 mm Al on apex"),
        ("2026-05-20", "hoshi checked wire fine on left 2, again in 2 weeks"),
        ("2026-06-03", f"hoshi {act}"),
    )
    found = states(written(text, "2026-06-04"), "check-again/checked-2026-05-20")
    assert found == {"hoshi/check-again/checked-2026-05-20/wire-left-2": state}


def test_a_plan_stands_for_what_a_rule_proposes(written, states, pattern) -> None:
    pages = [
        ("2022-03-20", "hoshi repotted same pot"),
        ("2026-11-01", "hoshi planned repot, to 2027-03"),
    ]
    assert states(written(diary(*pages), "2026-11-02"), "repot", pattern) == {
        "hoshi/planned/repotted-2026-11-01": "coming", "hoshi/repot/2027": "replaced",
        # Two springs were missed; the plan stands for the last of them, the next cycle for both.
        "hoshi/repot/2026": "replaced", "hoshi/repot/2025": "replaced",
    }  # fmt: skip
    done = written(diary(*pages, ("2027-03-20", "hoshi repotted same pot")), "2027-03-21")
    after = states(done, "repot", pattern)
    assert after["hoshi/planned/repotted-2026-11-01"] == "done"
    assert after["hoshi/repot/2027"] == "replaced"


def test_a_plan_of_what_comes_often_stands_for_what_is_near(written, states, pattern) -> None:
    session = written(
        diary(("2025-06-06", "hoshi watered"), ("2026-03-01", "hoshi planned feed, to 2026-04-20")),
        "2026-03-02",
    )
    assert states(session, "hoshi/feed-spring/2026", pattern) == {
        "hoshi/feed-spring/2026": "replaced"
    }
    assert states(session, "hoshi/feed-autumn/2026", pattern) == {
        "hoshi/feed-autumn/2026": "coming"
    }


def test_a_plan_for_one_branch_does_not_stand_for_the_tree(written, states, pattern) -> None:
    session = written(
        diary(
            ("2025-03-20", "hoshi watered"),
            ("2026-05-01", "hoshi planned trim on left 1, to 2026-06"),
        ),
        "2026-06-02",
    )
    assert states(session, "trim/2026/low", pattern) == {"hoshi/trim/2026/low": "now"}


def test_a_plan_that_was_made_and_not_meant(written, states) -> None:
    session = written(
        diary(
            ("2026-11-01", "hoshi planned repot, to 2027-03"),
            ("2026-11-05", "hoshi corrected planned 2026-11-01, not done"),
        )
    )
    assert states(session, "planned") == {}


# ------------------------------------------------------------------ rough dates


@pytest.mark.parametrize("day", ["2026", "2026-05", "2026-05-01~", "2026-21"])
def test_a_rough_date_starts_nothing(written, states, day) -> None:
    session = written(
        CARDS
        + f"""
    {day}
    hoshi
      wired      3 mm Al on left 2
      repotted   same pot, tied 2 mm x 2
      protected  fleece
      planned    prune, to 2027-02
      checked    wire fine, again in 3 weeks
    """
    )
    assert states(session, "hoshi/") == {}


# ------------------------------------------------------------------ who is not here


@pytest.mark.parametrize("gone", ["sold", "lent", "returned", "died", "lost"])
def test_a_tree_that_left_asks_for_nothing(written, states, gone) -> None:
    session = written(
        diary(
            ("2026-05-01", "hoshi wired 3 mm Al"),
            ("2026-05-02", "hoshi planned repot, to 2027-03"),
            ("2026-05-03", f"hoshi {gone}"),
        ),
        "2026-05-04",
    )
    assert states(session, "hoshi/") == {}


def test_a_tree_that_came_back_is_asked_for_what_is_still_on_it(written, states) -> None:
    session = written(
        diary(
            ("2026-05-01", "hoshi wired 3 mm Al"),
            ("2026-05-02", "hoshi lent"),
            ("2026-08-03", "hoshi returned"),
        ),
        "2026-08-04",
    )
    # The look was due while it was away; the wire is to come off from 30 October.
    assert states(session, "hoshi/wire") == {"hoshi/wire-off/wired-2026-05-01": "coming"}


@pytest.mark.parametrize(
    ("act", "problems"),
    [
        ("planned repot, to 9999", ("far-date",)),
        ("planned repot, to 0001", ("far-date",)),
        ("planned repot, to 2027/..", ()),
        ("planned repot, to ../2027", ()),
        ("put-off repot, in 100000 years", ("far-date",)),
        ("put-off repot, in 0 days", ()),
        ("checked wire, again in 9999 weeks", ("far-date",)),
        ("checked wire, again 9999-12-31", ("far-date",)),
        ("quarantined until 9999-12-31", ("far-date",)),
        ("agreed by 9999-12-31", ("far-date",)),
        ("lent until 9999", ("far-date",)),
    ],
)
def test_no_date_is_too_far(written, act, problems) -> None:
    pages = (("2026-05-01", "hoshi wired 3 mm Al"), ("2026-05-02", f"hoshi {act}"))
    session = written(diary(*pages), problems=problems)
    for follow_up in session.plan().all():
        assert follow_up.window.opens <= follow_up.window.best <= follow_up.window.closes
        assert follow_up.state(session.today)


def test_a_plan_to_separate_means_the_layer_that_is_there(written, states) -> None:
    """Nobody separates all of a tree; but a wire off one branch leaves those on the others."""
    text = diary(
        ("2026-01-06", "hoshi layered on left 3"),
        ("2026-01-07", "hoshi planned separate, to 2026-06"),
        ("2026-06-03", "hoshi separated on left 3, as grebe"),
    )
    assert states(written(text, "2026-06-20"), "/planned/") == {
        "hoshi/planned/separated-2026-01-07": "done"
    }
    text = diary(
        ("2026-01-06", "hoshi wired 3 mm Al on left 1, 3 mm Al on left 2"),
        ("2026-01-07", "hoshi planned unwire, to 2026-06"),
        ("2026-06-03", "hoshi unwired on left 1"),
    )
    assert states(written(text, "2026-06-20"), "/planned/") == {
        "hoshi/planned/unwired-2026-01-07": "now"
    }


# ------------------------------------------------------------------ what a skip speaks of

TRIDENT = """
    place yard
      cover     open
      latitude  52 N
      low       1 1 2 4 7 10 12 12 10 7 4 2 C
      high      7 7 10 13 16 19 21 21 18 14 10 7 C
    tree hoshi
      kind      trident maple
      place     yard
"""


@pytest.mark.parametrize("act", ["skipped  repot -- did juno instead", "no repot this year"])
def test_who_skips_a_repotting_does_not_leave_the_ties_in(written, states, act) -> None:
    tied = "\n    2025-03-12\n    hoshi\n      repotted  same pot, tied 2 mm x 2 Al\n"
    session = written(f"{TRIDENT}{tied}\n    2026-05-20\n    hoshi\n      {act}\n")
    found = states(session, "/ties-out/")
    assert found
    assert "skipped" not in found.values()


@pytest.mark.parametrize("act", ["skipped  repot", "no repot this spring"])
def test_a_season_that_is_over_is_the_one_that_was_skipped(written, states, act) -> None:
    known = "\n    2025-06-01\n    hoshi\n      noted  well\n"
    text = f"{TRIDENT}{known}\n    2026-05-20\n    hoshi\n      {act}\n"
    found = states(written(text, on="2026-05-21"), "/trident-repot/")
    assert "skipped" not in {state for ident, state in found.items() if ident.endswith("/2027")}


# ------------------------------------------------------------------ what settles what was put off


@pytest.mark.parametrize(("day", "outcome"), [("2026-06-10", "done"), ("2026-03-31", "open")])
def test_what_nobody_asked_for_and_was_put_off_is_done_by_its_act(
    written, find, day, outcome
) -> None:
    """It opens on 1 June; as a plan it may be done 60 days before that, from 2 April on."""
    text = diary(("2026-03-06", "hoshi put-off prune, to 2026-06"), (day, "hoshi pruned light"))
    assert find(written(text, "2026-06-20"), "/planned/pruned").outcome == outcome


def test_what_was_put_off_to_a_year_not_yet_asked_for_is_done_in_it(written, find, pattern) -> None:
    text = diary(
        ("2022-03-20", "hoshi repotted same pot"),
        ("2025-03-07", "hoshi put-off repot, to 2028-03"),
        ("2028-03-10", "hoshi repotted same pot"),
    )
    session = written(text, "2028-03-11")
    assert find(session, "hoshi/repot/2028", pattern).outcome == "done"
    assert find(session, "hoshi/repot/2025", pattern).outcome == "replaced"


@pytest.mark.parametrize(
    ("act", "outcome"),
    [
        ("protected fleece", "done"),
        ("protected fleece, against frost", "done"),
        ("protected windbreak, against drying wind", "done"),
        # What keeps cats and deer away keeps no frost off.
        ("protected net, against cats", "open"),
        ("protected net, against deer", "open"),
    ],
)
def test_a_shelter_against_animals_is_none_against_frost(written, find, act, outcome) -> None:
    text = diary(
        ("2026-10-01", "hoshi planned protect, to 2026-11"), ("2026-11-05", f"hoshi {act}")
    )
    assert find(written(text, "2026-11-06"), "/planned/protected").outcome == outcome


def test_what_is_said_against_something_else_is_no_shelter_and_settles_its_own_work(
    written, find
) -> None:
    text = diary(
        ("2026-05-01", "hoshi planned treat, to 2026-06"),
        ("2026-06-05", "hoshi treated soap, against aphids"),
    )
    assert find(written(text, "2026-06-06"), "/planned/treated").outcome == "done"
