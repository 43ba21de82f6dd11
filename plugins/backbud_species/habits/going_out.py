"""When a tender tree that wintered under warmth goes out. Common practice, no source."""

from __future__ import annotations

from datetime import timedelta

from backbud.species import CARE, Proposal, Proposals, Rule, Season, Species, Tree, Window, Year
from backbud_species.habits.warmth import under_cover

_WARMED = ("heated glass", "indoors")
# A shorter summer than this is not worth two moves; common practice, no source.
_WORTH_THE_MOVE = timedelta(weeks=6)


def goes_out(rule_id: str, *, because: str, cautions: tuple[str, ...] = ()) -> Rule:
    """A tender tree under warmth goes out once the nights are as mild as it bears.

    It stays in where, in one year of ten, they are so for less than six weeks.
    """

    def ask(species: Species, tree: Tree, given: Season, year: Year) -> Proposals:
        limit = species.comes_in_below_c
        if limit is None or not under_cover(year, *_WARMED):
            return
        nights = year.cold_nights_end(limit.value)
        autumn = year.cold_nights_begin(limit.value)
        if nights and autumn and autumn.first - nights.last < _WORTH_THE_MOVE:
            return
        if nights is not None:
            window = Window(nights.day, nights.last, nights.last + timedelta(days=21))
            datum = nights.because
        else:
            # Nothing is known of the nights, or none is so cold.
            window = year.months((5, 10), (5, 25), (6, 20))
            datum = f"{year.by_months} Wait until nights stay over {limit.value:g} °C."
        yield Proposal(
            "moved",
            window,
            what="out, into shade first",
            because=because,
            datum=datum,
            cautions=cautions,
            part="out",
            weight=CARE,
        )

    return Rule(rule_id, "season", (), "spring", -1, ask)
