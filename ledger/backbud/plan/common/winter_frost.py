"""A tree whose roots do not bear the nights to come is protected, until they are over."""

from __future__ import annotations

from datetime import timedelta

from msgspec.structs import replace

from backbud.climate.cold_turns import HardNights
from backbud.climate.degrees import degrees
from backbud.collection.places import is_winter_cover
from backbud.species import (
    PROTECTION,
    Event,
    Proposal,
    Proposals,
    Schedule,
    Season,
    Temperature,
    Tree,
    Window,
    Year,
    after,
    each,
    joined,
)
from backbud.tongue import phrase

# What keeps hard frost off, by its own heat or the earth's. Glass and fleece raise no minimum.
_KEEPS_FROST_OFF = ("heated glass", "indoors")
WINTER, CUT_ROOTS = "winter-frost", "winter-frost-cut-roots"
_BEFORE = timedelta(days=14)
_A_FEW_DAYS = timedelta(days=4)
# What no fleece, frame or unheated glass holds off for a whole cold week; ours, no source.
_HELD_OFF_K = 8.0
NOT_ENOUGH = (
    "Fleece or a frame alone does not hold off nights so far below that: sink the pot in the "
    "ground under mulch, or give it a place that stays near 0 °C."
)


@each("autumn", rule=WINTER)
def before_the_first_hard_night(tree: Tree, season: Season, year: Year) -> Proposals:
    """Opens a fortnight before the first such night of one year in ten, and stays open until the
    last: a tree that stands unprotected in January is as much in danger as one in November.

    Where such a night is only close, cover is kept at hand.
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


def _protected(tree: Tree, year: Year, bears: Temperature | None) -> Proposals:
    # A tender tree comes in instead (tender.py).
    if (
        bears is None
        or year.comes_in_below_c is not None
        or tree.planted_out
        or year.cover.casefold().startswith(_KEEPS_FROST_OFF)
    ):
        return
    found = _by_months(year, bears) if year.outlook is None else _by_nights(year, bears)
    if found is None:
        return
    window, datum, close, far_below, coldest = found
    yield Proposal(
        "protected",
        window,
        what=phrase("against winter frost, when a hard night is forecast")
        if close
        else phrase("against winter frost"),
        because=year.why_frost,
        datum=datum,
        cautions=_cautions(bears, far_below=far_below),
        settled_by=("protected", "moved"),
        covers="any",
        weight=PROTECTION,
        schedule=Schedule(
            in_time=phrase(
                "{coldest}Roots like these bear about {degrees}.",
                coldest=coldest,
                degrees=degrees(bears.celsius),
            )
        ),
    )


def _cautions(bears: Temperature, *, far_below: bool) -> tuple[str, ...]:
    if bears.celsius > 0:
        return (phrase("A heater under glass needs fresh air, and is kept clear of fleece."),)
    snow = phrase("Shake wet snow off before it freezes on, and keep mice from the bark with mesh.")
    return (NOT_ENOUGH, snow) if far_below else (snow,)


def far_below(nights: HardNights, bears: Temperature) -> bool:
    """Whether nights come that fleece or an unheated cover does not keep from the roots."""
    return nights.one_in_ten_c <= bears.celsius - _HELD_OFF_K


_Found = tuple[Window, str, bool, bool, str]


def _by_nights(year: Year, bears: Temperature) -> _Found | None:
    """By the nights to expect; then whether they are only close, or far below what it bears, and
    how cold they get."""
    nights = year.hard_nights(bears.celsius)
    if nights is None:
        return None
    best = nights.first - _A_FEW_DAYS
    window = year.rounded(Window(nights.first - _BEFORE, best, max(nights.last, best)))
    datum = joined(f"{bears.because} {nights.because}", nights.because)
    coldest = phrase(
        "One winter in ten has a night of {degrees} here, ± {give_or_take_k:.0f} K. ",
        degrees=degrees(nights.one_in_ten_c, ".0f"),
        give_or_take_k=nights.give_or_take_k,
    )
    return window, datum, nights.verdict == "close", far_below(nights, bears), coldest


def _by_months(year: Year, bears: Temperature) -> _Found | None:
    """By months, where nothing is known of the weather but what the place's card may say."""
    said, close = f"{year.no_weather} {bears.because}", False
    if year.coldest_said is not None:
        verdict = year.coldest_said.against(bears.celsius)
        if verdict == "does not come":
            return None
        close = verdict == "close"
        said = f"{bears.because} {year.coldest_said.said()} {year.by_months}"
    last = year.following.on((3, 10))
    return Window(year.on((11, 1)), year.on((11, 15)), last), said, close, False, ""
