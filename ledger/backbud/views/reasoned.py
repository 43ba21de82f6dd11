"""Tells which works of a tree stand on its page with their whole reason: those that cannot wait."""

from __future__ import annotations

from backbud.views.work import WorkView


def keeps_reason(work: WorkView) -> bool:
    """Whether a work is past its time, can be done already, is a promise, or keeps the tree alive.

    What only opens later is said in one line until then.
    """
    return work.state != "coming" or work.at_stake == "life" or work.is_promise
