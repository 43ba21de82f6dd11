"""Growth stages (BBCH): what each is called, when a species reaches it, when a tree does."""

from __future__ import annotations

import calendar
from collections.abc import Mapping
from datetime import date, timedelta
from functools import lru_cache

from msgspec import Struct

from backbud.species.windows import Window
from backbud.tongue import phrase

# A day of a northern year; the south is shifted by six months.
MonthDay = tuple[int, int]
# For each BBCH stage its first, usual and last day.
StageMonths = Mapping[int, tuple[MonthDay, MonthDay, MonthDay]]


class Stage(Struct, frozen=True, gc=False):
    """A growth stage (BBCH) of one tree in one year: when it is, and how that is known.

    `because` is the datum in one sentence: a stage seen, or months for the hemisphere.
    """

    code: int
    first: date
    day: date
    last: date
    observed: bool
    because: str


# BBCH stages in the words of the bench: 00, 01, 07, 55, 65, 69, 89, 93 and 97 as the published
# scale of the grapevine has them, the others from memory of the monograph (Meier 2001).
STAGE_NAMES: Mapping[int, str] = {
    0: "Winter rest",
    1: "Bud swelling",
    7: "Bud burst",
    10: "First leaves",
    11: "First leaf open",
    19: "First leaves hard",
    31: "Shoots begin to grow",
    51: "Flower buds swelling",
    55: "Flower buds showing",
    59: "Flower buds colouring",
    60: "First flowers",
    65: "Full flower",
    69: "End of flowering",
    71: "Fruit set",
    81: "Fruit colouring",
    89: "Fruit ripe",
    91: "Shoot growth complete",
    93: "Leaf fall begins",
    97: "Leaf fall over",
}


def stage_name(code: int) -> str:
    """What a BBCH stage is called; one with no name of its own by the nearest before it."""
    named = _nearest_name(code)
    return (
        phrase(STAGE_NAMES[named])
        if named == code
        else phrase("{stage}, further on", stage=phrase(STAGE_NAMES[named]))
    )


@lru_cache(maxsize=128)
def _nearest_name(code: int) -> int:
    return max(known for known in STAGE_NAMES if known <= max(code, 0))


# Every tree of a place asks for the same few days.
@lru_cache(maxsize=4096)
def day_here(first: date, last: date, southern: bool, month_day: MonthDay) -> date:
    """The day of a growing year, by its first and last day, that a northern month and day means."""
    month, day = month_day
    if southern:
        month += 6 if month <= 6 else -6
    year = first.year if month >= first.month else last.year
    return date(year, month, min(day, calendar.monthrange(year, month)[1]))


def after_stage(stage: Stage, opens: int, best: int, closes: int) -> Window:
    """The window so many days after a stage's first, usual and last day; before it, if negative."""
    return Window(
        stage.first + timedelta(days=opens),
        stage.day + timedelta(days=best),
        stage.last + timedelta(days=closes),
    )
