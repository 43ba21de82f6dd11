"""Tells whether a clause says of some of a tree that it was left as it was."""

from __future__ import annotations

import re

from backbud_grammar.scribbles.plain import plain_words

_OF_WHAT = (
    r"(?:(?:the|a|all|other|others?|rest|few|some|two|three|one|both|very|weak|weaker|weakest|strong|small|lower|low|lowest|upper|inner|outer"
    r"|inside|outside|bottom|top|back|front|left|right|branch|branches|shoot|shoots|candles?|leaves|needles|buds?|tips?|ones?|apex|crown|leader"
    r"|side|trunk|jins?|shari|deadwood|new|old|young|fresh|sacrifice|of|it|them|tree|\d{1,2})(?: |$))+"
)
_SPARED = re.compile(
    rf"{_OF_WHAT}(?:(?:is|are|was|were|have been|has been) )?(?:all )?"
    r"(?:left (?:alone|be|as (?:is|it is|they are|it was|they were)|untouched|uncut|long|whole|to (?:grow|run|itself|themselves))"
    r"|let (?:be|go|run|grow)|skipped|spared|untouched|uncut|unpinched|not (?:touched|cut|done|pinched|wired)|missed(?: out)?|passed over|whole"
    r"|(?:still |far |much |all )*too (?:weak|thin|young|small|stiff|brittle|short|soft|thick|old|tight|few|long|woody|hard|early)(?: (?:yet|still|for (?:it|that|now)|to \w+))?"
    r"|kept for (?:the )?[^\W\d]+(?: [^\W\d]+)?)"
    r"(?: (?:this (?:time|year)|for now|yet|still|on purpose|again|till next (?:year|time|spring)))?"
    r"|(?:kept|keep|keeping|left|leaving) (?:\d|one|two|three|a few|some)(?: [^\W\d]+)? for (?:the |a |more |some )?[^\W\d]+(?: [^\W\d]+)?",
    re.IGNORECASE,
)


_WHOLE = plain_words("all it them tree")
_SOME_OF = plain_words(
    "other others rest few some two three one ones weak weaker weakest strong small lower low lowest "
    "upper inner outer inside outside bottom top back front left right branch apex crown leader side "
    "trunk jin jins shari deadwood new old young fresh sacrifice"
)


def is_spared(piece: str) -> bool:
    """Whether a piece says of something of its own that it was left as it was.

    >>> is_spared("inner let go"), is_spared("not touched"), is_spared("7 left alone")
    (True, False, True)
    """
    words = piece.casefold().split()
    return (
        _SPARED.fullmatch(piece) is not None
        and _WHOLE.isdisjoint(words)
        # `candles let go` may be all of them.
        and any(word in _SOME_OF or word.isdigit() for word in words)
    )
