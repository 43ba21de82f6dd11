"""Reads a line as the bench wrote it: the acts it tells of, each as its table would have it.

What is understood is said again in the words of the tables, and then read by them like any other
line. What is not, is kept as words where it bears on nothing, and stands as it was where it may.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date

from backbud_grammar.details import part_at_commas
from backbud_grammar.languages import LANGUAGE
from backbud_grammar.limiters import limiter_in
from backbud_grammar.parse import Details
from backbud_grammar.scribbles.apart import with_two_things_apart
from backbud_grammar.scribbles.asides import is_aside, tells_who_wants
from backbud_grammar.scribbles.bitten import with_bites_joined
from backbud_grammar.scribbles.days import when_of, without_own_day
from backbud_grammar.scribbles.details_said import said_as
from backbud_grammar.scribbles.draft import (
    NOUN,
    Draft,
    Piece,
    ToldAct,
    without_stages_in_part,
)
from backbud_grammar.scribbles.fits_beside import fits_beside, is_in_part
from backbud_grammar.scribbles.follows import AGAIN, REPEATED, REST, WHY_NOT
from backbud_grammar.scribbles.gallons import with_gallons
from backbud_grammar.scribbles.in_doubt import is_for_another_time, is_no_plan
from backbud_grammar.scribbles.later_work import later_work
from backbud_grammar.scribbles.loose import loose_pieces
from backbud_grammar.scribbles.named import NO_HANDLES, Handles
from backbud_grammar.scribbles.opened_pieces import PieceOpener, may_be_seen
from backbud_grammar.scribbles.opener import WITH_REASON, Opened, Opener
from backbud_grammar.scribbles.other_figures import counts_another_thing
from backbud_grammar.scribbles.plain import is_seen
from backbud_grammar.scribbles.reads import PieceReader
from backbud_grammar.scribbles.said_of import is_where_it_stands, said_of
from backbud_grammar.scribbles.sentences import LONGEST, halves, sentences
from backbud_grammar.scribbles.stands_before import put_beside
from backbud_grammar.scribbles.sums_said import with_sums
from backbud_grammar.scribbles.talked import Talked, is_reason, untalked
from backbud_grammar.scribbles.unopened import Unopened
from backbud_grammar.scribbles.ways import is_way, with_ways
from backbud_grammar.scribbles.words_beside import WordsBeside

_IF = re.compile(r"(?:if|unless|when|once|in case|should)\b", re.IGNORECASE)
_PROPERLY = re.compile(
    r"^(?:planned (?:for |in |to )?|now |then |will be |do it (?:in )?)(?=\S)"
    r"| (?:properly|again|then|instead)$",
    re.IGNORECASE,
)
_WITH_WAY = ("moved", "received")
_LEAD = re.compile(r"(?:and |then |also |\+ |& )+", re.IGNORECASE)


class Talk:
    """Reads lines by the table of acts and the handles of a journal, each line once."""

    def __init__(
        self,
        details: Details,
        handles: Handles = NO_HANDLES,
        kind_of: Callable[[str], str] = lambda handle: "",
        language: int = LANGUAGE,
        gallon: str = "",
    ) -> None:
        self.details, self.handles, self.gallon = details, handles, gallon
        self.pieces = PieceReader(details, handles, kind_of, language)
        opener = Opener(details.acts, handles, language)
        self.opener = PieceOpener(opener, self.pieces)
        self.unopened = Unopened(opener.needed, details.acts, handles)
        self.beside = WordsBeside(self.pieces, opener, handles)
        self._hangs_on_page = opener.hangs_on_page
        self._read: dict[tuple[str, date | None], tuple[ToldAct, ...]] = {}

    def read(self, line: str, page: date | None = None) -> tuple[ToldAct, ...]:
        """The acts that a line tells of; none where it begins with no act and holds none.

        `page`: the day of its page, by which days in the line are read.
        """
        if len(line) > LONGEST or "\n" in line:
            return ()
        if self.unopened.opens_nothing(line):
            return ()
        if page is not None and not self._hangs_on_page(line):
            page = None
        told = self._read.get((line, page))
        if told is None:
            told = self._read[line, page] = _LineReader(self, line, page).told()
        return told


class _LineReader:
    """One line, sentence by sentence: the acts so far, and what stands before the first."""

    def __init__(self, talk: Talk, line: str, page: date | None) -> None:
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

    def told(self) -> tuple[ToldAct, ...]:
        end = 0
        line = with_sums(with_two_things_apart(self.line))
        for start, sentence in sentences(with_ways(line, self.talk.handles.places)):
            # `his oak: soap` says whose the rest is; nobody can tell what it says of it.
            labelled = self.is_unread and ":" in self.line[end:start]
            end = start + len(sentence)
            first = True
            self.sentence = sentence
            for at, piece, spelled in with_bites_joined(part_at_commas(sentence)):
                if piece and labelled:
                    self._left_whole(piece, start + at)
                elif piece:
                    self.is_unread = False
                    spelled_out = with_gallons(spelled, self.talk.gallon)
                    self._piece(spelled_out, piece, start + at, first)
                first = False
        if not self.drafts or any(_IF.match(said) for said, _ in self.before):
            return ()
        if self.way is not None:
            self.before.append(self.way)
        self.before = put_beside(self.drafts[0], self.before, self.pieces)
        if any(one.form.names_act and not one.pieces for one in self.drafts):
            return ()
        if "!" in self.line and any(
            one.word.casefold() == one.form.bare and not (one.pieces or one.kept)
            for one in self.drafts
        ):
            # `repot!` is no repotting.
            return ()
        doubt = "?" in self.line or any(limiter_in(said) for said, _ in self.before)
        if any(map(is_for_another_time, self.drafts)):
            return ()
        for one in self.drafts:
            if (
                one.form.word == "potted-on"
                and one.raw.casefold().startswith("potted ")
                and one.cuts_roots
            ):
                one.word, one.form = "repotted", self.acts["repotted"]
        told_of = without_stages_in_part(self.drafts, doubt=doubt)
        # Plans and skips that are in doubt, or give no reason, are only noted.
        noted = [one for one in told_of if is_no_plan(one)]
        in_part = [one for one in self.drafts if one not in told_of]
        drafts = self.drafts = [one for one in told_of if one not in noted]
        told = [self._told(draft) for draft in drafts]
        if self.before:
            # What stands before it may be what the line is about, and whose it is.
            return ()
        words = ", ".join(
            said
            for one in (*in_part, *noted)
            for said in (one.raw, *one.unread_beside, one.remark)
            if said
        )
        # A stage that only part of the tree has reached.
        words = words or ("" if drafts else self.line)
        if words or drafts[0].word == "staged":
            whole = words if drafts and words else self.line
            seen = ToldAct("noted", whole, kept=(whole,) if words else ())
            # A stage in the midst of it is no more than beside what was done.
            comes_later = bool(drafts and in_part) and not noted and drafts[0].at < in_part[0].at
            told.insert(len(told) if comes_later else 0, seen)
        return tuple(told)

    def _told(self, draft: Draft) -> ToldAct:
        loose = loose_pieces(draft, self.drafts, self.before, self._is_read)
        return draft.told(loose, lambda text: self.pieces.puts_on(draft.form, text))

    def _is_read(self, draft: Draft, piece: str) -> bool:
        if draft.form.names_act:
            # When it is to be done is read behind the work.
            text = ", ".join(said for said, _ in draft.pieces)
            return not self.talk.details.of(draft.form, text, hints=False).flaws
        return self.pieces.reads(draft.form, piece)

    # ------------------------------------------------------------------ a piece

    def _piece(self, piece: str, raw: str, at: int, first: bool) -> None:
        """Put one piece where it belongs. `first`: whether it begins a sentence."""
        if self.way is not None:
            way, self.way = self.way, None
            opened = self.opener.opened(f"{way[0]} {piece}", self.page)
            named = self.acts.get(way[0].casefold())
            if opened is not None and (opened[1].word in _WITH_WAY or opened[1] is named):
                self._begin(opened, way[1])
                return
            self.before.append(way)
        elif not (self.drafts or self.before) and (
            is_way(piece, self.talk.handles.places) or self.opener.wants_detail(piece)
        ):
            self.way = (piece, at)
            return
        draft = self._said_of(piece, first) if self.drafts else None
        if draft is not None and draft.form.prose:
            draft.pieces.append((raw, at))
            return
        if draft is not None and draft.form.names_act:
            if self._says_when(draft, piece, at):
                return
            # A sentence that opens no act says why.
            if (
                not first
                or tells_who_wants(raw)
                or (
                    self.opener.is_nothing(piece, self.page)
                    and not fits_beside(draft, piece, self.line)
                )
            ):
                self._more_of_plan(draft, piece, raw, at)
                return
        again = AGAIN.fullmatch(piece) if draft is not None else None
        if draft is not None and again is not None and draft.form.word in REPEATED:
            after = again["after"] or again["each"]
            when = f"in {after}" if after else when_of(again["on"], self.page)
            if when and self._plan(draft.form.bare, when, at, again["more"] or ""):
                return
        later = later_work(draft, piece, self.page) if draft is not None else None
        if later is not None and self._plan(later.bare, later.when, at, later.remark):
            return
        if draft is not None and self._stands_beside(draft, piece, raw, at):
            return
        piece = piece[found.end() :] if (found := _LEAD.match(piece)) else piece
        piece = without_own_day(piece, self.page)
        if not piece:
            return
        if draft is not None and is_where_it_stands(draft, piece, self.talk.handles):
            piece = f"in {piece}"
        piece, why = self._untalked(piece)
        hours = draft is not None and draft.form.word == "worked"
        opened = self.opener.opened(piece, self.page) if first or hours or draft is None else None
        if opened is not None and (self.drafts or self.before) and may_be_seen(opened, draft):
            opened = None
        if opened is None and draft is None and first and not self.before:
            opened = self.opener.potted(piece, self.sentence, self.page)
        if opened is None and draft is None:
            opened = self.opener.potted_again(piece, self.line[at + len(raw) :], self.page)
        if draft is not None and (opened is None or not self.opener.is_whole(*opened)):
            said = self.pieces.said(draft.form, piece)
            if said is not None:
                draft.add(said, at)
                return
            opened = opened or self.opener.opened(piece, self.page)
            if opened is not None and may_be_seen(opened, draft):
                opened = None
            if opened is not None and not first and not self.opener.is_whole(*opened):
                opened = None
        if opened is not None:
            self._begin(opened, at, raw)
            if why:
                self.drafts[-1].beside.append((why, at))
            return
        if draft is None:
            self.before.append((raw, at))
            self.is_unread = not is_seen(piece)
        else:
            self._left(draft, piece, raw, at)
            self.is_unread = not is_seen(piece)

    def _said_of(self, piece: str, first: bool) -> Draft:
        return said_of(self.drafts, piece, self.line, self.pieces, first=first)

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
        when = when_of(_PROPERLY.sub("", piece), self.page)
        later = self.acts.get("put-off")
        if not when or later is None or len(draft.pieces) != 1 or ", " in draft.pieces[0][0]:
            return False
        if draft.form.word == "skipped":
            draft.word, draft.form, draft.needs_reason = "put-off", later, False
        draft.pieces.append((when, at))
        return True

    def _stands_beside(self, draft: Draft, piece: str, raw: str, at: int) -> bool:
        """Whether a piece says no more of an act than why, or that the rest is left, or follows."""
        if fits_beside(draft, piece, self.line):
            draft.put_beside(raw, at)
            return True
        form = draft.form
        rest = REST.fullmatch(piece)
        # What is said or written of money has no rest that is work.
        if rest is None or form.names_act or form.of_all or "no_work" in form.traits:
            return False
        when = when_of(rest["when"], self.page)
        if not when or draft.form.bearing == "ends" or not is_in_part(draft):
            # `repotted, rest tomorrow` may speak of the rest of the trees: it is asked.
            return False
        if not all(self._is_read(draft, said) for said, _ in draft.pieces):
            # What is left of what was not understood, nobody can tell.
            return False
        return self._plan(form.bare, when, at)

    def _more_of_plan(self, draft: Draft, piece: str, raw: str, at: int) -> None:
        """What stands behind the work that is planned, put off or skipped: when, or why."""
        opened = self.opener.opened(piece, self.page)
        is_reason = opened is None or opened[1].bearing == "keeps" or may_be_seen(opened)
        if opened is not None and not is_reason and self.opener.is_whole(*opened):
            self._begin(opened, at)
            return
        noun = draft.pieces[0][0].split(None, 1)[0] if draft.pieces else ""
        if draft.needs_reason and not draft.remark and piece.casefold() in WHY_NOT:
            draft.remark = raw
            return
        for said in (piece, *said_as(draft.form.word, piece, self.pieces.language)):
            reading = self.talk.details.of(draft.form, f"{noun} {said}", hints=False)
            if reading.named and not reading.flaws and reading.details:
                draft.pieces.append((said, at))
                return
        draft.remark = f"{draft.remark}, {raw}" if draft.remark else raw

    def _plan(self, bare: str, when: str, at: int, remark: str = "") -> bool:
        """`again in 8 days`: the work of this bare form is planned."""
        form = self.acts.get("planned")
        if form is None:
            return False
        planned = Draft("planned", form, at)
        planned.pieces, planned.remark = [(bare, at), (when, at)], remark
        self.drafts.append(planned)
        return True

    def _begin(self, opened: Opened, at: int, raw: str = "") -> None:
        word, form, text, remark = opened
        needs_reason, text = text.startswith(WITH_REASON), text.removeprefix(WITH_REASON)
        draft = Draft(word.removeprefix(NOUN), form, at)
        draft.is_noun = word.startswith(NOUN)
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
            draft.beside.append((raw, at))
        elif self.pieces.bears(draft.form, piece):
            seen = self.pieces.sighting(draft.form, piece) if draft.may_stand_beside(at) else ""
            if draft.form.undone_by and not seen:
                # No wire and no tie is so thick: it stays a problem.
                raw = raw.replace(" inch", '"')
            draft.pieces.append((seen or raw, at))
        else:
            draft.kept.append((raw, at))
