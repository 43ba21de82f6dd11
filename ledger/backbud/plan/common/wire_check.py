"""Wire is looked at before it bites, and again after each look."""

from __future__ import annotations

from datetime import timedelta

from backbud.plan.common.parts import on_part, parts_of
from backbud.plan.common.seasons import a_year_later, in_growth
from backbud.plan.looks import look_at
from backbud.species import Event, Proposal, Proposals, Tree, Window, Year, after, weeks_after

CUT_IT_OFF = "Cut wire off in short pieces; unwinding tears bark and buds."
_BUD_BURST = 7
_SOON_AFTER = timedelta(weeks=2)


@after("wired", rule="wire-check")
def look_before_it_bites(tree: Tree, done: Event, year: Year) -> Proposals:
    for part in parts_of(done):
        yield _look(done, year, part)


@after("checked", rule="wire-check-again")
def look_again(tree: Tree, done: Event, year: Year) -> Proposals:
    """Wire that was seen to bite comes off; what is left on is looked at again."""
    look = look_at(done, "wire")
    if look is None or look.what != "wire" or not tree.on("wire"):
        return
    biting = look.finding == "biting"
    if biting:
        for part in look.parts or ("",):
            yield Proposal(
                "unwired",
                Window(done.day, done.day, done.day + timedelta(days=7)),
                what=on_part("", part),
                part=part,
                because="The wire was seen to bite.",
                cautions=(CUT_IT_OFF,),
            )
    if not done.has("again"):
        for part in ("",) if biting else look.parts or ("",):
            yield _look(done, year, part)


def _look(done: Event, year: Year, part: str) -> Proposal:
    first, usual, last = year.wire_weeks
    if in_growth(done.day, year):
        window = weeks_after(done.day, first, usual, last)
        because = f"Wire bites after {first} to {last} weeks of growth on such wood."
    else:
        window = _once_growth_begins(done, year)
        because = "In the cold half of the year wood does not thicken; wire bites as growth begins."
    return Proposal(
        "checked",
        window,
        what=on_part("wire", part),
        part=part,
        because=because,
        datum=_growth(year) if window.opens != done.day + timedelta(weeks=first) else "",
        settled_by=("checked wire", "unwired"),
        minutes=5,
    )


def _once_growth_begins(done: Event, year: Year) -> Window:
    """A few weeks into the spring to come: from bud burst, or by months where none is known."""
    burst = year.stage(_BUD_BURST)
    day = burst.day if burst is not None else year.on((4, 1))
    first, usual, last = year.wire_weeks
    window = weeks_after(day, first, usual, last)
    return a_year_later(window) if done.day > day else window


def _growth(year: Year) -> str:
    burst = year.stage(_BUD_BURST)
    return burst.because if burst is not None else year.by_months
