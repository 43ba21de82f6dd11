"""When an entry's SEQUENCE and DTSTAMP stay and rise, and that a subscriber misses no change."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from datetime import date, timedelta
from typing import Any

import pytest
import vobject
from hypothesis import given
from hypothesis import strategies as st

from backbud.calendar.revisions import (
    KnownRevisions,
    Revision,
    Revisions,
    published_revisions,
    read_revisions,
    write_revisions,
)

UID = "hoshi/maple-feed/repotted%202027-03-06@upper-yard"
FIRST_DAY = date(2027, 3, 1)
FIRST_SEQUENCE = 99210  # 9921 days after 2000-01-01 (27 years, 7 of them leap, 31 + 28), times ten


def revision_in(build: Any, feed: bytes) -> tuple[list[str], list[str]]:
    return build.values(feed, "SEQUENCE"), build.values(feed, "DTSTAMP")


def test_an_entry_that_is_the_same_keeps_its_revision(build: Any) -> None:
    _, remembered = build.made([build.follow_up()], today=FIRST_DAY)
    files, again = build.made([build.follow_up()], today=date(2027, 5, 20), remembered=remembered)
    first = (["99210"], ["20270301T000000Z"])
    assert revision_in(build, files["calendars/own.ics"]) == first
    for uid in (UID, f"task:{UID}"):
        assert again[uid] == remembered[uid]


def test_an_entry_that_changed_rises(build: Any) -> None:
    _, remembered = build.made([build.follow_up()], today=FIRST_DAY)
    changed = build.follow_up(title="feed at half strength")
    feed, same_day = build.made([changed], today=FIRST_DAY, remembered=remembered)
    assert revision_in(build, feed["calendars/own.ics"])[0] == ["99211"]
    assert same_day[UID].stamp == FIRST_DAY
    # back again is a change too
    _, back = build.made([build.follow_up()], today=FIRST_DAY, remembered=same_day)
    assert back[UID].sequence == 99212
    # ten days on the floor is higher: 9931 days
    feed, _ = build.made([changed], today=date(2027, 3, 11), remembered=back)
    assert revision_in(build, feed["calendars/own.ics"]) == (
        ["99310"],
        ["20270311T000000Z"],
    )


@pytest.mark.parametrize(
    "changes",
    [
        {"title": "water"},
        {"act": "watered"},
        {"minutes": 5},
        {"cautions": ("Heavy.",)},
        {"because": ()},
    ],
)
def test_whatever_an_entry_shows_counts(build: Any, changes: dict[str, Any]) -> None:
    _, remembered = build.made([build.follow_up()])
    _, after = build.made([build.follow_up(**changes)], remembered=remembered)
    assert after[UID].sequence == FIRST_SEQUENCE + 1


@pytest.mark.parametrize(
    "days",
    [
        ("2027-04-04", "2027-04-10", "2027-04-24"),
        ("2027-04-03", "2027-04-11", "2027-04-24"),
        ("2027-04-03", "2027-04-10", "2027-04-25"),
    ],
)
def test_each_end_of_the_window_counts(build: Any, days: tuple[str, ...]) -> None:
    _, remembered = build.made([build.follow_up()])
    _, after = build.made([build.follow_up("hoshi", *days)], remembered=remembered)
    assert after[UID].sequence == FIRST_SEQUENCE + 1


def test_another_name_or_place_of_the_tree_counts_and_what_is_not_shown_does_not(
    build: Any,
) -> None:
    def made(remembered: Revisions | None = None, **known: Any) -> int:
        _, revisions = build.made(
            [build.follow_up(planned="settled_by" in known)],
            trees={"hoshi": build.tree("hoshi", **known)},
            remembered=remembered,
        )
        kept.update(revisions)
        return int(revisions[UID].sequence)

    kept: dict[str, Revision] = {}
    assert made() == FIRST_SEQUENCE
    assert made(dict(kept), name="Hoshi") == FIRST_SEQUENCE + 1
    assert made(dict(kept), name="Hoshi", place="tunnel") == FIRST_SEQUENCE + 2
    assert made(dict(kept), name="Hoshi", place="tunnel", strength="weak") == FIRST_SEQUENCE + 2


def test_one_entry_has_one_revision_in_all_its_feeds(build: Any) -> None:
    _, remembered = build.made([build.follow_up()])
    files, _ = build.made([build.follow_up(title="water")], remembered=remembered)
    shown = ("all", "own", "trees/hoshi", "works/feed")
    feeds = [files[f"calendars/{name}.ics"] for name in shown]
    assert [build.values(feed, "SEQUENCE") for feed in feeds] == [["99211"]] * 4


def test_work_beside_it_changes_nothing(build: Any) -> None:
    _, remembered = build.made([build.follow_up("yuki")], today=FIRST_DAY)
    _, after = build.made(
        [build.follow_up("aki"), build.follow_up("yuki")],
        today=date(2027, 3, 2),
        remembered=remembered,
    )
    # The event and the task stay as they are; their week has another tree now.
    week = "must:fed//2027-W14@upper-yard"
    assert len(remembered) == 3
    assert {uid for uid in remembered if after[uid] != remembered[uid]} == {week}
    assert after[week].sequence == FIRST_SEQUENCE + 10  # of the next day


def test_a_day_before_the_epoch_gives_no_negative_sequence(build: Any) -> None:
    """RFC 5545 §3.8.7.4: a component's sequence number begins at 0."""
    assert build.made([build.follow_up()], today=date(1990, 1, 1))[1][UID].sequence == 0


