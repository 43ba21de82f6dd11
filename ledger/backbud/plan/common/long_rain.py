"""A pot that stands in long rain is looked at, so that its roots get air."""

from __future__ import annotations

from datetime import timedelta

from backbud.plan.common.spell_ahead import stands_open
from backbud.species import CARE, Foretold, Proposal, Proposals, Season, Tree, Window, Year, each
from backbud.tongue import phrase

_LASTS = timedelta(days=10)
_IN_TIME = timedelta(days=2)


@each("year", rule="long-rain", as_it_stands=True)
def does_the_pot_drain(tree: Tree, season: Season, year: Year) -> Proposals:
    """By rain that fell or is foretold, and only where it falls on the pot. Common practice, no
    source."""
    if year.outlook is None or tree.planted_out or not stands_open(year):
        return
    for spell in year.outlook.wet_spells(year.first):
        comes = spell.day > year.today
        opens = spell.day - _IN_TIME if comes else spell.day
        fell = phrase("will have fallen here, as foretold") if comes else phrase("fell here")
        yield Proposal(
            "checked",
            Window(opens, spell.day, spell.day + _LASTS),
            what=phrase("drainage: tilt the pots that stay wet, or shelter them"),
            because=phrase("Roots without air rot, and in weeks of rain no pot dries by itself."),
            datum=phrase(
                "In the ten days up to {day} {rain_mm:.0f} mm {fell}.",
                day=spell.day,
                rain_mm=spell.rain_mm,
                fell=fell,
            ),
            cautions=(phrase("Hold feed back: rain washes it out."),),
            settled_by=("checked drainage", "checked soil", "drained", "moved", "protected"),
            part="foretold" if comes else f"{spell.day}",
            weight=CARE,
            foretold=Foretold("rain", spell.day, phrase("{rain_mm:.0f} mm", rain_mm=spell.rain_mm))
            if comes
            else None,
        )
