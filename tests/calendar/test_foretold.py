"""What a forecast asks for at a place is one entry, which moves with the forecast and rings."""

from __future__ import annotations

from datetime import date, timedelta

from icalendar import Event

from backbud.calendar.notes import LONGEST_NOTE, LONGEST_TITLE
from backbud.calendar.together import joint_event_of
from backbud.journal.settings import Settings
from backbud.species import Foretold
from backbud.species.proposals import ForetoldWhat
from backbud.views.weeks import WeekWork, weeks_view

TODAY = date(2026, 11, 20)


def work(
    tree: str,
    night: date,
    figure: str,
    place: str = "bench",
    *,
    coldest: tuple[int, float] | None = None,
    what: ForetoldWhat = "frost",
    cautions: tuple[str, ...] = (),
) -> WeekWork:
    """`coldest`: the coldest night by its day of November, and its low."""
    evening = night - timedelta(days=1)
    on, low_c = (date(2026, 11, coldest[0]), coldest[1]) if coldest else (None, None)
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
        cautions,
        (),
        "life",
        True,
        True,
        False,
        Foretold(what, night, figure, on, low_c),
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
    assert found["SUMMARY"] == "Frost −12: protect 2 at the bench"
    assert len(found["SUMMARY"]) <= LONGEST_TITLE
    assert (found["DTSTART"].dt, found["DTEND"].dt) == (date(2026, 11, 21), date(2026, 11, 22))
    assert found["LOCATION"] == "the bench"
    assert found["DESCRIPTION"] == (
        "hoshi, yuki.\nIn the night to Sunday 22 November −12 °C. About 20 min."
    )
    rings = [alarm["TRIGGER"].dt for alarm in found.walk("VALARM")]
    assert rings == [timedelta(hours=8), timedelta(hours=15)]


NIGHT = date(2026, 11, 22)
HEATER = "A heater under glass needs fresh air, and is kept clear of fleece."


def test_one_tree_is_named():
    assert event([work("puffin", NIGHT, "−6 °C")])["SUMMARY"] == "Frost −6: protect puffin"


def test_a_colder_night_stands_in_title_and_note():
    some = [
        work("puffin", NIGHT, "−6 °C", coldest=(23, -11.2)),
        work("hoshi", date(2026, 11, 23), "−11 °C", coldest=(23, -11.2)),
    ]
    found = event(some)
    assert found["SUMMARY"] == "Frost −6, then −11: protect 2 at bench"
    assert found["DESCRIPTION"] == (
        "puffin, hoshi.\n"
        "In the night to Sunday 22 November −6 °C, −11 °C in the next. About 20 min."
    )
    later = event([work("puffin", NIGHT, "−6 °C", coldest=(25, -11.2))])
    assert "−6 °C, the coldest −11 °C in the night to 25 November." in later["DESCRIPTION"]


def test_where_it_is_goes_before_both_figures():
    def said(place: str) -> str:
        some = [work(tree, NIGHT, "−6 °C", place, coldest=(23, -11.2)) for tree in ("a", "b")]
        return str(event(some)["SUMMARY"])

    assert said("south-bench") == "Frost to −11: protect 2 at south-bench"
    # A name that is too long for a title is its LOCATION alone.
    assert said("the-long-south-bench") == "Frost −6, then −11: protect 2"


def test_many_names_leave_room_for_the_caution():
    some = [work(f"goldcrest-{n}", NIGHT, "−6 °C", cautions=(HEATER,)) for n in range(30)]
    said = event(some)["DESCRIPTION"]
    assert said == (
        "goldcrest-0, goldcrest-1, goldcrest-10, goldcrest-11 and 26 more.\n"
        f"In the night to Sunday 22 November −6 °C. About 5 h.\nCaution: {HEATER}"
    )
    assert len(said) <= LONGEST_NOTE


def test_a_tender_tree_moves_in():
    assert event([work("fig", NIGHT, "1 °C", what="cold")])["SUMMARY"] == "Cold 1: move in fig"


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
