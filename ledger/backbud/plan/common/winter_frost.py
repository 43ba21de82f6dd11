"""A tree whose roots do not bear the nights to come is protected, until they are over."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from typing import NamedTuple

from msgspec.structs import replace

from backbud.climate.cold_turns import HardNights
from backbud.climate.coldest_night import ColdestNight, Verdict
from backbud.climate.degrees import degrees
from backbud.collection.places import is_winter_cover
from backbud.plan.common.cold_left import cold_left
from backbud.plan.common.held_off import ENOUGH, HeldOff, held_off
from backbud.species import (
    CARE,
    PROTECTION,
    ColdNight,
    Event,
    Proposal,
    Proposals,
    Schedule,
    Season,
    Temperature,
    Tree,
    Weight,
    Window,
    Year,
    after,
    each,
    joined,
    summer_outside,
)
from backbud.tongue import day_and_month, phrase

# What keeps hard frost off, by its own heat or the earth's. Glass and fleece raise no minimum.
_KEEPS_FROST_OFF = ("heated glass", "indoors")
WINTER, CUT_ROOTS = "winter-frost", "winter-frost-cut-roots"
_BEFORE = timedelta(days=14)
_A_FEW_DAYS = timedelta(days=4)
# What a tree may die without where such a night comes; what does harm at the most where it nearly
# does; and where it is only close, what a keeper does for some trees and not for others.
_WEIGHTS: Mapping[Verdict, Weight] = {
    "comes": PROTECTION,
    "nearly": CARE,
    "close": Weight("harm", must=False, once_past="lapses"),
}
# One cold night does not freeze a ball so deep through while the days are mild, since the day gives
# back what the night takes; ours, no source.
_DEEP_CM, _MILD_C = 10.0, 7.0
_A_WEEK = 7
_WINTER_BEGINS = (12, 1)
# Where no night of ten years is colder no snow lies and no pot freezes through, nor where the
# coldest month is so mild; ours, no source.
_SNOW_LIES_C, _SNOW_MELTS_C = -3.0, 8.0


@each("autumn", rule=WINTER)
def before_the_first_hard_night(tree: Tree, season: Season, year: Year) -> Proposals:
    """Opens a fortnight before the first such night of one year in ten, and stays open until the
    last: a tree that stands unprotected in January is as much in danger as one in November.

    Where such a night is only close, cover is kept at hand, and it weighs less the more there is to
    spare.
    """
    yield from _protected(tree, year, year.bears(tree, season.first))


@after(having=("cuts_roots",), rule=CUT_ROOTS)
def roots_cut_in_autumn(tree: Tree, done: Event, year: Year) -> Proposals:
    """What autumn's rule could not know: the roots that it took for mature are young now.

    Where both ask, this one stands for the winter's (give_way.py).
    """
    known_before = any(entry.event.day < done.day for entry in tree.history)
    if done.day < year.on((9, 1)) or year.roots_bear is None or not known_before:
        return
    if tree.on("protection") or is_winter_cover(year.cover):
        return
    bears = year.bears(tree, done.day)
    if bears is None or bears.celsius <= year.roots_bear.celsius:
        return
    for asked in _protected(tree, year, bears):
        opens, closes = max(asked.window.opens, done.day), asked.window.closes
        best = max(asked.window.best, opens)
        yield replace(asked, window=Window(opens, best, max(best, closes)))


class _HardWinter(NamedTuple):
    """When nights come that a tree does not bear, and why; whether they come, how far the coldest
    of ten years that may still come lies over what it bears, whether fleece is enough; how cold it
    gets, and the same as figures. `spared`: whether the whole winter's is not so cold."""

    window: Window
    datum: str
    verdict: Verdict
    to_spare_k: float
    held_off: HeldOff
    coldest: str
    cold: ColdNight | None = None
    spared: bool = False


def _protected(tree: Tree, year: Year, bears: Temperature | None) -> Proposals:
    tender = year.comes_in_below_c is not None
    # A tender tree comes in instead (tender.py), but where it stands outside all year.
    if (
        bears is None
        or (tender and not _stays_out(year))
        or tree.planted_out
        or year.cover.casefold().startswith(_KEEPS_FROST_OFF)
    ):
        return
    found = _by_months(year, bears) if year.outlook is None else _by_nights(year, bears)
    if found is None or (tender and found.spared):
        return
    lasting = found.verdict == "comes" and not tender
    yield Proposal(
        "protected",
        found.window,
        what=phrase("against winter frost")
        if lasting
        else phrase("against winter frost, when a hard night is forecast"),
        because=year.why_frost,
        datum=found.datum,
        cautions=_cautions(bears, found, year),
        settled_by=("protected", "moved"),
        covers="any",
        weight=CARE if tender else _WEIGHTS[found.verdict],
        schedule=Schedule(in_time=found.coldest + _bear(bears, found)),
        cold=found.cold,
    )


