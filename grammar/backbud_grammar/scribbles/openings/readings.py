"""How a line says what was measured of water, soil and run-off: whose water it is stands before or behind."""

from __future__ import annotations

from backbud_grammar.scribbles.openings.row import ActOpening, rows
from backbud_grammar.scribbles.water_figures import FIGURE, SOURCE

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
        rf"(?={SOURCE}:? (?:is |now )?{FIGURE})",
        rf"(?=(?:EC|pH) (?:of )?(?:the )?{SOURCE} (?:is |now )?\d)",
        rf"(?={FIGURE})",
        r"(?=(?:water|soil) (?:temp|temperature) [-−]?\d[\d.,]* ?C?(?:$|,))",
        instead=True,
    ),
)
