"""Which feeds there are, which work stands in each, and what an entry says."""

from __future__ import annotations

import subprocess
import sys
from datetime import date
from typing import Any

import pytest

from backbud.calendar.works import WORKS as WORK_TABLE
from backbud.pages.links import anchor_of
from backbud.species import CARE
from backbud_grammar.acts import ACTS, ROWS

WORKS = "roots branches wire deadwood feed water watch shelter health propagation business planning"


def test_the_full_set_of_feeds(build: Any) -> None:
    """The weeks; by tree, place, owner and kind of work, one by one; and all tasks, once."""
    trees = {
        "hoshi": build.tree("hoshi", place="bench", owner="marrow"),
        "yuki": build.tree("yuki", place="tunnel", owner="wrenfold"),
    }
    cards = {
        "inside": {"yard": frozenset({"yard", "bench"}), "bench": {"bench"}, "tunnel": {"tunnel"}},
        "first_handles": {"bench": "old-bench"},
        "persons": frozenset({"marrow", "wrenfold", "pell"}),
        "keeper": "wrenfold",
    }
    files, _ = build.made(
        [build.follow_up("hoshi"), build.follow_up("yuki")], trees=trees, cards=cards
    )
    events = [
        "all.ics",
        "trees/hoshi.ics",
        "trees/yuki.ics",
        "places/yard.ics",
        "places/old-bench.ics",
        "places/tunnel.ics",
        "own.ics",
        "owners/marrow.ics",
        *(f"works/{name}.ics" for name in WORKS.split()),
    ]
    assert list(files) == [f"calendars/{name}" for name in [*events, "tasks/all.ics"]]
    hoshi = "hoshi/maple-feed/repotted%202027-03-06@upper-yard"
    yuki = "yuki/maple-feed/repotted%202027-03-06@upper-yard"
    uids = {name: build.values(files[f"calendars/{name}"], "UID") for name in events}
    assert {name: found for name, found in uids.items() if found} == {
        # the week from 5 April 2027, the fourteenth (ISO 8601)
        "all.ics": [
            "must:fed/old-bench/2027-W14@upper-yard",
            "must:fed/tunnel/2027-W14@upper-yard",
        ],
        "trees/hoshi.ics": [hoshi],
        "trees/yuki.ics": [yuki],
        "places/yard.ics": [hoshi],
        "places/old-bench.ics": [hoshi],
        "places/tunnel.ics": [yuki],
        "own.ics": [yuki],
        "owners/marrow.ics": [hoshi],
        "works/feed.ics": [hoshi, yuki],
    }
    feed = files["calendars/tasks/all.ics"]
    assert build.values(feed, "UID", "VTODO") == [f"task:{hoshi}", f"task:{yuki}"]
    assert build.events(feed) == []


def test_every_act_of_the_language_is_of_one_kind_of_work() -> None:
    assert {act.work for act in ACTS} == set(WORKS.split())
    assert [work.name for work in WORK_TABLE] == WORKS.split()
    assert (ROWS["repotted"].work, ROWS["unwired"].work) == ("roots", "wire")


def test_an_act_that_names_no_kind_of_work_is_other_work(build: Any) -> None:
    files, _ = build.made([build.follow_up("hoshi", act="grafted-by-approach")])
    assert len(build.events(files["calendars/works/other.ics"])) == 1
    assert "calendars/works/other.ics" not in build.made([build.follow_up("hoshi")])[0]


def test_a_renamed_tree_keeps_its_feed(build: Any) -> None:
    renamed = build.tree("star", first_handle="hoshi", name="Star of the yard")
    files, _ = build.made([build.follow_up("star")], trees={"star": renamed})
    assert list(files)[:2] == ["calendars/all.ics", "calendars/trees/hoshi.ics"]
    feed = files["calendars/trees/hoshi.ics"]
    assert build.calendar_values(feed, "NAME") == ["Star of the yard"]