def _stays_out(year: Year) -> bool:
    """Whether a tender tree stands outside all year, but for single nights."""
    summer = summer_outside(year)
    return summer is not None and summer.always


def _bear(bears: Temperature, found: _HardWinter) -> str:
    """What the roots bear, and how much there is to spare."""
    said = phrase("Roots like these bear about {degrees}.", degrees=degrees(bears.celsius))
    if found.to_spare_k <= 0:
        return said
    spare = phrase("There is {to_spare_k:.1f} K to spare.", to_spare_k=found.to_spare_k)
    return f"{said} {spare}"


def _cautions(bears: Temperature, found: _HardWinter, year: Year) -> tuple[str, ...]:
    if bears.celsius > 0:
        return (phrase("A heater under glass needs fresh air, and is kept clear of fleece."),)
    snow = phrase("Shake wet snow off before it freezes on, and keep mice from the bark with mesh.")
    is_mild = year.outlook is not None and year.outlook.coldest_month.mean_c >= _SNOW_MELTS_C
    lies = bears.celsius + found.to_spare_k <= _SNOW_LIES_C and not is_mild
    return tuple(filter(None, (found.held_off.caution, snow if lies else "")))


def _by_nights(year: Year, bears: Temperature) -> _HardWinter | None:
    """By the nights to expect."""
    nights = year.hard_nights(bears.celsius)
    if nights is None:
        return None
    opens = _reached(year, nights.first - _BEFORE)
    best = max(nights.first - _A_FEW_DAYS, opens)
    window = year.rounded(Window(opens, best, max(nights.last, best)))
    left, since = cold_left(year, nights, bears.celsius)
    covered = held_off(year, left.one_in_ten_c, bears)
    told = f"{bears.because} {left.because}{covered.datum}"
    return _HardWinter(
        window,
        joined(told, left.because),
        nights.verdict,
        left.one_in_ten_c - bears.celsius,
        covered,
        _how_cold(left, since),
        ColdNight(left.one_in_ten_c, left.give_or_take_k, bears.celsius, since),
        spared=nights.one_in_ten_c > bears.celsius,
    )


def _reached(year: Year, day: date) -> date:
    """The day from which such nights reach its roots: in a deep pot not in mild weather, though
    never later than where such nights come in winter alone. A night that is foretold is told
    (frost_ahead.py)."""
    last = year.on(_WINTER_BEGINS) - _BEFORE
    if year.deep_cm is None or year.deep_cm < _DEEP_CM:
        return day
    while day < last and _is_mild(year, day):
        day += timedelta(days=1)
    return day


def _is_mild(year: Year, day: date) -> bool:
    mean = year.usual_mean(day, _A_WEEK)
    return mean is not None and mean.celsius >= _MILD_C


def _by_months(year: Year, bears: Temperature) -> _HardWinter | None:
    """By months, where nothing is known of the weather but what the place's card may say."""
    window = Window(year.on((11, 1)), year.on((11, 15)), year.following.on((3, 10)))
    said: ColdestNight | None = year.coldest_said
    if said is None:
        unknown = phrase("How cold winters get here is not known.") + " "
        because = f"{year.no_weather} {bears.because}"
        return _HardWinter(window, because, "comes", 0.0, ENOUGH, unknown)
    verdict, spare = said.against(bears.celsius), said.one_in_ten_c - bears.celsius
    if verdict == "does not come":
        return None
    datum = f"{bears.because} {said.said()} {year.by_months}"
    return _HardWinter(
        window,
        datum,
        verdict,
        spare,
        ENOUGH,
        _how_cold(said),
        ColdNight(said.one_in_ten_c, said.give_or_take_k, bears.celsius),
        spared=spare > 0,
    )


def _how_cold(known: HardNights | ColdestNight, since: date | None = None) -> str:
    night = degrees(known.one_in_ten_c, ".0f")
    if since is not None:
        return phrase(
            "From {day} on one winter in ten still has a night of {degrees} here, "
            "± {give_or_take_k:.0f} K. ",
            day=day_and_month(since),
            degrees=night,
            give_or_take_k=known.give_or_take_k,
        )
    return phrase(
        "One winter in ten has a night of {degrees} here, ± {give_or_take_k:.0f} K. ",
        degrees=night,
        give_or_take_k=known.give_or_take_k,
    )