def test_what_is_gone_is_remembered_while_it_matters(build: Any) -> None:
    _, remembered = build.made([build.follow_up()], today=FIRST_DAY)
    _, gone = build.made([], today=FIRST_DAY, remembered=remembered)
    assert gone == remembered
    # from the next day on, a new entry would rank higher anyway
    assert build.made([], today=date(2027, 3, 2), remembered=remembered)[1] == {}


# --- how it is remembered ------------------------------------------------------------------------


REVISIONS = {
    "b": Revision("00ff", 99210, date(2027, 3, 1)),
    "a": Revision("ff00", 0, date(1999, 12, 31)),
}


def test_revisions_come_back_and_are_written_in_one_order() -> None:
    written = write_revisions(REVISIONS)
    assert read_revisions(written) == REVISIONS
    assert written == write_revisions(dict(reversed(REVISIONS.items())))
    assert read_revisions(write_revisions({})) == {}


def test_what_a_process_wrote_it_need_not_read() -> None:
    known = KnownRevisions()
    assert known.read(b"") == {} and known.written({}) == write_revisions({})
    written = known.written(REVISIONS)
    assert written == write_revisions(REVISIONS)
    # The very same, not only equal ones.
    assert known.read(bytes(bytearray(written))) is REVISIONS
    again = dict(REVISIONS)
    assert known.written(again) is written and known.read(written) is again
    later = {**REVISIONS, "a": Revision("ff01", 1, date(2027, 3, 1))}
    assert read_revisions(known.written(later)) == later


def test_what_somebody_else_wrote_is_read_again() -> None:
    known = KnownRevisions()
    known.written(REVISIONS)
    other = {"c": Revision("00", 1, date(2027, 3, 1))}
    assert known.read(write_revisions(other)) == other
    assert known.read(write_revisions(REVISIONS)[:-9]) == {}
    assert known.written({}) == write_revisions({})
    assert known.read(write_revisions(REVISIONS)) == REVISIONS


def test_torn_bytes_give_nothing() -> None:
    written = write_revisions(REVISIONS)
    assert [n for n in range(len(written)) if read_revisions(written[:n]) != {}] == []


@pytest.mark.parametrize(
    "foreign",
    [
        b"",
        b"\xff\xfe",
        b"null",
        b"[]",
        b"1",
        b'{"a": 1}',
        b'{"a": {"digest": "x"}}',
        b'{"a": {"digest": "x", "sequence": -1, "stamp": "2027-03-01"}}',
        b'{"a": {"digest": "x", "sequence": 2147483648, "stamp": "2027-03-01"}}',
        b'{"a": {"digest": "x", "sequence": 1, "stamp": "2027-02-30"}}',
        b'{"\xff": {"digest": "x", "sequence": 1, "stamp": "2027-03-01"}}',
        b"[" * 100_000,
    ],
)
def test_foreign_bytes_give_nothing(foreign: bytes) -> None:
    assert read_revisions(foreign) == {}
    assert published_revisions(foreign) == {}


@given(st.binary())
def test_no_bytes_raise(foreign: bytes) -> None:
    assert read_revisions(foreign) == {}
    assert published_revisions(b"BEGIN:VEVENT\r\n" + foreign) == {}


def test_a_published_feed_tells_the_revisions(build: Any) -> None:
    nasty = "BEGIN:VEVENT, SEQUENCE:7 " * 20
    work = [
        build.follow_up("hoshi", title=nasty, because=(build.reason(nasty),)),
        build.follow_up("yuki", id="星" * 22, title="שלום, 🌳; " * 30),  # its UID is folded
    ]
    url = "https://yard.example"
    _, first = build.made(work, today=date(2027, 2, 1), base_url=url)
    work.append(build.follow_up("aki"))
    files, revisions = build.made(work, remembered=first, base_url=url)
    # The events and tasks of two trees are the same; of the third, and their week, they are new.
    assert sorted(r.sequence for r in revisions.values()) == [98930] * 4 + [99210] * 3
    events = published_revisions(files["calendars/own.ics"])
    assert len(events) == 3
    weeks = published_revisions(files["calendars/all.ics"])
    assert list(weeks) == ["must:fed//2027-W14@upper-yard"]
    assert events | weeks | published_revisions(files["calendars/tasks/all.ics"]) == revisions
    torn = files["calendars/own.ics"][:-40]
    assert len(published_revisions(torn)) == 2
    # Older versions said the day twice; what they published is still known.
    older = re.sub(rb"DTSTAMP:(\S+)\r\n", rb"\g<0>LAST-MODIFIED:\1\r\n", files["calendars/own.ics"])
    assert older.count(b"LAST-MODIFIED:") == 3
    assert published_revisions(older) == events


