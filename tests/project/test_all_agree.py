"""What is due, when, why and for how long is the same wherever it is told.

Pages, feeds, `why`, `due` and `tree` of one journal, on several days of the year, are read as a
person or a program reads them, and laid beside one another.
"""

from __future__ import annotations

import json
import re
import shutil
from collections.abc import Iterator
from contextlib import redirect_stdout
from datetime import date, datetime, timedelta
from html import unescape
from io import StringIO
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from icalendar import Calendar
from tests.benchmarks.generate import generate
from tests.project.test_example import EXAMPLE

from backbud.calendar.entries import task_uid_of, uid_of
from backbud.calendar.feeds import feeds_written
from backbud.calendar.which_feeds import feeds_of, shown_in_feeds
from backbud.cli import main
from backbud.compiled import nursery_of
from backbud.pages.links import anchor_of, tree_page
from backbud.pages.render import render_pages
from backbud.session import Session, open_session
from backbud.views.grounds import grounds_of
from backbud.views.year import year_view
from backbud.views.year_back import year_back_view
from backbud.words import between, day, minutes, monday_of, sentence

Told = dict[str, Any]
_TAG = re.compile(r"<[^>]*>")


class Journal(NamedTuple):
    """A journal on a day: what `due --json` says by id, its pages, and its feeds."""

    folder: str
    on: date
    session: Session
    due: dict[str, Told]
    pages: dict[str, bytes]
    feeds: dict[str, bytes]


def said(*arguments: str) -> str:
    """What a command prints; its exit status is that of a journal with or without problems."""
    out = StringIO()
    with redirect_stdout(out):
        assert main(list(arguments)) in (0, 1)
    return out.getvalue()


def opened(folder: Path, on: date) -> Journal:
    session = open_session(str(folder), on, as_of=True)
    plan = session.plan()
    settings = session.journal.settings
    grounds = grounds_of(plan.trees, session.journal.things, session.names(), settings.keeper)
    shown = shown_in_feeds(plan.follow_ups, on, settings.settled)
    feeds = dict(feeds_written(feeds_of(shown, grounds), shown, grounds, on, settings, {}))
    due = said("due", str(folder), "--on", str(on), "--within", "3000d", "--json")
    found = {one["id"]: one for one in json.loads(due)}
    assert len(found) > 20
    return Journal(str(folder), on, session, found, render_pages(nursery_of(session, plan)), feeds)


# Before growth, in the thick of it, and as trees go to rest.
EXAMPLE_DAYS = ("2026-02-20", "2026-05-28", "2026-11-25")
LARGE_DAYS = ("2026-04-12", "2026-07-30")


