"""The forms of an act or a card, sorted so that a detail quickly finds those it may be."""

from __future__ import annotations

from collections.abc import Sequence

from backbud_grammar.forms import ANY_WORDS, Form
from backbud_grammar.items import DetailItem

# After one of these a reference or a purpose follows, and a new detail begins without a comma.
PREPOSITIONS = frozenset(
    ("into", "from", "to", "for", "by", "as", "at", "in", "with", "against", "of", "until", "mix")
)

SHARES = ("each", "together")

NO_HANDLES = PREPOSITIONS | {"on", "and", *SHARES}

# Longer ones are not cut into details that follow each other without a comma.
LONGEST_UNCUT = 12
REMARK_HINT = "Free words go after “ -- ”."


class Lexicon:
    """What can be written of an act or on a card's line: its forms, sorted for reading."""

    def __init__(self, forms: Sequence[Form]) -> None:
        self.forms = tuple(forms)
        self.bare = tuple(form for form in forms if not form.labels)
        self.with_part = frozenset(form.name for form in forms if form.part)
        self.single = frozenset(form.name for form in forms if _single(form))
        by_label: dict[str, list[Form]] = {}
        for form in forms:
            for label in form.labels:
                by_label.setdefault(label.casefold(), []).append(form)
        phrases = [
            word.casefold() for form in forms for word in form.words if form.words is not ANY_WORDS
        ]
        # Each label: padded for the search, its words, its forms, and the longer phrases of a
        # closed list that hold it ("by" in "by hand").
        self.labels: list[tuple[str, tuple[str, ...], list[Form], list[str]]] = [
            (
                f" {label} ",
                tuple(label.split()),
                of,
                [f" {p} " for p in phrases if len(p) > len(label) and f" {label} " in f" {p} "],
            )
            for label, of in by_label.items()
        ]
        self.sorts = frozenset(sort for form in forms for sort in form.sorts)
        self.openers = frozenset(label for label in by_label if label in PREPOSITIONS)
        self.long_phrases = frozenset(
            tuple(phrase.split()) for phrase in (*by_label, *phrases) if " " in phrase
        )
        # Forms that contradict each other, and bare measures that may have a part.
        self.not_with = [(form.name, other) for form in forms for other in form.not_with]
        self.placed = frozenset(form.name for form in self.bare if form.part and form.bound)
        # With none of these, and nothing twice, an act contradicts itself in nothing.
        self.watched = frozenset(
            [name for name, _ in self.not_with] + (["part"] if self.placed else [])
        )
        self.label_words = frozenset(words for _, words, _, _ in self.labels)
        # Whether a bare number says something to this act by itself.
        self.takes_number = any(
            {"number", "money"} & set(form.sorts) for form in self.bare if not form.worded
        )
        self.label_heads = frozenset(words[0] for words in self.label_words)
        self.longest_label = max(map(len, self.label_words), default=0)
        # By these it is quick to tell what cannot be read: every word that is none of free ones.
        self.own_words = frozenset[str]().union(
            *(label for label in self.label_words), *map(str.split, phrases)
        )
        self.words = _BESIDE | self.own_words
        # Behind one of these any words may stand.
        self._free_heads = frozenset(
            label.casefold().split()[0]
            for form in forms
            if _takes_any(form)
            for label in form.labels
        )
        self._is_open = any(_takes_any(form) and not form.labels for form in forms)
        # For each of these a handle may stand; where a bare form takes one, one more.
        self._before_handle = frozenset(
            label.casefold().split()[-1] for form in forms if form.refers for label in form.labels
        )
        self._bare_handles = sum(bool(form.refers) for form in self.bare)
        # Whether a word that is none of these may be read by itself.
        self.takes_any = self._is_open or self._bare_handles > 0

    def is_foreign(self, items: Sequence[DetailItem]) -> bool:
        """Whether a word stands there that no form could take, so that nothing need be tried."""
        words = [item.text.casefold() if item.sort == "word" else "" for item in items]
        if self._is_open or not self._free_heads.isdisjoint(words):
            return False
        unknown = sum(bool(word) and word not in self.words for word in words)
        labels = sum(word in self._before_handle for word in words)
        return unknown > labels + self._bare_handles

    def said(self, name: str) -> str:
        """How a message speaks of a form."""
        return next(
            (f"“{form.labels[0]}”" for form in self.forms if form.name == name and form.labels),
            "this",
        )

    def opened_by(self, items: Sequence[DetailItem]) -> list[Form]:
        """The forms whose label stands first among the items."""
        words = tuple(item.text.casefold() for item in items[: self.longest_label])
        return [
            form for _, label, of, _ in self.labels if words[: len(label)] == label for form in of
        ]


# Words that stand beside a measure or a handle: a count, a number in words.
_BESIDE = NO_HANDLES | frozenset(("x", "×", "the", "one", "two", "three", "four", "five", "six"))


def _takes_any(form: Form) -> bool:
    return form.words == ANY_WORDS or form.prose or form.free_label or bool(form.reader)


def _single(form: Form) -> bool:
    """Whether a second detail of this form would be dropped by whoever asks for the first."""
    carries = bool(form.sorts or form.refers or form.date or form.reader)
    return carries and not (form.several or form.part or form.free)


_LEXICONS: dict[int, Lexicon] = {}


def lexicon_of(forms: tuple[Form, ...]) -> Lexicon:
    """Return the lexicon of a lasting tuple of forms, as the tables hold them."""
    # Hashing so many values takes longer than reading a detail. The lexicon keeps the tuple
    # alive, so its id names no other.
    lexicon = _LEXICONS.get(id(forms))
    if lexicon is None:
        lexicon = _LEXICONS[id(forms)] = Lexicon(forms)
    return lexicon
