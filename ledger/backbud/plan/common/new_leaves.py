"""A tree that was stripped of its leaves is looked at until new ones stand."""

from __future__ import annotations

from backbud.collection.hard_work import stresses
from backbud.species import CARE, Event, Proposal, Proposals, Tree, Year, after, weeks_after
from backbud.tongue import phrase


@after("defoliated", rule="new-leaves")
def they_open_again(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source: within three to six weeks; nothing where only some came off."""
    if not stresses(done):
        return
    yield Proposal(
        "checked",
        weeks_after(done.day, 3, 4, 6),
        what=phrase("buds and new leaves"),
        because=phrase(
            "New leaves stand about four weeks after a stripping; until then it drinks little."
        ),
        datum=phrase("It was defoliated on {day}.", day=done.day),
        settled_by=("checked buds", "checked strength", "vigour"),
        weight=CARE,
    )
