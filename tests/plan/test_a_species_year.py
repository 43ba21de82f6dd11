"""The year of a species, as `backbud species` tells it, is that of a tree of it at that place."""

from __future__ import annotations

from datetime import date

import pytest

from backbud.commands.species.find import sheet_here

CARDS = """
place yard
  latitude  56
  low   1 1 2 4 6 9 11 11 9 6 3 1 C
  high  6 7 9 12 15 18 20 19 17 13 9 6 C

tree hoshi
  kind   {kind}
  since  2010
  place  yard

2025-06-01
hoshi
  vigour  top 5
"""


@pytest.mark.parametrize("on", ["2026-02-24", "2026-05-28", "2026-08-14"])
@pytest.mark.parametrize("kind", ["trident maple", "Japanese black pine", "crab apple"])
def test_a_work_has_the_days_and_cautions_that_it_has_on_a_tree(
    written, kind: str, on: str
) -> None:
    """Far-off days too, which go by the weather known last Monday and are set to Mondays."""
    session = written(CARDS.format(kind=kind), on, settings='home = "yard"\n')
    sheet = sheet_here(kind, session, date.fromisoformat(on))
    plan = {(f.id.split("/")[1], f.title): f for f in session.plan().all() if "/2026" in f.id}
    both = [(work, plan[work.rule, work.title]) for work in sheet.works
            if (work.rule, work.title) in plan]  # fmt: skip
    assert len(both) >= 4
    for work, follow_up in both:
        assert (work.window, work.cautions) == (follow_up.window, follow_up.cautions), work.rule
