"""A tree that went under cover for the winter, or was covered where it stands, is looked at once in
the dark months.

No rain reaches it and nobody passes: dry soil, still air and mice are found late.
"""

from __future__ import annotations

from backbud.climate.degrees import degrees
from backbud.collection.against import is_against_weather
from backbud.collection.places import is_winter_cover
from backbud.plan.common.winter_frost import not_enough
from backbud.plan.common.winter_quarters import WARMED
from backbud.species import CARE, Event, Proposal, Proposals, Tree, Year, after, weeks_after
from backbud.tongue import phrase


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
        (
            *_too_cold(tree, done, year),
            phrase("Air the glass whenever the sun is on it: still damp air brings mould."),
        ),
    )


@after("protected", rule="under-protection")
def looked_at_under_its_fleece(tree: Tree, done: Event, year: Year) -> Proposals:
    """What was covered for the winter in autumn or winter. Common practice, no source."""
    if not tree.on("protection") or not is_against_weather(done) or is_winter_cover(year.cover):
        return
    if year.on((2, 1)) < done.day < year.on((9, 15)):
        return
    yield from _looked_at(done, year, phrase("Protected on {day}.", day=done.day), ())


def _looked_at(done: Event, year: Year, datum: str, cautions: tuple[str, ...]) -> Proposals:
    """Weeks later, where it is still winter then."""
    window = weeks_after(done.day, 5, 7, 11)
    spring = (year if done.day < year.on((7, 1)) else year.following).on((2, 25))
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


def _too_cold(tree: Tree, done: Event, year: Year) -> tuple[str, ...]:
    """That nights come which the cover does not keep from its roots."""
    bears = year.bears(tree, done.day)
    nights = None if bears is None else year.hard_nights(bears.celsius)
    if bears is None or nights is None or not (told := not_enough(year, nights, bears)):
        return ()
    coldest = degrees(nights.one_in_ten_c, ".0f")
    limit = degrees(bears.celsius)
    return (
        phrase(
            "One winter in ten has {coldest} here; its roots bear {limit}. {not_enough}",
            coldest=coldest,
            limit=limit,
            not_enough=told,
        ),
    )
