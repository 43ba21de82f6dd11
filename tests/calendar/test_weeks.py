"""The keeper's weeks: what stands alone, what stands together, and how much a week may hold."""

from __future__ import annotations

import re
import shutil
from collections import Counter
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from generate import generate
from icalendar import Calendar
from tests.calendar.test_readers import read_by_ical_js

from backbud.make import make
from backbud.species import CARE, PRESSING, PROTECTION

ROOT = Path(__file__).parents[2]
TODAY = date(2027, 3, 1)  # a Monday, of the ninth week (ISO 8601)


def said(feed: bytes) -> list[tuple[str, str, str]]:
    """Day, title and place of each entry, read by a library that did not write them."""
    return [
        (str(one["DTSTART"].dt), str(one["SUMMARY"]), str(one.get("LOCATION", "")))
        for one in Calendar.from_ical(feed).walk("VEVENT")
    ]


def unwire(build: Any, tree: str, *days: str, part: str = "left 1", **known: Any) -> Any:
    ident = f"{tree}/wire-off/wired-2026-10-31/{part.replace(' ', '-')}"
    known = {"act": "unwired", "title": f"unwire on {part}", "id": ident, **known}
    return build.follow_up(tree, *days, **known)


LONG = ("2027-05-01", "2027-07-10", "2027-10-30")


def at(build: Any, **places: str) -> dict[str, Any]:
    return {name: build.tree(name, place=place) for name, place in places.items()}


def test_a_shelter_for_the_winter_is_asked_for_now_and_not_in_its_last_week(build: Any) -> None:
    """Best on 17 November, and today is 1 March: it goes on at once, and stays until 29 March. A
    shelter for a few nights goes by the usual rule."""
    trees = at(build, gale="bench", crow="bench")
    known = {"act": "protected", "title": "protect against winter frost"}
    winter = ("2026-11-01", "2026-11-17", "2027-03-29")
    late = ("2027-02-20", "2027-02-25", "2027-03-25")
    work = [
        build.follow_up("gale", *winter, id="gale/winter-frost/2026", **known),
        build.follow_up("crow", *late, id="crow/late-frost/2027", **known),
    ]
    feed = build.weeks(work, trees=trees, names={"bench": "the long bench"})
    (gale,) = (n for n, one in enumerate(said(feed)) if "gale" in one[1])
    assert said(feed)[gale][0] == "2027-03-01"
    assert build.values(feed, "DESCRIPTION")[gale].startswith("Stays on until 29 March.")
    assert any(one[0] == "2027-03-22" and "crow" in one[1] for one in said(feed))
    # A phone shows it on each day of the week, until Sunday; on Sunday still the same.
    for today in (TODAY, date(2027, 3, 7)):
        feed = build.weeks(work, trees=trees, today=today)
        (event,) = (one for one in read_by_ical_js(feed)["events"] if "gale" in one["summary"])
        assert (event["start"], event["end"]) == ("2027-03-01", "2027-03-08")


def test_musts_of_one_work_week_and_place_are_one_entry(build: Any) -> None:
    trees = at(build, gale="bench", crow="bench", heron="bench", smoke="tunnel")
    work = [
        unwire(build, "gale", *LONG),
        unwire(build, "gale", *LONG, part="apex"),
        unwire(build, "crow", "2027-05-01", "2027-07-07", "2027-08-30"),
        unwire(build, "heron", "2027-05-01", "2027-07-12", "2027-10-30"),  # the Monday after
        unwire(build, "smoke", *LONG),
    ]
    feed = build.weeks(work, trees=trees, names={"bench": "the long bench"})
    assert said(feed) == [
        ("2027-07-07", "unwire 2: crow, gale", "the long bench"),
        ("2027-07-10", "smoke: unwire on left 1", "tunnel"),
        ("2027-07-12", "heron: unwire on left 1", "the long bench"),
    ]
    assert build.values(feed, "UID") == [
        "must:unwired/bench/2027-W27@upper-yard",
        "must:unwired/tunnel/2027-W27@upper-yard",
        "must:unwired/bench/2027-W28@upper-yard",
    ]
    assert build.values(feed, "DESCRIPTION")[0] == "The first by 30 August.\\ncrow\\, gale."
    # the same days, as a reader of another house finds them
    found = read_by_ical_js(feed)["events"]
    assert [(one["start"], one["days"], one["location"]) for one in found] == [
        ("2027-07-07", 1, "the long bench"),
        ("2027-07-10", 1, "tunnel"),
        ("2027-07-12", 1, "the long bench"),
    ]


