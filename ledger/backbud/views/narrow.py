"""Cuts the view of a whole journal down to what one tree's page is made from.

A page that is given no more than this can show no more, so it is as good as new while this is the
same (memo.py).
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeVar

from msgspec.structs import replace

from backbud.collection.state import Tree
from backbud.memo import Identical
from backbud.plan.stores.values import Stores
from backbud.views.nursery import Nursery
from backbud.views.sky import Weather

T = TypeVar("T")


def only_tree(view: Nursery, tree: Tree) -> Nursery:
    """The view with nothing of any other tree, no stores, and without the journal's problems."""
    handle = tree.handle
    return replace(
        without_trees(view),
        trees=(tree,),
        plans=_only(view.plans, handle),
        species=_only(view.species, handle),
        sections=_only(view.sections, handle),
        bites=_only(view.bites, handle),
        photographs=_only(view.photographs, handle),
        late=_only(view.late, handle),
        outlines=_only(view.outlines, handle),
        weather=Weather(
            water=view.weather.water.only(handle),
            years=view.weather.years,
            southern=view.weather.southern,
        ),
    )


def without_trees(view: Nursery) -> Nursery:
    """What is left of the view: the same for every tree."""
    return replace(
        view,
        trees=(),
        plans={},
        species={},
        problems=(),
        weather=Weather(),
        sections={},
        stores=Stores(),
        bites={},
        photographs={},
        late={},
        outlines={},
        people=(),
        registers=(),
        handed_out=(),
        unshown=(),
        accounts=(),
        papers=(),
        kinds={},
    )


def own_inputs(view: Nursery, around: object) -> tuple[object, ...]:
    """What the page of the one tree of a view is made from. `around`: stands for the rest."""
    tree = view.trees[0]
    return (
        Identical(around),
        Identical(tree),
        Identical(view.plans.get(tree.handle)),
        view.species,
        view.sections,
        view.bites,
        view.photographs,
        view.late,
        view.outlines,
        view.weather,
    )


def _only(by_tree: Mapping[str, T], handle: str) -> dict[str, T]:
    return {handle: by_tree[handle]} if handle in by_tree else {}
