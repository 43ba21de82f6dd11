"""What behind an act says when the same work, or the rest of it, is to be done, or why not."""

from __future__ import annotations

import re

from backbud_grammar.scribbles.days import MONTH, SEASON, WEEKDAY

# What is done again and again, so that the next time is a plan.
REPEATED = ("treated", "fed", "flushed", "misted", "trimmed", "pinched")
AGAIN = re.compile(
    r"(?:do it again |(?:and )?(?:again|repeat(?:ed)?|next(?: one| spray| feed| dose)?|once more"
    r"|(?:# ?|no\.? ?)\d|(?:second|third)(?: (?:one|spray|go|round|dose|time))?)"
    r" (?:in |after )?|(?:in|after) (?=\d+ (?:days?|weeks?|months?) again$))"
    r"(?P<after>\d+ (?:days?|weeks?|months?))(?: again)?"
    rf"|(?:and )?again (?:on |in )?(?P<on>{WEEKDAY}|(?:next )?(?:{SEASON}|{MONTH}))"
    r"|(?P<more>(?:\d|one|two|three)(?: more| ?x| times)) (?:with |at |in |after |every |each )?"
    r"(?P<each>\d+ (?:days?|weeks?))(?: apart)?",
    re.IGNORECASE,
)
# What is left of a work, and when it is done.
REST = re.compile(
    r"(?:the )?(?:(?:weak|strong|other|second|small|big) (?:lot|half|batch|candles|shoots)"
    r"|rest|remainder|others|last bit|weak(?:er)?(?: ones)?(?! lot)|strong(?: ones)?(?! lot))"
    r"(?: of (?:it|them|the tree))? "
    r"(?:to (?:do|follow) )?(?:in (?=\d))?(?P<when>.+)",
    re.IGNORECASE,
)
# Why a work was left, in words that are details of some.
WHY_NOT = ("weak", "too weak", "very weak", "half-rooted", "late", "too late", "sick", "tired")
