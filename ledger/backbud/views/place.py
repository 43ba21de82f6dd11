"""A place as it is shown: what stands there, and what wants doing there as one walks past it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

from msgspec import Struct

from backbud.collection.state import Tree
from backbud.plan.followups import FollowUp
from backbud.views.bench import at_bench
from backbud.views.day import open_works_of, urgency
from backbud.views.work import WorkView


class StandsThere(Struct, frozen=True):
    """A tree that stands in a place, and what is late or can be done on it now: what is at stake
    first, then what closes first. `counted`: how many there are, "" for one tree."""

    tree: str
    tree_name: str
    kind: str
    works: tuple[WorkView, ...]
    counted: str = ""


class PlaceView(Struct, frozen=True):
    """A place with the trees that stand in it, in the order of their cards. `place`: its handle,
    "" for those trees of which nobody wrote where they stand."""

    place: str
    place_name: str
    trees: tuple[StandsThere, ...]


def by_place(trees: Sequence[Tree]) -> dict[str, list[Tree]]:
    """The trees that are here, by the handle of where they stand; the places in order."""
    found: dict[str, list[Tree]] = {}
    for tree in trees:
        if tree.here:
            found.setdefault(tree.place, []).append(tree)
    return dict(sorted(found.items()))


def place_view(
    place: str,
    trees: Sequence[Tree],
    plans: Mapping[str, Sequence[FollowUp]],
    names: Mapping[str, str],
    today: date,
) -> PlaceView:
    """What is shown of a place. `plans`: by the tree's handle, every follow-up."""
    return PlaceView(
        place,
        names.get(place) or place,
        tuple(
            StandsThere(
                tree.handle,
                tree.title,
                tree.kind,
                _now(open_works_of(plans.get(tree.handle, ()), tree, names, today), today),
                tree.counted,
            )
            for tree in trees
        ),
    )


def _now(works: Sequence[WorkView], today: date) -> tuple[WorkView, ...]:
    some = (one for one in works if at_bench(one, today))
    return tuple(sorted(some, key=urgency))
