"""A guy wire is looked at: it slackens, and its anchor cuts in."""

from __future__ import annotations

from backbud.species import Event, Proposal, Proposals, Tree, Year, after, weeks_after


@after("guyed", rule="guy-check")
def still_tight(tree: Tree, done: Event, year: Year) -> Proposals:
    yield Proposal(
        "checked", weeks_after(done.day, 6, 8, 12), what="guys",
        because="A guy slackens as the branch sets, and its pad wears through.",
        settled_by=("checked guys", "unguyed"), minutes=5,
    )
