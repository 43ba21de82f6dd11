"""What a forecast asks for at a place is one entry, which moves with the forecast and rings."""

from __future__ import annotations

from datetime import date, timedelta

from icalendar import Event

from backbud.calendar.notes import LONGEST_TITLE
from backbud.calendar.together import joint_event_of
from backbud.journal.settings import Settings
from backbud.species import Foretold
from backbud.views.weeks import WeekWork, weeks_view

TODAY = date(2026, 11, 20)


def work(tree: str, night: date, figure: str, place: str = "bench") -> WeekWork:
    evening = night - timedelta(days=1)
    return WeekWork(
        f"{tree}/frost-ahead/2026-27",
        "protected",
        "protect",
        "protect against frost",
        tree,
        tree,
        "trident maple",
        place,
        f"the {place}",
        evening - timedelta(days=3),
        evening,
        evening,
        10,
        (),
        (),
        "life",
        True,
        True,
        False,
        Foretold("frost", night, figure),
        "frost-ahead/2026-27",
    )


def event(works: list[WeekWork], **settings: object) -> Event:
    view = weeks_view(works, 2, TODAY)
    assert view.alone == ()
    (entry,) = view.together
    found = Event.from_ical(joint_event_of(entry, Settings(**settings)).content.decode())
    assert isinstance(found, Event)
    return found


def test_the_trees_of_a_place_are_one_entry_on_the_evening_with_alarms():
    night = date(2026, 11, 22)
    found = event([work("yuki", night, "−12 °C"), work("hoshi", night, "−12 °C")])
    assert found["UID"] == "frost:bench/2026-27@backbud"
    assert found["SUMMARY"].startswith("Frost −12 °C, night to 22 November")
    assert len(found["SUMMARY"]) <= LONGEST_TITLE
    assert (found["DTSTART"].dt, found["DTEND"].dt) == (date(2026, 11, 21), date(2026, 11, 22))
    assert found["LOCATION"] == "the bench"
    assert "hoshi, yuki." in found["DESCRIPTION"]
    rings = [alarm["TRIGGER"].dt for alarm in found.walk("VALARM")]
    assert rings == [timedelta(hours=8), timedelta(hours=15)]


def test_a_night_that_shifts_moves_it_and_its_name_stays():
    before = event([work("hoshi", date(2026, 11, 22), "−5 °C")])
    after = event([work("hoshi", date(2026, 11, 24), "−6 °C")])
    assert before["UID"] == after["UID"]
    assert (before["DTSTART"].dt, after["DTSTART"].dt) == (date(2026, 11, 21), date(2026, 11, 23))


def test_another_place_is_another_entry_and_none_makes_a_week_too_full():
    night = date(2026, 11, 22)
    works = [work(f"t{n}", night, "−5 °C", f"bench-{n}") for n in range(30)]
    view = weeks_view(works, 30, TODAY)
    assert sorted(one.name for one in view.together) == sorted(
        f"frost:bench-{n}/2026-27" for n in range(30)
    )


def test_the_settings_add_alarms_and_take_none_away():
    found = event([work("hoshi", date(2026, 11, 22), "−5 °C")], alarm_days=(1,), alarm_hour=18)
    rings = [alarm["TRIGGER"].dt for alarm in found.walk("VALARM")]
    assert rings == [timedelta(hours=-6), timedelta(hours=18), timedelta(hours=15)]
