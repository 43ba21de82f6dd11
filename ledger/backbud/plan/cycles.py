"""Tells each due from which day the next of its kind stands for it, so that none pile up."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date

from msgspec.structs import replace

from backbud.plan.due import Due
from backbud.plan.followups import NOW_BEFORE, FollowUp
from backbud.plan.keepers import PLANNED
from backbud.words import monday_of
from backbud_grammar.act_words import ActWord

# Acts of which the next one stands for the last, whichever rule asked for it.
ONE_FOR_ALL: frozenset[ActWord] = frozenset({"fed"})
# Rules that ask about one thing, one after another: when wire is told to come off, nobody asks
# for a look at it any more.
ONE_CHAIN = {"wire-check": "wire", "wire-check-again": "wire", "wire-off": "wire"}

COMES_OFF = frozenset({"wire-off"})
_OFF: ActWord = "unwired"


def with_cycles(dues: Iterable[Due], southern: bool) -> list[Due]:
    """Tell each due when the next of its rule and part, by another cause, stands for it.

    That is the day the next one's window opens; at once where that opens no later than its own. A
    look at wire stands until the wire is told to come off, as long as wood swells.
    """
    chains: dict[tuple[str, ...], list[Due]] = {}
    for due in dues:
        chains.setdefault(_chain_of(due), []).append(due)
    out: list[Due] = []
    for chain in chains.values():
        chain.sort(key=lambda due: (due.follow_up.window.opens, due.at, due.follow_up.id))
        for n, due in enumerate(chain):
            following = next((other for other in chain[n + 1 :] if _is_another(other, due)), None)
            out.append(
                due if following is None else _until(due, _stands_from(due, following, southern))
            )
    return out


def overtaken(dues: Iterable[Due]) -> list[Due]:
    """Close what is still open and was overtaken by the next before its own window."""
    return [_replaced(due) if _is_overtaken(due.follow_up) else due for due in dues]


def _is_overtaken(follow_up: FollowUp) -> bool:
    following = follow_up.next_cycle
    return (
        follow_up.outcome == "open"
        and following is not None
        and (following <= follow_up.window.opens)
    )


def _replaced(due: Due) -> Due:
    return replace(due, follow_up=replace(due.follow_up, outcome="replaced"))


def _chain_of(due: Due) -> tuple[str, ...]:
    act = due.follow_up.act
    if act in ONE_FOR_ALL:
        return (act,)
    asked = (ONE_CHAIN[due.rule],) if due.rule in ONE_CHAIN else (due.rule, act)
    return (*asked, due.part.casefold())


def _is_another(following: Due, due: Due) -> bool:
    # What has to come off has to, however often it is looked at.
    if due.rule in COMES_OFF and following.rule not in COMES_OFF:
        return False
    # Nor does what was seen to bite wait for the day on which wire usually comes off.
    if due.follow_up.act == _OFF and following.rule in COMES_OFF and due.rule not in COMES_OFF:
        return False
    return (following.rule, following.cause) != (due.rule, due.cause)


def _warm_half_ends(day: date, southern: bool) -> date:
    """The end of the warm half of the year that a day lies in; the day itself in the cold half."""
    first, last = (10, 4) if southern else (4, 10)
    warm = (day.month >= first or day.month < last) if southern else first <= day.month < last
    if not warm:
        return day
    return date(day.year + (southern and day.month >= first), last, 1)


def _stands_from(due: Due, following: Due, southern: bool) -> date:
    opens = following.follow_up.window.opens
    if following.rule in COMES_OFF and due.rule not in COMES_OFF:
        # Until then nobody is told to take it off; while wood swells, it is looked at.
        told = monday_of(following.follow_up.window.best) - NOW_BEFORE
        return max(opens, min(told, _warm_half_ends(opens, southern)))
    if following.event is not None and opens <= due.follow_up.window.opens:
        return following.event.day
    if due.rule == PLANNED and following.event is not None:
        # What was planned again once its time had passed is closed by that.
        said = following.event.day
        return said if due.follow_up.window.closes < said else opens
    return opens


def _until(due: Due, day: date) -> Due:
    return replace(due, follow_up=replace(due.follow_up, next_cycle=day))
