"""Water that takes longer and longer to pass asks for a look at the roots."""

from __future__ import annotations

from statistics import median

from backbud.species import (
    PRESSING,
    SLOW_DRAIN_FROM,
    Event,
    Proposal,
    Proposals,
    Tree,
    Year,
    after,
    days_after,
)
from backbud.tongue import phrase

# How much slower than it was, and from how many seconds on: ours, no source.
SLOWER = 2.0
WORTH_A_LOOK_S = 30.0


@after("drained", rule="drains-slowly")
def look_at_the_roots(tree: Tree, done: Event, year: Year) -> Proposals:
    """Slow by itself, or twice as slow as it used to be in this soil."""
    seconds = _seconds(done)
    if seconds is None:
        return
    before = _before(tree, done)
    usual = median(before) if before else None
    slow = seconds >= SLOW_DRAIN_FROM.of(year)
    slower = usual is not None and seconds >= max(SLOWER * usual, WORTH_A_LOOK_S)
    if not (slow or slower):
        return
    was = phrase("; it took {usual:.0f} s before", usual=usual) if usual is not None else ""
    yield Proposal(
        "checked",
        days_after(done.day, 0, 3, 14),
        what=phrase("roots: open the hard surface, look at the holes and the underside"),
        because=phrase(
            "Water that stands or runs off leaves roots dry in one place and rotting in another."
        ),
        datum=phrase("A can took {seconds:.0f} s to pass{was}.", seconds=seconds, was=was),
        settled_by=("checked roots", "checked drainage", "opened", "repotted"),
        weight=PRESSING,
    )


def _seconds(drained: Event) -> float | None:
    time = drained.measure("time")
    return time.within("s") if time is not None else None


def _before(tree: Tree, done: Event) -> list[float]:
    """The times written down since the soil was new."""
    anew = tree.last_with("fills_pot")
    return [
        seconds
        for entry in tree.history
        if entry.event.act == "drained"
        and entry.event is not done
        and (anew is None or entry.event.day > anew.day)
        and (seconds := _seconds(entry.event)) is not None
    ]
