"""Feed rests after root work and the cutting of candles, on a weak tree, on what has no roots yet,
and while the last feed lasts; then it goes on."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, timedelta

from msgspec.structs import replace

from backbud.collection.hard_work import cuts_roots, stresses
from backbud.collection.state import Tree
from backbud.journal.events import Event
from backbud.plan.common.feed_again import FEED_AGAIN, SLOW_DAYS, lasts
from backbud.plan.common.feed_rests import FEED_RESTS
from backbud.plan.common.out_of_its_time import OUT_OF_ITS_TIME
from backbud.plan.due import Due
from backbud.species import Window
from backbud_grammar.act_words import ActWord
from backbud_grammar.by_row import by_row
from backbud_grammar.forms import ActForm

# Cut roots take up no feed for four weeks; common practice, no source.
_ROOTS_REST = timedelta(days=28)
# A pine whose candles were cut is fed when its new needles are hard; common practice, no source.
_NEEDLES_HARDEN = timedelta(weeks=8)
# A cutting has roots by then; common practice, no source.
_STRIKES_IN = timedelta(weeks=10)
# So many days of its time at the least are left for a season's feed; ours, no source.
_TIME_LEFT = timedelta(days=7)
# Beside root work.
_HOLDING_BACK: tuple[ActWord, ...] = ("separated", "decandled", "struck", "fed")


def paused(dues: Iterable[Due], tree: Tree, feed_days: Mapping[str, int]) -> list[Due]:
    """The dues; feed that would be given while it has to rest is asked for no more.

    `feed_days`: how long a feed lasts by its card.
    """
    dues = list(dues)
    done = [
        entry.event
        for entry in tree.history
        if _may_hold_back(entry.event.row) and not entry.undone
    ]
    cuts = [
        one.day for one in done if (cuts_roots(one.row) and stresses(one)) or _came_off(one, tree)
    ]
    # Candles that were cut out of their time are fed at once.
    late = {id(due.event) for due in dues if due.rule == OUT_OF_ITS_TIME}
    candles = [
        one.day for one in done if one.act == "decandled" and one.exact and id(one) not in late
    ]
    struck = [one.day for one in done if one.act == "struck" and one.exact]
    # What was used up before any of it would be given holds none of it back.
    longest = timedelta(days=max((SLOW_DAYS, *feed_days.values())))
    since = min((due.follow_up.window.opens for due in dues if _asked(due)), default=date.max)
    given = [
        (one.day, one.day + timedelta(days=lasts(one, feed_days)[0]))
        for one in done
        if one.act == "fed" and one.exact and one.day + longest >= since
    ]

    def rests(due: Due) -> bool:
        if not _asked(due):
            return False
        opens, closes = due.follow_up.window.opens, due.follow_up.window.closes
        after_candles = due.event is not None and due.event.act == "decandled"
        if not after_candles and any(opens - _NEEDLES_HARDEN < cut <= closes for cut in candles):
            return True
        if any(opens - _STRIKES_IN < begun <= closes for begun in struck):
            return True
        return tree.weak or any(opens - _ROOTS_REST < cut <= closes for cut in cuts)

    resting = [_over(due) if rests(due) else due for due in dues]
    return _once_used_up(resting, given)


@by_row
def _may_hold_back(act: ActForm) -> bool:
    """Whether an act may be one that feed waits after."""
    return act.word in _HOLDING_BACK or cuts_roots(act)


def _came_off(done: Event, tree: Tree) -> bool:
    """Whether it came off its mother then, with no roots but new ones."""
    return done.act == "separated" and done.exact and tree.standing_since == done.day


def _once_used_up(dues: list[Due], given: list[tuple[date, date]]) -> list[Due]:
    """The feed of a season waits until what was given is used up, and stands for the next helping.

    `given`: each day on which it was fed, and when that was used up.
    """
    again = {one.follow_up.window.opens: one for one in dues if one.rule == FEED_AGAIN}
    stood_for = set()
    found = []
    for due in dues:
        if due.event is not None or not _asked(due):
            found.append(due)
            continue
        window = due.follow_up.window
        used_up = max((end for day, end in given if day <= window.closes), default=window.opens)
        if used_up <= window.opens:
            found.append(due)
        elif used_up + _TIME_LEFT > window.closes:
            found.append(_over(due))
        else:
            helping = again.get(used_up)
            if helping is not None:
                stood_for.add(helping.follow_up.id)
            found.append(_moved(due, used_up, helping))
    return [_over(due) if due.follow_up.id in stood_for else due for due in found]


def one_helping(dues: Sequence[Due], today: date) -> Sequence[Due]:
    """The first feed after root work stands for a season's that would be given in its days."""
    first = [
        due.follow_up.window
        for due in dues
        if due.rule == FEED_RESTS and _asked(due) and today <= due.follow_up.window.closes
    ]
    if not first:
        return dues

    def is_stood_for(due: Due) -> bool:
        window = due.follow_up.window
        return any(one.opens <= window.closes and window.opens <= one.closes for one in first)

    return [
        _over(due) if due.event is None and _asked(due) and is_stood_for(due) else due
        for due in dues
    ]


def _moved(due: Due, day: date, helping: Due | None) -> Due:
    """A season's feed from a day on, in the stead of the next helping of that day."""
    one = due.follow_up
    window = Window(day, max(one.window.best, day), one.window.closes)
    cycle = helping.follow_up.next_cycle if helping is not None else one.next_cycle
    return replace(due, follow_up=replace(one, window=window, next_cycle=cycle))


def _over(due: Due) -> Due:
    return replace(due, follow_up=replace(due.follow_up, outcome="replaced"))


def _asked(due: Due) -> bool:
    one = due.follow_up
    return one.act == "fed" and one.outcome == "open" and not one.promised
