"""Reads the cards, and checks that whatever one of them names exists."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from itertools import chain

from msgspec.structs import replace

from backbud.journal.events import Origin
from backbud.journal.problems import PlacedFlaw, PlacedFlaws, WithFlaws, flaw_at
from backbud.journal.references import flaw_of_reference_at
from backbud.journal.things import Line, PlacedCard, Thing, Things, members
from backbud_grammar.dates import WrittenDate, read_date
from backbud_grammar.forms import KindForm
from backbud_grammar.handles import flaw_of, fold
from backbud_grammar.kinds import KINDS
from backbud_grammar.parse import Details
from backbud_grammar.problems import Flaw, Misread, nearest
from backbud_grammar.syntax import Act, Card, CardLine

# No bench stands in more places, one within another.
MOST_NESTED = 20
# Labels that may stand several times on one card.
_REPEATED = frozenset({"ingredient", "note", "weather"})


def read_things(cards: Iterable[PlacedCard], details: Details) -> WithFlaws[Things]:
    """Read every card, as in the north; a second card of a handle is a problem and is left out."""
    by_handle: dict[str, Thing] = {}
    spellings: dict[str, str] = {}
    flaws: list[PlacedFlaw] = []
    for placed in cards:
        thing, found = _thing(placed, details)
        flaws += found
        if thing is None:
            continue
        taken = spellings.get(fold(thing.handle))
        if taken is not None:
            flaws.append(_of_card(placed, _duplicate(placed.card, by_handle[taken])))
            continue
        spellings[fold(thing.handle)] = thing.handle
        former, found = _formerly(thing, spellings)
        spellings |= {fold(handle): thing.handle for handle in former}
        flaws += found
        # Ids are made from the oldest handle that is its own.
        by_handle[thing.handle] = replace(thing, first_handle=former[0]) if former else thing
    things = Things(by_handle, spellings)
    nested = list(_nested(things))
    by_handle |= {place.handle: place for place, _ in nested}
    flaws += [flaw for _, flaw in nested]
    flaws += chain.from_iterable(_flaws_of_references(one, things) for one in by_handle.values())
    return WithFlaws(things, tuple(flaws))


def with_lines_at_edge(placed: PlacedCard, details: Details) -> WithFlaws[PlacedCard]:
    """A card whose lines slipped to the left edge gets them back, each with a problem."""
    card = placed.card
    kind = KINDS[card.kind]
    lines, blocks = list(card.lines), list(card.blocks)
    flaws: list[PlacedFlaw] = []
    while blocks:
        text, line = blocks[0].subjects, blocks[0].line
        if not text or not details.card_line(kind, text).details:
            break
        label = text.split(None, 1)[0]
        message = f"“{label}” belongs to the card above, but stands at the left edge"
        hint = "Put two spaces in front of it."
        flaw = Flaw("label-at-edge", line, 1, len(label), message, hint)
        flaws.append(_of_card(placed, flaw))
        lines.append(CardLine(text, line, 1))
        lines += map(_as_written, blocks.pop(0).acts)
    whole = replace(card, lines=tuple(lines), blocks=tuple(blocks))
    return WithFlaws(PlacedCard(whole, placed.file, placed.line), tuple(flaws))


def _as_written(act: Act) -> CardLine:
    """The line of a card that was read as an act, each character at its place."""
    word = act.word.ljust(act.text_column - act.column) if act.text else act.word
    remark = f" -- {act.remark}" if act.remark else ""
    seams = tuple(replace(seam, offset=seam.offset + len(word)) for seam in act.seams)
    return CardLine(f"{word}{act.text}{remark}", act.line, act.column, seams)


def _of_card(placed: PlacedCard, flaw: Flaw) -> PlacedFlaw:
    return PlacedFlaw(placed.file, placed.line, flaw)


# ------------------------------------------------------------------ one card


def _thing(placed: PlacedCard, details: Details) -> WithFlaws[Thing | None]:
    """What a card says; None where nothing can be called by its handle."""
    card = placed.card
    handle, flaws = card.handle, list[PlacedFlaw]()
    wrong = flaw_of(handle)
    if wrong:
        hint = "A handle is one lowercase word with hyphens, such as hoshi or tray-7."
        flaw = Flaw("bad-handle", 0, card.column, len(handle), wrong, hint)
        flaws.append(_of_card(placed, flaw))
        # A capital letter does no harm: the lines of the diary find the card all the same.
        handle = handle.lower()
        if flaw_of(handle):
            return WithFlaws(None, tuple(flaws))
    lines, of_lines = _lines(placed, KINDS[card.kind], details)
    since, of_dates = _since(lines)
    flaws += (*of_lines, *of_dates)
    origin = Origin(placed.file, placed.line + 1, 1)
    unread = frozenset(_unread(placed, lines))
    return WithFlaws(Thing(card.kind, handle, handle, lines, origin, since, unread), tuple(flaws))


def _unread(placed: PlacedCard, lines: Iterable[Line]) -> Iterator[str]:
    """The labels of the lines of a card that were left out; a misspelt one is the nearest."""
    lines, written = list(lines), placed.card.lines
    if len(lines) == len(written):
        return
    read = {id(line.written) for line in lines}
    for line in written:
        if id(line) not in read and line.text.split():
            word = line.text.split()[0].casefold()
            labels = {form.name for form in KINDS[placed.card.kind].forms}
            yield word if word in labels else nearest(word, sorted(labels))


def _lines(placed: PlacedCard, kind: KindForm, details: Details) -> WithFlaws[tuple[Line, ...]]:
    lines: list[Line] = []
    flaws: list[Flaw] = []
    seen: set[str] = set()
    for line in placed.card.lines:
        reading = details.card_line(kind, line.text)
        flaw = reading.flaw
        if flaw is not None:
            at, column = line.place_of(flaw.column)
            flaws.append(Flaw(flaw.code, at, column, flaw.length, flaw.message, flaw.hint))
            continue
        read, *more = reading.details
        if more:
            at, column = line.place_of(more[0].offset)
            message = f"“{kind.kind}” takes one thing on a line"
            hint = "Write the second on a line of its own."
            flaws.append(Flaw("unknown-word", at, column, more[0].length, message, hint))
        if read.name in seen and read.name not in _REPEATED:
            message = f"“{read.name}” stands twice on this card"
            hint = "The first was taken. What changed later belongs in the diary."
            label = len(read.name)
            flaws.append(Flaw("duplicate-label", line.line, line.column, label, message, hint))
            continue
        seen.add(read.name)
        origin = Origin(placed.file, placed.line + line.line + 1, line.column)
        lines.append(Line(read, origin, line))
    return WithFlaws(tuple(lines), tuple([_of_card(placed, flaw) for flaw in flaws]))


def _since(lines: Iterable[Line]) -> WithFlaws[WrittenDate | None]:
    """The date of `since`, as far as the dates of a card can be read."""
    flaws: list[PlacedFlaw] = []
    for line in lines:
        written = line.detail.date
        if not written:
            continue
        try:
            date = read_date(written)
        except Misread as error:
            at = line.where(written)
            flaws.append(flaw_at(at, error.code, error.message, error.hint, 0, len(written)))
            continue
        if line.detail.name == "since":
            return WithFlaws(date, tuple(flaws))
    return WithFlaws(None, tuple(flaws))


# ------------------------------------------------------------------ handles


def _duplicate(card: Card, first: Thing) -> Flaw:
    message = f"“{card.handle}” already has a card"
    if card.handle != first.handle:
        message = f"“{card.handle}” is read as “{first.handle}”, which already has a card"
    hint = f"The first stands in {first.origin}. This one was left out; give it another handle."
    return Flaw("duplicate-card", 0, card.column, len(card.handle), message, hint)


def _formerly(thing: Thing, spellings: Mapping[str, str]) -> WithFlaws[list[str]]:
    """The handles that a thing once had, oldest first, but for those that find another."""
    own: list[str] = []
    flaws: list[PlacedFlaw] = []
    for written in thing.text("formerly").replace(",", " ").split():
        code, wrong = "bad-handle", flaw_of(written)
        # As on the card itself, a capital letter does no harm.
        is_handle = not flaw_of(written.lower())
        other = spellings.get(fold(written), thing.handle) if is_handle else thing.handle
        if other != thing.handle:
            code, wrong = "duplicate-card", f"“{written}” is a handle of “{other}” too"
        elif is_handle:
            own.append(written.lower())
        if wrong:
            line = next(line for line in thing.lines if line.detail.name == "formerly")
            hint = "One handle names one thing."
            flaws.append(flaw_at(line.where(written), code, wrong, hint, 0, len(written)))
    return WithFlaws(own, tuple(flaws))


# ------------------------------------------------------------------ references


def _flaws_of_references(thing: Thing, things: Things) -> PlacedFlaws:
    flaws: list[PlacedFlaw | None] = []
    for line in thing.lines:
        handle = line.detail.handle
        if not handle:
            continue
        form = next(f for f in KINDS[thing.kind].forms if f.name == line.detail.name)
        if form.refers:
            flaws.append(flaw_of_reference_at(handle, form.refers, things, line.where(handle)))
    if thing.kind == "group":
        line_of = next((ln for ln in thing.lines if ln.detail.name == "trees"), None)
        for handle in members(thing):
            assert line_of is not None
            flaws.append(flaw_of_reference_at(handle, ("tree",), things, line_of.where(handle)))
    return tuple([flaw for flaw in flaws if flaw is not None])


# ------------------------------------------------------------------ places within places


def _nested(things: Things) -> Iterator[tuple[Thing, PlacedFlaw]]:
    """The places that are within themselves, or too deep within others, without that line.

    So whoever goes outward from a place comes to an end, and soon.
    """
    depth: dict[str, int] = {}
    for place in things.of_kind("place"):
        way: dict[str, Thing] = {}
        at: Thing | None = place
        while at is not None and at.handle not in depth and at.handle not in way:
            way[at.handle] = at
            at = _outer(at, things)
        circle = list(way).index(at.handle) if at is not None and at.handle in way else len(way)
        deep = depth.get(at.handle, 0) + 1 if at is not None else 0
        for i, (handle, one) in reversed([*enumerate(way.items())]):
            if i >= circle:
                depth[handle], deep = 0, 1
                yield _without_within(one, f"“{handle}” is within itself")
            elif deep > MOST_NESTED:
                depth[handle], deep = 0, 1
                message = f"“{handle}” is within more than {MOST_NESTED} places, one in another"
                yield _without_within(one, message)
            else:
                depth[handle], deep = deep, deep + 1


def _outer(place: Thing, things: Things) -> Thing | None:
    """The place that a place is within."""
    written = place.text("within")
    outer = things.find(written) if written else None
    return outer if outer is not None and outer.kind == "place" else None


def _without_within(place: Thing, message: str) -> tuple[Thing, PlacedFlaw]:
    line = next(line for line in place.lines if line.detail.name == "within")
    hint = "Take out one of the “within” lines."
    flaw = flaw_at(line.origin, "bad-reference", message, hint, 0, len("within"))
    without = tuple(ln for ln in place.lines if ln.detail.name != "within")
    return replace(place, lines=without), flaw
