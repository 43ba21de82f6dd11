"""What is written over, and what is taken for a note of the user's own."""

from __future__ import annotations

from typing import Any

import pytest

from backbud.subscribe.changes import changes, entries_in
from backbud.subscribe.server import Stored
from backbud.subscribe.tasks import added, is_same_text

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


def event(uid: str = "a@yard", day: str = "20270306", summary: str = "feed") -> str:
    return EVENT.format(uid=uid, day=day, summary=summary)


def of(theirs: str) -> Any:
    ours = entries_in(calendar(event()).encode(), "VEVENT")
    return changes(ours, [Stored("https://x/1", "e", theirs)], "yard", {}, {})


def test_the_same_whatever_its_revision_and_what_the_client_keeps_for_itself() -> None:
    same = event().replace("SEQUENCE:7", "SEQUENCE:9").replace("END:V", "X-SEEN:1\r\nEND:V")
    assert of(calendar(same)) == ((), (), 1, ())


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
        calendar(event("a@yard"), event("b@yard")),  # no entry of ours stands with another
        calendar(event().replace("UID:a@yard\r\n", "")),
        "no calendar at all",
        "BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\n",
        "",
    ],
)
def test_what_is_not_ours_is_left_alone(foreign: str) -> None:
    found = of(foreign)
    assert (found.remove, found.kept, found.waiting) == ((), 0, ())
    assert [one.over for one in found.write] == [None]


def test_what_left_is_taken_out() -> None:
    stored = Stored("https://x/1", "e", calendar(event("gone@yard")))
    assert changes({}, [stored], "yard", {}, {}).remove == (stored,)
