"""After any edit, what is made with what was kept is what a clean build makes, byte for byte.

The clean build is told only the revisions of calendar entries, which are no function of the
journal (RFC 5545, 3.8.7.4). It knows nothing of an output before it: so where a feed ends that was
there before, the file that says so is ours alone, until it is among the revisions.
"""

from __future__ import annotations

import os
import re
import shutil
from collections.abc import Callable
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path
from random import Random

import pytest
from generate import generate

from backbud.collection import replay
from backbud.compiled import REVISIONS
from backbud.make import Made, make
from backbud.memo import NO_MEMO, AsWritten, Identical, Memo
from backbud.publish import MADE, MANIFEST, MEMORY, memory
from backbud.session import open_session

TODAY = date(2026, 11, 20)
ACTS = 200
# In the longer lane; a third of it at once.
EDITS = 30


# ------------------------------------------------------------------ edits


def some_file(folder: Path, random: Random) -> Path:
    return random.choice(sorted(folder.glob("**/*.txt")))


def edit_lines(
    folder: Path, random: Random, change: Callable[[list[str], int], object], wanted: str = r"."
) -> None:
    """Change one of the lines of a file in which the pattern is found."""
    path = some_file(folder, random)
    lines = path.read_text().split("\n")
    found = [at for at, line in enumerate(lines) if re.search(wanted, line)]
    if found:
        change(lines, random.choice(found))
        path.write_text("\n".join(lines))


def take_out(folder: Path, random: Random) -> None:
    edit_lines(folder, random, lambda lines, at: lines.pop(at))


def write_twice(folder: Path, random: Random) -> None:
    edit_lines(folder, random, lambda lines, at: lines.insert(at, lines[at]))


def blank_line(folder: Path, random: Random) -> None:
    edit_lines(folder, random, lambda lines, at: lines.insert(at, ""))


def move_down(folder: Path, random: Random) -> None:
    """Everything below stands on other lines."""
    path = some_file(folder, random)
    path.write_text(f"# a remark\n{path.read_text()}")


def other_figure(folder: Path, random: Random) -> None:
    def change(lines: list[str], at: int) -> None:
        figure = str(random.randrange(1, 29))
        lines[at] = re.sub(r"\d+(?=\D*$)", figure, lines[at], count=1)

    edit_lines(folder, random, change, r"\d")


def same_figure_written_otherwise(folder: Path, random: Random) -> None:
    """9 cm and 9.0 cm are equal, and are written differently."""

    def change(lines: list[str], at: int) -> None:
        lines[at] = re.sub(r" (\d+) (cm|mm|L|kg)\b", r" \1.0 \2", lines[at], count=1)

    edit_lines(folder, random, change, r" \d+ (cm|mm|L|kg)\b")


def slip(folder: Path, random: Random) -> None:
    def change(lines: list[str], at: int) -> None:
        place = random.randrange(len(lines[at]))
        lines[at] = lines[at][:place] + random.choice("xq ,-7") + lines[at][place + 1 :]

    edit_lines(folder, random, change)


def weather_line(folder: Path, random: Random) -> None:
    def change(lines: list[str], at: int) -> None:
        low = random.randrange(-15, 12)
        lines[at] = f"{lines[at][:10]}   low {low} C, high {low + 7} C"

    edit_lines(folder, random, change, r"^\d{4}-\d\d-\d\d")


def new_page(folder: Path, random: Random) -> None:
    trees = re.findall(r"^tree (\S+)", "".join(map(Path.read_text, folder.glob("**/*.txt"))), re.M)
    act = random.choice(
        [
            "repotted  same pot, 2 cm off below, wedges N E",
            "wired     2 mm Al on branch 1",
            "pruned    hard",
            "checked   wire biting on branch 1",
            "planned   repot, to 2027-03",
            "skipped   repot",
            "vigour    weak",
            "noted     saw nothing",
            "died",
            "moved     tunnel",
            "staged    BBCH 60",
        ]
    )
    day = TODAY - timedelta(days=random.randrange(0, 700))
    path = folder / "diary" / f"new-{random.randrange(4)}.txt"
    subjects = ", ".join(random.sample(trees, random.choice((1, 1, 2))))
    before = path.read_text() if path.exists() else ""
    path.write_text(f"{before}\n{day}\n\n{subjects}\n  {act}\n")


def new_tree(folder: Path, random: Random) -> None:
    with (folder / "cards" / "more.txt").open("a") as file:
        file.write(f"\ntree new-{random.randrange(99)}\n  kind   trident maple\n  place  yard\n")


