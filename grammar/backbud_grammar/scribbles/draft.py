"""An act of a line while it is put together, and what is told of it in the end."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from msgspec import Struct

from backbud_grammar.forms import ActForm
from backbud_grammar.limiters import ENDS_OF_TREES
from backbud_grammar.sayings import MANY_MEANINGS
from backbud_grammar.scribbles.beside import is_told_in_figures
from backbud_grammar.scribbles.observed import is_counted_pest, is_only_seen
from backbud_grammar.scribbles.plain import is_harmless, is_seen, is_today
from backbud_grammar.scribbles.spelled import in_full
from backbud_grammar.scribbles.turns import turns


class ToldAct(Struct, frozen=True):
    """One act of a line: its word, its details as the table has them, its remark.

    `kept`: words that were not used. `pieces`: for each piece of the text where it stands in the
    line. `at`: where the act begins there.
    """

    word: str
    text: str
    remark: str = ""
    kept: tuple[str, ...] = ()
    pieces: tuple[tuple[int, int], ...] = ()
    at: int = 0


# The details that a piece is, and the words kept beside them.
Said = tuple[tuple[str, ...], tuple[str, ...]]
# A piece of a line, and where it stands there.
Piece = tuple[str, int]
# What came off may have come on again: `wire off L1, new on`.
TAKES_OFF = ("unwired", "unguyed", "untied", "unwrapped", "unprotected", "unshaded")
_PUT_ON = re.compile(r"\b(?:new|fresh)\b|\bback\b|\bon\b", re.IGNORECASE)
# What is said again of these may be a reminder, and no second bill.
_ONCE = ("billed", "credited")
# A branch by its number: `left 2 stays`.
_NUMBERED = re.compile(r"\b(?:left|right|branch) \d{1,2}\b", re.IGNORECASE)
_FIGURES = re.compile(r"\d+")
# Marks an act that was opened by the noun that names it.
NOUN = "the "
# What an act is marked with that was opened by what was done to a thing, and by nobody.
DONE_TO = "done: "


class Draft:
    """An act that is being put together."""

    def __init__(self, word: str, form: ActForm, at: int) -> None:
        self.word, self.form, self.at = word, form, at
        self.pieces: list[Piece] = []
        self.kept: list[Piece] = []
        # Words that fit what it says, and so never bear on it.
        self.beside: list[Piece] = []
        self.remark = ""
        # Where the words right behind the act stand; -1 where there are none.
        self.rest_at = -1
        # Whether it was opened by a noun; what was read behind it tells that it was done.
        self.is_noun = False
        # Whether it was opened by what was done to a thing, and nobody said who did it.
        self.is_done_to = False
        # Whether it is the plan of what is to follow another act of the line.
        self.follows = False
        # Whether it counts only where a reason stands behind it.
        self.needs_reason = False
        # The piece that it was opened by, as it is written.
        self.raw = ""

    @property
    def strict(self) -> bool:
        """Whether every word that could bear on it must be read."""
        return self.form.bearing == "ends" or self.word.casefold() in self.form.bare_words

    @property
    def may_be_anybodys(self) -> bool:
        """Whether words that nobody read may say who did it, or that it is only wanted: `left 2
        taken off, the van`."""
        beside = (*self.kept, *self.beside)
        return self.is_done_to and not all(is_harmless(in_full(said)) for said, _ in beside)

    @property
    def is_repotting(self) -> bool:
        """Whether `potted` is said of what had its roots cut: that is no potting on."""
        was_potted = self.form.word == "potted-on" and self.raw.casefold().startswith("potted ")
        return was_potted and self.cuts_roots

    def _bears_on_nothing(self, one: Piece) -> bool:
        """Whether words beside the act are no object of it: `leaves` behind it may be."""
        said, at = one
        written = in_full(said)
        is_behind = at == self.rest_at
        return is_harmless(written, fillers_only=is_behind) or (
            not is_behind and is_only_seen(written)
        )

    def _is_seen_beside(self, one: Piece) -> bool:
        """Whether words beside what was sold or went home only tell of that day, or its looks."""
        return is_today(one) or (
            self.form.word not in ENDS_OF_TREES and is_only_seen(in_full(one[0]))
        )

    def add(self, said: Said, at: int) -> None:
        """A piece as its table has it; what is read behind a noun tells that it was done."""
        pieces, kept = said
        if self.is_noun and any(pieces):
            self.word, self.is_noun = self.form.word, False
        # What was said already is the same once more: `outer only, insides left`.
        known = {said for said, _ in self.pieces}
        self.kept += [(one, at) for one in pieces if one in known]
        self.pieces += [(one, at) for one in pieces if one and one not in known]
        known_words = not any(pieces) and not all(
            is_harmless(one, fillers_only=True) for one in kept
        )
        # A piece that the tables know, and that is no detail, bears on nothing.
        (self.beside if known_words else self.kept).extend((one, at) for one in kept)

    def put_beside(self, raw: str, at: int) -> None:
        """Words that fit what the act says; with a figure they are its remark, as a keeper writes
        them behind the dashes."""
        of_part = self.form.word in TAKES_OFF
        if is_told_in_figures(_NUMBERED.sub("", in_full(raw)) if of_part else raw):
            self.remark = f"{self.remark}, {raw}" if self.remark else raw
        else:
            self.beside.append((raw, at))

    def may_stand_beside(self, at: int) -> bool:
        """Whether words at this place can be about something else than the act: right behind it
        they may be its object, and behind a noun what nobody read may turn it."""
        if self.form.of_all and not self.pieces:
            # `went home, rain` may be said of the keeper.
            return False
        return at != self.rest_at and self.word.casefold() not in self.form.bare_words

    def put_before(self, raw: str, at: int) -> None:
        """What was seen before it was done; with a figure it is the remark, where nothing but what
        was seen stands in it: `2 grubs under the moss`."""
        written = in_full(raw)
        if is_seen(_FIGURES.sub("", written)) or is_counted_pest(written):
            self.put_beside(raw, at)
        else:
            self.kept.append((raw, at))

    @property
    def cuts_roots(self) -> bool:
        """Whether what was read behind `potted` says that roots were cut, or that it stands in the
        pot that it stood in."""
        return any(_ROOTS_CUT.match(said) for said, _ in self.pieces)

    @property
    def unread_beside(self) -> list[str]:
        """The words behind the piece that opened it, as they stand."""
        left = [] if self.form.names_act else self.pieces[1:]
        behind = sorted((*left, *self.kept), key=lambda one: one[1])
        return [said for said, _ in behind if said not in self.raw]

    def told(self, loose: Sequence[Piece], is_read: Callable[[str], bool]) -> ToldAct:
        """The act as its table has it. `loose`: what elsewhere in the line may bear on it."""
        pieces, kept = [*self.pieces, *loose], list(self.kept)
        harmless = self._is_seen_beside if self.form.of_all else self._bears_on_nothing
        if self.word.casefold() in self.form.bare_words:
            # `wire ok` is no wiring, and `wire today` may be a wish.
            harmless = _never
        if self.form.word in _ONCE:
            pieces += [one for one in kept if "again" in one[0].casefold().split()]
            kept = [one for one in kept if one not in pieces]
        if self.strict or (self.form.undone_by and not any(is_read(one[0]) for one in pieces)):
            pieces += [one for one in kept if not harmless(one)]
            kept = [one for one in kept if harmless(one)]
        if self.form.word in MANY_MEANINGS:
            # `layered look` is no layer.
            pieces[:0] = [one for one in kept if one[1] == self.rest_at and not harmless(one)]
            kept = [one for one in kept if one not in pieces]
        if self.form.word in TAKES_OFF:
            pieces += [one for one in kept if _PUT_ON.search(one[0]) or turns(one[0])]
            kept = [one for one in kept if one not in pieces]
        if loose:
            # What is held back is shown in the order in which it was written.
            pieces.sort(key=lambda one: one[1])
        pieces = _measured_parts(self.form, pieces)
        text, starts = "", []
        for piece, at in pieces:
            text += ", " if text else ""
            starts.append((len(text), at))
            text += piece
        return ToldAct(
            self.word,
            text,
            self.remark,
            tuple(said for said, _ in (*kept, *self.beside)),
            tuple(starts),
            self.at,
        )


# What a repotting says of the ball, and the first pot of a seedling does not.
_ROOTS_CUT = re.compile(
    r".*\boff\b|same pot|thick roots|taproot|(?:half )?bare-rooted|combed|wedges"
)


def _never(one: Piece) -> bool:
    return not one


def _measured_parts(form: ActForm, pieces: list[Piece]) -> list[Piece]:
    """`1 mm Al, on apex, on right 2` is one thickness on two parts."""
    if form.word in ("bent", "carved"):
        return _on_its_part(pieces, _FAR)
    if form.word not in ("wired", "guyed"):
        return _on_its_part(pieces, _SHARE) if form.work == "branches" else pieces
    sizes = [one for one in pieces if _SIZE.fullmatch(one[0])]
    parts = [one for one in pieces if one[0].startswith("on ")]
    if len(sizes) != 1 or not parts or any(one[0] in ("whole tree", "all") for one in pieces):
        # `whole tree, crown by Wren`: whose hands it was there, and no wire of its own.
        return pieces
    others = [one for one in pieces if one not in sizes and one not in parts]
    return [(f"{sizes[0][0]} {part}", at) for part, at in parts] + others


def _on_its_part(pieces: list[Piece], what: re.Pattern[str]) -> list[Piece]:
    """`candles, 1/2, on top` is half of them, there; `on trunk, 1/2 inch` is so far, there."""
    those = [one for one in pieces if what.fullmatch(one[0])]
    parts = [one for one in pieces if one[0].startswith("on ")]
    if len(those) != 1 or len(parts) != 1:
        return pieces
    joined = (f"{those[0][0]} {parts[0][0]}", those[0][1])
    return [joined if one is those[0] else one for one in pieces if one is not parts[0]]


_FAR = re.compile(r"\d[\d./]* (?:mm|cm|inch|degrees)")
_SHARE = re.compile(r"\d/\d|\d+ %")
_SIZE = re.compile(
    r"(?:[\d.,/-]+ mm|gauge \d+(?:-\d+)?)(?: (?:Al|Cu|aluminium|copper))?", re.IGNORECASE
)


def without_stages_in_part(drafts: Sequence[Draft], *, doubt: bool) -> list[Draft]:
    """The acts without a stage that only part of the tree may have reached, or that is asked."""
    return [
        one
        for one in drafts
        if one.word != "staged"
        or (not doubt and len(one.pieces) == 1 and all(is_seen(said) for said, _ in one.kept))
    ]
