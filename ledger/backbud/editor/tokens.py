"""Says of each word of a page or card what it is: a date, a handle, an act, a measure, a remark."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from datetime import date
from typing import Literal

from msgspec import Struct

from backbud.editor.pieces import TextPiece
from backbud.editor.text import OpenText
from backbud.journal.own_words import NO_OWN_WORDS, OwnWords
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.continued import REMARK, label_in
from backbud_grammar.dates import read_date
from backbud_grammar.details import part_at_commas
from backbud_grammar.forms import ActForm, Form
from backbud_grammar.items import DetailItem, read_item_list
from backbud_grammar.kinds import KINDS
from backbud_grammar.measures import Measure
from backbud_grammar.outline import Known
from backbud_grammar.own_words import runs_in
from backbud_grammar.parse import Details
from backbud_grammar.problems import Flaw, Misread
from backbud_grammar.syntax import Act, Block, Card, CardLine, Detail, Page

TokenSort = Literal[
    "date", "weather", "handle", "name", "keyword", "act", "label", "word", "part", "measure",
    "quoted", "own", "prose", "comment", "kind",
]  # fmt: skip
_WORD = re.compile(r"[^\s,]+")
_KEYWORD = re.compile(r"(?i)(?<![^\s,])(?:all|in|of|except)(?![^\s,])")


class Speech(Struct, frozen=True):
    """What the words of a journal are read by: its acts and details, and the keeper's own words."""

    details: Details
    own: OwnWords = NO_OWN_WORDS
    southern: bool = False

    @property
    def acts(self) -> Mapping[str, ActForm]:
        return self.details.acts

    def form(self, word: str) -> ActForm | None:
        return self.acts.get(word) or self.acts.get(word.casefold())


def plain_speech() -> Speech:
    """The language as it is, before any journal was read."""
    return Speech(Details(by_word(ACTS)))


class Token(Struct, frozen=True):
    """A word or a few of a text, on one line (0 first). `value`: the handle, act or own word that
    it names; `about`: what an own word means, the kinds a handle may be of. `new`: it is named
    there for the first time, on its card."""

    line: int
    column: int
    text: str
    sort: TokenSort
    value: str = ""
    measure: Measure | None = None
    about: str = ""
    new: bool = False

    @property
    def end(self) -> int:
        return self.column + len(self.text)


def token_at(
    piece: TextPiece, text: OpenText, speech: Speech, line: int, column: int
) -> Token | None:
    """The token that a character is in, or that ends just before it."""
    found = [one for one in tokens_of(piece, text, speech) if one.line == line]
    inside = [one for one in found if one.column <= column < one.end]
    before = [one for one in found if one.end == column]
    # A handle in prose is both: the shorter one is meant.
    return min(inside or before, key=lambda one: len(one.text), default=None)


def tokens_of(piece: TextPiece, text: OpenText, speech: Speech) -> list[Token]:
    """Every token of a page or card, in order."""
    section = piece.section
    found = [*_comments(piece, text)]
    day: date | None = None
    if isinstance(section, Page):
        found += _head(section, piece.first)
        day = _day(section.date, speech.southern)
    elif isinstance(section, Card):
        found += _card(section, piece, text)
    for block in section.blocks:
        found += _subjects(block, piece.first, speech)
        for act in block.acts:
            found += _act(act, day, piece.first, text, speech)
    return sorted(found, key=lambda one: (one.line, one.column, -len(one.text)))


def _day(written: str, southern: bool) -> date | None:
    try:
        return read_date(written, southern).first
    except Misread:
        return None


def _comments(piece: TextPiece, text: OpenText) -> Iterator[Token]:
    for number in range(piece.first, piece.last + 1):
        line = text.line(number)
        body = line.lstrip()
        if body.startswith("#"):
            yield Token(number, len(line) - len(body), body.rstrip(), "comment")


# ------------------------------------------------------------------ pages


