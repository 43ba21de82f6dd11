"""An invented nursery, rich enough that every part of the pages shows something."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta
from decimal import Decimal
from math import cos, pi
from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import replace

from backbud.collection.state import Entry, OnTree, Tree, Zone
from backbud.journal.events import Event, Origin
from backbud.pages import Nursery, SpeciesFact, SpeciesFacts
from backbud.plan.followups import FollowUp, Reason, reason_on
from backbud.session import open_session
from backbud.species import Window
from backbud.views.skies import weather_of
from backbud.views.sky import Weather
from backbud_grammar.acts import ROWS
from backbud_grammar.dates import read_date
from backbud_grammar.forms import NO_ACT
from backbud_grammar.measures import Measure
from backbud_grammar.syntax import Detail

TODAY = date(2026, 11, 25)


def event(act: str, when: str, text: str = "", remark: str = "", *, named: str = "",
          line: int = 1, file: str = "", details: tuple[Detail, ...] = ()) -> Event:  # fmt: skip
    written = read_date(when)
    file = file or f"diary/{written.first.year}.txt"
    row = ROWS.get(act, NO_ACT)
    return Event(act, written, details, text, remark, named, "hoshi", file, line, 3, row=row,
                 named_row=ROWS.get(named, NO_ACT))  # fmt: skip


def tree(handle: str, kind: str = "trident maple", **given: Any) -> Tree:
    plain: dict[str, Any] = {
        "first_handle": handle, "name": "", "cultivar": "", "standing": "here",
        "standing_since": None, "owner": "", "place": "tunnel", "pot": "", "mix": "",
        "strength": "", "planted_out": False, "quarantined": False, "wanted": "", "sizes": {},
        "facts": {}, "zones": (), "opened": (), "on_tree": (), "last": {}, "history": (),
    }  # fmt: skip
    return Tree(handle=handle, kind=kind, **(plain | given))


def plan(tree: str, act: str, title: str, window: tuple[date, date, date], *,
         because: Iterable[Reason] = (), minutes: int = 20, **given: Any) -> FollowUp:  # fmt: skip
    reasons = tuple(because) or (Reason("rule", "The trade expects it now."),)
    ident = f"{tree}/{act}/{title} {window[0]}"
    given = {"row": ROWS.get(act, NO_ACT), **given}
    return FollowUp(ident, tree, act, title, Window(*window), reasons,
                    given.pop("cautions", ()), minutes, (act,), **given)  # fmt: skip


def around(opens: int, best: int, closes: int) -> tuple[date, date, date]:
    """A window by days from today."""
    return (TODAY + timedelta(opens), TODAY + timedelta(best), TODAY + timedelta(closes))


def _wired() -> tuple[Reason, ...]:
    return (
        Reason("diary", "Wired 3 mm Al on left 2 on 4 May 2026.", "diary/2026.txt", 214, 3),
        Reason("rule", "Wire on a trident maple bites within six weeks of strong growth."),
        Reason("datum", "29 weeks have passed since, and the branch thickened until leaf fall."),
    )


def _long_history() -> tuple[Entry, ...]:
    """Twenty years of a tree, with everything that an entry can show."""
    entries = [Entry(event("bought", "2006~", "from a grower in the next valley"))]
    for year in range(2007, 2027):
        rows = (
            ("noted", f"{year}-01-18", "buds tight, no frost damage", ""),
            ("fed", f"{year}-04-22", "20-10-20 0.5 g/L", ""),
            ("pinched", f"{year}-05-11", "back to 2 leaves", "strong shoots on the right only"),
            ("wired", f"{year}-06-02", "2.5 mm Al on left 2, 2 mm Al on apex", ""),
            ("pruned", f"{year}-11-03", "hard on right 3", "sealed at once"),
        )
        entries += [
            Entry(event(act, when, text, remark, line=40 + at))
            for at, (act, when, text, remark) in enumerate(rows)
        ]
    spring = event("repotted", "2024-03-09", "same pot, 2 cm off below, wedges N E S, mix maple",
                   line=12)  # fmt: skip
    said = event("corrected", "2024-03-12", "repotted 2024-03-09, 1 cm off below",
                 "measured again at the bench", named="repotted", line=19)  # fmt: skip
    right = event("repotted", "2024-03-09", "same pot, 1 cm off below, wedges N E S, mix maple",
                  line=12)  # fmt: skip
    undone = event("defoliated", "2025-06-20", "full", line=61)
    taken_back = event("corrected", "2025-06-22", "defoliated 2025-06-20, not done",
                       "that was Yuki", named="defoliated", line=66,
                       details=(Detail("not done"),))  # fmt: skip
    entries += [
        Entry(right, corrected_by=said, as_written=spring),
        Entry(event("private", "2026-03-02", "promised to Odile if the nebari closes", line=88)),
        Entry(event("worked", "2026-11-03", "4 h at pruning", line=301), among=6),
        Entry(event("moved", "2014-21", "tunnel")),
        Entry(undone, corrected_by=taken_back, as_written=undone),
        Entry(event("planned", "2026-11-20", "to 2028-03", named="repotted", line=320)),
        Entry(
            event(
                "noted",
                "2026-11-20",
                "a thick root crosses under the front; take it next "
                "time. גזע רחב, and the bark is plating",
                line=321,
            )
        ),
    ]
    return tuple(sorted(entries, key=lambda e: (e.event.day, e.event.line)))


def _hoshi() -> Tree:
    wired = event("wired", "2026-05-04", "3 mm Al on left 2, 2 mm Al on apex", line=214)
    before = event("repotted", "2022-03-12", "tied 2 mm x 2", line=30)
    return tree(
        "hoshi", name="Hoshi", cultivar="Evening Rill", owner="marrow", place="tunnel",
        pot="tray-7", mix="maple", strength="strong", wanted="2027-05",
        since=date(2006, 1, 1),
        sizes={
            "trunk": Measure((Decimal(9),), "cm", "length"),
            "root ball": Measure((Decimal(34), Decimal(24), Decimal(6)), "cm", "size"),
        },
        facts={"since": "2006~", "style": "informal upright", "front": "the scar low on the left",
               "origin": "air layer from a field tree", "note": "Odile may sell it",
               "passport": "ZZ-0-114"},
        zones=(Zone("apex", 5, date(2026, 9, 2)), Zone("left 2", 3, date(2026, 9, 2)),
               Zone("low right", 1, date(2025, 9, 14))),
        opened=(("N", date(2024, 3, 9)), ("E", date(2024, 3, 9)), ("S", date(2024, 3, 9)),
                ("W", date(2019, 3, 2))),
        on_tree=(
            OnTree("wire", "3 mm Al", "left 2", 1, date(2026, 5, 4), wired, 3.0),
            OnTree("wire", "2 mm Al", "apex", 1, date(2026, 5, 4), wired, 2.0),
            OnTree("guy", "1.5 mm Cu", "right 1", 1, date(2026, 6, 1), wired, 1.5),
            OnTree("tie", "2 mm", "", 2, date(2022, 3, 12), before, 2.0, from_before=True),
            OnTree("mesh", "mesh", "", 2, date(2024, 3, 9), before),
            OnTree("protection", "fleece", "", 1, date(2026, 11, 18), wired),
        ),
        history=_long_history(),
    )  # fmt: skip


def rich_nursery() -> Nursery:
    names = {
        "marrow": "Odile Marrow", "birkwell": "Tam Birkwell", "tunnel": "Tunnel",
        "north-bench": "North bench", "frame": "Cold frame", "tray-7": "Grey tray, no 7",
        "maple": "Maple mix",
    }  # fmt: skip
    trees = (
        _hoshi(),
        tree("yuki", "satsuki azalea", name="Yuki", cultivar="Late Ferry", place="north-bench",
             strength="weak", since=date(2019, 4, 2)),
        tree("old-goat", "Japanese black pine", name="Old Goat", place="north-bench",
             strength="strong", since=date(1998, 5, 1), facts={"since": "1998"}),
        tree("ferryman", "Chinese juniper", name="The Ferryman at the Three-Arched Bridge",
             owner="birkwell", place="north-bench", since=date(2024, 10, 5)),
        tree("little-red", "trident maple", owner="marrow", place="frame",
             since=date(2026, 3, 30)),
        tree("star", "trident maple", name="星降る夜", place="tunnel", since=date(2021, 3, 1)),
        tree("shajara", "European olive", name="شجرة الوادي", owner="birkwell", place="tunnel",
             since=date(2022, 8, 1)),
        tree("two-sisters", "Japanese larch", name="Two Sisters", place="north-bench",
             planted_out=True, since=date(2015, 3, 20)),
        tree("moth", "hornbeam", name="Moth", place="tunnel", quarantined=True,
             since=date(2026, 11, 2)),
        tree("pip", "field maple", place="frame", since=date(2026, 9, 9)),
        tree("anvil", "yew", name="Anvil", standing="sold", standing_since=date(2024, 3, 3),
             since=date(2010, 1, 1), facts={"since": "2010~"}),
        tree("cinder", "satsuki azalea", name="Cinder", standing="died",
             standing_since=date(2026, 2, 9), since=date(2018, 5, 5),
             history=(Entry(event("died", "2026-02-09", "of root rot", line=9)),)),
    )  # fmt: skip
    deadwood = ("Lime sulphur burns skin and eyes: gloves, glasses, open air; the label and "
                "local law decide.")  # fmt: skip
    done = event("checked", "2026-06-30", "wire, fine, again in 4 weeks", line=240)
    skipped = event("skipped", "2026-06-12", "", "too weak after the hail", named="defoliated",
                    line=233)  # fmt: skip
    plans = {
        "hoshi": (
            plan("hoshi", "unwired", "take the wire off left 2", around(-40, -30, -12),
                 because=_wired(), minutes=25),
            plan("hoshi", "untied", "take the old ties out", around(-5, 2, 20), minutes=10,
                 because=(reason_on("diary", "Tied 2 mm x 2 on 12 March 2022, before the last "
                                 "repotting.", Origin("diary/2022.txt", 30, 3)),)),
            plan("hoshi", "pruned", "prune hard on right 3", around(60, 75, 100), minutes=60,
                 cautions=("One insult a season: it was repotted this spring.",)),
            plan("hoshi", "repotted", "repot", around(462, 480, 500), minutes=90, planned=True,
                 because=(reason_on("plan", "Planned on 20 November 2026.",
                                 Origin("diary/2026.txt", 320, 3)),)),
            plan("hoshi", "checked", "check the wire", around(-170, -160, -140), outcome="done",
                 settled=done),
            plan("hoshi", "defoliated", "defoliate", around(-180, -170, -160), outcome="skipped",
                 settled=skipped),
            plan("hoshi", "fed", "feed", around(-90, -80, -70), outcome="replaced"),
        ),
        "yuki": (
            plan("yuki", "moved", "move under unheated glass", around(-3, 0, 4), minutes=5,
                 because=(
                     reason_on("diary", "Repotted on 14 October 2026.",
                            Origin("diary/2026.txt", 290, 3)),
                     Reason("rule", "An evergreen azalea roots badly in a cold spell after root "
                            "work."),
                     Reason("datum", "The 21 days from 25 November average 6 °C here (from the "
                            "place's monthly means)."),
                 ),
                 cautions=("Azalea is poisonous, all of it: wash your hands before you eat.",)),
        ),
        "old-goat": (
            plan("old-goat", "plucked", "pluck old needles", around(-20, -4, 18), minutes=90,
                 because=(Reason("season", "Autumn 2026, after growth has stopped."),)),
            plan("old-goat", "treated-deadwood", "treat the deadwood on the apex",
                 around(9, 14, 28), minutes=40, cautions=(deadwood,)),
        ),
        "ferryman": (
            plan("ferryman", "checked", "check the guy on right 1", around(6, 6, 6), minutes=5),
            plan("ferryman", "wired", "wire the second branch", around(20, 33, 60), minutes=120,
                 moved_from=Window(*around(-30, -20, -10))),
        ),
        "star": (
            plan("star", "protected", "protect the pot against frost", around(-10, -6, -2),
                 minutes=10,
                 because=(Reason("datum", "Frost of -4 °C comes here in one autumn of two by "
                                 "20 November."),),
                 cautions=("A shallow pot freezes through sooner than the ground.",)),
        ),
        "shajara": (plan("shajara", "moved", "bring it in", around(2, 3, 9), minutes=0),),
        "moth": (plan("moth", "released", "end the quarantine", around(10, 12, 20), minutes=5),),
    }  # fmt: skip
    maple = SpeciesFacts("trident maple", "Acer buergerianum", (
        SpeciesFact("hardiness", "RHS H5", "from memory"),
        SpeciesFact("root-zone pH", "5.5 to 6.5", "common practice, no source"),
        SpeciesFact("repotting", "every 2 to 4 years, usually 3", "common practice, no source"),
    ))  # fmt: skip
    problem = (
        "diary/2026.txt:302:3  unknown-act\n"
        "    wird  3 mm Al on left 2\n"
        "    ^^^^\n"
        "  “wird” is no act known here. Did you mean wired?"
    )
    return Nursery(
        title="Ash Hollow journal", today=TODAY, home="Ash Hollow", trees=trees, plans=plans,
        names=names, problems=(problem,),
        species={
            "hoshi": maple, "star": maple, "little-red": maple,
            "yuki": SpeciesFacts("satsuki azalea", "Rhododendron Satsuki Group"),
            "old-goat": SpeciesFacts("Japanese black pine", "Pinus thunbergii"),
        },
    )  # fmt: skip


WEATHER_CARDS = """\
place tunnel
  cover      tunnel
  within     hollow

