"""How to write a line that is held back, so that it says what was meant."""

from __future__ import annotations

import re
from collections.abc import Sequence

from msgspec.structs import replace

from backbud_grammar.act_words import ActWord
from backbud_grammar.details import part_at_commas
from backbud_grammar.elsewhen import day_it_begins_with
from backbud_grammar.forms import ActForm
from backbud_grammar.held_back import CHANGES_NOTHING, HELD_CODE
from backbud_grammar.hints import NO_DETAILS, PART_WORDS
from backbud_grammar.lexicon import REMARK_HINT
from backbud_grammar.limiters import GOES_AWAY, LIMITING, REMOVED, WORD, limiter_among, word_set
from backbud_grammar.problems import Flaw

# Money without its sum says nothing.
_SUMS: tuple[ActWord, ...] = ("billed", "paid", "credited")
_COMES_OFF = REMOVED | word_set("is was all of the it on")
_STILL_ON = word_set("not never yet tomorrow later next soon")
# A branch that is put down stays on.
_BROUGHT_DOWN = re.compile(r"\b(?:put|pulled|bent|brought|drawn|led|set) down\b")
# A part of the tree in the midst of what is said.
_PART_IN = re.compile(
    r"\b(?:(?:left|right) \d{1,2}|apex|leader|crown|trunk)(?![\w-])", re.IGNORECASE
)
_WHAT_WAS_DONE = (
    "Write only what was done, each part in a detail of its own; the rest goes on a line that "
    "begins with noted."
)
_OF_ITS_DAY = (
    "What was done on {day} stands below that day's own heading, with its year; on this page write "
    "“noted {line}”."
)
_WHO_ASKS = "Who asks does not say that it is so: begin the whole line with noted."


def is_undone(form: ActForm, unread: Sequence[str]) -> bool:
    """Whether an act that puts on is said of something that comes off."""
    if not form.undone_by or not unread:
        return False
    said = {
        w.casefold() for run in unread for w in WORD.findall(_BROUGHT_DOWN.sub(" ", run.casefold()))
    }
    return not REMOVED.isdisjoint(said)


def flaw_of_limiter(form: ActForm, text: str, limiter: str, at: int) -> Flaw:
    """The problem of an act that a word from this place of its text on limits."""
    found = re.search(rf"\b{re.escape(limiter)}" if limiter != "?" else r"\?", text[at:])
    column = at + found.start() if found else at
    hint = _not_all_of_it(form, text) if form.of_all else _WHAT_WAS_DONE
    if limiter == "?":
        hint = _WHO_ASKS
    elif limiter.casefold() == "off" and form.undone_by:
        hint = _came_off(form, text)
    return Flaw(
        HELD_CODE,
        0,
        column,
        len(limiter),
        f"“{limiter}” may change what this line says, {CHANGES_NOTHING}",
        hint,
    )


def held_hint(
    form: ActForm, word: str, text: str, unread: Sequence[str], wrong: Sequence[Flaw]
) -> str:
    """How to write it: what was meant, before what was expected. `wrong`: all that is, in its
    order."""
    flaw = wrong[0]
    hint = without_dashes(form, word, flaw).hint
    if "?" in " ".join(unread):
        return _WHO_ASKS
    day = day_it_begins_with(text.split(", "))
    if day:
        return _OF_ITS_DAY.format(day=day, line=f"{word} {text}")
    if is_undone(form, unread):
        came_off = _came_off(form, text)
        if limiter_among(unread, _STILL_ON):
            return f"Where it is still on, write “noted {word} {text}”. {came_off}"
        return came_off
    if form.of_all and flaw.code in ("unknown-detail", "unknown-word", "unexpected-measure"):
        # No word that is like another is meant here: `lost the top` is not `lost to`.
        hint = "" if hint.startswith("Did you mean") else hint
        return " ".join(filter(None, (_not_all_of_it(form, text), hint)))
    lines = "" if limiter_among(unread, LIMITING) else _in_two_lines(form, text, wrong)
    if word.casefold() in form.bare_words and form.bearing != "ends":
        if hint.startswith("Expected"):
            seen = f"{word} {text}".rstrip()
            done = f"Write {form.word} where it was done"
            return f"{done}; where it was only seen, write “noted {seen}”."
        return f"Write {form.word} where it was done, noted where it was only seen. {hint}"
    if lines and hint.startswith(("Expected", "Here may follow", NO_DETAILS)):
        return lines
    of_one_piece = ("Did you mean", "Expected", "Give it", "A part of the tree stands")
    if limiter_among(unread, LIMITING) and hint.startswith(of_one_piece):
        return _WHAT_WAS_DONE
    return hint


def _in_two_lines(form: ActForm, text: str, wrong: Sequence[Flaw]) -> str:
    """The act with what of it was read, and the rest as a note below; "" where what is left would
    say more than was meant: bare `unwired` frees all."""
    read: list[str] = []
    noted: list[str] = []
    for start, piece in part_at_commas(text):
        is_wrong = any(start <= flaw.column < start + max(len(piece), 1) for flaw in wrong)
        (noted if is_wrong else read).append(piece)
    takes_off = form.bearing == "ends" and any(one.part for one in form.forms)
    if may_be_of_some(form, noted) or has_lost_its_sum(form, read, noted):
        return ""
    if not noted or not (read or not (takes_off or form.needs_detail)):
        return ""
    said = ", ".join(read)
    return (
        f"Write “{form.word}{' ' if said else ''}{said}”, and below it “noted {', '.join(noted)}”."
    )


def has_lost_its_sum(form: ActForm, read: Sequence[str], unread: Sequence[str]) -> bool:
    """Whether a sum is among what nobody read: a bill without it is none to offer."""
    return (
        form.word in _SUMS
        and any(map(str.isdigit, "".join(unread)))
        and not any(map(str.isdigit, "".join(read)))
    )


def may_be_of_some(form: ActForm, unread: Sequence[str]) -> bool:
    """Whether a figure that nobody read may be how many of a batch went."""
    return form.word in GOES_AWAY and any(map(str.isdigit, "".join(unread)))


def without_dashes(form: ActForm, word: str, flaw: Flaw) -> Flaw:
    """The flaw without the way to write free words: of what ends, or may be a noun, they would no
    longer hold it back behind the dashes."""
    if form.bearing != "ends" and word.casefold() not in form.bare_words:
        return flaw
    return replace(flaw, hint=flaw.hint.replace(REMARK_HINT, "").rstrip())


def _came_off(form: ActForm, text: str) -> str:
    """`wire off right 2`: the act that takes it off again, and where."""
    words = [word.strip(",") for word in text.split()]
    part = " ".join(word for word in words if word.casefold() not in _COMES_OFF)
    takes_part = any(one.part for one in form.forms)
    if not all(word in PART_WORDS or word.isdecimal() for word in part.split()):
        # Only where something is wrong is it sought in what is written short.
        from backbud_grammar.scribbles.spelled import in_full

        found = {one.casefold() for one in _PART_IN.findall(in_full(text))}
        part = found.pop() if len(found) == 1 else ""
    if takes_part and not part:
        # Bare, it would free all.
        return f"Where it came off, write {form.undone_by}, and of which part: on left 2."
    where = f" on {part}" if takes_part else ""
    return f"Where it came off, write {form.undone_by}{where}."


def _not_all_of_it(form: ActForm, text: str) -> str:
    return f"Where it was not all of the tree, write noted: noted {form.word} {text}."
