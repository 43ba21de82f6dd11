"""How many litres and bags of each ingredient a mix takes, and how much mix a repotting takes."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from msgspec import Struct

from backbud.bench.pots import not_negative, positive
from backbud.tongue import phrase

# What a fresh mix settles by under the chopstick and the first waterings; common practice, no
# source. A mix that has been measured has its own figure.
USUAL_SETTLES_PERCENT = 5.0

# Dust and broken grains sieved out of a fresh bag, in percent of its volume: from memory, and
# different from bag to bag. What is not named is used as it comes.
SIEVING_LOSS_PERCENT: Mapping[str, float] = {
    "akadama": 15.0,
    "kanuma": 15.0,
    "pumice": 10.0,
    "lava": 5.0,
    "bark": 15.0,
    "leaf mould": 25.0,
}


class Needed(NamedTuple):
    """An ingredient: litres in the mix, litres from the bag before sieving, and bags.

    `bags` and `left_over_litres` (in the last bag) are None where the size of its bag is unknown.
    """

    ingredient: str
    litres: float
    litres_before_sieving: float
    bags: int | None
    left_over_litres: float | None


class Substrate(Struct, frozen=True, gc=False):
    """The mix a repotting takes, in litres: room between pot and ball, and what is poured loose.

    `because` says it in one sentence, with its figures.
    """

    pot_litres: float
    ball_left_litres: float
    room_litres: float
    loose_litres: float
    because: str


def shares(parts: Mapping[str, float]) -> dict[str, float]:
    """Return the share of each ingredient, 0 to 1, of a recipe by parts of volume.

    ValueError for a recipe without parts, or with parts below zero.
    """
    total = math.fsum(parts.values())
    if not (math.isfinite(total) and total > 0) or any(part < 0 for part in parts.values()):
        raise ValueError("Give each ingredient with its parts by volume, as: akadama 2, pumice 1.")
    return {ingredient: part / total for ingredient, part in parts.items()}


def litres_of_each(parts: Mapping[str, float], litres: float) -> dict[str, float]:
    """Return the litres of each ingredient for so many litres, measured out one by one.

    What fine grain loses between coarse is part of what a mix settles by. ValueError as `shares`.
    """
    not_negative(litres, "litres of mix")
    return {ingredient: share * litres for ingredient, share in shares(parts).items()}


def loose_litres(room_litres: float, settles_percent: float = USUAL_SETTLES_PERCENT) -> float:
    """Return the litres to pour loose, so that so many litres of room are full when settled.

    loose = room / (1 - settles / 100): a mix settles by a percent of its loose volume. ValueError
    for a percent outside 0 to 100.
    """
    not_negative(room_litres, "litres of room")
    return room_litres / (1 - _share_below_one(settles_percent, "what the mix settles by"))


def litres_before_sieving(litres: float, loss_percent: float) -> float:
    """Return the litres to take from the bag, so that so many are left after sieving.

    before = after / (1 - loss / 100). ValueError for a percent outside 0 to 100.
    """
    not_negative(litres, "litres after sieving")
    return litres / (1 - _share_below_one(loss_percent, "the loss in sieving"))


def bags(litres: float, bag_litres: float) -> int:
    """Return how many bags of so many litres are opened. ValueError for an empty bag."""
    not_negative(litres, "litres needed")
    positive(bag_litres, "litres in a bag")
    # A litre shared and summed again may come out a hair above itself: no bag for that.
    return math.ceil(litres / bag_litres - 1e-9)


def needed(
    parts: Mapping[str, float],
    litres: float,
    bag_litres: Mapping[str, float] | None = None,
    sieving_loss_percent: Mapping[str, float] | None = None,
) -> tuple[Needed, ...]:
    """Return what so many loose litres of a mix take of each ingredient, in the recipe's order.

    `bag_litres`: of a bag, by ingredient. `sieving_loss_percent`: by ingredient, before the usual
    ones. ValueError as the functions it is made of.
    """
    sold_in = bag_litres or {}
    own_loss = sieving_loss_percent or {}
    found = []
    for ingredient, in_mix in litres_of_each(parts, litres).items():
        loss = own_loss.get(ingredient, usual_sieving_loss_percent(ingredient))
        before = litres_before_sieving(in_mix, loss)
        bag = sold_in.get(ingredient)
        count = None if bag is None else bags(before, bag)
        over = None if bag is None or count is None else max(0.0, count * bag - before)
        found.append(Needed(ingredient, in_mix, before, count, over))
    return tuple(found)


def usual_sieving_loss_percent(ingredient: str) -> float:
    """Return the usual loss of an ingredient in sieving, in percent; 0 for one not known."""
    known = known_ingredient(ingredient, SIEVING_LOSS_PERCENT)
    return SIEVING_LOSS_PERCENT[known] if known else 0.0


def substrate_needed(
    pot_litres: float, ball_left_litres: float, settles_percent: float = USUAL_SETTLES_PERCENT
) -> Substrate:
    """Return the mix a repotting takes: the pot less the root ball left, plus what it settles by.

    `pot_litres`: as far as the pot is filled. ValueError where the ball is bigger than the pot.
    """
    not_negative(ball_left_litres, "litres of the root ball left")
    positive(pot_litres, "volume of the pot in litres")
    if ball_left_litres > pot_litres:
        raise ValueError(
            f"A root ball of {ball_left_litres:.1f} L does not go into a pot of {pot_litres:.1f} "
            "L: give a larger pot, or what was taken off the ball."
        )
    room = pot_litres - ball_left_litres
    loose = loose_litres(room, settles_percent)
    return Substrate(
        pot_litres,
        ball_left_litres,
        room,
        loose,
        phrase(
            "A pot of {pot_litres:.1f} L less {ball_left_litres:.1f} L of root "
            "ball leaves {room:.1f} L; as the mix settles by {settles_percent:g} "
            "%, {loose:.1f} L loose.",
            pot_litres=pot_litres,
            ball_left_litres=ball_left_litres,
            room=room,
            settles_percent=settles_percent,
            loose=loose,
        ),
    )


def known_ingredient(written: str, known: Iterable[str]) -> str:
    """Return the known ingredient that a name speaks of, "" for none: `fine pine bark`, `bark`.

    Whole words count; of several the longest, then the first in the name.
    """
    text = f" {' '.join(written.casefold().replace('-', ' ').split())} "
    found = [name for name in known if f" {name} " in text]
    return min(found, key=lambda name: (-len(name), text.index(f" {name} ")), default="")


def _share_below_one(percent: float, name: str) -> float:
    if not 0 <= percent < 100:
        raise ValueError(f"Give {name} in percent, from 0 to below 100 (not {percent:g}).")
    return percent / 100
