"""Tells of words that turn what stands beside them: to another day, to an end, into a guess.

No act hides them: a clause that holds one is asked about, whatever else it says.
"""

from __future__ import annotations

import re
from functools import lru_cache

from backbud_grammar.hints import PART_WORDS
from backbud_grammar.limiters import WORD
from backbud_grammar.scribbles.hearsay import HEARSAY_WORDS, is_hearsay
from backbud_grammar.scribbles.turning_words import (
    BINDING_WORDS,
    TURNING_WORDS,
    is_how_it_went,
    is_left_open,
    is_of_another_tree,
    is_of_such_words,
    is_somebodys,
)
from backbud_grammar.ways_compiled import compiled_way

_DAYS = (
    r"(?<!since )(?<!from )\b(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri)(?:day)?\b"
    r"|(?<!since )\b(?:saturday|sunday)\b|\byesterday\b"
    r"|\b(?:last|next) (?:week|month|mon|tue|wed|thu|fri|sat|sun|spring|summer|autumn|fall|winter)\w*\b"
    r"|\b(?:in|within) (?:a few|a|an|one|two|three|four|five|six|ten|\d+) (?:d|days?|weeks?|months?)\b"
    r"|\b(?:days?|weeks?|months?) (?:later|before|after|earlier)\b|^day before\b"
    r"|^on sat$|\b(?:the other day|at the weekend|(?:this )?coming (?:week|weekend|winter|spring|summer|autumn)"
    r"|ages ago|before (?:my|the) holidays?|once (?:dry|warm|it)|new year|easter|starting)\b"
)
_ENDS = (
    r"\b(?:tree|trees|it|it['’]s|she|he|they|seedlings?|cuttings?|whips?|all|one|called)"
    r"(?: (?:is|was|are|were|all|now|quite|it|already|\d+))* dead\b"
    r"|\b(?:died|stolen|sold)\b|\b(?:came|comes|coming|called) for (?:it|her|him|them|his|the)\b"
    r"|\b(?:took|takes?|fetch(?:es|ed)?|carr(?:y|ied)) (?:it|her|him|them) (?:home|away|out|down|off|back|to)\b"
)
_GUESSES = (
    r"^(?:so )?(?:i|he|she|they|[^\W\d]+) (?:thinks?|reckons?|hopes?|hoped|guess(?:es)?|believes?)"
    r"(?: better| otherwise| so| i had| it was)?$|\b(?:hopefully|allegedly|supposedly)\b|^meant to\b|['’]s turn$"
    r"|^(?:all|it|they|them)(?: (?:of it|was|were|is|are))* (?:skipped|spared|untouched|let (?:go|grow|run|be))$"
    r"|^(?:bad|no) luck$|^(?:scratch|strike) that$|\b(?:void|mistake|error|pretend\w*|dreamt|dreamed|pending|cancelled)\b"
    r"|^(?:gave up|had to stop|undid|in progress|must remember|on the to-?do|leave alone|let go$)"
    r"|\bleave (?:it|her|him)? ?alone\b|^worth a (?:go|try)\b|^[^\W\d]+['’]s tree$"
    r"|^or so (?:i|he|she|they|we) |^(?:on order|out of stock|of stock|not in stock)$|\b(?:accidentally|by accident|by mistake)\b"
    r"|^(?:it |they |all )*(?:fell|dropped)(?: off| out| by (?:itself|themselves))*$|^(?:door|von|vom|van) (?:de[rn]?|het|een|dem|einem)? ?"
    r"|^(?:then |but |and )*(?:stopped|gave up|aborted|abandoned)(?: (?:it|again|half way|halfway|soon))*$"
    r"|\bsays? (?:he|she|they) did\b|^told [^\W\d]+ (?:weekly|daily|monthly)$"
)
# What is only wanted, thought of or to be bought.
_INTENTS = (
    r"^(?:still )?(?:to[ -]?do|someday|some day|one day|sometime(?: soon)?|some time|soon|shortly)$"
    r"|^(?:must |should |to |need to |have to )?(?:re-?order|order|buy|get)(?: in)?(?: some| it)?(?: more)?$"
    r"|^(?:i )?wish(?:ed)?(?: i| he| she| we| they)?(?: had| could| would)?$"
    r"|^(?:was |am |still |just )*(?:thinking|dreaming|considering)(?: (?:about|of|over))?(?: it)?$"
    r"|^(?:(?:a|the|my|his|good|nice|next|possible|likely) )*"
    r"(?:candidates?|ideas?|plans?|dreams?|wish(?:es)?|options?|proposals?|suggestions?)$"
    r"|^(?:all )?missed(?: it)?(?: again)?$|^needs (?:it|doing)$|^(?:due|overdue|wanted|waiting)$"
)
# Why it was not done is said as why it was: `too soft`. How it was before is neither.
_TOO = r"\btoo (?!.*\bbefore$)(?=[^\W\d])"
# What was put on and did not stay.
_UNDONE = (
    r"^(?:(?:has |had |it |all )*(?:broken|broke|snapped|slipped|collapsed|blew (?:down|over)|blown (?:down|over)|ripped(?: to bits)?)|(?:the )?(?:wind|storm|gale|cat|dog"
    r"|squirrels?|birds?|fox|badger|deer|mice|mouse|crows?|pigeons?|slugs|snails|ants|hens|rats?|jays?|magpies)"
    r" (?:blew|broke|tipped|knocked|tore|pulled|had|took|ate|got|moved|dug up) (?:it|them|all|most|some|half)\b.*)$"
    r"|^(?:all |now |since )*(?:undone|unpicked|spilled|spilt|rained off|washed off|blown off|rewound)(?: again| since| now| already)*$"
    r"|^since (?:opened|fallen|gone|come off|lost|broken|removed|replaced)$"
    r"|^in (?:the|my|a) (?:photo|picture|drawing|sketch|dream|head)s?$|^(?:put |went |all )?back (?:again|now|as it was)$"
)
# What is told elsewhere, or was set right by a sign.
_ELSEWHERE = (
    r"^(?:see|cf\.?|vide|compare|vgl\.?|siehe|zie)(?: (?:the|my|its|his|her|last|old|this|also))*"
    r" (?!(?:photos?|pics?|pictures?|sketch|drawing|remarks?|notes?|above)\b)[^\W\d]|^[=<>≠~|/]\s*[^\W\d]"
)
# Another day, or a doubt, as the trade says it in other languages.
_OTHER_TONGUES = (
    r"\b(?:vielleicht|evtl|eventuell|angeblich|wahrscheinlich|geplant|verschoben|abgesagt|fällig"
    r"|übermorgen|vorgestern|nächste[rnms]?|letzte[rnms]?"
    r"|misschien|wellicht|waarschijnlijk|gepland|uitgesteld|overmorgen|eergisteren|volgende|vorige"
    r"|peut-être|demain|hier (?:soir|matin)|prochaine?|prévue?|pas (?:fait|encore)"
    r"|forse|domani|ieri|quizás|mañana|ayer)\b|^hier$"
)
# One of these is in all that turns what was read for something else, or begins a remark.
_TELLING = (TURNING_WORDS | BINDING_WORDS | HEARSAY_WORDS) - {"and", "the", "a"}
_CLAUSE_END = re.compile(r"[,.;:!](?:\s|$)| [-–] ")
TURN_PATTERNS = (_DAYS, _ENDS, _GUESSES, _INTENTS, _UNDONE, _TOO, _ELSEWHERE, _OTHER_TONGUES)
_TURN = "|".join(TURN_PATTERNS)


