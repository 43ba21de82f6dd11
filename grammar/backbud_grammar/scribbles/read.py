"""Reads a line as the bench wrote it: the acts it tells of, each as its table would have it.

What is understood is said again in the words of the tables, and then read by them like any other
line. What is not, is kept as words where it bears on nothing, and stands as it was where it may.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping, Sequence

from msgspec import Struct

from backbud_grammar.details import part_at_commas
from backbud_grammar.forms import ANY_WORDS, ActForm
from backbud_grammar.hints import PART_WORDS
from backbud_grammar.parse import Details
from backbud_grammar.problems import nearest
from backbud_grammar.scribbles.details_said import said_as
from backbud_grammar.scribbles.openings import OPENINGS
from backbud_grammar.scribbles.openings.nouns import NOUNS
from backbud_grammar.scribbles.openings.row import ActOpening
from backbud_grammar.scribbles.plain import (
    ASIDE,
    is_filler,
    is_harmless,
    is_observed,
    is_ready,
    is_seen,
    is_state,
    is_today,
    plain_words,
)
from backbud_grammar.scribbles.spelled import spelled_out, without
from backbud_grammar.whole import limiter_in

# No line at a bench is longer; what is, is prose.
LONGEST = 400
_SENTENCE = re.compile(
    r"(?<=[^\W\d])(?<!\bno)(?<!\bmrs)(?<!\bmr)(?<!\bdr)(?<!\bca)(?<!\bw)(?<!\ba\.m)(?<!\bp\.m)"
    r"(?<!\binc)(?<!\bincl)[.]\s+|(?<=[\d)%])[.]\s+(?=\D)|\s*;\s+|!+\s+|\s+(?:->|=>|→|–|-)\s+|:\s+",
    re.IGNORECASE,
)
_AND = re.compile(r"\s+(?:\+|&|and|then)\s+|\s*\+\s+")
_WORD = re.compile(r"[^\W\d_]+(?:['’-][^\W\d_]+)*")


class Handles(Struct, frozen=True):
    """The handles of a journal as a line may write them: blanks for hyphens. By kind."""

    written: Mapping[str, str]
    places: re.Pattern[str] | None = None
    every: re.Pattern[str] | None = None


NO_HANDLES = Handles({})


def handles_of(of_kind: Mapping[str, str]) -> Handles:
    """`of_kind`: the kind of each handle."""
    written = {handle.replace("-", " "): handle for handle in of_kind if "-" in handle}

    def any_of(words: Sequence[str]) -> re.Pattern[str] | None:
        if not words:
            return None
        longest = sorted(map(re.escape, words), key=len, reverse=True)
        return re.compile(rf"(?<![\w-])(?:{'|'.join(longest)})(?![\w-])", re.IGNORECASE)

    return Handles(
        written,
        any_of([handle for handle, kind in of_kind.items() if kind == "place"]),
        any_of([said for said, handle in written.items() if of_kind[handle] != "material"]),
    )


# What is done again and again, so that the next time is a plan.
_REPEATED = ("treated", "fed", "flushed", "misted", "trimmed", "pinched")
_AGAIN = re.compile(
    r"(?:and )?(?:again|repeat(?:ed)?|next(?: one| spray| feed)?|once more) in "
    r"(\d+ (?:days?|weeks?|months?))",
    re.IGNORECASE,
)


class Told(Struct, frozen=True):
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


# Marks an act that was opened by the noun that names it.
NOUN = "the "


class _ActInWords:
    """An act that is being put together."""

    def __init__(self, word: str, form: ActForm, at: int) -> None:
        self.word, self.form, self.at = word, form, at
        self.pieces: list[tuple[str, int]] = []
        self.kept: list[tuple[str, int]] = []
        self.remark = ""
        # Where the words right behind the act stand; -1 where there are none.
        self.rest_at = -1
        # Whether it was opened by a noun; what was read behind it tells that it was done.
        self.is_noun = False

    def _bears_on_nothing(self, one: tuple[str, int]) -> bool:
        """Whether words beside the act are no object of it: `leaves` behind it may be."""
        said, at = one
        return is_harmless(said, fillers_only=at == self.rest_at)

    @property
    def strict(self) -> bool:
        """Whether every word that could bear on it must be read."""
        return self.form.bearing == "ends" or self.word.casefold() in self.form.bare_words

    def told(self, loose: Sequence[tuple[str, int]], is_read: Callable[[str], bool]) -> Told:
        """The act as its table has it. `loose`: what elsewhere in the line may bear on it."""
        pieces, kept = [*self.pieces, *loose], list(self.kept)
        harmless = is_today if self.form.of_all else self._bears_on_nothing
        if self.word.casefold() in self.form.bare_words:
            # `wire ok` is no wiring, and `wire today` may be a wish.
            harmless = _never
        if self.strict or (self.form.undone_by and not any(is_read(one[0]) for one in pieces)):
            pieces += [one for one in kept if not harmless(one)]
            kept = [one for one in kept if harmless(one)]
        pieces = _measured_parts(self.form, pieces)
        text, starts = "", []
        for piece, at in pieces:
            text += ", " if text else ""
            starts.append((len(text), at))
            text += piece
        return Told(
            self.word,
            text,
            self.remark,
            tuple(said for said, _ in kept),
            tuple(starts),
            self.at,
        )


def _measured_parts(form: ActForm, pieces: list[tuple[str, int]]) -> list[tuple[str, int]]:
    """`1 mm Al, on apex, on right 2` is one thickness on two parts."""
    if form.word not in ("wired", "guyed"):
        return pieces
    sizes = [one for one in pieces if _SIZE.fullmatch(one[0])]
    parts = [one for one in pieces if one[0].startswith("on ")]
    if len(sizes) != 1 or not parts:
        return pieces
    others = [one for one in pieces if one not in sizes and one not in parts]
    return [(f"{sizes[0][0]} {part}", at) for part, at in parts] + others


_SIZE = re.compile(r"[\d.,/-]+ mm(?: (?:Al|Cu|aluminium|copper))?")


class Talk:
    """Reads lines by the table of acts and the handles of a journal."""

    def __init__(
        self,
        details: Details,
        handles: Handles = NO_HANDLES,
        kind_of: Callable[[str], str] = lambda handle: "",
    ) -> None:
        self.details, self.handles, self.kind_of = details, handles, kind_of
        self._slips: dict[tuple[str, str], bool] = {}
        # What is a detail of some act: where it is none of this act, another may be missing.
        self._every_phrase = frozenset(
            phrase for act in details.acts.values() for phrase in _words_of(act) if " " in phrase
        )

    def read(self, line: str) -> tuple[Told, ...]:
        """The acts that a line tells of; none where it begins with no act and holds none."""
        if len(line) > LONGEST or "\n" in line:
            return ()
        drafts: list[_ActInWords] = []
        before: list[tuple[str, int]] = []
        for start, sentence in _sentences(line):
            first = True
            for at, raw in part_at_commas(sentence):
                piece = raw.strip(" .!:")
                if piece:
                    self._piece(spelled_out(piece), piece, start + at, first, drafts, before)
                first = False
        if not drafts:
            return ()
        if all(is_seen(said) for said, _ in before):
            drafts[0].kept[:0] = before
            before = []
        elif is_observed(before[0][0]) or all(_FIGURE.search(said) for said, _ in before):
            # What was seen, and then what was done about it.
            doubt = [one for one in before if limiter_in(one[0]) or not is_observed(before[0][0])]
            drafts[0].pieces += doubt
            drafts[0].kept[:0] = [one for one in before if one not in doubt]
            before = []
        drafts = _without_stages_in_part(drafts)
        told = [self._told(draft, drafts, before) for draft in drafts]
        words = [said for said, _ in before]
        if words or (drafts and drafts[0].word == "staged") or not drafts:
            # What stands before it may be what the line is about.
            whole = line if not words or not told else ", ".join(words)
            told.insert(0, Told("noted", whole, kept=(whole,) if words or not drafts else ()))
        return tuple(told)

    def _told(
        self, draft: _ActInWords, drafts: Sequence[_ActInWords], before: Sequence[tuple[str, int]]
    ) -> Told:
        loose = self._loose(draft, drafts, before)
        return draft.told(loose, lambda text: self._puts_on(draft.form, text))

    def _loose(
        self, draft: _ActInWords, drafts: Sequence[_ActInWords], before: Sequence[tuple[str, int]]
    ) -> list[tuple[str, int]]:
        """What elsewhere in the line may bear on an act that needs every word to be read."""
        if not draft.strict:
            return []
        loose = [*before]
        for other in drafts:
            if other is not draft:
                loose += [one for one in other.kept if not is_harmless(one[0])]
                loose += [one for one in other.pieces if not self._reads(other.form, one[0])]
                loose += [(other.remark, other.at)] if other.remark else []
        return [one for one in loose if not is_harmless(one[0])]

    def _piece(
        self,
        piece: str,
        raw: str,
        at: int,
        first: bool,
        drafts: list[_ActInWords],
        before: list[tuple[str, int]],
    ) -> None:
        """Put one piece where it belongs. `first`: whether it begins a sentence."""
        draft = drafts[-1] if drafts else None
        if draft is not None and draft.form.prose:
            draft.pieces.append((raw, at))
            return
        if draft is not None and draft.form.names_act and not first:
            self._more_of_plan(draft, piece, raw, at)
            return
        again = _AGAIN.fullmatch(piece) if draft is not None else None
        if draft is not None and again is not None and draft.form.word in _REPEATED:
            self._planned_again(draft, again[1], at, drafts)
            return
        piece = piece[found.end() :] if (found := _LEAD.match(piece)) else piece
        opened = self._opened(piece) if first or draft is None else None
        if opened is not None and (drafts or before) and _may_be_seen(opened):
            opened = None
        if draft is not None and (opened is None or not self._is_whole(*opened)):
            said = self._said(draft.form, piece)
            if said is not None:
                self._add(draft, said, at)
                return
            opened = opened or self._opened(piece)
            if opened is not None and _may_be_seen(opened):
                opened = None
            if opened is not None and not first and not self._is_whole(*opened):
                opened = None
        if opened is not None:
            self._begin(opened, at, drafts)
            return
        if draft is None:
            before.append((raw, at))
        else:
            self._left(draft, piece, raw, at)

    def _more_of_plan(self, draft: _ActInWords, piece: str, raw: str, at: int) -> None:
        """What stands behind the work that is planned, put off or skipped: when, or why."""
        noun = draft.pieces[0][0].split(None, 1)[0] if draft.pieces else ""
        for said in (piece, *said_as(draft.form.word, piece)):
            reading = self.details.of(draft.form, f"{noun} {said}")
            if reading.named and not reading.flaws and reading.details:
                draft.pieces.append((said, at))
                return
        draft.remark = f"{draft.remark}, {raw}" if draft.remark else raw

    def _planned_again(
        self, draft: _ActInWords, when: str, at: int, drafts: list[_ActInWords]
    ) -> None:
        """`again in 8 days`: the same work is planned."""
        form = self.details.acts.get("planned")
        if form is not None:
            planned = _ActInWords("planned", form, at)
            planned.pieces = [(draft.form.bare, at), (f"in {when}", at)]
            drafts.append(planned)

    def _begin(
        self, opened: tuple[str, ActForm, str, str], at: int, drafts: list[_ActInWords]
    ) -> None:
        word, form, text, remark = opened
        draft = _ActInWords(word.removeprefix(NOUN), form, at)
        draft.is_noun = word.startswith(NOUN)
        draft.remark, draft.rest_at = remark, at
        drafts.append(draft)
        if text and (form.names_act or form.prose):
            draft.pieces.append((text, at))
            return
        for _, piece in part_at_commas(text):
            said = self._said(form, piece) if piece else None
            if said is not None:
                self._add(draft, said, at)
            elif piece:
                self._left(draft, piece, piece, at)

    def _add(
        self, draft: _ActInWords, said: tuple[tuple[str, ...], tuple[str, ...]], at: int
    ) -> None:
        pieces, kept = said
        if draft.is_noun and any(pieces):
            draft.word, draft.is_noun = draft.form.word, False
        draft.pieces += [(one, at) for one in pieces if one]
        draft.kept += [(one, at) for one in kept]

    def _left(self, draft: _ActInWords, piece: str, raw: str, at: int) -> None:
        """What is no detail: words that bear on nothing are kept, all else stands as it was."""
        halves = [half for half in _AND.split(piece) if half]
        if len(halves) > 1:
            said = [self._said(draft.form, half) for half in halves]
            if all(one is not None for one in said):
                for one in said:
                    if one is not None:
                        self._add(draft, one, at)
                return
        if self._bears(draft.form, piece):
            if draft.form.undone_by:
                # No wire and no tie is so thick: it stays a problem.
                raw = raw.replace(" inch", '"')
            draft.pieces.append((raw, at))
        else:
            draft.kept.append((raw, at))

    def _bears(self, form: ActForm, piece: str) -> bool:
        """Whether words that are no detail may still change what the act says."""
        if re.search(r"[\d?\"]", piece) or limiter_in(piece):
            return True
        if is_state(piece) or is_ready(piece):
            return False
        words = [word.casefold() for word in _WORD.findall(piece)]
        if not PART_WORDS.isdisjoint(words) and any(
            one.part or one.reader in ("wedges", "zone") for one in form.forms
        ):
            return True
        if any(self.kind_of(word) for word in self._with_handles(piece).split()):
            return True
        known, text = _words_of(form), f" {' '.join(words)} "
        if any(f" {phrase} " in text for phrase in known) or piece.casefold() in self._every_phrase:
            return True
        return any(len(word) > 4 and self._is_slip(form, word) for word in (*words, text.strip()))

    def _is_slip(self, form: ActForm, word: str) -> bool:
        """Whether a word may be a slip of the pen for one of the act's own."""
        found = self._slips.get((form.word, word))
        if found is None:
            like = [
                one
                for one in _words_of(form)
                if abs(len(one) - len(word)) < 3 and (one[0] == word[0] or one[-1] == word[-1])
            ]
            found = self._slips[form.word, word] = bool(nearest(word, like, NEAR_WORD))
        return found

    def _opened(self, piece: str) -> tuple[str, ActForm, str, str] | None:
        """The act that a piece begins with, its row, and what stands behind it."""
        acts = self.details.acts
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
        named = self._with_handles(piece)
        for opening in OPENINGS:
            found = self._pattern(opening).match(named)
            if found is not None and (
                plain not in acts or opening.act == "checked" or len(found[0].rstrip()) > len(word)
            ):
                return self._by(opening, found, named)
        if plain in acts:
            return plain, acts[plain], rest, ""
        return None

    def _by(
        self, opening: ActOpening, found: re.Match[str], piece: str
    ) -> tuple[str, ActForm, str, str] | None:
        form = self.details.acts.get(opening.act)
        if form is None:
            return None
        rest, groups = piece[found.end() :].strip(" ,"), found.groupdict()
        if form.names_act:
            noun = NOUNS.get(re.sub(r"\s+", " ", groups.get("named") or "").casefold(), "")
            named = self.details.acts.get(noun)
            return None if named is None else (opening.act, form, named.bare, rest)
        said = " ".join(filter(None, (opening.details, rest)))
        if opening.details and opening.details != "on" and rest:
            said = f"{opening.details}, {rest}"
        if groups.get("by"):
            said = f"{said}, by {groups['by']}".lstrip(", ")
        return NOUN + form.bare if opening.noun else opening.act, form, said, ""

    def _pattern(self, opening: ActOpening) -> re.Pattern[str]:
        if "@PLACE@" not in opening.pattern.pattern:
            return opening.pattern
        if self.handles.places is None:
            return _NEVER
        return re.compile(
            opening.pattern.pattern.replace("@PLACE@", self.handles.places.pattern), re.IGNORECASE
        )

    def _with_handles(self, text: str) -> str:
        """The text with the handles that it writes with blanks."""
        if self.handles.every is None:
            return text
        return self.handles.every.sub(lambda f: self.handles.written[f[0].casefold()], text)

    def _is_whole(self, word: str, form: ActForm, text: str, remark: str) -> bool:
        """Whether an act in the midst of a sentence is read to its last word."""
        if form.prose or form.names_act:
            return False
        if not text:
            return not form.needs_detail
        return all(
            self._said(form, piece) is not None for _, piece in part_at_commas(text) if piece
        )

    def _said(self, form: ActForm, text: str) -> tuple[tuple[str, ...], tuple[str, ...]] | None:
        """A piece as details of the act, and the words kept beside them; None where it is none."""
        if form.prose or form.names_act:
            return None
        out: list[str] = []
        kept: list[str] = []
        for _, piece in part_at_commas(text):
            one = self._one(form, piece)
            if one is None:
                return None
            out += one[0]
            kept += one[1]
        return tuple(out), tuple(kept)

    def _one(self, form: ActForm, piece: str) -> tuple[list[str], list[str]] | None:
        for said, kept in self._ways(form, piece):
            if not said:
                return [], [*kept] if kept else [piece]
            if self._reads(form, said):
                return [said], [*kept]
        return None

    def _ways(self, form: ActForm, piece: str) -> Iterator[tuple[str, tuple[str, ...]]]:
        """The piece as it is, with handles, in the table's words, without fillers."""
        named = self._with_handles(piece)
        aside = tuple(found[0] for found in ASIDE.finditer(named))
        bare, kept = without(ASIDE.sub(" ", named), is_filler)
        kept = (*kept, *aside)
        for text, beside in {piece: (), named: (), bare: kept}.items():
            if not text and beside:
                yield "", beside
            if not text:
                continue
            yield text, beside
            for said in said_as(form.word, text):
                yield said, beside
            if form.bearing != "ends" and any(one.part for one in form.forms):
                placed = _placed(text)
                if placed:
                    yield placed, beside

    def _reads(self, form: ActForm, text: str) -> bool:
        """Whether the table reads a text to its last word, and finds nothing wrong in it."""
        details = self.details.understood(form, text)
        if not details:
            return False
        if form.undone_by and "inch" in text:
            # No wire and no tie is so thick.
            return False
        for detail in details:
            if detail.part and limiter_in(detail.part):
                return False
            if detail.handle and not self._is_meant(form, detail.name, detail.handle):
                return False
        return True

    def _puts_on(self, form: ActForm, text: str) -> bool:
        """Whether a piece says what is put on, and not only where or by whom."""
        details = self.details.understood(form, text)
        return any(detail.name not in ("by", "part") for detail in details)

    def _is_meant(self, form: ActForm, name: str, handle: str) -> bool:
        """Whether a handle is one of the kind that the detail refers to."""
        kind = self.kind_of(handle)
        return any(one.name == name and kind in one.refers for one in form.forms)


