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
from backbud_grammar.scribbles.company import tells_of_company
from backbud_grammar.scribbles.draft import TAKES_OFF, Draft
from backbud_grammar.scribbles.likened import is_likened
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


# It is what a look finds, or what ended.
_LOOKED = ("checked", "lost", "died")
# A mark that nobody made that day.
_WAS_SO = re.compile(
    r"(?:the |that |a )?(?:chips?|cracks?|scars?|marks?|scratch(?:es)?|dents?|breaks?|stains?|wounds?|hole)"
    r"(?: (?:in|on|at|under|by) (?:the )?[^\W\d_]+(?: [^\W\d_]+)?)? (?:was|were|is|are) (?:all )?(?:already )?"
    r"(?:there|so|old)(?: (?:before|already|when (?:it|she|he) (?:came|arrived)))*",
    re.IGNORECASE,
)
# What was carried away, and in how many goes: no figure of the act.
_BY_HAND = ("branches", "wire", "deadwood")
_DEBRIS = re.compile(
    r"(?:\d+|half a|a|one|two|three|four) (?:(?:carrier|bin|big|full) )*(?:bags?|barrows?|barrowloads?|buckets?|trugs?|sacks?)"
    r"(?: (?:full|out|away|of (?:it|them|leaves|needles|cuttings|bits|prunings|stuff|flowers|candles)))?",
    re.IGNORECASE,
)
_SITTINGS = re.compile(
    r"(?:over |in |took |spread over )?(?:\d|two|three|four) (?:eves|evenings|mornings|afternoons|goes|sittings|sessions|turns)",
    re.IGNORECASE,
)
_NOT_CUT = re.compile(
    r"(?:pulled|torn|plucked|snapped|twisted|broken),? (?:and )?not (?:cut|sawn|pinched|snipped|clipped)",
    re.IGNORECASE,
)
_FAR = r"(?:(?:a good |about |abt |nearly |another )?(?:\d+(?:[.,/]\d+)?(?: \d/\d)? (?:mm|cm|inch|degrees)|a (?:good )?(?:inch|hand|finger))|a good inch)"
_MOVED_SO_FAR = re.compile(
    rf"(?:(?:left \d|right \d|apex|top|leader|trunk|branch|tip|it) )?(?:moved|came|went|gave|dropped|swung|shifted) {_FAR}"
    r"(?: (?:left|right|down|up|lower|over|in|round|back|L|R))?",
    re.IGNORECASE,
)
_HOLDS = re.compile(
    r"(?:left \d|right \d|apex|top|leader) (?:holds?|stays put|keeps its place)(?: (?:with none|without(?: (?:it|wire|any))?|by itself|now|well))+",
    re.IGNORECASE,
)
_HAD_BITTEN = re.compile(
    r"(?:it |had |has )*(?:bit|bitten|biting|cut)(?: in)?(?: (?:a bit|a little|slightly|badly|deep))?"
    r"(?: (?:on|at|in) (?:(?:the )?(?:top|outer|inner|upper|lower|under)(?: side| bend)?|one|two|three|four|a few|\d|both|(?:left|right) \d)(?: (?:places?|spots?|branches|bends))?)?",
    re.IGNORECASE,
)
_PROPS = re.compile(
    r"(?:(?:\d+|a few|some|two|three|four) )?(?:pegs?|clips|bricks?|stones?|canes?|sticks?|hoops?|pins)"
    r"(?: to (?:keep|hold) (?:it|the fleece|the net|them) (?:off|up|down|clear|in place)(?: (?:of |off )?(?:the )?(?:buds?|leaves|candles|shoots|tips|flowers|tree))?)?",
    re.IGNORECASE,
)
# How it stands for a time after the work.
_KEPT_IN = re.compile(
    r"(?:in )?(?:shade|no sun|no wind|out of (?:the )?(?:sun|wind)|under cover|dark)(?: for)? (?:\d+|a|one|two|three) (?:days?|weeks?)",
    re.IGNORECASE,
)
_REST_OUT = re.compile(
    r"(?:all )?(?:the )?(?:rest|others?) (?:all )?(?:out|off|rubbed out|rubbed off|removed|pulled)",
    re.IGNORECASE,
)
_KEEP_AN_EYE = re.compile(
    r"(?:to )?watch(?: it| this| that)?|keep an eye(?: on (?:it|that|this))?", re.IGNORECASE
)
_READY_FOR = re.compile(
    r"(?:all |now )*(?:ready|prepared|set) (?:to|for) (?:be )?(?:the )?(?:wire|wiring|wired|repot(?:ting)?|pruning|prune|show|winter|spring|work|styling|pot|van|photo)",
    re.IGNORECASE,
)
# That nothing more is done to it for a time.
_HANDS_OFF = re.compile(
    r"(?:(?:and |so )?hands off|leave (?:it|her|him|them|this)(?: alone| be| in peace)?|let (?:it|her|him|them) (?:be|rest|recover|settle))"
    r"(?: (?:now|for now|from now on|this year|(?:till|until|til) (?:(?:early|mid|late) )?[^\W\d_]+|for (?:a while|\d+ (?:days|weeks|months)|a (?:month|year|season|week))))",
    re.IGNORECASE,
)


def is_hands_off(form: ActForm, piece: str) -> bool:
    """Whether a clause says that a tree is left alone from now on: `hands off till June`."""
    return (
        form.bearing == "does"
        and form.work in ("branches", "wire", "roots", "deadwood", "propagation")
        and _HANDS_OFF.fullmatch(piece) is not None
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
    if form.bearing != "keeps" and not (form.names_act or form.prose) and form.word not in _LOOKED:
        if tells_of_company(form, piece) or is_likened(piece) or is_hands_off(form, piece):
            return True
        if _WAS_SO.fullmatch(piece) is not None or _KEEP_AN_EYE.fullmatch(piece) is not None:
            return True
        if _leaves_some(draft) and _REST_OUT.fullmatch(piece) is not None:
            return True
        if (
            form.work in _BY_HAND
            and form.bearing == "does"
            and (
                _DEBRIS.fullmatch(piece) or _SITTINGS.fullmatch(piece) or _NOT_CUT.fullmatch(piece)
            )
        ):
            return True
        if form.work == "wire" and (_MOVED_SO_FAR.fullmatch(piece) or _HOLDS.fullmatch(piece)):
            return True
        if form.word == "unwired" and _HAD_BITTEN.fullmatch(piece):
            return True
        if form.word == "protected" and _PROPS.fullmatch(piece):
            return True
        if form.bearing == "does" and _KEPT_IN.fullmatch(piece):
            return True
        if form.bearing == "does" and _READY_FOR.fullmatch(piece) is not None:
            return True
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


def _leaves_some(draft: Draft) -> bool:
    """Whether what was read says how many were left, so that the rest came off."""
    return draft.form.work == "branches" and any(
        said.startswith(("leaving ", "to ")) for said, _ in draft.pieces
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
