"""All that has a card (trees, places, pots, people), found by any spelling of its handle."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from msgspec import Struct
from msgspec.structs import replace

from backbud.journal.events import Origin
from backbud_grammar.act_words import LabelName
from backbud_grammar.dates import WrittenDate, read_date
from backbud_grammar.handles import flaw_of, fold
from backbud_grammar.measures import Measure
from backbud_grammar.problems import did_you_mean
from backbud_grammar.syntax import Card, CardLine, Detail


class Line(Struct, frozen=True, gc=False):
    """One line of a card as read, and where it stands; `written` is what was read."""

    detail: Detail
    origin: Origin
    written: CardLine

    def where(self, said: str) -> Origin:
        """The place of words that stand in the line."""
        at = self.written.text.find(said, self.detail.offset)
        line, column = self.written.place_of(max(at, 0))
        return Origin(self.origin.file, self.origin.line + line - self.written.line, column)


class Thing(Struct, frozen=True, gc=False):
    """What one card says. `first_handle`: its oldest handle, from which ids are made.

    `unread`: the labels of its lines that were left out, as far as they can be told.
    """

    kind: str
    handle: str
    first_handle: str
    lines: tuple[Line, ...]
    origin: Origin
    since: WrittenDate | None
    unread: frozenset[str] = frozenset()

    def detail(self, label: LabelName) -> Detail | None:
        """The first line of that label, or None."""
        # Asked of the cards again and again, so as plainly as can be.
        for line in self.lines:
            if line.detail.name == label:
                return line.detail
        return None

    def text(self, label: LabelName) -> str:
        """The words (or the handle) of a label, or ""."""
        found = self.detail(label)
        return "" if found is None else found.words or found.handle

    def measure(self, label: LabelName) -> Measure | None:
        """The measure of a label, or None."""
        found = self.detail(label)
        return found.measure if found else None

    @property
    def title(self) -> str:
        """What a person calls it."""
        return self.text("name") or self.handle


class Things(Struct, frozen=True):
    """Everything that has a card, by canonical handle, and how any spelling finds it.

    `hidden`: of each person who is a number now, by that number, the names they had: first what
    they were called.
    """

    by_handle: Mapping[str, Thing]
    spellings: Mapping[str, str]
    hidden: Mapping[str, tuple[str, ...]] = {}

    def find(self, written: str) -> Thing | None:
        """The thing so named, in any case, with or without marks, by any handle it ever had."""
        handle = self.spellings.get(fold(written))
        return self.by_handle[handle] if handle else None

    def of_kind(self, kind: str) -> list[Thing]:
        """Every thing of a kind, in the order of the journal."""
        return [thing for thing in self.by_handle.values() if thing.kind == kind]

    def nearest(self, written: str, *kinds: str, words: Iterable[str] = ()) -> str:
        """A hint that names the nearest handle of these kinds, or one of these words."""
        known = [t.handle for t in self.by_handle.values() if not kinds or t.kind in kinds]
        handle = written.lower()
        card = "" if flaw_of(handle) else f", “{kinds[0] if kinds else 'tree'} {handle}”,"
        return did_you_mean(
            written, [*known, *words], f"Give it a card{card} or check the spelling."
        )


class PlacedCard(Struct, frozen=True, gc=False):
    """A card and the file and line (0 first) it begins on."""

    card: Card
    file: str
    line: int


def turned_south(things: Things) -> Things:
    """The same things where the seasons of their dates are those of the south."""
    turned = {
        handle: replace(thing, since=read_date(thing.since.text, southern=True))
        for handle, thing in things.by_handle.items()
        if thing.since is not None and not thing.since.exact
    }
    return replace(things, by_handle={**things.by_handle, **turned}) if turned else things


def members(group: Thing) -> list[str]:
    """The handles on a group's card."""
    return group.text("trees").replace(",", " ").split()
