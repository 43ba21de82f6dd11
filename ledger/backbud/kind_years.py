"""The growing year of each kind of tree at the home place, as its page and `backbud species` show
it."""

from __future__ import annotations

from functools import partial

from backbud.plan.common import RULES
from backbud.plan.pack import KnownSpecies
from backbud.plan.run import Plan
from backbud.plan.year import Years
from backbud.session import Session
from backbud.species import rules_of
from backbud.views.kind import KindView, imagined_tree, kind_view


def kind_at_home(session: Session, known: KnownSpecies) -> KindView:
    """The sheet of a species, with its year at home."""
    species, today = known.species, session.today
    years = Years(session.journal, session.weather, today)
    home = session.journal.settings.home
    year = years.at(imagined_tree(species, home, today), home, today, species, ())
    common = [rule for module in RULES for rule in rules_of(module)]
    plugins = session.plugins
    return kind_view(known, year, common, plugins.rules, session.journal.acts, plugins.facts)


def kinds_at_home(session: Session, plan: Plan) -> dict[str, KindView]:
    """The sheet of each species of which a tree is known, by its common name."""
    found = {species.title: species for species in plan.species.values() if species}
    return {
        title: session.kept.once(
            ("kind year", title),
            (session.by_tree.world, session.today),
            partial(kind_at_home, session, KnownSpecies(species, "")),
        )
        for title, species in sorted(found.items())
    }
