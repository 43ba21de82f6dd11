"""Says why a tree should not go home yet: what runs on it, and what it is too weak for."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date

from msgspec import Struct

from backbud.collection.state import Tree
from backbud.tongue import phrase
from backbud.views.work import WorkView

# What ends something that runs on a tree, and must not be broken off by sending it home.
_ENDS_CARE = {
    "unprotected": "its winter shelter",
    "unshaded": "its shade",
    "released": "its quarantine",
}

# In the id of the work that brings a tree out of its winter quarters.
_OUT_AGAIN = "/winter-quarters-out/"
_WINTER_QUARTERS = {_OUT_AGAIN: "its stay in winter quarters"}


class HoldView(Struct, frozen=True):
    """Something that runs on a tree and should not be broken off before a day: the work that ends
    it, and `runs`, what it is."""

    title: str
    until: date
    runs: str = ""


def holds_of(waiting: Iterable[WorkView]) -> tuple[HoldView, ...]:
    """What runs on a tree, from the work that waits."""
    return tuple(HoldView(work.title, work.best, runs) for work in waiting if (runs := _runs(work)))


def _runs(work: WorkView) -> str:
    """What runs on a tree until this work ends it, "" for any other work."""
    if _OUT_AGAIN in work.id:
        return _WINTER_QUARTERS[_OUT_AGAIN]
    return _ENDS_CARE.get(work.act, "")


def not_yet(tree: Tree, holds: Sequence[HoldView], today: date) -> tuple[str, ...]:
    """Why it should not go home, where no day that is still ahead says until when."""
    until = {hold.runs for hold in holds if hold.until > today}
    found = []
    if tree.weak:
        found.append(phrase("it is written down as weak"))
    if tree.quarantined and _ENDS_CARE["released"] not in until:
        found.append(phrase("it is still in quarantine"))
    if tree.on("protection") and _ENDS_CARE["unprotected"] not in until:
        found.append(phrase("it still stands in its winter shelter"))
    if tree.on("shade") and _ENDS_CARE["unshaded"] not in until:
        found.append(phrase("it still stands under shade"))
    return tuple(found)
