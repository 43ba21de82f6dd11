"""Tells of the words behind an act, one by one, that they bear on nothing it says and are kept.

What it says is the same as what reading the line says, and many times quicker. It says nothing of
words that an act's table, a way of saying a detail, a limiter, a part of the tree or a handle could
have to do with, nor of such as are like one of them in letters.
"""

from __future__ import annotations

from typing import NamedTuple

from msgspec import Struct

from backbud_grammar.elsewhen import ELSEWHEN_PATTERNS
from backbud_grammar.forms import ActForm
from backbud_grammar.hints import PART_WORDS
from backbud_grammar.lexicon import SHARES
from backbud_grammar.limiters import LIMITING
from backbud_grammar.sayings import MANY_MEANINGS, saying_pattern
from backbud_grammar.scribbles.asides import WETS_PATTERN, weather_may_do_it
from backbud_grammar.scribbles.details_said import ways_said
from backbud_grammar.scribbles.empty_talk import EMPTY_WORDS
from backbud_grammar.scribbles.hearsay import HEARSAY_PATTERNS
from backbud_grammar.scribbles.named import Handles
from backbud_grammar.scribbles.needed import NeededWords, needed_words, written_out
from backbud_grammar.scribbles.one_thing import names_one_thing
from backbud_grammar.scribbles.opener import Opener
from backbud_grammar.scribbles.placed import PLACE_WORDS
from backbud_grammar.scribbles.plain import ASIDE, is_filler, plain_words
from backbud_grammar.scribbles.reads import OF_ITS_OWN, PieceReader
from backbud_grammar.scribbles.spelled import is_spelled_out, without_idle_words
from backbud_grammar.scribbles.talked import TALK_PATTERNS
from backbud_grammar.scribbles.turning_words import TURNING_PATTERNS, TURNING_WORDS
from backbud_grammar.scribbles.turns import TURN_PATTERNS
from backbud_grammar.ways_compiled import compiled_way

# A line of more words is prose.
_LONGEST = 200
# No block of a hand has more lines.
_MOST_RECENT = 1000
# What parts a piece, joins two, or is a way by itself: `in, north bench`.
_JOINING = plain_words("and then also in out back")
# What these say hangs on more than single words.
_NEVER = ("moved", "worked", "staged", "potted-on", "billed", "credited")
# What words may say beside any act: another day or other hands, how it went, who did it, and why.
BESIDE_ANY = (
    *ELSEWHEN_PATTERNS,
    ASIDE.pattern,
    *TALK_PATTERNS,
    *TURN_PATTERNS,
    *HEARSAY_PATTERNS,
    *TURNING_PATTERNS,
    WETS_PATTERN,
)


class _Word(NamedTuple):
    """What a word could have to do with: the openings, and the ways of saying a detail of the act
    or something beside it; and whether such a way, or a detail, could hold it at all."""

    openings: tuple[int, int, int]
    ways: tuple[int, int, int]
    is_known: bool


class _OfAct(Struct):
    """What is known of an act as it is written: how its details are said, as patterns, and the
    words of such as can be written out; what may stand beside it, or is a turn of speech; what is
    needed for both; and the words behind it so far."""

    said: tuple[str, ...]
    written_out: frozenset[str]
    beside: tuple[str, ...]
    ways: NeededWords
    # What the act word has of what openings and ways need.
    begins: tuple[tuple[int, int, int], tuple[int, int, int]]
    words: dict[str, _Word | None]