def file_gone(folder: Path, random: Random) -> None:
    path = some_file(folder, random)
    os.rename(path, path.with_suffix(f".{random.randrange(999)}.txt"))


def other_settings(folder: Path, random: Random) -> None:
    path = folder / "backbud.toml"
    lines = [ln for ln in path.read_text().splitlines() if not ln.startswith(("name", "show"))]
    show = random.choice(("best day", "window"))
    lines[1:1] = [f'name = "Yard {random.randrange(3)}"', f'show = "{show}"']
    path.write_text("\n".join(lines) + "\n")


OFTEN = (take_out, write_twice, other_figure, slip, new_page, new_page, move_down, blank_line,
         same_figure_written_otherwise, weather_line)  # fmt: skip
SELDOM = (new_tree, file_gone, other_settings)


# ------------------------------------------------------------------ the comparison


def output(folder: Path) -> dict[str, bytes]:
    made = folder / MADE
    return {
        path.relative_to(made).as_posix(): path.read_bytes()
        for path in made.rglob("*")
        if path.is_file()
    }


def clean_build(folder: Path, clean: Path, revisions: bytes | None, today: date) -> Made:
    shutil.rmtree(clean, ignore_errors=True)
    shutil.copytree(folder, clean, ignore=shutil.ignore_patterns(MADE, MEMORY))
    if revisions is not None:
        memory.must_keep(str(clean), REVISIONS, revisions)
    return make(str(clean), today)


def ended_now(before: dict[str, bytes], ours: dict[str, bytes]) -> set[str]:
    """The feeds that ended in this very build: each was one before, and holds now its one entry."""
    return {
        name
        for name, feed in ours.items()
        if name.startswith("calendars/") and b"UID:ended:" in feed
        if name in before and b"UID:ended:" not in before[name]
    }


def compare(folder: Path, clean: Path, kept: Memo, today: date, what: str) -> Made:
    before = output(folder)
    revisions = memory.recall_bytes(str(folder), REVISIONS)
    made = make(str(folder), today, kept=kept, with_files=True)
    other = clean_build(folder, clean, revisions, today)
    assert made.problems == other.problems, what
    ours, theirs = output(folder), output(clean)
    for name in ended_now(before, ours):
        assert name not in theirs
        assert ours.pop(name).count(b"BEGIN:VEVENT") == 1
        # It is listed in our manifest, so that it will be ours to take away.
        manifest = ours[MANIFEST].split(b"\n")
        listed = [line for line in manifest if name.encode() in line]
        assert len(listed) == 1
        ours[MANIFEST] = theirs[MANIFEST]
    differ = [
        name for name in sorted(ours.keys() | theirs.keys()) if ours.get(name) != theirs.get(name)
    ]
    assert differ == [], what
    return made


