"""What behind an act says when the same work, or the rest of it, is to be done, or why not."""

from __future__ import annotations

import re
from datetime import date

from backbud_grammar.scribbles.days import MONTH, SEASON, SEASONS, WEEKDAY, WHEN, when_of

# What is done again and again, so that the next time is a plan.
REPEATED = ("treated", "fed", "flushed", "misted", "trimmed", "pinched")
_AGAIN = re.compile(
    r"(?:do it again |(?:and )?(?:again|repeat(?:ed)?|next(?: one| spray| feed| dose)?|once more"
    r"|(?:# ?|no\.? ?)\d|(?:second|third)(?: (?:one|spray|go|round|dose|time(?! in )))?)"
    r" (?:in |after )?|(?:in|after) (?=\d+ (?:days?|weeks?|months?) again$))"
    r"(?P<after>\d+ (?:days?|weeks?|months?))(?: again)?"
    r"|(?:and )?(?:again|repeat) (?:on |in )?"
    rf"(?P<on>{WEEKDAY}|next (?:week|month)|tomorrow|(?:next )?(?:{SEASON}|{MONTH}))"
    r"|(?P<more>(?:\d|one|two|three)(?: more| ?x| times)) (?:with |at |in |after |every |each )?"
    r"(?P<each>\d+ (?:days?|weeks?))(?: apart)?",
    re.IGNORECASE,
)
# How often it is given from now on, and until when.
_EVERY = {"weekly": "1 week", "fortnightly": "2 weeks", "monthly": "1 month"}
_REGIME = re.compile(
    r"(?:then )?(?:(?P<each>weekly|fortnightly|monthly)"
    r"|every (?P<n>\d+ )?(?P<unit>day|week|fortnight|month)s?)"
    r"(?: from now)?(?: on)? (?:till|until|til|through|thru|up to|to) (?:the )?"
    r"(?:(?:early|mid|late|half|end of|middle of)[ -])?"
    rf"(?:{MONTH}|{SEASON}|leaf fall|first frost|flowering)",
    re.IGNORECASE,
)
# What is left of a work, and when it is done.
REST = re.compile(
    r"(?:the )?(?:(?:weak|strong|other|second|small|big|low|lower|top|upper|inner|outer)"
    r" (?:lot|half|batch|candles|shoots|ones)"
    r"|rest|remainder|others|last bit|weak(?:er)?(?: ones)?(?! lot)|strong(?: ones)?(?! lot))"
    r"(?: of (?:it|them|the tree))? "
    r"(?:to (?:do|follow) )?(?:in )?(?P<when>.+)",
    re.IGNORECASE,
)
# The same work once more, after another time: `redo in spring`.
REDO = re.compile(
    r"(?:(?:to )?re-?do|do (?:it )?again|to be done again|needs doing again)"
    rf" (?:it )?(?:in )?(?P<when>{WHEN})",
    re.IGNORECASE,
)


def next_time(text: str, page: date | None) -> tuple[str, str]:
    """When a work is due again, as a plan says it, and what more is said: all of it where it says
    how often and until when; "" where nothing says so.

    >>> next_time("again in 7 days", None), next_time("weekly till October", None)
    (('in 7 days', ''), ('in 1 week', 'weekly till October'))
    """
    again = _AGAIN.fullmatch(text)
    if again is not None:
        after = again["after"] or again["each"]
        return (f"in {after}" if after else when_of(again["on"], page)), again["more"] or ""
    regime = _REGIME.fullmatch(text)
    if regime is None:
        return "", ""
    if regime["each"]:
        return f"in {_EVERY[regime['each'].casefold()]}", text
    unit, count = regime["unit"].casefold(), int(regime["n"] or 1)
    if unit == "fortnight":
        unit, count = "week", 2 * count
    return f"in {count} {unit}{'' if count == 1 else 's'}", text


# Why a work was left, in words that are details of some.
WHY_NOT = ("weak", "too weak", "very weak", "half-rooted", "late", "too late", "sick", "tired")
# What takes a plan back.
DENIED = re.compile(r"no|not(?: sure| certain| yet)?|nope|never mind|maybe|perhaps", re.IGNORECASE)


_PROPERLY = re.compile(
    r"^(?:planned (?:for |in |to )?|now |then |will be |do it (?:in )?)(?=\S)"
    r"| (?:properly|again|then|instead)$",
    re.IGNORECASE,
)


def waits_till(act: str, piece: str, page: date | None) -> str:
    """Until when a work waits, as a plan says it; "" where a piece says no such thing: `feed
    skipped, winter` says why."""
    if act == "skipped" and piece.casefold() in SEASONS:
        return ""
    return when_of(_PROPERLY.sub("", piece), page)
