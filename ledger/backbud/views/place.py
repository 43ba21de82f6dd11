"""A place as it is shown: what stands there, and what wants doing there as one walks past it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
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

    @property
    def minutes(self) -> int:
        """What all works take that are late or can be done now."""
        return sum(work.minutes for tree in self.trees for work in tree.works)


def by_place(trees: Sequence[Tree]) -> dict[str, list[Tree]]:
    """The trees that are here, by the handle of where they stand; the places in order."""
    found: dict[str, list[Tree]] = {}
    for tree in trees:
        if tree.here:
            found.setdefault(tree.place, []).append(tree)
    return dict(sorted(found.items()))


def place_view(place: str, trees: Iterable[StandsThere], names: Mapping[str, str]) -> PlaceView:
    """What is shown of a place."""
    return PlaceView(place, names.get(place) or place, tuple(trees))


def stands_there(
    tree: Tree, plan: Iterable[FollowUp], names: Mapping[str, str], today: date
) -> StandsThere:
    """What is shown of a tree where it stands. `plan`: every follow-up of it."""
    some = (one for one in open_works_of(plan, tree, names, today) if at_bench(one, today))
    works = tuple(sorted(some, key=urgency))
    return StandsThere(tree.handle, tree.title, tree.kind, works, tree.counted)