@pytest.fixture(scope="module")
def folders(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    example = tmp_path_factory.mktemp("agree") / "example"
    shutil.copytree(EXAMPLE, example, ignore=shutil.ignore_patterns("made", ".backbud"))
    large = tmp_path_factory.mktemp("agree") / "large"
    generate(large, 3000)
    return {"example": example, "large": large}


@pytest.fixture(
    scope="module",
    params=[
        ("example", EXAMPLE_DAYS[1]),
        ("large", LARGE_DAYS[0]),
        *(pytest.param(("example", on), marks=pytest.mark.long) for on in EXAMPLE_DAYS[::2]),
        pytest.param(("large", LARGE_DAYS[1]), marks=pytest.mark.long),
    ],
    ids=lambda param: "-".join(param),
)
def journal(folders: dict[str, Path], request: pytest.FixtureRequest) -> Journal:
    name, on = request.param
    return opened(folders[name], date.fromisoformat(on))


def window_of(told: Told) -> tuple[date, date, date]:
    opens, best, closes = (date.fromisoformat(told[which]) for which in ("from", "best", "until"))
    assert opens <= best <= closes
    return opens, best, closes


# ------------------------------------------------------------------ the commands


def test_why_and_tree_say_what_due_says(journal: Journal) -> None:
    by_tree: dict[str, dict[str, Told]] = {}
    for ident, told in journal.due.items():
        by_tree.setdefault(told["tree"], {})[ident] = told
    on = ("--on", str(journal.on))
    for handle in sorted(by_tree)[:: max(len(by_tree) - 1, 1)]:
        tree = json.loads(said("tree", handle, journal.folder, *on, "--json"))
        assert {one["id"]: one for one in tree["due"]} == by_tree[handle]
    for ident in sorted(journal.due)[:: max(len(journal.due) - 1, 1)]:
        told = journal.due[ident]
        assert told in json.loads(said("why", ident, journal.folder, *on, "--json"))
        opens, best, closes = window_of(told)
        year = journal.on.year
        lines = said("why", ident, journal.folder, *on).splitlines()
        lines = lines[lines.index(f"  id      {ident}") :]
        assert f"  state   {told['state']}" in lines
        assert f"  when    {between(opens, closes, year)}, best {day(best, year)}" in lines
        assert f"  takes   {minutes(told['minutes'])}" in lines
        at = next(n for n, line in enumerate(lines) if line.startswith("  because "))
        reasons = [line[10:] for line in lines[at : at + len(told["because"])]]
        assert reasons == told["because"]


def test_one_tree_alone_is_planned_as_it_is_among_all(journal: Journal) -> None:
    """`why` and `tree` plan one tree; pages, feeds and `due` plan all of them."""
    session = journal.session
    whole = session.plan()
    for handle in list(whole.trees)[::6]:
        alone = session.plan([handle])
        assert alone.follow_ups[handle] == whole.follow_ups[handle]
        assert alone.bites.get(handle) == whole.bites.get(handle)


# ------------------------------------------------------------------ pages


def text_of(markup: str) -> str:
    return " ".join(unescape(_TAG.sub(" ", markup)).split())


def rows_of(page: str) -> Iterator[tuple[str, str]]:
    """Each work on a tree's page, with its anchor."""
    for row in page.replace("\N{NO-BREAK SPACE}", " ").split('<li class="round work ')[1:]:
        row, end, _ = row.partition("</ol>")
        assert end
        (anchor,) = anchors_in(row)
        yield anchor, row


def anchors_in(row: str) -> list[str]:
    """The works that a row shows."""
    return re.findall(r'(?:id="|#)(why-\w+)"', row)


def one(pattern: str, markup: str) -> str:
    found = re.findall(pattern, markup, re.S)
    assert len(found) == 1, (pattern, markup)
    return text_of(found[0])


def lead_of(told: Told) -> str:
    """A shelter that stays goes on at once: "by" its last day would be too late."""
    opens, _, closes = window_of(told)
    stays = told["act"] == "protected" and (closes - opens).days > 7
    return "now, until" if stays else "by"


def title_of(row: str) -> str:
    """The first heading of a row; the last row of a page is followed by others."""
    heading, end, _ = row.partition("</h3>")
    return one(r'<h3(?: dir="auto")?>(.*?)</h3>', heading + end)


def check_row(row: str, told: Told, today: date) -> None:
    """A row says the state, the title, the days and the time that `due` says."""
    opens, best, closes = window_of(told)
    year = today.year
    assert re.match(rf"{told['state']}\b", row)
    assert title_of(row) == sentence(told["title"])
    by = one(r'<p class="by">(.*?)(?:<span|</p>)', row)
    if told["state"] == "coming":
        spoken = f"from {day(opens, year)} until {day(closes, year)}"
        only = f"only on {day(opens, year)}"
        assert by.startswith(f"best {day(best, year)}, {only if opens == closes else spoken}")
    else:
        lead = "was due" if told["state"] in ("overdue", "promised") else lead_of(told)
        assert by.startswith(f"{lead} {day(closes, year)}, ")
        was = (
            "best today"
            if best == today
            else f"best {'' if best > today else 'was '}{day(best, year)}"
        )
        assert was in by
    assert by.endswith(f", {minutes(told['minutes'])}") or not told["minutes"]


def is_told_whole(told: Told) -> bool:
    """What cannot wait: all but what only opens later, is no promise, and saves no life."""
    weight = (told["at_stake"], told["must"], told["once_past"])
    promised = told["planned"] or told.get("moved_from") or weight == ("style", True, "stays")
    return told["state"] != "coming" or bool(promised) or told["at_stake"] == "life"


class Page:
    """A tree's page as one reads down it: what was told above is only pointed to."""

    def __init__(self, text: str) -> None:
        self.text = text
        self._numbered: dict[str, str] = {}
        self._reasons: dict[str, list[str]] = {}

    def cautions_of(self, row: str) -> list[str]:
        """The cautions of a row, those that it points to by their numbers too."""
        found = []
        for number, text in re.findall(r"<b>Take care ?(\d*):</b> (.*?)</p>", row):
            found.append(unescape(text))
            if number:
                assert number not in self._numbered
                self._numbered[number] = found[-1]
        for numbers in re.findall(r"<b>Take care ([\d ,]+)</b>", row.replace("&nbsp;", " ")):
            found += [self._numbered[number.strip()] for number in numbers.split(",")]
        return found

    def chain_of(self, row: str, told: Told) -> None:
        """The chain of a row is that of the work; a long sentence told above is pointed to."""
        chain = re.findall(r'<li(?: title="(.*?)")?><i>(\w+)</i> (.*?)</li>', row, re.S)
        title = title_of(row)
        assert len(chain) == len(told["reasons"])
        for (at, _, text), reason in zip(chain, told["reasons"], strict=True):
            said, whole = text_of(text), " ".join(reason["text"].split())
            # Where a line stands is told on hovering alone.
            assert at == (f"{reason['file']}:{reason['line']}" if reason["file"] else "")
            above = self._reasons.setdefault(whole, [])
            if said != whole:
                assert said == f"as for “{above[0]}” above"
            assert (said != whole) is (bool(above) and len(whole) >= 48)
            above.append(title)


def test_each_tree_s_page_says_what_due_says(journal: Journal) -> None:
    seen = set()
    by_anchor = {anchor_of(ident): told for ident, told in journal.due.items()}
    for handle in {told["tree"] for told in journal.due.values()}:
        page = Page(journal.pages[tree_page(handle)].decode())
        for at, (anchor, row) in enumerate(rows_of(page.text)):
            told = by_anchor[anchor]
            assert told["tree"] == handle
            check_row(row, told, journal.on)
            assert sorted(page.cautions_of(row)) == sorted(told["cautions"])
            page.chain_of(row, told)
            assert at < 3 or is_told_whole(told)
            seen.add(anchor)
        lines = re.findall(r'<li id="(why-\w+)">(.*?)</li>', page.text)
        days = []
        for anchor, line in lines:
            told = by_anchor[anchor]
            assert told["tree"] == handle
            assert not is_told_whole(told)
            opens, best, closes = window_of(told)
            year = journal.on.year
            when = f"best {day(best, year)}, {between(opens, closes, best.year)}"
            only = f"only on {day(opens, year)}"
            assert text_of(line) == f"{sentence(told['title'])} {when if opens < closes else only}"
            days.append(best)
            seen.add(anchor)
        assert days == sorted(days)
    assert seen == set(by_anchor)


def test_the_first_page_says_what_due_says(journal: Journal) -> None:
    """Each row has the title, the days and the minutes of its works; none is missing or to come."""
    by_anchor = {anchor_of(ident): told for ident, told in journal.due.items()}
    page = journal.pages["index.html"].decode().replace("\N{NO-BREAK SPACE}", " ")
    rows = [part.split("</li>")[0] for part in page.split('<li class="round')[1:]]
    open_now = at_the_bench(journal)
    assert 0 < len(rows) <= 30
    year, named = journal.on.year, 0
    for row in rows:
        works = [by_anchor[anchor] for anchor in anchors_in(row)]
        if not works:
            continue
        named += len(works)
        title = one(r"<h3(?: dir=\"auto\")?>(.*?)</h3>", row)
        (state,) = {told["state"] for told in works}
        assert row.startswith(" late") is (state == "overdue")
        alike = [told for told in open_now if told["state"] == state and
                 plain(told) == title]  # fmt: skip
        assert all(told in alike for told in works)
        by = one(r'<p class="by">(.*?)</p>', row)
        first = min(window_of(told)[2] for told in alike)
        leads = {one["id"]: lead_of(one) if state == "now" else "was due" for one in alike}
        spoken = [f"{leads[one['id']]} {day(window_of(one)[2], year)}" for one in alike]
        assert by.startswith(tuple(spoken))
        if len(works) == len(alike) and len({told["tree"] for told in works}) == len(works):
            ends = [n for n, one in zip(spoken, alike, strict=True) if window_of(one)[2] == first]
            assert by.startswith(tuple(ends))
            whole = sum(told["minutes"] for told in works)
            assert by.endswith(f", {minutes(whole)}") or not whole
    assert named > 5


def at_the_bench(journal: Journal) -> list[Told]:
    """What is late, can be done now or was promised. What may be done waits for the week of its
    best day, what must be for the week before; not what a tree may die without, what grows worse,
    nor the keeper's word."""
    monday = monday_of(journal.on)

    def waits(told: Told) -> bool:
        promise = ("style", True, "stays")
        weight = (told["at_stake"], told["must"], told["once_past"])
        if told["planned"] or told.get("moved_from") or weight == promise:
            return False
        week = monday_of(window_of(told)[1])
        if not told["single"]:
            return week > monday
        pressing = told["at_stake"] == "life" or told["once_past"] == "grows"
        return not pressing and week > monday + timedelta(weeks=1)

    return [
        told
        for told in journal.due.values()
        if told["state"] in ("overdue", "promised") or (told["state"] == "now" and not waits(told))
    ]


def trees_here(journal: Journal) -> set[str]:
    """The handles of the trees that are here."""
    return {handle for handle, tree in journal.session.plan().trees.items() if tree.here}


def plain(told: Told) -> str:
    """A work's title as a row has it: without the part of the tree."""
    return sentence(told["title"].removesuffix(f" on {told['part']}") if told["part"] else
                    told["title"])  # fmt: skip


def test_every_work_of_the_day_stands_on_the_page_of_its_place(journal: Journal) -> None:
    # Who went home stands nowhere; what is still to do is to ask, and to be paid.
    here = trees_here(journal)
    told = {anchor_of(one["id"]) for one in at_the_bench(journal) if one["tree"] in here}
    gone = {one["act"] for one in journal.due.values() if one["tree"] not in here}
    assert gone <= {"asked-after", "paid"}
    there = [anchor for path, page in journal.pages.items() if path.startswith("places/")
             for anchor in re.findall(r'#(why-\w+)"', page.decode())]  # fmt: skip
    assert sorted(there) == sorted(told)


def test_the_list_of_trees_tells_the_first_work_of_each_page(journal: Journal) -> None:
    listed = journal.pages["trees.html"].decode()
    for handle in {told["tree"] for told in journal.due.values()} & trees_here(journal):
        _, first = next(rows_of(journal.pages[tree_page(handle)].decode()))
        line = one(rf'<tr role="row">(?:(?!</tr>).)*?href="{tree_page(handle)}".*?</tr>', listed)
        assert title_of(first) in line


def test_wire_bites_on_the_days_that_its_looks_tell(journal: Journal) -> None:
    """Where a look tells when wire bites, a wire on the same page bites then, and none sooner."""
    told_days = 0
    for told in journal.due.values():
        found = re.findall(r"mm wire is reckoned to bite about (.+?):", " ".join(told["because"]))
        page = text_of(journal.pages[tree_page(told["tree"])].decode())
        for bite in found:
            told_days += 1
            on = datetime.strptime(bite, "%d %B %Y").date()
            written = day(on, journal.on.year)
            assert re.search(rf"(bites|begun to bite) about {written}\b", page), told["id"]
    assert told_days or "example" in journal.folder


def test_the_year_tells_windows_that_works_have(journal: Journal) -> None:
    page = journal.pages["season.html"].decode()
    windows = {
        between(opens, closes, journal.on.year)
        for opens, _, closes in map(window_of, journal.due.values())
    }
    days = {
        end: {day(window_of(told)[n], journal.on.year) for told in journal.due.values()}
        for n, end in ((0, "from"), (2, "until"))
    }
    told = 0
    for about in re.findall(r'<desc id="sprig-.*?">(.*?)\.</desc>', page):
        for twig in about.split("; "):
            for part in twig.partition(": ")[2].split(", "):
                said_of_all = re.fullmatch(r"the (?:first|last) (from|until) (.*)", part)
                if said_of_all:
                    assert said_of_all[2] in days[said_of_all[1]]
                elif not re.search(r"past the time|^\d+ windows", part):
                    assert re.sub(r" \(\d+ trees\)", "", part) in windows
                    told += 1
    assert told > 5


def test_the_year_counts_what_due_counts(journal: Journal) -> None:
    """Every open work of the next twelve months stands in it once, also where it is counted."""
    page = journal.pages["season.html"].decode()
    session = journal.session
    year = year_view(nursery_of(session, session.plan()))
    first = monday_of(journal.on)
    within = [
        told
        for told in journal.due.values()
        if max(date.fromisoformat(told["best"]), journal.on) < first + timedelta(weeks=52)
    ]
    assert year.works == len(within) and year.minutes == sum(told["minutes"] for told in within)
    assert f"{minutes(year.minutes)} of work in the year ahead" in page
    # What was late, or is to be done now, is told at the bench alone.
    late = sum(told["state"] == "overdue" for told in within)
    assert sum(week.at_bench for week in year.near) >= late


def test_the_year_back_tells_what_is_still_late_as_due_does(journal: Journal) -> None:
    session = journal.session
    back = year_back_view(nursery_of(session, session.plan()))
    late = [
        told
        for told in journal.due.values()
        if told["state"] in ("overdue", "promised")
        and date.fromisoformat(told["until"]) >= journal.on - timedelta(days=365)
    ]
    assert sum(one.still_open for one in back.foreseen) == len(late)
    page = journal.pages["year-back.html"].decode()
    done = sum(one.done for one in back.foreseen)
    foreseen = sum(one.foreseen for one in back.foreseen)
    assert f"{done} of {foreseen} works that the trees asked for were done" in page


def test_averages_lie_within_the_extremes_of_the_same_years(journal: Journal) -> None:
    """Of heat, of chill and of the warmth of each week, at every place."""
    session = journal.session
    known = 0
    for sky in nursery_of(session, session.plan()).weather.skies:
        for point in (*sky.heat.points, *sky.chill.points):
            if point.least is not None and point.most is not None:
                assert point.least - 0.1 <= point.average <= point.most + 0.1
                known += 1
        for week in sky.weeks:
            if week.least_c is not None and week.most_c is not None:
                assert week.least_c - 0.1 <= week.average_c <= week.most_c + 0.1
                known += 1
    assert known or "example" not in journal.folder


# ------------------------------------------------------------------ feeds


def test_the_feeds_say_what_due_says(journal: Journal) -> None:
    settings = journal.session.journal.settings
    trees = journal.session.plan().trees
    by_tree = {path for path in journal.feeds if path.startswith("calendars/trees/")}
    for paths, sort, uid in (
        (by_tree, "VEVENT", uid_of),
        ({"calendars/tasks/all.ics"}, "VTODO", task_uid_of),
    ):
        by_uid = {uid(ident, settings.journal_id): told for ident, told in journal.due.items()}
        entries = [
            entry for path in paths for entry in Calendar.from_ical(journal.feeds[path]).walk(sort)
        ]
        if sort == "VEVENT":
            assert sorted(str(entry["UID"]) for entry in entries) == sorted(by_uid)
        else:
            found = {str(entry["UID"]) for entry in entries}
            now = {one for one, told in by_uid.items() if told["state"] != "coming"}
            assert now <= found <= by_uid.keys()
        for entry in entries:
            told = by_uid[str(entry["UID"])]
            opens, best, closes = window_of(told)
            tree, _, work = str(entry["SUMMARY"]).partition(": ")
            assert tree in (told["tree"], trees[told["tree"]].title)
            assert told["title"].startswith(work.removesuffix("…"))
            if sort == "VEVENT":
                window = (opens, closes) if settings.show == "window" else (best, best)
                ends = entry.decoded("DTEND") - timedelta(days=1)
                assert (entry.decoded("DTSTART"), ends) == window
            else:
                assert entry.decoded("DUE") == (closes if settings.show == "window" else best)
            first, *lines = str(entry["DESCRIPTION"]).split("\n")
            days = (day(one, best.year) for one in (opens, closes, best))
            whole = "From {} to {}, best {}.".format(*days)
            whole = f"On {day(best, best.year)}." if opens == closes else whole
            takes = f" About {minutes(told['minutes'])}." if told["minutes"] else ""
            assert first == whole + takes
            cautions = [line.removeprefix("Caution: ") for line in lines if "Caution: " in line]
            more = "more on its page." in cautions
            assert set(cautions) - {"more on its page."} <= set(told["cautions"])
            assert more or len(cautions) == len(told["cautions"])


def blocks_of(feed: bytes, sort: bytes) -> dict[bytes, bytes]:
    """The lines of each entry of a feed by its UID, both unfolded."""
    whole = feed.replace(b"\r\n ", b"")
    found = re.findall(b"BEGIN:%b\r\n.*?END:%b" % (sort, sort), whole, re.S)
    return {block.split(b"UID:")[1].split(b"\r\n")[0]: block for block in found}


def test_every_feed_says_of_a_work_what_the_feed_of_its_tree_does(journal: Journal) -> None:
    """An owner's feed may say less, but has the same days. What stands for several works stands in
    the keeper's weeks alone."""
    compared: set[bytes] = set()
    whole: dict[bytes, bytes] = {}
    for path, feed in journal.feeds.items():
        if path.startswith("calendars/trees/"):
            whole |= blocks_of(feed, b"VEVENT")
    for path, feed in journal.feeds.items():
        for uid, block in blocks_of(feed, b"VEVENT").items():
            if b":" in uid:
                assert path == "calendars/all.ics"
                continue
            if not path.startswith("calendars/trees/"):
                compared.add(uid)
            days = re.findall(rb"(?:DTSTART|DTEND);.*", block)
            assert days == re.findall(rb"(?:DTSTART|DTEND);.*", whole[uid]), path
            if "owner" not in path and "person" not in path:
                assert block == whole[uid], path
    # What can be done within a season, 13 weeks, stands in other feeds too.
    season = (journal.on + timedelta(weeks=13)).isoformat()
    name = journal.session.journal.settings.journal_id
    near = {
        uid_of(ident, name).encode() for ident, one in journal.due.items() if one["from"] <= season
    }
    assert len(near) > 20 and near <= compared