class WordsBeside:
    """Looks at the words behind acts, each once."""

    def __init__(self, pieces: PieceReader, opener: Opener, handles: Handles) -> None:
        self._pieces, self._opener = pieces, opener
        self._acts = pieces.details.acts
        self._named = frozenset(word for name in handles.written for word in name.split())
        self._of_acts: dict[str, _OfAct | None] = {}
        self._recent: dict[tuple[str, str], bool] = {}

    def bear_on_nothing(self, form: ActForm, word: str, text: str) -> bool:
        """Whether the words behind an act are kept as they stand, and the act is done without them;
        False where that is not sure. `word`: the act as it is written."""
        of_act = self._of_acts.get(word, _NEW_ACT)
        if of_act is _NEW_ACT:
            of_act = self._of_acts[word] = self._act(form, word)
        if of_act is None or not text or len(text) > _LONGEST:
            return False
        known = of_act.words
        words = text.split(" ")
        (first, second, third), (one, two, three) = of_act.begins
        all_known = True
        for said in words:
            of_word = known.get(said, _NEW)
            if of_word is _NEW:
                of_word = known[said] = self._word(of_act, form, said)
            if of_word is _CLEAR:
                all_known = False
                continue
            if of_word is None:
                return False
            of_openings, of_ways, is_known = of_word
            first |= of_openings[0]
            second |= of_openings[1]
            third |= of_openings[2]
            one |= of_ways[0]
            two |= of_ways[1]
            three |= of_ways[2]
            all_known = all_known and is_known
        if all_known or (one & two & three and _is_said(of_act, form, word, text)):
            return False
        if first & second & third and self._is_opened_otherwise(form, word, text):
            return False
        return not (
            EMPTY_WORDS.issuperset(words)
            or names_one_thing(text)
            or self._pieces.is_like_a_detail(form, words)
        )

    def are_kept(self, form: ActForm, word: str, text: str) -> bool:
        """`bear_on_nothing`, remembered: it is asked of a line by who looks for sound ones, and by
        who hears the others of a block."""
        known = self._recent.get((word, text))
        if known is None:
            if len(self._recent) > _MOST_RECENT:
                self._recent.clear()
            known = self._recent[word, text] = self.bear_on_nothing(form, word, text)
        return known

    def _is_opened_otherwise(self, form: ActForm, word: str, text: str) -> bool:
        """Whether the line begins with more than its act word: `watered well`."""
        return self._opener.opened(f"{word} {text}", None) != (word, form, text, "")

    def _act(self, form: ActForm, word: str) -> _OfAct | None:
        """None where words behind the act may be told in more ways than can be looked at here."""
        lexicon = self._pieces.details.lexicon(form)
        if (
            form.prose
            or form.names_act
            or form.bearing == "ends"
            or form.undone_by
            or form.word in _NEVER
            or form.word in MANY_MEANINGS
            or word in form.bare_words
            or not (word.isascii() and word.islower())
            or " " in word
            or is_spelled_out(word)
            or any(one.reads_anything for one in form.forms)
            or lexicon.takes_any
            or self._pieces.of_act(form).is_open
        ):
            return None
        every = ways_said(form.word, self._pieces.language)
        # Those that are a few texts and no more hold no other word than these.
        words = frozenset(
            word for one in every for text in written_out(one) for word in text.split()
        )
        said = tuple(one for one in every if not written_out(one))
        beside = (*BESIDE_ANY, *filter(None, [saying_pattern(form.word)]))
        ways = needed_words((*said, *beside))
        begins = self._opener.needed.of_words(word), ways.of_words(word)
        return _OfAct(said, words, beside, ways, begins, {})

    def _word(self, of_act: _OfAct, form: ActForm, word: str) -> _Word | None:
        """None where a word may have to do with the act in a way that hangs on those around it."""
        pieces = self._pieces
        lexicon, phrases, fills = pieces.details.lexicon(form), pieces.of_act(form), is_filler(word)
        if (
            not (word.isascii() and word.isalpha() and word.islower())
            or word in LIMITING
            or word in _JOINING
            or word in TURNING_WORDS
            or word in SHARES
            or word in PART_WORDS
            or word in PLACE_WORDS
            or word in OF_ITS_OWN
            or word in self._acts
            or word in self._named
            or word in phrases.words
            or word in (lexicon.own_words if fills else lexicon.words)
            or is_spelled_out(word)
            or pieces.kind_of(word)
            or pieces.is_slip(form, word)
        ):
            return None
        openings, ways = self._opener.needed.of_word(word), of_act.ways.of_word(word)
        is_known = word in of_act.written_out or pieces.is_known(form, word)
        found = _Word(openings, ways, is_known)
        return _CLEAR if found == _CLEAR else found


def _is_said(of_act: _OfAct, form: ActForm, word: str, text: str) -> bool:
    """Whether a text, or what is left of it without fillers, is a detail said in another way, or
    holds with the act word before it what may stand beside the act."""
    bare, line = "", f"{word} {text}"
    for at in of_act.ways.may_fit(line):
        if at >= len(of_act.said):
            pattern = of_act.beside[at - len(of_act.said)]
            if pattern is WETS_PATTERN:
                if weather_may_do_it(form, text):
                    return True
                continue
            # What begins a clause stands behind the act word, too: `defoliated someday`.
            beside = compiled_way(pattern)
            if beside.search(line) or beside.search(text):
                return True
            continue
        bare = bare or without_idle_words(text, is_filler)[0]
        way = compiled_way(of_act.said[at])
        if way.fullmatch(text) or (bare != text and way.fullmatch(bare)):
            return True
    return False


# A word that has nothing to do with anything.
_CLEAR = _Word((0, 0, 0), (0, 0, 0), is_known=False)
# Say of an act and of a word that they were never looked at.
_NEW_ACT = _OfAct((), frozenset(), (), NeededWords(()), ((0, 0, 0), (0, 0, 0)), {})
_NEW = _Word((-1, -1, -1), (-1, -1, -1), is_known=True)