@lru_cache(8192)
def turns(clause: str) -> bool:
    """Whether a clause says another day, that a tree ended or left, or that nobody is sure; who
    says so, or whose tree it was.

    >>> turns("yesterday evening"), turns("tree dead"), turns("Hob thinks"), turns("dead wood sound")
    (True, True, True, False)
    """
    if compiled_way(_TURN).search(clause):
        return True
    turned = (is_hearsay, is_left_open, is_of_another_tree, is_somebodys)
    return any(one(clause) for one in turned) and not is_how_it_went(clause)


@lru_cache(8192)
def end_that_turns(words: str) -> str:
    """How words that were read for something else end, where that end would turn a clause: of
    `water in theory` the last two; "" where none does."""
    each = words.split()
    if _TELLING.isdisjoint(map(str.casefold, each)):
        # Most are a part or a thing, and no pattern need be made for them.
        return ""
    return next(filter(_is_open_end, (" ".join(each[at:]) for at in range(len(each)))), "")


def _is_open_end(end: str) -> bool:
    # One word may be of a part: `the left most`.
    return is_hearsay(end) or is_left_open(end) or (" " in end and is_of_another_tree(end))


@lru_cache(8192)
def turn_of_part(part: str) -> str:
    """What in the words behind `on` turns an act: `the book`, `left 2 as in the book`, `Gil's`; ""
    where nothing does."""
    if PART_WORDS.issuperset(word for word in part.casefold().split() if not word.isdigit()):
        return ""
    behind = f"on {part}"
    if is_hearsay(behind) or is_left_open(behind) or is_somebodys(part):
        return part
    return end_that_turns(part)


@lru_cache(8192)
def remark_that_turns(remark: str) -> str:
    """The first clause of a remark, where all of it says who says so or how unsure it is; "" where
    it does not: a remark may speak of other days and trees."""
    first = _CLAUSE_END.split(remark, maxsplit=1)[0]
    is_label = " " not in first and remark[len(first) :].startswith(":")
    if is_label or _TELLING.isdisjoint(WORD.findall(first.casefold())):
        return ""
    return first if is_hearsay(first) or is_of_such_words(first) else ""