def test_what_scars_within_days_or_has_a_named_day_stands_alone(build: Any) -> None:
    work = [
        unwire(build, "gale", "2027-04-10", "2027-04-12", "2027-04-22"),  # ten days after its best
        unwire(build, "crow", "2027-04-10", "2027-04-12", "2027-04-23"),  # eleven
        build.follow_up(
            "heron", *["2027-04-14"] * 3, id="heron/planned/shown-2027-01-02", act="shown",
            title="show", planned=True,
        ),
        build.follow_up(
            "smoke", "2027-04-13", "2027-04-14", "2027-04-14", id="smoke/planned/shown-2027-01-03",
            act="shown", title="show", planned=True,
        ),
    ]  # fmt: skip
    feed = build.weeks(work)
    assert dict(zip(build.values(feed, "UID"), build.values(feed, "SUMMARY"), strict=True)) == {
        "gale/wire-off/wired-2026-10-31/left-1@upper-yard": "gale: unwire on left 1",
        "must:unwired//2027-W15@upper-yard": "crow: unwire on left 1",
        "heron/planned/shown-2027-01-02@upper-yard": "heron: show",
        "must:shown//2027-W15@upper-yard": "smoke: show",
    }


@pytest.mark.parametrize(
    ("settled_by", "uid"),
    [
        (("checked wire", "unwired"), "gale/check/1@upper-yard"),
        # a look at what does not bite scars nothing where it is left out
        (("checked moss",), "must:checked%20moss//2027-W15@upper-yard"),
    ],
)
def test_a_look_stands_alone_where_it_is_at_what_bites(
    build: Any, settled_by: tuple[str, ...], uid: str
) -> None:
    days = ("2027-04-10", "2027-04-12", "2027-04-20")
    work = build.follow_up(
        "gale", *days, id="gale/check/1", act="checked", title="check", settled_by=settled_by
    )
    assert build.values(build.weeks([work]), "UID") == [uid]


def pests(build: Any, tree: str, *days: str, **known: Any) -> Any:
    """A look that is of use on its days alone."""
    return build.follow_up(
        tree, *days, id=f"{tree}/pests/2027", act="checked", title="check for pests",
        **{"settled_by": ("checked pests",), "weight": CARE, "given_word": False, **known},
    )  # fmt: skip


# Best on Mondays: 10 May, and one, two and three weeks after it.
OPEN = {n: ("2027-05-01", f"2027-05-{10 + 7 * n}", "2027-06-20") for n in (0, 1, 2, 3)}


def weeks_of_looks(build: Any, work: list[Any], today: date = TODAY) -> dict[str, str]:
    """By the Monday of each entry, what it says."""
    places = {one.tree: "tunnel" if one.tree == "smoke" else "bench" for one in work}
    return {day: title for day, title, _ in said(build.weeks(work, trees=at(build, **places),
                                                             today=today))}  # fmt: skip


@pytest.mark.parametrize(
    ("others", "entries"),
    [
        # A week and two weeks apart are one walk, in the week of most of them.
        (OPEN[1], {"2027-05-10": "check for pests 3: crow, gale, heron"}),
        (OPEN[2], {"2027-05-10": "check for pests 3: crow, gale, heron"}),
        (OPEN[3], {"2027-05-10": "check for pests 2: crow, gale",
                   "2027-05-31": "heron: check for pests"}),
        # Nothing is looked at outside its own days.
        (("2027-05-17", "2027-05-17", "2027-06-20"),
         {"2027-05-10": "check for pests 2: crow, gale", "2027-05-17": "heron: check for pests"}),
    ],
)  # fmt: skip
def test_looks_at_one_thing_at_one_place_are_one_round(
    build: Any, others: tuple[str, ...], entries: dict[str, str]
) -> None:
    """Else one would walk to one bench three weeks running with a lens in hand."""
    work = [pests(build, "gale", *OPEN[0]), pests(build, "crow", *OPEN[0])]
    assert weeks_of_looks(build, [*work, pests(build, "heron", *others)]) == entries


