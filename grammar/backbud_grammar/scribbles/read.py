"""Reads a line as the bench wrote it: the acts it tells of, each as its table would have it.

What is understood is said again in the words of the tables, and then read by them like any other
line. What is not, is kept as words where it bears on nothing, and stands as it was where it may.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date

from backbud_grammar.elsewhen import elsewhen
from backbud_grammar.languages import LANGUAGE
from backbud_grammar.parse import Details
from backbud_grammar.scribbles.at_odds import at_odds
from backbud_grammar.scribbles.draft import Draft, ToldAct, without_stages_in_part
from backbud_grammar.scribbles.in_doubt import is_for_another_time, is_no_plan
from backbud_grammar.scribbles.line_reader import LineReader, TalkTables
from backbud_grammar.scribbles.loose import loose_pieces
from backbud_grammar.scribbles.named import NO_HANDLES, Handles
from backbud_grammar.scribbles.opened_pieces import PieceOpener
from backbud_grammar.scribbles.opener import Opener
from backbud_grammar.scribbles.plain import plain_words
from backbud_grammar.scribbles.reads import PieceReader
from backbud_grammar.scribbles.sentences import LONGEST
from backbud_grammar.scribbles.unopened import Unopened
from backbud_grammar.scribbles.words_beside import WordsBeside

# Heads of what nobody did then.
_HEADS = {"one day", "some day"} | plain_words(
    "someday seen saw storm gale wind frost hail quote advice dream wish idea"
)


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
        self.details, self.handles = details, handles
        self.pieces = PieceReader(details, handles, kind_of, language)
        opener = Opener(details.acts, handles, language)
        self.opener = PieceOpener(opener, self.pieces)
        self.unopened = Unopened(opener.needed, details.acts, handles)
        self.beside = WordsBeside(self.pieces, opener, handles)
        self._tables = TalkTables(details, handles, gallon, self.pieces, self.opener)
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
            told = self._read[line, page] = _told(self._tables, line, page)
        return told


def _told(tables: TalkTables, line: str, page: date | None) -> tuple[ToldAct, ...]:
    """What is told of the acts of a line; what no act is told of it is noted."""
    if _is_headed_otherwise(line):
        return ()
    drafts = LineReader(tables, line, page).acts_told()
    if not drafts or any(_is_not_meant(draft, line) for draft in drafts):
        return ()
    if at_odds(drafts, line):
        return ()
    for draft in drafts:
        if draft.is_repotting:
            draft.word, draft.form = "repotted", tables.details.acts["repotted"]
    whole = without_stages_in_part(drafts, doubt="?" in line)
    in_part = [one for one in drafts if one not in whole]
    # Plans and skips that are in doubt, or give no reason, are only noted.
    noted = [one for one in whole if is_no_plan(one)]
    done = [one for one in whole if one not in noted]
    told = [_told_of(tables, draft, done) for draft in done]
    words = ", ".join(
        said
        for one in (*in_part, *noted)
        for said in (one.raw, *one.unread_beside, one.remark)
        if said
    )
    # A stage that only part of the tree has reached.
    words = words or ("" if done else line)
    # A stage said in words is noted as well, but where the line calls it a stage.
    if words or (done[0].word == "staged" and not line.casefold().startswith("stage")):
        text = words if done and words else line
        seen = ToldAct("noted", text, kept=(text,) if words else ())
        # A stage in the midst of it is no more than beside what was done.
        comes_later = bool(done and in_part) and not noted and done[0].at < in_part[0].at
        told.insert(len(told) if comes_later else 0, seen)
    return tuple(told)


def _is_headed_otherwise(line: str) -> bool:
    """Whether what stands before a colon puts all behind it on another day, or in other hands:
    `last year: pruned hard`."""
    head, colon, _ = line.partition(":")
    said = head.strip().casefold()
    return bool(colon) and (said in _HEADS or bool(elsewhen((said,))))


def _is_not_meant(draft: Draft, line: str) -> bool:
    """Whether an act has no work that it is of, may be anybody's, is only called for, or is for
    another time."""
    if (draft.form.names_act and not draft.pieces) or draft.may_be_anybodys:
        return True
    # `repot!` is no repotting.
    is_bare = draft.word.casefold() == draft.form.bare and not (draft.pieces or draft.kept)
    return ("!" in line and is_bare) or is_for_another_time(draft)


def _told_of(tables: TalkTables, draft: Draft, drafts: Sequence[Draft]) -> ToldAct:
    loose = loose_pieces(draft, drafts, tables.reads)
    return draft.told(loose, lambda text: tables.pieces.puts_on(draft.form, text))
