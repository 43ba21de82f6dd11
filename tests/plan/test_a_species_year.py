"""The year of a species, as `backbud species` tells it, is that of a tree of it at that place."""

from __future__ import annotations

from datetime import date

import pytest

from backbud.commands.species.find import sheet_here
from backbud.commands.species.lines import sheet_lines
from backbud.pages import kind as layout
from backbud.views.facts import SpeciesFacts

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


@pytest.mark.parametrize("on", ["2026-02-24", "2026-05-28", "2026-08-14", "2026-12-20"])
@pytest.mark.parametrize("kind", ["trident maple", "Japanese black pine", "crab apple"])
def test_a_stage_that_nobody_saw_has_a_range_also_when_it_is_past(
    written, kind: str, on: str
) -> None:
    """What the sums say was reached, and what is set to one Monday: three days to either side."""
    session = written(CARDS.format(kind=kind), on, settings='home = "yard"\n')
    sheet = sheet_here(kind, session, date.fromisoformat(on))
    assert sheet.stages
    for stage in sheet.stages:
        assert (stage.best - stage.opens).days >= 3 <= (stage.closes - stage.best).days, stage
    told = "\n".join(sheet_lines(sheet))
    assert told.count(", about ") == len(sheet.stages)
    assert "The days of its stages in a cool temperate place are from memory." in told
    page = [days for _, days in stages_on_page(sheet, on)]
    assert len(page) == len(sheet.stages) and all(" to " in days for days in page)


def stages_on_page(sheet, on: str) -> tuple[tuple[str, str], ...]:
    """The stages as the page of the kind has them."""
    facts = SpeciesFacts(sheet.common, sheet.botanical, sheet.facts)
    laid = layout.sheet(facts, (), sheet, "a journal", date.fromisoformat(on))
    assert laid.year is not None
    return laid.year.stages
