"""Hangs the rules on a tree: finds what each hangs on, asks it, and names what it proposes.

A rule hangs on an act, on a season of a growing year, or on a growth stage. It is given the tree
as it was then: just after the act, or when the season or stage began.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from datetime import date, timedelta
from functools import cached_property, partial

from msgspec import Struct
from msgspec.structs import replace

from backbud.collection.fold import each_after, entries_until
from backbud.collection.hard_work import SEASON, may_stress
from backbud.collection.places import is_room, is_warm_cover
from backbud.collection.state import Tree
from backbud.collection.whereabouts import Histories
from backbud.journal.events import Event
from backbud.journal.read import Journal
from backbud.journal.weather.records import Records
from backbud.plan.asking import Asker
from backbud.plan.calm import kept_still, season_or_stage
from backbud.plan.common import RULES, UNLESS_SPECIES_SPEAKS
from backbud.plan.common.bite import bite_of
from backbud.plan.deeds import deed_planned
from backbud.plan.due import Due, cause_of, due_of
from backbud.plan.followups import Reason, reason_on
from backbud.plan.foreseen import foreseen
from backbud.plan.of_batches import is_asked_of
from backbud.plan.quote import Quoter, names_of
from backbud.plan.reason_of_time import reason_of_time
from backbud.plan.rests_frozen import resting_while_frozen
from backbud.plan.windows import window_said
from backbud.plan.year import Seen, Years, stages_seen
from backbud.species import (
    Proposal,
    Rule,
    Season,
    Species,
    Stage,
    Year,
    rules_of,
)
from backbud.species.year_told import Growth, growing_year_of
from backbud_grammar.dates import growing_year, growing_year_days

# How far back an act still asks for something, and how far ahead a season is looked at.
YEARS_BACK = 3
AHEAD = timedelta(days=400)
_DAY = timedelta(days=1)
# What hangs on a time of the year.
_YEARLY = ("season", "stage")
# The growing years before and after this one whose seasons still count.
YEARS_AROUND = (-1, 0, 1)


Bites = tuple[date | None, ...]


class _Asked(Struct, frozen=True):
    """A rule to be asked: with the tree after `count` entries, what is given to it, and when.

    `reason`: of what a time of the year or a forecast asks; an act is quoted where a rule has any
    answer to it."""

    rule: Rule
    count: int
    day: date
    place: str
    given: Event | Season | Stage
    cause: str
    reason: Reason | None = None
    event: Event | None = None


class Hanger:
    """Asks every rule, those of `own` too: rules of the journal's own for every tree."""

    def __init__(
        self,
        journal: Journal,
        histories: Histories,
        weather: Records,
        today: date,
        own: tuple[Rule, ...] = (),
        at: str = "",
        quoter: Quoter | None = None,
    ) -> None:
        """`at`: the place by whose weather all is planned, "" for where each tree stands. `quoter`:
        one that knows the names of this very journal, where there is one."""
        self.journal, self.histories, self.today = journal, histories, today
        self.years = Years(journal, weather, today)
        self._quoter = quoter
        self.this_year, _ = growing_year_days(today, journal.southern)
        self.since = self.this_year.replace(year=self.this_year.year - YEARS_BACK)
        self._rules: dict[type[Species] | None, tuple[Rule, ...]] = {}
        self._by_act: dict[type[Species] | None, Mapping[str, Sequence[Rule]]] = {}
        self._own, self._at, self.is_elsewhere = own, at, bool(at)
        self.asker = Asker(journal, today)
        # With whose reason it is, which lives as long.
        self._last_quoted: tuple[int, int, Reason, Event, Tree] | None = None

    @cached_property
    def quoter(self) -> Quoter:
        """Quotes lines; it knows the names of everybody, so it is made where one is quoted."""
        known = self._quoter
        return known or Quoter(self.journal, names_of(self.journal.things, self.histories.trees))

    def proposed(self, tree: Tree, species: Species | None, known_since: date) -> list[Due]:
        """Everything that the rules propose for a tree as it is today."""
        seen = stages_seen(tree.history)
        asked = [
            *self._on_acts(tree, species),
            *self._on_years(tree, species, seen, known_since),
            *self._on_forecast(tree, species, seen),
        ]
        growth = self.years.growth(tree, species)
        by_count: dict[int, list[int]] = {}
        for i, one in enumerate(asked):
            by_count.setdefault(one.count, []).append(i)
        has_undone = _tells_of_undone(tree)
        found: list[list[Due]] = [[] for _ in asked]
        given: dict[tuple[object, ...], Year] = {}
        for count, then in each_after(self.histories, self.journal.things, tree.handle, by_count):
            then = _without_undone(then) if has_undone else then
            # Most of what is asked after an act hangs on it, so it is given the same year.
            before: tuple[object, ...] | None = None
            for i in by_count[count]:
                one = asked[i]
                key = one.place, one.day, one.event is None
                if key != before:
                    year = self._year_of(one, then, species, seen, growth, given)
                    before = key
                found[i] = self._dues(one, tree, then, year)
        return [due for dues in found for due in dues]

    def _year_of(
        self,
        one: _Asked,
        then: Tree,
        species: Species | None,
        seen: Seen,
        growth: Growth | None,
        given: dict[tuple[object, ...], Year],
    ) -> Year:
        """The year that a rule is given; `given`: those of this tree so far, since many rules are
        given the same one."""
        known = seen
        if seen and one.event is not None and seen[-1][0] > one.day:
            known = tuple([s for s in seen if s[0] <= one.day])
        place = self._at or one.place or then.place
        deep_cm, name = self.years.deep_cm(then), growing_year_of(one.day, self.journal.southern)
        key = place, then.pot, deep_cm, name, known
        found = given.get(key)
        if found is None:
            found = given[key] = self.years.at(then, place, one.day, species, known, growth)
        return found

    def _dues(self, one: _Asked, tree: Tree, then: Tree, year: Year) -> list[Due]:
        """What a rule proposes; `then`: the tree as it was when it is asked about."""
        found = self._proposals(one, tree, then, year)
        if not found:
            return []
        at = -1 if one.event is None else one.count - 1
        acts, reason = self.journal.acts, one.reason or self._quoted(one.event, tree)
        return [
            due_of(tree, proposal, one.rule.id, one.cause, reason, acts, one.event, at)
            for proposal in found
            if (one.event is not None or is_asked_of(tree, acts[proposal.act]))
            and not self._is_elsewhere(one.rule, proposal, tree)
        ]

    def _quoted(self, event: Event | None, tree: Tree) -> Reason:
        """An act as the reason of what hangs on it; several rules ask for that of one act."""
        assert event is not None
        if self._last_quoted is None or self._last_quoted[:2] != (id(event), id(tree)):
            said = self.quoter.reason(event, tree)
            reason = reason_on("diary", said, event.origin, quotes=True)
            self._last_quoted = id(event), id(tree), reason, event, tree
        return self._last_quoted[2]

    def _is_elsewhere(self, rule: Rule, proposal: Proposal, tree: Tree) -> bool:
        """Whether it is work of the winter quarters of a tender tree, in its time, and it does not
        stand in them: where it was not brought in, that is asked for instead."""
        if not rule.inside or not proposal.window.opens <= self.today <= proposal.window.closes:
            return False
        cover = self.years.cover_at(tree.place)
        return not (is_room(cover) if rule.inside == "room" else is_warm_cover(cover))

    def _proposals(self, one: _Asked, tree: Tree, then: Tree, year: Year) -> list[Proposal]:
        """What a rule proposes; of what no act asks for, the far-off days kept still."""
        found = self.asker.ask(one.rule, tree, then, one.given, year)
        if not found or one.event is not None:
            return found
        if any(self._may_be_held_back(one, proposal, tree) for proposal in found):
            held = self.asker.ask(one.rule, tree, _without_undone(tree), one.given, year)
            if any(_holds_back(now, hard) for now in held for hard in found):
                return held
        if any(self._may_be_over(one, proposal, tree) for proposal in found):
            # What may be done is asked of the tree as it stands today.
            still = self.asker.ask(one.rule, tree, _without_undone(tree), one.given, year)
            works = {(now.act, now.part) for now in still}
            found = [p for p in found if p.weight.must or (p.act, p.part) in works]
        ask = partial(self.asker.ask, one.rule, tree, then)
        return kept_still(ask, found, one.given, year)

    def _may_be_held_back(self, one: _Asked, proposal: Proposal, tree: Tree) -> bool:
        """Whether it is hard work of a season that has begun and is not over, not done yet.

        The tree may have been found weak, sick or been worked on since the season began.
        """
        given = one.given
        return (
            not isinstance(given, Event)
            and given.first <= self.today <= proposal.window.closes
            and may_stress(self.journal.acts[proposal.act])
            and not tree.done_since(given.first, proposal.act)
        )

    def _may_be_over(self, one: _Asked, proposal: Proposal, tree: Tree) -> bool:
        """Whether it is a chance of a season that has begun and is not over, not taken yet."""
        given = one.given
        return (
            not isinstance(given, Event)
            and not proposal.weight.must
            and given.first <= self.today <= proposal.window.closes
            and not tree.done_since(given.first, proposal.act)
        )

    def judged(self, due: Due, tree: Tree, species: Species | None) -> Due:
        """A plan that is still open, with what its species says against it as cautions; not where
        its time is over a season past, and it is only asked to be closed or planned again."""
        one = due.follow_up
        is_history = one.window.closes + SEASON < self.today
        if species is None or one.outcome != "open" or not one.promised or is_history:
            return due
        year = self.years.at(tree, self._at or tree.place, one.window.best, species, ())
        against = year.against(tree, deed_planned(one))
        if not against:
            return due
        cautions = (*one.cautions, *against)
        return replace(due, follow_up=replace(one, cautions=cautions, against=tuple(against)))

    def foreseen(self, dues: Sequence[Due], tree: Tree, species: Species | None) -> Sequence[Due]:
        """What a forecast changes of the works of a tree, whatever asks for them."""
        if self._at:
            return dues
        here = self.years.at(tree, tree.place, self.today, species, ())
        if here.ahead is None:
            return dues
        outside = self.years.at(tree, tree.outside or tree.place, self.today, species, ())
        return foreseen(dues, tree, here, outside)

    def resting(self, dues: Sequence[Due], tree: Tree, species: Species | None) -> Sequence[Due]:
        """The works of a tree, what may be done to its wood not while that is frozen."""
        here = self.years.at(tree, self._at or tree.place, self.today, species, ())
        return dues if here.outlook is None else list(resting_while_frozen(dues, here))

    def bites(self, tree: Tree, species: Species | None) -> Bites:
        """For each thing on a tree the day it is reckoned to bite; None where it is no wire."""
        if not tree.on("wire"):
            return ()
        growth = self.years.growth(tree, species)
        found = (bite_of(thing, tree.history, growth) for thing in tree.on_tree)
        return tuple(bite.day if bite is not None else None for bite in found)

    # -------------------------------------------------------------- on what the rules hang

    def _on_acts(self, tree: Tree, species: Species | None) -> Iterator[_Asked]:
        by_act = self._rules_by_act(species)
        # What is still on the tree asks to come off, however long ago it was put on.
        still_on = {id(thing.event) for thing in tree.on_tree}
        for at, entry in enumerate(tree.history):
            event = entry.event
            rules = by_act.get(event.act)
            if rules is None or (event.day < self.since and id(event) not in still_on):
                continue
            if not event.exact or entry.undone or tree.began_another(event):
                continue
            for rule in rules:
                yield _Asked(rule, at + 1, event.day, "", event, cause_of(event), event=event)

    def _on_years(
        self, tree: Tree, species: Species | None, seen: Seen, known_since: date
    ) -> Iterator[_Asked]:
        rules = [rule for rule in self._rules_of(species) if rule.hangs_on in _YEARLY]
        if not rules:
            return
        place = self._at or self.years.usual_place(tree, self.today)
        if self.years.tells_no_season(place):
            return
        counts: dict[date, int] = {}
        for first in self._growing_years(tree):
            year = self.years.at(tree, place, first, species, seen)
            cause = year.name.replace("/", "-")
            times: dict[tuple[object, ...], tuple[Season | Stage | None, Reason | None]] = {}
            for rule in rules:
                time = rule.hangs_on, rule.season, rule.stage
                if time not in times:
                    found = season_or_stage(rule, year)
                    if found is not None and found.first > self.today + AHEAD:
                        found = None
                    times[time] = found, None if found is None else reason_of_time(found, year)
                found, reason = times[time]
                if found is None or reason is None:
                    continue
                begun = found.first <= self.today
                # A tree that came later in the season is asked about as it came.
                day = max(found.first - _DAY, known_since) if begun else self.today
                if rule.as_it_stands:
                    day = min(found.last, self.today)
                day = min(day, self.today)
                if day not in counts:
                    counts[day] = entries_until(self.histories, tree.handle, day)
                there = "" if begun else place
                yield _Asked(rule, counts[day], first, there, found, cause, reason)

    def _on_forecast(self, tree: Tree, species: Species | None, seen: Seen) -> Iterator[_Asked]:
        """What a forecast asks for: of a tree that stands here, as it stands today."""
        rules = [rule for rule in self._rules_of(species) if rule.hangs_on == "forecast"]
        if not rules or self._at:
            return
        year = self.years.at(tree, tree.place, self.today, species, seen)
        if year.ahead is None:
            return
        said = year.ahead.forecast.said
        reason = Reason("datum", f"{said[0].upper()}{said[1:]}.", expected=True)
        count = entries_until(self.histories, tree.handle, self.today)
        for rule in rules:
            # A winter is one year of the other half of the Earth.
            southern = year.southern is not (rule.season == "winter")
            cause = growing_year(self.today, southern).replace("/", "-")
            given = year.season("year")
            yield _Asked(rule, count, self.today, tree.place, given, cause, reason)

    def _growing_years(self, tree: Tree) -> list[date]:
        """The first days of the growing years that count: those around today, and those whose
        work was put off into them."""
        this = self.this_year.year
        years = {this + offset for offset in YEARS_AROUND}
        oldest = min(years)
        for entry in tree.history:
            event = entry.event
            if event.act == "put-off" and event.exact and not entry.undone:
                window = window_said(event, self.journal.southern)
                begun = growing_year_days(event.day, self.journal.southern)[0].year
                if window is not None and window.closes.year >= oldest:
                    years |= {begun, begun + 1}
        return [self.this_year.replace(year=year) for year in sorted(years)]

    # -------------------------------------------------------------- the rules

    def _rules_of(self, species: Species | None) -> tuple[Rule, ...]:
        kind = type(species) if species is not None else None
        if kind not in self._rules:
            own = rules_of(species) if species is not None else ()
            acts = self.journal.acts
            spoken = {act for rule in own for act in rule.acts_of(acts)}
            common = [
                rule
                for module in RULES
                for rule in rules_of(module)
                if module not in UNLESS_SPECIES_SPEAKS
                or not spoken.intersection(rule.acts_of(acts))
            ]
            self._rules[kind] = (*common, *self._own, *own)
        return self._rules[kind]

    def _rules_by_act(self, species: Species | None) -> Mapping[str, Sequence[Rule]]:
        kind = type(species) if species is not None else None
        if kind not in self._by_act:
            by_act: dict[str, list[Rule]] = {}
            for rule in self._rules_of(species):
                for act in rule.acts_of(self.journal.acts):
                    by_act.setdefault(act, []).append(rule)
            self._by_act[kind] = by_act
        return self._by_act[kind]


def _holds_back(now: Proposal, hard: Proposal) -> bool:
    """Whether a look at the tree's strength is what its rule now proposes in the work's stead."""
    return now.act == "checked" and {"vigour", hard.act} <= set(now.settled_by)


def _without_undone(tree: Tree) -> Tree:
    """The tree as a rule sees it: what never happened is no part of its history."""
    if not _tells_of_undone(tree):
        return tree
    return replace(tree, history=tuple(entry for entry in tree.history if not entry.undone))


def _tells_of_undone(tree: Tree) -> bool:
    # Few lines are corrected at all, and it is asked of each history again and again.
    return any(entry.undone for entry in tree.history if entry.corrected_by is not None)
