"""What a kind of tree is never given, as judges that speak where it was given, or is planned."""

from __future__ import annotations

from datetime import timedelta

from backbud.species import Deed, Event, Judge, Tree, Year, phrase
from backbud_species.habits.done import is_root_work, last_before
from backbud_species.habits.figures import SECOND_FLUSH_K_DAYS
from backbud_species.habits.roots import share_taken
from backbud_species.habits.second_flush import FLUSHES_OVER_C, heat_left

# Shoots that answer a hard cut need so long to ripen; common practice, no source.
_RIPENS_IN = timedelta(weeks=10)
_A_DAY = timedelta(days=1)
# BBCH: first leaves.
_LEAVES = 10
# From half the roots off a pine has none left to feed a second flush; common practice.
_HALF = 0.5


def hard_before_winter(tree: Tree, deed: Deed, year: Year) -> str:
    """Against a hard cut in autumn: the new shoots do not ripen before the frost."""
    if deed.act != "pruned" or not deed.hard:
        return ""
    frost = year.cold_nights_begin(0.0)
    first = frost.day if frost else None
    if first is None:
        if year.outlook is not None:
            return ""
        first = year.on((11, 1))
    midwinter = year.on((12, 31))
    if not first - _RIPENS_IN < deed.last <= max(midwinter, first):
        return ""
    return phrase(
        "{judged}, hard: its new shoots do not ripen before the frost, about {first}.",
        judged=deed.judged,
        first=first,
    )


def sap_is_rising(tree: Tree, deed: Deed, year: Year) -> str:
    """Against cuts from the new year until the leaves are out: they bleed (RHS via the press 2024;
    a grower's account via the Napa Valley Register)."""
    leaves = year.stage(_LEAVES)
    ends = leaves.day if leaves else year.on((4, 15))
    if deed.act != "pruned" or not (year.on((1, 1)) <= deed.last and deed.first < ends):
        return ""
    return phrase(
        "{judged}: its sap rises, so the cuts bleed; no more until the leaves are out.",
        judged=deed.judged,
    )


def silver_leaf_about(tree: Tree, deed: Deed, year: Year) -> str:
    """Against cuts outside of summer, when spores of silver leaf enter them (from memory)."""
    if deed.act != "pruned" or not deed.hard:
        return ""
    if year.on((5, 15)) <= deed.last and deed.first <= year.on((9, 7)):
        return ""
    return phrase(
        "{judged}, hard: silver leaf enters cuts that are not made in summer.", judged=deed.judged
    )


def never_stripped(tree: Tree, deed: Deed, year: Year) -> str:
    """Against taking all leaves at once off a tree that makes too few new ones, or none."""
    if deed.act != "defoliated" or not deed.hard:
        return ""
    return phrase(
        "{judged}, all leaves at once: it makes few new ones before the next spring.",
        judged=deed.judged,
    )


def no_second_flush(tree: Tree, deed: Deed, year: Year) -> str:
    """Against a plan to cut candles of a pine of one flush; its own rule tells what was done."""
    if deed.act != "decandled" or not deed.planned:
        return ""
    return phrase(
        "{judged}: it makes one flush a year, and none follows the cut candles.", judged=deed.judged
    )


def too_little_heat_left(tree: Tree, deed: Deed, year: Year) -> str:
    """Against cutting candles where the heat that is left makes no second flush."""
    left = heat_left(year, deed.first) if deed.act == "decandled" else None
    wanted = SECOND_FLUSH_K_DAYS.of(year)
    if left is None or left >= wanted:
        return ""
    return phrase(
        "{judged}: {left:.0f} K·day above {over_c:g} °C are left of the year, "
        "and a second flush needs {wanted:.0f} ({name}, a setting of ours).",
        judged=deed.judged,
        left=left,
        over_c=FLUSHES_OVER_C,
        wanted=wanted,
        name=SECOND_FLUSH_K_DAYS.name,
    )


def after_root_work(tree: Tree, deed: Deed, year: Year) -> str:
    """Against cutting candles in the year in which half of its roots went."""
    if deed.act != "decandled":
        return ""
    cut = last_before(tree, deed.last + _A_DAY, lambda done: _took_half(tree, done), year.first)
    if cut is None:
        return ""
    return phrase(
        "{judged}, after half of its roots and more went on {day}.", judged=deed.judged, day=cut.day
    )


def _took_half(tree: Tree, done: Event) -> bool:
    taken = share_taken(tree, done) if is_root_work(done) else None
    return taken is not None and taken.share >= _HALF - 1e-9


SECOND_FLUSH: tuple[Judge, ...] = (too_little_heat_left, after_root_work)
