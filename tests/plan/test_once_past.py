"""What becomes of a follow-up once its window has passed: it lapses, stays, or grows; nothing is
late for longer than a season, and what still matters never disappears."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from backbud.cli import main
from backbud.plan.once_past import said_on, stands, window_on
from backbud.species import CHANCE, PRESSING, STAYS_ON, Schedule, Window

MAY = Window(date(2026, 5, 1), date(2026, 5, 10), date(2026, 5, 31))
NEXT_MARCH = Window(date(2027, 3, 1), date(2027, 3, 10), date(2027, 3, 31))


def on(day: str, weight, schedule=Schedule(), promised=False) -> tuple[str, str]:  # noqa: B008
    at = date.fromisoformat(day)
    now = window_on(MAY, weight, schedule, promised, at)
    return stands(now, weight, schedule, promised, at), now.closes.isoformat()


@pytest.mark.parametrize(
    ("day", "state", "until"),
    [
        ("2026-05-31", "now", "2026-05-31"),
        ("2026-06-01", "lapsed", "2026-05-31"),
        ("2029-01-01", "lapsed", "2026-05-31"),
    ],
)
def test_a_chance_is_gone_with_its_season(day: str, state: str, until: str) -> None:
    assert on(day, CHANCE) == (state, until)


@pytest.mark.parametrize(
    ("day", "state", "until"),
    [
        ("2026-05-31", "now", "2026-05-31"),
        # Never late: it waits for its next good moment, and for that of the year after.
        ("2026-06-01", "coming", "2027-03-31"),
        ("2027-03-01", "now", "2027-03-31"),
        ("2027-04-01", "coming", "2028-03-30"),
    ],
)
def test_what_stays_moves_to_its_next_good_moment(day: str, state: str, until: str) -> None:
    assert on(day, STAYS_ON, Schedule(again=NEXT_MARCH)) == (state, until)


@pytest.mark.parametrize(
    ("day", "state", "until"),
    [
        ("2026-06-01", "overdue", "2026-05-31"),
        # A season is 150 days: 31 May and 150 days are 28 October.
        ("2026-10-28", "overdue", "2026-05-31"),
        ("2026-10-29", "coming", "2027-03-31"),
        ("2027-03-01", "now", "2027-03-31"),
        ("2027-04-01", "overdue", "2027-03-31"),
        # 31 March and 150 days are 28 August.
        ("2027-08-28", "overdue", "2027-03-31"),
        ("2027-08-29", "coming", "2028-03-30"),
    ],
)
def test_what_grows_is_late_for_a_season_and_comes_again(day: str, state: str, until: str) -> None:
    assert on(day, PRESSING, Schedule(again=NEXT_MARCH)) == (state, until)


def test_what_grows_and_never_comes_again_is_gone_after_a_season() -> None:
    assert on("2026-10-28", PRESSING) == ("overdue", "2026-05-31")
    assert on("2026-10-29", PRESSING) == ("lapsed", "2026-05-31")


def test_a_promise_never_lapses() -> None:
    assert on("2026-10-28", CHANCE, promised=True) == ("overdue", "2026-05-31")
    assert on("2026-10-29", CHANCE, promised=True) == ("promised", "2026-05-31")
    assert on("2031-10-29", CHANCE, promised=True) == ("promised", "2026-05-31")


# ------------------------------------------------------------------ in a journal

TRIDENT = """
place yard
  latitude  52 N
tree hoshi
  kind   trident maple
  place  yard
"""
WIRED = """
2026-04-20
hoshi
  wired  3 mm Al on left 1, 2 mm Al on left 2
