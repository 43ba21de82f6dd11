"""Pests that a look found are treated, and what shows that something is at work is looked into."""

from __future__ import annotations

from backbud.plan.common.parts import on_part
from backbud.plan.common.seasons import before_growth
from backbud.plan.looks import LOOKS_FOR_PESTS, looks_found, places_found
from backbud.species import (
    PRESSING,
    Event,
    Proposal,
    Proposals,
    Schedule,
    Tree,
    Year,
    after,
    days_after,
)
from backbud.tongue import phrase
from backbud_grammar.act_words import as_settling
from backbud_grammar.acts.watching import PESTS

_BY_HAND_FIRST = "Stand it apart, and first pick, wipe or wash off what can be."
_IN_THE_ROOTS = (
    "Stand it apart, lift it from its pot and pick the grubs from its roots; what they have eaten"
    " wants fresh mix, and no feed."
)
_SHOW_SIGNS = frozenset({"leaves", "needles", "shoots", "buds", "bark"})


@after("checked", rule="pests-found")
def treat_them(tree: Tree, done: Event, year: Year) -> Proposals:
    """The sooner the more there are; a later look settles it. Common practice, no source."""
    for look in looks_found(done, PESTS, "some", "many", "alive", "sticky", "spots", "eaten"):
        many = look.finding == "many"
        window = days_after(done.day, 0, 1, 7) if many else days_after(done.day, 0, 3, 10)
        yield Proposal(
            "treated",
            window,
            what=phrase("against {what}", what=phrase(look.what)),
            because=phrase("They were found on {day}, and go from tree to tree.", day=done.day),
            cautions=(phrase(_IN_THE_ROOTS if look.what == "weevils" else _BY_HAND_FIRST),),
            settled_by=(
                "treated",
                as_settling("cleaned", look.what),
                as_settling("checked", look.what),
                *(("repotted",) if look.what == "weevils" else ()),
            ),
            part=look.what,
            weight=PRESSING,
            schedule=Schedule(again=before_growth(year, window.closes)),
        )


@after("checked", rule="pest-signs")
def what_is_at_work(tree: Tree, done: Event, year: Year) -> Proposals:
    """Common practice, no source."""
    if done.has("again"):
        return
    places = places_found(done, _SHOW_SIGNS, "sticky", "spots", "eaten")
    for part in places:
        yield Proposal(
            "checked",
            days_after(done.day, 0, 2, 7),
            what=on_part(phrase("for pests"), part),
            part=part,
            because=phrase("Before anything is treated, somebody knows what it is."),
            settled_by=(*LOOKS_FOR_PESTS, "treated"),
            minutes=5,
            weight=PRESSING,
        )
