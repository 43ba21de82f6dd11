"""Tells whether a clause only says what something is like, or goes like, or how stiff wood is:
`dry as a brick`, `cuts like butter`, `left 1 stiff`."""

from __future__ import annotations

import re

from backbud_grammar.similes import is_simile

# Things without an article.
_STUFF = (
    r"(?:nails|glass|rock|stone|bone|bones|butter|paper|wet paper|tissue paper|lead|leather|chalk|snow|iron|wood|toast|dust|ash|coal|ice|honey|treacle"
    r"|mud|cheese|biscuit|steel|brick|concrete|soup|porridge|tinder|straw|cardboard|string|rope|wire|rubber|plastic|chips|crisps|velvet|silk|wool|grass|hay"
    r"|sawdust|jelly|putty|cork|flint|marble|pitch|tar|milk|sugar|salt|sand|tobacco|tea|coffee|lettuce|spinach|celery|carrots?|matchsticks|spaghetti)"
)
_NOT_A_THING = (
    r"(?!(?:year|month|week|day|spring|summer|autumn|winter|time|rule|first|last|whole|tree|bit|little|lot|test|trial|result|start|try|reminder|plan|job"
    r"|stub|jin|sacrifice|leader|cutting|layer|graft|gift|loan|present|deposit|favou?r)s?\b)"
)
_THING = rf"(?:(?:a|an|any) {_NOT_A_THING}[^\W\d_]+(?: {_NOT_A_THING}[^\W\d_]+)?|{_STUFF})"
_GOES_LIKE = re.compile(
    rf"(?:cuts?|cutting|went|works?|bends?|smells?|smelt) (?:in |well )?like {_THING}",
    re.IGNORECASE,
)
# What wood is like that is to be bent or cut.
_WOOD = re.compile(
    r"(?:(?:the )?(?:(?:left|right) \d{1,2}|apex|top|leader|trunk|base|low ones|branch(?:es)?|wood)"
    r"(?: (?:is|are|was|were|still|very|quite|rather|really|a bit|already|all|so))*"
    r" |(?:still |very |quite |rather |really |a bit |already )+)"
    r"(?:stiff|brittle|springy|whippy|supple|woody|bendy|stubborn|tough)(?: (?:already|now|still|there|low down))?",
    re.IGNORECASE,
)


def is_likened(piece: str) -> bool:
    """Whether a clause says how something is by what it is like, or what wood is like to bend.

    >>> is_likened("dry as a brick"), is_likened("left 1 stiff"), is_likened("hard as last year")
    (True, True, False)
    """
    return "?" not in piece and (
        (is_simile(piece) and not piece.casefold().startswith("like "))
        or _GOES_LIKE.fullmatch(piece) is not None
        or _WOOD.fullmatch(piece) is not None
    )
