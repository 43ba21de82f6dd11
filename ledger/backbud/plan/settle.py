"""Follow-ups and a tree's later history go in; each follow-up with what became of it comes out."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta

from msgspec.structs import replace

from backbud.collection.state import Entry
from backbud.journal.events import Event
from backbud.plan.followups import FollowUp, Reason
from backbud.species import Window
from backbud_grammar.dates import read_span
from backbud_grammar.forms import ActForm
from backbud_grammar.problems import Misread

# Early work counts, else the roots are done twice.
EARLY = timedelta(days=28)
# A skip or a put-off speaks of what is due about now, or of what comes next.
SPOKEN_OF = timedelta(days=120)


def settled(
    follow_up: FollowUp, part: str, cause: Event | None, history: Sequence[Entry],
    acts: dict[str, ActForm], southern: bool,
) -> FollowUp:
    """Return the follow-up as later lines left it: done, skipped, put off, or still open.

    `cause`: the event it grew from; nothing before it settles it. Corrections that say an act
    was not done leave no trace here.
    """
    earliest = follow_up.window.opens - EARLY
    for entry in history:
        event = entry.event
        if not _after(event, cause) or event.has("not done"):
            continue
        speaks = event.act in ("skipped", "put-off") and _speaks_of(event, follow_up)
        if speaks and event.day >= follow_up.window.opens - SPOKEN_OF:
            if event.act == "skipped":
                return replace(follow_up, outcome="skipped", settled=event,
                               because=(*follow_up.because, _said(event)))
            window = _put_off_to(event, southern)
            if window is not None:
                follow_up = replace(
                    follow_up, window=window, moved_from=follow_up.window,
                    because=(*follow_up.because, _said(event)), next_cycle=None)
                earliest = min(earliest, window.opens - EARLY)
        elif event.day >= earliest and _settles(event, follow_up.settled_by, part):
            return replace(follow_up, outcome="done", settled=event)
    return follow_up


def _after(event: Event, cause: Event | None) -> bool:
    if cause is None:
        return True
    here = (event.day, event.file, event.line, event.column)
    return here > (cause.day, cause.file, cause.line, cause.column)


def _settles(event: Event, settled_by: Iterable[str], part: str) -> bool:
    """Whether the event is one of these acts, on this part or on no part in particular.

    An act may carry a word: "checked wire" is settled by a check of wire, or by a bare check.
    """
    for wanted in settled_by:
        act, _, word = wanted.partition(" ")
        if event.act != act or (word and event.has("what") and not event.says(word)):
            continue
        parts = event.parts
        if not part or not parts or any(_overlap(part, other) for other in parts):
            return True
    return False


def _overlap(one: str, other: str) -> bool:
    a, b = f" {one.casefold()} ", f" {other.casefold()} "
    return a in b or b in a


def _speaks_of(event: Event, follow_up: FollowUp) -> bool:
    named = event.named
    return named == follow_up.act or any(w.split()[0] == named for w in follow_up.settled_by)


def _said(event: Event) -> Reason:
    remark = f" – {event.remark}" if event.remark else ""
    return Reason("plan", f"{event.day}: {event.written}{remark}.", event.origin)


def _put_off_to(event: Event, southern: bool) -> Window | None:
    """The window a put-off or a plan names: `to 2028-03/2028-04`, `in 2-3 weeks`."""
    to = event.first("to")
    if to is not None and to.date:
        try:
            span = read_span(to.date, southern)
        except Misread:
            return None
        last = max(span.first, span.last)
        if last == date.max:
            last = span.first + timedelta(days=365)
        return Window(span.first, span.first + (last - span.first) / 2, last)
    measure = event.measure("in")
    if measure is None:
        return None
    days = {"day": 1.0, "week": 7.0, "month": 30.44, "year": 365.25, "h": 1 / 24}
    per = days.get(measure.unit, 1.0)
    low = int(float(measure.numbers[0]) * per)
    high = int(float(measure.upper) * per) if measure.upper is not None else low
    if high == low:
        high = low + max(low // 4, 1)
    opens = event.day + timedelta(days=low)
    closes = event.day + timedelta(days=high)
    return Window(opens, opens + (closes - opens) / 2, closes)


def window_of_plan(event: Event, southern: bool) -> Window:
    """When a planned act is meant to be done; a month from its page where it does not say."""
    window = _put_off_to(event, southern)
    if window is not None:
        return window
    return Window(event.day, event.day, event.day + timedelta(days=30))
