"""Which follow-ups wait on the weather: those still to come that rest on what is only expected."""

from __future__ import annotations

from datetime import date

import pytest

from backbud.plan.followups import FollowUp, Reason
from backbud.plan.waits import waits_on_weather
from backbud.species import Window

KNOWN = Reason("rule", "It is fed in spring.")
EXPECTED = Reason("datum", "Bud burst about 3 April.", expected=True)


def fed(*because: Reason) -> FollowUp:
    window = Window(date(2027, 4, 3), date(2027, 4, 10), date(2027, 4, 20))
    return FollowUp("hoshi/feed", "hoshi", "fed", "feed", window, because, (), 5, ("fed",))


@pytest.mark.parametrize(
    ("because", "today", "waits"),
    [
        ((KNOWN, EXPECTED), date(2027, 4, 2), True),
        ((KNOWN, EXPECTED), date(2027, 4, 3), False),
        ((KNOWN,), date(2027, 4, 2), False),
    ],
)
def test_a_work_waits_on_the_weather_until_its_window_opens(because, today, waits) -> None:
    assert waits_on_weather(fed(*because), today) is waits
