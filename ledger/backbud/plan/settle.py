"""Finds what became of each due: whether it was done, skipped or put off, or is still open.

A due is done by its act inside its window, after it, or shortly before; skipped or moved by the
keeper's word; or left open. Nothing before its cause counts.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from datetime import date, timedelta

from msgspec.structs import replace

from backbud.collection.against import is_against_weather
from backbud.collection.attached import Attached
from backbud.collection.on_tree import TAKEN_OFF_BY, is_meant
from backbud.collection.places import is_warm_cover, is_winter_cover
from backbud.collection.state import Tree
from backbud.journal.events import Event
from backbud.plan.due import Due
from backbud.plan.followups import FollowUp, Reason
from backbud.plan.looks import Look, looks, looks_meant
from backbud.plan.waiting import WaitingDues, acts_in, first_words
from backbud.plan.windows import window_said
from backbud.species import Window
from backbud_grammar.act_words import ActWord, as_settling
from backbud_grammar.dates import growing_year

# How early a work counts; common practice, no source.
EARLY = timedelta(days=28)
EARLY_AS_PLANNED = timedelta(days=60)
# What comes in its own weeks is not seen long before them; common practice, no source.
EARLY_LOOK = timedelta(days=7)
_NO_TIME = timedelta(0)
# Nobody cuts roots twice in half a year.
EARLY_ROOTS = timedelta(days=180)
# A word about what is to come speaks of nothing further away.
SPOKEN_OF = timedelta(days=400)
# For so long after its window has closed a season is the one that is spoken of.
_JUST = timedelta(days=120)

_PEST_LOOK = as_settling("checked", "pests")
_SPOKEN: frozenset[ActWord] = frozenset({"skipped", "put-off"})

Quote = Callable[[Event], Reason]
# What was put off though nothing was due: a plan of its own.
AsPlan = Callable[[Event, int], Iterable[Due]]
# The cover over the place that a move went to.
CoverOver = Callable[[Event], str]


def settled(
    dues: Iterable[Due],
    tree: Tree,
    southern: bool,
    quote: Quote,
    as_plan: AsPlan,
    cover_over: CoverOver,
) -> list[Due]:
    """Return the dues as the tree's history left them, and those that a put-off set anew."""
    now = {due.follow_up.id: due for due in dues}
    waiting = WaitingDues(now.values())
    begins = _first_that_settles(now.values(), tree)
    for at, entry in enumerate(tree.history):
        event = entry.event
        if event.act in _SPOKEN:
            if event.exact and not entry.undone and event.named:
                for due in _told(event, at, now, southern, quote, as_plan):
                    waiting.add(due)
                    now[due.follow_up.id] = due
                    begins = min(begins, at)
        elif at >= begins and (entry.corrected_by is None or not entry.undone):
            found = [now[ident] for ident in waiting.for_event(event, at)]
            if not found:
                continue
            day, still = event.day, list[Due]()
            for due in found:
                if not _still_open(due, day):
                    waiting.drop(due)
                elif _gives_shelter(due, event, cover_over):
                    still.append(due)
            for due in _done_by(event, still):
                now[due.follow_up.id] = _with(due, outcome="done", settled=event)
                waiting.drop(due)
    on_tree = Attached(tree.on_tree)
    return [_off_again(due, tree, on_tree) for due in now.values()]


def _first_that_settles(dues: Collection[Due], tree: Tree) -> int:
    """The place in the history before which every act is too early for all of them: those of a tree
    that is twenty years old are of the last few."""
    caused = [max(due.at, 0) for due in dues if due.at >= 0 or due.event is not None]
    of_seasons = [
        due.follow_up.window.opens - max(due.early or EARLY_ROOTS, EARLY_ROOTS)
        for due in dues
        if due.at < 0
    ]
    first = len(tree.history)
    if of_seasons:
        first = bisect_left(tree.history, min(of_seasons), key=lambda entry: entry.event.day)
    return min([first, *caused])


def _with(due: Due, **changed: object) -> Due:
    return replace(due, follow_up=replace(due.follow_up, **changed))


# ------------------------------------------------------------------ done


def _done_by(event: Event, waiting: Iterable[Due]) -> list[Due]:
    """Which of the waiting dues, all of which are still open, an event settles.

    Of works that one rule asks for one after another, it settles those whose turn it is; of those
    on parts of the tree, all that it was done to.
    """
    by_cause: dict[tuple[str, str], list[Due]] = {}
    if event.says("partly"):
        return []
    for due in waiting:
        if not due.by_sum and _settles(event, due):
            by_cause.setdefault((due.rule, due.cause), []).append(due)
    return [due for found in by_cause.values() for due in _whose_turn(found, event.day)]


