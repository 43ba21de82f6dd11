"""The collection and its species go in; every tree's follow-ups come out.

The steps for each tree, in order:
    hang      each rule on the acts, seasons and stages of the tree (species' rules and common ones)
    propose   what each rule yields; a rule that raises is a problem, and the rest still runs
    name      the id: first handle / rule / cause
    settle    by what was done, skipped or put off since (settle.py)
    plan      what the keeper planned takes the place of what a rule proposed
    weigh     two stresses in one season are a caution (insults.py)

Nothing here looks at today but to choose which growing years are worth computing.
"""

from __future__ import annotations

import traceback
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta

from msgspec import Struct
from msgspec.structs import replace

from backbud.collection.fold import steps, tree_on
from backbud.collection.state import Tree
from backbud.collection.whereabouts import Histories
from backbud.journal.events import Event, Origin
from backbud.journal.read import Journal
from backbud.plan.common import RULES
from backbud.plan.customers import customer_follow_ups
from backbud.plan.dangers import cautions_for
from backbud.plan.followups import FollowUp, Reason
from backbud.plan.insults import weighed
from backbud.plan.minutes import usual_minutes
from backbud.plan.settle import settled, window_of_plan
from backbud.plan.year import year_of
from backbud.species import Proposal, Rule, Season, Species, Stage, Year, rules_of
from backbud_grammar.dates import growing_year_days
from backbud_grammar.details import part_at_commas

# How far back an act still asks for something, and how far ahead a season is looked at.
YEARS_BACK = 3
DAYS_AHEAD = 400


class Plan(Struct, frozen=True):
    """Every tree as it is, and its follow-ups, in the order of their windows."""

    trees: Mapping[str, Tree]
    follow_ups: Mapping[str, tuple[FollowUp, ...]]
    species: Mapping[str, Species | None]

    def all(self) -> Iterator[FollowUp]:
        """Every follow-up of every tree."""
        for one in self.follow_ups.values():
            yield from one

    def find(self, wanted: str) -> list[FollowUp]:
        """The follow-up of that id; or all whose id holds what was written."""
        exact = [f for f in self.all() if f.id == wanted]
        return exact or [f for f in self.all() if wanted in f.id]


SpeciesFinder = Callable[[str], Species | None]


def plan_all(
    journal: Journal, histories: Histories, find_species: SpeciesFinder, today: date,
    only: Iterable[str] | None = None,
) -> Plan:
    """Plan every tree (or `only` these) as the diary stands on a day."""
    planner = _Planner(journal, histories, find_species, today)
    handles = list(histories.trees if only is None else only)
    trees: dict[str, Tree] = {}
    follow_ups: dict[str, tuple[FollowUp, ...]] = {}
    species: dict[str, Species | None] = {}
    for handle in handles:
        tree = tree_on(histories, journal.things, handle, today)
        trees[handle] = tree
        species[handle] = find_species(tree.kind)
        follow_ups[handle] = planner.of_tree(tree, species[handle]) if tree.here else ()
    return Plan(trees, follow_ups, species)


class _Hung(Struct, frozen=True):
    """A proposal with what it hangs on."""

    rule: Rule
    proposal: Proposal
    cause: str
    event: Event | None
    reason: Reason


