"""What was not done, or is for later, as a line may begin with it."""

from __future__ import annotations

from backbud_grammar.scribbles.days import TILL, WHEN
from backbud_grammar.scribbles.openings.nouns import TO_DO, WORK
from backbud_grammar.scribbles.openings.row import ActOpening, rows

_MORE = r"(?:(?:more|further|other|new|any) )*"
# `not watered 5 days` tells what was, `no water 5 days` what is to be.
_NOT_PAST = r"(?!(?:\w*[^\We]ed|fed)\b)"
_ONLY = r"(?=\s*$)"

OPENINGS: tuple[ActOpening, ...] = (
    # How long it waits is said beside it; without that it may only be that it was not done.
    *rows(
        "put-off",
        rf"(?:no|not|nil) {_MORE}{_NOT_PAST}(?P<named>{WORK}|{TO_DO}) {TILL}(?P<when>{WHEN}){_ONLY}",
        rf"not (?P<named>{WORK}) (?:till|until|til|before) (?P<when>{WHEN}){_ONLY}",
        rf"(?P<named>{WORK}|{TO_DO}) (?:put off|postponed|delayed|waits|must wait|can wait|has to wait)"
        rf" {TILL}(?P<when>{WHEN})",
        rf"(?:postponed|delayed|put off) (?P<named>{WORK}|{TO_DO}) {TILL}(?P<when>{WHEN})",
        rf"(?!wir)(?P<named>{WORK}|{TO_DO}) (?:(?:stays? |is |kept |still )?off|on hold|held off) (?:till|until|til|'til) (?P<when>{WHEN})",
        rf"(?P<named>{WORK}|{TO_DO}) not (?:till|until|til|before) (?P<when>{WHEN})",
    ),
    *rows(
        "skipped",
        r"not done (?:the )?(?P<named>needles|candles|wire)",
        r"(?P<named>candles|needles) (?:not (?:touched|cut|done|pulled|plucked|broken)|left alone) this (?:year|spring|summer|autumn|fall|season)(?=$|,)",
        r"not (?:cutting|pulling|doing|touching|plucking) (?:the |her |his )?(?P<named>candles|needles)(?: this (?:year|time|season))?(?P<why>)(?=,)",
        rf"(?P<named>{WORK}) (?:skipped|left out|passed over)(?: this (?:year|time|spring))?(?P<why>)(?=$|,)",
        rf"(?P<named>{WORK}) not this (?:year|spring|summer|autumn|fall|season)(?=$|,)",
        rf"(?:no|not|skipped|skip) (?:done )?(?P<named>{WORK}) (?:this|the)"
        r" (?:year|spring|summer|autumn|fall|season|time)"
        r"(?! (?:yet|till|until|til|before|needed|again))",
        # Why stands behind it, or else it may only be told in passing.
        rf"(?:no|not|skipped|skip) (?:done )?(?P<named>{WORK})(?P<why>)"
        r"(?! (?:yet|till|until|til|before|needed|again|this|the|(?:for )?\d+ (?:days?|weeks?|months?))\b)",
    ),
    *rows(
        "put-off",
        rf"(?P<named>{WORK}) (?:put off|postponed|waits|must wait|delayed)",
        rf"(?:postponed|delayed) (?P<named>{WORK})",
    ),
    *rows(
        "planned",
        rf"(?:plan|planned|plan to|to do|todo)[:,]? (?P<named>{WORK})",
        rf"(?P<named>{TO_DO}) (?:again )?(?:in |due in |due |planned for |to do in |(?=next|tomorrow))"
        rf"(?P<when>{WHEN})(?:,? not (?:now|yet))?{_ONLY}",
    ),
)
