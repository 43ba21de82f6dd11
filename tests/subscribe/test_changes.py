"""What is written over, and what is taken for a note of the user's own."""

from __future__ import annotations

from hashlib import blake2b
from typing import Any

import pytest

from backbud.subscribe.changes import Remembered, changes, entries_in, file_of_entry
from backbud.subscribe.marks import Marks
from backbud.subscribe.server import Stored
from backbud.subscribe.tasks import added, is_same_text, note_of

OURS = "On 2027-03-06.\nAbout 5 min.\n\nWhy:\n- One."


@pytest.mark.parametrize(
    ("text", "told", "note"),
    [
        (OURS, OURS, ""),
        (f"{OURS}\n\nsharp tools\n", OURS, "sharp tools"),
        (f"before\n{OURS}\r\nafter", OURS, "before\nafter"),
        # in the midst of our text, so line by line
        (OURS.replace("Why:", "cut late\nWhy:"), OURS, "cut late"),
        ("mine alone", OURS, "mine alone"),
        # forgotten what was told: our lines are known by how they begin
        (f"{OURS}\nsharp tools", None, "sharp tools"),
        ("", None, ""),
    ],
)
def test_what_was_added(text: str, told: str | None, note: str) -> None:
    assert added(text, told) == note


@pytest.mark.parametrize(
    ("theirs", "told", "same"),
    [
        (OURS, None, True),
        (OURS, "another", True),
        (f"{OURS}\n\na note", OURS, True),
        (f"{OURS}\n\na note", None, True),
        # the entry had one reason more, which has gone
        (f"{OURS}\n- Two.", f"{OURS}\n- Two.", False),
        (f"{OURS}\n- Two.", None, False),
        ("", OURS, False),
    ],
)
def test_whether_a_text_is_the_same(theirs: str, told: str | None, same: bool) -> None:
    assert is_same_text(OURS, theirs, told) is same


ENTRY = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:x\r\n{entries}END:VCALENDAR\r\n"
EVENT = (
    "BEGIN:VEVENT\r\nUID:{uid}\r\nDTSTAMP:20270301T000000Z\r\nSEQUENCE:7\r\n"
    "DTSTART;VALUE=DATE:{day}\r\nSUMMARY:{summary}\r\nEND:VEVENT\r\n"
)


def calendar(*entries: str) -> str:
    return ENTRY.format(entries="".join(entries))


MARKS = Marks(b"k" * 32, "yard", "backbud-yard-all")
NOTHING = Remembered({}, {})


def event(uid: str = "a@yard", day: str = "20270306", summary: str = "feed") -> str:
    text = EVENT.format(uid=uid, day=day, summary=summary)
    return text.replace("END:V", f"{MARKS.line(uid).decode()}END:V")


def of(theirs: str) -> Any:
    ours = entries_in(calendar(event()).encode(), "VEVENT")
    return changes(ours, [Stored("https://x/1", "e", theirs)], MARKS, NOTHING)


def test_the_same_whatever_its_revision_and_what_the_client_keeps_for_itself() -> None:
    same = event().replace("SEQUENCE:7", "SEQUENCE:9").replace("END:V", "X-SEEN:1\r\nEND:V")
    assert of(calendar(same)) == ((), (), 1, (), (), (), ())


@pytest.mark.parametrize("changed", [event(day="20270307"), event(summary="water")])
def test_what_differs_is_written_over_with_a_later_revision(changed: str) -> None:
    (write,) = of(calendar(changed)).write
    assert write.over is not None
    assert "\r\nSEQUENCE:8\r\n" in write.data
    assert write.data.startswith(
        "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//backbud//backbud//EN\r\nBEGIN:VEVENT\r\n"
    )


@pytest.mark.parametrize(
    "foreign",
    [
        calendar(event("b@other-yard")),
        calendar(event("a@yard.example")),
        calendar(event().replace("UID:a@yard\r\n", "")),
        # nor is it told of, since it is nobody's that looks like us
        calendar(event("b@other-yard"), event("c@other-yard")),
        "no calendar at all",
        "BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\n",
        "",
    ],
)
def test_what_is_not_ours_is_left_alone(foreign: str) -> None:
    found = of(foreign)
    assert (found.remove, found.kept, found.waiting) == ((), 0, ())
    assert (found.unmarked, found.odd) == ((), ())
    assert [one.over for one in found.write] == [None]


def test_what_left_is_taken_out() -> None:
    stored = Stored("https://x/1", "e", calendar(event("gone@yard")))
    (one,) = changes({}, [stored], MARKS, NOTHING).remove
    assert (one.stored, one.gone.title, one.copy) == (stored, "feed", False)


