"""Tells on which days rotten roots were found that nobody has cut back yet."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from backbud.plan.common.rot_found import ROOTS_ROT
from backbud.plan.due import Due

# So long they hold back what else a tree would be asked; ours, no source.
HELD_BACK = timedelta(days=365)


def open_rot(dues: Iterable[Due]) -> list[date]:
    """The days of the looks that found it."""
    return [
        due.event.day
        for due in dues
        if due.rule == ROOTS_ROT and due.follow_up.outcome == "open" and due.event is not None
    ]