def _head(page: Page, first: int) -> Iterator[Token]:
    yield Token(first, 0, page.date, "date", page.date)
    for start, piece in part_at_commas(page.weather):
        at, before = page.weather_column - 1 + start, ""
        for item in _items(piece):
            column = at + item.offset
            if item.measure is not None:
                yield Token(first, column, piece[item.offset : item.stop], "measure", "",
                            item.measure)  # fmt: skip
            elif before == "at":
                yield Token(first, column, item.text, "handle", item.text, about="place")
            else:
                yield Token(first, column, item.text, "weather")
            before = item.text.casefold()


def _subjects(block: Block, first: int, speech: Speech) -> Iterator[Token]:
    if block.subjects:
        yield from tokens_of_subjects(block.subjects, first + block.line, speech)


def tokens_of_subjects(text: str, line: int, speech: Speech) -> Iterator[Token]:
    """The tokens of a subject line."""
    read = speech.details.subjects(text)
    taken: set[int] = set()
    if isinstance(read, Flaw):
        for found in _WORD.finditer(text):
            if not _KEYWORD.fullmatch(found[0]):
                yield Token(line, found.start(), found[0], "handle", found[0])
    else:
        for item in (*read.chosen, *read.left_out):
            if item.by == "all":
                continue
            # Words of a kind stand as they are written, blanks and all.
            length = len(item.words)
            taken |= set(range(item.offset, item.offset + length))
            written = text[item.offset : item.offset + length]
            about = {"in": "place", "of": "person"}.get(item.by, "")
            sort: TokenSort = "name" if item.by == "kind" else "handle"
            yield Token(line, item.offset, written, sort, item.words, about=about)
    for found in _KEYWORD.finditer(text):
        if found.start() not in taken:
            yield Token(line, found.start(), found[0], "keyword")


def _act(act: Act, day: date | None, first: int, text: OpenText, speech: Speech) -> Iterator[Token]:
    yield from _remarks(act, first, text, speech)
    table = speech.own.on(day) if day is not None and speech.own.words else None
    known = Known.of(speech.acts) if table is not None else None
    runs = runs_in(act, table, known) if table is not None and known is not None else []
    lead = act.text_column - act.column
    for at, written, meaning in runs:
        line, column = act.place_of(at - lead) if at >= lead else (act.line, act.column + at)
        yield Token(first + line, column - 1, written, "own", written, about=meaning)
    form = speech.form(act.word)
    if form is not None:
        yield Token(first + act.line, act.column - 1, act.word, "act", form.word)
    if form is None or form.prose:
        return
    if runs:
        yield from _measures(act, first)
        return
    read = speech.details.of(form, act.text, hints=False)
    if read.named:
        word = act.text.split(None, 1)[0].rstrip(",")
        line, column = act.place_of(0)
        yield Token(first + line, column - 1, word, "act", read.named)
    named = speech.form(read.named) if read.named else None
    forms = (*form.forms, *(named.forms if named is not None else ()))
    for detail, start in zip(read.details, read.starts, strict=True):
        yield from _detail(detail, start, act, first, forms)


def _measures(act: Act, first: int) -> Iterator[Token]:
    for start, piece in part_at_commas(act.text):
        for item in _items(piece):
            if item.measure is not None:
                yield _placed(act, first, start + item.offset, piece[item.offset : item.stop],
                              "measure", measure=item.measure)  # fmt: skip


def _placed(
    act: Act | CardLine, first: int, offset: int, text: str, sort: TokenSort, value: str = "",
    measure: Measure | None = None, about: str = "",
) -> Token:  # fmt: skip
    line, column = act.place_of(offset)
    return Token(first + line, column - 1, text, sort, value, measure, about)