class _Planner:
    def __init__(
        self, journal: Journal, histories: Histories, find_species: SpeciesFinder, today: date
    ) -> None:
        self.journal, self.histories, self.today = journal, histories, today
        self.find_species = find_species
        self.common = tuple(rule for module in RULES for rule in rules_of(module))
        self.own: dict[str, tuple[Rule, ...]] = {}
        self.acts = dict(journal.acts)
        first, _ = growing_year_days(today, journal.southern)
        self.since = first.replace(year=first.year - YEARS_BACK)

    def of_tree(self, tree: Tree, species: Species | None) -> tuple[FollowUp, ...]:
        rules = self._rules(species)
        known_since = _known_since(tree, self.today)
        hung = [
            *self._on_acts(tree, species, rules),
            *self._on_years(tree, species, rules),
        ]
        found: dict[str, FollowUp] = {}
        for one in hung:
            follow_up = self._named(tree, one)
            if follow_up.window.closes < known_since or follow_up.id in found:
                continue
            found[follow_up.id] = settled(
                follow_up, one.proposal.part, one.event, tree.history, self.acts,
                self.journal.southern)
        with_cycles = _cycles(found.values())
        planned = self._planned(tree)
        out = [*_give_way(with_cycles, planned), *planned]
        out += customer_follow_ups(tree, self.journal)
        return weighed(tree, tuple(sorted(out, key=lambda f: (f.window.best, f.id))))

    # -------------------------------------------------------------- hang and propose

    def _rules(self, species: Species | None) -> tuple[Rule, ...]:
        if species is None:
            return self.common
        if species.title not in self.own:
            self.own[species.title] = (*self.common, *rules_of(species))
        return self.own[species.title]

    def _year(self, tree: Tree, day: date, species: Species | None) -> Year:
        return year_of(tree, day, species, self.journal.things, self.journal.settings,
                       self.journal.southern)

    def _on_acts(
        self, tree: Tree, species: Species | None, rules: Sequence[Rule]
    ) -> Iterator[_Hung]:
        by_act: dict[str, list[Rule]] = {}
        for rule in rules:
            for act in rule.acts:
                by_act.setdefault(act, []).append(rule)

        def wanted(event: Event) -> bool:
            return (event.act in by_act and event.day >= self.since and event.exact
                    and not event.has("not done"))

        for entry, then in steps(self.histories, self.journal.things, tree.handle, wanted):
            event = entry.event
            year = self._year(then, event.day, species)
            cause = f"{event.act}-{event.when.text}"
            reason = Reason("diary", f"{event.day}: {event.written}.", event.origin)
            for rule in by_act[event.act]:
                for proposal in self._run(rule, tree, then, event, year):
                    yield _Hung(rule, proposal, cause, event, reason)

    def _on_years(
        self, tree: Tree, species: Species | None, rules: Sequence[Rule]
    ) -> Iterator[_Hung]:
        yearly = [rule for rule in rules if rule.hangs_on != "act"]
        if not yearly:
            return
        first, _ = growing_year_days(self.today, self.journal.southern)
        for offset in (-1, 0, 1):
            day = first.replace(year=first.year + offset)
            for rule in yearly:
                yield from self._on_year(rule, tree, species, day)

    def _on_year(
        self, rule: Rule, tree: Tree, species: Species | None, day: date
    ) -> Iterator[_Hung]:
        year = self._year(tree, day, species)
        cause = year.name.replace("/", "-")
        if rule.hangs_on == "season":
            season = year.season(rule.season)
            given: Season | Stage = season
            starts = season.first
            reason = Reason("season", f"{rule.season.capitalize()} {year.name} at "
                            f"{year.place or 'this place'}.")
        else:
            stage = year.stage(rule.stage)
            if stage is None:
                return
            starts, given = stage.first, stage
            reason = Reason("season", f"BBCH stage {rule.stage}, {year.name}. {stage.because}")
        if starts > self.today + timedelta(days=DAYS_AHEAD):
            return
        then = tree
        if starts < self.today:
            then = tree_on(self.histories, self.journal.things, tree.handle, starts)
            if not then.here and then.standing != "not yet":
                return
        for proposal in self._run(rule, tree, then, given, year):
            yield _Hung(rule, proposal, cause, None, reason)

    def _run(
        self, rule: Rule, tree: Tree, then: Tree, given: object, year: Year
    ) -> Iterator[Proposal]:
        """Run a rule; what it raises, or yields that is none, is a problem of the journal's."""
        try:
            for proposal in rule.function(then, given, year):
                if not isinstance(proposal, Proposal):
                    raise TypeError(f"it yielded {proposal!r}, which is no Proposal")
                if proposal.act not in self.acts:
                    raise ValueError(f"“{proposal.act}” is no act")
                yield proposal
        except Exception as error:
            card = self.journal.things.by_handle.get(tree.handle)
            origin = card.origin if card else Origin("backbud.toml", 1, 1)
            last = traceback.extract_tb(error.__traceback__)[-1]
            self.journal.notes.at(
                origin, "rule-failed", f"the rule “{rule.id}” failed for {tree.handle}: "
                f"{type(error).__name__}: {error}",
                f"{last.filename}, line {last.lineno}, in {last.name}. "
                "Everything else was planned.", 0, 1)

    # -------------------------------------------------------------- name

    def _named(self, tree: Tree, one: _Hung) -> FollowUp:
        proposal = one.proposal
        act = self.acts[proposal.act]
        part = f"/{_slug(proposal.part)}" if proposal.part else ""
        because = [one.reason, Reason("rule", proposal.because)]
        if proposal.datum:
            because.append(Reason("datum", proposal.datum))
        return FollowUp(
            f"{tree.first_handle}/{one.rule.id}/{one.cause}{part}", tree.handle, act.word,
            f"{act.bare} {proposal.what}".strip(), proposal.window, tuple(because),
            tuple(dict.fromkeys((*proposal.cautions, *cautions_for(act.word)))),
            proposal.minutes or usual_minutes(act.word), proposal.settled_by or (act.word,),
            lapses=proposal.lapses,
        )

    # -------------------------------------------------------------- plan

    def _planned(self, tree: Tree) -> list[FollowUp]:
        out: dict[str, FollowUp] = {}
        for entry in tree.history:
            event = entry.event
            if event.act not in ("planned", "put-off") or not event.named or event.has("not done"):
                continue
            if event.act == "put-off" and not event.has("to") and not event.has("in"):
                continue
            act = self.acts[event.named]
            parts = event.parts
            follow_up = FollowUp(
                f"{tree.first_handle}/planned/{act.word}-{event.when.text}", tree.handle,
                act.word, f"{act.bare} {_what_is_planned(event)}".strip(),
                window_of_plan(event, self.journal.southern),
                (Reason("plan", f"{event.day}: {event.written}"
                        f"{' – ' + event.remark if event.remark else ''}.", event.origin),),
                cautions_for(act.word), usual_minutes(act.word), (act.word,), planned=True,
            )
            out[follow_up.id] = settled(
                follow_up, parts[0] if parts else "", event, tree.history, self.acts,
                self.journal.southern)
        return list(out.values())


