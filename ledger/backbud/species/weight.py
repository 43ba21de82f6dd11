"""How much a work matters, whether it must be done, and what becomes of it once it is past."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

from msgspec import Struct

# The tree may die, is harmed, or only time or style is lost: the worst first.
AtStake = Literal["life", "harm", "style"]
OncePast = Literal["lapses", "stays", "grows"]

WORST_FIRST: Sequence[AtStake] = ("life", "harm", "style")


class Weight(Struct, frozen=True, gc=False):
    """What a rule says of how much its work matters.

    `at_stake`: the tree may die (life), is harmed (harm), or only time or style is lost (style).
    `must`: it must be done; else it may be, as a chance of the season. `once_past`: what becomes
    of it when its window has passed and nobody did it: it lapses and is gone; it stays, for its
    next good moment; or it grows, and is late and more urgent each week.
    """

    at_stake: AtStake
    must: bool
    once_past: OncePast

    @property
    def lapses(self) -> bool:
        """Whether it is gone once its window has passed."""
        return self.once_past == "lapses"

    @property
    def rank(self) -> tuple[int, bool]:
        """What comes first in a list has the least: what is most at stake, then what must be."""
        return rank_of(self.at_stake, self.must)


def rank_of(at_stake: AtStake, must: bool) -> tuple[int, bool]:
    """The rank of what weighs so."""
    return WORST_FIRST.index(at_stake), not must


# What rules say most often.
# A chance of the season, that a keeper takes for some trees and not for others.
CHANCE = Weight("style", must=False, once_past="lapses")
# What keeps a tree going, and costs it no more than time where it is left out.
ROUTINE = Weight("style", must=True, once_past="lapses")
# Looks, aftercare and moves that are of use on their days alone.
CARE = Weight("harm", must=True, once_past="lapses")
# What a tree may die without.
PROTECTION = Weight("life", must=True, once_past="lapses")
# What is on the tree, or owed to it, until somebody sees to it.
STAYS_ON = Weight("harm", must=True, once_past="stays")
# The keeper's word, until it is kept or taken back.
PROMISE = Weight("style", must=True, once_past="stays")
# What does more harm the longer nobody looks.
PRESSING = Weight("harm", must=True, once_past="grows")