place hollow
  name       Ash Hollow
  latitude   52
  low        0 0 1 3 5 8 10 10 8 5 3 1 C
  high       6 7 9 12 15 17 19 18 16 12 9 6 C
  rain       118 88 84 62 66 68 82 92 98 124 118 126 mm
  weather    days.csv

pot tray-7
  inside     38 x 27 x 7 cm

tree hoshi
  kind       trident maple
  place      tunnel
  pot        tray-7

tree moth
  kind       hornbeam
  place      tunnel
"""


def some_weather(folder: Path) -> Weather:
    """Four winters of an invented place: a wave through the year, and a little saw on it."""
    (folder / "backbud.toml").write_text('language = 1\nhome = "hollow"\n')
    (folder / "cards.txt").write_text(WEATHER_CARDS)
    rows = ["date,low,high,rain"]
    for n in range((TODAY - date(2022, 7, 1)).days):
        day = date(2022, 7, 1) + timedelta(days=n)
        mean = 9 - 9 * cos(2 * pi * (day.timetuple().tm_yday - 20) / 365.25) + n * 7 % 11 - 5
        rows.append(f"{day},{mean - 4:.1f},{mean + 4:.1f},{n % 3}")
    (folder / "days.csv").write_text("\n".join(rows) + "\n")
    session = open_session(str(folder), TODAY)
    plan = session.plan()
    return weather_of(session.journal, plan.trees.values(), plan.species, session.weather, TODAY)


@pytest.fixture(scope="session")
def nursery(tmp_path_factory: pytest.TempPathFactory) -> Nursery:
    return replace(rich_nursery(), weather=some_weather(tmp_path_factory.mktemp("weather")))