def _gives_shelter(due: Due, event: Event, cover_over: CoverOver) -> bool:
    """Whether an act may settle what brings shelter: a move into the open brings none."""
    if not due.covers or event.act != "moved":
        return True
    cover = cover_over(event)
    return is_warm_cover(cover) if due.covers == "warm" else is_winter_cover(cover)


def _still_open(due: Due, day: date) -> bool:
    follow_up = due.follow_up
    return follow_up.outcome == "open" and not (
        follow_up.next_cycle is not None and day >= follow_up.next_cycle
    )


def _whose_turn(found: list[Due], day: date) -> list[Due]:
    first = min(due.follow_up.window.opens for due in found)
    return [due for due in found if due.where or due.follow_up.window.opens <= max(first, day)]


def _settles(event: Event, due: Due) -> bool:
    """Whether the event is one of the acts that settle the due, there, and not too early.

    An act may carry a word: "checked wire" is settled by a check of wire, or by a bare check, and
    "cleaned pot" by a bare "cleaned".
    """
    if _too_early(event, due):
        return False
    if event.act == "protected" and not is_against_weather(event):
        return False
    for wanted in due.follow_up.settled_by:
        act, _, word = wanted.partition(" ")
        if act not in acts_in(event):
            continue
        parts, told = event.parts, False
        if act == "checked":
            seen = looks_meant(event, word)
            if not seen:
                continue
            parts = () if any(not look.parts for look in seen) else _parts_of(seen)
            # A look that found where it bites, or that set the next, was a look at all of it.
            told = event.has("again") or any(look.finding == "biting" for look in seen)
        elif word and event.has("what") and not event.mentions(word):
            continue
        if due.where:
            if is_meant(due.where, parts):
                return True
        elif not parts or told or due.event is None or not _leaves_others(event):
            return True
    return False


def _parts_of(seen: Iterable[Look]) -> tuple[str, ...]:
    return tuple([part for look in seen for part in look.parts])


def _leaves_others(event: Event) -> bool:
    """Whether an act on one part says nothing of what is on the others."""
    traits = event.row.traits
    return "any_day" in traits and "one_part" not in traits


def _too_early(event: Event, due: Due) -> bool:
    early, ahead = due.early, due.follow_up.window.opens - event.day
    if early is None and ahead <= _NO_TIME:
        return False
    if early is None and due.event is not None and _any_day(event, due):
        return False
    if early is None and not {"potting", "root_work"}.isdisjoint(event.row.traits):
        early = EARLY_ROOTS
    if early is None and due.follow_up.planned:
        early = EARLY_AS_PLANNED
    if early is None:
        early = EARLY_LOOK if _looks_for_pests(due.follow_up) else EARLY
    return ahead > early


def _looks_for_pests(follow_up: FollowUp) -> bool:
    """Whether it is a look for what is not there before its time."""
    return follow_up.act == "checked" and _PEST_LOOK in follow_up.settled_by


def _any_day(event: Event, due: Due) -> bool:
    """Whether it settles what an act asked for on whatever day; not a check of nothing named, nor
    one that the keeper planned for a later time."""
    if event.act == "checked" and (due.follow_up.planned or not event.has("what")):
        return False
    return "any_day" in event.row.traits


def _off_again(due: Due, tree: Tree, on_tree: Attached) -> Due:
    """What was to come off or to be looked at is done with when none of it is on the tree."""
    follow_up = due.follow_up
    if due.event is None or follow_up.outcome != "open":
        return due
    lifted = _lifted_out_of(due.event, tree)
    if lifted is not None:
        return _with(due, outcome="done", settled=lifted)
    for sort, act in TAKEN_OFF_BY.items():
        last = tree.last.get(act)
        if act not in follow_up.settled_by or last is None or not _later(last, due.event):
            continue
        if not on_tree.has(sort, due.where):
            return _with(due, outcome="done", settled=last)
    return due


def _lifted_out_of(shelter: Event, tree: Tree) -> Event | None:
    """The act that took the tree out of all of a shelter, which lay where it stood."""
    if any(thing.event is shelter for thing in tree.on_tree):
        return None
    return next((one.by for one in tree.left_behind if one.thing.event is shelter), None)


