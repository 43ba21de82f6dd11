"""Reading one detail of an act: its words against the forms that the act takes.

The words of a detail may stand in any order where that stays clear; the longest known label wins.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from msgspec import Struct

from backbud_grammar.accept import thousands
from backbud_grammar.act_words import as_detail
from backbud_grammar.choose import labelled, likely, without_share
from backbud_grammar.fit import fit
from backbud_grammar.forms import Form
from backbud_grammar.hints import error_of, slip_in
from backbud_grammar.items import DetailItem, extent, is_plain_number, read_item_list
from backbud_grammar.lexicon import LONGEST_UNCUT, Lexicon, lexicon_of
from backbud_grammar.problems import Flaw, Misread
from backbud_grammar.syntax import Detail


class Reading(Struct, frozen=True, array_like=True, gc=False):
    """What one piece between commas was read as: its details, or the flaw it has."""

    details: tuple[Detail, ...] = ()
    flaw: Flaw | None = None


def part_at_commas(text: str) -> list[tuple[int, str]]:
    """Part the details of an act at comma and space, outside double quotes.

    >>> part_at_commas('same pot, 2,5 cm off below')
    [(0, 'same pot'), (10, '2,5 cm off below')]
    """
    pieces: list[tuple[int, str]] = []
    start, quoted = 0, False
    if '"' not in text and "\t" not in text and not text.endswith(","):
        # The common case, and many times faster.
        if "," not in text:
            bare = text.lstrip()
            return [(len(text) - len(bare), bare.rstrip())]
        for piece in text.split(", "):
            bare = piece.lstrip()
            pieces.append((start + len(piece) - len(bare), bare.rstrip()))
            start += len(piece) + 2
        return pieces
    for i, char in enumerate(text):
        if char == '"' and (quoted or not text[i - 1 : i].isdigit()):
            # Right behind a number it is inches, unless it closes a quotation.
            quoted = not quoted
        elif char == "," and not quoted and text[i + 1 : i + 2] in ("", " ", "\t"):
            pieces.append((start, text[start:i]))
            start = i + 1
    pieces.append((start, text[start:]))
    out = []
    for offset, piece in pieces:
        bare = piece.lstrip()
        out.append((offset + len(piece) - len(bare), bare.rstrip()))
    return out


def read_detail(text: str, lexicon: Lexicon, *, hints: bool = True) -> Reading:
    """Read one comma-free detail; a Flaw where it is not understood.

    `hints`: whether to seek what was meant, which takes far longer than all else.
    """
    if not text:
        return Reading(
            flaw=Flaw(
                "empty-detail",
                0,
                0,
                1,
                "nothing stands behind this comma",
                "Take the comma out, or say what belongs here.",
            )
        )
    try:
        return Reading(read_items(read_item_list(text), lexicon))
    except Misread as error:
        if error.code in ("unknown-detail", "unknown-word"):
            error = slip_in(text, error)
        hint = error.hint if hints else ""
        return Reading(
            flaw=Flaw(error.code, 0, error.offset, error.length or len(text), error.message, hint)
        )


# In a line of other words one piece is tried as a detail of many acts, and again for its hint.
@lru_cache(maxsize=4096)
def details_of(text: str, lexicon: Lexicon) -> tuple[Detail, ...]:
    """The details that a comma-free text is; none where it is not understood, and no hint is
    sought then, which takes far longer than to read it."""
    try:
        items = read_item_list(text)
    except Misread:
        return ()
    details: list[Detail] = []
    for phrase in _phrases(items, lexicon):
        read = _as_details(phrase, lexicon)
        if read is None:
            return ()
        details += read
    return tuple(details)


def read_items(
    items: Sequence[DetailItem], forms: tuple[Form, ...] | Lexicon
) -> tuple[Detail, ...]:
    """Read one comma-free detail; Misread says what was not understood and where."""
    lexicon = forms if isinstance(forms, Lexicon) else lexicon_of(forms)
    details: list[Detail] = []
    for phrase in _phrases(items, lexicon):
        details += _read_phrase(phrase, lexicon)
    return tuple(details)


def _phrases(items: Sequence[DetailItem], lexicon: Lexicon) -> list[list[DetailItem]]:
    """Begin a new phrase at each preposition that opens a form of this act.

    Free words go on over a preposition behind which nothing stands that its form could take.
    """
    openers = lexicon.openers
    words = [item.text.casefold() if item.sort == "word" else "" for item in items]
    if openers.isdisjoint(words[1:]):
        return [list(items)]
    starts = [
        i
        for i, word in enumerate(words)
        if i and word in openers and not _inside_phrase(words, i, lexicon.long_phrases)
    ]
    phrases = [list(items[a:b]) for a, b in zip([0, *starts], [*starts, len(items)], strict=True)]
    out = phrases[:1]
    for phrase in phrases[1:]:
        if _goes_on(out[-1], phrase, lexicon):
            out[-1].extend(phrase)
        else:
            out.append(phrase)
    return out


def _inside_phrase(words: Sequence[str], i: int, phrases: frozenset[tuple[str, ...]]) -> bool:
    return any(
        i >= at and tuple(words[i - at : i - at + len(phrase)]) == phrase
        for phrase in phrases
        for at in range(len(phrase))
    )


def _goes_on(above: Sequence[DetailItem], phrase: Sequence[DetailItem], lexicon: Lexicon) -> bool:
    """Whether a phrase is only more of the free words before it."""
    over = lexicon.opened_by(above) or [form for form in lexicon.bare if form.free]
    if not any(form.free for form in over):
        return False
    forms = lexicon.opened_by(phrase)
    return not any(form not in over and _could_take(form, phrase[1:]) for form in forms)


def _could_take(form: Form, items: Sequence[DetailItem]) -> bool:
    if form.free or form.reader:
        return bool(items)
    words = sum(item.sort == "word" for item in items)
    return words == 1 if form.refers else words < len(items)


def _read_phrase(items: list[DetailItem], lexicon: Lexicon) -> list[Detail]:
    read = _as_details(items, lexicon)
    if read is None:
        raise error_of(items, lexicon)
    return read


def _as_details(items: list[DetailItem], lexicon: Lexicon) -> list[Detail] | None:
    """Read a phrase as one detail, or as several that follow each other without a comma.

    Free words leave what looks like a measure to the other forms of the act, as long as one of
    them takes it: `for repotting 120 EUR`, but `with 5 cm mulch`. A bare number belongs to the
    words, `at Hall 2`; where the act takes one too, nobody can tell and it is a problem.
    """
    if lexicon.is_foreign(items):
        return None
    whole = _read_one(items, lexicon, 0)
    if whole is not None:
        return [whole]
    free = _opens_free(items, lexicon)
    for loose in (0, 1) if free and not lexicon.takes_number else (0,):
        read = _cut(items, lexicon, loose)
        if read is not None:
            return read
    if free and not _could_measure(items, lexicon):
        whole = _read_one(items, lexicon, 2)
        if whole is not None:
            return [whole]
    return None


def _could_measure(items: Sequence[DetailItem], lexicon: Lexicon) -> bool:
    """Whether a measure stands there that some form of the act takes."""
    sorts = {item.measure.sort for item in items if item.measure is not None}
    return ("number" in sorts and lexicon.takes_number) or not lexicon.sorts.isdisjoint(
        sorts - {"number"}
    )


def _opens_free(items: Sequence[DetailItem], lexicon: Lexicon) -> bool:
    text = f" {' '.join(item.text.casefold() for item in items)} "
    return any(
        padded in text and any(form.free for form in of) for padded, _, of, _ in lexicon.labels
    )


def _cut(items: list[DetailItem], lexicon: Lexicon, loose: int) -> list[Detail] | None:
    """Cut a phrase into details, the first as long as it can be; None where that fails."""
    count = len(items)
    if count > LONGEST_UNCUT:
        return None
    # What each tail is read as; each is tried once, from the last.
    tails: list[list[Detail] | None] = [None] * count + [[]]
    for start in range(count - 1, -1, -1):
        for end in range(count, start, -1):
            tail = tails[end]
            if tail is None or (end < count and _belongs(items[start:end], items[end], lexicon)):
                continue
            read = _read_one(items[start:end], lexicon, loose)
            if read is not None:
                tails[start] = [read, *tail]
                break
    names = [detail.name for detail in tails[0] or ()]
    # Neither two measures of one sort nor words that nobody knows follow without a comma.
    return tails[0] if len(set(names)) == len(names) else None


def _belongs(before: Sequence[DetailItem], item: DetailItem, lexicon: Lexicon) -> bool:
    """Whether no cut may stand here: in `1 200`, or between free words and a bare number."""
    return thousands(before[-1], item) or (is_plain_number(item) and _opens_free(before, lexicon))


def _read_one(items: list[DetailItem], lexicon: Lexicon, loose: int) -> Detail | None:
    """Read all the items as one detail; None where no form takes them."""
    rest, share = without_share(items)
    forms, values = labelled(rest, lexicon) or (likely(lexicon.bare, rest), rest)
    for form in forms:
        try:
            detail = fit(form, values, loose)
        except Misread:
            continue
        start, length = extent(items)
        return Detail(
            as_detail(form.name),
            detail.words,
            detail.measure,
            detail.handle,
            "",
            detail.date,
            share,
            start,
            length,
        )
    return None