# ------------------------------------------------------------------ whose it is


def unmarked(text: str) -> str:
    return "".join(line for line in text.splitlines(True) if not line.startswith("X-BACKBUD"))


def stored(text: str, name: str = "1") -> Stored:
    return Stored(f"https://x/{name}", "e", calendar(text))


def test_a_mark_is_good_for_one_entry_of_one_calendar_of_one_journal_and_person() -> None:
    """BLAKE2b (RFC 7693), as `b2sum` has no key: reckoned with hashlib over the closed names."""
    assert MARKS.of("a@yard") == (
        blake2b(b"4:yard16:backbud-yard-all6:a@yard", key=b"k" * 32, digest_size=16).hexdigest()
    )
    others = {
        MARKS.of("b@yard"),
        MARKS._replace(calendar="backbud-yard-own").of("a@yard"),
        MARKS._replace(journal_id="lawn").of("a@yard"),
        MARKS._replace(key=b"l" * 32).of("a@yard"),
        MARKS._replace(journal_id="yard1", calendar="6:backbud-yard-all").of("a@yard"),
    }
    assert len(others) == 5 and MARKS.of("a@yard") not in others


def of_all(*theirs: Stored, adopt: bool = False, told: dict[str, str] | None = None) -> Any:
    ours = entries_in(calendar(event()).encode(), "VEVENT")
    return changes(ours, theirs, MARKS, Remembered(told or {}, {}), adopt)


@pytest.mark.parametrize(
    "text",
    [
        unmarked(event(summary="the dentist")),
        event(summary="the dentist").replace("X-BACKBUD-MARK:", "X-BACKBUD-MARK:0"),
        event(summary="the dentist").replace(MARKS.of("a@yard"), MARKS.of("b@yard")),
        event(summary="the dentist").replace("X-BACKBUD-MARK:", "X-BACKBUD-MARK:x\r\nX-Y:"),
    ],
)
def test_an_entry_with_a_uid_like_ours_and_no_mark_of_ours_is_left(text: str) -> None:
    """Nor is a second one of its UID written beside it."""
    found = of_all(stored(text), stored(unmarked(event("gone@yard", summary="a date")), "2"))
    assert (found.write, found.remove, found.kept) == ((), (), 0)
    assert found.unmarked == ("the dentist", "a date")


def test_what_is_adopted_is_brought_up_to_date_and_marked() -> None:
    there = (stored(unmarked(event())), stored(unmarked(event("gone@yard", summary="old")), "2"))
    found = of_all(*there, adopt=True)
    (write,) = found.write
    assert (write.uid, write.over) == ("a@yard", there[0])
    assert MARKS.line("a@yard").decode() in write.data
    assert [one.stored for one in found.remove] == [there[1]]
    assert (found.taken, found.unmarked) == (("feed", "old"), ())


def test_beside_one_that_is_marked_nothing_of_its_uid_is_adopted() -> None:
    """It would pass for a copy, and be taken out."""
    there = (stored(unmarked(event(summary="the dentist"))), stored(event(), "2"))
    found = of_all(*there, adopt=True)
    assert (found.write, found.remove, found.kept, found.taken) == ((), (), 1, ())
    assert found.unmarked == ("the dentist",)


def test_where_a_client_dropped_the_mark_the_address_tells() -> None:
    """As far as this journal remembers to have written it there."""
    at = file_of_entry("a@yard")
    there = stored(unmarked(event(summary="water")), at)
    assert of_all(there).unmarked == ("water",)
    assert len(of_all(there, told={"a@yard": ""}).write) == 1
    elsewhere = stored(unmarked(event(summary="water")), "2")
    assert of_all(elsewhere, told={"a@yard": ""}).write == ()


TASK = event().replace("VEVENT", "VTODO").replace("DTSTART", "DUE")


def test_what_is_ticked_off_and_adopted_keeps_its_tick_until_it_is_collected() -> None:
    ticked = unmarked(TASK).replace("END:V", "COMPLETED:20270318T101500Z\r\nEND:V")
    ours = entries_in(calendar(TASK).encode(), "VTODO")
    found = changes(ours, [stored(ticked)], MARKS, NOTHING, adopt=True)
    assert found.waiting == ("a@yard",)
    (write,) = found.write
    mark = MARKS.line("a@yard").decode()
    assert write.data == calendar(ticked).replace("BEGIN:VTODO\r\n", f"BEGIN:VTODO\r\n{mark}")
    again = changes(ours, [Stored("https://x/1", "e", write.data)], MARKS, NOTHING)
    assert (again.waiting, again.write, again.unmarked) == (("a@yard",), (), ())


