"""A customer's tree goes in; what its owner waits for comes out."""

from __future__ import annotations

from datetime import timedelta

from backbud.collection.state import Tree
from backbud.journal.read import Journal
from backbud.plan.followups import FollowUp, Reason
from backbud.plan.minutes import usual_minutes
from backbud.species import Window
from backbud_grammar.dates import read_span
from backbud_grammar.problems import Misread

# Time to see the tree settle and to arrange the day.
AHEAD = timedelta(days=14)


def customer_follow_ups(tree: Tree, journal: Journal) -> list[FollowUp]:
    """The hand-back of a tree that its owner wants by a day, or that is ready to go."""
    if not tree.owner or tree.owner == journal.settings.keeper:
        return []
    ready = tree.last.get("ready")
    if ready is not None and tree.standing_since and ready.day >= tree.standing_since:
        window = Window(ready.day, ready.day + AHEAD / 2, ready.day + AHEAD)
        reason = Reason("diary", f"{ready.day}: ready.", ready.origin)
        cause = f"ready-{ready.when.text}"
    elif tree.wanted:
        try:
            by = read_span(tree.wanted, journal.southern).last
        except Misread:
            return []
        if tree.standing_since is not None and by < tree.standing_since:
            return []
        window = Window(by - AHEAD, by - AHEAD / 2, by)
        agreed = tree.last.get("agreed")
        reason = Reason("plan", f"Its owner wants it back by {tree.wanted}.",
                        agreed.origin if agreed else None)
        cause = f"wanted-{tree.wanted}".replace("/", "_")
    else:
        return []
    return [FollowUp(
        f"{tree.first_handle}/hand-back/{cause}", tree.handle, "returned", "return to its owner",
        window, (reason, Reason("rule", "It goes home with an account of the work and advice.")),
        ("Keep it out of frost, sun and wind on the way.",), usual_minutes("returned"),
        ("returned",),
    )]
