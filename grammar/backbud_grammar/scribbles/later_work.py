"""What a piece behind an act says is to follow: a look at it, the rest, or another spray."""

from __future__ import annotations

import re
from datetime import date

from msgspec import Struct

from backbud_grammar.act_words import ActWord
from backbud_grammar.scribbles.days import MONTH, SEASON, WEEKDAY, WHEN, when_of
from backbud_grammar.scribbles.draft import Draft
from backbud_grammar.scribbles.follows import REDO
from backbud_grammar.scribbles.openings.row import SPRAY

# By its bare form, as a plan names it.
_CHECK = "check"
_LOOK = re.compile(
    rf"(?P<rest>(?:the )?(?:others?|rest) )?(?:check|look)(?: at (?:it|them)| it)?(?: again)?"
    rf"(?: in| after| on)? (?P<when>{WHEN})",
    re.IGNORECASE,
)
_STAYS = re.compile(
    r"(?:(?:the )?(?:rest|others?|other wires?)(?: of (?:it|the wires?))?"
    r"|(?:the )?(?:left|right|top|apex|other)(?: side| \d)?)"
    r" (?:stays? |is left |left |leave )?(?:on )?(?:for )?(?:another )?"
    r"(?:(?P<when>\d+ (?:days?|weeks?|months?))(?: more| longer)"
    r"|(?P<more>(?:one|two|three) more (?:days?|weeks?|months?)))",
    re.IGNORECASE,
)
# What came off some part, so that there is a rest.
_OFF: tuple[ActWord, ...] = ("unwired", "unguyed", "untied")


# Another product, another day: `then oil in 5 days`.
_THEN_ANOTHER = re.compile(
    rf"(?:then |and then |next )?(?P<product>{SPRAY}) (?:in (?=\d)|on )?"
    rf"(?P<when>\d+ (?:days?|weeks?)|next week|tomorrow|{WEEKDAY})",
    re.IGNORECASE,
)
# What a look at the wire promises: `off in 2 weeks`.
_COMES_OFF = re.compile(r"(?:comes? |to come |take )?off (?:in (?=\d))?(?P<when>.+)", re.IGNORECASE)
# What was put on, and comes off again after a time: `fleece on, off in 2 days`.
_OFF_AGAIN = re.compile(
    r"(?:(?:and )?(?:comes |to come |take it |take )?off(?: again)?|sever|cut off)"
    rf" in (?P<when>\d+ (?:days?|weeks?|months?)|(?:next )?(?:{SEASON}|{MONTH}))",
    re.IGNORECASE,
)
# How long it is on: `fleece on, for 3 nights`.
_FOR_SO_LONG = re.compile(
    r"for (?:the |about |abt |ca )*(?:(?:first|next) )?"
    r"(?P<n>\d+) (?P<unit>days|nights|weeks|months)",
    re.IGNORECASE,
)
# `fleece on, stays till 1-4`.
_TILL_DAY = re.compile(
    r"(?:it )?(?:stays? |left |on |kept )*(?:till|until|til|to) (?P<when>\d{1,2}[./-]\d{1,2})", re.I
)
_TAKEN_OFF: dict[ActWord, str] = {
    "wired": "unwire",
    "guyed": "unguy",
    "wrapped": "unwrap",
    "protected": "unprotect",
    "shaded": "unshade",
    "layered": "separate",
}
# What comes off, by what was looked at.
_OFF_LATER = {"wire": "unwire", "layer": "separate"}


# Works that are done once more.
_REDONE = ("branches", "wire", "roots")


class LaterWork(Struct, frozen=True):
    """The bare form of a work that is to follow, when, as a plan says it, and its remark."""

    bare: str
    when: str
    remark: str = ""


def later_work(draft: Draft, piece: str, page: date | None) -> LaterWork | None:
    """The work that is to follow; None where the piece says nothing of the kind, or the day can be
    meant in two ways."""
    form = draft.form
    if form.names_act or form.prose or "no_work" in form.traits:
        return None
    if form.word in ("checked", "treated"):
        found = _of_look(draft, piece, page) or _of_spray(draft, piece, page)
        if found is not None:
            return found
    if form.word in _TAKEN_OFF or REDO.fullmatch(piece):
        found = _of_what_is_on(draft, piece, page)
        if found is not None:
            return found
    of_part = form.word in _OFF and any(" on " in f" {said}" for said, _ in draft.pieces)
    stays = _STAYS.fullmatch(piece) if of_part else None
    look = _LOOK.fullmatch(piece) if stays is None else None
    if look is not None and not (of_part if look["rest"] else form.bearing == "does"):
        return None
    said = stays or look
    written = said.groupdict() if said is not None else {}
    when = when_of(written.get("when") or written.get("more") or "", page)
    if not when:
        return None
    return LaterWork(form.bare if stays is not None else _CHECK, when)


def _of_what_is_on(draft: Draft, piece: str, page: date | None) -> LaterWork | None:
    """`fleece on, off in 2 days`; `styled, redo in spring`."""
    off, redo = _OFF_AGAIN.fullmatch(piece), REDO.fullmatch(piece)
    work = next((bare for word, bare in _TAKEN_OFF.items() if word == draft.form.word), "")
    if off is not None and work:
        is_cut = piece.casefold().startswith(("sever", "cut"))
        if is_cut != (work == "separate"):
            return None
        when = when_of(off["when"], page)
        return LaterWork(work, when) if when else None
    till = _TILL_DAY.fullmatch(piece)
    if till is not None and work and work != "separate":
        when = when_of(till["when"], page)
        return LaterWork(work, when) if when else None
    lasts = _FOR_SO_LONG.fullmatch(piece)
    if (
        lasts is not None
        and work
        and work != "separate"
        and (draft.pieces or draft.form.work == "shelter")
    ):
        unit = lasts["unit"].casefold().replace("nights", "days")
        when = when_of(f"{lasts['n']} {unit}", page)
        return LaterWork(work, when) if when else None
    if redo is not None and draft.form.bearing == "does" and draft.form.work in _REDONE:
        when = when_of(redo["when"], page)
        return LaterWork(draft.form.bare, when) if when else None
    return None


def _of_look(draft: Draft, piece: str, page: date | None) -> LaterWork | None:
    """`checked wire, off in 2 weeks`."""
    said = _COMES_OFF.fullmatch(piece) if draft.form.word == "checked" else None
    work = _OFF_LATER.get(draft.pieces[0][0].split()[0]) if draft.pieces else None
    when = when_of(said["when"], page) if said is not None else ""
    return LaterWork(work, when) if work and when else None


def _of_spray(draft: Draft, piece: str, page: date | None) -> LaterWork | None:
    """`soap, then oil in 5 days`; `soap first, then oil on Friday` is all to come."""
    said = _THEN_ANOTHER.fullmatch(piece) if draft.form.word == "treated" else None
    if said is None or not draft.pieces or draft.raw.casefold().endswith(" first"):
        return None
    when = when_of(said["when"], page)
    return LaterWork(draft.form.bare, when, said["product"]) if when else None
