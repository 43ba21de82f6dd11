"""Feeds on a real CalDAV server: what stands there, and that nothing else is touched."""

from __future__ import annotations

import importlib.util
import os
import random
import shutil
from datetime import date
from pathlib import Path
from typing import Any

import pytest
import vobject

from backbud.subscribe.address import checked_address
from backbud.subscribe.errors import EntryRefused, SubscribeError
from backbud.subscribe.login import Login
from backbud.subscribe.publish import slug_of
from backbud.subscribe.server import Server

ALL, TASKS = "backbud-upper-yard-all", "backbud-upper-yard-tasks-all"
OWN = "backbud-upper-yard-own"
PRUNE = "yuki/planned/pruned-2027-03-06@upper-yard"
UNWIRE = "task:yuki/wire-off/wired-2027-03-06/left-2@upper-yard"
FOREIGN = """\
BEGIN:VCALENDAR\r
VERSION:2.0\r
PRODID:-//someone//else//EN\r
BEGIN:VEVENT\r
UID:{uid}\r
DTSTAMP:20270101T000000Z\r
DTSTART;VALUE=DATE:20270301\r
SUMMARY:the dentist\r
END:VEVENT\r
END:VCALENDAR\r
"""


def facts(entry: Any) -> dict[str, list[str]]:
    """All that an entry says, but for the order of its properties and the mark on the server."""
    return {name: sorted(str(one.value) for one in found) for name, found in entry.contents.items()
            if name not in ("valarm", "x-backbud-mark")}  # fmt: skip


def test_everything_is_read_back_by_a_client_that_did_not_write_it(yard: Any, client: Any) -> None:
    yard.settings("alarm_days = [3]\n")
    sent = yard.publish().sent
    assert client.calendars() == [ALL, TASKS]
    assert [one.name for one in sent] == ["A yard: All trees", "A yard: All trees, tasks"]
    for one, calendar, feed, sort in (
        (sent[0], ALL, "all", "vevent"),
        (sent[1], TASKS, "tasks/all", "vtodo"),
    ):
        there = client.read(calendar)
        assert one.written == len(there) > 10
        assert set(there) == yard.uids(feed)
        text = (yard.folder / f"made/calendars/{feed}.ics").read_bytes().decode()
        for entry in vobject.readOne(text).contents[sort]:
            found = there[entry.uid.value]
            assert facts(found) == facts(entry)
            assert found.valarm.trigger.value == entry.valarm.trigger.value
            assert "rrule" not in found.contents
    prune = client.read(TASKS)[f"task:{PRUNE}"]
    assert prune.due.value == date(2027, 3, 28)
    assert "as the buds say, or later; no more than a third" in prune.description.value
    names = {entry.summary.value.partition(": ")[0] for entry in client.read(TASKS).values()}
    assert names == {"hoshi", "yuki"}
    weeks = {entry.summary.value for entry in client.read(ALL).values()}
    assert "yuki: prune" in weeks


def test_a_third_client_reads_it_too(yard: Any, client: Any) -> None:
    """ical.js, in Node."""
    path = Path(__file__).parent.parent / "calendar" / "test_readers.py"
    spec = importlib.util.spec_from_file_location("readers", path)
    assert spec is not None and spec.loader is not None
    readers = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(readers)
    yard.publish()
    for name, text in client.entries(TASKS).items():
        (task,) = readers.read_by_ical_js(text.encode())["tasks"]
        theirs = vobject.readOne(text).vtodo
        assert task["uid"] == theirs.uid.value, name
        assert task["summary"] == theirs.summary.value
        assert task["description"] == theirs.description.value
        assert task["due"] == theirs.due.value.isoformat()
        assert task["status"] == "NEEDS-ACTION"


