"""A real journal is edited hundreds of times, and subscribers that obey RFC 5546 miss nothing."""

from __future__ import annotations

import random
import shutil
from collections.abc import Iterator
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
import vobject

from backbud.make import make

FIRST_DAY = date(2027, 3, 20)
SETTINGS = """\
language = 1
name = "A yard"
home = "yard"
keeper = "wrenfold"
journal_id = "upper-yard"
settled = "{settled}"
"""
CARDS = """\
person wrenfold
person marrow

place yard
  latitude  52 N

place bench
  within    yard

tree hoshi
  name      {name}
  kind      trident maple
  since     2011-03
  owner     marrow
  place     bench

tree yuki
  kind      trident maple
  since     2015-03
  place     yard
"""
FEEDS = ("all", "own", "owners/marrow", "places/bench", "trees/hoshi", "tasks/all")


class Subscriber:
    """One calendar of one feed, kept by RFC 5546 §2.1.5: "the highest SEQUENCE property value
    obsoletes all other revisions", and of one SEQUENCE the latest DTSTAMP does."""

    def __init__(self) -> None:
        self.taken: dict[str, tuple[tuple[int, Any], dict[str, list[str]]]] = {}

    def fetch(self, feed: str) -> set[str]:
        """Take the feed, and check that what is shown is what the feed says; the UIDs in it."""
        shown: set[str] = set()
        calendar = vobject.readOne(feed)
        for entry in (*calendar.contents.get("vevent", []), *calendar.contents.get("vtodo", [])):
            rank = (int(entry.sequence.value), entry.dtstamp.value)
            said = {
                name: [str(line.value) for line in lines]
                for name, lines in entry.contents.items()
                if name not in ("sequence", "dtstamp")
            }
            uid = entry.uid.value
            shown.add(uid)
            if uid not in self.taken or rank > self.taken[uid][0]:
                self.taken[uid] = (rank, said)
            assert self.taken[uid][1] == said, f"{uid} is not current"
        return shown


class Edits:
    """A journal's text, as somebody works on it."""

    def __init__(self, chance: random.Random, folder: Path, settled: str) -> None:
        self.chance, self.folder = chance, folder
        self.name = "Hoshi"
        self.pages: dict[date, list[str]] = {
            date(2027, 2, 27): [
                "hoshi",
                "  repotted    same pot",
                "  wired       2 mm Al on left 1",
            ],
            date(2027, 3, 6): ["yuki", "  wired       3 mm Al on apex"],
        }
        (folder / "backbud.toml").write_text(SETTINGS.format(settled=settled))
        self.write()

    def edit(self, today: date) -> None:
        """Change one thing: a name, a new line, or one that is taken out again."""
        chance = self.chance
        what = chance.randrange(8)
        if what == 0:
            self.name = chance.choice(("Hoshi", "The star, of old", "星; שלום"))
        elif what == 1 and len(self.pages) > 2:
            del self.pages[chance.choice(list(self.pages)[2:])]
        else:
            tree = chance.choice(("hoshi", "yuki"))
            part = chance.choice(("left 1", "left 2", "apex"))
            later = today + timedelta(days=chance.randrange(20, 200))
            line = chance.choice(
                (
                    f"wired       2 mm Al on {part}",
                    f"unwired     on {part}",
                    f"checked     wire on {part}",
                    f"put-off     feed, to {later}",
                    f"put-off     repot, to {later}",
                    "skipped     feed",
                    "fed",
                    f"planned     prune, to {later} -- as the buds say",
                    "pruned",
                    f"moved       {chance.choice(('bench', 'yard'))}",
                )
            )
            self.pages.setdefault(today, []).extend((tree, f"  {line}"))
        self.write()

    def write(self) -> None:
        pages = ("\n".join((f"{day}\n", *lines)) for day, lines in sorted(self.pages.items()))
        text = "\n\n".join((CARDS.format(name=self.name), *pages))
        (self.folder / "journal.txt").write_text(f"{text}\n")


def feeds(folder: Path) -> Iterator[tuple[str, str]]:
    for name in FEEDS:
        yield name, (folder / f"made/calendars/{name}.ics").read_bytes().decode()


@pytest.mark.slow
@pytest.mark.parametrize(
    ("settled", "lost"),
    [
        ("completed", "memory"),
        *(
            pytest.param(*both, marks=pytest.mark.long)
            for both in (
                ("leave", "never"),
                ("leave", "all"),
                ("completed", "never"),
                ("leave", "memory"),
                ("completed", "all"),
            )
        ),
    ],
)
def test_subscribers_are_current_after_every_edit(tmp_path: Path, settled: str, lost: str) -> None:
    """`memory`: `.backbud/` is lost at any time, but not on a day on which an entry went: should it
    come back changed that very day, nothing is left that tells its revision. `all`: `made/` is lost
    too, at the end of a day."""
    chance = random.Random(f"{settled} {lost}")
    edits, today = Edits(chance, tmp_path, settled), FIRST_DAY
    subscribers = {name: Subscriber() for name in FEEDS}
    seen: set[str] = set()
    shown: set[tuple[str, str]] = set()
    gone = losses = 0
    for number in range(90):
        if number % 8 == 0:
            gone = 0
            today += timedelta(days=chance.choice((1, 1, 5)))
            if lost == "all":
                shutil.rmtree(tmp_path / "made", ignore_errors=True)
                shutil.rmtree(tmp_path / ".backbud", ignore_errors=True)
        if lost == "memory" and not gone and chance.random() < 0.5:
            losses += 1
            shutil.rmtree(tmp_path / ".backbud", ignore_errors=True)
        edits.edit(today)
        made = make(str(tmp_path), today)
        # Wire is taken off parts that have none, too: such a line is held back.
        wrong = [p for p in made.problems if p.severity == "error" and p.code != "held-back"]
        assert wrong == []
        before, shown = shown, set()
        for name, feed in feeds(tmp_path):
            shown.update((name, uid) for uid in subscribers[name].fetch(feed))
        gone += len(before - shown)
        seen.update(uid for _, uid in shown)
    # the edits were about something
    assert len(seen) > 40
    sequences = [rank[0] for one in subscribers.values() for rank, _ in one.taken.values()]
    assert len(set(sequences)) > 8
    assert (losses > 5) is (lost == "memory")


def test_a_moved_follow_up_keeps_its_uid_and_rises(tmp_path: Path) -> None:
    edits = Edits(random.Random(1), tmp_path, "leave")
    # what is three weeks off is rounded to whole weeks, so the day itself is not looked at
    edits.pages[FIRST_DAY] = ["hoshi", "  planned     prune, to 2027-07-01"]
    edits.write()
    make(str(tmp_path), FIRST_DAY)
    before = _entry(tmp_path, "hoshi/planned/pruned-2027-03-20@upper-yard")
    edits.pages[FIRST_DAY] += ["hoshi", "  put-off     prune, to 2027-09-01"]
    edits.write()
    make(str(tmp_path), FIRST_DAY)
    after = _entry(tmp_path, "hoshi/planned/pruned-2027-03-20@upper-yard")
    assert before.dtstart.value < date(2027, 8, 1) < after.dtstart.value
    assert int(after.sequence.value) == int(before.sequence.value) + 1


def _entry(folder: Path, uid: str) -> Any:
    calendar = vobject.readOne((folder / "made/calendars/trees/hoshi.ics").read_bytes().decode())
    (found,) = (entry for entry in calendar.contents["vevent"] if entry.uid.value == uid)
    return found
