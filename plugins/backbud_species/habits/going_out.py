"""When a tender tree that wintered under warmth goes out. Common practice, no source."""

from __future__ import annotations

from backbud.species import (
    CARE,
    Proposal,
    Proposals,
    Rule,
    Season,
    Species,
    Tree,
    Year,
    goes_out_from,
    phrase,
    summer_outside,
)
from backbud_species.habits.warmth import under_cover

_WARMED = ("heated glass", "indoors")


def goes_out(rule_id: str, *, because: str, cautions: tuple[str, ...] = ()) -> Rule:
    """A tender tree under warmth goes out once the usual night is as mild as it wants.

    It stays in where that lasts for less than six weeks.
    """

    def ask(species: Species, tree: Tree, given: Season, year: Year) -> Proposals:
        limit = species.comes_in_below_c
        if limit is None or not under_cover(year, *_WARMED):
            return
        summer = summer_outside(year)
        if summer is not None and summer.worth_it and not summer.always:
            window, datum = goes_out_from(summer, year), summer.because
        elif year.outlook is not None and (summer is None or not summer.always):
            return
        else:
            # Nothing is known of the nights, or none is so cold.
            window = year.months((5, 10), (5, 25), (6, 20))
            datum = phrase(
                "{by_months} Wait until nights stay over {value:g} °C.",
                by_months=year.by_months,
                value=limit.value,
            )
        yield Proposal(
            "moved",
            window,
            what=phrase("out, into shade first"),
            because=because,
            datum=datum,
            cautions=cautions,
            part="out",
            bares=True,
            weight=CARE,
        )

    return Rule(rule_id, "season", (), "spring", -1, ask)
