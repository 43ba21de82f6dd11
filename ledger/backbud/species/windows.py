"""When a work may be done: from a first day over a best day to a last."""

from __future__ import annotations

from datetime import date, timedelta

from msgspec import Struct


class Window(Struct, frozen=True, gc=False):
    """When a work may be done: the first day, the best day, the last day (all included)."""

    opens: date
    best: date
    closes: date

    def __post_init__(self) -> None:
        if not self.opens <= self.best <= self.closes:
            raise ValueError(f"window not in order: {self.opens} {self.best} {self.closes}")


def days_after(day: date, opens: int, best: int, closes: int) -> Window:
    """The window so many days after a day."""
    return Window(day + timedelta(opens), day + timedelta(best), day + timedelta(closes))


def weeks_after(day: date, opens: int, best: int, closes: int) -> Window:
    """The window so many weeks after a day."""
    return days_after(day, 7 * opens, 7 * best, 7 * closes)
