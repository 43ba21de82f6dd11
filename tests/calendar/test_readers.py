"""What two readers that did not write the feeds find in them: vobject, and ical.js in Node."""

from __future__ import annotations

import json
import random
import shutil
import subprocess
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
import vobject

from backbud.pages.links import anchor_of

HERE = Path(__file__).parent
Read = Callable[[bytes], list[dict[str, Any]]]

# What breaks a reader: escapes, folds in odd places, other scripts, joined and unjoined emoji.
PIECES = (
    "\\",
    "\\n",
    ";",
    ",",
    ":",
    '"',
    " ",
    "  ",
    "\t",
    "a",
    "wire",
    "é",
    "e\u0301",
    "ß",
    "星",
    "ほし",
    "שלום",
    "السلام",
    "\u200f",
    "\u2067",
    "🌳",
    "👩‍🌾",
    "🇯🇵",
    "x" * 74,
    "=",
    "%",
    "^n",
)


def with_vobject(feed: bytes) -> list[dict[str, Any]]:
    calendar = vobject.readOne(feed.decode())
    return [
        {
            "uid": event.uid.value,
            "summary": event.summary.value,
            "description": event.description.value,
            "start": event.dtstart.value.isoformat(),
            "end": event.dtend.value.isoformat(),
            "days": (event.dtend.value - event.dtstart.value).days,
            "allDay": type(event.dtstart.value) is type(event.dtend.value) is date,
            "sequence": int(event.sequence.value),
            "stamp": f"{event.dtstamp.value.astimezone(UTC):%Y-%m-%dT%H:%M:%SZ}",
            "categories": event.categories.value,
        }
        for event in calendar.contents.get("vevent", [])
    ]


def with_ical_js(feed: bytes) -> list[dict[str, Any]]:
    events: list[dict[str, Any]] = read_by_ical_js(feed)["events"]
    return events


def read_by_ical_js(feed: bytes) -> dict[str, Any]:
    node = shutil.which("node")
    if node is None or not (HERE / "node_modules" / "ical.js").is_dir():
        pytest.skip("needs node, and `npm ci` in tests/calendar")
    run = subprocess.run([node, HERE / "read_feed.mjs"], input=feed, capture_output=True)
    assert run.returncode == 0, run.stderr.decode()
    found: dict[str, Any] = json.loads(run.stdout)
    return found


@pytest.fixture(params=[with_vobject, with_ical_js], ids=["vobject", "ical.js"])
def read(request: pytest.FixtureRequest) -> Read:
    found: Read = request.param
    return found


def test_every_work_stands_on_the_day_meant(build: Any, read: Read) -> None:
    work = [
        build.follow_up(
            "hoshi",
            "2027-02-20",
            "2027-02-28",
            "2027-03-05",
            id="hoshi/a",
            title="repot",
            act="repotted",
            minutes=120,
            because=(build.reason("Bud burst is near.", "diary/2027.txt:4"),),
            cautions=("Lift with two.",),
        ),
        build.follow_up("yuki", "2028-02-01", "2028-02-29", "2028-03-01", id="yuki/b"),
    ]
    files, _ = build.made(work)
    (first,), (second,) = (read(files[f"calendars/trees/{t}.ics"]) for t in ("hoshi", "yuki"))
    assert (first["start"], first["end"], first["days"]) == ("2027-02-28", "2027-03-01", 1)
    assert (second["start"], second["end"], second["days"]) == ("2028-02-29", "2028-03-01", 1)
    assert first["allDay"] and second["allDay"]
    assert first["uid"] == "hoshi/a@upper-yard"
    assert first["summary"] == "hoshi: repot"
    assert first["categories"] == ["repotted"]
    assert (first["sequence"], first["stamp"]) == (99210, "2027-03-01T00:00:00Z")
    assert first["description"] == (
        "From 20 February to 5 March, best 28 February. About 2 h.\n"
        "Caution: Lift with two.\n"
        "Why: Bud burst is near."
    )


def test_a_window_spans_its_last_day(build: Any, read: Read) -> None:
    work = build.follow_up("hoshi", "2027-03-26", "2027-04-01", "2027-04-09")
    (event,) = read(build.feed([work], show="window"))
    # 26 March to 9 April, both included: 15 days
    assert (event["start"], event["end"], event["days"]) == ("2027-03-26", "2027-04-10", 15)


def test_a_feed_without_work_reads(build: Any, read: Read) -> None:
    assert read(build.feed([])) == []


