"""A treated tree is looked at again."""

from __future__ import annotations

from backbud.plan.looks import LOOKS_FOR_PESTS
from backbud.species import PRESSING, Event, Proposal, Proposals, Tree, Year, after, days_after
from backbud.tongue import phrase


@after("treated", rule="pest-check")
def are_they_gone(tree: Tree, done: Event, year: Year) -> Proposals:
    yield Proposal(
        "checked",
        days_after(done.day, 7, 10, 14),
        what=phrase("for pests"),
        because=phrase("One treatment seldom ends an attack; eggs hatch later."),
        cautions=(phrase("Treat again only as the label allows."),),
        settled_by=(*LOOKS_FOR_PESTS, "treated"),
        minutes=5,
        weight=PRESSING,
    )