def test_no_feed_has_a_name_that_windows_keeps_for_a_device(build: Any) -> None:
    assert "calendars/trees/con_.ics" in build.made([build.follow_up("con")])[0]


@pytest.mark.parametrize("outcome", ["done", "skipped", "replaced", "lapsed"])
def test_only_what_is_open_is_shown(build: Any, outcome: str) -> None:
    by = build.done("2027-02-28")
    settled = build.follow_up("hoshi", outcome=outcome, settled=by)
    files, revisions = build.made([settled, build.follow_up("yuki", title="water")])
    assert build.values(files["calendars/own.ics"], "SUMMARY") == ["yuki: water"]
    assert build.values(files["calendars/tasks/all.ics"], "SUMMARY", "VTODO") == ["yuki: water"]
    assert build.events(files["calendars/trees/hoshi.ics"]) == []
    assert len(revisions) == 3  # the event, the task and the week


def test_what_is_settled_stays_where_the_settings_say_so(build: Any) -> None:
    by = build.done("2027-02-27")
    work = [
        build.follow_up("hoshi", id="hoshi/a", outcome="done", settled=by),
        build.follow_up("hoshi", id="hoshi/b", title="water", outcome="skipped", settled=by),
        build.follow_up("hoshi", id="hoshi/c", outcome="replaced"),
        build.follow_up("hoshi", id="hoshi/d", outcome="lapsed"),
    ]
    files, _ = build.made(work, settled="completed", alarm_days=(1,))
    done, skipped = build.events(files["calendars/own.ics"])
    assert {
        "SUMMARY:hoshi: done: feed",
        "DTSTART;VALUE=DATE:20270227",
        "DTEND;VALUE=DATE:20270228",
    } < set(done)
    assert not [line for line in done if line.startswith("STATUS")]
    assert {"SUMMARY:hoshi: water", "DTSTART;VALUE=DATE:20270410", "STATUS:CANCELLED"} < set(
        skipped
    )
    assert build.values(files["calendars/own.ics"], "DESCRIPTION")[0].startswith(
        "Done on 27 February 2027. From 3 April to 24 April\\, best 10 April.\\n"
    )
    done, skipped = build.events(files["calendars/tasks/all.ics"], "VTODO")
    assert {
        "SUMMARY:hoshi: feed",
        "DUE;VALUE=DATE:20270410",
        "STATUS:COMPLETED",
        "COMPLETED:20270227T120000Z",
        "PERCENT-COMPLETE:100",
    } < set(done)
    assert {"SUMMARY:hoshi: water", "STATUS:CANCELLED"} < set(skipped)
    # nothing rings for what is done with, and after a year it goes
    assert b"VALARM" not in b"".join(files.values())
    year = build.feed(work, settled="completed", today=date(2028, 2, 27))
    assert len(build.events(year)) == 2
    assert build.events(build.feed(work, settled="completed", today=date(2028, 2, 28))) == []


def test_overdue_work_stays_on_its_day_and_advice_ends_with_its_window(build: Any) -> None:
    days = ("2027-04-03", "2027-04-10", "2027-04-24")
    work = build.follow_up("hoshi", *days, id="hoshi/a", title="feed")
    advice = build.follow_up(
        "hoshi", *days, id="hoshi/b", title="shade", weight=CARE, given_word=False
    )
    on_last_day = build.feed([work, advice], today=date(2027, 4, 24))
    assert build.values(on_last_day, "SUMMARY") == ["hoshi: feed", "hoshi: shade"]
    after = build.feed([work, advice], today=date(2027, 4, 25))
    assert build.values(after, "SUMMARY") == ["hoshi: feed"]
    assert build.values(after, "DTSTART") == ["20270410"]


