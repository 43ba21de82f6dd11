"""Tells whether a clause only says how something is by what it is like: `dry as a brick`.

What it is must be a state that no work of ours makes, and what it is like a thing: `as last year`
and `like the other one` say how a work was done.
"""

from __future__ import annotations

import re

_SUBJECT = (
    r"(?:(?:the |all |its |her |his )*(?:(?:left|right) \d{1,2}|apex|top|leader|trunk|it|she|he"
    r"|(?:inner |outer |old |new |top |low |lower |upper |young )*(?:soil|pot|ball|root ?ball|kluit|roots?|lea(?:f|ves)|needles?|tips?|buds?|bark|moss"
    r"|shoots?|growth|callus|flowers?|petals?|fruits?|candles?|sap|jins?|deadwood|foliage|wood|twigs?|stems?|branch(?:es)?|mix|water|paste))"
    r"(?: (?:is|are|was|were|went|feels?|felt|looks?|looked|smells?|all|now|still|just))* )"
)
_STATE = (
    r"(?:(?:frozen |baked |set )hard|dry|wet|stiff|brittle|soft|hard|tough|springy|whippy|supple|light|heavy|solid|firm|tight|thin|thick|fat|flat|straight|green|white|brown"
    r"|black|red|yellow|grey|gray|pale|bright|shiny|slow|sound|fresh|clean|cold|warm|smooth|rough|sticky|slimy|mushy|crisp|limp|bitter|sweet|sour)"
)
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
_LIKENED = re.compile(
    rf"{_SUBJECT}?(?:as )?{_STATE} as {_THING}(?: (?:still|now|again|already|today))?"
    rf"|{_SUBJECT}(?:like {_THING})"
    rf"|(?:cuts?|cutting|went|works?|bends?|smells?|smelt|feels?|felt|looks?|looked) (?:in |well )?like {_THING}",
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
        _LIKENED.fullmatch(piece) is not None or _WOOD.fullmatch(piece) is not None
    )
