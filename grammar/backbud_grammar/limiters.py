"""The words that limit or take back what an act says, and the first of them in a text."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache

from backbud_grammar.act_words import ActWord
from backbud_grammar.forms import Form


def word_set(words: str) -> frozenset[str]:
    """The words of a text."""
    return frozenset(words.split())


# What takes back the words before or behind it.
DENIES = word_set(
    "not cannot never except excepting excluding exc excl apart but yet rest partly remaining"
)
# What makes less of an act than it says, or none of it yet.
LIMITS = DENIES | word_set(
    "only bar half off nearly almost hardly barely tried try trying wanted want wants "
    "should would could might maybe perhaps probably failed"
)
# What may limit it where it was not read; no word of a journal's own may hide one of these.
LIMITING = LIMITS | word_set(
    "if unless when "
    "no nor none nothing neither without next later soon tomorrow todo todo's need needs needed "
    "postponed cancelled canceled delayed forgot forgotten wait waits waiting til till until due "
    "will won't would overdue planned ordered booked considered considering intend intended "
    "suggested advised supposed refused declined "
    # Of who thinks in Dutch or German.
    "nicht niet noch nog geen kein keine nie nooit morgen gestern gisteren bijna wird wordt"
)
# An act that puts on says the contrary beside one of these: `tie removed`.
REMOVED = word_set(
    "off removed remove gone out away taken took cut came loose loosened undone down "
    "broke broken snapped fell slipped split torn"
)
WORD = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*|\?")
NOT = ("n't", "n’t")
# It finds what is there, and takes nothing off.
LOOK: ActWord = "checked"
# What ends a tree is said of all of it: `died -- back on left 1` is said of a branch.
ENDS_OF_TREES: tuple[ActWord, ...] = ("died", "lost")
# A figure beside these may be how many of them went: `sold 10 @ 12 to Gil`.
GOES_AWAY: tuple[ActWord, ...] = ("sold", "lent", "returned")


def says_off(forms: Iterable[Form]) -> frozenset[str]:
    """`off`, where the act itself says what came off: `pruned bits off` limits nothing."""
    says = any(
        "off" in phrase.split()
        for form in forms
        for phrase in (*form.labels, *form.words, form.name)
    )
    return frozenset({"off"}) if says else frozenset()


@lru_cache(4096)
def limiter_in(text: str) -> str:
    """The first word of a text that may limit or take back what an act says, or ""."""
    return first_limiter(WORD.findall(text), LIMITING)


def limiter_among(unread: Iterable[str], words: frozenset[str]) -> str:
    """The first of these words in runs that were not read, or ""."""
    return first_limiter([w for run in unread for w in WORD.findall(run)], words)


def first_limiter(said: Iterable[str], words: frozenset[str], *, question: bool = True) -> str:
    """The first of some words that is one of these, denies, or asks; "" where none does."""
    for word in said:
        folded = word.casefold()
        if folded in words or folded.endswith(NOT) or (question and word == "?"):
            return word
    return ""
