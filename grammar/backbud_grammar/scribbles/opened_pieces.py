"""Finds the act that a piece of a line tells of: at its beginning, or in its midst."""

from __future__ import annotations

import re
from datetime import date

from backbud_grammar.details import part_at_commas
from backbud_grammar.forms import ActForm
from backbud_grammar.limiters import limiter_in
from backbud_grammar.sayings import saying
from backbud_grammar.scribbles.draft import NOUN, Draft
from backbud_grammar.scribbles.opener import Opened, Opener
from backbud_grammar.scribbles.plain import is_harmless
from backbud_grammar.scribbles.reads import PieceReader
from backbud_grammar.scribbles.sentences import sentences
from backbud_grammar.scribbles.spelled import in_full

_COVERS = ("protected", "shaded")
_LAID_OVER = (*_COVERS, "top-dressed")
# `moved the bench` is said of the bench.
_MOVED_A_PLACE = re.compile(r"moved the\b", re.IGNORECASE)
_POTTED = re.compile(r"potted\b(?!-)", re.IGNORECASE)
_AS_WELL = re.compile(r"(?:\+|&|and) (?!\w+ (?:off|away|down)\b)\w")
_FIGURE = re.compile(r"\d")
_OFF = re.compile(r"\boff\b", re.IGNORECASE)
_LONGEST_BEHIND = 200
# One of these stands in whatever says of roots what a repotting does, or of its pot.
_MAY_BE_OF_ROOTS = re.compile(
    r"\b(?:off|roots?|washed|bare|combed|teased|tap\w*|pot|box|tray|ball|kluit|wortels|wurzeln)\b",
    re.IGNORECASE,
)
# What a repotting says: of roots, of the pot, of the mix.
_POTTING = frozenset({"roots", "pot", "mix"})
# Of these works the sentence as a whole may tell.
_AS_A_WHOLE = ("repotted", "struck", "treated", "plucked", "paid")
_BESIDE_POTTING = ("tied", "worked", "watered", "moved", "soaked", "top-dressed", "guyed")
_SORTS = (
    ("pot", re.compile(r"(?:into|onto) |same pot")),
    ("mix", re.compile(r"mix ")),
    (
        "roots",
        re.compile(
            r"off (?:below|sides|top|\d)|\d[\d/.]*(?: %)? (?:off|roots)"
            r"|.*\broots? (?:off|shortened)|taproot"
            r"|(?:half )?bare-rooted|washed|combed|teased"
        ),
    ),
)
# No piece that holds an act in its midst has more words.
_MOST_AROUND = 8


