"""Reads one line as the bench wrote it, sentence by sentence and piece by piece.

Each piece goes where it belongs: to an act that it opens, to one before it, or beside it.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from typing import NamedTuple

from backbud_grammar.details import part_at_commas
from backbud_grammar.limiters import ENDS_OF_TREES
from backbud_grammar.parse import Details
from backbud_grammar.scribbles import follows
from backbud_grammar.scribbles.apart import with_two_things_apart
from backbud_grammar.scribbles.asides import is_aside, tells_who_wants
from backbud_grammar.scribbles.bitten import with_bites_joined
from backbud_grammar.scribbles.by_card import labels
from backbud_grammar.scribbles.days import when_of, without_own_day
from backbud_grammar.scribbles.details_said import said_as
from backbud_grammar.scribbles.draft import (
    DONE_TO,
    NOUN,
    Draft,
    Piece,
)
from backbud_grammar.scribbles.fits_beside import fits_beside, is_in_part
from backbud_grammar.scribbles.gallons import with_gallons
from backbud_grammar.scribbles.later_work import later_work
from backbud_grammar.scribbles.named import Handles
from backbud_grammar.scribbles.opened_pieces import PieceOpener, may_be_seen
from backbud_grammar.scribbles.opener import WITH_REASON, Opened
from backbud_grammar.scribbles.other_figures import counts_another_thing
from backbud_grammar.scribbles.plain import is_harmless, is_seen
from backbud_grammar.scribbles.reads import PieceReader
from backbud_grammar.scribbles.said_of import is_where_it_stands, said_of
from backbud_grammar.scribbles.sentences import halves, sentences
from backbud_grammar.scribbles.stands_before import put_beside
from backbud_grammar.scribbles.sums_said import with_sums
from backbud_grammar.scribbles.talked import Talked, is_reason, untalked
from backbud_grammar.scribbles.ways import is_way, with_ways

_IF = re.compile(r"(?:if|unless|when|once|in case|should)\b", re.IGNORECASE)
_ENDS = (*ENDS_OF_TREES, "released")
_WITH_WAY = ("moved", "received")
_LEAD = re.compile(r"(?:and |then |also |\+ |& )+", re.IGNORECASE)


class Spelled(NamedTuple):
    """A piece of a line, with what is short spelled out, as it was written, and where; `first`:
    whether it begins a sentence."""

    text: str
    raw: str
    at: int
    first: bool


class TalkTables(NamedTuple):
    """What every line of a journal is read by."""

    details: Details
    handles: Handles
    gallon: str
    pieces: PieceReader
    opener: PieceOpener

    def reads(self, draft: Draft, piece: str) -> bool:
        """Whether a piece is a detail of an act."""
        if draft.form.names_act:
            # When it is to be done is read behind the work.
            text = ", ".join(said for said, _ in draft.pieces)
            return not self.details.of(draft.form, text, hints=False).flaws
        return self.pieces.reads(draft.form, piece)


class LineReader:
    """One line, sentence by sentence: the acts so far, and what stands before the first."""

    def __init__(self, talk: TalkTables, line: str, page: date | None) -> None:
        self.talk, self.line, self.page = talk, line, page
        self.pieces, self.opener, self.acts = talk.pieces, talk.opener, talk.details.acts
        self.drafts: list[Draft] = []
        self.before: list[Piece] = []
        # `in`, `out` or `back`, which a comma parts from the place.
        self.way: Piece | None = None
        # The sentence that is read.
        self.sentence = ""
        # Whether the last piece was no act, no detail and nothing that was seen.
        self.is_unread = False

    def acts_told(self) -> list[Draft]:
        """The acts of the line; none where something stands before them that nobody can place: it
        may be what the line is about, and whose it is."""
        self._read_sentences()
        if not self.drafts or any(_IF.match(said) for said, _ in self.before):
            return []
        if self.way is not None:
            self.before.append(self.way)
        return [] if put_beside(self.drafts[0], self.before, self.pieces) else self.drafts

    def _read_sentences(self) -> None:
        end = 0
        line = with_sums(with_two_things_apart(self.line))
        for start, sentence in sentences(with_ways(line, self.talk.handles.places)):
            # `his oak: soap` says whose the rest is; nobody can tell what it says of it.
            labelled = self.is_unread and ":" in self.line[end:start]
            end = start + len(sentence)
            first = True
            self.sentence = sentence
            for at, raw, spelled in with_bites_joined(part_at_commas(sentence)):
                if raw and labelled:
                    self._left_whole(raw, start + at)
                elif raw:
                    self.is_unread = False
                    text = with_gallons(spelled, self.talk.gallon)
                    self._piece(Spelled(text, raw, start + at, first))
                first = False

    # ------------------------------------------------------------------ a piece

    def _piece(self, one: Spelled) -> None:
        """Put one piece where it belongs."""
        if self._goes_with_way(one):
            return
        draft = self._said_of(one) if self.drafts else None
        if draft is not None and any(belongs(self, draft, one) for belongs in _BEHIND_AN_ACT):
            return
        text = one.text[found.end() :] if (found := _LEAD.match(one.text)) else one.text
        if text := without_own_day(text, self.page):
            self._opened_or_left(draft, one._replace(text=text))

    def _goes_with_way(self, one: Spelled) -> bool:
        """Whether a piece is `in`, `out` or `back`, or the place that belongs to one."""
        if self.way is None:
            if self.drafts or self.before:
                return False
            is_one = is_way(one.text, self.talk.handles.places)
            if not (is_one or self.opener.wants_detail(one.text)):
                return False
            self.way = (one.text, one.at)
            return True
        way, self.way = self.way, None
        opened = self.opener.opened(f"{way[0]} {one.text}", self.page)
        named = self.acts.get(way[0].casefold())
        if opened is not None and (opened[1].word in _WITH_WAY or opened[1] is named):
            self._begin(opened, way[1])
            return True
        self.before.append(way)
        return False

    def _is_prose(self, draft: Draft, one: Spelled) -> bool:
        if draft.form.prose:
            draft.pieces.append((one.raw, one.at))
        return draft.form.prose

    def _is_of_plan(self, draft: Draft, one: Spelled) -> bool:
        """Whether a piece says when the work of a plan is due, or why."""
        if not draft.form.names_act:
            return False
        if self._says_when(draft, one.text, one.at):
            return True
        # A sentence that opens no act says why.
        is_more = (
            not one.first
            or tells_who_wants(one.raw)
            or (
                self.opener.is_nothing(one.text, self.page)
                and not fits_beside(draft, one.text, self.line)
            )
        )
        if is_more:
            self._more_of_plan(draft, one.text, one.raw, one.at)
        return is_more

    def _comes_again(self, draft: Draft, one: Spelled) -> bool:
        """Whether a piece says when the act is to be done again."""
        if draft.form.word not in follows.REPEATED:
            return False
        when, more = follows.next_time(one.text, self.page)
        if more == one.text and (draft.is_noun or self.before or not self._is_read(draft)):
            # What is only named, and given weekly from now on, may not have been given yet.
            return False
        return bool(when) and self._plan(draft.form.bare, when, one.at, more)

    def _is_read(self, draft: Draft) -> bool:
        return all(self.talk.reads(draft, said) for said, _ in draft.pieces)

    def _is_later_work(self, draft: Draft, one: Spelled) -> bool:
        later = later_work(draft, one.text, self.page)
        return later is not None and self._plan(later.bare, later.when, one.at, later.remark)

    def _opened_or_left(self, draft: Draft | None, one: Spelled) -> None:
        """A piece that opens an act, is a detail of the one before it, or neither."""
        text, at = one.text, one.at
        if draft is not None and is_where_it_stands(draft, text, self.talk.handles):
            text = f"in {text}"
        text, why = self._untalked(text)
        opened = self._opened(draft, text, one)
        if draft is not None and _is_bare_end(self.opener.opened(text, self.page)):
            # `treated soap, dead` may tell of the pests, `grafted, dead` of the scion.
            draft.pieces.append((one.raw, at))
            return
        if draft is not None and (opened is None or not self.opener.is_whole(*opened)):
            said = self.pieces.said(draft.form, text)
            if said is not None:
                draft.add(said, at)
                return
            opened = self._opened_behind(opened, text, one)
        if opened is not None:
            self._begin(opened, at, one.raw)
            if why:
                self.drafts[-1].beside.append((why, at))
            return
        if draft is None:
            self.before.append((one.raw, at))
        else:
            self._left(draft, text, one.raw, at)
        is_label = draft is None and labels(text, self.talk.handles, self.pieces.kind_of)
        self.is_unread = not (is_label or is_seen(text))

    def _opened(self, draft: Draft | None, text: str, one: Spelled) -> Opened | None:
        """The act that a piece opens where it stands: at the head of a sentence, or before any
        other act, where what is done to roots, pot and mix may be a repotting that is not named."""
        hours = draft is not None and draft.form.word == "worked"
        opened = None
        if one.first or hours or draft is None:
            opened = self.opener.opened(text, self.page)
        if opened is not None and (self.drafts or self.before) and may_be_seen(opened, draft):
            opened = None
        if opened is None and draft is None and one.first and not self.before:
            opened = self.opener.potted(text, self.sentence, self.page)
        if opened is None and draft is None:
            behind = self.line[one.at + len(one.raw) :]
            opened = self.opener.potted_again(text, behind, self.page)
        return opened

    def _opened_behind(self, opened: Opened | None, text: str, one: Spelled) -> Opened | None:
        """The act that a piece opens which is no detail of the one before it: behind a comma, only
        where all of it is read."""
        opened = opened or self.opener.opened(text, self.page)
        if opened is None or may_be_seen(opened, self._said_of(one)):
            return None
        return opened if one.first or self.opener.is_whole(*opened) else None

    def _said_of(self, one: Spelled) -> Draft:
        return said_of(self.drafts, one.text, self.line, self.pieces, first=one.first)

    def _untalked(self, piece: str) -> Talked:
        """The piece without what is only talk, where an act opens it then."""
        talked = untalked(piece, self.acts)
        if talked.piece == piece:
            return talked
        opened = self.opener.opened(talked.piece, self.page)
        if opened is None or opened[1].names_act or opened[1].prose:
            return Talked(piece, "")
        if talked.why and opened[1].bearing == "ends" and not is_reason(talked.why, strict=True):
            return Talked(piece, "")
        return talked

    def _left_whole(self, raw: str, at: int) -> None:
        """Words that stand behind a label that nobody understood: none of them opens an act."""
        if self.drafts:
            self.drafts[-1].pieces.append((raw, at))
        else:
            self.before.append((raw, at))

    def _says_when(self, draft: Draft, piece: str, at: int) -> bool:
        """Whether a piece says until when a work waits: `not repotted, too late. next Feb`."""
        when = follows.waits_till(draft.form.word, piece, self.page)
        later = self.acts.get("put-off")
        if not when or later is None or len(draft.pieces) != 1 or ", " in draft.pieces[0][0]:
            return False
        if draft.form.word == "skipped":
            draft.word, draft.form, draft.needs_reason = "put-off", later, False
        draft.pieces.append((when, at))
        return True

    def _stands_beside(self, draft: Draft, one: Spelled) -> bool:
        """Whether a piece says no more of an act than why, or that the rest is left, or follows."""
        if fits_beside(draft, one.text, self.line):
            draft.put_beside(one.raw, one.at)
            return True
        form = draft.form
        rest = follows.REST.fullmatch(one.text)
        # What is said or written of money has no rest that is work.
        if rest is None or form.names_act or form.of_all or "no_work" in form.traits:
            return False
        when = when_of(rest["when"], self.page)
        if not when or draft.form.bearing == "ends" or not is_in_part(draft):
            # `repotted, rest tomorrow` may speak of the rest of the trees: it is asked.
            return False
        if not self._is_read(draft):
            # What is left of what was not understood, nobody can tell.
            return False
        return self._plan(form.bare, when, one.at)

    def _more_of_plan(self, draft: Draft, piece: str, raw: str, at: int) -> None:
        """What stands behind the work that is planned, put off or skipped: when, or why."""
        opened = self.opener.opened(piece, self.page)
        is_reason = opened is None or opened[1].bearing == "keeps" or may_be_seen(opened)
        if opened is not None and not is_reason and self.opener.is_whole(*opened):
            self._begin(opened, at)
            return
        noun = draft.pieces[0][0].split(None, 1)[0] if draft.pieces else ""
        if draft.needs_reason and not draft.remark and piece.casefold() in follows.WHY_NOT:
            draft.remark = raw
            return
        for said in (piece, *said_as(draft.form.word, piece, self.pieces.language)):
            reading = self.talk.details.of(draft.form, f"{noun} {said}", hints=False)
            if follows.DENIED.fullmatch(said) or (
                reading.named and not reading.flaws and reading.details
            ):
                draft.pieces.append((said, at))
                return
        draft.remark = f"{draft.remark}, {raw}" if draft.remark else raw

    def _plan(self, bare: str, when: str, at: int, remark: str = "") -> bool:
        """`again in 8 days`: the work of this bare form is planned."""
        form = self.acts.get("planned")
        if form is None:
            return False
        planned = Draft("planned", form, at)
        planned.follows = True
        planned.pieces, planned.remark = [(bare, at), (when, at)], remark
        self.drafts.append(planned)
        return True

    def _begin(self, opened: Opened, at: int, raw: str = "") -> None:
        word, form, text, remark = opened
        needs_reason, text = text.startswith(WITH_REASON), text.removeprefix(WITH_REASON)
        is_noun, word = word.startswith(NOUN), word.removeprefix(NOUN)
        draft = Draft(word.removeprefix(DONE_TO), form, at)
        draft.is_noun, draft.is_done_to = is_noun, word.startswith(DONE_TO)
        draft.remark, draft.rest_at = remark, at
        draft.needs_reason, draft.raw = needs_reason, raw
        self.drafts.append(draft)
        if text and (form.names_act or form.prose):
            draft.pieces.append((text, at))
            return
        for _, piece in part_at_commas(text):
            # `pinched not the apex` may deny it all; behind a comma it leaves out the apex.
            denied = piece[:4].casefold() == "not " and text.startswith(piece)
            said = self.pieces.said(form, piece) if piece and not denied else None
            if said is not None:
                draft.add(said, at)
            elif piece and fits_beside(draft, piece, self.line):
                draft.put_beside(piece, at)
            elif piece:
                self._left(draft, piece, piece, at)

    def _counts_another(self, draft: Draft, piece: str) -> bool:
        own = self.pieces.of_act(draft.form).words
        return not draft.strict and counts_another_thing(draft.form, own, piece)

    def _left(self, draft: Draft, piece: str, raw: str, at: int) -> None:
        """What is no detail: words that bear on nothing are kept, all else stands as it was."""
        both = halves(piece)
        if len(both) > 1:
            said = [self.pieces.said(draft.form, half) for half in both]
            if all(one is not None for one in said):
                for one in said:
                    if one is not None:
                        draft.add(one, at)
                return
        if draft.may_stand_beside(at) and (
            is_aside(draft.form, piece, raw) or self._counts_another(draft, piece)
        ):
            draft.put_beside(raw, at)
        elif self.pieces.bears(draft.form, piece) or (
            draft.form.work == "business" and self.pieces.bears(draft.form, raw)
        ):
            seen = self.pieces.sighting(draft.form, piece) if draft.may_stand_beside(at) else ""
            if draft.form.undone_by and not seen:
                # No wire and no tie is so thick: it stays a problem.
                raw = raw.replace(" inch", '"')
            draft.pieces.append((seen or raw, at))
        else:
            draft.kept.append((raw, at))


def _is_bare_end(opened: Opened | None) -> bool:
    """Whether a piece says of something, and not of what, that it died, was lost or let go."""
    return opened is not None and opened[1].word in _ENDS and is_harmless(opened[2])


# What a piece behind an act may be before it is held against what acts are opened by, in turn. Each
# puts it where it belongs, and says whether it did.
_BEHIND_AN_ACT: tuple[Callable[[LineReader, Draft, Spelled], bool], ...] = (
    LineReader._is_prose,
    LineReader._is_of_plan,
    LineReader._comes_again,
    LineReader._is_later_work,
    LineReader._stands_beside,
)