def _never(one: tuple[str, int]) -> bool:
    return not one


def _may_be_seen(opened: tuple[str, ActForm, str, str]) -> bool:
    """Whether a word behind an act may only say how it looks, or what is wanted: `clean now`."""
    word, form, text, _ = opened
    return word in form.bare_words or (word.startswith(NOUN) and not text)


def _without_stages_in_part(drafts: list[_ActInWords]) -> list[_ActInWords]:
    """The acts without a stage that only part of the tree may have reached."""
    return [
        one
        for one in drafts
        if one.word != "staged"
        or (len(one.pieces) == 1 and all(is_seen(said) for said, _ in one.kept))
    ]


_LEAD = re.compile(r"(?:and |then |also |\+ |& )+", re.IGNORECASE)
_FIGURE = re.compile(r"\d")
_NEVER = re.compile(r"(?!)")


# A part of the tree with no word that says more than where.
_PLACE_WORD = (
    r"(?:left|right|front|back|apex|top|crown|low|lower|upper|high|inner|outer|inside|first|second"
    r"|third|trunk|leader|branch|branches|side|of|tree|half way|\d{1,2})"
)
_PART = (
    r"(?P<part>(?!\d)(?!side|of|tree)"
    r"(?!(?:first|second|third)(?! (?:left|right|branch|front|back)))"
    rf"{_PLACE_WORD}(?: {_PLACE_WORD})*)"
)
_IS_PART = re.compile(
    rf"(?:up |in |at |on |the )*{_PART}"
    r"(?: side)?(?: too| as well)?",
    re.IGNORECASE,
)
_THEN_PART = re.compile(
    rf"(?P<measure>.*\d (?:mm|cm|inch|%|Al|Cu|candles|shoots|buds|leaves|pairs|branches)) "
    rf"(?:up |in |at |the )*{_PART}",
    re.IGNORECASE,
)


