"""Cards go in; the things that exist come out, by handle, with every reference checked."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from msgspec import Struct
from msgspec.structs import replace

from backbud.journal.events import Origin
from backbud.journal.notes import Notes
from backbud_grammar.dates import WrittenDate, read_date
from backbud_grammar.forms import KindForm
from backbud_grammar.handles import flaw_of, fold
from backbud_grammar.kinds import KINDS
from backbud_grammar.measures import Measure
from backbud_grammar.parse import Details
from backbud_grammar.problems import Flaw, Misread, did_you_mean, nearest
from backbud_grammar.syntax import Act, Card, CardLine, Detail

# No bench stands in more places, one within another.
MOST_NESTED = 20
# Labels that may stand several times on one card.
_REPEATED = frozenset({"ingredient", "note", "weather"})


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

    def detail(self, label: str) -> Detail | None:
        """The first line of that label, or None."""
        return next((ln.detail for ln in self.lines if ln.detail.name == label), None)

    def text(self, label: str) -> str:
        """The words (or the handle) of a label, or ""."""
        found = self.detail(label)
        return "" if found is None else found.words or found.handle

    def measure(self, label: str) -> Measure | None:
        """The measure of a label, or None."""
        found = self.detail(label)
        return found.measure if found else None

    @property
    def title(self) -> str:
        """What a person calls it."""
        return self.text("name") or self.handle


class Things(Struct, frozen=True):
    """Everything that has a card, by canonical handle, and how any spelling finds it."""

    by_handle: Mapping[str, Thing]
    spellings: Mapping[str, str]

    def find(self, written: str) -> Thing | None:
        """The thing so named, in any case, with or without marks, by any handle it ever had."""
        handle = self.spellings.get(fold(written))
        return self.by_handle[handle] if handle else None

    def of_kind(self, kind: str) -> list[Thing]:
        """Every thing of a kind, in the order of the journal."""
        return [thing for thing in self.by_handle.values() if thing.kind == kind]

    def nearest(self, written: str, *kinds: str) -> str:
        """A hint that names the nearest handle of these kinds."""
        known = [t.handle for t in self.by_handle.values() if not kinds or t.kind in kinds]
        return did_you_mean(written, known, "Give it a card, or check the spelling.")


class PlacedCard(Struct, frozen=True, gc=False):
    """A card and the file and line (0 first) it begins on."""

    card: Card
    file: str
    line: int


def read_things(cards: Iterable[PlacedCard], details: Details, notes: Notes) -> Things:
    """Read every card, as in the north; a second card of a handle is a problem and is left out."""
    by_handle: dict[str, Thing] = {}
    spellings: dict[str, str] = {}
    for placed in cards:
        thing = _thing(placed, details, notes)
        if thing is None:
            continue
        taken = spellings.get(fold(thing.handle))
        if taken is not None:
            notes.add(placed.file, placed.line, _duplicate(placed.card, by_handle[taken]))
            continue
        spellings[fold(thing.handle)] = thing.handle
        by_handle[thing.handle] = _with_former(thing, spellings, notes)
    things = Things(by_handle, spellings)
    by_handle |= {place.handle: place for place in _nested(things, notes)}
    for thing in by_handle.values():
        _check_references(thing, things, notes)
    return things


def turned_south(things: Things) -> Things:
    """The same things where the seasons of their dates are those of the south."""
    turned = {
        handle: replace(thing, since=read_date(thing.since.text, southern=True))
        for handle, thing in things.by_handle.items()
        if thing.since is not None and not thing.since.exact
    }
    return Things({**things.by_handle, **turned}, things.spellings) if turned else things


def _duplicate(card: Card, first: Thing) -> Flaw:
    message = f"“{card.handle}” already has a card"
    if card.handle != first.handle:
        message = f"“{card.handle}” is read as “{first.handle}”, which already has a card"
    return Flaw(
        "duplicate-card",
        0,
        card.column,
        len(card.handle),
        message,
        f"The first stands in {first.origin}. This one was left out; give it another handle.",
    )


def _with_former(thing: Thing, spellings: dict[str, str], notes: Notes) -> Thing:
    """Let every handle a thing ever had find it; ids are made from the oldest that is its own."""
    own: list[str] = []
    for written in _formerly(thing):
        wrong = flaw_of(written)
        # As on the card itself, a capital letter does no harm.
        is_handle = not flaw_of(written.lower())
        other = thing.handle
        if is_handle:
            other = spellings.setdefault(fold(written), thing.handle)
        if other != thing.handle:
            wrong = f"“{written}” is a handle of “{other}” too"
        line = next(line for line in thing.lines if line.detail.name == "formerly")
        if wrong:
            notes.at(
                line.where(written),
                "duplicate-card" if other != thing.handle else "bad-handle",
                wrong,
                "One handle names one thing.",
                0,
                len(written),
            )
        if is_handle and other == thing.handle:
            own.append(written.lower())
    return replace(thing, first_handle=own[0]) if own else thing


def _formerly(thing: Thing) -> list[str]:
    return thing.text("formerly").replace(",", " ").split()


def with_lines_at_edge(placed: PlacedCard, details: Details, notes: Notes) -> PlacedCard:
    """A card whose lines slipped to the left edge gets them back, each with a problem."""
    card = placed.card
    kind = KINDS[card.kind]
    lines, blocks = list(card.lines), list(card.blocks)
    while blocks:
        text, line = blocks[0].subjects, blocks[0].line
        if not text or not details.card_line(kind, text).details:
            break
        label = text.split(None, 1)[0]
        notes.add(
            placed.file,
            placed.line,
            Flaw(
                "label-at-edge",
                line,
                1,
                len(label),
                f"“{label}” belongs to the card above, but stands at the left edge",
                "Put two spaces in front of it.",
            ),
        )
        lines.append(CardLine(text, line, 1))
        lines += map(_as_written, blocks.pop(0).acts)
    return PlacedCard(
        replace(card, lines=tuple(lines), blocks=tuple(blocks)), placed.file, placed.line
    )


def _as_written(act: Act) -> CardLine:
    """The line of a card that was read as an act, each character at its place."""
    word = act.word.ljust(act.text_column - act.column) if act.text else act.word
    remark = f" -- {act.remark}" if act.remark else ""
    seams = tuple(replace(seam, offset=seam.offset + len(word)) for seam in act.seams)
    return CardLine(f"{word}{act.text}{remark}", act.line, act.column, seams)


def _thing(placed: PlacedCard, details: Details, notes: Notes) -> Thing | None:
    card = placed.card
    handle = card.handle
    wrong = flaw_of(handle)
    if wrong:
        notes.add(
            placed.file,
            placed.line,
            Flaw(
                "bad-handle",
                0,
                card.column,
                len(handle),
                wrong,
                "A handle is one lowercase word with hyphens, such as hoshi or tray-7.",
            ),
        )
        # A capital letter does no harm: the lines of the diary find the card all the same.
        handle = handle.lower()
        if flaw_of(handle):
            return None
    kind = KINDS[card.kind]
    lines = _lines(placed, kind, details, notes)
    since = _since(lines, notes)
    origin = Origin(placed.file, placed.line + 1, 1)
    unread = frozenset(_unread(placed, lines))
    return Thing(card.kind, handle, handle, lines, origin, since, unread)


def _unread(placed: PlacedCard, lines: Iterable[Line]) -> Iterator[str]:
    """The labels of the lines of a card that were left out; a misspelt one is the nearest."""
    read = {id(line.written) for line in lines}
    for line in placed.card.lines:
        if id(line) not in read and line.text.split():
            word = line.text.split()[0].casefold()
            labels = {form.name for form in KINDS[placed.card.kind].forms}
            yield word if word in labels else nearest(word, sorted(labels))


def _lines(placed: PlacedCard, kind: KindForm, details: Details, notes: Notes) -> tuple[Line, ...]:
    lines: list[Line] = []
    seen: set[str] = set()
    for line in placed.card.lines:
        reading = details.card_line(kind, line.text)
        flaw = reading.flaw
        if flaw is not None:
            at, column = line.place_of(flaw.column)
            notes.add(
                placed.file,
                placed.line,
                Flaw(flaw.code, at, column, flaw.length, flaw.message, flaw.hint),
            )
            continue
        read, *more = reading.details
        if more:
            at, column = line.place_of(more[0].offset)
            notes.add(
                placed.file,
                placed.line,
                Flaw(
                    "unknown-word",
                    at,
                    column,
                    more[0].length,
                    f"“{kind.kind}” takes one thing on a line",
                    "Write the second on a line of its own.",
                ),
            )
        if read.name in seen and read.name not in _REPEATED:
            notes.add(
                placed.file,
                placed.line,
                Flaw(
                    "duplicate-label",
                    line.line,
                    line.column,
                    len(read.name),
                    f"“{read.name}” stands twice on this card",
                    "The first was taken. What changed later belongs in the diary.",
                ),
            )
            continue
        seen.add(read.name)
        origin = Origin(placed.file, placed.line + line.line + 1, line.column)
        lines.append(Line(read, origin, line))
    return tuple(lines)


def _since(lines: Iterable[Line], notes: Notes) -> WrittenDate | None:
    for line in lines:
        if line.detail.date:
            try:
                date = read_date(line.detail.date)
            except Misread as error:
                notes.at(
                    line.where(line.detail.date),
                    error.code,
                    error.message,
                    error.hint,
                    0,
                    len(line.detail.date),
                )
                continue
            if line.detail.name == "since":
                return date
    return None


def _check_references(thing: Thing, things: Things, notes: Notes) -> None:
    for line in thing.lines:
        handle = line.detail.handle
        if not handle:
            continue
        form = next(f for f in KINDS[thing.kind].forms if f.name == line.detail.name)
        if form.refers:
            check_reference(handle, form.refers, things, notes, line.where(handle))
    if thing.kind == "group":
        line_of = next((ln for ln in thing.lines if ln.detail.name == "trees"), None)
        for handle in members(thing):
            assert line_of is not None
            check_reference(handle, ("tree",), things, notes, line_of.where(handle))


def _nested(things: Things, notes: Notes) -> Iterator[Thing]:
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
                yield _without_within(one, f"“{handle}” is within itself", notes)
            elif deep > MOST_NESTED:
                depth[handle], deep = 0, 1
                message = f"“{handle}” is within more than {MOST_NESTED} places, one in another"
                yield _without_within(one, message, notes)
            else:
                depth[handle], deep = deep, deep + 1


def _outer(place: Thing, things: Things) -> Thing | None:
    """The place that a place is within."""
    written = place.text("within")
    outer = things.find(written) if written else None
    return outer if outer is not None and outer.kind == "place" else None


def _without_within(place: Thing, message: str, notes: Notes) -> Thing:
    line = next(line for line in place.lines if line.detail.name == "within")
    notes.at(
        line.origin,
        "bad-reference",
        message,
        "Take out one of the “within” lines.",
        0,
        len("within"),
    )
    return replace(place, lines=tuple(ln for ln in place.lines if ln.detail.name != "within"))


def members(group: Thing) -> list[str]:
    """The handles on a group's card."""
    return group.text("trees").replace(",", " ").split()


def check_reference(
    written: str,
    kinds: tuple[str, ...],
    things: Things,
    notes: Notes,
    origin: Origin,
    offset: int = 0,
) -> Thing | None:
    """Return the thing referred to, or note why there is none of these kinds."""
    found = things.find(written)
    if found is None:
        notes.at(
            origin,
            "unknown-handle",
            f"no {' or '.join(kinds)} is called “{written}”",
            things.nearest(written, *kinds),
            offset,
            len(written),
        )
        return None
    if found.kind not in kinds:
        notes.at(
            origin,
            "wrong-kind",
            f"“{written}” is a {found.kind}, not a {' or a '.join(kinds)}",
            f"Its card stands in {found.origin}.",
            offset,
            len(written),
        )
        return None
    return found