def test_every_text_goes_round(yard: Any, client: Any) -> None:
    """Long remarks of commas, semicolons, backslashes, emoji and right-to-left text, folded."""
    chance = random.Random(2027)
    pieces = ("\\", "\\n", ";", ",", ":", '"', " ", "é", "e\u0301", "星", "שלום", "\u200f", "🌳",
              "👩‍🌾", "🇯🇵", "x" * 74, "=", "%", "^n", "bud")  # fmt: skip
    remarks = [
        " ".join(f"a{''.join(chance.choices(pieces, k=chance.randint(1, 30)))}"[:90].split()) + "z"
        for _ in range(20)
    ]
    cards = yard.folder / "cards.txt"
    cards.write_text(
        cards.read_text()
        + "".join(f"\ntree tree-{n}\n  kind   wild pear\n" for n in range(len(remarks)))
    )
    yard.settings('publish = ["own"]\n')
    yard.write(
        "2027-03-07\n"
        + "".join(
            f"\ntree-{n}\n  planned     prune, to 2027-05 -- {remark}\n"
            for n, remark in enumerate(remarks)
        )
    )
    yard.publish()
    there = client.read(OWN)
    for n, remark in enumerate(remarks):
        entry = there[f"tree-{n}/planned/pruned-2027-03-07@upper-yard"]
        assert f" – {remark.rstrip('.')}." in entry.description.value
    # ours are folded at 75 octets (RFC 5545 §3.1); the server folds anew
    raw = (yard.folder / "made/calendars/own.ics").read_bytes()
    assert max(map(len, raw.split(b"\r\n"))) == 75


def test_a_second_time_nothing_is_written(yard: Any, client: Any) -> None:
    yard.publish()
    before = client.stamps(ALL) | client.stamps(TASKS)
    events, tasks = yard.publish().sent
    assert (events.written, events.removed, tasks.written, tasks.removed) == (0, 0, 0, 0)
    # nor when all that was remembered is lost
    shutil.rmtree(yard.folder / ".backbud")
    shutil.rmtree(yard.folder / "made")
    yard.publish(date(2027, 3, 21))
    assert client.stamps(ALL) | client.stamps(TASKS) == before


def test_only_what_changed_is_written_and_what_left_is_taken_out(yard: Any, client: Any) -> None:
    yard.settings('publish = ["own"]\n')
    yard.publish()
    before = client.stamps(OWN)
    yard.write("""\
        2027-03-20

        yuki
          put-off     prune, to 2027-05-01/2027-05-31
        hoshi
          unwired on apex
        """)
    (sent,) = yard.publish().sent
    assert sent.removed >= 1
    after = client.stamps(OWN)
    changed = {name for name in before.keys() & after.keys() if before[name] != after[name]}
    assert client.file_of(OWN, PRUNE) in changed
    assert len(changed) + len(after.keys() - before.keys()) == sent.written
    assert set(client.read(OWN)) == yard.uids("own")
    looks = [uid for uid in client.read(OWN) if uid.startswith("hoshi/wire-check/")]
    assert looks == ["hoshi/wire-check/wired-2027-02-27/left-1@upper-yard"]
    assert client.read(OWN)[PRUNE].dtstart.value.month == 5


def test_nothing_of_others_is_touched(yard: Any, client: Any) -> None:
    """Not in our calendars, not of another journal, not in other calendars."""
    yard.publish()
    client.ask("MKCALENDAR", "backbud-upper-yard-2-all/")
    client.ask("MKCALENDAR", "home/")
    theirs = {
        f"{ALL}/dentist.ics": "dentist@clinic.example",
        f"{ALL}/other.ics": "hoshi/planned/pruned-2027-03-06@lower-yard",
        "home/one.ics": "one@home.example",
        "backbud-upper-yard-2-all/two.ics": "yuki/planned/pruned-2027-03-06@upper-yard-2",
    }
    for path, uid in theirs.items():
        client.ask("PUT", path, FOREIGN.format(uid=uid))
    before = {path: client.ask("GET", path) for path in theirs}
    yard.write("2027-03-20\n\nyuki\n  skipped     prune\n")
    assert yard.publish().sent[0].removed == 1
    assert {path: client.ask("GET", path) for path in theirs} == before


def test_a_feed_that_is_no_longer_chosen_is_cleared(yard: Any, client: Any) -> None:
    yard.settings('publish = ["own", "works/watch", "places/bench"]\n')
    yard.publish()
    own, wire, bench = (
        f"backbud-upper-yard-{name}" for name in ("own", "works-watch", "places-bench")
    )
    assert client.calendars() == sorted([own, wire, bench])
    assert {uid.split("/")[1] for uid in client.read(wire)} >= {"wire-check"}
    client.ask("PUT", f"{own}/mine.ics", FOREIGN.format(uid="mine@home.example"))
    yard.settings('publish = ["places/bench"]\n')
    sent = yard.publish().sent
    assert sorted(one.name for one in sent if one.removed) == [
        "A yard: Own trees",
        "A yard: Watch",
    ]
    assert list(client.read(own)) == ["mine@home.example"]
    assert client.read(wire) == {}
    assert set(client.read(bench)) == yard.uids("places/bench")


