"""Which feeds there are, which work stands in each, and what an entry says."""

from __future__ import annotations

import subprocess
import sys
from datetime import date
from typing import Any

import pytest

from backbud.pages.links import anchor_of


def test_one_feed_of_everything_and_one_of_each_tree(build: Any) -> None:
    files, _ = build.made([build.follow_up("hoshi"), build.follow_up("yuki")])
    assert list(files) == [
        "calendars/all.ics",
        "calendars/trees/hoshi.ics",
        "calendars/trees/yuki.ics",
    ]
    uids = {path: build.values(feed, "UID") for path, feed in files.items()}
    hoshi = "hoshi/maple-feed/repotted%202027-03-06@upper-yard"
    yuki = "yuki/maple-feed/repotted%202027-03-06@upper-yard"
    assert list(uids.values()) == [[hoshi, yuki], [hoshi], [yuki]]


def test_a_renamed_tree_keeps_its_feed(build: Any) -> None:
    renamed = build.tree("star", first_handle="hoshi", name="Star of the yard")
    files, _ = build.made([build.follow_up("star")], trees={"star": renamed})
    assert list(files) == ["calendars/all.ics", "calendars/trees/hoshi.ics"]
    feed = files["calendars/trees/hoshi.ics"]
    assert build.calendar_values(feed, "NAME") == ["Star of the yard"]


def test_no_feed_has_a_name_that_windows_keeps_for_a_device(build: Any) -> None:
    assert "calendars/trees/con_.ics" in build.made([build.follow_up("con")])[0]


@pytest.mark.parametrize("outcome", ["done", "skipped", "replaced", "lapsed"])
def test_only_what_is_open_is_shown(build: Any, outcome: str) -> None:
    settled = build.follow_up("hoshi", outcome=outcome)
    files, revisions = build.made([settled, build.follow_up("yuki", title="water")])
    assert build.values(files["calendars/all.ics"], "SUMMARY") == ["water: yuki"]
    assert build.events(files["calendars/trees/hoshi.ics"]) == []
    assert len(revisions) == 1


def test_overdue_work_stays_on_its_day_and_advice_ends_with_its_window(build: Any) -> None:
    days = ("2027-04-03", "2027-04-10", "2027-04-24")
    work = build.follow_up("hoshi", *days, id="hoshi/a", title="feed")
    advice = build.follow_up("hoshi", *days, id="hoshi/b", title="shade", lapses=True)
    on_last_day = build.feed([work, advice], today=date(2027, 4, 24))
    assert build.values(on_last_day, "SUMMARY") == ["feed: hoshi", "shade: hoshi"]
    after = build.feed([work, advice], today=date(2027, 4, 25))
    assert build.values(after, "SUMMARY") == ["feed: hoshi"]
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
    (event,) = build.events(
        build.feed(
            [follow_up],
            trees={"hoshi": hoshi},
            base_url="https://yard.example/made/",
            names={"tunnel": "the long tunnel", "marrow": "Ada Marrow"},
        )
    )
    # 2027-03-01 is 9921 days after 2000-01-01: 27 years, of which 7 leap years, 31 and 28 days.
    assert sorted(event) == sorted(
        [
            "UID:hoshi/wire-check/wired%202027-03-20/left-2@upper-yard",
            "DTSTAMP:20270301T000000Z",
            "LAST-MODIFIED:20270301T000000Z",
            "SEQUENCE:99210",
            "SUMMARY:check wire on left 2: Hoshi",
            "DTSTART;VALUE=DATE:20270501",
            "DTEND;VALUE=DATE:20270502",
            "CATEGORIES:checked",
            "TRANSP:TRANSPARENT",
            "LOCATION:the long tunnel",
            f"URL:https://yard.example/made/trees/hoshi.html#{anchor_of(follow_up.id)}",
            "DESCRIPTION:From 2027-04-17 to 2027-05-15\\, best on 2027-05-01.\\nAbout 1 h 30 min."
            "\\n\\nCaution: Cut wire springs: guard your eyes."
            "\\n\\nWhy:\\n- wired 3 mm Al on left 2 (diary/2027.txt:12)"
            "\\n- Wire bites in four to eight weeks of growth.",
        ]
    )


