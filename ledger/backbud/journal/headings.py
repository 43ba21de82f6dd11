"""Finds lines that seem meant for a date, a card or a subject line, and are none as written.

What stands below such a line is filed nowhere: to put it under the day or the tree above would be a
guess.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from contextlib import suppress
from datetime import date
from typing import Literal, NamedTuple

from backbud.journal.handles_meant import handles_meant
from backbud.journal.outlined import Outlined
from backbud.journal.things import Things
from backbud_grammar.datelines import (
    begins_with_date,
    heads_a_page,
    hint_of_date,
    holds_a_date,
    is_dateline,
    leading_date,
)
from backbud_grammar.dates import WrittenDate, dates_meant, read_date
from backbud_grammar.kinds import KINDS
from backbud_grammar.parse import Details
from backbud_grammar.problems import Flaw, Misread, nearest
from backbud_grammar.syntax import Act, Block, Page, last_line

# What ends at a line: nothing, the subject line above it, or the whole page.
Ends = Literal["", "subject", "day"]


class Slip(NamedTuple):
    """What is wrong with a line, and what ends there."""

    flaw: Flaw
    ends: Ends


def flaw_of_heading(
    blocks: Sequence[Block], things: Things, details: Details, above: WrittenDate | None
) -> Flaw | None:
    """The flaw of a line at the left edge that is neither a date nor a card, but may well be meant
    for one; None where it is a subject line.

    `blocks`: its own, and those below it. `above`: the date of its page.
    """
    text = blocks[0].subjects
    if not text:
        return None
    if is_subject_line(text, things) or handles_meant(text, things):
        return None
    named, unknown = _names_something(text, things), _unknown_in(text, things)
    at, kind, read = blocks[0].line, text.split(None, 1)[0].casefold(), details.subjects(text)
    lines = last_line(blocks) - at + 1
    # Words with no act below them, in the midst of a page, are hardly a subject line.
    is_no_handle = isinstance(read, Flaw) or _is_like_none(text, things)
    words_alone = is_no_handle and not blocks[0].acts and len(blocks) > 1
    if not named and kind in KINDS and isinstance(read, Flaw):
        # A card ends the page, and this was meant for one.
        handle = "-".join(text.split()[1:])
        message = f"this is neither a card nor a subject line: “{text}”"
        hint = f"A card begins with its kind and one handle: {kind} {handle}."
        hint += not_filed(blocks)
        return Flaw(read.code, at, read.column, read.length, message, hint, lines=lines)
    if named or heads_a_page(text) or (words_alone and above is not None):
        message = f"“{text}” is neither a date nor a subject line"
        said = unknown if named else text
        hint = f"{hint_of_date(said, day_said(above))} A remark to yourself begins with #."
        hint += not_filed(blocks)
        return Flaw("bad-heading", at, 1, len(text), message, hint, lines=lines)
    return None


def is_subject_line(text: str, things: Things) -> bool:
    """Whether a line at the left edge names something, and no date beside it."""
    if not _names_something(text, things):
        return False
    unknown = _unknown_in(text, things)
    return not (unknown and holds_a_date(unknown))


def day_above(outlined: Outlined, line: int) -> date | None:
    """The day of the nearest page above a line whose date can be read."""
    for begins, kept in reversed(outlined.pages):
        if begins < line:
            with suppress(Misread):
                return read_date(kept.section.date).first
    return None


def flaw_of_date(error: Misread, page: Page, above: date | None) -> Flaw:
    """The one flaw of a page whose date cannot be read: nothing on it is filed.

    `above`: the day of the page above it.
    """
    text, message, hint = page.date, error.message, error.hint
    whole = f"{page.date} {page.weather}".rstrip()
    leading = leading_date(whole) if page.weather and not dates_meant(page.date) else ""
    if page.weather and is_dateline(whole):
        text, message, hint = whole, f"“{whole}” is no date", hint_of_date(whole, above)
    elif leading:
        text, message, hint = leading, f"“{leading}” is no date", hint_of_date(leading, above)
    elif error.code == "bad-date" and not dates_meant(page.date):
        hint = hint_of_date(text, above)
    hint += not_filed(page.blocks)
    return Flaw(error.code, 0, 1, len(text), message, hint, lines=length_of(page))


def length_of(page: Page) -> int:
    """How many lines a page has, down to the last one that says something."""
    return last_line(page.blocks) + 1 if page.blocks else 1


def ends_at(act: Act, things: Things) -> Ends:
    """What ends at an indented line that is no act, and a date or a subject line in truth; "" where
    it is neither."""
    text = f"{act.word} {act.text}".strip()
    is_date = begins_with_date(text) or is_dateline(text)
    if is_date and text.casefold() != "out" and not _is_feed(text):
        return "day"
    thing = things.find(act.word.rstrip(",:"))
    return "subject" if thing is not None and _is_subject_line(text, things) else ""


def slip_of_act(
    act: Act, below: Sequence[Act], blocks: Sequence[Block], things: Things
) -> Slip | None:
    """What an indented line that is no act is in truth, where that can be told.

    `below`: the acts below it in its block; `blocks`: its own, and those below it.
    """
    ends = ends_at(act, things)
    if not ends:
        return None
    text, word = f"{act.word} {act.text}".strip(), act.word
    if ends == "day":
        code, message = "indented-date", "this date is indented, so it begins no page"
        hint = "Take the spaces in front of it out."
        if not begins_with_date(text):
            hint = f"{hint} {hint_of_date(text, None)}"
        hint += not_filed(blocks[1:], len(below))
        last = last_line(blocks)
    else:
        thing = things.find(word.rstrip(",:"))
        code = "indented-subject"
        message = f"“{word}” is a {thing.kind if thing else ''}, but stands indented"
        hint = "A subject line stands at the left edge." + not_filed((), len(below))
        last = last_line(blocks[:1])
    lines = last - act.line + 1
    return Slip(Flaw(code, act.line, act.column, len(word), message, hint, lines=lines), ends)


def _is_subject_line(text: str, things: Things) -> bool:
    """Whether all words of a line are handles, or say which of them: `soap again` are none."""
    words = text.replace(",", " ").split()
    return all(word.casefold() in _OF_SUBJECTS or things.find(word) is not None for word in words)


# Three figures as a feed is written: `0-10-10, half`, `7-3-6 5 ml/L`.
_N_P_K = re.compile(r"(\d{1,2})-(\d{1,2})-(\d{1,2})(?![\w-])")
# Years of two figures of which a diary may be.
_YEARS = range(15, 60)


def _is_feed(text: str) -> bool:
    """Whether a line begins with the N-P-K of a feed, whose figures can be no date.

    `20-10-20` may be one: it is asked.
    """
    found = _N_P_K.match(text)
    if found is None:
        return False
    first, middle, last = map(int, found.groups())
    return not any(
        year in _YEARS and 1 <= min(middle, other) <= 12 and 1 <= max(middle, other) <= 31
        for year, other in ((first, last), (last, first))
    )


# What stands between the handles of a subject line.
_OF_SUBJECTS = frozenset(("all", "in", "of", "except"))


def not_filed(blocks: Sequence[Block], more: int = 0) -> str:
    """Says how many acts are filed nowhere."""
    acts = more + sum(len(block.acts) for block in blocks)
    if not acts:
        return ""
    if acts == 1:
        return " Until then the act below it is filed nowhere."
    return f" Until then the {acts} acts below it are filed nowhere."


def day_said(when: WrittenDate | None) -> date | None:
    """The day that a page says, or None."""
    return when.first if when is not None and when.first > date.min else None


def _unknown_in(text: str, things: Things) -> str:
    """The words of a subject line that are no handle."""
    words = text.replace(",", " ").split()
    return " ".join([word for word in words if things.find(word) is None])


def _is_like_none(text: str, things: Things) -> bool:
    """Whether a single word is no slip of any handle: `Midsummer`, `Sat/Sun`."""
    return " " not in text and "," not in text and not nearest(text, things.by_handle)


def _names_something(text: str, things: Things) -> bool:
    """Whether a subject line begins with a handle that is known, or with `all`."""
    first = text.replace(",", " ").split(None, 1)[0] if text.strip(", ") else ""
    plain = text.lstrip("-–—*•·+>\"'“”„([ ").replace(",", " ").split(None, 1)
    known = (first, plain[0].rstrip("\"'“”)]:;.") if plain else "")
    return first.casefold() in ("all", "except") or any(
        one and things.find(one) is not None for one in known
    )


def explained(flaw: Flaw, block: Block, things: Things, details: Details) -> Flaw:
    """A subject line's flaw in its place; an act or a card on that line is said to be one."""
    message, hint = flaw.message, flaw.hint
    first, *more = block.subjects.split() or [""]
    wrong = block.subjects[flaw.column - 1 :].split()
    meant = handles_meant(block.subjects, things)
    if wrong and wrong[0].casefold() in details.acts:
        message = f"the act “{wrong[0]}” stands on the subject line"
        hint = "Acts stand on lines of their own below, indented."
    elif meant:
        message, hint = "a handle has no blanks in it", f"Did you mean “{meant}”?"
    elif more and "," not in block.subjects:
        kind = nearest(first, KINDS) if first.casefold() not in KINDS else first.casefold()
        if kind and things.find(first) is None:
            message = f"this is neither a card nor a subject line: “{block.subjects}”"
            hint = f"A card begins with its kind and one handle: {kind} {'-'.join(more)}"
    lines = last_line((block,)) - block.line + 1
    return Flaw(
        flaw.code, block.line, flaw.column, flaw.length, message, hint, flaw.severity, lines
    )