@pytest.mark.parametrize(
    "other",
    [
        {"tree": "smoke"},  # it stands elsewhere
        {"settled_by": ("checked wire",)},
        {"weight": PRESSING},  # each week that nobody looks makes it worse
        {"weight": PROTECTION},
        {"given_word": True},
        {"act": "fed", "title": "feed"},
    ],
)
def test_what_no_round_may_move_keeps_its_own_week(build: Any, other: dict[str, Any]) -> None:
    known = {"tree": "heron", **other}
    work = [
        pests(build, "gale", *OPEN[0]),
        pests(build, "crow", *OPEN[0]),
        build.follow_up(
            known.pop("tree"), *OPEN[1], id="other/pests/2027",
            **{"act": "checked", "title": "check for pests", "settled_by": ("checked pests",),
               "weight": CARE, "given_word": False, **known},
        ),
    ]  # fmt: skip
    assert list(weeks_of_looks(build, work)) == ["2027-05-10", "2027-05-17"]


def test_a_look_whose_best_week_went_by_stays_on_the_round_it_was_told_of(build: Any) -> None:
    """Best on 10 May, on the round of the 24th: on the 17th it is on it still."""
    work = [
        pests(build, "heron", *OPEN[0]),
        pests(build, "gale", *OPEN[2]),
        pests(build, "crow", *OPEN[2]),
    ]
    title = "check for pests 3: crow, gale, heron"
    for today in (date(2027, 5, 3), date(2027, 5, 12), date(2027, 5, 17), date(2027, 5, 30)):
        assert weeks_of_looks(build, work, today) == {"2027-05-24": title}
    # From then on each comes in its last week, that of the 14th.
    assert weeks_of_looks(build, work, date(2027, 5, 31)) == {"2027-06-14": title}


def test_one_uid_has_one_content_in_all_feeds(build: Any) -> None:
    work = [
        unwire(build, "gale", "2027-04-10", "2027-04-12", "2027-04-22"),
        unwire(build, "gale", *LONG, part="apex"),
        build.follow_up("crow", lapses=True),
    ]
    files, _ = build.made(work, trees=at(build, gale="bench", crow="bench"),
                          cards={"inside": {"bench": frozenset({"bench"})}})  # fmt: skip
    contents: dict[str, set[tuple[str, ...]]] = {}
    shown: Counter[str] = Counter()
    for feed in files.values():
        for sort in ("VEVENT", "VTODO"):
            for lines in build.events(feed, sort):
                uid = next(line for line in lines if line.startswith("UID:"))
                contents.setdefault(uid, set()).add(tuple(lines))
                shown[uid] += 1
    assert [uid for uid, found in contents.items() if len(found) > 1] == []
    # in the weeks, and the feeds of the tree, the place, the owner and the work
    assert shown["UID:gale/wire-off/wired-2026-10-31/left-1@upper-yard"] == 5
    assert shown["UID:gale/wire-off/wired-2026-10-31/apex@upper-yard"] == 4


def chance(build: Any, tree: str, *days: str, **known: Any) -> Any:
    known = {"act": "pinched", "title": "pinch the tips", "lapses": True,
             "id": f"{tree}/maple-pinch/2027", **known}  # fmt: skip
    return build.follow_up(tree, *days, **known)


def test_chances_of_one_work_and_kind_stand_once_in_their_best_week(build: Any) -> None:
    trees = at(build, anvil="bench", grebe="tunnel", sprat="tunnel", gale="bench")
    trees["gale"] = build.tree("gale", kind="Chinese juniper")
    work = [
        chance(build, "anvil", "2027-03-29", "2027-04-05", "2027-05-03"),
        chance(build, "grebe", "2027-04-05", "2027-04-19", "2027-05-10"),
        chance(build, "sprat", "2027-04-05", "2027-04-21", "2027-05-10"),
        chance(build, "gale", "2027-04-05", "2027-04-19", "2027-05-10"),
        # the same work again in late summer
        chance(build, "anvil", "2027-07-20", "2027-08-05", "2027-08-25", id="anvil/late/2027"),
    ]
    feed = build.weeks(work, trees=trees)
    assert said(feed) == [
        ("2027-04-19", "gale: chance to pinch the tips", ""),
        ("2027-04-19", "chance: pinch the tips 3 trident maple", ""),
        ("2027-08-05", "anvil: chance to pinch the tips", ""),
    ]
    assert build.values(feed, "UID") == [
        "may:pinched/Chinese%20juniper/2027-W16@upper-yard",
        "may:pinched/trident%20maple/2027-W16@upper-yard",
        "may:pinched/trident%20maple/2027-W31@upper-yard",
    ]
    # A chance whose best week went by was told of then; it is not told of again.
    after = build.weeks(work, trees=trees, today=date(2027, 4, 26))
    assert said(after) == [("2027-08-05", "anvil: chance to pinch the tips", "")]
    # Nothing is told of a tree outside its own window.
    early = chance(build, "anvil", "2027-03-29", "2027-04-05", "2027-04-18")
    assert said(build.weeks([early, *work[1:4]], trees=trees))[0] == (
        "2027-04-05", "anvil: chance to pinch the tips", "",
    )  # fmt: skip


