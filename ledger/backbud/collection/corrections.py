"""Finds the line that each `corrected` speaks of, and gives that line its new details.

The correction stands later in the diary than what it mends, so the replay must know of it before
it begins.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from typing import NamedTuple

from msgspec import Struct

from backbud.collection.state import Entry
from backbud.collection.subjects import flaw_of_exception
from backbud.journal.dated import DatedBlock, DatedPage
from backbud.journal.events import Event
from backbud.journal.read import Journal
from backbud.journal.things import Things, members
from backbud_grammar.act_words import as_detail
from backbud_grammar.dates import read_date
from backbud_grammar.details import part_at_commas
from backbud_grammar.handles import fold
from backbud_grammar.problems import Misread
from backbud_grammar.syntax import Detail

# Details that cannot both be so: a correction that names one takes the other away.
_EITHER_OR = {"into": "same pot", "same pot": "into"}


class Corrections(Struct):
    """What corrects each line of each tree; `met` grows as the replay meets the lines.

    The key is a tree's folded handle and the identity of the event. `lines`, `blocks`: the
    identities of the events that any correction speaks of, and of the blocks they stand in.
    `in_part`: those of the corrections that take back some parts of a line with more. `wanted`: by
    act and day the corrections that speak of such a line, each with the trees it stands below.
    """

    things: Things
    wanted: dict[tuple[str, date], list[tuple[Event, list[str]]]]
    by_line: dict[tuple[str, int], list[Event]] = {}
    met: set[tuple[str, int]] = set()
    lines: set[int] = set()
    blocks: set[int] = set()
    in_part: set[int] = set()

    def seek(self, pages: Sequence[DatedPage]) -> None:
        """Find the line of these pages, all there are of their days, that each correction speaks
        of.

        Of several, the one with the parts that the correction names; a line that names the tree
        before one with `all`.
        """
        if not self.wanted or not pages:
            return
        first, last = pages[0].when.first, pages[-1].when.first
        wanted = {about: by for about, by in self.wanted.items() if first <= about[1] <= last}
        trees = {
            about: {handle for _, handles in by for handle in handles}
            for about, by in wanted.items()
        }
        lines: dict[tuple[str, date], list[tuple[DatedBlock, Event]]] = {}
        on_days: dict[date, set[str]] = {}
        for act, day in wanted:
            on_days.setdefault(day, set()).add(act)
        for day, acts in on_days.items():
            begin = bisect_left(pages, day, key=_day_of)
            for page in pages[begin : bisect_right(pages, day, begin, key=_day_of)]:
                for block in page.blocks:
                    if acts.isdisjoint(block.acts):
                        continue
                    for i, act in enumerate(block.acts):
                        if act in acts and not self._is_of_others(block, trees[act, day]):
                            lines.setdefault((act, day), []).append((block, block.event(i)))
        for key, corrections in wanted.items():
            meant = _LinesMeant(lines.get(key, []), self.things)
            for correction, handles in corrections:
                for handle in handles:
                    for block, line in meant.of(handle, correction):
                        if _is_in_part(correction, line):
                            self.in_part.add(id(correction))
                            continue
                        self.by_line.setdefault((handle, id(line)), []).append(correction)
                        self.lines.add(id(line))
                        self.blocks.add(id(block))

    def _is_of_others(self, block: DatedBlock, trees: set[str]) -> bool:
        """Whether a subject line names things as they stand on their cards, and none of these
        trees, by folded handle, and no group: so its events need not be made."""
        names = block.text.split(", ")
        things = [self.things.by_handle.get(name) for name in names]
        return trees.isdisjoint(map(fold, names)) and all(
            thing is not None and thing.kind != "group" for thing in things
        )

    def touch(self, event: Event) -> bool:
        """Whether any correction speaks of this line; nearly always not."""
        return id(event) in self.lines

    def of(self, handle: str, event: Event) -> list[Event]:
        """The corrections of one line of a tree, oldest first; each is met once."""
        key = fold(handle)
        found = [
            by for by in self.by_line.get((key, id(event)), ()) if (key, id(by)) not in self.met
        ]
        self.met.update((key, id(by)) for by in found)
        return found

    def was_met(self, handle: str, correction: Event) -> bool:
        """Whether the line that the correction speaks of was found in the tree's history."""
        return (fold(handle), id(correction)) in self.met


def corrections_in(
    journal: Journal, pages: Sequence[DatedPage], turns: Iterable[tuple[DatedBlock, Event]]
) -> Corrections:
    """Find the line of these pages that each correction speaks of: that act, that day, that tree.

    `turns`: among them every correction there is, in its order.
    """
    found = Corrections(journal.things, {})
    for block, event in turns:
        if event.act == "corrected":
            day = corrected_day(event, journal.southern)
            if day > event.when.first:
                continue  # what is not done yet cannot be corrected, and it is told
            handles = plain_handles(block, journal.things)
            found.wanted.setdefault((event.named, day), []).append((event, handles))
    found.seek(pages)
    return found


def _is_in_part(correction: Event, line: Event) -> bool:
    """Whether only some parts of a line are said to be not done, and not the line itself."""
    named = {part.casefold() for part in correction.parts}
    done_on = {part.casefold() for part in line.parts}
    return correction.has("not done") and bool(named) and not (done_on and done_on <= named)


