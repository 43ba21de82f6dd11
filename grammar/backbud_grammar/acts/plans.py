"""Acts that speak of other acts: plans, skips, put-offs, corrections."""

from __future__ import annotations

from backbud_grammar.acts.builders import (
    DOES,
    ENDS,
    act,
    date,
    flag,
    measure,
    words,
)
from backbud_grammar.forms import ActForm, Form

GROUP = "Plans"
_SEASONS = tuple(
    f"{lead}{name}"
    for lead in ("in ", "next ", "this ")
    for name in ("spring", "summer", "autumn", "winter")
)
_LATER = (
    # Not named `to`: `planned move to tunnel, to 2028` holds both.
    date(("to", "until"), "when", about="when"),
    measure("in", "duration", about="counted from the page"),
    words("season", *_SEASONS, part=False, about="the one that is not over on that day"),
)

ACTS: tuple[ActForm, ...] = (
    act(
        GROUP,
        "planned",
        "plan",
        DOES,
        *_LATER,
        names_act=True,
        work="planning",
        traits=("no_work", "anywhere", "ahead"),
    ),
    act(
        GROUP,
        "skipped",
        "skip",
        ENDS,
        names_act=True,
        work="planning",
        traits=("no_work", "anywhere", "ahead"),
    ),
    act(
        GROUP,
        "put-off",
        "put-off",
        ENDS,
        *_LATER,
        names_act=True,
        work="planning",
        traits=("no_work", "anywhere", "ahead"),
    ),
    act(
        GROUP,
        "corrected",
        "correct",
        ENDS,
        Form("date", date=True),
        flag("not done", about="that act never happened"),
        names_act=True,
        about="replaces only the details it names",
        work="planning",
        traits=("no_work", "anywhere"),
    ),
)
