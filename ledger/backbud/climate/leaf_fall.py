"""How many days earlier than in the reference climate a place's frosts bring the leaves down.

Long nights and slow cold end the leaf in a mild autumn; where winter comes at once, frost does:
leaves turn with the first ground frosts (a night of 2 °C in the air) and are off with the first
that kills them (-2 °C). So leaves that hang a week beyond such a night in the reference climate
hang no longer elsewhere. Both nights are fitted by us to Minneapolis, whose maples colour about
13 October and are bare by the end of it. Colder nights would not serve: in the mild winters of the
reference climate they come so late that leaf fall would hang on them by a month and more.
"""

from __future__ import annotations

from functools import lru_cache

from backbud.climate.cold_turns import ColdTurns
from backbud.climate.reference import YEAR, air

# BBCH 93, leaf fall begins, and 97, leaf fall over: the night in °C that brings it at the latest.
BROUGHT_BY_C = {93: 2.0, 97: -2.0}


@lru_cache(maxsize=4)
def reference_frost(code: int) -> tuple[int, int]:
    """The month and day of the reference climate's first such night, in the mean year."""
    turns = ColdTurns(air(), southern=False, region="Europe")
    found = turns.cold_nights_begin(YEAR, BROUGHT_BY_C[code])
    assert found is not None
    return found.day.month, found.day.day
