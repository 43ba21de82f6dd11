"""Tells whether a text only says what a tree, or something on it, is like: `dry as a brick`.

What stands behind `like` or `as` is one thing, and no word before it says that something was done.
"""

from __future__ import annotations

import re

from backbud_grammar.limiters import limiter_in

_OF = (
    r"(?:(?:the|its|all|some|many|few|one|two|three|old|new|young|low|lower|upper|inner|outer|top|about|abt|ca|\d{1,3}"
    r"|left|right|apex|crown|leader|trunk|branch(?:es)?|tree|it|soil|ball|kluit|roots?|rootlets|surface|moss|bark|wood"
    r"|lea(?:f|ves)|lvs|needles?|buds?|shoots?|tips?|twigs?|candles?|flowers?|petals|fruits?|berries|apples|nebari"
    r"|callus|sap|jins?|shari|stems?|thorns|whips?|pads?|in the soil|of the soil) )*"
)
_IS = r"(?:(?:is|are|was|were|still|now|all|looks?|looked|feels?|felt|went|gone|quite|almost) )*"
_SO = (
    r"(?:(?:dry|wet|stiff|brittle|hard|soft|tough|strong|thick|thin|big|small|fat|long|short|green|white|black|yellow|red|pale"
    r"|brown|light|heavy|tight|loose|smooth|rough|sharp|round|flat|straight|tall|wide|dense|bare|limp|clean) )+"
)
# How it was done, or when, is said with the same words.
_NO_THING = (
    r"(?!(?:\w+ )?(?:before|usual|ever|last|planned|said|it|is|was|agreed|ordered|above|below|always|then|now|this|that|these"
    r"|those|well|needed|wanted|told|shown|mine|his|hers|theirs|wren|one|ones|other|others|soon|yet|if|possible|cutting"
    r"|left|right|front|back|top|apex|crown|leader|branch|branches|cuttings|jin|scion|scions|seed|gift|present|layer|test|trial|such|asked|discussed|drawn|marked)\b)"
)
_LIKE = re.compile(
    rf"{_OF}{_IS}(?:like |(?:as )?{_SO}(?:like|as) )(?:an? |the |my |her |his |some )?"
    rf"{_NO_THING}[^\W\d]+(?: [^\W\d]+)?",
    re.IGNORECASE,
)
_SAYS_HOW = re.compile(r"\blike\b|\w+ as ", re.IGNORECASE)


def is_simile(text: str) -> bool:
    """Whether a text only says what something is like.

    >>> is_simile("left 1 stiff as a gate"), is_simile("roots thick as thumb"), is_simile("as before")
    (True, True, False)
    """
    return (
        _SAYS_HOW.search(text) is not None
        and _LIKE.fullmatch(text) is not None
        and not limiter_in(text)
    )
