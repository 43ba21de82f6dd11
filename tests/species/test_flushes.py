"""A trim of one flush, and when it stands for the next: the days before its window are literal."""

from __future__ import annotations

from datetime import date
from itertools import pairwise

import pytest
from tests.species.test_every_species import KINDS

from backbud.plan.run import plan_all
from backbud.species import PRESSING, Proposal, Proposals, Season, Species, Tree, Year, each

CARDS = """
    place yard
      latitude  50
    tree hoshi
      kind   {kind}
      place  yard

    2025-04-01
    hoshi
      bought
"""


def states(written, kind, *trimmed):
    """The state on 10 August 2026 of each trim of that year, by its rule."""
    pages = "".join(f"\n    {day}\n    hoshi\n      trimmed\n" for day in trimmed)
    session = written(CARDS.format(kind=kind) + pages, "2026-08-10", settings='home = "yard"\n')
    return {
        one.id.split("/")[1]: one.state(session.today)
        for one in session.plan().follow_ups["hoshi"]
        if one.act == "trimmed" and one.id.endswith("/2026")
    }


def test_a_trim_of_early_summer_does_not_stand_for_the_late_one_of_a_trident(written):
    # The late window opens on 20 July: 28 days before it is 22 June, and 7 days 13 July.
    assert states(written, "trident maple", "2026-06-25") == {
        "trident-trim": "done",
        "trident-trim-late": "now",
    }
    assert states(written, "trident maple", "2026-07-12")["trident-trim-late"] == "now"
    assert states(written, "trident maple", "2026-07-13")["trident-trim-late"] == "done"


@pytest.mark.parametrize("kind", KINDS)
def test_no_trim_counts_for_the_next_flush(made, kind):
    """A second trim whose window opens within four weeks of the first says how early it counts."""
    species = kind()
    trims = sorted(
        (p for p in made.yearly(species, made.tree(), made.year(species)) if p.act == "trimmed"),
        key=lambda p: p.window.opens,
    )
    for first, later in pairwise(trims):
        apart = (later.window.opens - first.window.closes).days
        # Two works of one flush: the later opens before the first is at its best.
        of_one_flush = later.window.opens <= first.window.best
        assert of_one_flush or apart >= 28 or later.early_days is not None, later.what


class Punctual(Species):
    """A species whose one work counts from the first day of its window on, and not before."""

    botanical = "Arbor punctualis"
    common = ("punctual tree",)

    @each("summer", rule="punctual-trim")
    def trim(self, tree: Tree, season: Season, year: Year) -> Proposals:
        yield Proposal(
            "trimmed",
            year.months((7, 1), (7, 10), (7, 31)),
            "It is trimmed in July.",
            early_days=0,
            weight=PRESSING,
        )


@pytest.mark.parametrize(("day", "state"), [("2026-06-30", "now"), ("2026-07-01", "done")])
def test_no_day_early_is_no_day_early(written, day, state):
    text = CARDS.format(kind="punctual tree") + f"\n    {day}\n    hoshi\n      trimmed\n"
    session = written(text, "2026-07-20", settings='home = "yard"\n')
    species = Punctual()
    plan = plan_all(
        session.journal, session.histories, lambda kind: species, session.weather, session.today
    ).value
    (trim,) = [one for one in plan.all() if one.id == "hoshi/punctual-trim/2026"]
    assert trim.state(date(2026, 7, 20)) == state
