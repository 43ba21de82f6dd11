"""A journal's folder and a day go in; everything a command can ask of it comes out, when asked."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Mapping, Sequence
from contextlib import suppress
from datetime import date
from functools import cached_property, partial
from json import dumps, loads
from typing import TYPE_CHECKING, TypeVar

from backbud.collection.moments import trees_here
from backbud.collection.replay import replay
from backbud.collection.stand import UNKNOWN_OWNER
from backbud.collection.whereabouts import Histories
from backbud.journal import remember
from backbud.journal.events import Origin
from backbud.journal.faults import FAULT, failing, note_fault
from backbud.journal.read import Journal, read_journal
from backbud.journal.settings import SETTINGS_FILE, place_of_setting
from backbud.journal.things import Thing
from backbud.kept import KEEP_NOTHING, Kept
from backbud.plugins.load import NO_PLUGINS, Plugins, plugins_of
from backbud.publish import MEMORY
from backbud.publish.memory import MemoryOf
from backbud.publish.unchanged import installed_mark
from backbud.words import number
from backbud_grammar.digest import digest
from backbud_grammar.handles import fold
from backbud_grammar.problems import Problem, did_you_mean

if TYPE_CHECKING:
    from backbud.journal.weather.records import Records
    from backbud.plan.pack import Pack
    from backbud.plan.run import Plan
    from backbud.plan.world import ByTree
    from backbud.species import Section, Species

T = TypeVar("T")
# What failed by a fault of ours, as the last run that came upon it told it.
FAULTS_FILE = "faults"


class Session:
    """One journal as it stands on one day; each step is taken once."""

    def __init__(
        self,
        journal: Journal,
        today: date,
        *,
        as_of: bool = False,
        kept: Kept = KEEP_NOTHING,
        plugins: Plugins = NO_PLUGINS,
        only_check: bool = False,
    ) -> None:
        """`only_check`: nothing but its problems and its summary is asked for."""
        self.journal, self.today, self.as_of = journal, today, as_of
        self.plugins = plugins
        journal.texts.update(plugins.files)
        for file, flaw in plugins.flaws:
            journal.notes.add(file, 0, flaw)
        # What is kept between runs is the journal as a whole.
        self.kept = KEEP_NOTHING if as_of else kept
        self._others_species = False
        self._here = (
            trees_here(journal, self._program)
            if only_check
            else sum(1 for tree in self.histories.trees.values() if tree.standing == "here")
        )
        self._faults: frozenset[str] = frozenset()
        self._faulty: set[str] = set()
        # Whether this run comes upon every fault that an earlier one came upon.
        self.takes_every_step = False
        self._check_kinds()
        journal.positions.note_what_turns_the_year()

    @cached_property
    def histories(self) -> Histories:
        """What was written of everything, replayed; what cannot have been so is noted."""
        return replay(self.journal, self.kept)

    @cached_property
    def _program(self) -> str:
        """A mark that changes with the program, with what is installed beside it, and with the
        journal's own plugins."""
        return f"{installed_mark()}{self.plugins.mark}"

    def plan(self, only: Iterable[str] | None = None) -> Plan:
        """The follow-ups of every tree, or of these only.

        Where code is asked that is not this program's own, every tree is planned all the same:
        every command tells the same problems, whichever trees it is about.
        """
        if only is None:
            return self._whole_plan
        return self._whole_plan.only(only) if self._asks_others else self._planned(only)

    @cached_property
    def _whole_plan(self) -> Plan:
        return self._planned(None)

    def _planned(self, only: Iterable[str] | None) -> Plan:
        """A tree that planning fails for is told, and planned as its card has it, with no
        follow-up."""
        from backbud.plan.run import plan_all, without_plans

        def planned(handles: Sequence[str]) -> Plan:
            return plan_all(
                self.journal,
                self.histories,
                self._species,
                self.weather,
                self.today,
                handles,
                self.by_tree,
                self.plugins,
            )

        wanted = list(self.histories.trees if only is None else only)
        try:
            return planned(wanted)
        except OSError:
            raise
        except Exception:
            faulty = dict(failing(planned, wanted))
            if not faulty:
                raise
            for handle, error in faulty.items():
                self.note_fault(f"the plan of {handle}", handle, error)
            plan = planned([handle for handle in wanted if handle not in faulty])
            return without_plans(plan, self.histories, self.journal.things, wanted)

    def contained(self, what: str, plan: Plan, work: Callable[[Plan], T]) -> T:
        """What the work makes of a plan. Trees that it fails for are told, and their follow-ups
        are left out, or else they are."""
        try:
            return work(plan)
        except OSError:
            raise
        except Exception:
            handles = list(plan.trees)
            faulty = dict(failing(lambda some: work(plan.only(some)), handles))
            if not faulty:
                raise
            for handle, error in faulty.items():
                self.note_fault(f"{what} of {handle}", handle, error)
        try:
            return work(plan.without_follow_ups(faulty))
        except Exception:
            return work(plan.only(handle for handle in handles if handle not in faulty))

    def histories_of(self, plan: Plan) -> Histories:
        """The histories of the trees of a plan, and of what is no tree."""
        all_of_them = self.histories
        if len(plan.trees) == len(all_of_them.trees):
            return all_of_them
        trees = {handle: all_of_them.trees[handle] for handle in plan.trees}
        return Histories(trees, all_of_them.others)

    def note_fault(self, what: str, handle: str, error: Exception) -> None:
        """Note a fault of ours at the line of the tree's card, and remember it for the commands
        that do not come upon it. One of each tree is enough."""
        if handle in self._faulty:
            return
        self._faulty.add(handle)
        journal = self.journal
        card = journal.things.by_handle.get(handle)
        origin = card.origin if card is not None else Origin(SETTINGS_FILE, 1, 1)
        note_fault(journal.notes, journal.memory, origin, what, error)
        self._faults |= {
            dumps([one.file, one.line, one.column, one.message, one.hint])
            for one in journal.problems()
            if one.code == FAULT
        }
        remember.keep_names(journal.memory, FAULTS_FILE, self._state, self._faults)

    def forget_faults(self) -> None:
        """Every step was taken: what an earlier run remembered beyond what this one came upon is
        over."""
        if self._remembered_faults != self._faults:
            remember.keep_names(self.journal.memory, FAULTS_FILE, self._state, self._faults)

    @cached_property
    def _remembered_faults(self) -> frozenset[str]:
        # Its mark takes long to work out, and few journals have one.
        if not os.path.exists(os.path.join(self.journal.folder, MEMORY, FAULTS_FILE)):
            return frozenset()
        return remember.recall_names(self.journal.memory, FAULTS_FILE, self._state)

    @cached_property
    def _state(self) -> str:
        """A mark that changes with the journal, the day, the program and the plugins."""
        pages = b"".join(page.digest for page in self.journal.pages)
        around = f"{self.today} {self._program}".encode()
        return digest(self.journal.mark, digest(pages), around).hex()

    def _tell_remembered_faults(self) -> None:
        for remembered in self._remembered_faults - self._faults:
            with suppress(ValueError, TypeError):
                file, line, column, message, hint = loads(remembered)
                origin = Origin(str(file), int(line), int(column))
                self.journal.notes.at(origin, FAULT, str(message), str(hint), 0, 1)

    @cached_property
    def sections(self) -> Mapping[str, tuple[Section, ...]]:
        """What the journal's plugins write for each tree's page, by its handle."""
        if not self.plugins.sections:
            return {}
        from backbud.plan.sections import sections_of

        return sections_of(
            self.journal, self.weather, self.today, self._whole_plan, self.plugins.sections
        )

    @cached_property
    def pack(self) -> Pack:
        """Every species that is known here, those of the journal's own plugins too."""
        from backbud.plan.pack import with_own

        return with_own(self.plugins.species)

    @cached_property
    def weather(self) -> Records:
        """What is known of the weather of each place; read when it is asked for."""
        return self._world[1]

    @cached_property
    def by_tree(self) -> ByTree:
        """Keeps what was made of one tree's card and history."""
        from backbud.plan.world import ByTree

        return ByTree(self.kept, self._world[0])

    @cached_property
    def _world(self) -> tuple[object, Records]:
        """What stands for all that is no tree's own, and the weather with what was reckoned from
        it: both those of an earlier run, if nothing of it has changed."""
        from backbud.journal.weather.records import records

        weather = records(self.journal)
        if self.kept is KEEP_NOTHING:
            return None, weather
        from backbud.plan.world import World, world_of

        around = world_of(self.journal, self.histories, self.today)
        world = self.kept.once(
            "world", (*around, self.plugins.mark), partial(World, self.journal, weather)
        )
        world.tell(self.journal, weather)
        return world, world.weather

    def problems(self) -> tuple[Problem, ...]:
        """Every problem of the journal, whatever it was opened for.

        A plan by this program's own rules alone finds none. Others' code may fail at any tree, so
        where there is some, it is asked here.
        """
        if self._asks_others:
            self.plan()
            self.sections  # noqa: B018
        if self.journal.weather or any(
            place.detail(label)
            for place in self.journal.things.of_kind("place")
            for label in ("weather", "town", "low", "high", "rain")
        ):
            for place in self.weather:
                self.weather.record_of(place)
        self._check_figures()
        if not self.takes_every_step:
            self._tell_remembered_faults()
        return self.journal.problems()

    def summary(self) -> str:
        """What was read, in one line."""
        events = sum([page.acts for page in self.journal.pages])
        pages = len(self.journal.pages)
        here, acts = number(self._here, "tree"), number(events, "act")
        return f"{here} here, {acts} on {number(pages, 'page')}."

    def names(self) -> dict[str, str]:
        """What people call each place, person and pot, by handle; and an owner nobody knows."""
        names = {thing.handle: thing.title for thing in self.journal.things.by_handle.values()}
        return {**names, UNKNOWN_OWNER: "somebody unknown"}

    def tree_handle(self, written: str) -> str:
        """The canonical handle of the tree so called, or ""."""
        found = self.journal.things.find(written)
        if found is not None:
            return found.handle if found.kind == "tree" else ""
        return self._separated.get(fold(written), "")

    def nearest_tree(self, written: str) -> str:
        """A hint that names the nearest tree."""
        return did_you_mean(written, self.histories.trees)

    def tree_of_id(self, written: str) -> str:
        """The tree that a follow-up's id begins with, or "" when it is only a part of an id."""
        first = written.split("/")[0]
        by_first = {tree.first_handle: tree.handle for tree in self.histories.trees.values()}
        return by_first.get(first, "") if "/" in written else ""

    @property
    def _asks_others(self) -> bool:
        """Whether code that is not this program's own is asked for what it says of a tree."""
        return self._others_species or bool(self.plugins.rules or self.plugins.sections)

    @cached_property
    def _separated(self) -> dict[str, str]:
        return {fold(handle): handle for handle in self.histories.trees}

    def _species(self, kind: str) -> Species | None:
        return self.pack.find(kind)

    def _check_figures(self) -> None:
        """Note each figure of the settings that nothing asks for: most likely a slip.

        A journal's own plugins may ask for figures of their own, so then nothing is said.
        """
        figures, memory = self.journal.settings.figures, self.journal.memory
        if not figures or self.plugins.files:
            return
        file = remember.FIGURES_FILE
        if figures.keys() <= remember.recall_names(memory, file, self._program):
            return
        from backbud.plan.known_figures import known_figures

        known = [figure.name for figure in known_figures()]
        remember.keep_names(memory, file, self._program, known)
        for name in figures:
            if self.journal.notes.flooded(SETTINGS_FILE):
                break
            if name not in known:
                line, column = place_of_setting(self.journal.texts.get(SETTINGS_FILE, b""), name)
                self.journal.notes.at(
                    Origin(SETTINGS_FILE, line, column),
                    "unknown-figure",
                    f"nothing asks for a figure called “{name}”",
                    did_you_mean(name, known, f"Some are: {', '.join(sorted(known)[:6])} …"),
                    0,
                    len(name),
                    "warning",
                )

    def _check_kinds(self) -> None:
        """Note each tree whose kind no species knows; it still gets what holds for every tree.

        To find the species takes longer than all else in a small journal, so what was found is
        remembered as long as nothing is installed or taken away, and no other code is trusted.
        Of a species that is not this program's own nothing is remembered.
        """
        memory, mark = self.journal.memory, self._program
        kinds = {_kind(thing) for thing in self.journal.things.of_kind("tree")}
        if kinds <= remember.recall_names(memory, remember.KINDS_FILE, mark):
            return
        from backbud.plugins.faults import is_ours

        pack = self.pack
        found = [pack.find(kind) for kind in kinds]
        self._others_species = any(one is not None and not is_ours(type(one)) for one in found)
        for file, flaw in pack.flaws:
            self.journal.notes.add(file, 0, flaw)
        for thing in self.journal.things.of_kind("tree"):
            kind = _kind(thing)
            line = next((ln for ln in thing.lines if ln.detail.name == "kind"), None)
            if line is None:
                self.journal.notes.at(
                    thing.origin,
                    "no-kind",
                    f"“{thing.handle}” has no kind",
                    "Add a line: kind  trident maple",
                    0,
                    4,
                    "warning",
                )
            elif pack.find(kind) is None:
                self.journal.notes.at(
                    line.origin,
                    "unknown-species",
                    f"no species is called “{kind}”",
                    did_you_mean(kind, pack.names, "Only what holds for every tree is planned."),
                    line.detail.offset,
                    len(kind),
                    "warning",
                )
        faultless = not pack.faults and not pack.flaws
        if faultless and not self._others_species and None not in found:
            remember.keep_names(memory, remember.KINDS_FILE, mark, kinds)
        for fault in pack.faults:
            self.journal.notes.at(Origin("backbud.toml", 1, 1), "species-failed", fault, "", 0, 1)


def _kind(tree: Thing) -> str:
    """A tree's species as its card has it, without the cultivar."""
    return tree.text("kind").split("'")[0].strip()


def open_session(
    folder: str,
    today: date,
    *,
    as_of: bool = False,
    kept: Kept = KEEP_NOTHING,
    only_check: bool = False,
    keeps: bool = True,
) -> Session:
    """Read and replay the journal in a folder. `only_check`: for its problems alone. `keeps`: what
    was read may be remembered; else nothing at all is written."""
    plugins = plugins_of(folder, _ids_for_every_tree)
    memory = MemoryOf(folder, keeps)
    journal = read_journal(folder, today, as_of=as_of, acts=plugins.acts, kept=kept, memory=memory)
    return Session(journal, today, as_of=as_of, kept=kept, plugins=plugins, only_check=only_check)


def _ids_for_every_tree() -> frozenset[str]:
    """The ids of the rules that hold for every tree."""
    from backbud.plan.common import RULES
    from backbud.species import rules_of

    return frozenset(rule.id for module in RULES for rule in rules_of(module))
