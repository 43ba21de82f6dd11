"""A work that was done at the wrong time, or against what its species bears, asks for aftercare.

Common practice, no source: what was done is done, and the tree is helped over it.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import timedelta

from backbud.plan.common.seasons import not_while_it_rests
from backbud.species import (
    PRESSING,
    Event,
    Proposal,
    Proposals,
    Schedule,
    Tree,
    Year,
    after,
    days_after,
    deed_of,
)
from backbud.tongue import phrase
from backbud_grammar.act_words import ActWord

OUT_OF_ITS_TIME = "out-of-its-time"
_ROOTS = "Shade, still air and no frost; water with care, and no feed until it grows."
_TOP = "Cut no more; keep what shoots now from frost, under unheated glass where there is some."
_LEAVES = "Shade, still air and little water until new leaves stand, and no feed before that."
_CANDLES = "Full sun, feed from now on, every needle left on, and no hard work for a year."
# New leaves stand by then, or nobody asks after them any more.
_BARE = timedelta(weeks=10)
_NO_MORE = "No other hard work until it grows again."
_CARE: Mapping[ActWord, str] = {"decandled": _CANDLES, "pruned": _TOP, "defoliated": _LEAVES}


@after("pruned", "decandled", "defoliated", having=("root_work",), rule=OUT_OF_ITS_TIME)
def help_it_over(tree: Tree, done: Event, year: Year) -> Proposals:
    against = year.against(tree, deed_of(done))
    if not against:
        return
    care = _CARE.get(done.act, _ROOTS)
    window = days_after(done.day, 0, 14, 42)
    yield Proposal(
        "checked",
        window,
        what=phrase("strength: it was {act} out of its time", act=phrase(done.act)),
        because=" ".join(against),
        cautions=(care,) if done.act == "decandled" else (care, _NO_MORE),
        # As a look at a tree that lost too much of its roots: one look is one line.
        settled_by=("checked strength", "checked roots", "vigour")
        if "root_work" in done.row.traits
        else ("checked strength", "vigour"),
        weight=PRESSING,
        schedule=Schedule(over=done.day + _BARE)
        if done.act == "defoliated"
        else not_while_it_rests(window, year),
    )
