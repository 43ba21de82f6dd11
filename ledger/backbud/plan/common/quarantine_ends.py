"""A tree in quarantine is looked at every two weeks, and then let out."""

from __future__ import annotations

from backbud.plan.looks import LOOKS_FOR_PESTS, looks
from backbud.plan.windows import window_until
from backbud.species import (
    PRESSING,
    Event,
    Figure,
    Proposal,
    Proposals,
    Schedule,
    Tree,
    Window,
    Year,
    a_year_later,
    after,
    days_after,
    weeks_after,
)
from backbud.tongue import phrase
from backbud_grammar.acts.watching import PESTS

QUARANTINE_DAYS = Figure(
    "quarantine_days",
    0.0,
    "How many days a tree that comes from elsewhere is kept apart; 0: only where it is imported, "
    "or where the diary says so.",
)


@after("quarantined", rule="quarantine-ends")
def look_and_let_out(tree: Tree, done: Event, year: Year) -> Proposals:
    window = apart_for(done, round(QUARANTINE_DAYS.of(year)), southern=year.southern)
    yield Proposal(
        "released",
        window,
        what=phrase("from quarantine"),
        because=phrase("Most pests that came along show within a few weeks."),
        cautions=(phrase("Imported trees: the plant-health authority's terms decide."),),
        weight=PRESSING,
        schedule=Schedule(again=a_year_later(window)),
    )


@after("quarantined", "checked", rule="quarantine-look")
def look_meanwhile(tree: Tree, done: Event, year: Year) -> Proposals:
    """Two weeks after it was put apart and after each look, until a week before it is let out.
    Common practice, no source."""
    begun = done
    if done.act == "checked":
        last = tree.last.get("quarantined")
        if not tree.quarantined or last is None or done.has("again") or not _at_pests(done):
            return
        begun = last
    window = days_after(done.day, 10, 14, 21)
    out = apart_for(begun, round(QUARANTINE_DAYS.of(year)), southern=year.southern)
    if window.closes > out.opens:
        return
    yield Proposal(
        "checked",
        window,
        what=phrase("for pests that came along"),
        because=phrase("Most pests that came along show within a few weeks."),
        settled_by=(*LOOKS_FOR_PESTS, "treated", "released"),
        minutes=5,
        weight=PRESSING,
    )


def _at_pests(done: Event) -> bool:
    return any(look.what in ("", *PESTS) for look in looks(done))


def apart_for(done: Event, days: int, *, southern: bool) -> Window:
    """When a tree that was put apart comes out: on the day that was written; else after so many
    `days` of the settings; else, common practice, no source, after four to eight weeks."""
    window = window_until(done, southern)
    if window is None and days and not done.has("for"):
        window = days_after(done.day, days, days, days + 7)
    return window or weeks_after(done.day, 4, 6, 8)
