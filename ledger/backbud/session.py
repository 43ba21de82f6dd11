"""One journal on one day, and all that commands ask of it; each step is taken once, when asked."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date
from functools import cached_property
from typing import TYPE_CHECKING

from backbud.collection.ahead import ReplayAhead
from backbud.collection.asked_tree import tree_handle, tree_of_id
from backbud.collection.moments import trees_here
from backbud.collection.replay import replay
from backbud.collection.stand import UNKNOWN_OWNER
from backbud.collection.whereabouts import Histories
from backbud.faults_met import FaultsMet
from backbud.issued.any_issued import flaws_of_issued
from backbud.journal.bill_numbers import doubled_numbers
from backbud.journal.problems import PlacedFlaw, PlacedFlaws, WithFlaws, as_problems, placed
from backbud.journal.read import Journal, read_journal
from backbud.memo import NO_MEMO, Memo
from backbud.photographs.named import pictures_of
from backbud.photographs.of_journal import NamedPictures
from backbud.plan.check_figures import check_figures
from backbud.plan.check_kinds import check_kinds
from backbud.plan.common_ids import ids_for_every_tree
from backbud.plan.judged_at_once import CautionsTold, judged_at_once, remember_judged
from backbud.plan.plans import Plans
from backbud.plan.surroundings import Surroundings
from backbud.plugins.added import NO_PLUGINS, Plugins
from backbud.plugins.load import plugins_of
from backbud.publish.memory import MemoryOf
from backbud.publish.unchanged import installed_mark
from backbud.words import number
from backbud_grammar.digest import digest
from backbud_grammar.problems import Problem

if TYPE_CHECKING:
    from backbud.collection.state import Tree
    from backbud.journal.source import FileSource
    from backbud.journal.weather.records import Records
    from backbud.plan.each_tree import EachTree
    from backbud.plan.one_by_one import OneByOne
    from backbud.plan.pack import Pack
    from backbud.plan.run import Plan
    from backbud.plan.world import ByTree
    from backbud.species import Section, Species
    from backbud.views.forgotten import Forgotten
    from backbud.views.photograph import PhotographView
    from backbud.views.registers.register import RegisterView
    from backbud.views.visit import AccountView
    from backbud.visits.account import Account


class Session:
    """One journal as it stands on one day; each step is taken once."""

    def __init__(
        self,
        journal: Journal,
        today: date,
        *,
        as_of: bool = False,
        kept: Memo = NO_MEMO,
        plugins: Plugins = NO_PLUGINS,
        only_check: bool = False,
        between: Callable[[], None] | None = None,
        by_two: bool = False,
        ahead: ReplayAhead | None = None,
        installed: str = "",
    ) -> None:
        """`only_check`: its problems and its summary are all that is asked for; `ahead`: a replay
        that was begun for them. `between`, `by_two`, `installed`: as below."""
        self.journal, self.today, self.as_of = journal, today, as_of
        self.plugins, self._only_check, self._between = plugins, only_check, between
        # What is kept between runs is the journal as a whole.
        self.kept = NO_MEMO if as_of else kept
        self._by_two, self.ahead = by_two and self.kept is NO_MEMO, ahead
        self._installed = installed
        # Whether this run comes upon every fault that an earlier one came upon.
        self.takes_every_step = False
        self.faults = FaultsMet(journal, lambda: self._state)
        self._plans = Plans(
            journal, today, self._species, plugins, self.faults.meet, lambda: self.may_be_shared
        )

    @property
    def histories(self) -> Histories:
        """What was written of everything, replayed."""
        return self._replayed.value

    @cached_property
    def _replayed(self) -> WithFlaws[Histories]:
        return replay(self.journal, self.kept, self._between)

    @cached_property
    def _here(self) -> WithFlaws[int]:
        """How many trees are here."""
        if self._only_check:
            ahead = self.ahead.found if self.ahead is not None else None
            return trees_here(self.journal, self._program, ahead)
        here = [tree for tree in self.histories.trees.values() if tree.standing == "here"]
        return WithFlaws(len(here), self._replayed.flaws)

    @cached_property
    def _program(self) -> str:
        """A mark that changes with the program, what is installed beside it, and own plugins."""
        return f"{self._installed or installed_mark()}{self.plugins.mark}"

    def plan(self, only: Iterable[str] | None = None) -> Plan:
        """The follow-ups of every tree, or of these only.

        Where code is asked that is not this program's own, every tree is planned all the same:
        every command tells the same problems, whichever trees it is about.
        """
        whole = self.histories.trees
        if only is None:
            return self._planned(whole)
        return self._planned(whole).only(only) if self.asks_others else self._planned(only)

    def _planned(self, only: Iterable[str]) -> Plan:
        return self._plans.of(only, self.histories, self.weather, self.by_tree)

    def each_tree(self) -> EachTree:
        """What the plan of any tree is made from."""
        return self._plans.each_tree(self.histories, self.weather, self.by_tree)

    def go_on_with(self, plan: Plan | None, kept: Memo = NO_MEMO) -> None:
        """From here on this is the plan of all trees, if any; `kept`: what was made of each."""
        self._plans.take(plan)
        self.kept = kept
        self._around.go_on_with(kept)

    def accounts(self, of_plan: Plan | None = None) -> tuple[AccountView, ...]:
        """The account of each person whose trees were here, or who was billed. `of_plan`: with the
        follow-ups of this plan."""
        from backbud.views.account_views import account_views

        return account_views(
            self.reckoned_accounts,
            of_plan or self.plan(),
            self.names(),
            self.journal.things,
            self.forgotten,
            self.today,
            self.kept,
        )

    @cached_property
    def reckoned_accounts(self) -> tuple[Account, ...]:
        """The same accounts, of all trees, before they are put into words."""
        from backbud.visits.run import accounts

        return accounts(self.journal, self.histories, self.today, self.by_tree)

    def registers(self, plan: Plan | None = None) -> tuple[RegisterView, ...]:
        """Treatments, plants in and out, stock, and unpaid bills, until the day; of the trees of a
        plan, or of all."""
        from backbud.views.registers.every import registers_of
        from backbud.visits.run import accounts

        plan = self.plan() if plan is None else plan
        histories = self.histories_of(plan)

        def reckoned() -> tuple[Account, ...]:
            if histories is self.histories:
                return self.reckoned_accounts
            return accounts(self.journal, histories, self.today)

        names = self.legal_names()
        return registers_of(
            self.journal, histories, plan, names, reckoned, self.today, self.by_tree
        )

    def remember_cautions(self) -> None:
        """Keep what the plan says against works, for commands that plan nothing."""
        if not self.as_of:
            remember_judged(self.journal, self.plan(), self.today, self._program, self.kept)

    @cached_property
    def cautions(self) -> CautionsTold:
        """What speaks against works: as the last plan found it, and of what was written since."""
        return judged_at_once(
            self.journal, self.today, self._program, lambda: self.histories, self.plan, self.as_of
        )

    def histories_of(self, plan: Plan) -> Histories:
        """The histories of the trees of a plan, and of what is no tree."""
        return self.histories.only(plan.trees)

    @cached_property
    def _state(self) -> str:
        """A mark that changes with the journal, the day, the program and the plugins."""
        pages = digest(*[page.digest for page in self.journal.pages])
        return digest(self.journal.mark, pages, f"{self.today} {self._program}".encode()).hex()

    @property
    def sections(self) -> Mapping[str, tuple[Section, ...]]:
        """What the journal's plugins write for each tree's page, by its handle."""
        return self._sections.value

    @cached_property
    def _sections(self) -> WithFlaws[dict[str, tuple[Section, ...]]]:
        if not self.plugins.sections:
            return WithFlaws({})
        from backbud.plan.sections import sections_of

        return sections_of(
            self.journal, self.weather, self.today, self.plan(), self.plugins.sections
        )

    @cached_property
    def pictures(self) -> NamedPictures:
        """Every picture that the diary names."""
        return NamedPictures(self.journal, self.kept)

    def photographs_of(self, tree: Tree) -> tuple[PhotographView, ...]:
        """The photographs of a tree, oldest first."""
        if not self.pictures.named:
            return ()
        from backbud.views.photograph import photograph_views

        return photograph_views(pictures_of(tree), self.pictures.known)

    @cached_property
    def _flaws_of_bills(self) -> PlacedFlaws:
        return tuple(doubled_numbers(self.journal, self.kept))

    @cached_property
    def pack(self) -> Pack:
        """Every species that is known here, those of the journal's own plugins too."""
        from backbud.plan.pack import with_own

        return with_own(self.plugins.species)

    @cached_property
    def _around(self) -> Surroundings:
        return Surroundings(
            self.journal, lambda: self.histories, self.today, self.plugins.mark, self.kept
        )

    @cached_property
    def weather(self) -> Records:
        """What is known of the weather of each place; read when it is asked for."""
        return self._around.weather

    @property
    def by_tree(self) -> ByTree:
        """Keeps what was made of one tree's card and history."""
        return self._around.by_tree

    @property
    def texts(self) -> Mapping[str, bytes]:
        """The bytes of each file of the journal that was read, weather files and plugins too."""
        return {**self.journal.texts, **self.plugins.files, **self._around.texts}

    def problems(self) -> tuple[Problem, ...]:
        """Every problem of the journal, whatever it was opened for."""
        return as_problems((one for one in self._flaws() if not one.is_kept), self.texts)

    def words_kept(self) -> tuple[Problem, ...]:
        """Every line of which words were kept and not used; none of them is a problem."""
        return as_problems((one for one in self.journal.flaws if one.is_kept), self.texts)

    def _flaws(self) -> Iterator[PlacedFlaw]:
        """What each step found wrong. Others' code may fail at any tree, so where there is some it
        is asked here; a plan by this program's own rules alone finds nothing."""
        yield from self.journal.flaws
        for file, flaw in self.plugins.flaws:
            yield from placed(file, 0, (flaw,))
        yield from self._here.flaws
        yield from self._kinds.flaws
        yield from self.journal.positions.flaws_of_home()
        if self.asks_others:
            self.plan()
            yield from self._sections.flaws
        yield from self._plans.flaws()
        yield from self._around.flaws
        yield from self._flaws_of_figures
        yield from self.pictures.flaws()
        yield from self._flaws_of_bills
        yield from flaws_of_issued(self.journal, lambda: self.histories)
        yield from self.faults.flaws(all_steps_taken=self.takes_every_step)

    @property
    def impossible(self) -> PlacedFlaws:
        """What the diary says that cannot have been so."""
        return self._here.flaws

    @cached_property
    def _kinds(self) -> WithFlaws[bool]:
        """Whether a tree is of a species that is not this program's own."""
        return check_kinds(self.journal, self._program, lambda: self.pack, self.plugins.species)

    @cached_property
    def _flaws_of_figures(self) -> PlacedFlaws:
        # A journal's own plugins may ask for figures of their own, so then nothing is said.
        return () if self.plugins.files else check_figures(self.journal, self._program)

    def one_by_one(self, day: date) -> OneByOne:
        """Plans single trees as they stood on a day."""
        from backbud.plan.one_by_one import OneByOne

        own = self.plugins.rules
        return OneByOne(self.journal, self.histories, self.weather, self._species, day, own)

    def summary(self) -> str:
        """What was read, in one line."""
        events, pages = self.journal.size()
        here = number(self._here.value, "tree")
        return f"{here} here, {number(events, 'act')} on {number(pages, 'page')}."

    def names(self) -> Mapping[str, str]:
        """What people call each place, person and pot, by handle; and an owner nobody knows."""
        return self._names

    @cached_property
    def _names(self) -> Mapping[str, str]:
        names = {thing.handle: thing.title for thing in self.journal.things.by_handle.values()}
        return self.kept.same("names", {**names, UNKNOWN_OWNER: "somebody unknown"})

    def legal_names(self) -> dict[str, str]:
        """The same for what the law keeps: who was forgotten by the name they had."""
        hidden = self.journal.things.hidden
        return {**self.names(), **{number: names[0] for number, names in hidden.items()}}

    @cached_property
    def forgotten(self) -> Forgotten:
        """Who asked to be forgotten: what is shown passes through it where it may name them."""
        from backbud.views.forgotten import Forgotten

        return Forgotten(self.journal.things.hidden)

    def tree_handle(self, written: str) -> str:
        """The canonical handle of the tree so called, or ""."""
        return tree_handle(written, self.journal.things, self.histories.trees)

    def tree_of_id(self, written: str) -> str:
        """The tree that a follow-up's id begins with, or "" when it is only a part of an id."""
        return tree_of_id(written, self.histories)

    @property
    def may_be_shared(self) -> bool:
        """Whether a copy of this process may help: others' code may go on from tree to tree."""
        return self._by_two and not self.asks_others

    @property
    def asks_others(self) -> bool:
        """Whether code that is not this program's own is asked for what it says of a tree."""
        return self._kinds.value or bool(self.plugins.rules or self.plugins.sections)

    def _species(self, kind: str) -> Species | None:
        return self.pack.find(kind)


def open_session(
    folder: str,
    today: date,
    *,
    as_of: bool = False,
    kept: Memo = NO_MEMO,
    only_check: bool = False,
    keeps: bool = True,
    source: FileSource | None = None,
    between: Callable[[], None] | None = None,
    by_two: bool = False,
    installed: str = "",
) -> Session:
    """Read and replay the journal in a folder. `only_check`: for its problems alone. `keeps`: what
    was read may be remembered. `source`: as `read_journal` has it. `between`: is called before each
    page that is replayed; what it raises ends that. `by_two`: a copy of this process may help.
    `installed`: the mark of the installed program, where it is known."""
    plugins = plugins_of(folder, ids_for_every_tree)
    ahead = ReplayAhead() if only_check and by_two else None
    journal = read_journal(
        folder,
        today,
        as_of=as_of,
        acts=plugins.acts,
        kept=kept,
        memory=MemoryOf(folder, keeps),
        source=source,
        by_two=by_two,
        ahead=ahead,
    )
    kept.speak(journal.settings.speaks)
    return Session(
        journal,
        today,
        as_of=as_of,
        kept=kept,
        plugins=plugins,
        only_check=only_check,
        between=between,
        by_two=by_two,
        ahead=ahead,
        installed=installed,
    )