def test_a_long_title_gives_up_neither_its_tree_nor_its_work_nor_its_count(build: Any) -> None:
    """39 characters; and what is said of it stays."""
    days = ("2026-10-01", "2026-11-01", "2027-02-20")
    release = build.follow_up("puffin", *days, act="checked", title="release from quarantine")
    assert said(build.weeks([release]))[0][1] == "puffin: late: release from quarantine"
    short = build.follow_up("puffin", *days, title="feed")
    assert said(build.weeks([short]))[0][1] == "past its time: puffin: feed"
    days = ("2027-04-05", "2027-04-19", "2027-05-10")
    junipers = {n: build.tree(n, kind="Chinese juniper") for n in ("gale", "smoke")}
    lime = [chance(build, name, *days, act="treated-deadwood", id=f"{name}/lime/2027",
                   title="treat the deadwood with lime sulphur") for name in junipers]  # fmt: skip
    assert said(build.weeks(lime, trees=junipers))[0][1] == "chance: treat deadwood 2 trees"
    done = build.follow_up(
        "puffin", *days, title="protect the young leaves against late frost",
        outcome="done", settled=build.done("2027-02-20"), id="puffin/young/2027",
    )  # fmt: skip
    feed = build.feed([done], settled="completed")
    assert build.values(feed, "SUMMARY") == ["puffin: done: protect the young…"]
    twice = [unwire(build, "puffin", *LONG, part=part, title="unwire what bites in on the branches")
             for part in ("left 1", "left 2")]  # fmt: skip
    assert said(build.weeks(twice))[0][1] == "puffin: unwire × 2"


def test_what_is_past_its_time_is_one_entry_from_today_to_a_week_on(build: Any) -> None:
    work = [
        build.follow_up("crow", "2026-10-01", "2026-10-10", "2026-12-01", title="prune"),
        unwire(build, "gale", "2026-10-01", "2026-11-01", "2027-02-28"),
        unwire(build, "heron", "2026-10-01", "2026-11-01", "2027-03-01"),  # its last day
    ]
    feed = build.weeks(work)
    late = next(one for one in read_by_ical_js(feed)["events"] if one["uid"].startswith("late"))
    assert (late["uid"], late["summary"]) == ("late:@upper-yard", "past its time: 2 works")
    # today and a week on, both included
    assert (late["start"], late["end"]) == ("2027-03-01", "2027-03-09")
    # what harms comes before what is only late
    assert late["description"] == (
        "The oldest was to be done by 1 December 2026.\nunwire: gale, feed: crow."
    )
    later = build.weeks(work, today=date(2027, 3, 2))
    assert said(later) == [("2027-03-02", "past its time: 3 works", "")]
    assert "late:@upper-yard" in build.values(later, "UID")
    assert not [uid for uid in build.values(build.weeks([]), "UID") if uid.startswith("late")]


def test_what_was_promised_long_ago_stands_with_what_is_late_and_not_in_its_own_past(
    build: Any,
) -> None:
    """Nothing is late for longer than a season (150 days); a promise never lapses."""
    days = ("2026-05-01", "2026-05-10", "2026-05-20")
    known = {"act": "carved", "title": "carve", "planned": True}
    kept = build.follow_up("gale", *days, id="gale/planned/carved-2026-04-02", **known)
    feed = build.weeks([kept])
    assert said(feed) == [("2027-03-01", "past its time: gale: carve", "")]


def test_a_must_whose_best_week_went_by_comes_again_in_its_last(build: Any) -> None:
    work = [unwire(build, "gale", *LONG)]
    assert said(build.weeks(work, today=date(2027, 7, 11)))[0][0] == "2027-07-10"
    for today in (date(2027, 7, 12), date(2027, 10, 25), date(2027, 10, 30)):
        feed = build.weeks(work, today=today)
        # 30 October is the Saturday of the week from the 25th.
        assert said(feed) == [("2027-10-25", "gale: unwire on left 1", "")]
        assert build.values(feed, "UID") == ["must:unwired//2027-W43@upper-yard"]


