"""Spares a tree that has to recover: while what helps it is open, no season asks for feed or for
work on its shape, nor for its shape while its roots or leaves are fresh.

A work that asks for care says what must not be done meanwhile; here that is kept. Common practice,
no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from typing import NamedTuple

from msgspec.structs import replace

from backbud.collection.hard_work import cuts_roots, stresses
from backbud.collection.state import Tree
from backbud.plan.common.buds_dead import BUDS_DEAD
from backbud.plan.common.leaves_damaged import LEAVES_DAMAGED
from backbud.plan.common.leaves_dry import LEAVES_DRY
from backbud.plan.common.out_of_its_time import OUT_OF_ITS_TIME
from backbud.plan.common.rot_found import ROOTS_ROT
from backbud.plan.due import Due
from backbud.plan.of_batches import OF_SHAPE
from backbud.plan.once_past import late_until
from backbud.species import ROOTS_REST, Window
from backbud_grammar.act_words import ActWord

# New leaves stand by then; common practice, no source.
_NEW_LEAVES = timedelta(weeks=6)
# Rot that nobody cuts out holds all back for so long; ours, no source.
_ROT = timedelta(days=365)
# So many days of its time at the least are left for what waits; ours, no source.
_TIME_LEFT, _A_DAY = timedelta(days=7), timedelta(days=1)
_RESTS: Mapping[ActWord, timedelta] = {"defoliated": _NEW_LEAVES}
_ILL = frozenset({BUDS_DEAD, LEAVES_DAMAGED, LEAVES_DRY, ROOTS_ROT})


class Spell(NamedTuple):
    """Days on which a tree is spared feed, work on its shape, or both."""

    since: date
    until: date
    feed: bool = True
    shape: bool = True


def spared(dues: Sequence[Due], tree: Tree, today: date) -> Sequence[Due]:
    """The dues; what a season asks for waits until the spell is over, or is asked for no more."""
    spells = [*_of_care(dues, today), *_of_fresh(tree)]
    return [_waiting(due, spells) for due in dues] if spells else dues


def _of_care(dues: Iterable[Due], today: date) -> Iterator[Spell]:
    """While a look or a cure that was asked for is open: until it is answered, as it should be by
    the end of its days; where nobody answers, for as long as it is late."""
    for due in dues:
        done, one = due.event, due.follow_up
        if done is None or one.outcome != "open":
            continue
        closes = one.window.closes
        until = closes if today <= closes else late_until(closes, one.schedule)
        if due.rule == ROOTS_ROT:
            yield Spell(done.day, done.day + _ROT)
        elif due.rule in _ILL:
            yield Spell(done.day, until)
        elif due.rule == OUT_OF_ITS_TIME and done.act != "decandled":
            # What was pruned is fed on; candles cut late are fed at once.
            yield Spell(done.day, until, feed=done.act != "pruned")


def _of_fresh(tree: Tree) -> Iterator[Spell]:
    """Roots that were cut hold no hard work for four weeks, a bare tree none on its shoots."""
    for entry in tree.history:
        done = entry.event
        rests = ROOTS_REST if cuts_roots(done.row) else _RESTS.get(done.act)
        if rests is not None and done.exact and not entry.undone and stresses(done):
            yield Spell(done.day, done.day + rests, feed=False)


def _waiting(due: Due, spells: Sequence[Spell]) -> Due:
    """A work that waits until no spell is on."""
    one = due.follow_up
    if one.outcome != "open" or one.promised:
        return due
    is_feed = one.act == "fed"
    if not is_feed and (due.event is not None or one.row.work not in OF_SHAPE):
        return due
    opens = one.window.opens
    for spell in sorted(spells):
        if (spell.feed if is_feed else spell.shape) and spell.since <= one.window.closes:
            opens = max(opens, spell.until + _A_DAY) if opens <= spell.until else opens
    if opens == one.window.opens:
        return due
    if opens + _TIME_LEFT > one.window.closes + _A_DAY:
        return replace(due, follow_up=replace(one, outcome="replaced", settled=None))
    window = Window(opens, max(one.window.best, opens), one.window.closes)
    return replace(due, follow_up=replace(one, window=window))