def test_entries_stand_by_day_then_uid_whatever_order_they_came_in(build: Any) -> None:
    late = build.follow_up("hoshi", "2027-05-01", "2027-05-02", "2027-05-03", id="hoshi/a")
    early_b = build.follow_up("hoshi", "2027-04-01", "2027-04-02", "2027-04-03", id="hoshi/b")
    early_c = build.follow_up("hoshi", "2027-03-01", "2027-04-02", "2027-04-09", id="hoshi/c")
    feed = build.feed([late, early_c, early_b])
    uids = build.values(feed, "UID")
    assert uids == ["hoshi/b@upper-yard", "hoshi/c@upper-yard", "hoshi/a@upper-yard"]
    assert build.feed([early_b, late, early_c]) == feed


def test_two_follow_ups_of_one_id_are_refused(build: Any) -> None:
    first = build.follow_up("hoshi", title="feed")
    assert len(build.events(build.feed([first, build.follow_up("hoshi", title="feed")]))) == 1
    with pytest.raises(ValueError, match="two different follow-ups have the id hoshi/maple-feed"):
        build.feed([first, build.follow_up("hoshi", title="water")])


def test_an_entry_whole(build: Any) -> None:
    follow_up = build.follow_up(
        "hoshi",
        "2027-04-17",
        "2027-05-01",
        "2027-05-15",
        id="hoshi/wire-check/wired 2027-03-20/left-2",
        act="checked",
        title="check wire on left 2",
        minutes=90,
        because=(
            build.reason("wired 3 mm Al on left 2", "diary/2027.txt:12"),
            build.reason("Wire bites in four to eight weeks of growth."),
        ),
        cautions=("Cut wire springs: guard your eyes.",),
    )
    hoshi = build.tree("hoshi", name="Hoshi", place="tunnel", owner="marrow")
    files, _ = build.made(
        [follow_up],
        trees={"hoshi": hoshi},
        base_url="https://yard.example/made/",
        names={"tunnel": "the long tunnel", "marrow": "Ada Marrow"},
    )
    (event,) = build.events(files["calendars/trees/hoshi.ics"])
    # 2027-03-01 is 9921 days after 2000-01-01: 27 years, of which 7 leap years, 31 and 28 days.
    assert sorted(event) == sorted(
        [
            "UID:hoshi/wire-check/wired%202027-03-20/left-2@upper-yard",
            "DTSTAMP:20270301T000000Z",
            "SEQUENCE:99210",
            "SUMMARY:Hoshi: check wire on left 2",
            "DTSTART;VALUE=DATE:20270501",
            "DTEND;VALUE=DATE:20270502",
            "CATEGORIES:checked",
            "TRANSP:TRANSPARENT",
            "LOCATION:the long tunnel",
            f"URL:https://yard.example/made/trees/hoshi.html#{anchor_of(follow_up.id)}",
            "DESCRIPTION:From 17 April to 15 May\\, best 1 May. About 1 h 30."
            "\\nCaution: Cut wire springs: guard your eyes."
            f"\\nhttps://yard.example/made/trees/hoshi.html#{anchor_of(follow_up.id)}",
        ]
    )


def test_a_task_whole(build: Any) -> None:
    work = build.follow_up(
        "hoshi", "2027-04-17", "2027-05-01", "2027-05-15", act="checked", minutes=5
    )
    files, _ = build.made([work], base_url="https://yard.example/")
    (task,) = build.events(files["calendars/tasks/all.ics"], "VTODO")
    assert sorted(task) == sorted(
        [
            "UID:task:hoshi/maple-feed/repotted%202027-03-06@upper-yard",
            "DTSTAMP:20270301T000000Z",
            "SEQUENCE:99210",
            "SUMMARY:hoshi: feed",
            "DTSTART;VALUE=DATE:20270417",
            "DUE;VALUE=DATE:20270501",
            "STATUS:NEEDS-ACTION",
            "CATEGORIES:checked",
            f"URL:https://yard.example/trees/hoshi.html#{anchor_of(work.id)}",
            "DESCRIPTION:From 17 April to 15 May\\, best 1 May. About 5 min."
            "\\nWhy: Cut roots take up no feed for about four weeks."
            f"\\nhttps://yard.example/trees/hoshi.html#{anchor_of(work.id)}",
        ]
    )
    in_window, _ = build.made([work], show="window")
    assert build.values(in_window["calendars/tasks/all.ics"], "DUE", "VTODO") == ["20270515"]