def test_the_calendar_of_a_handle_in_another_script(yard: Any, client: Any) -> None:
    cards = yard.folder / "cards.txt"
    cards.write_text(cards.read_text() + "\ntree 星\n  kind  trident maple\n  place  bench\n")
    yard.write("2027-03-19\n\n星\n  wired       2 mm Al\n")
    yard.settings('publish = ["trees/星"]\n')
    yard.publish()
    (calendar,) = client.calendars()
    assert calendar == slug_of("trees/星", "upper-yard")
    assert calendar.isascii()
    assert set(client.read(calendar)) == yard.uids("trees/星") != set()
    assert yard.publish().sent[0].written == 0


def test_a_note_in_a_task_stays_and_is_no_change(yard: Any, client: Any) -> None:
    yard.publish()
    text = client.read(TASKS)[UNWIRE].description.value
    note = text.replace("\n", "\\n").replace(",", "\\,") + "\\n\\nuse the small cutter"
    client.change(TASKS, UNWIRE, DESCRIPTION=note, COMMENT="left of the knot")
    assert yard.publish().sent[1].written == 0
    # nor is it lost where the entry itself changes
    cards = yard.folder / "cards.txt"
    cards.write_text(cards.read_text().replace("tree yuki\n", "tree yuki\n  name      Snow\n"))
    assert yard.publish().sent[1].written > 0
    task = client.read(TASKS)[UNWIRE]
    assert task.summary.value == "Snow: unwire on left 2"
    assert task.description.value == f"{text}\n\nuse the small cutter"
    assert task.comment.value == "left of the knot"
    assert yard.publish().sent[1].written == 0


def test_a_revision_is_above_one_that_a_client_raised(yard: Any, client: Any) -> None:
    """RFC 5546 §2.1.5: else other clients would keep what was changed there."""
    yard.publish()
    client.change(TASKS, UNWIRE, SUMMARY="something else", SEQUENCE="400000")
    assert yard.publish().sent[1].written == 1
    task = client.read(TASKS)[UNWIRE]
    assert (task.summary.value, task.sequence.value) == ("yuki: unwire on left 2", "400001")


def test_a_task_that_was_begun_is_left_and_one_thrown_out_comes_back(
    yard: Any, client: Any
) -> None:
    yard.publish()
    client.change(TASKS, UNWIRE, STATUS="IN-PROCESS", PERCENT_COMPLETE="40")
    assert yard.publish().sent[1].written == 0
    client.ask("DELETE", f"{TASKS}/{client.file_of(TASKS, UNWIRE)}")
    assert yard.publish().sent[1].written == 1
    assert client.read(TASKS)[UNWIRE].status.value == "NEEDS-ACTION"


def test_what_is_settled_stays_as_done_where_the_settings_say_so(yard: Any, client: Any) -> None:
    yard.settings('settled = "completed"\npublish = ["own", "tasks/all"]\n')
    yard.publish()
    yard.write("2027-03-20\n\nyuki\n  unwired     on left 2\n  skipped     prune\n")
    yard.publish()
    tasks = client.read(TASKS)
    assert tasks[UNWIRE].status.value == "COMPLETED"
    assert tasks[UNWIRE].completed.value.date() == date(2027, 3, 20)
    assert tasks[f"task:{PRUNE}"].status.value == "CANCELLED"
    assert client.read(OWN)[PRUNE].status.value == "CANCELLED"
    assert yard.publish().sent[1].written == 0


def test_what_somebody_changes_at_the_same_moment_is_not_written_over(
    yard: Any, client: Any
) -> None:
    """By the entry's ETag (RFC 9110 §13.1.1)."""
    yard.publish()
    address = checked_address(client.url)
    server = Server(address, Login(client.user, client.environ["BACKBUD_CALDAV_PASSWORD"]))
    (tasks,) = (one for one in server.collections() if one.slug == TASKS)
    (read,) = (one for one in server.entries(tasks, "VTODO") if "left-2@" in one.data
               and "wire-off" in one.data)  # fmt: skip
    client.tick(TASKS, UNWIRE)
    assert server.put(tasks, read.url, read.data, read.etag) is False
    assert server.delete(tasks, read) is False
    assert client.read(TASKS)[UNWIRE].status.value == "COMPLETED"
    # and where nothing is to stand, nothing that stands there is written over
    assert server.put(tasks, read.url, read.data, None) is False
    server.close()