def test_the_cap_merges_chances_then_musts_by_place_and_hides_none(build: Any) -> None:
    """Seven a week for so few trees."""
    places = [f"bench-{number}" for number in range(4)]
    acts = ("unwired", "checked", "untied", "fed")
    trees, work = {}, []
    for place in places:
        for act in acts:
            name = f"{act}-at-{place}"
            trees[name] = build.tree(name, place=place)
            work.append(
                build.follow_up(name, "2027-04-05", "2027-04-07", "2027-06-30",
                                id=f"{name}/r/c", act=act, title=act)
            )  # fmt: skip
    work += [chance(build, name, "2027-04-05", "2027-04-08", "2027-05-30") for name in trees]
    one = unwire(build, "gale", "2027-04-10", "2027-04-11", "2027-04-15")
    feed = build.weeks([*work, one], trees=trees)
    assert said(feed) == [
        ("2027-04-07", "bench-0: 4 works", "bench-0"),
        ("2027-04-07", "bench-1: 4 works", "bench-1"),
        ("2027-04-07", "bench-2: 4 works", "bench-2"),
        ("2027-04-07", "bench-3: 4 works", "bench-3"),
        ("2027-04-08", "chance: pinch the tips 16 trident maple", ""),
        ("2027-04-11", "gale: unwire on left 1", ""),
    ]
    assert build.values(feed, "UID")[:1] == ["place:bench-0/2027-W14@upper-yard"]


def test_more_places_than_a_week_holds_are_one_more_entry(build: Any) -> None:
    trees = {f"tree-{n}": build.tree(f"tree-{n}", place=f"bench-{n}") for n in range(12)}
    work = [unwire(build, name, *LONG) for name in trees]
    feed = build.weeks(work, trees=trees)
    found = said(feed)
    assert len(found) == 7
    # twelve entries of one work each: six stand, and six are one
    assert [title for _, title, _ in found if "places" in title] == ["6 works at several places"]
    assert len([title for _, title, _ in found if title.endswith(": unwire on left 1")]) == 6


def test_titles_and_notes_are_short_and_end_where_a_word_does(build: Any) -> None:
    long = "prune twigs: what crosses, doubles or outgrows the outline of the whole tree"
    work = [
        build.follow_up(name, "2027-04-05", "2027-04-07", "2027-06-30", title=long,
                        id=f"{name}/prune/2027", act="pruned", cautions=("Mind your eyes. " * 20,))
        for name in ("hoshi", "a-tree-with-a-name-that-is-longer-than-a-telephone-is-wide")
    ]  # fmt: skip
    trees = {"hoshi": build.tree("hoshi", name="The old star of the northern terrace, third")}
    files, _ = build.made(work, trees=trees, base_url="https://yard.example/made")
    for path, feed in files.items():
        for entry in Calendar.from_ical(feed).walk():
            if entry.name in ("VEVENT", "VTODO"):
                assert len(str(entry["SUMMARY"])) < 40, path
                assert len(str(entry["DESCRIPTION"])) < 200, path
                # Half a caution may be worse than none, so it is said that there is one.
                assert "Caution: more on its page." in str(entry["DESCRIPTION"])
                # An address that is longer than the rest of the note is the entry's URL alone.
                assert str(entry["URL"]).startswith("https://yard.example/made/")
    feed = files["calendars/trees/hoshi.ics"]
    assert build.values(feed, "SUMMARY") == ["hoshi: prune twigs"]
    assert build.values(feed, "DESCRIPTION")[0].endswith(build.values(feed, "URL")[0])


def test_no_sums_and_no_names_of_settings(build: Any) -> None:
    because = (
        build.reason("It comes at 87 degree-days over 5 °C."),
        build.reason("The coldest night is under -5 °C (pot_margin_c, a setting of ours)."),
        build.reason("Roots burst when the pot freezes through."),
    )
    feed = build.feed([build.follow_up(because=because)])
    assert build.values(feed, "DESCRIPTION") == [
        "From 3 April to 24 April\\, best 10 April.\\n"
        "Why: Roots burst when the pot freezes through."
    ]