def test_every_text_comes_back(build: Any, read: Read) -> None:
    chance = random.Random(20270301)
    texts = [
        "".join(chance.choices(PIECES, k=chance.randint(1, 12 if number % 10 else 120)))
        for number in range(300)
    ]
    work = [
        build.follow_up(
            "hoshi",
            id=f"hoshi/{number:03}",
            title=f"a{text[:30]}z",
            because=(build.reason(f"{text[:120]}.", "d.txt:1"),),
        )
        for number, text in enumerate(texts)
    ]
    events = read(build.feed(work))
    assert len(events) == 300
    for text, event in zip(texts, events, strict=True):
        plain = text.replace("\t", " ")  # a tab is a control character like any other
        assert event["summary"] == f"hoshi: a{plain[:30]}z"
        assert event["description"] == (
            f"From 3 April to 24 April, best 10 April.\nWhy: {plain[:120]}."
        )


def test_tasks_are_read_as_meant(build: Any) -> None:
    """By ical.js and by vobject, one of a window and one done."""
    by = build.done("2027-02-27")
    work = [
        build.follow_up("hoshi", id="hoshi/a", title="wässern; 星, שלום 🌳"),
        build.follow_up(
            "hoshi",
            "2027-05-01",
            "2027-05-02",
            "2027-05-03",
            id="hoshi/b",
            outcome="done",
            settled=by,
        ),
    ]
    files, _ = build.made(work, settled="completed", alarm_days=(2,), alarm_hour=7)
    feed = files["calendars/tasks/all.ics"]
    first, second = read_by_ical_js(feed)["tasks"]
    assert first == {
        "uid": "task:hoshi/a@upper-yard",
        "summary": "hoshi: wässern; 星, שלום 🌳",
        "description": "From 3 April to 24 April, best 10 April.\n"
        "Why: Cut roots take up no feed for about four weeks.",
        "start": "2027-04-03",
        "due": "2027-04-10",
        "status": "NEEDS-ACTION",
        "completed": None,
        "sequence": 99210,
        # seven in the morning two days before: one day and 17 hours before the day begins
        "alarms": [["-P1DT17H", "END"]],
    }
    assert (second["status"], second["completed"]) == ("COMPLETED", "2027-02-27T12:00:00Z")
    assert second["alarms"] == []
    todos = vobject.readOne(feed.decode()).contents["vtodo"]
    assert [(todo.due.value, todo.status.value) for todo in todos] == [
        (date(2027, 4, 10), "NEEDS-ACTION"),
        (date(2027, 5, 2), "COMPLETED"),
    ]
    assert todos[0].summary.value == first["summary"]
    assert todos[0].valarm.trigger.value == -timedelta(days=1, hours=17)
    assert all(todo.validate(raiseException=True) for todo in todos)


def test_ical_js_finds_the_calendar_and_its_links(build: Any) -> None:
    work = build.follow_up("hoshi")
    trees = {"hoshi": build.tree("hoshi", name="Hoshi; the first, of two", place="tunnel")}
    files, _ = build.made(
        [work], trees=trees, names={"tunnel": "tunnel, south end"}, base_url="https://yard.example"
    )
    found = read_by_ical_js(files["calendars/trees/hoshi.ics"])
    colour = found["properties"].pop("color")
    assert colour == build.calendar_values(files["calendars/trees/hoshi.ics"], "COLOR")[0]
    assert found["properties"] == {
        "version": "2.0",
        "prodid": "-//backbud//backbud//EN",
        "calscale": "GREGORIAN",
        "method": None,
        # ical.js does not know NAME, and gives the raw value of what it does not know.
        "name": "Hoshi\\; the first\\, of two",
        "description": "What falls due on Hoshi; the first, of two, trident maple.",
        "refresh-interval": "PT12H",
        "source": "https://yard.example/calendars/trees/hoshi.ics",
    }
    (event,) = found["events"]
    assert event["location"] == "tunnel, south end"
    assert event["transp"] == "TRANSPARENT"
    assert event["stamp"] == "2027-03-01T00:00:00Z"
    assert event["url"] == f"https://yard.example/trees/hoshi.html#{anchor_of(work.id)}"


def test_vobject_finds_nothing_against_its_own_rules(build: Any) -> None:
    calendar = vobject.readOne(build.feed([build.follow_up("hoshi")]).decode())
    assert calendar.validate(raiseException=True)
    assert calendar.vevent.dtstamp.value == datetime(2027, 3, 1, tzinfo=UTC)
