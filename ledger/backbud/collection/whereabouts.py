"""Replays the diary page by page: gives each line to what it means, and tells what cannot be.

It keeps only what a subject line can ask for: where each tree stands, whose it is, whether it is
here, and which pot it is in. What else a tree is, fold.py makes of its history.
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Mapping, Sequence

from msgspec.structs import replace

from backbud.collection.as_before import SAID_ALONE, SaidBefore, says_no_pot
from backbud.collection.batch import ARRIVALS, BEGINS_ANOTHER, RAISED, Misfit
from backbud.collection.batch_moves import Step, moved
from backbud.collection.begun_from import beginning, parted_from, raised_from
from backbud.collection.cannot_be import (
    contradicts_its_coming,
    here_already,
    not_here,
    nothing_to_correct,
    taken,
    too_early,
    wrong_count,
    wrong_subject,
)
from backbud.collection.comings import COMINGS_AND_GOINGS, Turn
from backbud.collection.corrections import Corrections, corrected_entry, corrections_in
from backbud.collection.held import held
from backbud.collection.histories import Histories
from backbud.collection.meant import Meant, only_names_handles
from backbud.collection.nothing_there import held_where_nothing_is
from backbud.collection.on_tree import OFF_PARTS
from backbud.collection.pots_in_use import PotsInUse
from backbud.collection.sorts_of_acts import (
    COUNTS,
    acts_anywhere,
    acts_into_pots,
    everyday_acts,
)
from backbud.collection.stand import (
    Start,
    canonical,
    is_its_beginning,
    stands_after,
    start_on_card,
)
from backbud.collection.state import Entry
from backbud.collection.subjects import Chooser, Whereabouts
from backbud.collection.taken_down import PARTS, Everyday, among
from backbud.collection.whose import cannot_be_done
from backbud.journal.dated import DatedBlock, DatedPage
from backbud.journal.events import Event, Origin
from backbud.journal.faults import fault_at
from backbud.journal.problems import PlacedFlaw, WithFlaws
from backbud.journal.read import Journal
from backbud_grammar.handles import flaw_of, fold

__all__ = ["Histories", "Replay", "Whereabouts"]


class Replay:
    """How all stands, page by page. `flaws`: what cannot have been so, as far as it went.

    `turns`: those of all pages that are to be replayed, and `pages` these pages. `only_stands`:
    how all stands is asked for, and no history. `corrections`: those of the turns, if known.
    """

    def __init__(
        self,
        journal: Journal,
        pages: Sequence[DatedPage],
        turns: Sequence[Turn],
        *,
        only_stands: bool = False,
        corrections: Corrections | None = None,
    ) -> None:
        self.journal, self.things = journal, journal.things
        self.flaws: list[PlacedFlaw] = []
        self.trees: dict[str, Whereabouts] = {}
        self.others: dict[str, list[Event]] = {}
        self.corrections = corrections or corrections_in(journal, pages, turns)
        self.corrected = self.corrections.blocks
        self.pots = PotsInUse(self.things)
        # Subject lines that name trees outright mean the same ones each time.
        self.plain: dict[str, Meant] = {}
        # Of most acts of a diary, whether their measures are totals.
        self.totals = everyday_acts(journal.acts.values())
        self.everyday = frozenset(self.totals)
        # Of these, those that nobody asks for where no history is wanted.
        self.passed_by = self.everyday - PARTS if only_stands else frozenset()
        # Those of which only what they say counts; what is parted off inherits the lines.
        parted = any(event.act in BEGINS_ANOTHER for _, event in turns)
        self.said_alone = SAID_ALONE if only_stands and not parted else frozenset()
        self.anywhere = acts_anywhere(journal.acts.values())
        self.into_pots = acts_into_pots(journal.acts.values())
        keeper = canonical(self.things, journal.settings.keeper)
        self.chooser = Chooser(self.trees, self.things, keeper)
        self._before = SaidBefore(self.things, self.chooser.here, journal.own_words)
        # How often a tree came or went so far.
        self._turned = 0

    def begin(self, arrived: Container[str]) -> None:
        """Put every tree where its card has it. `arrived`: those that were not here at first."""
        for thing in self.things.of_kind("tree"):
            come = fold(thing.handle) in arrived
            start = start_on_card(thing, self.things, "not yet" if come else "here")
            tree = beginning(thing.handle, thing.first_handle, start, thing)
            self.trees[thing.handle] = tree
            self.chooser.here.put(tree)
        trees = ((thing, self.trees[thing.handle]) for thing in self.things.of_kind("tree"))
        self.flaws += self.pots.on_cards(trees)

    def go_on_from(
        self,
        trees: Mapping[str, Whereabouts],
        used: Mapping[str, Iterable[str]],
        uncarded: Mapping[str, str],
    ) -> None:
        """Put everything where it stood at some moment, in the place of `begin`.

        `used`: by pot the trees that ever stood in it. `uncarded`: as the `Chooser` has them.
        """
        self.trees.update(trees)
        for tree in trees.values():
            self.chooser.here.put(tree)
        for pot, handles in used.items():
            self.pots.by_pot[pot] = {handle: trees[handle] for handle in handles}
        self.chooser.uncarded.update(uncarded)

    def page(self, page: DatedPage) -> None:
        """Go on by a page."""
        for block in page.blocks:
            try:
                self._block(page, block)
            except Exception as error:
                self._fault(block, error)

    def histories(self) -> WithFlaws[Histories]:
        """What was taken down of everything, and what of it cannot have been so."""
        others = {h: tuple(events) for h, events in self.others.items()}
        return WithFlaws(Histories(self.trees, others), tuple(self.flaws))

    def _fault(self, block: DatedBlock, error: Exception) -> None:
        hint = "It may count in part, all other lines count whole."
        origin = Origin(block.head.file, block.line, 1)
        texts, memory = self.journal.texts, self.journal.memory
        self.flaws.append(fault_at(origin, texts, memory, "this block", error, hint))

    # -------------------------------------------------------------- a block

    def _block(self, page: DatedPage, block: DatedBlock) -> None:
        meant = self.plain.get(block.text) or self._meant(page, block)
        trees, day = meant.trees, page.when.last
        calm = meant.is_calm(day, self._turned) and id(block) not in self.corrected
        if calm and self.passed_by.issuperset(block.acts):
            return
        if calm and not self.said_alone and self.everyday.issuperset(block.acts):
            self._take_down(block, None, trees)
            return
        for i, act in enumerate(block.acts):
            if calm and (
                act in self.passed_by
                or (act in self.said_alone and self._before.goes_on(block, i, trees))
            ):
                continue
            if calm and act in self.everyday:
                self._take_down(block, i, trees)
            else:
                self._act(block.event(i), meant)
                calm = calm and meant.is_calm(day, self._turned)

    def _take_down(self, block: DatedBlock, only: int | None, trees: list[Whereabouts]) -> None:
        """Put a block, or one of its acts, into the histories of trees."""
        line = Everyday(block, only, len(trees), self.totals)
        for tree in trees:
            tree.lines.append(line)

    def _act(self, event: Event, meant: Meant) -> None:
        if meant.others:
            self._on_others(event, meant.others)
        if not meant.trees:
            return
        if "tree" in self.journal.acts[event.said].on:
            self._on_trees(event, meant)
        else:
            on = self.journal.acts[event.said].on
            self.flaws.append(wrong_subject(event, meant.trees[0].handle, "tree", on))

    def _meant(self, page: DatedPage, block: DatedBlock) -> Meant:
        handles = block.text.split(", ")
        if self.trees.keys() >= set(handles) and len(set(handles)) == len(handles):
            # Most name nothing but trees, as they stand on the cards, and each once.
            meant = Meant([self.trees[handle] for handle in handles], [True] * len(handles), [])
            self.plain[block.text] = meant
            return meant
        subjects = block.subjects
        named = {item.words: self.trees.get(item.words) for item in subjects.chosen}
        trees = [tree for tree in named.values() if tree is not None]
        plain = only_names_handles(subjects)
        if plain and len(trees) == len(subjects.chosen):
            meant = Meant(trees, [True] * len(trees), [])
        else:
            chosen, flaws = self.chooser.chosen(subjects, page, block)
            self.flaws += flaws
            meant = Meant(
                [self.trees[handle] for handle in chosen if handle in self.trees],
                [outright for handle, outright in chosen.items() if handle in self.trees],
                [handle for handle in chosen if handle not in self.trees],
            )
        if plain and not meant.others and len(meant.trees) == len(subjects.chosen):
            self.plain[block.text] = meant
        return meant

    def _on_trees(self, event: Event, meant: Meant) -> None:
        act, totals = event.act, self.journal.acts[event.said].shared
        # A group's card is not dated: who left is no longer meant by its name.
        trees = [
            tree
            for tree, outright in zip(meant.trees, meant.outright, strict=True)
            if outright or tree.standing == "here" or act in self.anywhere
        ]
        if event.held:
            for tree in trees:
                tree.lines.append(Entry(event))
            return
        things = len(trees) + len(meant.others)
        entry = Entry(event, among(event, things, totals=totals), totals=totals)
        for tree in trees:
            self._on_tree(entry, tree)

    def _on_tree(self, entry: Entry, tree: Whereabouts) -> None:
        """What a line, as it is written, does to one of the trees that it means."""
        batch = tree.batch
        self._must_be_here(tree, entry.event)
        mine = self._as_it_can_be(tree, entry.event, self._as_corrected(tree, entry))
        if not self._lets_another_begin(tree, mine):
            tree.batch, mine = batch, replace(entry, event=held(entry.event))
        tree.lines.append(mine)
        changes_nothing = mine.undone or mine.event.held or mine.of is not None
        if not changes_nothing and entry.event.act != "corrected":
            self._stands_after(tree, entry.event, mine)

    def _must_be_here(self, tree: Whereabouts, event: Event) -> None:
        """Tell a line about who is not here, or was not yet."""
        anywhere = event.act in self.anywhere
        if not anywhere and contradicts_its_coming(tree, event):
            self._stand_before_its_coming(tree, event)
        elif not anywhere and tree.standing != "here":
            self.flaws.append(not_here(event, tree))
        elif (
            tree.since is not None
            and event.when.last < tree.since.first
            and event.act not in ARRIVALS
        ):
            self.flaws.append(too_early(event, tree))

    def _as_corrected(self, tree: Whereabouts, entry: Entry) -> Entry:
        """A line with what later lines correct in it."""
        event = entry.event
        if not self.corrections.touch(event):
            return entry
        corrections = self.corrections.of(tree.handle, event)
        if not corrections:
            return entry
        if event.act in self.said_alone and says_no_pot(tree, event, *corrections):
            return entry
        return corrected_entry(entry, corrections, self.journal)

    def _as_it_can_be(self, tree: Whereabouts, event: Event, mine: Entry) -> Entry:
        """A line as it counts for a tree: held back where that cannot have been so, and with how
        many there are after it. `event`: as it is written."""
        act = event.act
        if act == "corrected" and not self.corrections.was_met(tree.handle, event):
            in_part = id(event) in self.corrections.in_part
            self.flaws.append(nothing_to_correct(event, tree, in_part=in_part))
            return Entry(held(event)) if in_part else mine
        if flaw := cannot_be_done(event, tree, self.things):
            self.flaws.append(flaw)
            return Entry(held(event))
        if mine.undone:
            return mine
        if act in OFF_PARTS and tree.standing == "here":
            mine, flaw = held_where_nothing_is(mine, tree, self.journal.texts)
            self.flaws += [] if flaw is None else [flaw]
        elif act in COUNTS or (tree.batch and act in self.into_pots):
            mine = self._counted(tree, mine)
        return mine

    def _stands_after(self, tree: Whereabouts, event: Event, mine: Entry) -> None:
        """Put a tree where it stands after a line, if that says so."""
        stands, act = stands_after(event.row), event.act
        if stands is None:
            return
        if tree.before and act in ARRIVALS:
            self._here_already(tree, mine.event)
        stands(tree, mine.event, self.things)
        self.chooser.here.put(tree)
        self._turned += act in COMINGS_AND_GOINGS
        if act in self.into_pots:
            self.flaws += self.pots.goes_into(tree, mine.event)

    def _on_others(self, event: Event, handles: Iterable[str]) -> None:
        for handle in handles:
            thing = self.things.by_handle[handle]
            if thing.kind not in self.journal.acts[event.said].on:
                on = self.journal.acts[event.said].on
                self.flaws.append(wrong_subject(event, handle, thing.kind, on))
            else:
                self.others.setdefault(handle, []).append(event)

    # -------------------------------------------------------------- a batch, and a new tree

    def _counted(self, tree: Whereabouts, entry: Entry) -> Entry:
        """The entry with how many there are after it; held back where its number cannot be."""
        event = entry.event
        # Who comes here for the first time, though worked on before, comes all the same.
        here = tree.standing == "here" and not tree.before
        if event.act in RAISED:
            here = not is_its_beginning(tree, event.act)
        try:
            step = moved(tree.batch, event, here=here, one_tree=tree.start.one_tree)
        except Misfit as misfit:
            self.flaws.append(wrong_count(event, tree, misfit, self.journal.texts))
            return replace(entry, event=held(event))
        if step == Step(tree.batch):
            return entry
        tree.batch = step.batch
        return replace(entry, batch=step.batch, of=step.of)

    def _lets_another_begin(self, tree: Whereabouts, mine: Entry) -> bool:
        """Let begin what a line says begins; whether the line counts."""
        event = mine.event
        if event.act not in BEGINS_ANOTHER or mine.undone or event.held:
            return True
        return self._begins_another(tree, event) or event.act != "parted-off"

    def _begins_another(self, tree: Whereabouts, event: Event) -> bool:
        """What begins under a handle of its own, with the kind and the owner of the old one where
        its card does not say; whether it could."""
        new = event.first("as")
        if new is None:
            return False
        card = self.things.find(new.words)
        if card is not None and card.kind == "tree":
            child = self.trees[card.handle]
            if child.before:
                self._here_already(child, event)
                if event.act != "separated":
                    return False
            elif child.standing == "here" or (
                # A layer may be cut free anew; whose history this is must be sure.
                child.standing != "not yet" and event.act != "separated"
            ):
                self.flaws.append(taken(event, f"“{new.words}” is here already"))
                return False
        else:
            if card is not None or flaw_of(new.words):
                # It was told when the line was read.
                return False
            if fold(new.words) in self.chooser.uncarded:
                self.flaws.append(taken(event, f"“{new.words}” is taken"))
                return False
            self.chooser.uncarded[fold(new.words)] = new.words
            start = Start("", "", "", "not yet")
            child = self.trees[new.words] = beginning(new.words, new.words, start, None)
        child.kind = child.kind or tree.kind
        begins = parted_from if event.act == "parted-off" else raised_from
        begins(tree, child, event, self.things)
        self.chooser.here.put(child)
        self._turned += 1
        self.flaws += self.pots.goes_into(child, event)
        child.lines.append(Entry(event, batch=child.batch))
        return True

    # -------------------------------------------------------------- what cannot be

    def _stand_before_its_coming(self, tree: Whereabouts, event: Event) -> None:
        """It was here all along: who is worked on is here. That is told once, at its coming."""
        tree.start = replace(tree.start, standing="here")
        tree.standing, tree.before = "here", f"{event.act} on {event.when.text}"
        self.chooser.here.put(tree)
        self._turned += 1

    def _here_already(self, tree: Whereabouts, event: Event) -> None:
        """Tell a coming of who is here, but for the buying of what another owned."""
        before, tree.before = tree.before, ""
        if event.act == "bought" and tree.owner:
            return
        self.flaws.append(here_already(event, tree, before))
