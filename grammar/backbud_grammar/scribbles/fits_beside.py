"""Tells whether a piece says no more of an act than why, how it was found, or what stays as is."""

from __future__ import annotations

import re

from backbud_grammar.elsewhen import elsewhen
from backbud_grammar.forms import ActForm
from backbud_grammar.hints import PART_WORDS
from backbud_grammar.scribbles.beside import (
    all_else_stays,
    grows_on,
    is_aftercare,
    is_beside,
    stays_till,
)
from backbud_grammar.scribbles.draft import TAKES_OFF, Draft
from backbud_grammar.scribbles.openings.nouns import NOUNS
from backbud_grammar.scribbles.spared import is_spared
from backbud_grammar.scribbles.talked import is_reason
from backbud_grammar.scribbles.turns import turns
from backbud_grammar.scribbles.water_figures import is_reading

_TOO = re.compile(r"\btoo\b", re.IGNORECASE)
# `low 19 fri` is no other day of the work.
_FORECAST = re.compile(r"(?:lows?|highs?|frosts?|min|max)\b", re.IGNORECASE)
_OFF_ONES = ("unwired", "unguyed", "untied")
# What is begun and stays for some time, beside what is put on.
_BEGUN = ("layered", "grafted", "bent", "shaded", "protected")
_NOT_DONE = re.compile(
    r"no (?P<work>[^\W\d]+(?:[- ][^\W\d]+)??)"
    r"(?: (?:done|this (?:time|year)|yet|now|for now))?",
    re.IGNORECASE,
)
# Work beside which water is measured.
_WET = ("water", "feed", "health", "roots")
# Work after which a tree is kept out of sun and wind.
_HEAL = ("branches", "roots", "wire", "propagation")
# What the hours came to; of a bill it is the sum, where no other was charged.
_HOURS_AND_SUM = re.compile(r"\d[\d.,]* h(?: (?:@|at) \d[\d.,]*)? ?= ?\d[\d.,]*")
# Why it was done, by what the tree wants of it.
_NEEDS = re.compile(
    r"(?:(?:it |she |he |tree )?(?:needs?|wants?) (?:the |its |to build )?"
    r"(?:strength|energy|vigou?r|building up|feeding up|light|air)(?: (?:first|inside|there))?"
    r"|(?:for|more) (?:strength|energy|vigou?r|light|air|back ?budding|ramification|density"
    r"|girth))",
    re.IGNORECASE,
)
# A share of the tree that was done.
_SOME = re.compile(
    r"\b(?:half|\d/\d|\d+ %|first round|weak|strong|top|lower"
    r"|\d+ (?:branch(?:es)?|shoots?|candles))\b",
    re.IGNORECASE,
)


def is_in_part(draft: Draft) -> bool:
    """Whether what was read says that only part of the tree was done."""
    return _names_part(draft) or any(_SOME.search(said) for said, _ in draft.pieces)


def fits_beside(draft: Draft, piece: str, line: str) -> bool:
    """Whether a piece fits what the act says; `line`: the whole of it."""
    form = draft.form
    if form.word == "lost" and not draft.pieces:
        # Of a batch it may be some.
        return False
    if form.word in TAKES_OFF and _TOO.search(piece):
        # `unprotected, too cold` may be why it stays on.
        return False
    if is_reason(piece, strict=draft.strict) or is_beside(form.word, piece):
        return _FORECAST.match(piece) is not None or not (turns(piece) or elsewhen((piece,)))
    if form.bearing == "does" and form.work in _WET and is_reading(piece):
        return True
    if form.bearing == "does" and _NEEDS.fullmatch(piece) is not None:
        return True
    if form.bearing == "does" and form.work in _HEAL and is_aftercare(piece):
        return True
    if form.word == "billed":
        return _HOURS_AND_SUM.fullmatch(piece) is not None and "charged" in line
    return (
        (_may_stay(draft) and all_else_stays(piece) and not _is_part_done(draft, piece))
        or (_lasts(draft) and stays_till(piece))
        or (form.work in ("branches", "wire") and not form.undone_by and grows_on(piece))
        or (
            form.work in ("branches", "wire")
            and form.bearing == "does"
            and is_spared(piece)
            and not _is_part_done(draft, piece)
        )
        or _is_other_work(form, piece)
    )


def _names_part(draft: Draft) -> bool:
    return any(" on " in f" {said}" for said, _ in draft.pieces)


def _is_part_done(draft: Draft, piece: str) -> bool:
    """Whether the part that is to stay is the one that was done: `left 1, left 1 untouched`."""
    words = piece.casefold().split()
    named = {word for word in words if word in PART_WORDS or word.isdigit()}
    done = {word for said, _ in draft.pieces for word in said.casefold().split()}
    return bool(named) and named <= done


def _may_stay(draft: Draft) -> bool:
    """Whether the rest may stay as it is: where a part was named, or some of what was cut."""
    if draft.form.word in _OFF_ONES:
        return _names_part(draft)
    return draft.form.bearing == "does" and is_in_part(draft)


def _lasts(draft: Draft) -> bool:
    """Whether what an act puts on, or begins, stays for some time."""
    return (bool(draft.form.undone_by) or draft.form.word in _BEGUN) and any(draft.pieces)


def _is_other_work(form: ActForm, piece: str) -> bool:
    """Whether a piece says that a work was not done which is another than this: `no thinning`."""
    found = _NOT_DONE.fullmatch(piece)
    if found is None or form.bearing != "does" or form.names_act:
        return False
    noun = NOUNS.get(found["work"].casefold(), "")
    return bool(noun) and noun not in (form.word, "checked")
