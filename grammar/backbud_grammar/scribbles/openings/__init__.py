"""What a line may begin with where it begins with no act word, and the act that it then is.

Each opening can be said of one act only. What could be two acts stands in `meant.py`: it is asked.
"""

from __future__ import annotations

from msgspec.structs import replace

from backbud_grammar.scribbles.openings import (
    arrivals,
    branches,
    business,
    done_to,
    fastenings,
    feeds_and_sprays,
    japanese,
    keeping,
    other_tongues,
    plans,
    put_off_and_planned,
    readings,
    roots,
    shelter,
    taken,
    watching,
    wires,
    wood,
    worked_briefly,
    worked_on,
    worked_round,
    worked_wood,
)
from backbud_grammar.scribbles.openings.row import ActOpening

# `staged` stands for the number, and as well before the stage in words: `staged buds swelling`.
_STAGES_NAMED = tuple(
    replace(row, pattern=rf"staged?:? (?:as |at )?(?:{row.pattern})", instead=True)
    for row in watching.OPENINGS
    if row.act == "staged"
)
# The first that matches counts.
OPENINGS: tuple[ActOpening, ...] = (
    *_STAGES_NAMED,
    *plans.OPENINGS,
    *put_off_and_planned.OPENINGS,
    *worked_on.OPENINGS,
    *worked_wood.OPENINGS,
    *worked_round.OPENINGS,
    *worked_briefly.OPENINGS,
    *japanese.OPENINGS,
    *arrivals.OPENINGS,
    *wires.OPENINGS,
    *(replace(row, done_to=True) for row in done_to.OPENINGS),
    *branches.OPENINGS,
    *wood.OPENINGS,
    *roots.OPENINGS,
    *keeping.OPENINGS,
    *watching.OPENINGS,
    *business.OPENINGS,
    *taken.OPENINGS,
    *fastenings.OPENINGS,
    *shelter.OPENINGS,
    *feeds_and_sprays.OPENINGS,
    *readings.OPENINGS,
    *(replace(row, done_to=True) for row in other_tongues.OPENINGS),
)