def test_a_chance_is_a_task_once_it_can_be_done(build: Any) -> None:
    work = [
        chance(build, "anvil", "2027-04-05", "2027-04-19", "2027-05-10"),
        unwire(build, "gale", *LONG),
    ]
    trees = at(build, anvil="bench", gale="tunnel")

    def tasks(today: date) -> list[tuple[str, str]]:
        feed = build.made(work, trees=trees, today=today)[0]["calendars/tasks/all.ics"]
        found = Calendar.from_ical(feed).walk("VTODO")
        return [(str(one["SUMMARY"]), str(one["LOCATION"])) for one in found]

    assert tasks(date(2027, 4, 4)) == [("gale: unwire on left 1", "tunnel")]
    assert tasks(date(2027, 4, 5)) == [
        ("anvil: pinch the tips", "bench"),
        ("gale: unwire on left 1", "tunnel"),
    ]


def test_feeds_of_many_trees_show_a_season_ahead_and_a_tree_s_shows_all(build: Any) -> None:
    work = [
        unwire(build, "gale", "2027-05-31", "2027-06-10", "2027-08-30"),  # 91 days from 1 March
        unwire(build, "crow", "2027-06-01", "2027-06-10", "2027-08-30"),
        unwire(build, "heron", "2026-12-01", "2026-12-10", "2027-02-20"),  # past its time
    ]
    cards = {"inside": {"bench": frozenset({"bench"})}}
    trees = at(build, gale="bench", crow="bench", heron="bench")
    files, _ = build.made(work, trees=trees, cards=cards)

    def of(path: str) -> list[str]:
        return [uid.split("/")[0] for uid in build.values(files[f"calendars/{path}.ics"], "UID")]

    assert of("places/bench") == of("works/wire") == of("own") == ["heron", "gale"]
    assert of("trees/crow") == ["crow"]
    # None of them is missing from the weeks.
    assert len(said(files["calendars/all.ics"])) == 2


# ------------------------------------------------------------------ whole journals


def entries_of(folder: Path) -> list[tuple[date, date, str, str]]:
    """First and last day, title and note of each entry of the weeks."""
    feed = Calendar.from_ical((folder / "calendars/all.ics").read_bytes())
    return [
        (one["DTSTART"].dt, one["DTEND"].dt - timedelta(days=1), str(one["SUMMARY"]),
         str(one["DESCRIPTION"]))
        for one in feed.walk("VEVENT")
    ]  # fmt: skip


def busiest(entries: list[tuple[date, date, str, str]]) -> int:
    """The most entries that stand in any one week, from Monday to Sunday."""
    weeks: Counter[date] = Counter()
    for first, last, *_ in entries:
        monday = first - timedelta(days=first.weekday())
        while monday <= last:
            weeks[monday] += 1
            monday += timedelta(days=7)
    return max(weeks.values())


# A title is never so long that its line is folded (RFC 5545 §3.1).
SUMMARY = re.compile(r"^SUMMARY:(.*)$", re.MULTILINE)
LEAD_ALONE = re.compile(r"(.*: )?(past its time|late|chances?|chance to|done|[\w -]+:)…?")


@pytest.mark.parametrize(
    "month", [3, 5, 11, *(pytest.param(n, marks=pytest.mark.long) for n in (1, 4, 6, 7, 10))]
)
def test_a_week_of_the_example_has_at_most_seven_entries(tmp_path: Path, month: int) -> None:
    left = shutil.ignore_patterns("made", "made-on", ".backbud")
    shutil.copytree(ROOT / "example_journal", tmp_path / "example", ignore=left)
    day = date(2026, month, 20)
    make(str(tmp_path / "example"), day, as_of=True)
    entries = entries_of(tmp_path / "example/made-on" / str(day))
    assert 20 < len(entries) < 150
    assert busiest(entries) <= 7
    for _, _, title, note in entries:
        assert len(title) < 40 and len(note) < 200
        assert "degree-day" not in note and "_" not in note
    # Whatever is left out of a title, it is no lead alone.
    feeds = (tmp_path / "example/made-on" / str(day) / "calendars").rglob("*.ics")
    titles = {one for feed in feeds for one in SUMMARY.findall(feed.read_text("utf-8"))}
    assert titles and not [title for title in titles if LEAD_ALONE.fullmatch(title)]


@pytest.mark.slow
def test_a_week_of_two_hundred_trees_has_at_most_twenty_entries(tmp_path: Path) -> None:
    generate(tmp_path, 20_000)
    for day in (date(2026, 11, 15), date(2026, 11, 20)):
        made = make(str(tmp_path), day)
        assert "here:" in made.summary
        entries = entries_of(tmp_path / "made")
        assert busiest(entries) <= 20
        assert all(len(title) < 40 and len(note) < 200 for _, _, title, note in entries)
