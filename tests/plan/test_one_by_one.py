"""A tree planned alone has the follow-ups that it has in the plan of all."""

from __future__ import annotations

from datetime import date

from msgspec.structs import replace
from tests.conftest import Written

TEXT = """\
place yard
  latitude 52 N
tree hoshi
  kind trident maple
  place yard
tree yuki
  kind trident maple
  place yard
2027-03-06
hoshi
  wired 2.5 mm Al on left 2
  planned repot, to 2028-03
2027-05-06
hoshi
  unwired on left 2
"""


def test_it_is_the_same_but_for_the_minutes(written: Written) -> None:
    session = written(TEXT, on="2027-06-01", settings='home = "yard"\n')
    whole, alone = session.plan().follow_ups, session.one_by_one(session.today)
    for handle in ("hoshi", "yuki"):
        assert [replace(one, minutes=0) for one in whole[handle]] == [
            replace(one, minutes=0) for one in alone.of(handle).follow_ups
        ]


def test_on_an_earlier_day_what_came_later_is_not_known(written: Written) -> None:
    session = written(TEXT, on="2027-06-01", settings='home = "yard"\n')
    day = date(2027, 4, 1)
    found = session.one_by_one(day).of("hoshi")
    check = next(one for one in found.follow_ups if one.title == "check wire on left 2")
    assert check.state(day) == "coming" and check.settled is None
    assert [thing.sort for thing in found.tree.on_tree] == ["wire"]
    now = session.one_by_one(session.today).of("hoshi")
    check = next(one for one in now.follow_ups if one.title == "check wire on left 2")
    assert check.state(session.today) != "coming" and now.tree.on_tree == ()
