"""Tells of words that turn what stands beside them: to another day, to an end, into a guess.

No act hides them: a clause that holds one is asked about, whatever else it says.
"""

from __future__ import annotations

import re

_DAYS = (
    r"(?<!since )(?<!from )\b(?:mon|tues?|wed(?:nes)?|thu(?:rs)?|fri)(?:day)?\b"
    r"|(?<!since )\b(?:saturday|sunday)\b|\byesterday\b"
    r"|\b(?:last|next) (?:week|month|mon|tue|wed|thu|fri|sat|sun|spring|summer|autumn|fall|winter)\w*\b"
    r"|\b(?:in|within) (?:a few|a|an|one|two|three|four|five|six|ten|\d+) (?:d|days?|weeks?|months?)\b"
    r"|\b(?:days?|weeks?|months?) (?:later|before|after|earlier)\b|^day before\b"
)
_ENDS = (
    r"\b(?:tree|trees|it|it['’]s|she|he|they|seedlings?|cuttings?|whips?|all|one|called)"
    r"(?: (?:is|was|are|were|all|now|quite|it|already|\d+))* dead\b"
    r"|\b(?:died|stolen|sold)\b|\b(?:came|comes|coming|called) for (?:it|her|him|them|his|the)\b"
    r"|\b(?:took|takes?|fetch(?:es|ed)?|carr(?:y|ied)) (?:it|her|him|them) (?:home|away|out|down|off|back|to)\b"
)
_GUESSES = (
    r"^(?:so )?(?:i|he|she|they|[^\W\d]+) (?:thinks?|reckons?|hopes?|hoped|guess(?:es)?|believes?)"
    r"(?: so| i had| it was)?$|\b(?:hopefully|allegedly|supposedly)\b|^meant to\b|['’]s turn$"
    r"|\bsays? (?:he|she|they) did\b|^told [^\W\d]+ (?:weekly|daily|monthly)$"
)
# What was put on and did not stay.
_UNDONE = (
    r"^(?:(?:has |had |it |all )*(?:broken|broke|snapped|slipped)|(?:the )?(?:wind|storm|gale|cat|dog"
    r"|squirrels?|birds?|fox|badger|deer) (?:blew|broke|tipped|knocked|tore|pulled|had) (?:it|them)\b.*)$"
)
TURN_PATTERNS = (_DAYS, _ENDS, _GUESSES, _UNDONE)
_TURN = re.compile("|".join(TURN_PATTERNS), re.IGNORECASE)


def turns(clause: str) -> bool:
    """Whether a clause says another day, that a tree ended or left, or that nobody is sure.

    >>> turns("yesterday evening"), turns("tree dead"), turns("Hob thinks"), turns("dead wood sound")
    (True, True, True, False)
    """
    return _TURN.search(clause) is not None
