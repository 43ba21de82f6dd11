"""Follow-ups made by hand, for tests of one step of the plan with no diary."""

from __future__ import annotations

from datetime import date
from typing import Any

from backbud.plan.due import Due
from backbud.plan.followups import FollowUp, Outcome
from backbud.species import Window
from backbud_grammar.acts import ACTS, by_word

ROWS = by_word(ACTS)
OF_DUE = ("at", "part", "bares", "covers", "event", "early", "by_sum")


def due(
    ident: str,
    act: str,
    window: str,
    outcome: Outcome = "open",
    *,
    rule: str = "some-rule",
    cause: str = "2027",
    where: str = "",
    title: str = "",
    **more: Any,
) -> Due:
    """A due by hand. `window`: the days that it opens, is best and closes on; `where`: the part of
    the tree."""
    of_due = {name: more.pop(name) for name in OF_DUE if name in more}
    if "moved_from" in more:
        more["moved_from"] = days(more["moved_from"])
    follow_up = FollowUp(
        ident,
        "hoshi",
        act,  # type: ignore[arg-type]
        title or act,
        days(window),
        (),
        (),
        10,
        more.pop("settled_by", (act,)),
        outcome,
        row=ROWS[act],
        part=where,
        **more,
    )
    return Due(follow_up, rule, cause, **of_due)


def days(window: str) -> Window:
    return Window(*map(date.fromisoformat, window.split()))