def _give_way(follow_ups: Iterable[FollowUp], planned: Sequence[FollowUp]) -> list[FollowUp]:
    """What the keeper planned stands for an open proposal of the same act near its window."""
    out = []
    near = timedelta(days=180)
    for one in follow_ups:
        taken = one.outcome == "open" and one.moved_from is None and any(
            plan.act == one.act and plan.outcome == "open"
            and plan.window.opens - near <= one.window.best <= plan.window.closes + near
            for plan in planned
        )
        out.append(replace(one, outcome="replaced") if taken else one)
    # A put-off that moved a proposal needs no entry of its own.
    moved = {one.act for one in out if one.moved_from is not None}
    planned_ids = {plan.id for plan in planned if plan.act in moved}
    return [one for one in out if one.id not in planned_ids]


def _cycles(follow_ups: Iterable[FollowUp]) -> list[FollowUp]:
    """Tell each follow-up from which day the next one of its rule and part stands for it."""
    chains: dict[tuple[str, ...], list[FollowUp]] = {}
    for follow_up in follow_ups:
        _, rule, _, *part = follow_up.id.split("/")
        chains.setdefault((rule, *part), []).append(follow_up)
    out: list[FollowUp] = []
    for chain in chains.values():
        chain.sort(key=lambda f: (f.window.opens, f.id))
        for this, following in zip(chain, [*chain[1:], None], strict=True):
            out.append(this if following is None or this.moved_from is not None
                       else replace(this, next_cycle=following.window.opens))
    return out


def _what_is_planned(event: Event) -> str:
    """The details of a plan without its time: "into tray-9, mix maple"."""
    pieces = [piece for _, piece in part_at_commas(event.text)]
    pieces[0] = pieces[0].partition(" ")[2]
    return ", ".join(p for p in pieces if p and p.split()[0] not in ("to", "in"))


def _known_since(tree: Tree, today: date) -> date:
    """The first exact day the diary speaks of the tree; before it nothing was asked of anyone."""
    days = [entry.event.day for entry in tree.history if entry.event.exact]
    first = min(days, default=today)
    if tree.standing_since is not None:
        first = max(first, tree.standing_since)
    return first


def _slug(part: str) -> str:
    return "-".join(part.casefold().split())
