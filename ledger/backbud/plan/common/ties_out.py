"""Anchor ties come out when the roots hold, and what was left from before is asked for."""

from __future__ import annotations

from backbud.species import Event, Proposal, Proposals, Tree, Year, after, weeks_after


@after("repotted", "potted-on", "slipped", "tied", rule="ties-out")
def roots_hold(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source: after one growing season."""
    ties = tree.on("tie")
    if not ties:
        return
    left = sum(1 for tie in ties if tie.from_before)
    datum = f"{left} older than this potting." if left else ""
    yield Proposal(
        "untied", weeks_after(done.day, 20, 26, 52), what="the anchor ties", datum=datum,
        because="After a growing season the roots hold, and ties begin to cut in.",
    )
