"""A tree that came in is looked over before it joins the others."""

from __future__ import annotations

from backbud.plan.common.quarantine_ends import QUARANTINE_DAYS
from backbud.species import (
    CARE,
    PRESSING,
    Event,
    Proposal,
    Proposals,
    Tree,
    Year,
    after,
    days_after,
)
from backbud.tongue import phrase

ARRIVAL = "arrival-check"


@after("received", "bought", "collected", rule=ARRIVAL)
def look_it_over(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source. Nothing where a tree that is here changes hands."""
    if done.act == "bought" and _was_here(tree, done):
        return
    if done.has("imported"):
        yield Proposal(
            "quarantined",
            days_after(done.day, 0, 0, 7),
            what=phrase("away from the others"),
            because=phrase("An imported tree is kept apart until it is known to be clean."),
            cautions=(
                phrase("The plant-health authority's terms decide how long, and who is told."),
            ),
            weight=PRESSING,
        )
        return
    days = round(QUARANTINE_DAYS.of(year))
    if days and not tree.quarantined:
        yield Proposal(
            "quarantined",
            days_after(done.day, 0, 0, 3),
            what=phrase("away from the others for {days} days", days=days),
            because=phrase("It comes from elsewhere, and pests that came along show by then."),
            settled_by=("quarantined",),
            weight=CARE,
        )
        return
    wired = phrase(" and its wire") if tree.on("wire") else ""
    yield Proposal(
        "checked",
        days_after(done.day, 0, 2, 14),
        what=phrase("for pests{wired}", wired=wired),
        because=phrase("What came in with it spreads from bench to bench."),
        settled_by=("checked pests", "quarantined", "treated"),
        weight=CARE,
    )


def _was_here(tree: Tree, came: Event) -> bool:
    """Whether the tree stood here before a line, by what was done to it."""
    here = False
    for entry in tree.history:
        event = entry.event
        if event is came:
            break
        traits = event.row.traits
        if not entry.undone and "ahead" not in traits:
            here = "departure" not in traits
    return here
