"""Random diaries of any species, compiled whole: what must hold for every follow-up of a plan.

A diary is drawn as dated lines that a practitioner might write, each act in its months of the
year, and goes through a real journal: written, read, planned.
"""

from __future__ import annotations

import os
import re
from datetime import date, timedelta
from typing import Any, NamedTuple

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.species.conftest import COOL_HIGH, COOL_LOW, WARM_HIGH, WARM_LOW, turned
from tests.species.test_every_species import KINDS, TWO_FLUSH

from backbud.plan.common import RULES
from backbud.plan.followups import FollowUp
from backbud.species import rules_of
from backbud_grammar.acts import ACTS
from backbud_species.habits.gates import strength_first

YEARS = (2023, 2024, 2025, 2026)
TODAYS = ("2026-02-20", "2026-05-10", "2026-07-20", "2026-11-20")
OPEN = ("overdue", "now", "coming")
PAST_FORMS = {form.word for form in ACTS}
COMMON_IDS = {rule.id for module in RULES for rule in rules_of(module)}
KEEPERS_IDS = {"planned", "check-again", "hand-back"}

# Each line with the northern months in which it is written.
ALL_YEAR = tuple(range(1, 13))
LINES: tuple[tuple[str, tuple[int, ...]], ...] = (
    ("pruned hard on left 1", (2, 3, 6, 7, 11)),
    ("pruned by a third on apex", (2, 6)),
    ("pruned light", (3, 6, 8, 11)),
    ("repotted same pot", (3, 4, 6)),
    ("repotted same pot, off 30 %, mix akadama", (2, 3, 4)),
    ("repotted same pot, off 90 %, wedges N E S", (3, 4)),
    ("repotted same pot, no root work", (5, 9)),
    ("potted-on loosened", (3, 4, 5)),
    ("root-pruned off 30 %", (3, 4)),
    ("slipped", (5, 6)),
    ("wired 2 mm Al on left 1", (1, 2, 6, 11, 12)),
    ("wired 3 mm Cu on trunk", (2, 10)),
    ("bent heavy on trunk", (2, 6, 11)),
    ("bent light on left 1", (2, 6)),
    ("trimmed", (5, 6, 7, 8)),
    ("trimmed low", (6,)),
    ("pinched", (4, 5, 6)),
    ("defoliated full", (6,)),
    ("defoliated partial", (6, 7)),
    ("decandled", (6, 7)),
    ("decandled weak", (6,)),
    ("plucked", (10, 11)),
    ("thinned", (9, 10)),
    ("treated soft soap, against scale", (5, 6, 9)),
    ("treated lime sulphur, winter wash", (1, 12)),
    ("checked pests many", (5, 7, 9)),
    ("checked pests none", (5, 8)),
    ("checked strength weak", (4, 6, 9)),
    ("checked roots rotten", (3, 9)),
    ("checked roots fine", (3,)),
    ("checked wire loose", (4, 7)),
    ("vigour top 4, low 2", (6, 9)),
    ("vigour weak", (5, 9)),
    ("vigour strong", (6, 9)),
    ("vigour 3", (7,)),
    ("fed", (4, 5, 6, 9)),
    ("watered", ALL_YEAR),
    ("moved glass", (3, 11)),
    ("moved yard", (4, 5)),
    ("protected fleece", (1, 11)),
    ("shaded 40 %", (6, 7)),
    ("disbudded all", (4, 5)),
    ("deadheaded", (5, 6)),
    ("carved jin on left 3", (1, 2, 8)),
    ("drained 3 min", ALL_YEAR),
    ("opened hard surface", (5, 7)),
    ("noted a hard surface", (6,)),
    ("grafted thread, on right 1, taped", (3,)),
    ("layered on apex", (5, 6)),
    ("planned repot, to 2027-03", (9, 10, 11)),
    ("put-off repot, to 2027-04", (3, 4)),
    ("skipped feed", (6,)),
    ("staged 10", (4,)),
)
ARRIVALS = ("bought", "bought imported", "collected", "received imported", "noted here all along")


class Diary(NamedTuple):
    """What is drawn: a tree of a species at a place, and its dated lines."""

    kind: Any
    southern: bool
    weather: str
    strength: str
    lines: tuple[tuple[date, str], ...]

    def cards(self) -> str:
        """The places, the tree, and another tree that nothing hangs on."""
        means = {"cool": (COOL_LOW, COOL_HIGH), "warm": (WARM_LOW, WARM_HIGH)}.get(self.weather)
        months = ""
        if means:
            low, high = (turned(m) if self.southern else m for m in means)
            months = f"  low  {_row(low)} C\n  high  {_row(high)} C\n"
        strength = f"  strength  {self.strength}\n" if self.strength else ""
        return (
            f"place yard\n  cover  open\n  latitude  {-45 if self.southern else 50}\n{months}\n"
            "place glass\n  within  yard\n  cover  unheated glass\n\n"
            f"tree sora\n  kind  {self.kind.botanical}\n  place  yard\n{strength}\n"
            "tree other\n  kind  a shrub of no known sort\n  place  yard\n"
        )

    def pages(self, more: tuple[tuple[date, str], ...] = ()) -> str:
        """The diary, a page for each day."""
        lines = sorted((*self.lines, *more), key=lambda line: line[0])
        return "\n".join(f"{day}\nsora\n  {text}\n" for day, text in lines)


def _row(months: tuple[float, ...]) -> str:
    return " ".join(f"{value:g}" for value in months)


def _day(year: int, month: int, day: int, southern: bool) -> date:
    return date(year, (month + 5) % 12 + 1 if southern else month, day)


@st.composite
def diaries(draw: st.DrawFn, kinds: Any = KINDS, until: str = "2026-11-20") -> Diary:
    """A tree of any of these species, and what a practitioner may have written of it until a day."""
    southern = draw(st.booleans())
    last = date.fromisoformat(until)
    lines = []
    arrival = draw(st.sampled_from(ARRIVALS))
    come = _day(draw(st.sampled_from(YEARS[:3])), draw(st.integers(1, 12)), 5, southern)
    for text, months in draw(st.lists(st.sampled_from(LINES), max_size=9)):
        year, month = draw(st.sampled_from(YEARS)), draw(st.sampled_from(months))
        lines.append((_day(year, month, draw(st.integers(6, 28)), southern), text))
    return Diary(
        draw(st.sampled_from(kinds)),
        southern,
        draw(st.sampled_from(("cool", "warm", "unknown"))),
        draw(st.sampled_from(("", "weak", "fair", "strong"))),
        ((come, arrival), *((day, text) for day, text in lines if come < day <= last)),
    )


def planned(written, diary, today, more=(), before="", files=()):
    """The follow-ups of the tree by id."""
    text = diary.cards() + "\n" + before + diary.pages(more)
    session = written(text, today, files=dict(files), settings='home = "yard"\n')
    return {one.id: one for one in session.plan().follow_ups["sora"]}


if __name__ == "__main__":
    pass