def _day_of(page: DatedPage) -> date:
    """The day by which pages are in order."""
    return page.when.first


class _LinesMeant:
    """The lines of an act on a day, by the trees that they name; many may be corrected."""

    def __init__(self, lines: list[tuple[DatedBlock, Event]], things: Things) -> None:
        self._named: dict[str, list[tuple[DatedBlock, Event]]] = {}
        # Who `all` means is known in the replay only; the first of these that the tree is in.
        self._with_all: list[tuple[DatedBlock, Event]] = []
        self._found: dict[tuple[str, frozenset[str]], tuple[DatedBlock, Event]] = {}
        for line in lines:
            for handle in dict.fromkeys(plain_handles(line[0], things)):
                self._named.setdefault(handle, []).append(line)
            if any(item.by != "handle" for item in line[0].subjects.chosen):
                self._with_all.append(line)

    def of(self, handle: str, correction: Event) -> Sequence[tuple[DatedBlock, Event]]:
        """The line that a correction speaks of, or each that it may speak of."""
        named = self._named.get(handle)
        if named is None:
            return self._with_all
        parts = frozenset(correction.parts)
        if (handle, parts) not in self._found:
            self._found[handle, parts] = (
                max(named, key=lambda line: len(parts.intersection(line[1].parts)))
                if parts
                else named[0]
            )
        return (self._found[handle, parts],)


def corrected_day(event: Event, southern: bool) -> date:
    """The day that a correction speaks of; the earliest there is where that cannot be read."""
    detail = event.first("date")
    try:
        return read_date(detail.date, southern).first if detail else date.min
    except Misread:
        return date.min


def plain_handles(block: DatedBlock, things: Things) -> list[str]:
    """The trees a subject line names outright or by a group, as folded handles.

    None where its exception is refused, as in the replay.
    """
    left_out: set[str] = set()
    for item in block.subjects.left_out:
        if flaw_of_exception(item, block, things) is not None:
            return []
        left_out.update(_named(item.words, things) if item.by == "handle" else ())
    return [
        handle
        for item in block.subjects.chosen
        if item.by == "handle"
        for handle in _named(item.words, things)
        if handle not in left_out
    ]


def _named(written: str, things: Things) -> list[str]:
    thing = things.find(written)
    if thing is None:
        return [fold(written)]
    names = members(thing) if thing.kind == "group" else [thing.handle]
    return [fold(found.handle) for name in names if (found := things.find(name)) is not None]


# ------------------------------------------------------------------ what it changes


def corrected_entry(entry: Entry, corrections: list[Event], journal: Journal) -> Entry:
    """Return the entry with the details that the corrections name replaced, and both kept."""
    meant = entry.event
    for correction in corrections:
        meant = _as_corrected(meant, correction, journal)
    return Entry(meant, entry.among, corrections[-1], entry.event, entry.totals)


def _as_corrected(event: Event, correction: Event, journal: Journal) -> Event:
    new = [d for d in correction.details if d.name != "date"]
    kept = [d for d in event.details if not any(_replaces(d, by, event) for by in new)]
    pieces = [*_pieces_of(event, journal, kept), *_pieces_of(correction, journal, new)]
    text = ", ".join(piece.text for piece in pieces)
    details: tuple[Detail, ...] = ()
    for piece in pieces:
        details += piece.details
    if any(piece.is_cut for piece in pieces):
        # Read anew, so that each detail's place in the text is right for the next correction.
        details = journal.details.of(journal.acts[event.act], text).details
    undone = tuple(d for d in (*kept, *new) if d.name == "not done")
    return Event(
        event.act,
        event.when,
        (*details, *undone),
        text,
        event.remark,
        event.named,
        event.subjects,
        event.file,
        event.line,
        event.column,
        row=event.row,
        named_row=event.named_row,
    )


def _replaces(old: Detail, new: Detail, event: Event) -> bool:
    """Whether a correction's detail takes the place of one of the event's.

    Where it names a part that the event has too, only that part's.
    """
    if old.name != new.name:
        return _EITHER_OR.get(new.name) == old.name
    has_part = any(d.part == new.part for d in event.all(as_detail(new.name)))
    return not (new.part and has_part) or old.part == new.part


class _Piece(NamedTuple):
    """Details between two commas, and their text. `is_cut`: others stood among them."""

    text: str
    details: tuple[Detail, ...]
    is_cut: bool


def _pieces_of(event: Event, journal: Journal, wanted: list[Detail]) -> Iterator[_Piece]:
    """The pieces of an event, with only the wanted details in them."""
    text = event.text
    if event.named:
        # As it was read: what stands before the details of the named act is blank.
        word = text.split(None, 1)[0]
        after = text[len(word) :] if not word.endswith(",") else f" {text[len(word) :]}"
        text = " " * len(word.rstrip(",")) + after
    reading = journal.details.of(journal.acts[event.act], event.text)
    for start, piece in part_at_commas(text):
        here = [d for d, at in zip(reading.details, reading.starts, strict=True) if at == start]
        stays = tuple(d for d in here if d in wanted and d.name != "not done")
        if len(stays) == len(here) and (stays or not event.named):
            yield _Piece(piece, stays, is_cut=False)
        elif stays:
            cut = " ".join(piece[d.offset : d.offset + d.length] for d in stays)
            yield _Piece(cut, stays, is_cut=True)