def _later(event: Event, than: Event) -> bool:
    return event.order > than.order


# ------------------------------------------------------------------ skipped and put off


def _told(
    event: Event, at: int, now: dict[str, Due], southern: bool, quote: Quote, as_plan: AsPlan
) -> list[Due]:
    """What a skip or a put-off says of what was due then."""
    meant = _spoken_of(event, at, now.values())
    window = window_said(event, southern) if event.act == "put-off" else None
    if window is None:
        # Put off to no day is not done this time, as skipped.
        return [
            _with(
                due,
                outcome="skipped",
                settled=event,
                because=(*due.follow_up.because, quote(event)),
            )
            for due in meant
        ]
    if not meant:
        return list(as_plan(event, at))
    moved = [(due, _moved(due, window, quote(event))) for due in meant]
    return [one for due, put in moved for one in _in_its_year(due, put, at, now, southern)]


def _moved(due: Due, window: Window, said: Reason) -> Due:
    was = due.follow_up
    return _with(
        due,
        window=window,
        moved_from=was.moved_from or was.window,
        next_cycle=None,
        because=(*was.because, said),
        weight=replace(was.weight, must=True, once_past="stays"),
    )


def _in_its_year(
    was: Due, put: Due, at: int, now: Mapping[str, Due], southern: bool
) -> Iterator[Due]:
    """What was put off to another year is that year's, so that it does not double."""
    year = growing_year(put.follow_up.window.best, southern).replace("/", "-")
    comes_round = was.event is None and was.cause[:4].isdecimal()
    if not comes_round or year == was.cause:
        yield put
        return
    one = was.follow_up
    ident = one.id.replace(f"/{was.rule}/{was.cause}", f"/{was.rule}/{year}", 1)
    own = now.get(ident)
    if own is not None and own.follow_up.act != one.act:
        yield put
        return
    yield _with(was, outcome="replaced", settled=None)
    yield replace(
        put,
        cause=year,
        at=at,
        follow_up=replace(put.follow_up, id=ident, group=f"{was.rule}/{year}"),
    )


def _spoken_of(event: Event, at: int, dues: Iterable[Due]) -> list[Due]:
    """The dues a word is about: those whose time it is, or else those that come next."""
    some = tuple(dues)
    day, parts = event.day, event.parts
    found = [
        due for due in some if due.at < at and _still_open(due, day) and is_meant(due.where, parts)
    ]
    about = [due for due in found if due.follow_up.act == event.named]
    # What is on the tree stays on it: who skips a repotting does not leave the ties in for good.
    about = about or [
        due
        for due in found
        if (due.follow_up.promised or due.follow_up.weight.once_past != "stays")
        and _may_settle(due.follow_up, event.named)
    ]
    if event.has("what"):
        said = {f"{event.named} {look.what}" for look in looks(event)}
        about = [due for due in about if said.intersection(due.follow_up.settled_by)]
    about = [due for due in about if not _has_lapsed(due.follow_up, event.day)]
    due_now = [
        due
        for due in about
        # Of what is foretold, a word said of an earlier spell says nothing of this one.
        if due.follow_up.window.opens - (_NO_TIME if due.follow_up.foretold else EARLY) <= event.day
    ]
    if due_now:
        return due_now
    # `no repot this spring`, said when it is over, speaks of that spring and not of the next.
    just_lapsed = any(_has_just_lapsed(due, event, at) for due in some)
    coming = [
        due
        for due in about
        if due.follow_up.foretold is None
        and due.follow_up.window.opens - event.day < SPOKEN_OF
        and not (just_lapsed and due.event is None)
    ]
    first = min((due.follow_up.window.closes for due in coming), default=None)
    return [due for due in coming if first is not None and due.follow_up.window.opens <= first]


def _has_just_lapsed(due: Due, event: Event, at: int) -> bool:
    one = due.follow_up
    return (
        due.at < at
        and one.outcome == "open"
        and _has_lapsed(one, event.day)
        and event.day - one.window.closes < _JUST
        and (one.act == event.named or _may_settle(one, event.named))
        and is_meant(due.where, event.parts)
    )


def _has_lapsed(follow_up: FollowUp, day: date) -> bool:
    return follow_up.weight.lapses and follow_up.window.closes < day


def _may_settle(follow_up: FollowUp, act: str) -> bool:
    return act in first_words(follow_up.settled_by)
