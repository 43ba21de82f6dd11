"""Tells of a winter that has begun the cold that may still come, and no longer its coldest weeks.

Figures go by the last Monday, so that a calendar that was subscribed to keeps still.
"""

from __future__ import annotations

from datetime import date

from backbud.climate.cold_turns import HardNights, said_against
from backbud.climate.datum import Datum
from backbud.species import Year
from backbud.words import monday_of


def cold_left(year: Year, nights: HardNights, limit_c: float) -> tuple[HardNights, date | None]:
    """The nights of a winter that do not suit a limit (°C) with the figures of what is left of it,
    and from which day on those hold; as they are and None before them and after, and while the
    coldest may still come."""
    outlook = year.outlook
    if outlook is None or not nights.first <= year.today <= nights.last:
        return nights, None
    left = outlook.cold_to_come(monday_of(year.today))
    if left.since is None:
        return nights, None
    milder = outlook.night_shift_c
    told = nights._replace(
        because=Datum(said_against(left, milder, limit_c), True),
        one_in_ten_c=left.one_in_ten_c + milder,
        give_or_take_k=left.give_or_take_k,
    )
    return told, left.since
