"""A journal's folder and a day go in; everything a command can ask of it comes out, when asked."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from functools import cached_property
from typing import TYPE_CHECKING

from backbud.collection.whereabouts import Histories, replay
from backbud.journal import remember
from backbud.journal.events import Origin
from backbud.journal.read import Journal, read_journal
from backbud.journal.things import Thing
from backbud.publish.unchanged import installed_mark
from backbud.words import number
from backbud_grammar.handles import fold
from backbud_grammar.problems import Problem, did_you_mean

if TYPE_CHECKING:
    from backbud.plan.run import Plan
    from backbud.species import Species


class Session:
    """One journal as it stands on one day; each step is taken once."""

    def __init__(self, journal: Journal, today: date) -> None:
        self.journal, self.today = journal, today
        self.histories: Histories = replay(journal)
        self._check_kinds()

    def plan(self, only: Iterable[str] | None = None) -> Plan:
        """The follow-ups of every tree, or of these only."""
        from backbud.plan.run import plan_all

        return plan_all(self.journal, self.histories, self._species, self.today, only)

    def problems(self) -> tuple[Problem, ...]:
        """Every problem found so far."""
        return self.journal.problems()

    def summary(self) -> str:
        """What was read, in one line."""
        events = sum(len(block.events) for page in self.journal.pages for block in page.blocks)
        here = sum(1 for tree in self.histories.trees.values() if tree.standing == "here")
        pages = len(self.journal.pages)
        return f"{number(here, 'tree')} here, {number(events, 'act')} on {number(pages, 'page')}."

    def names(self) -> dict[str, str]:
        """What people call each place, person and pot, by handle."""
        return {thing.handle: thing.title for thing in self.journal.things.by_handle.values()}

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

    @cached_property
    def _separated(self) -> dict[str, str]:
        return {fold(handle): handle for handle in self.histories.trees}

    def _species(self, kind: str) -> Species | None:
        from backbud.plan.pack import installed

        return installed().find(kind)

    def _check_kinds(self) -> None:
        """Note each tree whose kind no species knows; it still gets what holds for every tree.

        To find the species takes longer than all else in a small journal, so what was found is
        remembered as long as nothing is installed or taken away.
        """
        folder, mark = self.journal.folder, installed_mark()
        kinds = {_kind(thing) for thing in self.journal.things.of_kind("tree")}
        if kinds <= remember.recall_kinds(folder, mark):
            return
        from backbud.plan.pack import installed

        pack = installed()
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
        if not pack.faults and all(pack.find(kind) is not None for kind in kinds):
            remember.keep_kinds(folder, mark, kinds)
        for fault in pack.faults:
            self.journal.notes.at(Origin("backbud.toml", 1, 1), "species-failed", fault, "", 0, 1)


def _kind(tree: Thing) -> str:
    """A tree's species as its card has it, without the cultivar."""
    return tree.text("kind").split("'")[0].strip()


def open_session(folder: str, today: date, *, as_of: bool = False) -> Session:
    """Read and replay the journal in a folder."""
    return Session(read_journal(folder, today, as_of=as_of), today)
