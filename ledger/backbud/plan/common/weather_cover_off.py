"""Winter protection and a night's fleece come off again."""

from __future__ import annotations

from datetime import date, timedelta

from backbud.collection.against import is_against_weather
from backbud.plan.common.seasons import coming, coming_turn, is_late_frost_over
from backbud.plan.common.winter_quarters import RESTING_BEARS_C
from backbud.species import (
    PRESSING,
    Event,
    Proposal,
    Proposals,
    Schedule,
    Tree,
    Window,
    Year,
    a_year_later,
    after,
    days_after,
)
from backbud.tongue import phrase

_FRESH_ROOTS = timedelta(weeks=4)


@after("protected", rule="protection-off")
def weather_is_over(tree: Tree, done: Event, year: Year) -> Proposals:
    """When nights that its roots do not bear have ended, or by months. Months: common practice."""
    if not tree.on("protection") or not is_against_weather(done):
        return
    if done.day > year.on((8, 31)) or done.day < year.on((3, 1)):
        week_after = done.day + timedelta(days=7)
        bears = year.bears(tree, done.day)
        limit = bears.celsius if bears else RESTING_BEARS_C
        window, datum = coming_turn(year, week_after, limit) or (
            coming(year, week_after, (3, 10), (4, 5), (5, 10)),
            year.by_months,
        )
        yield _off(
            done,
            year,
            window,
            datum,
            because=phrase("Under winter cover growth starts early and soft."),
        )
    elif _has_fresh_roots(tree, done.day):
        yield _off(
            done,
            year,
            days_after(done.day, 21, 28, 42),
            phrase("Protected on {day}.", day=done.day),
            because=phrase("After four weeks new roots make up for sun and wind."),
        )
    else:
        yield _off(
            done,
            year,
            days_after(done.day, 1, 3, 21),
            phrase("Protected on {day}.", day=done.day),
            because=phrase("In growth a cover keeps light and air away."),
        )


def _has_fresh_roots(tree: Tree, day: date) -> bool:
    cut = tree.last_with("cuts_roots")
    return cut is not None and cut.day >= day - _FRESH_ROOTS


def _off(done: Event, year: Year, window: Window, datum: str, because: str) -> Proposal:
    return Proposal(
        "unprotected",
        window,
        datum=datum,
        because=because,
        cautions=(
            phrase("Choose a dull day.")
            if is_late_frost_over(year, done.day)
            else phrase("Choose a dull day, and keep fleece at hand for late frost."),
        ),
        bares=True,
        weight=PRESSING,
        schedule=Schedule(again=a_year_later(window)),
    )
