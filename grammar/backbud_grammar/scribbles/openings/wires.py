"""How a line says what wire, guy or raffia does to a branch, by the branch that it names."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.row import ActOpening, rows

OPENINGS: tuple[ActOpening, ...] = (
    *rows(
        "wrapped",
        r"(?=(?:on )?(?:(?:left|right) \d|apex|leader) with raffia(?: under(?:neath)?| below| first)?(?:$|,))",
    ),
    # What it was tied to, and not that it came off.
    *rows(
        "guyed",
        r"guy on (?P<on>(?:left|right) \d|apex|top|leader|trunk|jin) to "
        r"(?=\w)(?![^,.;]*\b(?:off|snapped|broken?|loose|gone|cut|slipped|came|out)\b)",
        details="to",
        instead=True,
    ),
    *rows(
        "bent",
        r"(?=(?:(?:left|right) \d|apex|leader) (?:pulled |bent |brought )?(?:down|up)$)",
        noun=True,
    ),
    *rows(
        "wired",
        r"(?=(?:left|right) \d(?: ?(?:\+|&|and) ?(?:(?:left|right) )?\d)+ wired(?:$|,))",
        noun=True,
    ),
    *rows("wired", r"(?=\d+ (?:of (?:the )?\d+ )?branches wired\b)", noun=True),
    *rows(
        "unwired",
        r"wires? (?=(?:left|right) \d (?:off|removed)(?:$|,))",
    ),
)