"""


def lines(capsys, tmp_path, day: str, *more: str) -> list[str]:
    assert main(["due", str(tmp_path), "--on", day, "--within", "0d", *more]) == 0
    return [line.strip() for line in capsys.readouterr().out.splitlines()]


def about(found: list[str], word: str) -> list[str]:
    return [line for line in found if word in line and "–" in line]


def test_two_wires_that_nobody_looks_at_are_one_line(written, tmp_path, capsys) -> None:
    written(TRIDENT + WIRED, "2026-07-30")
    found = lines(capsys, tmp_path, "2026-07-30")
    (line,) = about(found, "wire on")
    assert "check wire on left 1 and left 2" in line and "was due" in line
    # What will happen is said with it.
    after = found[found.index(line) + 1]
    assert after == (
        "Nobody has looked: as the wood swells the wire cuts in, and the mark stays for years."
    )


def test_a_look_at_wire_is_never_late_for_longer_than_a_season(written, states) -> None:
    """It is asked for again in each season of growth, as long as the wire is on."""
    seen = set()
    for week in range(130):
        day = date(2026, 4, 21) + timedelta(weeks=week)
        session = written(TRIDENT + WIRED, day.isoformat())
        found = [f for f in session.plan().all() if f.is_open(day) and "wire" in f.title]
        assert found, day
        for one in found:
            seen.add(one.state(day))
            if one.state(day) == "overdue":
                assert (day - one.window_on(day).closes).days <= 150
    assert seen == {"coming", "now", "overdue"}


def test_eight_trees_of_one_line_are_one_line_when_late(written, tmp_path, capsys) -> None:
    names = ("ash", "birch", "crow", "dove", "elk", "fox", "gnat", "hare")
    cards = "place yard\n  latitude  52 N\n" + "".join(
        f"tree {name}\n  kind  trident maple\n  place  yard\n" for name in names
    )
    written(cards + "2026-05-10\nall\n  treated  soap 1 L, against aphids\n", "2026-06-12")
    found = lines(capsys, tmp_path, "2026-06-12")
    assert len(about(found, "check for pests")) == 1


def test_ties_stay_until_the_next_good_moment(written, states) -> None:
    tied = TRIDENT + "2026-03-06\nhoshi\n  repotted  same pot, tied 2 mm x 2\n"
    # Twenty-six to fifty-two weeks after it: until 5 March 2027; then the rest before each spring.
    for day, state in (
        ("2027-03-05", "now"),
        ("2027-03-06", "now"),
        ("2027-04-01", "coming"),
        ("2028-02-20", "now"),
    ):
        session = written(tied, day)
        assert states(session, "/ties-out/") == {"hoshi/ties-out/repotted-2026-03-06": state}, day


def test_winter_protection_stands_until_the_frost_is_over(written, states) -> None:
    """Lows of −8 °C: not protected on 20 October, it is in danger until March."""
    card = (
        TRIDENT.replace("52 N", "39.7 N\n  longitude  105 W")
        .replace("place yard\n", "place yard\n  cover  open\n", 1)
        .replace(
            "105 W",
            "105 W\n  low   -8 -7 -3 1 6 11 15 14 9 2 -4 -8 C"
            "\n  high  7 8 12 16 22 28 32 31 26 19 12 7 C",
        )
    )
    noted = card + "2026-06-01\nhoshi\n  noted  well\n"
    for day in ("2026-11-05", "2026-11-15", "2026-12-24", "2027-01-20", "2027-02-20"):
        session = written(noted, day, settings='home = "yard"\n')
        found = states(session, "/winter-frost/2026")
        assert found == {"hoshi/winter-frost/2026": "now"}, day


def test_a_tree_under_cover_is_not_asked_out_in_november(written, states) -> None:
    moved = """
    place yard
      cover     open
      latitude  52 N
    place shed
      cover     cold frame
    tree hoshi
      kind   trident maple
      place  yard
    2026-01-10
    hoshi
      moved  shed
    """
    import textwrap

    text = textwrap.dedent(moved)
    for day, state in (
        ("2026-04-10", "now"),
        ("2026-06-10", "overdue"),
        ("2026-11-10", "coming"),
    ):
        session = written(text, day, settings='home = "yard"\n')
        found = states(session, "/winter-quarters-out/")
        assert list(found.values()) == [state], day


@pytest.mark.parametrize(
    ("day", "said"),
    [
        # Its last seven days are its end; past them it is late.
        ("2026-05-01", "in time"),
        ("2026-05-24", "in time"),
        ("2026-05-25", "at the end"),
        ("2026-05-31", "at the end"),
        ("2026-06-01", "after"),
        ("2026-04-30", ""),
    ],
)
def test_what_its_rule_says_of_it_changes_with_its_last_week(day: str, said: str) -> None:
    schedule = Schedule(in_time="in time", at_the_end="at the end", after="after")
    at = date.fromisoformat(day)
    state = stands(MAY, PRESSING, schedule, True, at)
    assert said_on(MAY, MAY, schedule, state, at) == said


def test_a_rule_with_nothing_to_say_at_the_end_says_the_same_to_the_last_day() -> None:
    schedule = Schedule(in_time="in time")
    assert said_on(MAY, MAY, schedule, "now", MAY.closes) == "in time"
