"""Whether a pine's candles are cut this year, broken in spring, or left to rest.

Two years of cutting and one of rest: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from datetime import date, timedelta

from msgspec.structs import replace

from backbud.species import (
    CHANCE,
    Event,
    Proposal,
    Proposals,
    Rule,
    Species,
    Stage,
    Tree,
    Year,
    joined,
    phrase,
)
from backbud_species.habits.done import is_root_work, last_of_before, since
from backbud_species.habits.figures import DECANDLE_FROM
from backbud_species.habits.gates import DECANDLING, first_reason, short_summer, strength_first
from backbud_species.habits.roots import most_share, share_taken
from backbud_species.habits.second_flush import candle_cut
from backbud_species.habits.times import Time
from backbud_species.habits.warmth import summer, summer_against
from backbud_species.habits.works import LIGHT_WORK, feeds, pinches


def decandles(rule_id: str, when: Time, *, what: str, because: str, more_days: int = 0) -> Rule:
    """Candles of a two-flush pine cut, as early as the warm season that is left asks for.

    At a time `when` where nothing is known of the weather, and so early as for a short summer.
    `more_days`: how many more the second flush needs than a black pine's.

    Only on a strong and unstressed tree, in a place whose summer ripens a second flush.
    """

    def ask(species: Species, tree: Tree, given: Stage, year: Year) -> Proposals:
        cut = candle_cut(given, year, more_days)
        window = cut.window if cut else when.window(given, year)
        reason = DECANDLING.shut(tree, window.opens, year)
        if reason:
            yield strength_first(window, "decandled", reason)
            return
        known = (
            (summer_against(year, DECANDLE_FROM).datum, cut.datum) if cut else (summer(year).datum,)
        )
        yield Proposal(
            "decandled",
            window,
            what=what,
            because=because,
            datum=joined(" ".join((phrase("It is written down as strong."), *known)), *known),
            cautions=(
                phrase("Feed off and less water from now on; no other hard work this year."),
            ),
            weight=CHANCE,
        )

    return Rule(rule_id, when.hangs_on, (), when.season, when.stage, ask)


def with_rest(rule: Rule) -> Rule:
    """The rule, except after two years in which the candles were cut, and where no summer does.

    Where the summer is always too short nobody needs to be told so every year.
    """

    def ask(species: Species, tree: Tree, stage: Stage, year: Year) -> Iterable[Proposal]:
        if _two_years_running(tree, year) or short_summer(tree, stage.day, year):
            return ()
        return rule.function(species, tree, stage, year)

    return replace(rule, function=ask)


def only_asks_strength(rule: Rule) -> Rule:
    """The rule, and a look at a tree's candles where nobody has written down how strong it is.

    Silent on any other tree that is not decandled: in spring its candles were evened out instead.
    """

    def ask(species: Species, tree: Tree, stage: Stage, year: Year) -> Iterator[Proposal]:
        if short_summer(tree, stage.day, year):
            return
        for proposal in rule.function(species, tree, stage, year):
            if proposal.act == "decandled":
                yield proposal
            elif not tree.strength:
                yield replace(
                    proposal,
                    what=phrase("strength: are all the candles long, the needles dark?"),
                    because=phrase(
                        "Candles are cut only on a strong tree, so its strength is looked at first."
                    ),
                )

    return replace(rule, function=ask)


def evens_candles(
    rule_id: str, when: Time, *, because: str, unless_cut: Callable[[Tree, date, Year], str]
) -> Rule:
    """The longest candles broken in spring, where `unless_cut` says why none are cut in summer.

    None where they were cut already, nor where the roots lost more than it bears.
    """
    rule = pinches(
        rule_id,
        when,
        what="the longest candles to the length of the rest",
        because=because,
        gate=LIGHT_WORK,
        only_if=lambda tree, day, year: bool(unless_cut(tree, day, year)),
    )

    def ask(species: Species, tree: Tree, stage: Stage, year: Year) -> Iterator[Proposal]:
        for proposal in rule.function(species, tree, stage, year):
            if _has_answered(species, tree, year, proposal.window.closes):
                return
            yield replace(proposal, datum=unless_cut(tree, proposal.window.opens, year))

    return replace(rule, function=ask)


def feeds_for_candles(rule_id: str, when: Time) -> Rule:
    """Spring feed: well up to the cutting of the candles, or to gain the strength for it; lean on
    a strong tree where none are cut, since rich feed makes its needles long."""
    well = feeds(
        rule_id,
        when,
        what="well",
        because=("Fed well from spring on, it gathers the strength that candle work asks for."),
    )

    def ask(species: Species, tree: Tree, stage: Stage, year: Year) -> Iterator[Proposal]:
        for proposal in well.function(species, tree, stage, year):
            uncut = DECANDLING.shut(tree, proposal.window.opens, year)
            if tree.strength != "strong":
                yield proposal
            elif uncut:
                yield replace(
                    proposal,
                    what="leanly",
                    because=phrase(
                        "Where no candles are cut nothing shortens the needles but a lean "
                        "spring; the full feed comes in autumn."
                    ),
                    datum=uncut,
                )
            else:
                yield replace(proposal, what=phrase("well, until the candles are cut"))

    return replace(well, function=ask)


def candles_left_whole(tree: Tree, day: date, year: Year) -> bool:
    """Whether its candles were not broken this spring, so that its shoots may be cut later."""
    return not since(tree, year.first, day, lambda done: done.act == "pinched")


def _has_answered(species: Species, tree: Tree, year: Year, closes: date) -> bool:
    """Whether by the end of a window, as far as is known by now, the candles of this year were cut
    without having been broken, or root work took more than the species bears at its place."""
    until = min(year.today, closes) + timedelta(days=1)
    cut = last_of_before(tree, until, "decandled", first=year.first)
    if cut is not None and last_of_before(tree, cut.day, "pinched", first=year.first) is None:
        return True
    if species.root_share is None:
        return False
    most, _ = most_share(year, species.root_share)

    def took_too_much(done: Event) -> bool:
        taken = share_taken(tree, done) if is_root_work(done) else None
        return taken is not None and taken.share > most

    return since(tree, year.first, until, took_too_much)


def _tired(tree: Tree, day: date, year: Year) -> str:
    return (
        phrase("Its candles were cut in both years before.")
        if _two_years_running(tree, year)
        else ""
    )


# Why its candles are not cut this summer: it may not be decandled, or it rests.
keeps_candles = first_reason(DECANDLING.shut, _tired)


def _two_years_running(tree: Tree, year: Year) -> bool:
    """Whether its candles were cut in both of the years before this one."""
    one, two = year.first - timedelta(days=365), year.first - timedelta(days=730)
    return all(
        since(tree, first, before, lambda done: done.act == "decandled")
        for first, before in ((one, year.first), (two, one))
    )
