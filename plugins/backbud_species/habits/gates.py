"""Reasons to hold a work back: the tree is weak, sick, new, or still answers an earlier work.

Strength first: what is written down of the tree before the day decides. Terms of weeks and years
are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from typing import NamedTuple

from backbud.species import (
    CARE,
    PESTS,
    SEASON,
    ActWord,
    DetailWord,
    Event,
    Proposal,
    Tree,
    Window,
    Year,
    deed_of,
    is_hard_pruning,
    phrase,
    stresses,
)
from backbud_species.habits.done import is_hard_work, last_before, last_of_before
from backbud_species.habits.figures import DECANDLE_FROM, SECOND_FLUSH_K_DAYS
from backbud_species.habits.second_flush import FLUSHES_OVER_C, heat_left
from backbud_species.habits.warmth import summer_against

SICK_FOR = timedelta(weeks=8)
REGROWS_FOR = timedelta(weeks=12)
_A_YEAR = timedelta(days=365)
_A_DAY, _A_WEEK = timedelta(days=1), timedelta(days=7)
# BBCH 10 of a pine: the needles part from the candle, which is cut a week later at the soonest.
_NEEDLES_PART = 10
# A work is found in its window for so long at most.
_ITS_TIME = timedelta(weeks=8)

_PESTS = frozenset(PESTS)
_PARTS = frozenset(["leaves", "needles", "bark", "shoots", "roots", "strength"])
_AILING: tuple[DetailWord, ...] = (
    "rotten",
    "dead",
    "spots",
    "sticky",
    "eaten",
    "yellow",
    "brown",
    "damaged",
    "weak",
)
_SEEN: tuple[DetailWord, ...] = ("some", "many")
_WELL: tuple[DetailWord, ...] = (
    "none",
    "clean",
    "fine",
    "all fine",
    "healthy",
    "healed",
    "green",
    "fair",
    "strong",
)

WRITTEN_WEAK = "The tree is written down as weak."
NOT_LOOKED_AT = "Nobody has written down how strong it is."


class Gate(NamedTuple):
    """What holds a work back: a sentence why, or "" where it may be done.

    `speaks`: whether a look at the tree's strength is proposed in the work's stead.
    """

    shut: Callable[[Tree, date, Year], str]
    speaks: bool


def weakness(tree: Tree, day: date, year: Year) -> str:
    """Why it is too weak for any work."""
    return WRITTEN_WEAK if tree.weak else ""


def _known_until(day: date, year: Year) -> date:
    """The day before which what is written of the tree counts: that of the work, or today while
    its time lasts. A rule is given the tree as it was, so nothing later speaks unless it is asked
    again."""
    return year.today + _A_DAY if day <= year.today <= day + _ITS_TIME else day


def sickness(tree: Tree, day: date, year: Year) -> str:
    """Why it counts as sick: what a check found, or a treatment, in the last eight weeks."""
    last = last_before(tree, _known_until(day, year), _tells_of_health, day - SICK_FOR)
    if last is None:
        return ""
    if last.act == "treated":
        return phrase("It was treated on {day}, less than eight weeks before.", day=last.day)
    return (
        phrase("A check on {day} found it ailing ({text}).", day=last.day, text=last.text)
        if _is_ailing(last)
        else ""
    )


def ails(tree: Tree, day: date, year: Year) -> str:
    """The same, but for a few pests that sit on its shoots, whether they were treated or not."""
    until, since = _known_until(day, year), day - SICK_FOR
    last = last_before(tree, until, _tells_of_health, since)
    if last is not None and last.act == "treated":
        last = last_before(tree, until, _looked_for_health, since)
    return "" if last is not None and _is_light(last) else sickness(tree, day, year)


def newness(tree: Tree, day: date, year: Year) -> str:
    """Why it has not settled: collected this or last growing year, imported, in quarantine."""
    if tree.quarantined:
        return phrase("It stands in quarantine.")
    until = _known_until(day, year)
    collected = last_of_before(tree, until, "collected", first=year.first - _A_YEAR)
    if collected:
        return phrase(
            "It was collected on {day} and has to settle for two growing years.", day=collected.day
        )
    imported = last_before(tree, until, lambda done: done.has("imported"), day - _A_YEAR)
    if imported:
        return phrase("It was imported on {day} and has to settle for a year.", day=imported.day)
    cut_off = last_of_before(tree, until, "separated", first=day - _A_YEAR)
    if cut_off and tree.since == cut_off.day:
        return phrase("It stands on roots of its own only since {day}.", day=cut_off.day)
    return ""


def stress(tree: Tree, day: date, year: Year) -> str:
    """Which hard work was done to it this season: in this growing year, or five months before."""
    last = last_before(tree, _known_until(day, year), stresses, min(year.first, day - SEASON))
    if last is None:
        return ""
    season = phrase("in this same year") if last.day >= year.first else phrase("in the same season")
    return phrase(
        "It was {act} on {day}, {season}.", act=phrase(last.act), day=last.day, season=season
    )


def worked_hard(tree: Tree, day: date, year: Year) -> str:
    """Which root work or hard pruning it still answers: no wire goes on, nor is it bent."""
    last = last_before(tree, _known_until(day, year), is_hard_work, day - SEASON)
    return (
        phrase("It was {act} on {day}, in the same season.", act=phrase(last.act), day=last.day)
        if last
        else ""
    )


def cut_hard(tree: Tree, day: date, year: Year) -> str:
    """Why its shoots are still the answer to a hard cut of the last twelve weeks."""
    last = last_before(tree, _known_until(day, year), is_hard_pruning, day - REGROWS_FOR)
    if last is None:
        return ""
    return phrase("It was cut hard on {day}, less than twelve weeks before.", day=last.day)


def not_strong(tree: Tree, day: date, year: Year) -> str:
    """Why it does not count as strong."""
    if tree.strength == "strong":
        return ""
    return (
        phrase("It is written down as {strength}.", strength=phrase(tree.strength))
        if tree.strength
        else NOT_LOOKED_AT
    )


def done_wrongly(tree: Tree, day: date, year: Year) -> str:
    """Which hard work was done to it this year at the wrong time: it is left alone then, until a
    later look finds it well."""
    last = last_before(tree, _known_until(day, year), stresses, year.first)
    if last is None or not year.against(tree, deed_of(last)):
        return ""
    well = last_before(tree, _known_until(day, year), _is_well, last.day)
    if well is not None:
        return ""
    return phrase("It was {act} on {day}, out of its time.", act=phrase(last.act), day=last.day)


def short_summer(tree: Tree, day: date, year: Year) -> str:
    """Why no second flush ripens at this place."""
    warmth = summer_against(year, DECANDLE_FROM)
    return warmth.datum if warmth.cool else _heat_too_short(year)


def _heat_too_short(year: Year) -> str:
    """Why the heat that is left once the needles have parted makes no second flush."""
    parted = year.stage(_NEEDLES_PART)
    if parted is None:
        return ""
    left = heat_left(year.last_monday, parted.day + _A_WEEK)
    wanted = SECOND_FLUSH_K_DAYS.of(year)
    if left is None or left >= wanted:
        return ""
    return phrase(
        "Once its candles can be cut {left:.0f} K·day above {over_c:g} °C are left of the year, "
        "and a second flush needs {wanted:.0f} ({name}, a setting of ours).",
        left=left,
        over_c=FLUSHES_OVER_C,
        wanted=wanted,
        name=SECOND_FLUSH_K_DAYS.name,
    )


def first_reason(
    *reasons: Callable[[Tree, date, Year], str],
) -> Callable[[Tree, date, Year], str]:
    """The first of several reasons that speaks."""

    def shut(tree: Tree, day: date, year: Year) -> str:
        return next(filter(None, (reason(tree, day, year) for reason in reasons)), "")

    return shut


# No tree is too weak to be looked at, sheltered, or freed of its seed; its feed waits in the plan.
ALWAYS = Gate(lambda tree, day, year: "", speaks=False)
# Pinching, trimming, thinning: not a weak or a sick tree, nor one that has not settled, nor one
# that has to get over what was done wrongly; but beside a few pests. Common practice, no source.
LIGHT_WORK = Gate(first_reason(weakness, ails, newness, done_wrongly), speaks=False)
# Wiring, which bends over shoots that pests sit on and keeps a spray from them: also not beside a
# few of them.
WIRING = Gate(first_reason(weakness, sickness, newness, done_wrongly), speaks=False)
# Trimming of a tree that answers hard pruning with many shoots: also not of that answer.
REGROWN = Gate(first_reason(weakness, ails, newness, cut_hard), speaks=False)
# Pinching and trimming of soft growth: also not in the year of root work or hard pruning.
LEAF_WORK = Gate(first_reason(weakness, ails, newness, stress), speaks=False)
# Leaves off in part: also not beside a few pests.
PART_DEFOLIATION = Gate(first_reason(weakness, sickness, newness, stress), speaks=False)
# Root work: another insult of the season is flagged by the plan, and does not hold it back.
ROOT_WORK = Gate(first_reason(weakness, sickness, newness), speaks=True)
# Defoliation, hard pruning, heavy bending.
HARD_WORK = Gate(first_reason(weakness, sickness, newness, stress), speaks=True)
# The whole leaf: only from a strong tree.
FULL_DEFOLIATION = Gate(first_reason(not_strong, sickness, newness, stress), speaks=True)
# Candle cutting on two-flush pines: strong, unstressed, and a summer long enough.
DECANDLING = Gate(first_reason(not_strong, sickness, newness, stress, short_summer), speaks=True)


def strength_first(window: Window, act: ActWord, reason: str, part: str = "") -> Proposal:
    """A look at the tree's strength in the stead of a work that is held back, and why."""
    return Proposal(
        "checked",
        window,
        what=phrase("strength, and hold the hard work back"),
        because=phrase(
            "It would be {act} now, but a tree takes hard work only in strength and once a season.",
            act=phrase(act),
        ),
        datum=reason,
        settled_by=("checked strength", "vigour", act),
        part=part,
        weight=CARE,
    )


