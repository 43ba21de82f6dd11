"""A guy wire is looked at: it slackens, and its anchor cuts in."""

from __future__ import annotations

from backbud.plan.common.parts import on_part
from backbud.plan.looks import looks_meant
from backbud.species import (
    PRESSING,
    Event,
    Proposal,
    Proposals,
    Schedule,
    Tree,
    Year,
    a_year_later,
    after,
    parts_of,
    weeks_after,
)
from backbud.tongue import phrase


@after("guyed", "checked", rule="guy-check")
def still_tight(tree: Tree, done: Event, year: Year) -> Proposals:
    """Each look sets the next, as long as the guy is on. Common practice, no source."""
    if not tree.on("guy"):
        return
    if done.act == "checked" and (done.has("again") or not _looked_at_guys(done)):
        return
    window = weeks_after(done.day, 8, 10, 14)
    for part in parts_of(done) if done.act == "guyed" else ("",):
        yield Proposal(
            "checked",
            window,
            what=on_part(phrase("guys"), part),
            part=part,
            because=phrase("A guy slackens as the branch sets, and its pad wears through."),
            settled_by=("checked guys", "unguyed"),
            minutes=5,
            weight=PRESSING,
            schedule=Schedule(
                after=phrase("A slack guy holds nothing, and its anchor cuts in."),
                again=a_year_later(window),
            ),
        )


def _looked_at_guys(done: Event) -> bool:
    return any(look.what for look in looks_meant(done, "guys"))
