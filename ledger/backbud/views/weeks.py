"""What stands in the keeper's calendar: the works of each week put together, so that a phone shows
a week at a glance.

A work stands alone only where a tree may die or be scarred within days, or where a day was named.
Else what must be done at one place in one week is one entry, looks at one thing there are one
round, and what may be done to one kind stands once, in its best week. What is past its time is one
entry, with what was promised longer ago than a season. Whether a must is shown never depends on how
much else there is: where a week would hold too much, its entries merge.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import date, timedelta
from functools import partial
from itertools import chain
from typing import Literal

from backbud.collection.state import Tree
from backbud.memo import NO_MEMO, Memo
from backbud.plan.followups import FollowUp, sort_of_work
from backbud.species.weight import Weight
from backbud.views.grounds import Grounds
from backbud.views.week_entries import JointSort, WeekEntry, WeeksView, WeekWork
from backbud.views.work import WorkView
from backbud.words import is_put_on_at_once, monday_of
from backbud_grammar.act_words import SettledBy

# So long after its best day, or sooner, a work that stands alone is past its time.
WITHIN_DAYS = timedelta(days=10)
# A chance is not moved further than this from its own best day to stand with others.
NEAR_BEST = timedelta(weeks=4)
# A look is not taken further than this from its own best day on one round with others; ours, no
# source.
NEAR_LOOK = timedelta(weeks=2)
# So long what is past its time stands ahead of today, for a calendar that is not fetched daily.
AHEAD = timedelta(days=7)
# A week holds at most so many entries, by how many trees there are: a line through these two.
FEW_TREES, FEWEST_ENTRIES = 16, 7
MANY_TREES, MOST_ENTRIES = 200, 20
# What entries have in common.
_Common = Callable[["WeekEntry"], str]
# What a look is settled by, too, where it is at what scars a tree.
_BITES: frozenset[SettledBy] = frozenset(("unwired", "untied"))


def week_work(one: FollowUp, shown: WorkView, tree: Tree, grounds: Grounds) -> WeekWork:
    """A follow-up as a week's entries are made from it. `shown`: as it stands on the day."""
    weight = one.weight
    work, named = sort_of_work(one)
    return WeekWork(
        one.id,
        work,
        named,
        one.title,
        tree.handle,
        brief_name(tree.title, tree.handle),
        tree.kind,
        grounds.first_handles.get(tree.place, tree.place),
        grounds.name_of(tree.place) if tree.place else "",
        shown.opens,
        shown.best,
        shown.closes,
        one.minutes,
        one.safety_first,
        one.because,
        weight.at_stake,
        weight.must or one.promised,
        _stands_alone(one, shown, weight),
        shown.state in ("overdue", "promised"),
        one.foretold,
        one.group,
        is_put_on_at_once(one.act, shown),
        shown.look and weight.lapses and weight.at_stake != "life" and not one.promised,
    )


# A name that is longer leaves a title no room.
_LONGEST_NAME = 16


def brief_name(name: str, handle: str) -> str:
    """A tree as briefly as it can be told: by its name, or by its handle where that is long."""
    return name if len(name) <= _LONGEST_NAME else handle


def weeks_view(
    works: Iterable[WeekWork], trees: int, today: date, kept: Memo = NO_MEMO
) -> WeeksView:
    """Lay out open works as the keeper's calendar. `trees`: how many there are here. `kept`: what
    an earlier run of this process left of each entry."""
    entry = _Together(kept).entry
    late: list[WeekWork] = []
    alone: list[WeekWork] = []
    musts: list[tuple[date, WeekWork]] = []
    chances: list[WeekWork] = []
    foretold: list[WeekWork] = []
    this_week = monday_of(today)
    for one in works:
        if one.late:
            late.append(one)
        elif one.foretold:
            foretold.append(one)
        elif not one.must:
            chances.append(one)
        elif one.alone and one.best >= this_week:
            alone.append(one)
        else:
            musts.append((_week_of(one, this_week), one))
    most = most_entries(trees)
    weeks: dict[date, _Week] = defaultdict(partial(_Week, entry))
    for one in alone:
        weeks[monday_of(one.best)].alone.append(one)
    joint = chain(_musts(musts, entry, kept), _chances(chances, this_week, entry, kept))
    for one_of_week in joint:
        weeks[monday_of(one_of_week.first)].joint.append(one_of_week)
    past = kept.once("late", (late, today), partial(_late, late, today))
    with_late = {monday_of(one) for one in (today, today + AHEAD)} if past else set()
    found = [weeks[monday].fitted(monday, most - (monday in with_late)) for monday in sorted(weeks)]
    return WeeksView(
        tuple(one.id for week in found for one in week.alone),
        (
            *past,
            *_foretold(foretold),
            *chain.from_iterable(week.joint for week in found),
        ),
    )