def test_a_task_of_one_day_has_no_beginning(build: Any) -> None:
    """RFC 5545 §3.8.2.3: a to-do is due later than it begins."""
    work = build.follow_up("hoshi", "2027-04-17", "2027-04-17", "2027-05-15")
    (task,) = build.events(build.made([work])[0]["calendars/tasks/all.ics"], "VTODO")
    assert "DUE;VALUE=DATE:20270417" in task
    assert not [line for line in task if line.startswith("DTSTART")]


# RFC 5545 §3.3.6: days, then T and hours; §3.6.6: an alarm's time counts from the entry's start.
# At 8 o'clock three days before is 2 days and 16 hours before the midnight a day begins with.
@pytest.mark.parametrize(
    ("settings", "event", "task"),
    [
        ({"alarm_days": ()}, [], []),
        ({"alarm_days": (3,)}, ["RELATED=START:-P2DT16H"], ["RELATED=END:-P2DT16H"]),
        (
            {"alarm_days": (7, 0), "alarm_hour": 0},
            ["RELATED=START:-P7D", "RELATED=START:PT0H"],
            ["RELATED=END:-P7D", "RELATED=END:PT0H"],
        ),
        (
            {"alarm_days": (0,), "alarm_hour": 18, "show": "window"},
            ["RELATED=START:PT18H"],
            ["RELATED=START:PT18H"],
        ),
    ],
)
def test_alarms(build: Any, settings: dict[str, Any], event: list[str], task: list[str]) -> None:
    files, _ = build.made([build.follow_up()], **settings)
    for path, expected in (("all.ics", event), ("tasks/all.ics", task)):
        lines = build.lines(files[f"calendars/{path}"])
        assert [line for line in lines if line.startswith("TRIGGER")] == [
            f"TRIGGER;{trigger}" for trigger in expected
        ]
        assert lines.count("ACTION:DISPLAY") == lines.count("BEGIN:VALARM") == len(expected)


@pytest.mark.parametrize(
    ("minutes", "said"),
    [
        (0, ""),
        (5, " About 5 min."),
        (60, " About 1 h."),
        (145, " About 2 h 25."),
    ],
)
def test_the_time_it_takes(build: Any, minutes: int, said: str) -> None:
    feed = build.feed([build.follow_up(minutes=minutes)])
    assert build.values(feed, "DESCRIPTION") == [
        f"From 3 April to 24 April\\, best 10 April.{said}"
        "\\nWhy: Cut roots take up no feed for about four weeks."
    ]


# The end is exclusive: the day after the last one (RFC 5545 §3.6.1, "non-inclusive end").
@pytest.mark.parametrize(
    ("days", "show", "start", "end", "said"),
    [
        (
            ("2027-02-20", "2027-02-28", "2027-03-05"),
            "best day",
            "20270228",
            "20270301",
            "From 20 February to 5 March\\, best 28 February.",
        ),
        (
            ("2027-02-20", "2027-02-28", "2027-03-05"),
            "window",
            "20270220",
            "20270306",
            "From 20 February to 5 March\\, best 28 February.",
        ),
        (
            ("2027-12-31", "2027-12-31", "2027-12-31"),
            "window",
            "20271231",
            "20280101",
            "On 31 December.",
        ),
        (
            ("2028-02-28", "2028-02-29", "2028-02-29"),
            "best day",
            "20280229",
            "20280301",
            "From 28 February to 29 February\\, best 29 February.",
        ),
        (
            ("2027-04-01", "2027-04-01", "9999-12-31"),
            "best day",
            "20270401",
            "20270402",
            "From 1 April on\\, best 1 April.",
        ),
        (
            ("2027-04-01", "2027-04-01", "9999-12-31"),
            "window",
            "20270401",
            "99991231",
            "From 1 April on\\, best 1 April.",
        ),
        (
            ("9999-12-31", "9999-12-31", "9999-12-31"),
            "best day",
            "99991230",
            "99991231",
            "On 31 December.",
        ),
    ],
)
def test_the_best_day_or_the_window(
    build: Any, days: tuple[str, ...], show: str, start: str, end: str, said: str
) -> None:
    files, _ = build.made([build.follow_up("hoshi", *days)], show=show)
    feed = files["calendars/trees/hoshi.ics"]
    assert build.values(feed, "DTSTART") == [start]
    assert build.values(feed, "DTEND") == [end]
    assert build.values(feed, "DESCRIPTION")[0].startswith(f"{said}\\n")


