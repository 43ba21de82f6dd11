"""A tree that bears no cold goes in before the nights turn cold."""

from __future__ import annotations

from datetime import timedelta

from backbud.species import Proposal, Proposals, Season, Tree, Weight, Window, Year, each, joined

# A tree that was not brought in is in danger all winter.
_COMES_IN = Weight("life", must=True, once_past="grows")
_WARMED = ("heated glass", "indoors")
_BEFORE = timedelta(days=14)
_A_FEW_DAYS = timedelta(days=4)
# Mild nights that last no longer are no summer out of doors.
_A_SUMMER = timedelta(weeks=6)


@each("autumn", rule="tender-in")
def in_before_cold_nights(tree: Tree, season: Season, year: Year) -> Proposals:
    """By the nights of the place; by months where nothing is known of them, or where nights are
    so cold that it lives outside for the warm days alone."""
    limit = year.comes_in_below_c
    if limit is None or year.cover.casefold().startswith(_WARMED):
        return
    tender = f"It comes in below {limit:g} °C."
    by_months = year.months((9, 1), (9, 15), (10, 15))
    if year.outlook is None:
        window, datum = by_months, f"{year.no_weather} {tender}"
    else:
        night, mild = year.cold_nights_begin(limit), year.cold_nights_end(limit)
        if night is None:
            return
        if mild is not None and night.first - mild.last < _A_SUMMER:
            yield _inside(by_months, f"{year.by_months} {tender}")
            return
        best = night.first - _A_FEW_DAYS
        window = year.rounded(Window(night.first - _BEFORE, best, max(night.day, best)))
        datum = joined(f"{night.because} {tender}", night.because)
    yield _inside(window, datum)


def _inside(window: Window, datum: str) -> Proposal:
    return Proposal(
        "moved",
        window,
        what="in, to a warm and light place",
        because="Cold nights stop its roots and drop its leaves.",
        datum=datum,
        cautions=("Look it over for pests before it joins what stands inside.",),
        settled_by=("moved",),
        part="in",
        weight=_COMES_IN,
    )
