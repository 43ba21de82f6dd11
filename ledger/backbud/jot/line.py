"""Parts a jotted line into whose it is and what was done: `hoshi, yuki watered`.

Nothing is guessed: where nobody can tell whose it is, all of its words are kept below `whose`, a
handle of nobody, so that `check` tells of it.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from unicodedata import category

from msgspec import Struct

from backbud.collection.subjects import NOBODYS
from backbud_grammar.datelines import (
    begins_with_date,
    heads_a_page,
    holds_a_date,
    is_dateline,
)
from backbud_grammar.handles import flaw_of
from backbud_grammar.outline import Known, begins_section
from backbud_grammar.problems import Flaw
from backbud_grammar.subjects import read_subjects
from backbud_grammar.syntax import Selection, Subjects
from backbud_grammar.written_hours import hour_before

# A line of a diary is a sentence or two; what is longer came from somewhere else.
LONGEST_JOT = 2000
# Ends of lines and controls would make other lines of it, and signs that turn the direction of
# writing make it read otherwise than it is (UAX #9).
_REFUSED = ("Cc", "Zl", "Zp", "Cs")
_TURNS = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
_WORD = re.compile(r"\S+")


class JotError(Exception):
    """A line that is not written at all, or a diary that cannot be; the sentence says why."""


class JottedLine(Struct, frozen=True):
    """A jotted line in its two parts: the subject line, and the act line without its indent.

    `wrong`: why nobody is meant by it, "" where the subject line can be read; `hint`: what to do.
    """

    subjects: str
    act: str
    wrong: str = ""
    hint: str = ""


def checked(text: str) -> str:
    """The text of one line, tabs as blanks; JotError where it is none."""
    text = text.replace("\t", " ").strip()
    if not text:
        raise JotError("there is nothing in this line")
    if len(text) > LONGEST_JOT:
        raise JotError(f"a line of {len(text)} characters is longer than a jotting ({LONGEST_JOT})")
    for sign in text:
        sort = category(sign)
        if sort in _REFUSED or sign in _TURNS:
            what = "a line break" if sign in "\n\r\v\f\x85\u2028\u2029" else "a sign nobody can see"
            if sort == "Cs":
                what = "a byte that is not UTF-8"
            raise JotError(f"there is {what} in it (U+{ord(sign):04X}); one line is one act")
    return text


def part_line(text: str, known: Known, is_known: Callable[[Subjects], bool]) -> JottedLine:
    """Part a checked line. `is_known`: whether everyone that a subject line names is known here."""
    starts = [found.start() for found in _WORD.finditer(text)]
    acts = [at for at in starts if at and _is_act(text[at:], known)]
    for at in acts:
        head = _head(text[:at])
        subjects = _subjects(head)
        if subjects is None or not is_known(subjects):
            continue
        if not (text[:at].rstrip().endswith(",") and _is_handle(text[at:], is_known)):
            return JottedLine(head, text[at:])
    for at in (*reversed(starts[1:]), len(text)):
        head = _head(text[:at])
        subjects = _subjects(head)
        if subjects is not None and _only_handles(subjects) and is_known(subjects):
            return _without_act(head, text[at:].strip(), is_known)
    for at in acts:
        head = _head(text[:at])
        # What may be meant for a date would end the page.
        if _subjects(head) is not None and not (heads_a_page(head) or holds_a_date(head)):
            return JottedLine(head, text[at:])
    return _nobodys(text, known, starts, is_known)


def _without_act(head: str, text: str, is_known: Callable[[Subjects], bool]) -> JottedLine:
    """A line that begins with no act: as it is, for `check` to tell of, unless it would end there
    what stands above it, as a date and a subject line do, or be a remark to oneself."""
    names = bool(text) and _is_handle(text, is_known)
    if not (names or text.startswith("#") or begins_with_date(text) or is_dateline(text)):
        return JottedLine(head, text)
    wrong = "no act stands behind the handle, so this changes nothing"
    return JottedLine(head, f"noted {text}", wrong, f"For example: {head} watered")


def _is_act(text: str, known: Known) -> bool:
    """Whether a text begins with an act word, or with two words that are one; an hour may stand
    before them."""
    first, second = (*hour_before(text)[1].split(None, 2), "", "")[:2]
    return first.casefold() in known.words or f"{first} {second}".casefold() in known.words


def _is_handle(text: str, is_known: Callable[[Subjects], bool]) -> bool:
    """Whether a text begins with a handle: `hoshi, fed watered` of a tree that is called so."""
    first = _subjects(text.split(None, 1)[0].rstrip(",:"))
    return first is not None and is_known(first)


def _head(text: str) -> str:
    """What stands before a word, without the sign that parts it from the handle."""
    return text.strip().rstrip(":,").rstrip()


def _subjects(head: str) -> Subjects | None:
    """What may stand at the left edge as a subject line, and never as anything else there."""
    if not head or begins_section(head):
        return None
    read = read_subjects(head)
    if isinstance(read, Flaw):
        return None
    items = (*read.chosen, *read.left_out)
    one_word = (item.words for item in items if item.by in ("handle", "in", "of"))
    return read if items and not any(flaw_of(word.casefold()) for word in one_word) else None


def _only_handles(subjects: Subjects) -> bool:
    return not subjects.left_out and all(item.by == "handle" for item in subjects.chosen)


def _nobodys(
    text: str, known: Known, starts: list[int], is_known: Callable[[Subjects], bool]
) -> JottedLine:
    wrong = "nobody can tell whose this is, so it changes nothing"
    hint = "Begin with the handle of a tree: hoshi watered."
    if _is_act(text, known):
        wrong = "this does not say whose it is, so it changes nothing"
        *before, last = text.split()
        named = bool(before) and _is_handle(last, is_known)
        meant = f"{last} {_head(' '.join(before))}" if named else f"HANDLE {text}"
        hint = f"Put the tree's handle in front: {meant}"
    if begins_with_date(text):
        hint = "A jotted line stands on its page's day; another is given by backbud jot --on DATE."
    first = text.split(None, 1)[0].casefold()
    is_prose = first in known.prose and len(starts) > 1
    # What stands below a handle of nobody is filed nowhere, and told.
    nobody = next(one for one in NOBODYS if not is_known(Subjects((Selection("handle", one),))))
    return JottedLine(nobody, text if is_prose else f"noted {text}", wrong, hint)
