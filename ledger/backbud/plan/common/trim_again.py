"""Where a tree grows all year its shoots are trimmed again, some weeks after the last time."""

from __future__ import annotations

from collections.abc import Sequence

from backbud.species import (
    CHANCE,
    Event,
    Proposal,
    Proposals,
    Tree,
    Window,
    Year,
    after,
    grows_all_year,
    weeks_after,
)
from backbud.tongue import phrase

# So many weeks after the last time, first, best and last; common practice, no source.
_WEEKS = (4, 6, 8)


@after("trimmed", rule="trim-again")
def as_shoots_run_on(tree: Tree, done: Event, year: Year) -> Proposals:
    """Of a kind that is trimmed, as long as it is not weak; where its own time for that comes
    first, that asks for it."""
    if not grows_all_year(year) or tree.weak:
        return
    window = weeks_after(done.day, *_WEEKS)
    own = (*year.times("trimmed"), *year.following.times("trimmed"))
    if not own or _begins_in(own, done, window):
        return
    yield Proposal(
        "trimmed",
        window,
        what=phrase("what has run since"),
        because=phrase(
            "It grows all year here: trimmed every four to eight weeks it keeps its outline, and "
            "light reaches its inner twigs."
        ),
        settled_by=("trimmed", "pruned"),
        weight=CHANCE,
    )


def _begins_in(own: Sequence[Window], done: Event, window: Window) -> bool:
    return any(done.day < one.opens <= window.closes for one in own)
