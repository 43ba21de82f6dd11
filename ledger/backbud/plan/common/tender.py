"""A tree that bears no cold goes in before the nights turn cold."""

from __future__ import annotations

from datetime import timedelta

from backbud.species import Proposal, Proposals, Season, Tree, Window, Year, each

_WARMED = ("heated glass", "indoors")
_BEFORE = timedelta(days=14)
_A_FEW_DAYS = timedelta(days=4)


@each("autumn", rule="tender-in")
def in_before_cold_nights(tree: Tree, season: Season, year: Year) -> Proposals:
    """By the nights of the place, or by months where nothing is known of them."""
    limit = year.comes_in_below_c
    if limit is None or year.cover.casefold().startswith(_WARMED):
        return
    tender = f"It comes in below {limit:g} °C."
    if year.outlook is None:
        window, datum = year.months((9, 1), (9, 15), (10, 15)), f"{year.no_weather} {tender}"
    else:
        night = year.cold_nights_begin(limit)
        if night is None:
            return
        best = night.first - _A_FEW_DAYS
        window = year.rounded(Window(night.first - _BEFORE, best, max(night.day, best)))
        datum = f"{night.because} {tender}"
    yield Proposal(
        "moved",
        window,
        what="in, to a warm and light place",
        because="Cold nights stop its roots and drop its leaves.",
        datum=datum,
        cautions=("Look it over for pests before it joins what stands inside.",),
        settled_by=("moved",),
        part="in",
    )
