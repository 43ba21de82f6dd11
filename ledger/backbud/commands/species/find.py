"""Finds the species that are known in a journal, or with none, and the year of one of them."""

from __future__ import annotations

from datetime import date

from backbud.kind_years import kind_at_home
from backbud.plan.common import RULES
from backbud.plan.pack import Pack, installed
from backbud.session import Session
from backbud.species import rules_of
from backbud.views.kind import (
    KindName,
    KindView,
    kind_name,
    kind_view,
    year_by_months,
)
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.problems import did_you_mean


class NoSuchSpecies(Exception):
    """No species has this name; the sentence names the nearest."""


def known_here(session: Session | None) -> tuple[KindName, ...]:
    """Every species that is known: in a journal, those of its trusted plugins too."""
    return tuple(map(kind_name, _pack(session).all()))


def sheet_here(name: str, session: Session | None, today: date) -> KindView:
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
    if session is None:
        common = [rule for module in RULES for rule in rules_of(module)]
        return kind_view(known, year_by_months(species, today), common, (), by_word(ACTS), {})
    return kind_at_home(session, known)


def _pack(session: Session | None) -> Pack:
    return installed() if session is None else session.pack
