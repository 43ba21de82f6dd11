"""Wire is looked at before it bites, and again after each look."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from backbud.plan.common.bite import Bite, bite_of
from backbud.plan.common.parts import on_part
from backbud.plan.common.seasons import in_growth
from backbud.plan.common.still_there import is_there
from backbud.plan.looks import Look, looks_meant
from backbud.species import (
    PRESSING,
    Event,
    OnTree,
    Proposal,
    Proposals,
    Schedule,
    Tree,
    Window,
    Year,
    after,
    joined,
    next_after,
    parts_of,
    weeks_after,
)
from backbud.tongue import phrase

LOOK_AGAIN = "wire-check-again"
CUT_IT_OFF = "Cut wire off in short pieces; unwinding tears bark and buds."
NOT_LOOKED_AT = (
    "Nobody has looked: as the wood swells the wire cuts in, and the mark stays for years."
)
_BUD_BURST = 7
_SOON_AFTER = timedelta(weeks=2)
_TEN_DAYS = timedelta(days=10)


@after("wired", rule="wire-check")
def look_before_it_bites(tree: Tree, done: Event, year: Year) -> Proposals:
    for part in parts_of(done):
        yield _look(tree, done, year, part)


@after("checked", rule=LOOK_AGAIN)
def look_at_wire_again(tree: Tree, done: Event, year: Year) -> Proposals:
    """Wire that was seen to bite comes off; what is left on is looked at again, the sooner where
    it was found tight."""
    seen = [look for look in looks_meant(done, "wire") if look.what]
    if not seen or not is_there(tree, "wire", done.day, "unwired"):
        return
    biting = _parts(look for look in seen if look.finding == "biting")
    for part in biting:
        yield Proposal(
            "unwired",
            Window(done.day, done.day, done.day + timedelta(days=7)),
            what=on_part("", part),
            part=part,
            because=phrase("The wire was seen to bite."),
            cautions=(CUT_IT_OFF,),
            weight=PRESSING,
            schedule=Schedule(
                after=phrase("Each week of growth buries it deeper; the mark stays for years."),
                again=_next_growth(done.day + timedelta(days=7), year),
            ),
        )
    if done.has("again") or not tree.on("wire"):
        return
    tight = _parts(look for look in seen if look.finding == "tight")
    others = _parts(look for look in seen if look.finding not in ("biting", "tight"))
    for part in tight:
        yield _look(tree, done, year, part, tight=True)
    for part in ("",) if biting else others:
        if part not in tight:
            yield _look(tree, done, year, part)


def _parts(seen: Iterable[Look]) -> tuple[str, ...]:
    """The parts that were looked at, each once; "" is all of the tree."""
    return tuple(dict.fromkeys(part for look in seen for part in look.parts or ("",)))


def _look(tree: Tree, done: Event, year: Year, part: str, *, tight: bool = False) -> Proposal:
    """A look after so many weeks of growth, and in any case before it is reckoned to bite."""
    first, usual, last = year.wire_weeks
    if in_growth(done.day, year) and tight:
        window = weeks_after(done.day, 1, 2, 3)
        because, datum = phrase("Found tight, it bites within a few weeks of growth."), ""
    elif in_growth(done.day, year):
        window = weeks_after(done.day, first, usual, last)
        because = phrase(
            "Wire bites after {first} to {last} weeks of growth on such wood.",
            first=first,
            last=last,
        )
        datum = ""
    else:
        window, datum = _once_growth_begins(done, year)
        because = phrase(
            "In the cold half of the year wood does not thicken; wire bites as growth begins."
        )
    bite = _first_bite(tree, done, year, part)
    if bite is not None:
        datum = joined(f"{datum} {bite.because}".lstrip(), datum)
        window = _before(window, bite.day, done.day)
    return Proposal(
        "checked",
        window,
        what=on_part(phrase("wire"), part),
        part=part,
        because=because,
        datum=datum,
        settled_by=("checked wire", "unwired"),
        minutes=5,
        weight=PRESSING,
        schedule=Schedule(after=NOT_LOOKED_AT, again=_next_growth(window.closes, year)),
    )


def _first_bite(tree: Tree, done: Event, year: Year, part: str) -> Bite | None:
    """When the first of the wires on a part bites, wherever one is where no part is named."""
    bites = [
        bite
        for wire in _still_on(tree.on("wire"), year)
        if part in ("", wire.part)
        if (bite := bite_of(wire, tree.history, year.growth)) is not None
        if bite.day > done.day
    ]
    return min(bites, default=None)


def _still_on(wires: Sequence[OnTree], year: Year) -> Sequence[OnTree]:
    """Those that are on today; all of them where none is any more, so that a look that is done
    with keeps its days."""
    now = year.growth.wires if year.growth else ()
    same = {(wire.event.file, wire.event.line, wire.part) for wire in now}
    return [w for w in wires if (w.event.file, w.event.line, w.part) in same] or wires


def _before(window: Window, bite: date, done: date) -> Window:
    """The window, brought forward where the wire bites before its end."""
    closes = max(min(window.closes, bite), done + _SOON_AFTER)
    best = min(window.best, max(closes - _TEN_DAYS, done + _SOON_AFTER))
    return Window(min(window.opens, best), best, closes)


def _once_growth_begins(done: Event, year: Year) -> tuple[Window, str]:
    """A few weeks into the spring to come, and the datum: from bud burst, or by months where none
    is known."""
    day, datum = _growth_begins(year)
    if done.day > day:
        day, datum = _growth_begins(year.following)
    return weeks_after(day, *year.wire_weeks), datum


def _next_growth(day: date, year: Year) -> Window:
    """The first weeks of the first growth that begins after a day."""
    begins = (_growth_begins(one)[0] for one in (year, year.following))
    found = next((first for first in begins if first > day), None)
    if found is not None:
        return weeks_after(found, 0, 2, 4)
    return next_after(day, weeks_after(_growth_begins(year.following)[0], 0, 2, 4))


def _growth_begins(year: Year) -> tuple[date, str]:
    burst = year.stage(_BUD_BURST)
    return (year.on((4, 1)), year.by_months) if burst is None else (burst.day, burst.because)
