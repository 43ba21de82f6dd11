"""Which zones of a tree to cut back and which to leave, so that slow ones catch up with fast ones.

What grows faster than the middle of the zones is shortened, what grows slower is left its tips,
so that the slow ones catch up. Common practice, no source.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import Literal, NamedTuple

from backbud.species import Tree, Zone, phrase

TOP = frozenset({"top", "apex", "crown", "upper", "head"})
LOW = frozenset({"low", "lower", "base", "bottom", "first"})
_WHOLE = frozenset({"whole tree", "whole", "all"})
# How long what was seen of a zone still counts.
_COUNTS = timedelta(days=365)

Strongest = Literal["acrotonic", "basitonic"]


class Balance(NamedTuple):
    """Zones to cut back, strongest first, and zones to leave, weakest first."""

    back: tuple[Zone, ...]
    left: tuple[Zone, ...]
    because: str

    @property
    def what(self) -> str:
        """`apex and right 3 back, low left alone`."""
        return phrase(
            "{named} back, {named_2} left alone", named=_named(self.back), named_2=_named(self.left)
        )

    @property
    def datum(self) -> str:
        """The scores that decided."""
        scores = ", ".join(f"{zone.name} {zone.score}" for zone in (*self.back, *self.left))
        return phrase("Vigour of 5, as last seen: {scores}.", scores=scores)


def balance(tree: Tree, strongest: Strongest, day: date) -> Balance | None:
    """What the zones seen in the year before a day ask for; None where even or unknown."""
    zones = [
        zone for zone in tree.zones if zone.name not in _WHOLE and day - _COUNTS <= zone.day <= day
    ]
    if len({zone.score for zone in zones}) < 2:
        return None
    middle = sum(zone.score for zone in zones) / len(zones)
    fast = sorted((z for z in zones if z.score > middle), key=lambda z: (-z.score, z.name))
    slow = sorted((z for z in zones if z.score < middle), key=lambda z: (z.score, z.name))
    return Balance(tuple(fast), tuple(slow), _because(fast, slow, strongest))


def is_top(zone: Zone) -> bool:
    """Whether a zone's name says that it is at the top: `apex`, `left top`."""
    return not TOP.isdisjoint(zone.name.split())


def is_low(zone: Zone) -> bool:
    """Whether a zone's name says that it is at the base: `low`, `low left`."""
    return not LOW.isdisjoint(zone.name.split())


def _because(fast: list[Zone], slow: list[Zone], strongest: Strongest) -> str:
    """Why: along with the tree's habit, against it, or neither."""
    top_outgrows = any(map(is_top, fast)) and not any(map(is_top, slow))
    low_outgrows = any(map(is_low, fast)) and not any(map(is_low, slow))
    if strongest == "acrotonic" and top_outgrows:
        return phrase(
            "It grows strongest at the top, so the strong top is cut back hardest "
            "and the slow zones keep their tips until they catch up."
        )
    if strongest == "basitonic" and low_outgrows:
        return phrase(
            "It grows strongest at the base, so the strong low shoots are cut back "
            "first and the slow zones keep their tips until they catch up."
        )
    if strongest == "acrotonic" and low_outgrows:
        return phrase(
            "The low zones outgrow the rest against its habit, so they are cut "
            "back lightly: the top soon gains on them by itself."
        )
    if strongest == "basitonic" and top_outgrows:
        return phrase(
            "The top outgrows the rest against its habit, so it is cut back "
            "lightly: it regrows slowest of all."
        )
    return phrase(
        "Strong zones shade and outgrow slow ones, so the strong ones are cut "
        "back and the slow ones keep their tips until they catch up."
    )


def _named(zones: tuple[Zone, ...]) -> str:
    *others, last = (zone.name for zone in zones)
    return phrase("{others} and {last}", others=", ".join(others), last=last) if others else last
