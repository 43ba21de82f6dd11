"""What a follow-up is: one work that falls due on one tree, with its window and its reasons.

It is the same whatever day it is looked at; `state` tells how it stands on a day.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import Literal

from msgspec import Struct

from backbud.journal.events import Event, Origin
from backbud.plan.once_past import said_on, stands, window_on
from backbud.species import NOTHING_SAID, PRESSING, ColdNight, Foretold, Schedule, Weight, Window
from backbud.tongue import act_phrase, phrase, work_phrase
from backbud.words import monday_of
from backbud_grammar.act_words import ActWord, SettledBy
from backbud_grammar.forms import NO_ACT, ActForm, Extent

# `open` is told apart by the day it is looked at; the others are settled for good.
Outcome = Literal["open", "done", "skipped", "replaced", "lapsed"]
# `promised`: the keeper's word that is more than a season late.
State = Literal["overdue", "now", "coming", "promised", "done", "skipped", "replaced", "lapsed"]
OPEN: tuple[State, ...] = ("overdue", "now", "coming", "promised")
ReasonSort = Literal["diary", "season", "rule", "datum", "plan"]


class Reason(Struct, frozen=True, gc=False):
    """One link of the chain of reasons, in one sentence.

    `file`, `line`, `column`: where in the journal it stands (lines and columns count from 1), ""
    and 0 where it stands in none. `expected`: it rests on weather that nobody has measured yet.
    `quotes`: it says that line as the keeper wrote it.
    """

    sort: ReasonSort
    text: str
    file: str = ""
    line: int = 0
    column: int = 0
    expected: bool = False
    quotes: bool = False

    @property
    def origin(self) -> Origin | None:
        """The line that it stands on, where there is one."""
        return Origin(self.file, self.line, self.column) if self.file else None

    @property
    def at(self) -> str:
        """`diary/2027.txt:12`, "" where it stands in no line."""
        return f"{self.file}:{self.line}" if self.file else ""

    @property
    def told(self) -> str:
        """The sentence, and the line it stands on in brackets."""
        return f"{self.text} ({self.at})" if self.file else self.text


def reason_on(
    sort: ReasonSort, text: str, origin: Origin | None, *, quotes: bool = False
) -> Reason:
    """A reason that stands on a line of the journal, where there is one."""
    if origin is None:
        return Reason(sort, text)
    return Reason(sort, text, origin.file, origin.line, origin.column, quotes=quotes)


class FollowUp(Struct, frozen=True, gc=False):
    """A work that falls due on one tree.

    `id`: tree's first handle / rule / cause, and a part where the rule tells apart. `act`: the
    act expected, past form. `title`: as a person says it ("check wire on left 2").
    `window`: after every put-off; `moved_from`: as it was before. `settled_by`: acts that settle
    it; `settled`: the event that did. `next_cycle`: from then on the next one stands for it.
    `wedges`: the wedges of the root ball that it opens. `extent`: how far it is to be taken.
    `weight`: how much it matters. `given_word`: it was planned, or is owed to a customer.
    `row`: the act's row of the journal's table. `part`: the part of the tree that it is about, ""
    for all of it. `what`: the words behind its act, as the rule has them. `to_place`: the handle of
    the place that a tree is to be moved to.
    `schedule`: what is said of it as its days pass. `singly`: there is a reason for it in this very
    tree. `group`: its rule and the year or the act that it hangs on. `against`: of its cautions,
    what the species says against a plan. `foretold`: what a forecast has that it is asked for
    against; `cold`: the winter night that it is.
    """

    id: str
    tree: str
    act: ActWord
    title: str
    window: Window
    because: tuple[Reason, ...]
    cautions: tuple[str, ...]
    minutes: int
    settled_by: tuple[SettledBy, ...]
    outcome: Outcome = "open"
    settled: Event | None = None
    moved_from: Window | None = None
    weight: Weight = PRESSING
    planned: bool = False
    given_word: bool = False
    next_cycle: date | None = None
    wedges: tuple[str, ...] = ()
    extent: Extent = "usual"
    row: ActForm = NO_ACT
    part: str = ""
    schedule: Schedule = NOTHING_SAID
    singly: bool = False
    group: str = ""
    against: tuple[str, ...] = ()
    foretold: Foretold | None = None
    what: str = ""
    to_place: str = ""
    cold: ColdNight | None = None

    @property
    def safety_first(self) -> tuple[str, ...]:
        """The cautions, what its act always warns of before the rest."""
        always = self.row.cautions
        return (*always, *(one for one in self.cautions if one not in always))

    def is_open(self, today: date) -> bool:
        """Whether it still wants doing on a day: it is late, is to be done now, or comes."""
        return self.state(today) in OPEN

    @property
    def promised(self) -> bool:
        """Whether the keeper gave their word: planned it, put it off, or owes it to a customer."""
        return self.given_word or self.moved_from is not None

    @property
    def own_words(self) -> str:
        """What stands behind its act in the keeper's own words, of a plan; "" where a rule says
        it."""
        return self.what if self.planned and self.given_word else ""

    @property
    def single(self) -> bool:
        """Whether it stands for itself; else once for its group."""
        return self.weight.must or self.singly or self.promised

    def window_on(self, today: date) -> Window:
        """The window that counts on a day: its own, or the next good moment."""
        window, rests = self.window, self.schedule.rests
        if self.outcome != "open":
            return window
        # Most of what rests in a year does so on other days.
        rests_now = rests is not None and rests.opens <= today <= rests.closes
        if today <= window.closes and not rests_now:
            return window
        return window_on(window, self.weight, self.schedule, self.promised, today)

    def said_on(self, today: date) -> str:
        """What its rule says of it on a day: what is to be known then, or what will happen."""
        return self.said_as(*self.stand_on(today), today)

    def said_as(self, state: State, now: Window, today: date) -> str:
        """The same of one that is known to stand so, by the window that counts."""
        return said_on(self.window, now, self.schedule, state, today)

    def state(self, today: date) -> State:
        """How the follow-up stands on a day."""
        return self.stand_on(today)[0]

    def stand_on(self, today: date) -> tuple[State, Window]:
        """How it stands on a day, and the window that counts then."""
        now = self.window
        if self.outcome != "open":
            return self.outcome, now
        # Most of what is open comes later, and neither rests nor is replaced before.
        if today < now.opens and self.next_cycle is None and self.schedule.rests is None:
            return "coming", now
        now = self.window_on(today)
        if self.next_cycle is not None and today >= self.next_cycle:
            return "replaced", now
        return stands(now, self.weight, self.schedule, self.promised, today), now

    def heading_on(self, today: date) -> State:
        """Under which heading it stands on a day: it comes until its best week is here, or near."""
        return self.heading_as(*self.stand_on(today), today)

    def heading_as(self, state: State, now: Window, today: date) -> State:
        """The same of one that is known to stand so, by the window that counts."""
        waits = waits_for_its_week(self.single, self.weight, self.promised, state, now.best, today)
        return "coming" if waits else state


def sort_of_work(one: FollowUp) -> tuple[str, str]:
    """What sort of work it is, and in words: of a check what is looked at."""
    for wanted in one.settled_by:
        act, _, what = wanted.partition(" ")
        if one.act == "checked" and act == one.act and what:
            return f"checked {what}", _named(one, what)
    return one.act, _named(one)


def _named(one: FollowUp, what: str = "") -> str:
    act = act_phrase(one.row.bare or one.act)
    return work_phrase(act, phrase(what))


# From so long before the week of its best day on what must be done is told as now; ours, no source.
NOW_BEFORE = timedelta(weeks=1)


def waits_for_its_week(
    single: bool, weight: Weight, promised: bool, state: State, best: date, today: date
) -> bool:
    """Whether a work whose window is open still waits: a chance does for the week of its best day,
    what must be done for the week before it. What a tree may die without does not wait, nor what
    grows worse while nobody looks, nor the keeper's word."""
    if state != "now" or promised:
        return False
    if not single:
        return today < monday_of(best)
    if weight.at_stake == "life" or weight.once_past == "grows":
        return False
    return today < monday_of(best) - NOW_BEFORE