# --- a subscriber --------------------------------------------------------------------------------


class Subscriber:
    """A calendar that reads a feed with a parser of its own and obeys RFC 5546 §2.1.5: of one UID
    the highest SEQUENCE counts, of one SEQUENCE the latest DTSTAMP; else what it has stays."""

    def __init__(self) -> None:
        self.taken: dict[str, tuple[tuple[int, Any], Any]] = {}
        self.seen: dict[str, Any] = {}

    def fetch(self, feed: bytes) -> dict[str, Any]:
        """Return what it shows; `seen` is then what the feed says."""
        self.seen = {}
        for event in vobject.readOne(feed.decode()).contents.get("vevent", []):
            uid, rank = event.uid.value, (int(event.sequence.value), event.dtstamp.value)
            content = (
                event.summary.value,
                event.description.value,
                event.dtstart.value,
                event.dtend.value,
            )
            self.seen[uid] = content
            if uid not in self.taken or rank > self.taken[uid][0]:
                self.taken[uid] = (rank, content)
        return {uid: self.taken[uid][1] for uid in self.seen}


def edits(
    build: Any, chance: random.Random, count: int, *, going: bool = True
) -> Iterator[list[Any]]:
    """A journal's follow-ups after each of so many random edits: new, changed, and, with `going`,
    gone and back again."""
    present: dict[str, Any] = {}
    for number in range(count):
        name = chance.choice(("hoshi", "yuki", "aki", "ren"))
        if going and name in present and chance.random() < 0.25:
            del present[name]
        else:
            best = chance.randint(2, 20)
            present[name] = build.follow_up(
                name,
                "2027-04-01",
                f"2027-04-{best:02}",
                "2027-04-20",
                title=chance.choice(("feed", "water", "check wire", f"edit {number}")),
            )
        yield list(present.values())


SEEDS = [0, *(pytest.param(seed, marks=pytest.mark.long) for seed in (1, 2))]


@pytest.mark.parametrize("seed", SEEDS)
def test_a_subscriber_is_always_current(build: Any, seed: int) -> None:
    chance, subscriber, today = random.Random(seed), Subscriber(), FIRST_DAY
    remembered: Revisions = {}
    for work in edits(build, chance, 300):
        today += timedelta(days=chance.choice((0, 0, 0, 0, 0, 0, 0, 0, 1, 40)))
        feed, remembered = build.made(work, today=today, remembered=remembered)
        remembered = read_revisions(write_revisions(remembered))
        assert subscriber.fetch(feed["calendars/own.ics"]) == subscriber.seen
        assert len(subscriber.seen) == len(work)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_subscriber_is_current_after_a_loss_of_all_that_was_remembered(
    build: Any, seed: int
) -> None:
    """All is forgotten at the end of every second day, with up to ten changes in each."""
    chance, subscriber, today = random.Random(seed), Subscriber(), FIRST_DAY
    remembered: Revisions = {}
    for number, work in enumerate(edits(build, chance, 300)):
        if number % 10 == 0:
            today += timedelta(days=1)
            remembered = {} if number % 20 == 0 else remembered
        feed, remembered = build.made(work, today=today, remembered=remembered)
        assert subscriber.fetch(feed["calendars/own.ics"]) == subscriber.seen


@pytest.mark.parametrize("seed", SEEDS)
def test_a_subscriber_is_current_where_the_published_feed_is_left(build: Any, seed: int) -> None:
    """What was remembered is lost at any time, on any day, and read from the last feed again.

    A feed does not tell of work that has gone from it, so none goes here.
    """
    chance, subscriber, today = random.Random(seed), Subscriber(), FIRST_DAY
    remembered: Revisions = {}
    for work in edits(build, chance, 300, going=False):
        today += timedelta(days=chance.choice((0,) * 30 + (1,)))
        feed, remembered = build.made(work, today=today, remembered=remembered)
        if chance.random() < 0.3:
            remembered = published_revisions(feed["calendars/own.ics"])
        assert subscriber.fetch(feed["calendars/own.ics"]) == subscriber.seen


def test_the_limit_of_a_lost_memory(build: Any) -> None:
    """Lost on the day of a change, a second change looks like the first; the feed tells."""
    files, _ = build.made([build.follow_up(title="feed")])
    changed = [build.follow_up(title="water")]
    assert build.made(changed)[1][UID].sequence == FIRST_SEQUENCE
    published = published_revisions(files["calendars/own.ics"])
    assert build.made(changed, remembered=published)[1][UID].sequence == FIRST_SEQUENCE + 1