@pytest.mark.parametrize(
    ("minutes", "said"),
    [
        (0, ""),
        (5, "\\nAbout 5 min."),
        (60, "\\nAbout 1 h."),
        (145, "\\nAbout 2 h 25 min."),
    ],
)
def test_the_time_it_takes(build: Any, minutes: int, said: str) -> None:
    feed = build.feed([build.follow_up(minutes=minutes)])
    assert build.values(feed, "DESCRIPTION") == [
        f"From 2027-04-03 to 2027-04-24\\, best on 2027-04-10.{said}\\n\\nWhy:"
        "\\n- Cut roots take up no feed for about four weeks."
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
            "From 2027-02-20 to 2027-03-05\\, best on 2027-02-28.",
        ),
        (
            ("2027-02-20", "2027-02-28", "2027-03-05"),
            "window",
            "20270220",
            "20270306",
            "From 2027-02-20 to 2027-03-05\\, best on 2027-02-28.",
        ),
        (
            ("2027-12-31", "2027-12-31", "2027-12-31"),
            "window",
            "20271231",
            "20280101",
            "On 2027-12-31.",
        ),
        (
            ("2028-02-28", "2028-02-29", "2028-02-29"),
            "best day",
            "20280229",
            "20280301",
            "From 2028-02-28 to 2028-02-29\\, best on 2028-02-29.",
        ),
        (
            ("2027-04-01", "2027-04-01", "9999-12-31"),
            "best day",
            "20270401",
            "20270402",
            "From 2027-04-01 on\\, best on 2027-04-01.",
        ),
        (
            ("2027-04-01", "2027-04-01", "9999-12-31"),
            "window",
            "20270401",
            "99991231",
            "From 2027-04-01 on\\, best on 2027-04-01.",
        ),
        (
            ("9999-12-31", "9999-12-31", "9999-12-31"),
            "best day",
            "99991230",
            "99991231",
            "On 9999-12-31.",
        ),
    ],
)
def test_the_best_day_or_the_window(
    build: Any, days: tuple[str, ...], show: str, start: str, end: str, said: str
) -> None:
    feed = build.feed([build.follow_up("hoshi", *days)], show=show)
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


def test_nobody_who_owns_a_tree_is_named(build: Any) -> None:
    trees = {"hoshi": build.tree("hoshi", owner="marrow"), "yuki": build.tree("yuki", owner="pell")}
    files, _ = build.made(
        [build.follow_up("hoshi"), build.follow_up("yuki")],
        trees=trees,
        names={"marrow": "Ada Marrow", "pell": "Jo Pell"},
    )
    found = b"".join(files.values()).lower()
    assert b"hoshi" in found
    assert not [name for name in (b"marrow", b"pell") if name in found]


def test_icalendar_is_not_imported_before_a_feed_is_written() -> None:
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
    assert build.values(build.feed([mine], today=date(2031, 12, 31)), "UID") == [expected]
    assert build.values(build.feed([before, mine]), "UID")[1] == expected
    assert build.values(build.feed([moved], show="window"), "UID") == [expected]


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
    assert sorted(map(len, uids)) == [64, 64, 255]
    assert len(set(uids)) == 3
    assert build.values(build.feed([build.follow_up("hoshi", id=too_long)]), "UID")[0] in uids


# --- the same bytes ------------------------------------------------------------------------------


def test_a_clean_build_gives_the_same_bytes(build: Any) -> None:
    work = [build.follow_up("hoshi"), build.follow_up("yuki")]
    assert build.made(work) == build.made(work)


def test_only_three_properties_differ_from_a_clean_build(build: Any) -> None:
    work = [build.follow_up("hoshi"), build.follow_up("yuki")]
    _, remembered = build.made(work, today=date(2027, 2, 1))
    later = build.feed(work, today=date(2027, 3, 1), remembered=remembered)
    clean = build.feed(work, today=date(2027, 3, 1))
    differing = {line.split(":")[0] for line in set(build.lines(later)) ^ set(build.lines(clean))}
    assert differing == {"DTSTAMP", "LAST-MODIFIED", "SEQUENCE"}
