"""Some weeks under unheated glass after hard work, where it is cool, and out again.

Common practice; the mean under which it gains by glass is ours, no source.
"""

from __future__ import annotations

from datetime import date, timedelta

from backbud.species import (
    CARE,
    PRESSING,
    Event,
    Proposal,
    Proposals,
    Rule,
    Species,
    Tree,
    Weight,
    Window,
    Year,
    days_after,
    out_of_frost,
    phrase,
)
from backbud_species.habits.done import is_hard_work, since
from backbud_species.habits.rules import hung_after
from backbud_species.habits.warmth import three_weeks_ahead, under_cover

_GLASS = "unheated glass"
_WEEKS = "for two to three weeks"
_TOO_LONG = (
    "Eight or nine weeks under glass already make long soft growth, so it comes out in time."
)
_FOUR_WEEKS = timedelta(weeks=4)


def goes_under_glass(rule_id: str) -> Rule:
    """Two to three weeks under unheated glass in a cool place, and a date to come out.

    A work of the same day asks only once.
    """

    def ask(species: Species, tree: Tree, done: Event, year: Year) -> Proposals:
        if done != _first_hard_work_of_the_day(tree, done):
            return
        until_spring = _is_autumn(done.day, year)
        if until_spring and under_cover(year, _GLASS):
            return
        if under_cover(year, _GLASS):
            already = phrase("It already stands under unheated glass.")
            window = days_after(done.day, 14, 18, 21)
            yield _out_of_glass(*out_of_frost(tree, done.day, window, already, year), PRESSING)
            return
        warmth = three_weeks_ahead(year, done.day)
        if warmth.cool is False:
            return
        work = phrase("hard pruning") if done.act == "pruned" else phrase("root work")
        yield Proposal(
            "moved",
            days_after(done.day, 0, 1, 14 if until_spring else 7),
            what=phrase(
                "under unheated glass {value}",
                value=phrase("until spring") if until_spring else phrase(_WEEKS),
            ),
            because=phrase(
                "What is cut so late rests until spring, and unheated glass keeps it "
                "dry and out of the wind."
            )
            if until_spring
            else phrase(
                "In a cool, cloudy place two to three weeks under unheated glass help "
                "after {work}.",
                work=work,
            ),
            datum=warmth.datum,
            cautions=(phrase("Shade and air the glass on sunny days."),),
            part="in",
            weight=CARE,
        )
        # Once it is in for the winter, it is asked out as every tree in winter quarters.
        if not until_spring:
            window = days_after(done.day, 14, 21, 28)
            yield _out_of_glass(*out_of_frost(tree, done.day, window, warmth.datum, year))

    return hung_after(rule_id, ("pruned", "repotted", "potted-on", "root-pruned"), ask)


def comes_out_of_glass(rule_id: str) -> Rule:
    """A tree that did go under glass after hard work has to come out.

    The day of the work counts: the move in settles the date that the work itself asked for.
    """

    def ask(species: Species, tree: Tree, done: Event, year: Year) -> Proposals:
        if not under_cover(year, _GLASS) or _is_autumn(done.day, year):
            return
        if since(tree, done.day - _FOUR_WEEKS, done.day + timedelta(days=1), is_hard_work):
            went = phrase("It went under glass on {day}.", day=done.day)
            window = days_after(done.day, 14, 18, 21)
            yield _out_of_glass(*out_of_frost(tree, done.day, window, went, year), PRESSING)

    return hung_after(rule_id, ("moved",), ask)


def _is_autumn(day: date, year: Year) -> bool:
    """Whether no growth answers before the winter, so that glass keeps it until spring."""
    return day >= year.on((9, 15)) or day < year.on((2, 1))


def _first_hard_work_of_the_day(tree: Tree, done: Event) -> Event | None:
    same_day = tree.done_between(done.day, done.day)
    return next(filter(is_hard_work, (entry.event for entry in same_day)), None)


def _out_of_glass(window: Window, datum: str, weight: Weight = CARE) -> Proposal:
    return Proposal(
        "moved",
        window,
        what=phrase("out from under glass"),
        because=_TOO_LONG,
        datum=datum,
        part="out",
        bares=True,
        weight=weight,
    )