class PieceOpener:
    """Finds acts by all openings, and by what each act reads of the words around it."""

    def __init__(self, opener: Opener, pieces: PieceReader) -> None:
        self.opener, self.pieces, self.acts = opener, pieces, opener.acts
        self._opened: dict[tuple[str, date | None], Opened | None] = {}

    def opened(self, piece: str, page: date | None) -> Opened | None:
        """The act that a piece tells of; `page`: the day of its page."""
        key = piece, page if page is not None and self.opener.hangs_on_page(piece) else None
        if key not in self._opened:
            self._opened[key] = self._found(*key)
        return self._opened[key]

    def _found(self, piece: str, page: date | None) -> Opened | None:
        opened = self.opener.opened(piece, page)
        if opened is None:
            return self._done_to(piece)
        _, form, text, _ = opened
        if saying(form.word, text) or _MOVED_A_PLACE.match(piece):
            return None
        if form.word == "potted-on" and _POTTED.match(piece) and not self._says_where(form, text):
            # `potted beauty` tells what a tree is like.
            return None
        if form.word in _LAID_OVER and piece.split()[0].casefold() not in self.acts:
            # `moss on` is laid there, `moss on the roof` is only seen.
            return opened if self.is_whole(*opened) or self._is_only_laid(form, text) else None
        return opened

    def _is_only_laid(self, form: ActForm, text: str) -> bool:
        """Whether each piece is a detail, bears on nothing, or tells what lies on it as well."""
        return all(
            is_harmless(piece)
            or (form.word in _COVERS and _AS_WELL.match(piece) is not None)
            or self.pieces.said(form, piece) is not None
            for _, piece in part_at_commas(text)
        )

    def _says_where(self, form: ActForm, text: str) -> bool:
        """Whether what stands behind `potted` is of pots or figures, or bears on nothing."""
        first = text.partition(",")[0].strip()
        said = self.pieces.said(form, first) if first else None
        return not first or said is not None or is_harmless(first) or bool(_FIGURE.search(first))

    def _done_to(self, piece: str) -> Opened | None:
        """The act in a piece, where all around it is details: `strong tips pinched by half`."""
        words = piece.split()
        if not 2 <= len(words) <= _MOST_AROUND or limiter_in(piece):
            return None
        for n, word in enumerate(words[1:], 1):
            form = self.acts.get(word.casefold())
            if form is None or form.bearing != "does" or form.names_act:
                continue
            if word.casefold() in form.bare_words:
                continue
            around = [" ".join(words[:n]), " ".join(words[n + 1 :])]
            said = [self.pieces.said(form, one) for one in around if one]
            if any(read and any(one.startswith("by ") for one in read[0]) for read in said):
                # `Gwen pruned` may be what she was asked to do.
                continue
            if all(read is not None and read[0] and not read[1] for read in said):
                return word, form, ", ".join(filter(None, around)), ""
        return None

    def potted(self, piece: str, sentence: str, page: date | None) -> Opened | None:
        """A sentence that only as a whole tells of a work of potting: `same pot, 1/3 off below`."""
        if "," not in sentence or "?" in sentence or limiter_in(_OFF.sub(" ", piece)):
            return None
        opened = self.opened(in_full(sentence), page)
        if opened is None or opened[1].word not in _AS_A_WHOLE:
            return None
        word, form, text, remark = opened
        first = text.split(", ")[0]
        if self.pieces.said(form, first) is None:
            return None
        return word, form, first, remark

    def potted_again(self, piece: str, behind: str, page: date | None) -> Opened | None:
        """The work of a line whose pieces together are what a repotting says, and no act is named:
        `half washed out, pine mix, own pot, tied`. `behind`: what stands behind the piece."""
        form = self.acts.get("repotted")
        if form is None or "?" in behind or "," not in behind or len(behind) > _LONGEST_BEHIND:
            return None
        if _MAY_BE_OF_ROOTS.search(piece) is None and _MAY_BE_OF_ROOTS.search(behind) is None:
            return None
        said = self.pieces.said(form, piece)
        if said is None or not said[0]:
            return None
        sorts = {_sort_of(one) for one in said[0]}
        if not sorts & {"roots", "pot"}:
            return None
        others = (one for _, sentence in sentences(behind) for _, one in part_at_commas(sentence))
        for other in filter(None, others):
            spelled = in_full(other.strip(" .!:"))
            opened = self.opened(spelled, page) if spelled else None
            if opened is not None and opened[1].word not in _BESIDE_POTTING:
                return None
            said = self.pieces.said(form, spelled) if spelled else None
            sorts |= {_sort_of(one) for one in said[0]} if said is not None else set()
        if not ("roots" in sorts and len(sorts & _POTTING) > 1) and not sorts >= _POTTING:
            return None
        return NOUN + form.bare, form, piece, ""

    def wants_detail(self, piece: str) -> bool:
        """Whether a comma parts an act from the detail that it cannot do without: `paid, bank`."""
        form = self.acts.get(piece.casefold())
        if form is None or not form.needs_detail or form.prose or form.names_act:
            return False
        # `photo, 3x` names no file.
        return not self.pieces.of_act(form).is_open

    def is_nothing(self, piece: str, page: date | None) -> bool:
        """Whether a piece opens no act and names nothing of the journal."""
        words = self.pieces.handles.spelled(piece).split()
        return self.opened(piece, page) is None and not any(map(self.pieces.kind_of, words))

    def is_whole(self, word: str, form: ActForm, text: str, remark: str) -> bool:
        """Whether an act in the midst of a sentence is read to its last word."""
        if form.names_act:
            return not (remark or form.word == "skipped") and ", " in text
        if form.prose:
            return False
        if not text:
            return not form.needs_detail
        return all(
            self.pieces.said(form, piece) is not None for _, piece in part_at_commas(text) if piece
        )


def _is_of_layer(behind: Draft) -> bool:
    """Whether an act is of a layer: what is potted behind it is not the tree."""
    looked_at = [said for said, _ in behind.pieces[:1] if behind.form.word == "checked"]
    return behind.form.word == "separated" or any(one.startswith("layer") for one in looked_at)


def _sort_of(detail: str) -> str:
    """What of a potting a detail is of, as the table has it: roots, pot or mix; "" for others."""
    return next((sort for sort, said in _SORTS if said.match(detail)), "")


def may_be_seen(opened: Opened, behind: Draft | None = None) -> bool:
    """Whether a word behind an act may only say how it looks, or what is wanted: `clean now`.

    What is potted behind a layer that was cut off is the layer, and not the tree that it was on.
    """
    word, form, text, _ = opened
    if behind is not None and "potting" in form.traits and _is_of_layer(behind):
        return True
    return word in form.bare_words or (word.startswith(NOUN) and not text)
