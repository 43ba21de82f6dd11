"""The rules of RFC 5545 and RFC 7986, checked on the bytes of the feeds."""

from __future__ import annotations

import re
from typing import Any

import pytest

from backbud.pages.links import anchor_of

NASTY = (
    "semi; colon, comma, back\\slash and \\n that is no newline",
    "a line\nand another\r\nand a third\rand a fourth",
    "🌳🍁👩‍🌾🇯🇵" * 20,
    "גזום את העץ, ואז חכה שבועיים; " * 6,
    "שלום \u2067hoshi\u2069 و \u200fالسلام\u200e",
    "日本の五葉松の植え替え。" * 15,
    "no space in a very long word " + "x" * 400,
    "bell\x07 null\x00 escape\x1b delete\x7f tab\t next\x85 line\u2028 paragraph\u2029 end",
    "BEGIN:VEVENT\r\nEND:VEVENT\r\nEND:VCALENDAR",
    '"quoted" : and ^caret',
    " leading and trailing ",
)


@pytest.fixture(scope="module")
def feeds(build: Any) -> dict[str, bytes]:
    """Feeds with every nasty text in each place a text can stand, and one with no work."""
    work = [
        build.follow_up(
            f"tree-{number}",
            id=f"{text}/{number}",
            title=text,
            act="re;potted,",
            because=(build.reason(text, f"{text}:{number}"),),
            cautions=(text, text),
            minutes=number,
        )
        for number, text in enumerate(NASTY)
    ]
    trees = {f.tree: build.tree(f.tree, name=f.title, place="bench", kind=f.title) for f in work}
    trees["idle"] = build.tree("idle")
    files, _ = build.made(
        work, trees=trees, names={"bench": NASTY[0]}, base_url="https://yard.example/a,b;c"
    )
    # The weeks, whose entries stand for several works, are read in test_weeks.py.
    return {path: feed for path, feed in files.items() if path != "calendars/all.ics"}


def test_content_lines(feeds: dict[str, bytes]) -> None:
    """RFC 5545 §3.1: lines end in CRLF, are at most 75 octets, and are folded before a space."""
    for feed in feeds.values():
        assert feed.endswith(b"\r\n")
        lines = feed.split(b"\r\n")[:-1]
        assert not [line for line in lines if b"\r" in line or b"\n" in line]
        assert max(map(len, lines)) <= 75
        for line in lines:
            line.decode()  # raises where a fold would split the octets of one character
    assert sum(line.startswith(b" ") for line in feeds["calendars/own.ics"].split(b"\r\n")) > 30


def test_no_control_characters(feeds: dict[str, bytes]) -> None:
    """RFC 5545 §3.1: no CONTROL (0-8, 10-31, 127) in a value, once the line breaks are off."""
    for feed in feeds.values():
        assert not re.search(rb"[\x00-\x08\x0a-\x1f\x7f]", feed.replace(b"\r\n", b""))


def test_text_is_escaped(build: Any, feeds: dict[str, bytes]) -> None:
    """RFC 5545 §3.3.11: a backslash before backslash, semicolon and comma; newline as `\\n`."""
    lines = build.lines(feeds["calendars/trees/tree-0.ics"])
    text = "semi\\; colon\\, comma\\, back\\\\slash and \\\\n that is no newline"
    # A long name gives way to the handle, and a long title ends where a clause does.
    assert "SUMMARY:tree-0: semi" in lines
    assert f"NAME:{text}" in lines
    assert f"LOCATION:{text}" in lines
    assert "CATEGORIES:re\\;potted\\," in lines
    (description,) = (line for line in lines if line.startswith("DESCRIPTION:From"))
    assert description == (
        "DESCRIPTION:From 3 April to 24 April\\, best 10 April."
        f"\\nCaution: {text}\\nCaution: more on its page."
        f"\\nhttps://yard.example/a\\,b\\;c/trees/tree-0.html#{anchor_of(f'{NASTY[0]}/0')}"
    )


def test_every_line_is_a_property(build: Any, feeds: dict[str, bytes]) -> None:
    """RFC 5545 §3.1: name, parameters, colon, value. No newline of a text breaks out."""
    for feed in feeds.values():
        for line in build.lines(feed):
            assert re.match(r"[A-Z-]+(;VALUE=(DATE|DURATION|URI))?:", line), line
    lines = build.lines(feeds["calendars/own.ics"])
    assert lines.count("BEGIN:VEVENT") == lines.count("END:VEVENT") == len(NASTY)
    assert lines.count("END:VCALENDAR") == 1


