"""Reads a line as the bench wrote it: the acts it tells of, each as its table would have it.

What is understood is said again in the words of the tables, and then read by them like any other
line. What is not, is kept as words where it bears on nothing, and stands as it was where it may.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from datetime import date

from backbud_grammar.details import part_at_commas
from backbud_grammar.forms import ActForm
from backbud_grammar.parse import Details
from backbud_grammar.scribbles.days import when_of, without_own_day
from backbud_grammar.scribbles.details_said import said_as
from backbud_grammar.scribbles.draft import NOUN, Draft, Piece, Told
from backbud_grammar.scribbles.named import NO_HANDLES, Handles
from backbud_grammar.scribbles.opener import Opener
from backbud_grammar.scribbles.openings.nouns import NOUNS
from backbud_grammar.scribbles.openings.row import ActOpening
from backbud_grammar.scribbles.plain import is_harmless, is_observed, is_seen
from backbud_grammar.scribbles.reads import PieceReader, Said
from backbud_grammar.scribbles.sentences import LONGEST, halves, sentences
from backbud_grammar.scribbles.spelled import spelled_out
from backbud_grammar.whole import limiter_in

# What is done again and again, so that the next time is a plan.
_REPEATED = ("treated", "fed", "flushed", "misted", "trimmed", "pinched")
_AGAIN = re.compile(
    r"(?:and )?(?:again|repeat(?:ed)?|next(?: one| spray| feed)?|once more) in "
    r"(\d+ (?:days?|weeks?|months?))",
    re.IGNORECASE,
)
_LEAD = re.compile(r"(?:and |then |also |\+ |& )+", re.IGNORECASE)
_FIGURE = re.compile(r"\d")

# An act that a piece opens: its word, its row, what stands behind it, its remark.
Opened = tuple[str, ActForm, str, str]


class Talk:
    """Reads lines by the table of acts and the handles of a journal, each line once."""

    def __init__(
        self,
        details: Details,
        handles: Handles = NO_HANDLES,
        kind_of: Callable[[str], str] = lambda handle: "",
    ) -> None:
        self.details, self.handles = details, handles
        self.pieces = PieceReader(details, handles, kind_of)
        self.opener = Opener(handles)
        self._read: dict[tuple[str, date | None], tuple[Told, ...]] = {}

    def read(self, line: str, page: date | None = None) -> tuple[Told, ...]:
        """The acts that a line tells of; none where it begins with no act and holds none.

        `page`: the day of its page, by which days in the line are read.
        """
        if len(line) > LONGEST or "\n" in line:
            return ()
        told = self._read.get((line, page))
        if told is None:
            told = self._read[line, page] = _Line(self, line, page).told()
        return told


class _Line:
    """One line, sentence by sentence: the acts so far, and what stands before the first."""

    def __init__(self, talk: Talk, line: str, page: date | None) -> None:
        self.talk, self.line, self.page = talk, line, page
        self.pieces, self.acts = talk.pieces, talk.details.acts
        self.drafts: list[Draft] = []
        self.before: list[Piece] = []

    def told(self) -> tuple[Told, ...]:
        for start, sentence in sentences(self.line):
            first = True
            for at, raw in part_at_commas(sentence):
                piece = raw.strip(" .!:")
                if piece:
                    self._piece(spelled_out(piece), piece, start + at, first)
                first = False
        if not self.drafts:
            return ()
        self._place_what_stands_before()
        drafts = self.drafts = _without_stages_in_part(self.drafts)
        told = [self._told(draft) for draft in drafts]
        words = [said for said, _ in self.before]
        if words or (drafts and drafts[0].word == "staged") or not drafts:
            # What stands before it may be what the line is about.
            whole = self.line if not words or not told else ", ".join(words)
            told.insert(0, Told("noted", whole, kept=(whole,) if words or not drafts else ()))
        return tuple(told)

    def _place_what_stands_before(self) -> None:
        """What was seen, and then what was done about it, stands beside the first act."""
        before, drafts = self.before, self.drafts
        if all(is_seen(said) for said, _ in before):
            drafts[0].kept[:0] = before
            self.before = []
        elif is_observed(before[0][0]) or all(_FIGURE.search(said) for said, _ in before):
            doubt = [one for one in before if limiter_in(one[0]) or not is_observed(before[0][0])]
            drafts[0].pieces += doubt
            drafts[0].kept[:0] = [one for one in before if one not in doubt]
            self.before = []

    def _told(self, draft: Draft) -> Told:
        return draft.told(self._loose(draft), lambda text: self.pieces.puts_on(draft.form, text))

    def _loose(self, draft: Draft) -> list[Piece]:
        """What elsewhere in the line may bear on an act that needs every word to be read."""
        if not draft.strict:
            return []
        loose = [*self.before]
        for other in self.drafts:
            if other is not draft:
                loose += [one for one in other.kept if not is_harmless(one[0])]
                loose += [one for one in other.pieces if not self._is_read(other, one[0])]
                loose += [(other.remark, other.at)] if other.remark else []
        return [one for one in loose if not is_harmless(one[0])]

    def _is_read(self, draft: Draft, piece: str) -> bool:
        return self.pieces.reads(draft.form, piece)

    # ------------------------------------------------------------------ a piece

    def _piece(self, piece: str, raw: str, at: int, first: bool) -> None:
        """Put one piece where it belongs. `first`: whether it begins a sentence."""
        draft = self.drafts[-1] if self.drafts else None
        if draft is not None and draft.form.prose:
            draft.pieces.append((raw, at))
            return
        if draft is not None and draft.form.names_act and not first:
            self._more_of_plan(draft, piece, raw, at)
            return
        again = _AGAIN.fullmatch(piece) if draft is not None else None
        if draft is not None and again is not None and draft.form.word in _REPEATED:
            self._plan(draft, f"in {again[1]}", at)
            return
        piece = piece[found.end() :] if (found := _LEAD.match(piece)) else piece
        piece = without_own_day(piece, self.page)
        if not piece:
            return
        opened = self._opened(piece) if first or draft is None else None
        if opened is not None and (self.drafts or self.before) and _may_be_seen(opened):
            opened = None
        if draft is not None and (opened is None or not self._is_whole(*opened)):
            said = self.pieces.said(draft.form, piece)
            if said is not None:
                _add(draft, said, at)
                return
            opened = opened or self._opened(piece)
            if opened is not None and _may_be_seen(opened):
                opened = None
            if opened is not None and not first and not self._is_whole(*opened):
                opened = None
        if opened is not None:
            self._begin(opened, at)
            return
        if draft is None:
            self.before.append((raw, at))
        else:
            self._left(draft, piece, raw, at)

    def _more_of_plan(self, draft: Draft, piece: str, raw: str, at: int) -> None:
        """What stands behind the work that is planned, put off or skipped: when, or why."""
        noun = draft.pieces[0][0].split(None, 1)[0] if draft.pieces else ""
        for said in (piece, *said_as(draft.form.word, piece)):
            reading = self.talk.details.of(draft.form, f"{noun} {said}")
            if reading.named and not reading.flaws and reading.details:
                draft.pieces.append((said, at))
                return
        draft.remark = f"{draft.remark}, {raw}" if draft.remark else raw

    def _plan(self, draft: Draft, when: str, at: int) -> None:
        """`again in 8 days`: the same work is planned."""
        form = self.acts.get("planned")
        if form is not None:
            planned = Draft("planned", form, at)
            planned.pieces = [(draft.form.bare, at), (when, at)]
            self.drafts.append(planned)

    def _begin(self, opened: Opened, at: int) -> None:
        word, form, text, remark = opened
        draft = Draft(word.removeprefix(NOUN), form, at)
        draft.is_noun = word.startswith(NOUN)
        draft.remark, draft.rest_at = remark, at
        self.drafts.append(draft)
        if text and (form.names_act or form.prose):
            draft.pieces.append((text, at))
            return
        for _, piece in part_at_commas(text):
            said = self.pieces.said(form, piece) if piece else None
            if said is not None:
                _add(draft, said, at)
            elif piece:
                self._left(draft, piece, piece, at)

    def _left(self, draft: Draft, piece: str, raw: str, at: int) -> None:
        """What is no detail: words that bear on nothing are kept, all else stands as it was."""
        both = halves(piece)
        if len(both) > 1:
            said = [self.pieces.said(draft.form, half) for half in both]
            if all(one is not None for one in said):
                for one in said:
                    if one is not None:
                        _add(draft, one, at)
                return
        if self.pieces.bears(draft.form, piece):
            if draft.form.undone_by:
                # No wire and no tie is so thick: it stays a problem.
                raw = raw.replace(" inch", '"')
            draft.pieces.append((raw, at))
        else:
            draft.kept.append((raw, at))

    # ------------------------------------------------------------------ an act that begins

    def _opened(self, piece: str) -> Opened | None:
        """The act that a piece begins with, its row, and what stands behind it."""
        acts = self.acts
        word, _, rest = piece.partition(" ")
        second = rest.partition(" ")
        both = f"{word} {second[0]}".casefold()
        # A word of the language stands before any other way of saying it.
        plain = word.rstrip(":.").casefold()
        if second[0] and both.rstrip(":.") in acts:
            said = both.rstrip(":.")
            # With its hyphen, so that a bare form is known as one.
            joined = said.replace(" ", "-")
            return joined if joined in acts else said, acts[said], second[2], ""
        named = self.talk.handles.spelled(piece)
        for opening, found in self.talk.opener.find(named):
            if plain not in acts or opening.act == "checked" or len(found[0].rstrip()) > len(word):
                return self._by(opening, found, named)
        if plain in acts:
            return plain, acts[plain], rest, ""
        return None

    def _by(self, opening: ActOpening, found: re.Match[str], piece: str) -> Opened | None:
        form = self.acts.get(opening.act)
        if form is None:
            return None
        rest, groups = piece[found.end() :].strip(" ,"), found.groupdict()
        if form.names_act:
            noun = NOUNS.get(re.sub(r"\s+", " ", groups.get("named") or "").casefold(), "")
            named = self.acts.get(noun)
            when = when_of(groups.get("when") or "", self.page)
            if named is None or (groups.get("when") and not when):
                return None
            return opening.act, form, ", ".join(filter(None, (named.bare, when))), rest
        said = " ".join(filter(None, (opening.details, rest)))
        if opening.details and opening.details != "on" and rest:
            said = f"{opening.details}, {rest}"
        if groups.get("by"):
            said = f"{said}, by {groups['by']}".lstrip(", ")
        return NOUN + form.bare if opening.noun else opening.act, form, said, ""

    def _is_whole(self, word: str, form: ActForm, text: str, remark: str) -> bool:
        """Whether an act in the midst of a sentence is read to its last word."""
        if form.prose or form.names_act:
            return False
        if not text:
            return not form.needs_detail
        return all(
            self.pieces.said(form, piece) is not None for _, piece in part_at_commas(text) if piece
        )


def _add(draft: Draft, said: Said, at: int) -> None:
    pieces, kept = said
    if draft.is_noun and any(pieces):
        draft.word, draft.is_noun = draft.form.word, False
    draft.pieces += [(one, at) for one in pieces if one]
    draft.kept += [(one, at) for one in kept]


def _may_be_seen(opened: Opened) -> bool:
    """Whether a word behind an act may only say how it looks, or what is wanted: `clean now`."""
    word, form, text, _ = opened
    return word in form.bare_words or (word.startswith(NOUN) and not text)


def _without_stages_in_part(drafts: Sequence[Draft]) -> list[Draft]:
    """The acts without a stage that only part of the tree may have reached."""
    return [
        one
        for one in drafts
        if one.word != "staged"
        or (len(one.pieces) == 1 and all(is_seen(said) for said, _ in one.kept))
    ]
