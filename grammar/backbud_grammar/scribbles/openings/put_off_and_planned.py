"""How a line says that what is on a tree is to come off, or is to be looked at, and when."""

from __future__ import annotations

from backbud_grammar.scribbles.days import WHEN
from backbud_grammar.scribbles.openings.nouns import WORK
from backbud_grammar.scribbles.openings.row import ActOpening, rows

_ONLY = r"(?=\s*$)"
# What is looked at, by the words that name it.
_LATER = (
    r"(?:(?:check|look at)(?: the)?(?: wire| ties| guys?| layer| graft| roots)?|(?:wire|layer|next|wire bite) (?:check|look)"
    r")"
)
_AHEAD = r"(?:next (?:week|month|spring|summer|autumn|winter|year)|tomorrow)"

OPENINGS: tuple[ActOpening, ...] = (
    *rows(
        "planned",
        rf"(?P<named>{_LATER}) (?:again )?(?P<when>{_AHEAD}){_ONLY}",
        rf"(?P<named>{_LATER}) (?:again )?in (?P<when>\d+ (?:days|weeks|months)){_ONLY}",
        rf"(?P<named>next check) (?:in )?(?P<when>\d+ (?:days|weeks|months)){_ONLY}",
        instead=True,
    ),
    *rows(
        "planned",
        rf"(?P<named>{WORK}) (?:is )?planned,? (?:for |in |to |on )?(?P<when>{WHEN}){_ONLY}",
        rf"to (?P<named>{WORK}) (?:again )?(?:in |at )?(?P<when>{WHEN}){_ONLY}",
        instead=True,
    ),
    *rows(
        "planned",
        rf"(?P<named>(?:wire|guys?|ties|raffia|fleece) (?:must|should|has to|is to|to) (?:come|be) off) (?:in |by |before |at )?(?:the )?(?P<when>{WHEN}){_ONLY}",
        instead=True,
    ),
)
