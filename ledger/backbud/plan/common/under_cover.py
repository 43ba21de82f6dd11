"""A tree that went under cover for the winter, or was covered where it stands, is looked at once in
the dark months.

No rain reaches it and nobody passes: dry soil, still air and mice are found late. Where no such
cover is enough, it goes on at once to where it is kept.
"""

from __future__ import annotations

from datetime import timedelta

from backbud.climate.degrees import degrees
from backbud.collection.against import is_against_weather
from backbud.collection.places import is_winter_cover
from backbud.plan.common.held_off import held_off
from backbud.plan.common.winter_quarters import WARMED
from backbud.species import (
    CARE,
    PROTECTION,
    Event,
    Proposal,
    Proposals,
    Tree,
    Weight,
    Window,
    Year,
    after,
    comes_in,
    joined,
    weeks_after,
)
from backbud.tongue import phrase

_BEFORE, _A_YEAR = timedelta(days=14), timedelta(days=365)
_MIDSUMMER = (7, 1)
# Where the cover nearly does not do.
_NEARLY = Weight("harm", must=False, once_past="lapses")


@after("moved", rule="under-cover")
def looked_at_in_winter(tree: Tree, done: Event, year: Year) -> Proposals:
    """Weeks after it went in, in autumn or winter; not a tree that lives there, or in warmth."""
    if not tree.outside or tree.outside == tree.place or not is_winter_cover(year.cover):
        return
    if year.cover.casefold().startswith(WARMED) or year.on((2, 1)) < done.day < year.on((9, 15)):
        return
    yield from _looked_at(
        done,
        year,
        phrase("It was moved on {day}.", day=done.day),
        (phrase("Air the glass whenever the sun is on it: still damp air brings mould."),),
    )
    yield from _on_from_there(tree, done, year)


@after("protected", rule="under-protection")
def looked_at_under_its_fleece(tree: Tree, done: Event, year: Year) -> Proposals:
    """What was covered for the winter in autumn or winter. Common practice, no source."""
    if not tree.on("protection") or not is_against_weather(done) or is_winter_cover(year.cover):
        return
    if year.on((2, 1)) < done.day < year.on((9, 15)):
        return
    yield from _looked_at(done, year, phrase("Protected on {day}.", day=done.day), ())
    yield from _on_from_there(tree, done, year)


def _looked_at(done: Event, year: Year, datum: str, cautions: tuple[str, ...]) -> Proposals:
    """Weeks later, where it is still winter then."""
    window = weeks_after(done.day, 5, 7, 11)
    spring = (year if done.day < year.on(_MIDSUMMER) else year.following).on((2, 25))
    if window.best > spring:
        return
    yield Proposal(
        "checked",
        window,
        what=phrase("soil under cover, and water it on a mild day"),
        because=phrase(
            "No rain reaches it there, and roots that dry out in winter show it in spring."
        ),
        datum=datum,
        cautions=(*cautions, phrase("Look for gnawed bark: mice winter where trees do.")),
        settled_by=("checked soil", "watered"),
        weight=CARE,
    )


def _on_from_there(tree: Tree, done: Event, year: Year) -> Proposals:
    """Where nights come which the cover does not keep from it: on to where it is kept; but a tender
    tree comes in, to the warmth (tender.py)."""
    bears = year.bears(tree, done.day)
    nights = None if bears is None else year.hard_nights(bears.celsius)
    if bears is None or nights is None or comes_in(year) is not None:
        return
    covered = held_off(year, nights.one_in_ten_c, bears)
    if covered.enough == "yes":
        return
    # The earth's warmth reaches the roots, and them alone.
    in_earth = done.says("mulch", "heeled in", "plunged", "on the ground")
    top = year.top_bears_c
    if in_earth and (top is None or nights.one_in_ten_c >= top):
        return
    # What is covered in the second half of a winter is kept from the nights of that one.
    earlier = _A_YEAR if done.day < year.on(_MIDSUMMER) else timedelta()
    last = max(nights.last - earlier, done.day)
    first = min(max(nights.first - earlier - _BEFORE, done.day), last)
    yield Proposal(
        "moved",
        Window(first, min(first + _BEFORE, last), last),
        what=phrase("on, to a place that stays near 0 °C")
        if covered.enough == "no"
        else phrase("on, when a hard night is forecast"),
        because=phrase(
            "One winter in ten has {coldest} here; its roots bear {limit}.",
            coldest=degrees(nights.one_in_ten_c, ".0f"),
            limit=degrees(bears.celsius),
        ),
        datum=joined(f"{bears.because} {nights.because}{covered.datum}", nights.because),
        cautions=(covered.caution,),
        settled_by=("moved", "protected", "unprotected"),
        part="on",
        weight=PROTECTION if covered.enough == "no" else _NEARLY,
    )
