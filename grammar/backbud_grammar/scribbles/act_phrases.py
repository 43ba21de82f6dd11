"""Tells of each act what words and phrases its details may be made of."""

from __future__ import annotations

from collections.abc import Iterator

from backbud_grammar.forms import ANY_WORDS, ActForm
from backbud_grammar.problems import may_be_near, nearest
from backbud_grammar.scribbles.plain import plain_words

# How close a word must be to one of the act's own to be taken for a slip of the pen.
NEAR_WORD = 0.84
# Of so few letters too many words are alike.
LONGEST_SURE = 4
# They stand in many a sentence, and say nothing by themselves.
_SMALL = plain_words(
    "in to for of from with by at as on the off into and out all over up down no it time back not "
    "under half"
)


class ActPhrases:
    """What a detail of an act may be made of."""

    def __init__(self, form: ActForm) -> None:
        phrases = {
            phrase.casefold()
            for one in form.forms
            for phrase in (*one.labels, *(() if one.words == ANY_WORDS else one.words))
        }
        # Its labels and the phrases of its closed lists, with which a sentence may bear on it.
        self.phrases = frozenset(phrases - _SMALL)
        # By a length the phrases of about as many letters.
        self._about_as_long: dict[int, list[str]] = {}
        for one in sorted(self.phrases):
            for length in range(len(one) - 2, len(one) + 3):
                self._about_as_long.setdefault(length, []).append(one)
        # The words that they are made of, one of which each detail begins with.
        self.words = frozenset(word for one in phrases for word in _words_of(one)) | {"on"}
        # Whether a detail may begin with any word.
        self.is_open = any(
            one.free_label or (not one.labels and (one.words == ANY_WORDS or bool(one.reader)))
            for one in form.forms
        )

    def is_near(self, text: str) -> bool:
        """Whether a text in small letters may be a slip of the pen for one of the phrases."""
        about = self._about_as_long.get(len(text))
        if about is None or len(text) <= LONGEST_SURE:
            return False
        like = [
            one
            for one in about
            if (one[0] == text[0] or one[-1] == text[-1]) and may_be_near(text, one, NEAR_WORD)
        ]
        return bool(like and nearest(text, like, NEAR_WORD))


# By the id of a row, which the value keeps alive, so that it names no other: the tables are of
# every journal.
_PHRASES: dict[int, tuple[ActForm, ActPhrases]] = {}


def phrases_of(form: ActForm) -> ActPhrases:
    known = _PHRASES.get(id(form))
    if known is None:
        known = _PHRASES[id(form)] = form, ActPhrases(form)
    return known[1]


def _words_of(phrase: str) -> Iterator[str]:
    for word in phrase.split():
        yield word
        yield first_word(word)


def first_word(text: str) -> str:
    """The first word of a text up to a blank, in small letters."""
    return text.split(None, 1)[0].casefold()
