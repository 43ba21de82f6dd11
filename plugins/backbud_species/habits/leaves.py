"""Taking leaves off a tree, all of them or some; and cover for young leaves while frosts come."""

from __future__ import annotations

from datetime import timedelta
from typing import NamedTuple

from backbud.species import CARE, CHANCE, Proposal, Proposals, Tree, Window, Year, joined, phrase
from backbud_species.habits.done import last_of_before
from backbud_species.habits.figures import GREAT_HEAT_OVER, GREAT_HEAT_TENDER_OVER
from backbud_species.habits.times import week_of
from backbud_species.habits.warmth import UNKNOWN, summer, under_cover

_ELEVEN_MONTHS = timedelta(days=330)


class Way(NamedTuple):
    """One way to do a work: the words that make it plain, and why, in one sentence."""

    what: str
    because: str


_A_DAY = timedelta(days=1)


def leaves_off(tree: Tree, year: Year, window: Window, full: Way | None, part: Way) -> Proposals:
    """All leaves from a strong, rested tree in a warm place; part of them from any other.

    Ask the gate first: nothing comes off a weak, sick or just repotted tree.
    """
    warmth = summer(year)
    last = last_of_before(tree, window.opens, "defoliated")
    rested = last is None or window.opens - last.day > _ELEVEN_MONTHS
    heat = _heat_on_new_leaves(year, window)
    if full and tree.strength == "strong" and rested and warmth.cool is False and not heat:
        yield Proposal(
            "defoliated",
            window,
            what=full.what,
            because=full.because,
            datum=warmth.after(phrase("It is written down as strong")),
            cautions=(phrase("No root work and no hard pruning in the same year."),),
            weight=CHANCE,
        )
        return
    yield Proposal(
        "defoliated",
        window,
        what=part.what,
        because=part.because,
        datum=_why_in_part(tree, full, rested, heat or warmth.datum),
        extent="part",
        weight=CHANCE,
    )


def _heat_on_new_leaves(year: Year, window: Window) -> str:
    """Why leaves that open after a stripping would scorch: great heat lies ahead; "" where none
    does. Trees of warm countries bear more of it."""
    over = GREAT_HEAT_TENDER_OVER if year.comes_in_below_c else GREAT_HEAT_OVER
    ahead = (one for one in year.hot_spells(over.of(year)) if one.last >= window.best)
    hot = next(ahead, None)
    if hot is None:
        return ""
    said = phrase(
        "{removesuffix} from {first} on, and new leaves scorch in it",
        removesuffix=hot.because.removesuffix("."),
        first=hot.first,
    )
    return joined(
        phrase("{said} ({name}, a setting of ours).", said=said, name=over.name),
        hot.because,
    )


def _why_in_part(tree: Tree, full: Way | None, rested: bool, weather: str) -> str:
    if full is None:
        return phrase("This species is never stripped of all its leaves at once.")
    if tree.strength != "strong":
        return phrase("It is not written down as strong.")
    return weather if rested else phrase("It was stripped less than a year ago.")


def late_frost(
    year: Year, first_leaf: Window, because: str, frost_c: float, lasts_days: int
) -> Proposals:
    """Cover for young leaves as long as frosts (°C) come after the first of them opens.

    Nothing where the place is covered, or where the last frost comes in a week before the leaves.
    """
    if year.cover and not under_cover(year, "open", "shade net"):
        return
    opens = first_leaf.opens - timedelta(days=3)
    soft_until = first_leaf.closes + timedelta(days=lasts_days)
    window, datum = Window(opens, first_leaf.best + timedelta(days=3), soft_until), UNKNOWN
    spell = year.ahead.frost(frost_c) if year.ahead is not None else None
    if spell is not None and opens < spell.first.day <= soft_until:
        # The nights that were feared have a date now.
        evening, last = spell.first.day - _A_DAY, spell.last.day - _A_DAY
        window, datum = Window(evening - timedelta(days=3), evening, last), spell.because
    elif year.outlook is not None:
        frost = year.cold_nights_end(frost_c)
        if frost is None or week_of(frost.last) < week_of(first_leaf.opens):
            return
        closes = max(frost.last, first_leaf.opens)
        # As far as a forecast sees, no night is so cold; one that tells of no night sees nothing.
        clear = year.ahead.clear_until if year.ahead is not None else year.today
        if clear > year.today:
            opens = max(opens, clear)
            if opens >= closes:
                return
        best = min(max(first_leaf.best, opens), closes)
        window, datum = Window(opens, best, closes), frost.because
    yield Proposal(
        "protected",
        window,
        what=phrase("young leaves against late frost"),
        because=because,
        datum=datum,
        settled_by=("protected", "moved"),
        covers="any",
        weight=CARE,
    )