def _detail(
    detail: Detail, start: int, act: Act | CardLine, first: int, forms: tuple[Form, ...]
) -> Iterator[Token]:
    begin = start + detail.offset
    written = act.text[begin : begin + detail.length]
    label = _label(written, forms, detail.name)
    if label:
        yield _placed(act, first, begin, label, "label", detail.name)
    form = next((one for one in forms if one.name == detail.name and one.refers), None)
    in_part = False
    for item in _items(written):
        if item.offset < len(label):
            continue
        at, piece = begin + item.offset, written[item.offset : item.stop]
        if detail.part and item.sort == "word" and item.text.casefold() == "on":
            in_part = True
            yield _placed(act, first, at, piece, "keyword")
        elif in_part:
            yield _placed(act, first, at, piece, "part", detail.part)
        elif item.measure is not None:
            yield _placed(act, first, at, piece, "measure", measure=item.measure)
        elif item.sort == "date":
            yield _placed(act, first, at, piece, "date", piece)
        elif item.sort == "quoted":
            yield _placed(act, first, at, piece, "quoted")
        elif detail.handle and item.text.casefold() == detail.handle.casefold():
            about = " ".join(form.refers) if form is not None else ""
            yield _placed(act, first, at, piece, "handle", item.text, about=about)
        else:
            yield _placed(act, first, at, piece, "word")


def _label(written: str, forms: tuple[Form, ...], name: str) -> str:
    """The label that a detail begins with, as it is written."""
    folded = written.casefold()
    labels = [label for form in forms if form.name == name for label in form.labels]
    fitting = [one for one in labels if f"{folded} ".startswith(f"{one.casefold()} ")]
    return written[: max(map(len, fitting), default=0)]


def _items(text: str) -> list[DetailItem]:
    try:
        return read_item_list(text)
    except Misread:
        return []


def _remarks(act: Act, first: int, text: OpenText, speech: Speech) -> Iterator[Token]:
    """What is free words: the remark of an act, all of one that takes prose."""
    form = speech.form(act.word)
    last = act.seams[-1].line if act.seams else act.line
    prose = form is not None and form.prose
    for number in range(first + act.line, first + last + 1):
        line = text.line(number)
        at = len(line) - len(line.lstrip())
        if number == first + act.line:
            at = act.text_column - 1
        if not prose:
            found = REMARK.search(line, max(at - 1, 0))
            if found is None:
                continue
            at, prose = found.end(), True
        if line[at:].strip():
            yield Token(number, at, line[at:].rstrip(), "prose")


# ------------------------------------------------------------------ cards


def _card(card: Card, piece: TextPiece, text: OpenText) -> Iterator[Token]:
    first = piece.first
    yield Token(first, 0, text.line(first)[: len(card.kind)], "kind", card.kind)
    if card.handle:
        yield Token(
            first, card.column - 1, card.handle, "handle", card.handle, about=card.kind, new=True
        )
    for line in card.lines:
        yield from _card_line(card.kind, line, first)


def _card_line(kind: str, line: CardLine, first: int) -> Iterator[Token]:
    label = label_in(kind, line.text)
    written = line.text[: len(label)]
    value = line.text[len(label) :].lstrip()
    at = len(line.text) - len(value)
    form = next((one for one in KINDS[kind].forms if label in one.labels), None)
    if kind == "words" and form is None:
        run, gap, meaning = _parted(line.text)
        if run and meaning:
            yield _placed(line, first, 0, run, "own", run, about=meaning)
            yield _placed(line, first, gap, meaning, "word")
        return
    if label:
        yield _placed(line, first, 0, written, "label", label)
    if form is not None and form.prose:
        yield _placed(line, first, at, value.split("\n")[0], "prose")
    elif form is not None and (form.refers or form.name in ("formerly", "trees")):
        about = " ".join(form.refers) or ("tree" if form.name == "trees" else "")
        for found in _WORD.finditer(value):
            yield _placed(line, first, at + found.start(), found[0], "handle", found[0],
                          about=about)  # fmt: skip
    else:
        for item in _items(value):
            piece = value[item.offset : item.stop]
            sort: TokenSort = (
                "measure" if item.measure else "date" if item.sort == "date" else "word"
            )
            yield _placed(line, first, at + item.offset, piece, sort, measure=item.measure)


_GAP = re.compile(r"[ \t]{2,}|\t")


def _parted(text: str) -> tuple[str, int, str]:
    """The keeper's words, where their meaning begins, and it."""
    gap = _GAP.search(text)
    return (text[: gap.start()], gap.end(), text[gap.end() :].strip()) if gap else (text, 0, "")
