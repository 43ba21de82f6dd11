"""Keeps far-off days that hang on a growth stage still, so that a calendar changes seldom."""

from __future__ import annotations

from collections.abc import Callable

from msgspec.structs import replace

from backbud.species import Event, Proposal, Rule, Season, Stage, Year
from backbud.species.year import DAYS_EXACT

Given = Event | Season | Stage


def season_or_stage(rule: Rule, year: Year) -> Season | Stage | None:
    """What a yearly rule hangs on in a year; None where the species has no such stage."""
    return year.season(rule.season) if rule.hangs_on == "season" else year.stage(rule.stage)


def kept_still(
    ask: Callable[[Given, Year], list[Proposal]],
    found: list[Proposal],
    given: Given,
    year: Year,
) -> list[Proposal]:
    """What was `found` of a rule; far-off days that hang on a stage still to come go by what was
    known last Monday, and are set to Mondays, so that a calendar keeps still. `ask`: asks again."""
    if not isinstance(given, Stage) or given.observed or given.day <= year.today:
        return found
    if year.outlook is None or any(_is_near(proposal, year) for proposal in found):
        return found
    calm = year.last_monday
    then_expected = calm.stage(given.code)
    if calm is not year and then_expected is not None:
        found = ask(then_expected, calm)
    return [replace(proposal, window=calm.rounded(proposal.window)) for proposal in found]


def _is_near(proposal: Proposal, year: Year) -> bool:
    return (proposal.window.opens - year.today).days <= DAYS_EXACT
