"""What a season asks of a batch: no shape of cuttings and seedlings, and nothing of mere seed."""

from __future__ import annotations

from backbud.collection.batch import CONTAINERS, SEED
from backbud.collection.state import Tree
from backbud.plan.common.cutting_roots import CUTTINGS_LEFT
from backbud.plan.due import Due
from backbud.species import ActForm
from backbud_grammar.forms import WorkName

OF_SHAPE: tuple[WorkName, ...] = ("branches", "wire", "deadwood")


def is_asked_of(tree: Tree, act: ActForm) -> bool:
    """Whether a season may ask for an act; what was done or planned may ask for any."""
    if not tree.is_batch:
        return True
    return act.word == "moved" if is_mere_seed(tree) else act.work not in OF_SHAPE


def none_is_left(tree: Tree, due: Due) -> bool:
    """Whether a look at the cuttings that had no roots is asked of a batch in which all have."""
    batch = tree.batch
    return (
        due.rule == CUTTINGS_LEFT
        and batch is not None
        and not batch.in_containers
        and (batch.rooted or 0) >= (batch.count or 0)
    )


def is_mere_seed(tree: Tree) -> bool:
    """Whether it was sown and nobody has written that any of it is up: it wants no feed, no
    cleaning and no shelter of its roots, but a tender kind its warm place."""
    batch = tree.batch
    return (
        batch is not None
        and (batch.of in CONTAINERS or batch.of.split(" of ")[-1] in SEED)
        and not batch.up
        and tree.last_of("sown") is not None
        and tree.last_of("germinated") is None
    )
