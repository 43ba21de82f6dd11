"""How a line says what was measured of water, soil and run-off: whose water it is stands before or behind."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.row import ActOpening, rows
from backbud_grammar.scribbles.water_figures import FIGURE, SOURCE

# What it should be, and whose home the water is.
_NO_READING = r"(?![^;]*\b(?:target|aim|goal|limit|should|fish)\b)"

OPENINGS: tuple[ActOpening, ...] = (
    *rows(
        "measured",
        r"drain(?:age)? ?water(?= (?:EC|pH) ?\d)",
        details='of "drain water"',
        instead=True,
    ),
    *rows("drained", r"drain(?:age)? test", instead=True),
    *rows("measured", r"water (?:temp|temperature)(?= [-−]?\d)"),
    *rows(
        "measured",
        rf"{_NO_READING}(?={SOURCE}:? (?:is |now )?{FIGURE})",
        rf"{_NO_READING}(?=(?:EC|pH) (?:of )?(?:the )?{SOURCE} (?:is |now )?\d)",
        rf"{_NO_READING}(?={FIGURE})",
        r"(?=(?:water|soil) (?:temp|temperature) [-−]?\d[\d.,]* ?C?(?:$|,))",
        instead=True,
    ),
)