def test_without_a_base_url_nothing_has_a_url(build: Any) -> None:
    feed = build.feed([build.follow_up()])
    assert build.values(feed, "URL") == build.calendar_values(feed, "SOURCE") == []


def test_urls_of_handles_in_other_scripts_are_ascii(build: Any) -> None:
    work = build.follow_up("星")
    files, _ = build.made([work], base_url="https://yard.example")
    feed = files["calendars/trees/星.ics"]
    # UTF-8 of 星 (U+661F) is E6 98 9F; RFC 3986 §2.1 writes it so in a URI.
    assert build.values(feed, "URL") == [
        f"https://yard.example/trees/%E6%98%9F.html#{anchor_of(work.id)}"
    ]
    assert build.calendar_values(feed, "SOURCE") == [
        "https://yard.example/calendars/trees/%E6%98%9F.ics"
    ]


def test_an_owner_reads_of_nobody_else(build: Any) -> None:
    """Of others neither trees, persons, places named for them, files, nor the keeper's pages."""
    trees = {
        "hoshi": build.tree("hoshi", owner="marrow", place="pell-corner"),
        "ren": build.tree("ren", owner="marrow"),
        "yuki": build.tree("yuki", owner="pell", name="Snow of the south"),
        "aki": build.tree("aki"),
    }
    work = [
        build.follow_up(
            "hoshi",
            id="hoshi/a",
            act="moved",
            title="move out again, to pell-corner",
            because=(
                build.reason("2027-03-01: moved pell-corner.", "diary/pell.txt:4"),
                build.reason("2027-03-01: grafted, scion of yuki.", "diary/2027.txt:5"),
                build.reason("2027-03-02: repotted, as ren was.", "diary/pell.txt:6"),
                build.reason("Pell says nothing here: a rule's own words stay."),
            ),
        ),
        build.follow_up("yuki", id="yuki/a"),
        build.follow_up("aki", id="aki/a"),
    ]
    cards = {"persons": frozenset({"marrow", "pell", "wrenfold"}), "keeper": "wrenfold"}
    files, revisions = build.made(
        work,
        trees=trees,
        names={"marrow": "Ada Marrow", "pell": "Jo Pell", "pell-corner": "Jo's corner"},
        cards=cards,
        base_url="https://yard.example",
    )
    feed = files["calendars/owners/marrow.ics"]
    assert build.values(feed, "SUMMARY") == ["hoshi: move"]
    assert build.values(feed, "DESCRIPTION") == [
        "From 3 April to 24 April\\, best 10 April."
        "\\nWhy: Pell says nothing here: a rule's own words stay."
    ]
    assert build.values(feed, "LOCATION") == []
    found = feed.lower().replace(b"\r\n ", b"").replace(b"pell says nothing", b"")
    hidden = (b"yuki", b"aki", b"snow", b"pell", b"wrenfold", b".txt", b"yard.example")
    assert [name for name in hidden if name in found] == []
    assert b"Trees of Ada Marrow" in feed
    # the keeper reads all of it, under a revision of its own
    assert build.values(files["calendars/trees/hoshi.ics"], "SUMMARY") == [
        "hoshi: move out again\\, to pell-corner"
    ]
    assert {"hoshi/a@upper-yard", "hoshi/a@upper-yard marrow"} < set(revisions)


