"""Says of a treatment that is asked for while its tree flowers, that bees come to it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from msgspec.structs import replace

from backbud.plan.due import Due
from backbud.species import Window, Year
from backbud.tongue import phrase

# BBCH: first flowers, full flower, end of flowering.
_FLOWERS = (60, 65, 69)
SPARES_BEES = "Not while it flowers and bees fly; the label decides."


def spared_bees(dues: Sequence[Due], year: Callable[[], Year]) -> Sequence[Due]:
    """The dues; `year`: that of today, asked where something is to be treated. Common practice, no
    source."""
    if not any(_is_to_be_treated(due) for due in dues):
        return dues
    here = year()
    flowers = _in_flower(here)
    if flowers is None:
        return dues
    return [
        _with_care(due) if _is_to_be_treated(due) and _meets(due, flowers, here) else due
        for due in dues
    ]


def _is_to_be_treated(due: Due) -> bool:
    return due.follow_up.act == "treated" and due.follow_up.outcome == "open"


def _in_flower(year: Year) -> Window | None:
    """From the first day on which it may flower to the last; None where it has no flowers that
    anybody tells of."""
    stages = [stage for code in _FLOWERS if (stage := year.stage(code)) is not None]
    if not stages:
        return None
    first = min(stage.first for stage in stages)
    return Window(first, first, max(first, stages[-1].last))


def _meets(due: Due, flowers: Window, year: Year) -> bool:
    """Whether what is left of its days, today where they are past, meets those of the flowers."""
    window = due.follow_up.window
    first, last = max(window.opens, year.today), max(window.closes, year.today)
    return first <= flowers.closes and flowers.opens <= last


def _with_care(due: Due) -> Due:
    one = due.follow_up
    cautions = tuple(dict.fromkeys((*one.cautions, phrase(SPARES_BEES))))
    return replace(due, follow_up=replace(one, cautions=cautions))
