"""Finding a species by any of its names, with those that a journal's own plugins add."""

from __future__ import annotations

from datetime import date

from backbud.commands.species.sheet import KindSheet, imagined_tree, sheet_of, year_by_months
from backbud.plan.common import RULES
from backbud.plan.pack import KnownSpecies, Pack, installed
from backbud.plan.year import Years
from backbud.session import Session
from backbud.species import rules_of
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.problems import did_you_mean


class NoSuchSpecies(Exception):
    """No species has this name; the sentence names the nearest."""


def known_here(session: Session | None) -> tuple[KnownSpecies, ...]:
    """Every species that is known: in a journal, those of its trusted plugins too."""
    return tuple(_pack(session).all())


def sheet_here(name: str, session: Session | None, today: date) -> KindSheet:
    """The year of a species at the journal's home place; by months where there is no journal."""
    pack = _pack(session)
    species = pack.find(name)
    if species is None:
        names = [
            name
            for one in pack.all()
            for name in (*one.species.common, *one.species.also, one.species.botanical)
        ]
        hint = did_you_mean(name, names, "All that are known: backbud species")
        raise NoSuchSpecies(f"no species is called “{name}”. {hint}")
    known = next(one for one in pack.all() if one.species is species)
    common = [rule for module in RULES for rule in rules_of(module)]
    if session is None:
        year = year_by_months(species, today)
        return sheet_of(known, year, common, (), by_word(ACTS), {})
    years = Years(session.journal, session.weather, today)
    home = session.journal.settings.home
    year = years.at(imagined_tree(species, home, today), home, today, species, ())
    plugins = session.plugins
    return sheet_of(known, year, common, plugins.rules, session.journal.acts, plugins.facts)


def _pack(session: Session | None) -> Pack:
    return installed() if session is None else session.pack