def most_entries(trees: int) -> int:
    """How many entries a week may hold."""
    share = (trees - FEW_TREES) / (MANY_TREES - FEW_TREES)
    most = FEWEST_ENTRIES + int(share * (MOST_ENTRIES - FEWEST_ENTRIES))
    return max(FEWEST_ENTRIES, min(most, MOST_ENTRIES))


# ------------------------------------------------------------------ a work


def _stands_alone(one: FollowUp, shown: WorkView, weight: Weight) -> bool:
    """Whether a tree may die or be scarred within days, or a day was named."""
    if one.planned and shown.opens == shown.closes:
        return True
    # What lapses with its days is a look or a shelter: left out, it scars nothing by itself.
    # Nor does a look, but at what bites and comes off.
    bites = one.act != "checked" or not _BITES.isdisjoint(one.settled_by)
    is_scar = weight.at_stake == "harm" and not weight.lapses and bites
    is_grave = weight.must and (is_scar or weight.at_stake == "life")
    return is_grave and shown.closes - shown.best <= WITHIN_DAYS


def _week_of(one: WeekWork, this_week: date) -> date:
    """The Monday of the week that a must stands in: its best, or, where that went by, its last; of
    a shelter that should be on by now, this one."""
    best = monday_of(one.best)
    if best >= this_week:
        return best
    return this_week if one.closes == date.max or one.stays_on else monday_of(one.closes)


# ------------------------------------------------------------------ together


def _musts(
    musts: Iterable[tuple[date, WeekWork]], entry: _Entry, kept: Memo
) -> Iterator[WeekEntry]:
    groups: dict[tuple[date, str, str], list[WeekWork]] = defaultdict(list)
    looks: dict[tuple[str, str], list[tuple[date, WeekWork]]] = defaultdict(list)
    for monday, one in musts:
        if one.in_round:
            looks[one.work, one.place].append((monday, one))
        else:
            groups[monday, one.work, one.place].append(one)
    for (work, place), some_looks in looks.items():
        rounds = partial(_rounds_of, some_looks)
        for monday, here in kept.once(("rounds", work, place), (some_looks,), rounds):
            groups[monday, work, place] += here
    for (monday, work, place), some in groups.items():
        name = f"must:{work}/{place}/{_iso(monday)}"
        yield entry("must", name, monday, some, work=work, place=place)


def _rounds_of(looks: list[tuple[date, WeekWork]]) -> list[tuple[date, list[WeekWork]]]:
    """The looks at one thing at one place in few rounds, as their own days allow: each round in the
    week of most of them. `looks`: each with the week that it would stand in alone. One whose best
    week went by waits for a round that is near it, so that it stays where it was told of."""
    rounds: list[tuple[date, list[WeekWork]]] = []
    while looks:
        weeks = Counter(week for week, _ in looks)
        monday = min(weeks, key=lambda week: (-weeks[week], week))
        in_reach = [week == monday or _is_open_in(one, monday, NEAR_LOOK) for week, one in looks]
        some = [one for (_, one), here in zip(looks, in_reach, strict=True) if here]
        rounds.append((monday, some))
        looks = [look for look, here in zip(looks, in_reach, strict=True) if not here]
    return rounds


