"""A work as it is shown: what, on which tree, when, for how long, why, and what to beware of."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from datetime import date

from msgspec import Struct, field
from msgspec.structs import replace

from backbud.collection.state import Tree
from backbud.journal.events import Event
from backbud.plan.common_ids import ids_for_every_tree
from backbud.plan.followups import OPEN, FollowUp, Reason, State
from backbud.species import NOTHING_SAID, PROMISE, AtStake, ColdNight, OncePast, Weight, Window
from backbud.species.weight import rank_of
from backbud.tongue import phrase
from backbud.views.for_keeper import is_work_for_keeper
from backbud.views.life import Sign, sign_of
from backbud_grammar.act_words import ActWord, SettledBy
from backbud_grammar.by_row import by_row
from backbud_grammar.forms import ActForm, Extent

# As a promise weighs.
_PROMISED = PROMISE.at_stake, PROMISE.must, PROMISE.once_past
# Where a tree is of which something is owed though it went home.
AWAY = "away from here"


class DaysView(Struct, frozen=True, gc=False, rename={"opens": "from", "closes": "until"}):
    """First, best and last day of a window, all included (in JSON: `from`, `best`, `until`)."""

    opens: date
    best: date
    closes: date


class SettledView(Struct, frozen=True, gc=False):
    """The line of the diary that settled a work, on a `day`; `text`: its act and details as
    written, `remark` what was said beside it, `file` and `line` where it stands."""

    day: date
    text: str
    remark: str
    file: str
    line: int

    @property
    def at(self) -> str:
        """`diary/2027.txt:12`, "" where it is not to be told."""
        return f"{self.file}:{self.line}" if self.file else ""


class WorkView(Struct, frozen=True, gc=False):
    """A work that falls due on one tree, as it stands on the day it is looked at.

    `id`: the tree's first handle, the rule, the cause, and a part where the rule tells parts apart;
    it never changes, so programs may keep it. `tree`: the tree's handle, `tree_name` what people
    call it; `counted`: how many there are (`44 seedlings`), "" for one tree; `place`: where it
    stands, likewise; of one that left it is "", and `place_name` says so. `act`: what is to be
    done, in its past form; `title`: the same as a person says it. `opens`, `best`, `closes`: first,
    best and last day, all included, after every put-off
    (in JSON: `from`, `best`, `until`); `moved_from`: as they were before. `reasons`: why, link
    by link; `because`: the same, a sentence each. `minutes`: what it takes, 0 where
    nobody can tell. `planned`: by the keeper; `own_words`: what stands behind the act of a plan as
    the keeper wrote it, "" where a rule says it. `extent`: how far it is to be taken. `wedges`: of
    the root ball, those it opens. `state`: overdue, now, coming, or how it was settled; `settled`:
    by which line. `waits_on_weather`: it is still to come, and its days rest on weather that nobody
    has measured yet. `at_stake`: the tree may die (life), is harmed (harm), or only time or style
    is lost (style); `must`: it must be done, else it may be; `once_past`: what becomes of it once
    its window has passed: it lapses, stays for its next good moment, or grows. `single`: it stands
    for itself; else once for its `group`, the trees of one kind that may have the same work in the
    same season. `part`: of the tree, "" for all of it. `settled_by`: the acts that settle it, a
    look with what is looked at. `said`: what its rule says of it on this day, "" where nothing.
    `cold`: the winter night that it shelters from, with what the roots of this tree bear.
    `look`: it is only to be looked at. `private`: for the keeper's eyes only. `sign`: what it is
    drawn as.
    """

    id: str
    tree: str
    tree_name: str
    act: ActWord
    title: str
    opens: date = field(name="from")
    best: date
    closes: date = field(name="until")
    reasons: tuple[Reason, ...]
    cautions: tuple[str, ...]
    minutes: int
    state: State
    place: str = ""
    place_name: str = ""
    moved_from: DaysView | None = None
    planned: bool = False
    extent: Extent = "usual"
    wedges: tuple[str, ...] = ()
    waits_on_weather: bool = False
    settled: SettledView | None = None
    at_stake: AtStake = "style"
    must: bool = True
    once_past: OncePast = "lapses"
    single: bool = True
    group: str = ""
    part: str = ""
    settled_by: tuple[SettledBy, ...] = ()
    said: str = ""
    look: bool = False
    sign: Sign = ""
    counted: str = ""
    private: bool = False
    cold: ColdNight | None = None
    own_words: str = ""

    @property
    def because(self) -> tuple[str, ...]:
        """The chain of reasons, a sentence each, with the line where there is one."""
        return tuple([reason.told for reason in self.reasons])

    @property
    def window(self) -> Window:
        """First, best and last day."""
        return Window(self.opens, self.best, self.closes)

    @property
    def weight(self) -> Weight:
        """How much it matters."""
        return Weight(self.at_stake, self.must, self.once_past)

    @property
    def rank(self) -> tuple[int, bool]:
        """What comes first in a list has the least: what is most at stake, then what must be."""
        return rank_of(self.at_stake, self.must)

    @property
    def is_promise(self) -> bool:
        """Whether it is the keeper's word: planned, put off, or owed to a customer."""
        weight = self.at_stake, self.must, self.once_past
        return self.planned or self.moved_from is not None or weight == _PROMISED

    @property
    def settled_on(self) -> date:
        """The day it was settled, or its last one."""
        return self.settled.day if self.settled else self.closes

    @property
    def is_open(self) -> bool:
        """Whether it still wants doing: it is late, is to be done now, or comes."""
        return self.state in OPEN


