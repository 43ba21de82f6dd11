"""Tells whether a clause has no word of content: only such as bind others, ask, or say when.

Nothing in it says how a work was done, what was seen or who helped, so it can only be said of
whether, when or by whom it was done: `about to`, `had I time`, `May or June`.
"""

from __future__ import annotations

import re

from backbud_grammar.scribbles.plain import is_harmless, plain_words
from backbud_grammar.scribbles.turning_words import TURNING_WORDS, is_how_it_went

_JOINING = plain_words(
    "a an the this that these those some any every each both all most many much few several "
    "enough such other same own it him her us them me my your his its our their mine yours "
    "hers ours theirs one ones myself himself herself itself and or of to in on at by for "
    "from with without within about above across after against along among around as before "
    "behind below beside besides between beyond down during inside into like near off onto "
    "out over past round through throughout towards under up upon via than then there here "
    "now just only also too even still again very quite rather really so well back away more "
    "less later together almost way side mid end beginning start half done today tonight two "
    "three four five six first second third last once twice ago"
)
_TALK = plain_words(
    "i you he she we they who whom whose which what whatever whoever whichever how why when "
    "where whenever wherever however although though albeit despite nevertheless nonetheless "
    "otherwise because unless until till if whether while whereas since is are was were be "
    "been being am has have had having do does did doing will would shall should can could "
    "may might must ought need needs needed dare used go goes going went come comes coming "
    "came let lets let's get gets getting got know knows knew known think thinks thought "
    "believe believes believed hope hopes hoping hoped plan plans planning planned want wants "
    "wanted wanting wanna love mean means meaning meant try tries trying tried seem seems "
    "appear appears appeared happen happens happened ask asks asked asking tell tells told "
    "trust wonder decide decides decided wait waits waiting i'd i'll i've we'd we'll he'd "
    "he'll she'd she'll they'd they'll must've might've could've should've would've isn't "
    "wasn't aren't weren't not never no none neither nor nobody someone somebody anyone "
    "anybody everyone everybody something anything everything nothing thing things bother "
    "time times day days week weeks weekend month months year years hour hours minute minutes "
    "moment job jobs sometime elsewhere abroad absence arrival purchase sale prior bought "
    "received delivered supposed able yet"
)
_MONTHS = plain_words(
    "january jan february feb march april may june july august aug september sep sept october "
    "oct november nov december dec"
)
_OF_A_MONTH = frozenset({"early", "late"})
_SEASONS = plain_words("spring summer autumn winter")
_DAYS = plain_words("sat sun sunday saturday")
EMPTY_WORDS = _JOINING | _TALK | _MONTHS | _SEASONS | _DAYS | TURNING_WORDS
_SAYS = _TALK | _MONTHS | TURNING_WORDS
_TOKEN = re.compile(r"[^\W\d_]+(?:['’][^\W\d_]+)*")
_SIGNS = re.compile(r"[\d%\"]")


def is_empty_talk(clause: str) -> bool:
    """Whether no word of a clause is of content, and one at least says more than how it is bound.

    >>> is_empty_talk("had I time"), is_empty_talk("round it"), is_empty_talk("roots had time")
    (True, False, False)
    """
    words = [word.casefold().replace("’", "'") for word in _TOKEN.findall(clause)]
    return (
        ((not _SAYS.isdisjoint(words) and EMPTY_WORDS.issuperset(words)) or is_of_a_month(clause))
        and not _SIGNS.search(clause)
        and not is_harmless(clause)
        and not is_how_it_went(clause)
    )


def is_of_a_month(clause: str) -> bool:
    """Whether it names a month, and no content: `end of May`.

    >>> is_of_a_month("end of May"), is_of_a_month("had I time")
    (True, False)
    """
    words = {word.casefold() for word in _TOKEN.findall(clause)}
    return not _MONTHS.isdisjoint(words) and EMPTY_WORDS.issuperset(words - _OF_A_MONTH)
