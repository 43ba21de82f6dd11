"""Follow-ups go in; those that one line of the diary asks of several trees come out together."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TypeVar

from backbud.plan.followups import FollowUp

T = TypeVar("T")


def rounds(found: Iterable[T], work: Callable[[T], FollowUp]) -> list[list[T]]:
    """The same work for the same reason, asked by one line of the diary, in one: in the order of
    the first of each. `work`: the follow-up that one of them shows."""
    together: dict[object, list[T]] = {}
    for one in found:
        together.setdefault(_alike(work(one)), []).append(one)
    return list(together.values())


def _alike(one: FollowUp) -> object:
    """What two works have alike that are of one round; a work that no line asks for is alone."""
    if not one.because or one.because[0].origin is None:
        return one.id
    return one.act, one.title, one.window, one.moved_from, one.because, one.cautions