def _tells_of_health(done: Event) -> bool:
    """Whether it was treated, or looked at for what shows sickness, with a finding."""
    if done.act == "treated":
        return not done.says("winter wash")
    return done.act == "checked" and (_is_ailing(done) or done.says(*_WELL))


def _is_well(done: Event) -> bool:
    """Whether its strength was looked at and found."""
    if done.act == "vigour":
        return not done.says("weak")
    return done.act == "checked" and done.says("strength") and done.says(*_WELL)


def _looked_for_health(done: Event) -> bool:
    return done.act == "checked" and _tells_of_health(done)


def _is_light(done: Event) -> bool:
    """Whether a look found a few pests and nothing else that ails; those that eat its roots are
    never few."""
    looked_at = {word for detail in done.all("what") for word in detail.words.split()}
    pests = looked_at & _PESTS
    return bool(pests) and "weevils" not in pests and _is_some(done)


def _is_some(done: Event) -> bool:
    return done.says("some") and not done.says("many", *_AILING)


def _is_ailing(done: Event) -> bool:
    """Whether a check found pests, or leaves, bark or roots that ail."""
    looked_at = {word for detail in done.all("what") for word in detail.words.split()}
    if not looked_at.isdisjoint(_PESTS) and done.says(*_SEEN):
        return True
    return not looked_at.isdisjoint(_PESTS | _PARTS) and done.says(*_AILING)
