"""Words that nobody read and that put an act on another tree or day, or in other hands."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache

from backbud_grammar.ways_compiled import compiled_way

_SEASON = r"(?:year|month|week|spring|summer|autumn|fall|winter|season)"
_MONTH = (
    r"(?:jan(?:uary)?|feb(?:ruary)?|march|april|may|june|july|aug(?:ust)?|sept?(?:ember)?"
    r"|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)"
)
_ELSEWHEN = (
    rf"(?:already |back |again |done )*(?:(?:in |the )?(?:last|next) {_SEASON}(?:'s \w+)?"
    rf"|(?:earlier |on |in |only )*this {_SEASON}|earlier (?:in|last|on) .+"
    rf"|in {_MONTH}"
    rf"|in (?:spring|summer|autumn|fall|winter)|yesterday|tomorrow|(?:19|20)\d\d|in (?:19|20)\d\d"
    rf"|(?:\w+ )?(?:days|weeks|months|years) ago|(?:by|before|after) {_MONTH})"
)
_DID_IT = r"(?: again| damage| did it| did| got (?:it|them)| probably)?"
_BY_OTHERS = (
    r"(?:^|.* )by (?:the |a |some |its |his |her |my |our |last |previous |former |old |new )*"
    r"(?:chickens?|hens?|ducks?|geese|goats?|sheep|horses?|cows?|pony"
    r"|owners?|sellers?|nursery|nurseryman|buyer|gardener|somebody|someone|others|them|lightning|deer|caterpillars?|themselves|itself|squirrels?|mice|mouse|voles?"
    r"|slugs?|snails?|rabbits?|hares?|birds?|pigeons?|cats?|dogs?|foxe?s?|badgers?|wind|storm|frost|hail|snow"
    r"|rain|sun|heat|weevils?|aphids|ants|wasps|beetles?|children|neighbours?|accident|mistake)"
    rf"{_DID_IT}"
)
# Named alone behind a work, they did it: `new shoots cut, deer`.
_OTHERS_ALONE = (
    r"(?:(?:the|a|late|hard|those|some|heavy|my|his|her|our) )*"
    r"(?:deer|rabbits?|hares?|voles?|mice|mouse|rats?|squirrels?|(?:black|wild )?birds?|pigeons?"
    r"|jays?|magpies?|woodpeckers?|blue tits|tits|sparrows?|ladybirds?|crows?|rooks?|jackdaws?"
    r"|starlings?|hens?|chickens?|ducks?|geese|cats?|dogs?|pupp(?:y|ies)|badgers?|foxe?s?"
    r"|hedgehogs?|moles?|goats?|sheep|cows?|horses?|storm|gale|hail|snow(?: load)?"
    r"|regen|sturm|hagel|schnee|vogels?|vögel|katze|kat|hond"
    r"|(?:(?:last|previous|former|old) )+owners?|neighbou?rs?|nachbar|buurman|kids?|children"
    r"|guests?|visitors?|burglars?|thie(?:f|ves)|builders?|roofers?|postman)"
    rf"{_DID_IT}"
)
_WEATHER_ALONE = r"(?:the )?(?:rain|frost|snow|wind|storm) did it"


# Of another tree, or nowhere but in thought.
_NOT_THIS = (
    r"\b(?:(?:the )?other (?:one|tree|bench|tray|house|batch)|wrong (?:tree|one)"
    r"|before (?:it|she|he|we|i|they|the tree) (?:came|arrived|got here|bought it|got it|had it"
    r"|was (?:mine|ours|bought))"
    r"|one like (?:it|this)|neighbou?r['’]?s?|hers|theirs"
    r"|his, not|its mother|all bar this|all but this|everything but this"
    r"|in (?:my|his|her|our) (?:head|mind|dreams?)"
    r"|(?:years|months|weeks|days) ago|long ago|in (?:19|20)\d\d"
    r"|at (?!the\b|its\b|it['’])[^\W\d_]+['’]s)(?!\w)"
)
_OTHERS = (
    r"(?:so )?[^\W\d_]+ says|says [^\W\d_]+|everything else"
    r"|(?:(?:all|the|all the) )?(?:others?(?: ones?)?|rest)"
)


_IN_THOUGHT = re.compile(r"\bin (?:my|his|her|our) (?:head|mind|dreams?)\b", re.IGNORECASE)


# Whose hands it was nobody said: `by the sprinkler`, `itself`; `by Karl` may want a card.
_ITSELF = re.compile(r"by (?![A-Z])\S|(?:it|them|him|her)sel(?:f|ves)\b|its (?:own )?(?!pot\b)\w")


# Not joined to a word or a figure, nor before a unit: `7-3-6`, `14-3 mm`.
_SHORT_DAY = re.compile(
    r"(?<![\w./,-])(\d{1,2})[./-](\d{1,2})(?![\w./,-])"
    r"(?!\s*(?:%|-|–|\+|(?:mm|cm|m|L|l|mL|ml|g|kg|h|min|C|inch)\b))"
)
_OF_A_YEAR, _OF_A_MONTH = 12, 31


def short_day(text: str) -> tuple[str, int] | None:
    """The first day that is said without its year and can be no share and no range, and where it
    stands: one of its figures is over twelve, or the second is the smaller one.

    >>> short_day("repotted 14-3 oval blue"), short_day("20/5"), short_day("2-3 left")
    (('14-3', 9), ('20/5', 0), None)
    """
    for found in _SHORT_DAY.finditer(text):
        low, high = sorted((int(found[1]), int(found[2])))
        falls = found[1] != found[2] and int(found[1]) == high
        if 0 < low <= _OF_A_YEAR and high <= _OF_A_MONTH and (falls or high > _OF_A_YEAR):
            return found[0], found.start()
    return None


def day_it_begins_with(pieces: Iterable[str]) -> str:
    """The day that the first such piece of a line begins with, or "": `14-3 oval blue`."""
    days = (short_day(piece) for piece in pieces)
    return next((day for found in days if found is not None for day, at in [found] if at == 0), "")


_ALONE = (_ELSEWHEN, _BY_OTHERS, _OTHERS_ALONE, _WEATHER_ALONE, _OTHERS)
# Each as it is written.
ELSEWHEN_PATTERNS = (*_ALONE, _NOT_THIS, _ITSELF.pattern)


def in_thought(text: str) -> tuple[str, int] | None:
    """The words that leave an act in thought alone, whichever detail took them, and where they
    stand.

    >>> in_thought("2 mm Al on left 1 in my head")
    ('in my head', 18)
    """
    found = _IN_THOUGHT.search(text)
    return None if found is None else (found[0], found.start())


def not_by_us(unread: Iterable[str]) -> str:
    """The first run of words that nobody read and that leaves an act to other hands, or "".

    >>> not_by_us(["by the sprinkler"])
    'by the sprinkler'
    """
    return next((run for run in unread if _ITSELF.match(run)), "")


def elsewhen(runs: Iterable[str]) -> str:
    """The first run of words that puts an act on another day or into other hands, or "".

    >>> elsewhen(["hard", "in November"])
    'in November'
    """
    return next(filter(_is_elsewhen, runs), "")


@lru_cache(4096)
def _is_elsewhen(run: str) -> bool:
    is_whole = any(compiled_way(pattern).fullmatch(run) for pattern in _ALONE)
    return is_whole or compiled_way(_NOT_THIS).search(run) is not None
