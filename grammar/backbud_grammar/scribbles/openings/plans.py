"""What was not done, or is for later, as a line may begin with it."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.nouns import WORK
from backbud_grammar.scribbles.openings.row import ActOpening, rows

OPENINGS: tuple[ActOpening, ...] = (
    *rows(
        "skipped",
        r"not done (?:the )?(?P<named>needles|candles|wire)",
        rf"(?:no|not|skipped|skip) (?:done )?(?P<named>{WORK})(?: (?:this|the) (?:year|spring"
        r"|summer|autumn|fall|season|time))?(?! (?:yet|till|until|til|before|needed|again))",
    ),
    *rows(
        "put-off",
        rf"(?P<named>{WORK}) (?:put off|postponed|waits|must wait|delayed)",
        rf"(?:postponed|delayed) (?P<named>{WORK})",
    ),
    *rows(
        "planned",
        rf"(?:plan|planned|plan to|to do|todo)[:,]? (?P<named>{WORK})",
    ),
)