# ------------------------------------------------------------------ what comes back is odd


@pytest.mark.parametrize(
    ("more", "why"),
    [
        ("COMPLETED:20270318T101500Z\r\nCOMPLETED:20270319T101500Z",
         "COMPLETED stands in it more than once"),
        ("COMPLETED:yesterday", "it cannot be read"),
        ("COMPLETED;VALUE=DURATION:PT1H", "its COMPLETED is no day"),
        ("COMPLETED:00010101T000000Z", "its COMPLETED is no day"),
        ("COMPLETED:99991231T235959Z", "its COMPLETED is no day"),
        ("LAST-MODIFIED;TZID=../../etc:99991231T235959", "its LAST-MODIFIED is no day"),
        ("STATUS:COMPLETED\r\nSTATUS:NEEDS-ACTION", "STATUS stands in it more than once"),
        ("DESCRIPTION:a\r\nDESCRIPTION:b", "DESCRIPTION stands in it more than once"),
        ("UID:b@yard", "UID stands in it more than once"),
        ("SEQUENCE:8", "SEQUENCE stands in it more than once"),
        ("PERCENT-COMPLETE:many", "it cannot be read"),
        ("DUE:00000000", "it cannot be read"),
        ("RRULE:FREQ=DAILY", "it repeats"),
        ("RRULE:junk", "it repeats"),
        ("RECURRENCE-ID:20270306", "it repeats"),
        ("BEGIN:VALARM\r\nTRIGGER:junk\r\nEND:VALARM", "it cannot be read"),
        ("BEGIN:VALARM\r\nTRIGGER:-PT1H\r\nTRIGGER:-PT2H\r\nEND:VALARM",
         "its TRIGGER is no time"),
        ("BEGIN:VALARM\r\nTRIGGER;VALUE=TEXT:soon\r\nEND:VALARM", "its TRIGGER is no time"),
        ("SUMMARY;x", "it cannot be read"),
        ("END:VTODO\r\nBEGIN:VTODO\r\nUID:b@yard", "it holds more than one entry"),
        (f"X-HUGE:{'x' * 1_100_000}", "it is larger than any entry"),
    ],
)  # fmt: skip
def test_a_task_that_cannot_be_understood_is_left_with_a_line(more: str, why: str) -> None:
    """And all others are handled."""
    odd = stored(TASK.replace("END:VTODO", f"{more}\r\nEND:VTODO"))
    ours = entries_in(calendar(TASK, TASK.replace("a@yard", "z@yard")).encode(), "VTODO")
    found = changes(ours, [odd], MARKS, NOTHING, adopt=True)
    assert found.odd == (f"a@yard: {why}",)
    assert [one.uid for one in found.write] == ["z@yard"]
    assert found.remove == ()


@pytest.mark.parametrize("sequence", ["-4", "abc", "2147483647", "9" * 400, "9" * 5000])
def test_a_strange_sequence(sequence: str) -> None:
    found = of(calendar(event(summary="water").replace("SEQUENCE:7", f"SEQUENCE:{sequence}")))
    assert found.odd == ("a@yard: its SEQUENCE is no number of a revision",)
    assert found.write == ()


@pytest.mark.parametrize("uid", ["", "UID:\r\n", "UID: \r\n"])
def test_without_a_uid_it_is_nobodys(uid: str) -> None:
    found = of(calendar(event().replace("UID:a@yard\r\n", uid)))
    assert (found.odd, found.remove, len(found.write)) == ((), (), 1)


def test_a_junk_time_zone_beside_it_is_said() -> None:
    zone = "BEGIN:VTIMEZONE\r\nTZID:x\r\nBEGIN:STANDARD\r\nTZOFFSETTO:+9959\r\nEND:STANDARD\r\n"
    found = of(calendar(f"{zone}END:VTIMEZONE\r\n", event()))
    assert (found.kept, found.odd) == (0, ("a@yard: it cannot be read",))


def test_a_note_that_turns_the_direction_of_a_line_does_not() -> None:
    """U+202E: what follows would be shown from right to left (UAX #9)."""
    text = TASK.replace("END:V", "COMMENT:fine \u202egnihton \x1b[31m\r\nEND:V")
    ((_, task),) = entries_in(calendar(text).encode(), "VTODO").values()
    assert note_of(task, None) == "fine gnihton [31m"
