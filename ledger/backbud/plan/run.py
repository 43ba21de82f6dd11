"""Plans every tree: the steps from its rules to its follow-ups stand in `STEPS` as they run.

Whether a follow-up is late, or is to be done now, is not settled here: `FollowUp.state` tells it
for any day.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Container, Iterable, Iterator, Mapping, Sequence
from datetime import date
from functools import partial

from msgspec import Struct
from msgspec.structs import replace

from backbud.collection.open_bills import BillState
from backbud.collection.state import Tree
from backbud.collection.whereabouts import Histories
from backbud.journal.by_turns import by_turns
from backbud.journal.events import Event
from backbud.journal.problems import WithFlaws
from backbud.journal.read import Journal
from backbud.journal.weather.records import Records
from backbud.memo import Identical
from backbud.plan.above_layer import left_above_layer
from backbud.plan.agreed_work import agreed_work
from backbud.plan.ask_after import ask_after
from backbud.plan.bare_again import bare_again
from backbud.plan.customers import hand_back
from backbud.plan.cycles import overtaken, with_cycles
from backbud.plan.due import Due
from backbud.plan.each_tree import MANY_TREES, TREES, EachTree, SpeciesFinder, TreeWithPlan
from backbud.plan.feed_pauses import one_helping, paused
from backbud.plan.fetch_back import fetch_back
from backbud.plan.followups import FollowUp, Reason, reason_on
from backbud.plan.give_way import given_way
from backbud.plan.hang import Bites, Hanger
from backbud.plan.hours import learned
from backbud.plan.in_flower import spared_bees
from backbud.plan.insults import weighed
from backbud.plan.keepers import planned, set_by_keeper
from backbud.plan.of_batches import none_is_left
from backbud.plan.one_way import one_way
from backbud.plan.one_wire import one_wire
from backbud.plan.roots_left_alone import roots_left_alone
from backbud.plan.settle import settled
from backbud.plan.shared import SharedParts
from backbud.plan.spared import spared
from backbud.plan.unpaid import bills_by_tree, unpaid
from backbud.plan.within_agreed import agreed_acts, within_agreed
from backbud.plan.world import ByTree
from backbud.plan.year import stages_seen
from backbud.plugins.added import NO_PLUGINS, Plugins
from backbud.species import Species, Year


class Plan(Struct, frozen=True):
    """Every tree as it is, and its follow-ups, in the order of their windows.

    `bites`: by tree, for each thing that is on it the day it is reckoned to bite, if it is wire.
    """

    trees: Mapping[str, Tree]
    follow_ups: Mapping[str, Sequence[FollowUp]]
    species: Mapping[str, Species | None]
    bites: Mapping[str, Bites] = {}

    def all(self) -> Iterator[FollowUp]:
        """Every follow-up of every tree."""
        for one in self.follow_ups.values():
            yield from one

    def only(self, handles: Iterable[str]) -> Plan:
        """The plan of these trees alone."""
        wanted = list(handles)
        if len(wanted) == len(self.trees):
            return self
        return Plan(
            {handle: self.trees[handle] for handle in wanted},
            {handle: self.follow_ups[handle] for handle in wanted},
            {handle: self.species[handle] for handle in wanted},
            {handle: self.bites[handle] for handle in wanted if handle in self.bites},
        )

    def without_follow_ups(self, of: Container[str]) -> Plan:
        """The plan with all its trees, but nothing to do on some of them."""
        return replace(
            self,
            follow_ups={h: () if h in of else those for h, those in self.follow_ups.items()},
            bites={h: those for h, those in self.bites.items() if h not in of},
        )

    def find(self, wanted: str) -> list[FollowUp]:
        """The follow-up of that id; or all whose id holds what was written."""
        exact = [f for f in self.all() if f.id == wanted]
        return exact or [f for f in self.all() if wanted in f.id]


def plan_all(
    journal: Journal,
    histories: Histories,
    find_species: SpeciesFinder,
    weather: Records,
    today: date,
    only: Iterable[str] | None = None,
    by_tree: ByTree | None = None,
    plugins: Plugins = NO_PLUGINS,
    by_two: bool = False,
) -> WithFlaws[Plan]:
    """Plan every tree (or `only` these) as the diary stands on a day.

    `by_tree`: what an earlier run of this process left of each tree. `plugins`: what the journal's
    own code adds. `by_two`: a copy of this process may help; then nothing is left in `by_tree`.
    """
    by_tree = by_tree or ByTree()
    handles = list(histories.trees if only is None else only)
    asked = each_tree(journal, histories, find_species, weather, today, by_tree, plugins)
    asker = asked.hanger.asker
    planned: dict[str, TreeWithPlan] = {}

    def take(handle: str, one: TreeWithPlan) -> None:
        inputs = (Identical(one.due), asked.minutes)
        due = by_tree.kept.once(("minutes", handle), inputs, partial(asked.with_minutes, one))
        planned[handle] = TreeWithPlan(one.tree, one.species, due, one.bites)

    def here(some: Sequence[str]) -> Iterator[str]:
        for handle in some:
            work = partial(asked.planned, handle)
            more = asked.bills.get(handle, ())
            take(handle, by_tree.once("plan", handle, histories, journal.things, work, more))
            yield handle

    def came(data: bytes) -> Iterator[str]:
        those, left = asked.came(data)
        for handle, one in those:
            take(handle, one)
            yield handle
        yield from here(left)

    if by_two and len(handles) >= MANY_TREES:
        parts = [handles[at : at + TREES] for at in range(0, len(handles), TREES)]
        deque(by_turns(parts, here, asked.sent, came), maxlen=0)
        if asker.flaws():
            # Which tree a rule failed for first is told by planning them in their order.
            return plan_all(
                journal, histories, find_species, weather, today, handles, by_tree, plugins
            )
    else:
        deque(here(handles), maxlen=0)
    for handle in handles:
        if asker.failed_for(handle):
            by_tree.drop("plan", handle)
    plan = Plan(
        {handle: planned[handle].tree for handle in handles},
        {handle: planned[handle].due for handle in handles},
        {handle: planned[handle].species for handle in handles},
        {handle: planned[handle].bites for handle in handles},
    )
    return WithFlaws(plan, asker.flaws())


def each_tree(
    journal: Journal,
    histories: Histories,
    find_species: SpeciesFinder,
    weather: Records,
    today: date,
    by_tree: ByTree,
    plugins: Plugins = NO_PLUGINS,
) -> EachTree:
    """What the plan of any tree is made from: the rules, the minutes, and who owes what."""
    hanger = Hanger(journal, histories, weather, today, plugins.rules)
    minutes = learned(histories, journal.things, today, by_tree)
    bills = bills_by_tree(journal, histories, today, by_tree)
    parts = SharedParts()
    return EachTree(
        journal, histories, find_species, today, hanger, bills, follow_ups_of, minutes, parts
    )


def follow_ups_of(
    tree: Tree, species: Species | None, hanger: Hanger, bills: Sequence[BillState] = ()
) -> tuple[FollowUp, ...]:
    """What falls due on a tree, with no minutes learned yet."""
    if not tree.here:
        return _of_gone(tree, hanger, bills)
    return _of_tree(tree, species, hanger, bills)


# ------------------------------------------------------------------ the steps for one tree


class ToPlan(Struct, frozen=True):
    """A tree that is here and its species, and who hangs the rules on it.

    `known_since`: the first day the diary speaks of it. `bills`: those of its owner that are open,
    or were paid of late.
    """

    tree: Tree
    species: Species | None
    hanger: Hanger
    known_since: date
    bills: Sequence[BillState] = ()


PlanStep = Callable[[ToPlan, Sequence[Due]], Sequence[Due]]


def hang(asked: ToPlan, dues: Sequence[Due]) -> Sequence[Due]:
    """Each rule is hung on the acts, seasons and stages of the tree; a rule that raises is told,
    and the rest is hung all the same (hang.py, common/)."""
    return asked.hanger.proposed(asked.tree, asked.species, asked.known_since)


def name(asked: ToPlan, dues: Sequence[Due]) -> Sequence[Due]:
    """One due of each id: first handle / rule / cause / part (due.py); none from before the diary
    speaks of the tree, but for what it may die without and was late by then: a fig that stands
    outside in the autumn in which its journal begins."""
    since = asked.known_since
    named: dict[str, Due] = {}
    for due in dues:
        one = due.follow_up
        late = one.weight.at_stake == "life" and one.state(since) == "overdue"
        if late or one.window.closes >= since:
            named.setdefault(one.id, due)
    return list(named.values())


def keep(asked: ToPlan, dues: Sequence[Due]) -> Sequence[Due]:
    """What the keeper planned, set for a later check (keepers.py), or owes a customer, and is owed
    (customers.py, agreed_work.py, unpaid.py); of a customer's tree no season asks more than its
    keep and the works that were agreed by name (within_agreed.py)."""
    tree, journal, quoter = asked.tree, asked.hanger.journal, asked.hanger.quoter
    agreed = None if asked.hanger.is_elsewhere else agreed_acts(tree, journal)
    if agreed is not None:
        dues = within_agreed(dues, agreed, journal.acts)
    kept = {due.follow_up.id: due for due in dues if not none_is_left(tree, due)}
    for due in (
        *set_by_keeper(tree, journal, quoter),
        *hand_back(tree, journal, quoter),
        *agreed_work(tree, journal),
        *unpaid(tree, asked.bills, journal),
    ):
        kept[due.follow_up.id] = due
    return list(kept.values())


def cycle(asked: ToPlan, dues: Sequence[Due]) -> Sequence[Due]:
    """The next of its kind stands for each (cycles.py)."""
    return with_cycles(dues, asked.hanger.journal.southern)


def settle(asked: ToPlan, dues: Sequence[Due]) -> Sequence[Due]:
    """By what was done, skipped or put off since (settle.py); what a next one stands for then is
    over (cycles.py)."""
    tree, journal, quoter = asked.tree, asked.hanger.journal, asked.hanger.quoter

    def quote(event: Event) -> Reason:
        return reason_on("plan", quoter.reason(event, tree, remark=True), event.origin, quotes=True)

    def as_plan(event: Event, at: int) -> Iterator[Due]:
        return planned(tree, event, at, journal, quoter)

    def cover_over(event: Event) -> str:
        to = event.first("to")
        return asked.hanger.years.cover_at(to.handle) if to is not None else ""

    return overtaken(settled(dues, tree, journal.southern, quote, as_plan, cover_over))


def shelter(asked: ToPlan, dues: Sequence[Due]) -> Sequence[Due]:
    """A shelter that was taken away before its time is asked for again (bare_again.py)."""
    tree = asked.tree
    return bare_again(dues, tree, asked.hanger.years.cover_at(tree.place))


def give_way(asked: ToPlan, dues: Sequence[Due]) -> Sequence[Due]:
    """What the keeper planned takes the place of what a rule proposed (give_way.py), and the way
    out that of the way on (one_way.py); no look at roots that nobody would repot now
    (roots_left_alone.py), one line of each wire (one_wire.py); feed waits while the tree has to
    rest (feed_pauses.py)."""
    left = one_wire(roots_left_alone(one_way(given_way(dues)), asked.tree), asked.tree)
    return paused(left, asked.tree, asked.hanger.years.feed_days)


def spare(asked: ToPlan, dues: Sequence[Due]) -> Sequence[Due]:
    """While a tree has to recover it is asked for neither feed nor shape (spared.py), and then for
    one helping (feed_pauses.py)."""
    today = asked.hanger.today
    return one_helping(spared(dues, asked.tree, today), today)


def weigh(asked: ToPlan, dues: Sequence[Due]) -> Sequence[Due]:
    """Two stresses in one season, or one on a weak tree, are a caution (insults.py), and so is
    what grows above a layer (above_layer.py); plans so old that nobody asks for them are no
    stress."""
    dues = left_above_layer(dues, asked.tree)
    since = asked.hanger.since
    asked_for = [due for due in dues if not _is_past(due.follow_up, since)]
    found = weighed(asked.tree, tuple([due.follow_up for due in asked_for]))
    pairs = zip(asked_for, found, strict=True)
    return [
        due if due.follow_up is follow_up else replace(due, follow_up=follow_up)
        for due, follow_up in pairs
    ]


def judge(asked: ToPlan, dues: Sequence[Due]) -> Sequence[Due]:
    """What the keeper planned is judged by the species' own times (species/judging.py)."""
    return [asked.hanger.judged(due, asked.tree, asked.species) for due in dues]