def _chances(
    chances: Iterable[WeekWork], this_week: date, entry: _Entry, kept: Memo
) -> Iterator[WeekEntry]:
    """Each chance once, with those of its work and kind, in the best week of most of them that its
    own window is open in. What has its best week behind it was told of then."""
    groups: dict[tuple[str, str], list[WeekWork]] = defaultdict(list)
    for one in chances:
        groups[one.work, one.kind].append(one)
    for (work, kind), some in groups.items():
        in_weeks = partial(_in_their_weeks, some, this_week)
        for best, here in kept.once(("chances", work, kind), (some, this_week), in_weeks):
            name = f"may:{work}/{kind}/{_iso(best)}"
            yield entry("may", name, best, here, work=work, kind=kind)


def _in_their_weeks(left: list[WeekWork], this_week: date) -> list[tuple[date, list[WeekWork]]]:
    """Chances of one work and kind in few weeks, each in one that is near its best."""
    found: list[tuple[date, list[WeekWork]]] = []
    while best := _best_week(left, this_week):
        found.append((best, [one for one in left if _is_open_in(one, best, NEAR_BEST)]))
        left = [one for one in left if not _is_open_in(one, best, NEAR_BEST)]
    return found


def _best_week(works: Iterable[WeekWork], this_week: date) -> date | None:
    weeks = Counter(monday for one in works if (monday := monday_of(one.best)) >= this_week)
    return min(weeks, key=lambda monday: (-weeks[monday], monday), default=None)


def _is_open_in(one: WeekWork, monday: date, near: timedelta) -> bool:
    """Whether a work's window is open in a week, and that near its best one."""
    is_open = monday_of(one.opens) <= monday <= one.closes
    return is_open and abs(monday_of(one.best) - monday) <= near


def _foretold(works: Iterable[WeekWork]) -> Iterator[WeekEntry]:
    """What a forecast asks for at a place, once for what it holds and the year that it is of: no
    day is in its name, so a night that shifts moves it. It makes no week too full."""
    groups: dict[tuple[str, str, str], list[WeekWork]] = defaultdict(list)
    for one in works:
        if one.foretold is not None:
            year = one.group.rpartition("/")[2]
            groups[one.foretold.what, one.place, year].append(one)
    for (what, place, year), some in groups.items():
        those = tuple(sorted(some, key=lambda one: (one.best, one.rank)))
        first, last = those[0].best, max(one.closes for one in those)
        name = f"{what}:{place}/{year}"
        yield WeekEntry(
            "foretold",
            name,
            first,
            last,
            those,
            work=what,
            place=place,
            place_name=those[0].place_name,
        )


def _late(late: Iterable[WeekWork], today: date) -> tuple[WeekEntry, ...]:
    """All that is past its time, from today to a week on; its name never changes."""
    works = tuple(sorted(late, key=lambda one: one.rank))
    return (WeekEntry("late", "late:", today, today + AHEAD, works),) if works else ()


class _Together:
    """Makes entries of several works, each once while its works are the same."""

    def __init__(self, kept: Memo) -> None:
        self._kept = kept

    def entry(
        self, sort: JointSort, name: str, monday: date, works: Iterable[WeekWork], **common: str
    ) -> WeekEntry:
        """The entry of a week, of this name."""
        some = list(works)
        return self._kept.once(
            ("week entry", name),
            (sort, monday, some, common),
            lambda: _entry(sort, name, monday, some, **common),
        )


# What makes an entry of several works.
_Entry = Callable[..., WeekEntry]


def _entry(
    sort: JointSort, name: str, monday: date, works: Iterable[WeekWork], **common: str
) -> WeekEntry:
    some = tuple(sorted(works, key=lambda one: one.rank))
    in_week = [one.best for one in some if monday_of(one.best) == monday]
    first = min(in_week, default=monday)
    if common.get("place"):
        common["place_name"] = some[0].place_name
    # What should be on by now is seen on each day of the week, and not on its first alone.
    is_owed = not in_week and any(one.stays_on and one.best < monday for one in some)
    last = monday + timedelta(days=6) if is_owed else first
    return WeekEntry(sort, name, first, last, some, **common)


