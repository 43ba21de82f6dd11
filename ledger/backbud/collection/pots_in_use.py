"""Tells where two trees would stand in one pot."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from backbud.collection.cannot_be import pot_taken
from backbud.collection.stand import canonical
from backbud.collection.subjects import Whereabouts
from backbud.journal.events import Event
from backbud.journal.problems import PlacedFlaw, flaw_at
from backbud.journal.things import Thing, Things


class PotsInUse:
    """By pot every tree that ever stood in it, by its handle."""

    def __init__(self, things: Things) -> None:
        self._things = things
        self.by_pot: dict[str, dict[str, Whereabouts]] = {}

    def on_cards(self, trees: Iterable[tuple[Thing, Whereabouts]]) -> Iterator[PlacedFlaw]:
        """Where the cards have two trees in one pot."""
        first: dict[str, str] = {}
        for thing, tree in trees:
            if not tree.pot:
                continue
            self.by_pot.setdefault(tree.pot, {})[tree.handle] = tree
            if tree.standing == "here":
                other = first.setdefault(tree.pot, tree.handle)
                if other != tree.handle:
                    message = f"“{other}” stands in “{tree.pot}” too"
                    hint = "A pot holds one tree; write the later one in the diary."
                    length = len(thing.kind)
                    yield flaw_at(thing.origin, "pot-taken", message, hint, 0, length)

    def goes_into(self, tree: Whereabouts, event: Event) -> Iterator[PlacedFlaw]:
        """Where a line puts a tree into a pot in which another one stands."""
        into = event.first("into")
        pot = canonical(self._things, into.handle) if into is not None else ""
        # A pot that is mistyped was told; where a mother's cuttings went, she does not stand.
        if not pot or tree.pot != pot:
            return
        for other in self.by_pot.setdefault(tree.pot, {}).values():
            if other.pot == tree.pot and other is not tree and other.standing == "here":
                yield pot_taken(event, other.handle, tree.pot)
        self.by_pot[tree.pot][tree.handle] = tree
