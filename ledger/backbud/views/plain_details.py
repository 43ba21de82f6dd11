"""Leaves of a line's details what is written in words of the language, which name nobody."""

from __future__ import annotations

from collections.abc import Collection
from itertools import chain

from backbud_grammar.details import part_at_commas
from backbud_grammar.forms import ANY_WORDS, ActForm, Form
from backbud_grammar.handles import folded_words
from backbud_grammar.measures import BY_WRITING


def _set(words: str) -> frozenset[str]:
    return frozenset(words.split())


_BETWEEN = _set(
    "a all and around at both by down each for from half in into its less more of off on one or "
    "per round same some the then to together two up with x"
)
# The trade's words for the parts of a tree; what else a part is called is the keeper's own.
_PARTS = _set(
    "apex back base bottom branch branches bud buds candle candles canopy centre crown crowns "
    "deadwood first fifth flush fourth front fruit half heart high higher inner inside jin key "
    "leader leaf leaves left line long low lower lowest main middle nebari needle needles new "
    "old outer outside pad pads primary right ring root roots second secondary shari shoot shoots "
    "short side sixth sub tertiary third thick thin tip tips top tree trunk trunks twig twigs "
    "uppermost upper whole wire wires tie ties guy guys graft layer strength drainage pests "
    "n ne e se s sw w nw"
)
_UNITS = frozenset(chain.from_iterable(folded_words(unit) for unit in BY_WRITING)) - frozenset({""})


class _Vocabulary:
    """The words that an act's details may be written with, and the labels of its free words."""

    def __init__(self, *rows: ActForm) -> None:
        forms = [form for row in rows for form in row.forms]
        closed = [word for form in forms if form.words != ANY_WORDS for word in form.words]
        labels = [label for form in forms for label in form.labels]
        acts = [word for row in rows for word in (row.word, row.bare, *row.also)]
        self.words = frozenset(chain.from_iterable(map(folded_words, (*closed, *labels, *acts))))
        self.free = tuple(tuple(folded_words(label)) for form in forms if _is_free(form)
                          for label in form.labels)  # fmt: skip


_KNOWN: dict[tuple[str, str], tuple[ActForm, ActForm, _Vocabulary]] = {}


def plain_details(row: ActForm, named: ActForm, text: str, handles: Collection[str]) -> str:
    """The details of an act without every piece that holds a word that is not the language's.

    `named`: the row of the act that a plan speaks of. `handles`: words of handles that may be read.
    """
    vocabulary = _vocabulary(row, named)
    pieces = (_piece(piece, vocabulary, handles) for _, piece in part_at_commas(text))
    return ", ".join(filter(None, pieces))


def is_part_of_trade(part: str) -> bool:
    """Whether a part of a tree is called by the trade's words alone."""
    return all(word in _PARTS or word in _BETWEEN or word.isdigit() for word in folded_words(part))


def _piece(piece: str, vocabulary: _Vocabulary, handles: Collection[str]) -> str:
    every = folded_words(piece)
    if any(tuple(every[: len(label)]) == label for label in vocabulary.free if label):
        # A number behind the label of free words may be anybody's.
        is_plain = all(word in vocabulary.words or word in _BETWEEN for word in every)
        return piece if is_plain else ""
    head, on, part = piece.partition(" on ")
    if piece.startswith("on "):
        head, on, part = "", "on ", piece[3:]
    if not all(_is_known(word, vocabulary, handles) for word in folded_words(head)):
        return ""
    return f"{head}{on}{part}" if on and is_part_of_trade(part) else head


def _is_known(word: str, vocabulary: _Vocabulary, handles: Collection[str]) -> bool:
    return (
        word in vocabulary.words
        or word in _BETWEEN
        or word in _UNITS
        or word in _PARTS
        or word in handles
        or _is_number(word)
    )


def _is_number(word: str) -> bool:
    """A number, or one with its unit behind it: 7, 3mm."""
    digits = word.rstrip("abcdefghijklmnopqrstuvwxyzµ²³")
    return digits.isdigit() and (word == digits or word[len(digits) :] in _UNITS)


def _vocabulary(row: ActForm, named: ActForm) -> _Vocabulary:
    known = _KNOWN.get((row.word, named.word))
    if known is None or known[0] is not row or known[1] is not named:
        known = _KNOWN[row.word, named.word] = (row, named, _Vocabulary(row, named))
    return known[2]


def _is_free(form: Form) -> bool:
    return form.words == ANY_WORDS or form.prose