# How a follow-up stands on a day, and the window that counts then.
Stand = tuple[State, Window]


def work_view(one: FollowUp, tree: Tree, names: Mapping[str, str], today: date) -> WorkView:
    """A follow-up of a tree as it is shown on a day. `names`: of places, by handle."""
    return work_views([(one, one.stand_on(today))], tree, names, today)[0]


def work_views(
    those: Iterable[tuple[FollowUp, Stand]], tree: Tree, names: Mapping[str, str], today: date
) -> list[WorkView]:
    """Follow-ups of one tree as they are shown on a day, each with how it stands then. `names`: of
    places, by handle."""
    handle, title, here, counted = tree.handle, tree.title, tree.here, tree.counted
    place = tree.place if here else ""
    place_name = (names.get(tree.place) or tree.place) if here else phrase(AWAY)
    shown = []
    for one, (state, window) in those:
        weight, was, settled, because = one.weight, one.moved_from, one.settled, one.because
        of_row = _of_row(one.row)
        promised = one.given_word or was is not None
        single = weight.must or one.singly or promised
        waits = False
        if state == "coming":
            for why in because:
                if why.expected:
                    waits = True
                    break
        # Python gives 30 values in their places several times as quickly as more, or any by name.
        view = WorkView(
            one.id,
            handle,
            title,
            one.act,
            one.title,
            window.opens,
            window.best,
            window.closes,
            because,
            one.cautions,
            one.minutes,
            state,
            place,
            place_name,
            None if was is None else DaysView(was.opens, was.best, was.closes),
            one.planned,
            one.extent,
            one.wedges,
            waits,
            None if settled is None else _settled(settled),
            weight.at_stake,
            weight.must or promised,
            weight.once_past,
            single,
            "" if single else _group(one, tree),
            one.part,
            one.settled_by,
            "" if one.schedule is NOTHING_SAID else one.said_as(state, window, today),
            of_row.look,
            of_row.sign,
        )
        private, planned = is_work_for_keeper(one), one.planned
        if counted or private or planned or one.cold is not None:
            own = one.own_words if planned else ""
            view = replace(view, counted=counted, private=private, cold=one.cold, own_words=own)
        shown.append(view)
    return shown


class _OfRow(Struct, frozen=True, gc=False):
    """What is so of all works of an act."""

    look: bool
    sign: Sign


@by_row
def _of_row(row: ActForm) -> _OfRow:
    return _OfRow(row.work == "watch", sign_of(row))


def _group(one: FollowUp, tree: Tree) -> str:
    """What chances of one round have alike: the kind and the rule, or the rule alone where it
    holds for every tree, so that one look under all pots is one line."""
    rule = one.group.partition("/")[0]
    return one.group if rule in ids_for_every_tree() else f"{tree.kind}/{one.group}"


def _settled(event: Event) -> SettledView:
    return SettledView(event.when.first, event.written, event.remark, event.file, event.line)
