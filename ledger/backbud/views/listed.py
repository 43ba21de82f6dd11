"""The trees, the places and the pots of a journal as lists, a row each, on one day."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date
from typing import Literal

from msgspec import Struct

from backbud.bench.pots import volume_litres
from backbud.collection.places import cover_of, outward
from backbud.collection.state import Standing, Tree
from backbud.journal.things import Thing, Things
from backbud.plan.vessels import RIM_GAP, pot_of_card
from backbud_grammar.act_words import LabelName, as_act

SortBy = Literal["handle", "kind", "place", "owner", "since", "last"]


class ListedTree(Struct, frozen=True):
    """A tree in a list.

    `standing`: here, or sold, lent, returned, died, lost, not yet. `owner` "": the keeper's own;
    `place` "": nobody wrote where it stands. `on_tree`: the sorts of what is on it or in its pot.
    `repotted`: the day its roots were last worked on or it was last potted. `last`: the act that
    was done last, and its day; null and "" where nothing was.
    """

    tree: str
    name: str
    kind: str
    cultivar: str
    standing: Standing
    since: date | None
    owner: str
    owner_name: str
    place: str
    place_name: str
    pot: str
    on_tree: tuple[str, ...]
    repotted: date | None
    last_act: str
    last: date | None


class ListedPlace(Struct, frozen=True):
    """A place in a list, below what it is within (`depth` 0: within nothing). `cover`: what is over
    it, "" where nobody said; `trees`: the handles of those that stand in it, not of those in a
    place within it."""

    place: str
    name: str
    depth: int
    cover: str
    trees: tuple[str, ...]


class ListedPot(Struct, frozen=True):
    """A pot in a list. `shape` and `inside` as its card has them, `outside` where that is all it
    says; `litres`: what it holds up to the rim gap of the settings, null where its card tells too
    little, and `litres_by`: what was taken for granted in it. `tree`: who stands in it, "" where
    it is free."""

    pot: str
    name: str
    shape: str
    inside: str
    outside: str
    litres: float | None
    litres_by: str
    colour: str
    tree: str
    tree_name: str


def tree_rows(
    trees: Iterable[Tree], names: Mapping[str, str], by: SortBy = "handle"
) -> tuple[ListedTree, ...]:
    """The trees as rows, in the order that is asked for; equal ones by handle."""
    rows = sorted((_tree_row(tree, names) for tree in trees), key=lambda row: row.tree)
    return tuple(sorted(rows, key=lambda row: _key(row, by)))


def place_rows(things: Things, trees: Iterable[Tree]) -> tuple[ListedPlace, ...]:
    """Every place that has a card, each below what it is within, in the order of their cards."""
    standing: dict[str, list[str]] = {}
    for tree in trees:
        if tree.here:
            standing.setdefault(tree.place, []).append(tree.handle)
    order = {place.handle: n for n, place in enumerate(things.of_kind("place"))}
    lines = [tuple(reversed(outward(place, things))) for place in things.of_kind("place")]
    lines.sort(key=lambda line: tuple(order[place.handle] for place in line))
    return tuple(_place_row(line[-1], len(line) - 1, things, standing) for line in lines)


def pot_rows(
    things: Things, trees: Iterable[Tree], figures: Mapping[str, float]
) -> tuple[ListedPot, ...]:
    """Every pot that has a card, the free ones first, the largest of them first."""
    holds = {tree.pot: tree for tree in trees if tree.here and tree.pot}
    rows = [_pot_row(card, holds.get(card.handle), figures) for card in things.of_kind("pot")]
    return tuple(sorted(rows, key=lambda row: (bool(row.tree), -(row.litres or 0.0), row.pot)))


def _tree_row(tree: Tree, names: Mapping[str, str]) -> ListedTree:
    last = max(tree.last.values(), key=lambda e: e.order, default=None)
    potted = tree.last_with("potting")
    return ListedTree(
        tree.handle,
        tree.title,
        tree.kind,
        tree.cultivar,
        tree.standing,
        tree.since,
        tree.owner,
        names.get(tree.owner) or tree.owner,
        tree.place,
        names.get(tree.place) or tree.place,
        tree.pot,
        tuple(dict.fromkeys(thing.sort for thing in tree.on_tree)),
        potted.day if potted is not None else None,
        as_act(last.act) if last is not None else "",
        last.day if last is not None else None,
    )


def _key(row: ListedTree, by: SortBy) -> tuple[bool, str]:
    """What a row is ordered by; what it has nothing for comes last."""
    found = {
        "handle": row.tree,
        "kind": row.kind.casefold(),
        "place": row.place,
        "owner": row.owner,
        "since": row.since.isoformat() if row.since else "",
        "last": row.last.isoformat() if row.last else "",
    }[by]
    return (not found and by != "owner", found)


def _place_row(
    place: Thing, depth: int, things: Things, standing: Mapping[str, list[str]]
) -> ListedPlace:
    here = tuple(standing.get(place.handle, ()))
    return ListedPlace(place.handle, place.title, depth, cover_of(place, things), here)


def _pot_row(card: Thing, tree: Tree | None, figures: Mapping[str, float]) -> ListedPot:
    pot, by = pot_of_card(card, figures)
    gap_cm = RIM_GAP.among(figures)
    if pot is not None and not 0 <= gap_cm < pot.depth_cm:
        gap_cm = 0.0
    return ListedPot(
        card.handle,
        card.title,
        card.text("shape"),
        _size(card, "inside"),
        _size(card, "outside"),
        volume_litres(pot, gap_cm) if pot is not None else None,
        by if pot is not None else "",
        card.text("colour"),
        tree.handle if tree is not None else "",
        tree.title if tree is not None else "",
    )


def _size(card: Thing, label: LabelName) -> str:
    measure = card.measure(label)
    return str(measure) if measure is not None else ""
