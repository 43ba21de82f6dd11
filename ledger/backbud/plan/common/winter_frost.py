"""A tree whose roots do not bear the nights to come is protected before they come."""

from __future__ import annotations

from datetime import timedelta

from backbud.species import Proposal, Proposals, Season, Tree, Window, Year, each, joined

# What keeps hard frost off, by its own heat or the earth's. Glass and fleece raise no minimum.
_KEEPS_FROST_OFF = ("heated glass", "indoors")
_BEFORE = timedelta(days=14)
_A_FEW_DAYS = timedelta(days=4)


@each("autumn", rule="winter-frost")
def before_the_first_hard_night(tree: Tree, season: Season, year: Year) -> Proposals:
    """Opens a fortnight before the first such night of one year in ten, and closes with it."""
    bears = year.roots_bear
    # A tender tree comes in instead (tender.py).
    if (
        bears is None
        or year.comes_in_below_c is not None
        or tree.planted_out
        or year.cover.casefold().startswith(_KEEPS_FROST_OFF)
    ):
        return
    if year.outlook is None:
        window = Window(year.on((11, 1)), year.on((11, 15)), year.on((12, 31)))
        datum = f"{year.no_weather} {bears.because}"
    else:
        night = year.cold_nights_begin(bears.celsius)
        if night is None:
            return
        opens, best = night.first - _BEFORE, night.first - _A_FEW_DAYS
        window = year.rounded(Window(opens, best, max(night.day, best)))
        datum = joined(f"{night.because} {bears.because}", night.because)
    yield Proposal(
        "protected",
        window,
        what="against winter frost",
        because=year.why_frost,
        datum=datum,
        cautions=("A heater under glass needs fresh air, and is kept clear of fleece.",)
        if bears.celsius > 0
        else (),
        settled_by=("protected", "moved"),
        lapses=True,
    )