@pytest.mark.parametrize(
    ("seed", "edits"),
    [(1, EDITS // 5), *(pytest.param(n, EDITS, marks=pytest.mark.long) for n in (1, 2, 3, 4, 5))],
)
def test_after_any_edit_nothing_is_stale(
    tmp_path: Path, seed: int, edits: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    # In so small a journal, so that a replay goes on from the middle too.
    monkeypatch.setattr(replay, "PAGES_BEFORE", 2)
    folder, clean, random, kept = tmp_path / "journal", tmp_path / "clean", Random(seed), Memo()
    generate(folder, ACTS, seed)
    compare(folder, clean, kept, TODAY, "the first build")
    for count in range(edits):
        edit = random.choice(SELDOM if count % 8 == 7 else OFTEN)
        edit(folder, random)
        compare(folder, clean, kept, TODAY, f"edit {count}: {edit.__name__}")


# Lines at the end of a diary, on and on; None takes the last of them away again.
LINES = (
    ("yuki", "noted     saw nothing"),
    ("hoshi", "moved     tunnel"),
    ("all in tunnel", "watered"),
    ("hoshi", "corrected repotted 2024-03-04, 3 cm off below"),
    ("hoshi", "separated as hoshi-2"),
    ("hoshi-2", "repotted  into blue"),
    ("all trident maple", "fed       10 g"),
    None,
    ("yuki", "died"),
    ("all", "checked   vigour good"),
    None,
    None,
    ("yuki", "repotted  into blue"),
    None,
    ("hoshi", "corrected repotted 2024-03-04, not done"),
    ("akadama", "bought    2 bags, 34 EUR"),
    ("hoshi, yuki", "repotted  same pot, 2 cm off below"),
)


def test_a_replay_that_goes_on_from_the_middle_is_a_whole_one(
    journal: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(replay, "PAGES_BEFORE", 3)
    went_on: list[object] = []
    go_on_from = replay._go_on_from
    monkeypatch.setattr(
        replay,
        "_go_on_from",
        lambda moment, whole: went_on.append(moment) or go_on_from(moment, whole),  # type: ignore[func-returns-value]
    )
    (journal / "cards" / "more.txt").write_text(
        "place tunnel\n\npot blue\n  inside  30 x 20 x 8 cm\n\n"
        "material akadama\n  sold in  bag of 14 L\n  price  17 EUR\n"
    )
    first = [f"2024-03-{day:02}\n\nhoshi\n  repotted  same pot\n" for day in range(1, 13)]
    pages: list[str] = []
    kept, path = Memo(), journal / "diary" / "2027.txt"
    for count, line in enumerate((*LINES, *LINES[:4])):
        day = date(2026, 4, 1) + timedelta(days=count)
        if line is None:
            pages.pop()
        else:
            pages.append(f"{day}\n\n{line[0]}\n  {line[1]}\n")
        path.write_text("\n".join([*first, *pages]))
        compare(journal, tmp_path / "clean", kept, TODAY, f"{count}: {line}")
    assert len(went_on) > len(LINES) // 2


# Works that come into their order on the first page, in the season and in the feeds; None takes the
# last of them out again.
WORKS = (
    ("yuki", "planned   feed, in 2 weeks"),
    ("hoshi", "planned   repot, in 2 weeks"),
    ("all", "planned   prune, in 3 weeks"),
    None,
    ("hoshi", "planned   wire, to 2027-03"),
    ("yuki", "moved     tunnel"),
    ("hoshi", "skipped   repot"),
    None,
    ("yuki", "planned   graft, in 2 weeks"),
    ("all", "worked    3 h"),
    ("yuki", "received  for Pell"),
    ("hoshi", "died"),
    None,
    None,
    None,
)


@pytest.mark.parametrize("hours", [pytest.param(0, marks=pytest.mark.long), 1])
def test_works_that_come_and_go_leave_everything_in_order(
    journal: Path, tmp_path: Path, hours: int
) -> None:
    with (journal / "backbud.toml").open("a") as file:
        file.write(f'hours_per_week = {hours}\nkeeper = "ada"\nsettled = "completed"\n')
    (journal / "cards" / "more.txt").write_text(
        "place tunnel\n  within  yard\n\nperson ada\n\nperson pell\n\n"
        "tree aki\n  kind   trident maple\n  place  tunnel\n  owner  pell\n"
    )
    kept, path = Memo(), journal / "diary" / "2027.txt"
    pages: list[str] = []
    for count, line in enumerate(WORKS):
        if line is None:
            pages.pop()
        else:
            pages.append(f"{TODAY}\n\n{line[0]}\n  {line[1]}\n")
        path.write_text("\n".join(pages))
        compare(journal, tmp_path / "clean", kept, TODAY, f"{count}: {line}")


# Lines about money of trees in the house, shared ones too; None takes the last of them out again.
MONEY = (
    ("hoshi", 'received  from pell for repotting, condition "a cracked pot"'),
    ("hoshi", "agreed    rate 50 EUR/h"),
    ("hoshi, yuki", "worked    2 h, together"),
    ("hoshi", "used      akadama 3 L"),
    ("akadama", "priced    21 EUR"),
    ("hoshi, yuki", "billed    120.01 EUR, together, number 7"),
    ("pell", "paid      20 EUR"),
    None,
    ("yuki", "paid      60.01 EUR"),
    None,
    ("hoshi", "repotted  same pot, 2 cm off below"),
    ("hoshi", "corrected billed 2026-11-20, 60.00 EUR"),
    ("hoshi", "returned  to pell"),
    None,
    ("pell", "billed    5 EUR, number 7"),
    ("yuki", "returned  to oda"),
    None,
    None,
)
CUSTOMERS = """\
person ada
  rate 40 EUR/h
person pell
  place roof
person oda
place roof
  latitude 45 N
material akadama
  sold in  bag of 14 L
  price    17 EUR
"""


def test_what_people_owe_is_never_stale(journal: Path, tmp_path: Path) -> None:
    with (journal / "backbud.toml").open("a") as file:
        file.write('keeper = "ada"\ncurrency = "EUR"\n')
    cards = journal / "cards" / "trees.txt"
    cards.write_text(cards.read_text().replace("  kind ", "  owner  oda\n  kind ", 1))
    people = journal / "cards" / "more.txt"
    people.write_text(CUSTOMERS)
    kept, path = Memo(), journal / "diary" / "2027.txt"
    pages: list[str] = []
    for count, line in enumerate(MONEY):
        if line is None:
            pages.pop()
        else:
            pages.append(f"{TODAY}\n\n{line[0]}\n  {line[1]}\n")
        path.write_text("\n".join(pages))
        # Two at a time: each comparison is a clean build.
        if count % 2:
            made = compare(journal, tmp_path / "clean", kept, TODAY, f"{count}: {line}")
    assert made.files is not None
    assert b"oda" in made.files["visits.html"]
    # What stands on their cards, and where their trees go home to.
    for old, new in (("rate 40", "rate 44"), ("17 EUR", "19 EUR"), ("45 N", "55 N")):
        people.write_text(people.read_text().replace(old, new))
        compare(journal, tmp_path / "clean", kept, TODAY, new)


def test_a_feed_that_ended_says_so_for_a_year(journal: Path, tmp_path: Path) -> None:
    kept, place = Memo(), journal / "cards" / "more.txt"
    feed = journal / "made/calendars/places/shed.ics"
    place.write_text("place shed\n  within  yard\n")
    compare(journal, tmp_path / "clean", kept, TODAY, "the place is there")
    assert b"UID" not in feed.read_bytes()
    place.write_text("# it is gone\n")
    for days in (1, 2, 300, 366):
        compare(journal, tmp_path / "clean", kept, TODAY + timedelta(days=days), f"{days} days")
        said = feed.read_bytes().replace(b"\r\n ", b"")
        assert b"UID:ended:calendars/places/shed.ics@" in said
        assert b"subscribe to that. This address ends on 21 November 2027." in said
        # From the day on which it ended
        assert b"DTSTART;VALUE=DATE:20261121\r\nDTEND;VALUE=DATE:20261219\r\n" in said
    compare(journal, tmp_path / "clean", kept, TODAY + timedelta(days=367), "a year after")
    assert not feed.exists()
    # It comes back as what it was.
    place.write_text("place shed\n  within  yard\n")
    compare(journal, tmp_path / "clean", kept, TODAY + timedelta(days=368), "it is back")
    assert b"UID" not in feed.read_bytes()


def test_a_forecast_that_comes_changes_and_goes_leaves_nothing_stale(
    journal: Path, tmp_path: Path
) -> None:
    """A frost that shifts, one that goes, a forecast by others, one too old, and none."""
    (journal / "weather").mkdir(exist_ok=True)
    file, kept = journal / "weather" / "yard-forecast.csv", Memo()
    days = [TODAY + timedelta(days=n) for n in range(1, 8)]

    def write(source: str, *lows: float) -> None:
        rows = [f"{day},{low},9,8,{source}" for day, low in zip(days, lows, strict=False)]
        file.write_text("date,low,high,rain,source\n" + "\n".join(rows) + "\n")

    for what, source, lows in (
        ("frost", "", (2, -12, 3, 3, 3, 3, 3)),
        ("shifted", "", (2, 2, 2, -11, 3, 3, 3)),
        ("mild", "", (5, 5, 5, 5, 5, 5, 5)),
        ("by others", "MET Norway", (5, 5, 5, 5, 5, 5, 5)),
    ):
        write(source, *lows)
        made = compare(journal, tmp_path / "clean", kept, TODAY, what)
        assert made.files is not None
        said = made.files["calendars/all.ics"].decode().replace("\r\n ", "")
        assert ("UID:frost:" in said) is (what in ("frost", "shifted"))
        credit = b"data from MET Norway" in made.files["index.html"]
        assert credit is (what == "by others")
    compare(journal, tmp_path / "clean", kept, TODAY + timedelta(days=9), "too old")
    file.unlink()
    compare(journal, tmp_path / "clean", kept, TODAY, "gone")


def test_another_day_is_another_page(tmp_path: Path) -> None:
    folder, clean, kept = tmp_path / "journal", tmp_path / "clean", Memo()
    generate(folder, ACTS)
    for day in (TODAY, TODAY + timedelta(days=1), TODAY + timedelta(days=40), TODAY):
        compare(folder, clean, kept, day, str(day))


# ------------------------------------------------------------------ what is kept


@pytest.mark.parametrize("settings", ["", 'speaks = "de"\n'])
def test_a_page_that_did_not_change_is_the_same_object_from_the_first_run_on(
    tmp_path: Path, settings: str
) -> None:
    generate(tmp_path, 200)
    toml = tmp_path / "backbud.toml"
    toml.write_text(settings + toml.read_text())
    kept, runs = Memo(), []
    for _ in range(3):
        session = open_session(str(tmp_path), TODAY, kept=kept, keeps=False)
        session.plan()
        runs.append(session.journal.pages)
        kept.end()
    first, second, third = runs
    assert len(first) > 20
    assert all(a is b is c for a, b, c in zip(first, second, third, strict=True))


def test_a_value_is_made_once_for_the_same_inputs() -> None:
    kept, calls = Memo(), []

    def once(*inputs: object) -> int:
        return kept.once("slot", inputs, lambda: calls.append(inputs) or len(calls))  # type: ignore[func-returns-value]

    assert [once("a", 1), once("a", 1), once("b", 1), once("a", 1)] == [1, 1, 2, 3]
    kept.end()
    assert once("a", 1) == 3
    kept.forget("slot")
    assert once("a", 1) == 4


def test_of_equal_values_the_first_is_given_out_and_stands_for_them() -> None:
    kept, one, equal, other = Memo(), [9], [9], [8]
    assert kept.same("slot", one) is one
    assert kept.same("slot", equal) is one
    kept.end()
    assert kept.same("slot", equal) is one
    assert kept.same("slot", other) is other
    assert NO_MEMO.same("slot", equal) is equal


def test_a_slot_holds_what_the_last_run_or_this_one_left_there() -> None:
    kept = Memo()
    assert not kept.holds("slot")
    kept.once("slot", (1,), lambda: None)
    assert kept.holds("slot")
    kept.end()
    assert kept.holds("slot")
    kept.end()
    assert not kept.holds("slot")
    assert not NO_MEMO.holds("slot")


def test_what_a_run_did_not_ask_for_is_let_go() -> None:
    kept = Memo()
    kept.once("slot", (), lambda: "old")
    kept.end()
    assert kept.once("slot", (), lambda: "new") == "old"
    kept.end()
    kept.end()
    assert kept.once("slot", (), lambda: "new") == "new"


def test_a_run_that_failed_lets_nothing_go() -> None:
    kept = Memo()
    kept.once("far", (), lambda: "old")
    kept.end()
    kept.once("near", (), lambda: "old")  # and then it fails
    assert kept.once("far", (), lambda: "new") == "old"
    assert kept.once("near", (), lambda: "new") == "old"


def test_the_very_same_is_more_than_equal() -> None:
    one, other = [9], [9]
    assert Identical(one) == Identical(one)
    assert Identical(one) != Identical(other)
    assert Identical(one, other) == Identical(one, other)
    assert Identical(one, other) != Identical(one, one)
    assert Identical(one) != Identical(one, other)
    assert Identical(one) != one


def test_what_a_kept_value_was_made_from_is_kept_with_it() -> None:
    kept = Memo()

    def outer(mark: int, word: str) -> str:
        def work() -> str:
            return kept.once("inner", (), lambda: word) + kept.once(
                ("deep", mark), (), lambda: word
            )

        return kept.once("outer", (mark,), work)

    assert outer(1, "old") == "oldold"
    for _ in range(3):
        kept.end()
        assert outer(1, "new") == "oldold"
    kept.end()
    assert outer(2, "new") == "oldnew"


def test_own_words_that_come_change_and_go_leave_nothing_stale(
    journal: Path, tmp_path: Path
) -> None:
    """The same lines mean something, something else, and nothing."""
    path = journal / "cards" / "words.txt"
    (journal / "diary" / "2027.txt").write_text(
        "2026-04-01\n\nhoshi\n  uekae  same pot\n  gone\n\nyuki\n  wired  3 mm Al on apex\n  ab\n"
    )
    kept = Memo()
    for count, card in enumerate(
        (
            "",
            "words\n  since  2026-03-01\n  uekae  repotted\n  ab  unwired\n",
            "words\n  since  2026-03-01\n  uekae  pruned\n  ab  unwired\n",
            "words\n  since  2026-05-01\n  uekae  repotted\n  gone  died\n",
            "words\n  since  2026-05-01\n  past   yes\n  uekae  repotted\n  gone  died\n",
            "",
        )
    ):
        if card:
            path.write_text(card)
        else:
            path.unlink(missing_ok=True)
        compare(journal, tmp_path / "clean", kept, TODAY, f"{count}: {card}")


def test_what_is_written_otherwise_is_not_the_same() -> None:
    one, other = (Decimal("9"),), (Decimal("9.0"),)
    assert one == other
    assert AsWritten(one) != AsWritten(other)
    assert AsWritten(one) == AsWritten((Decimal("9"),))
    assert AsWritten(one) != one
