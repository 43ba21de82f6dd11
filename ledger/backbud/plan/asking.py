"""Asks a rule what it proposes, so that one that fails spoils nothing but itself.

A rule that is not this program's own may take so long and no longer, and what it yields is looked
at closely.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import date
from typing import Any

from backbud.collection.state import Tree
from backbud.journal.events import Origin
from backbud.journal.problems import PlacedFlaw, PlacedFlaws, flaw_at
from backbud.journal.read import Journal
from backbud.plugins import budget
from backbud.plugins.faults import (
    PluginLine,
    is_ours,
    place_of_error,
    place_of_function,
    said,
    way_of,
)
from backbud.plugins.sound import wrong_act_name, wrong_proposal
from backbud.species import Proposal, Rule, Year, without_work

# More than any rule has to say of one tree at a time.
MOST_PROPOSALS = 500


class Asker:
    """Asks rules; what one raises, or yields that is none, is a problem, and the rest is asked."""

    def __init__(self, journal: Journal, today: date) -> None:
        self._journal, self._today = journal, today
        self._foreign: dict[Callable[..., Any], bool] = {}
        self._late: set[Callable[..., Any]] = set()
        self._failed: dict[tuple[str, str, PluginLine | None], list[str]] = {}
        # What of our own rules' proposals was looked at and found sound.
        self._sound: set[tuple[str, tuple[str, ...]]] = set()

    def ask(self, rule: Rule, tree: Tree, then: Tree, given: object, year: Year) -> list[Proposal]:
        """What a rule proposes, up to where it fails; nothing once it took too long."""
        function = rule.function
        is_foreign = self._foreign.get(function)
        if is_foreign is None:
            is_foreign = self._foreign[function] = not is_ours(function)
        out: list[Proposal] = []
        try:
            if not is_foreign:
                self._take(function(then, given, year), out, is_foreign=False)
            elif function not in self._late:

                def run() -> None:
                    self._take(function(then, given, year), out, is_foreign=True)

                budget.within(budget.RULE_SECONDS, run)
        except KeyboardInterrupt:
            raise
        except BaseException as error:
            if isinstance(error, budget.OverTime):
                self._late.add(function)
            self._failed_for(rule, tree, error)
        return without_work(rule, out, year)

    def _take(self, proposals: Iterable[object], out: list[Proposal], *, is_foreign: bool) -> None:
        """Look at what a rule yields, one after another."""
        for proposal in proposals:
            if not isinstance(proposal, Proposal):
                raise TypeError(f"it yielded {proposal!r:.80}, which is no Proposal")
            if is_foreign or (proposal.act, proposal.settled_by) not in self._sound:
                self._check(proposal, is_foreign)
            out.append(proposal)
            if len(out) > MOST_PROPOSALS:
                raise ValueError(f"it yielded more than {MOST_PROPOSALS} times")

    def _check(self, proposal: Proposal, is_foreign: bool) -> None:
        for act in (proposal.act, *(words.split()[0] for words in proposal.settled_by)):
            if wrong := wrong_act_name(act, self._journal.acts):
                raise ValueError(wrong)
        if not is_foreign:
            self._sound.add((proposal.act, proposal.settled_by))
        wrong = wrong_proposal(proposal, self._today) if is_foreign else ""
        if wrong:
            raise ValueError(wrong)

    def _failed_for(self, rule: Rule, tree: Tree, error: BaseException) -> None:
        folder, what = self._journal.folder, said(error)
        place = place_of_error(error, folder) or place_of_function(rule.function, folder)
        if place is None:
            what = f"{what} ({', '.join(way_of(error))})"
        self._failed.setdefault((rule.id, what, place), []).append(tree.handle)

    def failed_for(self, handle: str) -> bool:
        """Whether a rule failed for a tree, or was not asked for it since it took too long."""
        return bool(self._late) or any(handle in handles for handles in self._failed.values())

    def flaws(self) -> PlacedFlaws:
        """Each rule that failed, once for all the trees it failed for."""
        flaws: list[PlacedFlaw] = []
        for (rule, what, place), handles in self._failed.items():
            card = self._journal.things.by_handle.get(handles[0])
            trees = len(set(handles))
            more = f" and {trees - 1} more" if trees > 1 else ""
            origin = card.origin if card else Origin("backbud.toml", 1, 1)
            if place is not None:
                origin = Origin(place.file, place.line, place.column)
            message = f"the rule “{rule}” failed for {handles[0]}{more}: {what}"
            hint = "Everything else was planned."
            flaws.append(flaw_at(origin, "rule-failed", message, hint, 0, 1))
        return tuple(flaws)
