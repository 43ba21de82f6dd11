"""A follow-up as the commands `due`, `tree` and `why` give it to a program."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from backbud.plan.followups import FollowUp


def follow_up_json(follow_up: FollowUp, today: date) -> dict[str, object]:
    """What is asked of which tree, its days in ISO 8601, its state today, and its reasons."""
    window = follow_up.window
    return {
        "id": follow_up.id,
        "tree": follow_up.tree,
        "act": follow_up.act,
        "title": follow_up.title,
        "from": window.opens.isoformat(),
        "best": window.best.isoformat(),
        "until": window.closes.isoformat(),
        "state": follow_up.state(today),
        "because": [reason.told for reason in follow_up.because],
        "cautions": list(follow_up.cautions),
        "minutes": follow_up.minutes,
    }