def _iso(monday: date) -> str:
    """A week as ISO 8601 writes it: `2027-W14`."""
    year, week, _ = monday.isocalendar()
    return f"{year}-W{week:02}"


# ------------------------------------------------------------------ no more than a week holds


class _Week:
    """The entries of a week, before and after they are merged to fit."""

    def __init__(self, entry: _Entry) -> None:
        self._entry = entry
        self.alone: list[WeekWork] = []
        self.joint: list[WeekEntry] = []

    def fitted(self, monday: date, most: int) -> _Week:
        """The same works in at most so many entries: first chances merge, then musts by place, then
        what stands alone with them, at last the places."""
        merges = (self._kinds, self._chances, self._places, self._with_alone, self._all_places)
        for merge in merges:
            if len(self.alone) + len(self.joint) > most:
                merge(monday, most)
        self.joint.sort(key=lambda one: (one.first, one.name))
        return self

    def _kinds(self, monday: date, most: int) -> None:
        """Chances of a kind become one."""
        self._merge("may", lambda one: one.kind, "kind", monday, most)

    def _chances(self, monday: date, most: int) -> None:
        """All chances become one."""
        of_week = [one for one in self.joint if one.sort in ("may", "kind")]
        if len(of_week) > 1:
            self._replace(of_week, "chances", f"chances:{_iso(monday)}", monday)

    def _places(self, monday: date, most: int) -> None:
        """Musts of a place become one."""
        self._merge("must", lambda one: one.place, "place", monday, most)

    def _with_alone(self, monday: date, most: int) -> None:
        """What would stand alone stands with its place, the gravest last."""
        by_rank = sorted(self.alone, key=lambda one: one.rank, reverse=True)
        while by_rank and len(self.alone) + len(self.joint) > most:
            place = by_rank[0].place
            going = [one for one in by_rank if one.place == place]
            there = [one for one in self.joint if one.place == place and one.sort in _OF_A_PLACE]
            self.alone = [one for one in self.alone if one.place != place]
            by_rank = [one for one in by_rank if one.place != place]
            name = f"place:{place}/{_iso(monday)}"
            self._replace(there, "place", name, monday, going, place=place)

    def _all_places(self, monday: date, most: int) -> None:
        """The places with the fewest works become one."""
        by_size = sorted(
            (one for one in self.joint if one.sort in _OF_A_PLACE),
            key=lambda one: (len(one.works), one.name),
        )
        over = len(self.alone) + len(self.joint) - most
        if over > 0:
            self._replace(by_size[: over + 1], "places", f"places:{_iso(monday)}", monday)

    def _merge(
        self, sort: JointSort, of: _Common, into: Literal["kind", "place"], monday: date, most: int
    ) -> None:
        """Merge the entries that have the same in common, where there are most of them first, until
        the rest fits."""
        groups: dict[str, list[WeekEntry]] = defaultdict(list)
        for one in self.joint:
            if one.sort == sort:
                groups[of(one)].append(one)
        by_size = sorted(groups.items(), key=lambda each: (-len(each[1]), each[0]))
        for common, some in by_size:
            if len(some) < 2 or len(self.alone) + len(self.joint) <= most:
                return
            name = f"{into}:{common}/{_iso(monday)}"
            kind, place = (common, "") if into == "kind" else ("", common)
            self._replace(some, into, name, monday, kind=kind, place=place)

    def _replace(
        self,
        some: Sequence[WeekEntry],
        sort: JointSort,
        name: str,
        monday: date,
        more: Iterable[WeekWork] = (),
        **common: str,
    ) -> None:
        gone = {one.name for one in some}
        works = chain(more, *(one.works for one in some))
        self.joint = [one for one in self.joint if one.name not in gone]
        self.joint.append(self._entry(sort, name, monday, works, **common))


_OF_A_PLACE = ("must", "place")
