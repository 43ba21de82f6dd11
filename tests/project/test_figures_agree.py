"""Each figure that stands in two places is the same figure: days on which wire bites, sums of heat
and of chill, what is on the shelf, what is late, hours and water.

The example's pages, feeds and commands, on a day with late work and on one in the thick of growth,
are read as a person or a program reads them, and laid beside one another.
"""

from __future__ import annotations

import json
import re
import shutil
from datetime import date
from decimal import Decimal

import pytest
from icalendar import Calendar
from tests.project.test_all_agree import Journal, at_the_bench, opened, said, text_of, trees_here
from tests.project.test_example import EXAMPLE

from backbud.pages.links import place_page, tree_page
from backbud.words import day, minutes

DAYS = ("2026-11-29", pytest.param("2026-05-28", marks=pytest.mark.long))


@pytest.fixture(scope="module", params=DAYS)
def journal(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Journal:
    folder = tmp_path_factory.mktemp("figures") / "example"
    shutil.copytree(EXAMPLE, folder, ignore=shutil.ignore_patterns("made*", ".backbud"))
    return opened(folder, date.fromisoformat(request.param))


def shown(journal: Journal, page: str) -> str:
    """All that a page says, in one line."""
    return text_of(journal.pages[page].decode().replace("\N{NO-BREAK SPACE}", " "))


def asked(journal: Journal, *command: str) -> str:
    return said(*command, journal.folder, "--on", str(journal.on))


def figures(pattern: str, text: str) -> list[str]:
    found = re.findall(pattern, text)
    assert found, pattern
    return found


def test_the_day_on_which_wire_bites(journal: Journal) -> None:
    """The list of what is on a tree, `tree`, and the reasons of the works that go by it."""
    bites = 0
    for handle in sorted(trees_here(journal)):
        told = json.loads(said("tree", handle, journal.folder, "--on", str(journal.on), "--json"))
        days = [one["bites"] for one in told["on_it"] if one["bites"]]
        written = [day(date.fromisoformat(one), journal.on.year) for one in days]
        page = shown(journal, tree_page(handle))
        listed = re.findall(r"(?:bites|begun to bite) about (\d+ [A-Z][a-z]+(?: \d{4})?)", page)
        assert sorted(listed) == sorted(written), handle
        reasons = " ".join(text for work in told["due"] for text in work["because"])
        assert set(re.findall(r"reckoned to bite about (\S+):", reasons)) <= set(days), handle
        bites += len(days)
    assert bites >= 2


def test_make_counts_as_due_does(journal: Journal) -> None:
    """What waits for its best week comes, in both, though its window is open."""
    told = asked(journal, "make")
    (late, now), *_ = re.findall(r"(\d+) works? overdue, (\d+) now", told)
    (heading,) = re.findall(r"^Now \((\d+)\)", asked(journal, "due"), re.M)
    assert int(late) + int(now) == int(heading)
    open_now = [one for one in journal.due.values() if one["state"] in ("overdue", "now")]
    assert 0 < int(heading) < len(open_now)


def test_what_is_late_is_counted_once(journal: Journal) -> None:
    """By `due`, by the rows of the places, on the first page and in the keeper's week."""
    late = [one for one in journal.due.values() if one["state"] == "overdue"]
    assert bool(late) is (str(journal.on) == DAYS[0])
    rows = "".join(
        page.decode() for path, page in journal.pages.items() if path.startswith("places/")
    )
    here = [one for one in late if one["tree"] in trees_here(journal)]
    assert rows.count('<li class="late">') == len(here)
    # Of the first page each round that is late has its diamond; with fewer than thirty rows it has
    # them all.
    first = journal.pages["index.html"].decode()
    assert first.count('<li class="round late">') == len({one["title"] for one in late})
    entries = Calendar.from_ical(journal.feeds["calendars/all.ics"]).walk("VEVENT")
    (past,) = [one for one in entries if "late:" in str(one["UID"])] if late else [None]
    assert past is None or len(late) > 1 or "late" in str(past["SUMMARY"])


def test_sums_of_heat(journal: Journal) -> None:
    """Sky, the year back, and the year that is on beside the others on a tree's page."""
    (sky, *_) = figures(r"(\d+) degree-days over 5 °C by", shown(journal, "weather.html"))
    (back,) = figures(r"\d{4}: (\d+) degree-days over 5 °C by", shown(journal, "year-back.html"))
    beside = figures(r"(\d+) so far", shown(journal, "trees/heron.html"))
    assert {sky, back, *beside} == {sky}


def test_sums_of_chill(journal: Journal) -> None:
    """The sentence, the table below it, and the average within the winters on record."""
    page = journal.pages["weather.html"].decode()
    part = page[page.index('<section id="chill"') : page.index('<section id="frost"')]
    text = text_of(part.replace("\N{NO-BREAK SPACE}", " "))
    by_april = re.search(r"(\d+) are expected by 1 April", text)
    came = re.search(r"(\d+) chill portions by (\d+ \w+)", text)
    assert came and (by_april or journal.on.month == 5)
    tables = [re.findall(r"<td[^>]*>([^<]*)</td>", row) for row in part.split("<tr>")]
    (whole, average, least, most) = [row for row in tables if len(row) == 4][-1]
    assert round(float(whole)) == int((by_april or came)[1])
    assert float(least) <= float(average) <= float(most)
    winters = [int(row[-1]) for row in tables if len(row) in (1, 2) and row[-1].isdigit()]
    assert (min(winters), max(winters)) == (round(float(least)), round(float(most)))


def test_what_is_on_the_shelf_and_what_to_buy(journal: Journal) -> None:
    told = json.loads(said("stores", journal.folder, "--on", str(journal.on), "--json"))
    page, printed = shown(journal, "stores.html"), asked(journal, "stores")
    assert told["currency"] == "EUR" and not re.search(r"\d (?!EUR)[A-Z]{3}\b", page)
    worth = Decimal(0)
    for one in told["shelf"]:
        worth += Decimal(str(one["value"] or 0))
    assert f"{worth:.2f} EUR" in page and f"{worth:.2f} EUR" in printed
    to_buy = [one for one in told["buy"] if one["count"]]
    cost = sum(Decimal(str(one["cost"])) for one in to_buy)
    assert bool(to_buy) is ("To buy" in page) is ("To buy" in printed)
    if to_buy:
        assert f"It costs {cost:.2f} EUR" in page and f"{cost:.2f} EUR" in printed
    # Nothing to buy is said of what could be reckoned, and of no more.
    assert told["missing"] and "could not be reckoned" in page
    assert "Nothing to buy" not in page or ", of what could be reckoned" in page


def test_hours(journal: Journal) -> None:
    """A place's hours are those of its works, and the year's those of all."""
    now = [one for one in at_the_bench(journal) if one["tree"] in trees_here(journal)]
    places = {one["place"] for one in now if one["place"]}
    for place in sorted(places):
        whole = sum(one["minutes"] for one in now if one["place"] == place)
        assert f"{minutes(whole)} of work now" in shown(journal, place_page(place)), place
    assert len(places) > 1


def test_water(journal: Journal) -> None:
    """A tree's page says what Sky has of it, and the places come to what all lose together."""
    sky = journal.pages["weather.html"].decode()
    rows = re.findall(
        r'<td class="margin" role="cell"[^>]*>([^<]*)</td>.*?href="(trees/[^"]*)"', sky, re.S
    )
    assert len(rows) > 10
    for drinks, page in rows:
        assert f"about {drinks} a day now" in shown(journal, page), page

    def litres(text: str) -> float:
        value, unit = text.split()
        return float(value) / (1000 if unit == "mL" else 1)

    text = shown(journal, "weather.html")
    (whole,) = figures(r"lose about ([\d.]+ m?L) a day now", text)
    places = figures(r"([\d.]+ m?L) a day now; hottest", text)
    assert sum(map(litres, places)) == pytest.approx(litres(whole), rel=0.05)