def test_an_address_of_another_server_is_not_spoken_to(yard: Any, client: Any) -> None:
    """Whatever named it: the password is for one server."""
    yard.publish()
    server = Server(
        checked_address(client.url), Login(client.user, client.environ["BACKBUD_CALDAV_PASSWORD"])
    )
    (tasks,) = (one for one in server.collections() if one.slug == TASKS)
    with pytest.raises(SubscribeError) as refused:
        server.put(tasks, "https://other.invalid/x.ics", "", None)
    assert str(refused.value) == (
        f"{client.url[:-1]} sends to another server, https://other.invalid. If that is right, name "
        "that one"
    )
    with pytest.raises(EntryRefused):  # an entry that is none
        server.put(tasks, f"{tasks.url}x.ics", "junk", None)
    server.close()


def test_what_fails_half_way_is_made_good_by_the_next_run(
    yard: Any, client: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    """One calendar fails in the midst of it, the other is written all the same."""
    put, puts = Server.put, list[str]()

    def failing(self: Server, collection: Any, url: str, *rest: Any) -> bool:
        puts.append(url)
        if collection.slug == ALL and len(puts) == 5:
            raise SubscribeError("out of paper")
        return put(self, collection, url, *rest)

    with monkeypatch.context() as patched:
        patched.setattr(Server, "put", failing)
        with pytest.raises(SubscribeError, match=r"^out of paper$"):
            yard.publish()
    assert len(client.read(ALL)) == 4
    assert set(client.read(TASKS)) == yard.uids("tasks/all")
    events, tasks = yard.publish().sent
    assert (events.kept, events.written, tasks.written) == (4, len(yard.uids("all")) - 4, 0)
    assert set(client.read(ALL)) == yard.uids("all")


def test_an_entry_that_the_server_does_not_take_holds_up_no_other(
    yard: Any, client: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    yard.settings('publish = ["own"]\n')
    put = Server.put

    def refusing(self: Server, collection: Any, url: str, data: str, etag: str | None) -> bool:
        if f"UID:{PRUNE}\r\n" in data:
            raise EntryRefused("too large")
        return put(self, collection, url, data, etag)

    with monkeypatch.context() as patched:
        patched.setattr(Server, "put", refusing)
        published = yard.publish()
    assert not published.is_whole
    assert (published.sent[0].kept, published.sent[0].refused) == (0, 1)
    assert "0 as they were, 1 not taken by the server." in "\n".join(published.lines())
    assert yard.uids("own") - set(client.read(OWN)) == {PRUNE}
    assert yard.publish().sent[0].written == 1


def test_a_ticked_task_waits_until_it_is_collected(yard: Any, client: Any) -> None:
    yard.publish()
    client.tick(TASKS, UNWIRE)
    stamps = client.stamps(TASKS)
    published = yard.publish()
    assert published.sent[1].waiting == 1
    assert list(published.lines())[-1] == (
        "1 task ticked off there and left alone: backbud collect brings them into the diary."
    )
    assert client.stamps(TASKS) == stamps


def test_the_password_is_in_no_file(yard: Any, client: Any) -> None:
    yard.publish()
    secret = client.environ["BACKBUD_CALDAV_PASSWORD"].encode()
    config = Path(os.environ["BACKBUD_CONFIG"])
    read = [
        path
        for folder in (yard.folder, config)
        for path in folder.rglob("*")
        if path.is_file()
        and (secret in path.read_bytes() or client.user.encode() in path.read_bytes())
    ]
    assert read == []
    servers = config / "servers"
    assert f"http://127.0.0.1:{yard.port()}\n" in servers.read_text()
    if os.name == "posix":
        assert servers.stat().st_mode & 0o777 == 0o600


@pytest.mark.parametrize(
    ("name", "slug"),
    [
        ("all", "backbud-upper-yard-all"),
        ("tasks/trees/old-nell", "backbud-upper-yard-tasks-trees-old-nell"),
    ],
)
def test_names_of_calendars(name: str, slug: str) -> None:
    assert slug_of(name, "upper-yard") == slug
