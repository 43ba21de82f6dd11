"""Words that nobody read and that say an act was not done here, on that day, by a hand of ours."""

from __future__ import annotations

import re
from collections.abc import Iterable

_SEASON = r"(?:year|month|week|spring|summer|autumn|fall|winter|season)"
_MONTH = (
    r"(?:jan(?:uary)?|feb(?:ruary)?|march|april|may|june|july|aug(?:ust)?|sept?(?:ember)?"
    r"|oct(?:ober)?|nov(?:ember)?|dec(?:ember)?)"
)
_ELSEWHEN = re.compile(
    rf"(?:already |back |again |done )*(?:(?:in |the )?(?:last|next) {_SEASON}(?:'s \w+)?"
    rf"|in {_MONTH}"
    rf"|in (?:spring|summer|autumn|fall|winter)|yesterday|tomorrow|(?:19|20)\d\d|in (?:19|20)\d\d"
    rf"|(?:\w+ )?(?:days|weeks|months|years) ago|(?:by|before|after) {_MONTH})",
    re.IGNORECASE,
)
_NOT_BY_US = re.compile(
    r"by (?:the |a |some )*(?:deer|caterpillars?|themselves|itself|squirrels?|mice|mouse|voles?"
    r"|slugs?|snails?|rabbits?|hares?|birds?|pigeons?|cats?|dogs?|foxe?s?|badgers?|wind|storm|frost|hail|snow"
    r"|rain|sun|heat|weevils?|aphids|ants|wasps|beetles?|children|neighbours?|accident|mistake)",
    re.IGNORECASE,
)


def elsewhen(runs: Iterable[str]) -> str:
    """The first run of words that puts an act on another day or into other hands, or "".

    >>> elsewhen(["hard", "in November"])
    'in November'
    """
    return next(
        (run for run in runs if _ELSEWHEN.fullmatch(run) or _NOT_BY_US.fullmatch(run)),
        "",
    )