@pytest.mark.parametrize(
    "path", ["all.ics", "own.ics", "trees/hoshi.ics", "works/feed.ics", "tasks/all.ics"]
)
def test_other_feeds_do_not_say_who_owns_a_tree(build: Any, path: str) -> None:
    trees = {"hoshi": build.tree("hoshi", owner="marrow"), "yuki": build.tree("yuki")}
    files, _ = build.made(
        [build.follow_up("hoshi"), build.follow_up("yuki")],
        trees=trees,
        names={"marrow": "Ada Marrow"},
    )
    assert b"marrow" not in files[f"calendars/{path}"].lower()


def test_no_library_is_imported_to_write_feeds() -> None:
    code = "import sys, backbud.calendar.feeds; print('icalendar' in sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout == "False\n"


# --- UIDs ----------------------------------------------------------------------------------------


def test_uids_stay_on_rebuild_on_another_day_and_beside_other_work(build: Any) -> None:
    mine = build.follow_up("hoshi", id="hoshi/maple-feed/repotted 2027-03-06")
    expected = "hoshi/maple-feed/repotted%202027-03-06@upper-yard"
    before = build.follow_up("aki", "2027-02-01", "2027-02-02", "2027-02-03")
    moved = build.follow_up(
        "hoshi", "2028-01-01", "2028-01-02", "2028-01-03", title="feed half", minutes=5
    )
    assert build.values(build.feed([mine]), "UID") == [expected]
    assert build.values(build.feed([mine]), "UID") == [expected]
    assert build.values(build.feed([mine], today=date(2027, 5, 20)), "UID") == [expected]
    assert build.values(build.feed([before, mine]), "UID")[1] == expected
    later = build.feed([moved], show="window", today=date(2027, 12, 1))
    assert build.values(later, "UID") == [expected]


def test_uids_are_ascii_and_tell_apart_whatever_the_script(build: Any) -> None:
    ids = [
        "星/a",
        "ほし/a",
        "ほし/a%2F",
        "ほし/a,b",
        "ほし/a;b",
        "ほし/a b",
        "ほし/a%20b",
        "é/a",
        "e\u0301/a",
    ]
    feed = build.feed([build.follow_up("hoshi", id=id) for id in ids])
    uids = build.values(feed, "UID")
    assert len(set(uids)) == len(ids)
    assert "%E6%98%9F/a@upper-yard" in uids
    assert all(uid.isascii() and not set(uid) & set(' ,;\\"') for uid in uids)


def test_a_uid_is_never_longer_than_every_reader_must_keep(build: Any) -> None:
    # 255 octets: RFC 5545 §3.8.4.7. "@upper-yard" is 11 of them.
    fits, too_long, too_long_too = "a" * 244, "a" * 245, "a" * 246
    feed = build.feed([build.follow_up("hoshi", id=id) for id in (fits, too_long, too_long_too)])
    uids = build.values(feed, "UID")
    assert f"{fits}@upper-yard" in uids
    assert sorted(map(len, uids)) == [75, 75, 255]  # 64 of a digest
    assert all(uid.endswith("@upper-yard") for uid in uids)
    assert len(set(uids)) == 3
    assert build.values(build.feed([build.follow_up("hoshi", id=too_long)]), "UID")[0] in uids


# --- the same bytes ------------------------------------------------------------------------------


def test_a_clean_build_gives_the_same_bytes(build: Any) -> None:
    work = [build.follow_up("hoshi"), build.follow_up("yuki")]
    assert build.made(work) == build.made(work)


def test_only_two_properties_differ_from_a_clean_build(build: Any) -> None:
    work = [build.follow_up("hoshi"), build.follow_up("yuki")]
    _, remembered = build.made(work, today=date(2027, 2, 1))
    later = build.feed(work, today=date(2027, 3, 1), remembered=remembered)
    clean = build.feed(work, today=date(2027, 3, 1))
    differing = {line.split(":")[0] for line in set(build.lines(later)) ^ set(build.lines(clean))}
    assert differing == {"DTSTAMP", "SEQUENCE"}