def test_the_calendar(build: Any, feeds: dict[str, bytes]) -> None:
    """RFC 5545 §3.4, §3.6, §3.7: one object, with its properties once, and no METHOD."""
    for feed in feeds.values():
        lines = build.lines(feed)
        assert (lines[0], lines[-1]) == ("BEGIN:VCALENDAR", "END:VCALENDAR")
        assert build.calendar_values(feed, "VERSION") == ["2.0"]
        assert build.calendar_values(feed, "PRODID") == ["-//backbud//backbud//EN"]
        assert build.calendar_values(feed, "CALSCALE") == ["GREGORIAN"]
        assert build.calendar_values(feed, "METHOD") == []
        assert not [line for line in lines if line.startswith("X-")]


def test_each_event(build: Any, feeds: dict[str, bytes]) -> None:
    """RFC 5545 §3.6.1: what an event must have once, what it may have once, and what not both."""
    for feed in feeds.values():
        for event in build.events(feed):
            names = [re.split("[;:]", line)[0] for line in event]
            assert sorted(names) == sorted(
                {
                    "UID",
                    "DTSTAMP",
                    "SEQUENCE",
                    "SUMMARY",
                    "DESCRIPTION",
                    "DTSTART",
                    "DTEND",
                    "CATEGORIES",
                    "TRANSP",
                    "LOCATION",
                    "URL",
                }
            )
            # §3.8.2.2: the end has the type of the start, and lies after it.
            assert "DTSTART;VALUE=DATE:20270410" in event
            assert "DTEND;VALUE=DATE:20270411" in event
            # §3.8.2.7
            assert "TRANSP:TRANSPARENT" in event
            # §3.8.7.2: in UTC (§3.3.5, form 2); with no METHOD it is the day of the last revision
            assert "DTSTAMP:20270301T000000Z" in event


def test_each_task(build: Any, feeds: dict[str, bytes]) -> None:
    """RFC 5545 §3.6.2: what a to-do must have once, what it may have once, and what not both."""
    for path in ("calendars/tasks/all.ics",):
        tasks = build.events(feeds[path], "VTODO")
        assert len(tasks) == len(NASTY)
        for task in tasks:
            names = [re.split("[;:]", line)[0] for line in task]
            assert sorted(names) == sorted(
                {
                    "UID",
                    "DTSTAMP",
                    "SEQUENCE",
                    "SUMMARY",
                    "DESCRIPTION",
                    "DTSTART",
                    "DUE",
                    "STATUS",
                    "CATEGORIES",
                    "LOCATION",
                    "URL",
                }
            )
            # §3.8.2.3: the same type of value, and later
            assert "DTSTART;VALUE=DATE:20270403" in task
            assert "DUE;VALUE=DATE:20270410" in task
        events = {uid for event in build.events(feeds["calendars/own.ics"]) for uid in event}
        assert not events & {line for task in tasks for line in task if line.startswith("UID")}


def test_uids_are_unique(build: Any, feeds: dict[str, bytes]) -> None:
    """RFC 5545 §3.8.4.7."""
    uids = build.values(feeds["calendars/own.ics"], "UID")
    assert len(set(uids)) == len(uids) == len(NASTY)


def test_new_properties(build: Any, feeds: dict[str, bytes]) -> None:
    """RFC 7986 §5.1, §5.2, §5.7, §5.8, §5.9."""
    # The sixteen names of HTML 4 that CSS Color Level 3 §4.1 begins with.
    basic = {
        "black",
        "silver",
        "gray",
        "white",
        "maroon",
        "red",
        "purple",
        "fuchsia",
        "green",
        "lime",
        "olive",
        "yellow",
        "navy",
        "blue",
        "teal",
        "aqua",
    }
    for feed in feeds.values():
        lines = build.lines(feed)
        assert len(build.calendar_values(feed, "NAME")) == 1
        assert "REFRESH-INTERVAL;VALUE=DURATION:PT12H" in lines
        (colour,) = build.calendar_values(feed, "COLOR")
        assert colour in basic
    lines = build.lines(feeds["calendars/own.ics"])
    assert "NAME:Own trees" in lines
    assert "DESCRIPTION:What falls due on the keeper's own trees." in lines
    assert "SOURCE;VALUE=URI:https://yard.example/a,b;c/calendars/own.ics" in lines


def test_a_feed_without_work(build: Any, feeds: dict[str, bytes]) -> None:
    """RFC 5545 §3.6: one component at least; §3.6.5: what a VTIMEZONE must have."""
    lines = build.lines(feeds["calendars/trees/idle.ics"])
    assert sorted(lines[lines.index("BEGIN:VTIMEZONE") :]) == sorted(
        [
            "BEGIN:VTIMEZONE",
            "TZID:Etc/UTC",
            "BEGIN:STANDARD",
            "DTSTART:19700101T000000",
            "TZOFFSETFROM:+0000",
            "TZOFFSETTO:+0000",
            "END:STANDARD",
            "END:VTIMEZONE",
            "END:VCALENDAR",
        ]
    )
    assert "BEGIN:VTIMEZONE" not in build.lines(feeds["calendars/own.ics"])