def _placed(text: str) -> str:
    """A part of the tree as the tables have it: `low left` is `on low left`."""
    found = _IS_PART.fullmatch(text)
    if found is not None:
        return f"on {found['part']}"
    found = _THEN_PART.fullmatch(text)
    return f"{found['measure']} on {found['part']}" if found is not None else ""


def _sentences(line: str) -> Iterator[tuple[int, str]]:
    at = 0
    for found in _SENTENCE.finditer(line):
        yield at, line[at : found.start()]
        at = found.end()
    yield at, line[at:]


# How close a word must be to one of the act's own to be taken for a slip of the pen.
NEAR_WORD = 0.84
_WORDS_OF: dict[str, frozenset[str]] = {}
# They stand in many a sentence, and say nothing by themselves.
_SMALL = plain_words(
    "in to for of from with by at as on the off into and out all over up down no it time back not "
    "under half"
)


def _words_of(form: ActForm) -> frozenset[str]:
    """What a detail of the act may be made of: its labels and the phrases of its closed lists."""
    known = _WORDS_OF.get(form.word)
    if known is None:
        phrases = {
            phrase.casefold()
            for one in form.forms
            for phrase in (*one.labels, *(() if one.words == ANY_WORDS else one.words))
        }
        known = _WORDS_OF[form.word] = frozenset(phrases - _SMALL)
    return known
