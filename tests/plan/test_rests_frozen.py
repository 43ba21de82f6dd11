"""What may be done to wood rests while it is frozen where the tree stands.

Minneapolis' monthly means as remembered, rounded: the mean of a usual week is under 0 °C from the
last days of November to the middle of March, under unheated glass (+1.5 K at night, +6 K by day,
common practice) from the first days of December to the last of February.
"""

from __future__ import annotations

import pytest

from backbud.plan.followups import FollowUp

PLACES = """
place yard
  latitude   45 N
  longitude  93.3 W
  low   -13 -11 -4 3 9 15 18 16 11 5 -3 -10 C
  high  -4 -2 5 14 21 26 28 27 22 14 5 -2 C
place glass
  cover   unheated glass
place house
  cover   heated glass 5 C
"""


@pytest.fixture
def work(written):
    def of(kind: str, place: str, on: str, rule: str, more: str = "") -> tuple[FollowUp, str]:
        """The work of a rule and growing year, and how it stands on a day."""
        card = f"tree hoshi\n  kind   {kind}\n  place  {place}\n2024-06-01\nhoshi\n  noted  well\n"
        session = written(PLACES + card + more, on, settings='home = "yard"\n')
        (one,) = session.plan().find(f"hoshi/{rule}")
        return one, one.state(session.today)

    return of


@pytest.mark.parametrize(
    ("place", "on", "state"),
    [
        ("glass", "2026-11-27", "now"),
        # Minneapolis in January: -8.5 °C in the mean, about -5 °C under the glass.
        ("glass", "2027-01-10", "coming"),
        ("glass", "2027-03-05", "now"),
        # A heater keeps it at 5 °C.
        ("house", "2027-01-10", "now"),
    ],
)
def test_wiring_rests_in_winter_quarters_and_comes_back(work, place, on, state) -> None:
    assert work("bald cypress", place, on, "bald-cypress-wire/2026")[1] == state


def test_it_comes_back_as_it_thaws(work) -> None:
    one, _ = work("bald cypress", "glass", "2027-01-10", "bald-cypress-wire/2026")
    rests = one.schedule.rests
    assert rests is not None
    assert (rests.opens.isoformat()[:7], rests.closes.isoformat()[:7]) == ("2026-12", "2027-03")
    left = one.window_on(one.window.opens.replace(year=2027, month=1, day=10))
    assert (left.opens - rests.closes).days == 1
    assert left.closes == one.window.closes


def test_where_it_is_frozen_to_its_end_it_ends_with_the_last_thawed_week(work) -> None:
    """A larch in the open is wired until its buds swell in March, or until it freezes."""
    one, state = work("European larch", "yard", "2027-01-10", "larch-wire/2026")
    assert state == "lapsed"
    assert one.window.closes.isoformat()[:7] == "2026-11"


def test_where_all_of_it_is_frozen_the_mildest_fortnight_is_left(work) -> None:
    one, state = work("English oak", "glass", "2027-01-10", "oak-prune/2026")
    assert state in ("lapsed", "coming")
    assert (one.window.closes - one.window.opens).days <= 13


def test_what_was_planned_does_not_rest(work) -> None:
    plan = "2026-11-01\nhoshi\n  planned  wire, to 2027-01\n"
    one, state = work("bald cypress", "glass", "2027-01-10", "planned/", plan)
    assert (one.schedule.rests, state) == (None, "now")


# ------------------------------------------------------------------ what is late, and what stays on


@pytest.mark.parametrize(
    ("on", "place", "state"),
    [
        # Wired a year ago, looked at by nobody, so late since the autumn: as long as wood thaws.
        ("2026-11-12", "yard", "overdue"),
        ("2026-12-05", "yard", "coming"),
        ("2027-03-05", "yard", "coming"),
        # A heater keeps it at 5 °C.
        ("2026-12-05", "house", "overdue"),
    ],
)
def test_a_late_look_at_wire_rests_while_nothing_swells(written, find, on, place, state) -> None:
    """It was late at −13 °C, day after day, in pots that lie in mulch."""
    card = f"tree hoshi\n  kind   mugo pine\n  place  {place}\n2025-11-20\n"
    session = written(
        PLACES + card + "hoshi\n  wired 2 mm Al on left 1\n", on, settings='home = "yard"\n'
    )
    look = find(session, "wire-check/")
    assert look.window.closes.isoformat() < on
    assert look.state(session.today) == state
    if state == "coming":
        left = look.window_on(session.today)
        assert "2027-03-1" <= left.opens.isoformat() <= left.closes.isoformat() < "2027-03-2"


@pytest.mark.parametrize(
    ("place", "days"),
    [
        # Mean of the day 0.5 °C in mid-March, 8.5 in mid-April: over 3 °C from 24 March or so on.
        ("yard", ("2027-03-22", "2027-03-29", "2027-04-19")),
        # 5 °C all winter: by months.
        ("house", ("2027-01-15", "2027-02-20", "2027-03-31")),
    ],
)
def test_ties_that_were_left_come_out_once_the_pot_has_thawed(written, find, place, days) -> None:
    card = f"tree hoshi\n  kind   mugo pine\n  place  {place}\n2026-03-20\n"
    text = PLACES + card + "hoshi\n  repotted same pot, tied 2 mm x 2\n"
    session = written(text, "2026-12-05", settings='home = "yard"\n')
    left = find(session, "ties-out/").window_on(session.today)
    assert (left.opens.isoformat(), left.best.isoformat(), left.closes.isoformat()) == days