def foresee(asked: ToPlan, dues: Sequence[Due]) -> Sequence[Due]:
    """What takes a cover away waits while frost is foretold (foreseen.py); what is treated in
    flower spares the bees (in_flower.py)."""
    tree, species, hanger = asked.tree, asked.species, asked.hanger

    def year() -> Year:
        seen = stages_seen(tree.history)
        return hanger.years.at(tree, tree.place, hanger.today, species, seen)

    return spared_bees(hanger.foreseen(dues, tree, species), year)


def rest(asked: ToPlan, dues: Sequence[Due]) -> Sequence[Due]:
    """What may be done to wood rests while it is frozen (rests_frozen.py)."""
    return asked.hanger.resting(dues, asked.tree, asked.species)


# How a tree is planned: each step takes what falls due after those before it. The minutes come
# last and apart, since they are learned from all trees (hours.py).
STEPS: tuple[tuple[str, PlanStep], ...] = (
    ("hang", hang),
    ("name", name),
    ("keep", keep),
    ("cycle", cycle),
    ("settle", settle),
    ("shelter", shelter),
    ("give way", give_way),
    ("spare", spare),
    ("weigh", weigh),
    ("judge", judge),
    ("foresee", foresee),
    ("rest", rest),
)


def _of_gone(tree: Tree, hanger: Hanger, bills: Sequence[BillState]) -> tuple[FollowUp, ...]:
    """Who is not here asks for nothing, but that its owner is asked after it, and pays, and that
    what was lent comes back."""
    journal = hanger.journal
    dues = (
        *ask_after(tree, journal),
        *fetch_back(tree, hanger),
        *unpaid(tree, bills, journal),
    )
    if not dues:
        return ()
    asked = ToPlan(tree, None, hanger, hanger.today, bills)
    # What was put off while it was here is nobody's to do now.
    asked_for = {due.rule for due in dues}
    follow_ups = [due.follow_up for due in settle(asked, dues) if due.rule in asked_for]
    return tuple(sorted(follow_ups, key=lambda f: (f.window.best, f.id)))


def _of_tree(
    tree: Tree, species: Species | None, hanger: Hanger, bills: Sequence[BillState]
) -> tuple[FollowUp, ...]:
    asked = ToPlan(tree, species, hanger, _known_since(tree, hanger.today), bills)
    dues: Sequence[Due] = ()
    for _, step in STEPS:
        dues = step(asked, dues)
    follow_ups = [due.follow_up for due in dues]
    return tuple(sorted(follow_ups, key=lambda f: (f.window.best, f.id)))


def _is_past(follow_up: FollowUp, since: date) -> bool:
    """Whether a plan that was kept, or a look that was set, is so old that nobody asks for it."""
    if follow_up.promised and follow_up.outcome == "open":
        return False
    last = follow_up.settled.day if follow_up.settled else follow_up.window.closes
    return follow_up.planned and max(last, follow_up.window.closes) < since


def _known_since(tree: Tree, today: date) -> date:
    """The first exact day the diary speaks of the tree; before it nothing was asked of anyone.

    For a tree that came back, the day it did.
    """
    first = next((entry.event.day for entry in tree.history if entry.event.exact), today)
    return max(first, tree.standing_since) if tree.standing_since is not None else first
