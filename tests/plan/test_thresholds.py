"""Each threshold of the plan that decides what a keeper is told, on both sides of it.

The days are counted by hand; the figures themselves are common practice, no source.
"""

from __future__ import annotations

import pytest

from backbud.species import (
    Proposal,
    Proposals,
    Season,
    Species,
    Tree,
    Year,
    each,
)

CARDS = """
    place yard
      latitude  56
    tree hoshi
      kind      garden shrub
      place     yard
      strength  strong
"""


def diary(*pages: tuple[str, str], cards: str = CARDS) -> str:
    return cards + "".join(f"\n    {day}\n    hoshi\n      {act}\n" for day, act in pages)


class Hard(Species):
    """Hard work, unless the tree is weak: then a look at it in its stead."""

    botanical = "Arbor dura"
    common = ("hard tree",)

    @each("spring", rule="bend")
    def bend(self, tree: Tree, season: Season, year: Year) -> Proposals:
        window = year.months((4, 1), (4, 10), (5, 10))
        if tree.weak:
            settled_by = ("checked strength", "vigour", "bent")
            yield Proposal("checked", window, "It is too weak.", settled_by=settled_by)
        else:
            yield Proposal("bent", window, "It is bent in spring.")


# ------------------------------------------------------------------ settle.py


@pytest.mark.parametrize(
    ("day", "outcome"),
    [
        # The window opens on 1 June; 60 days before it is 2 April.
        ("2027-04-02", "done"),
        ("2027-04-01", "open"),
    ],
)
def test_a_plan_is_settled_up_to_sixty_days_early(written, find, day, outcome) -> None:
    text = diary(("2027-01-10", "planned prune, to 2027-06"), (day, "pruned light"))
    assert find(written(text, "2027-07-01"), "planned/pruned").outcome == outcome


@pytest.mark.parametrize(
    ("day", "outcome"),
    [
        # The window opens on 1 June; 180 days before it is 3 December.
        ("2026-12-03", "done"),
        ("2026-12-02", "open"),
    ],
)
def test_root_work_is_settled_up_to_half_a_year_early(written, find, day, outcome) -> None:
    text = diary(("2026-11-10", "planned repot, to 2027-06"), (day, "repotted same pot"))
    assert find(written(text, "2027-07-01"), "planned/repotted").outcome == outcome


# ------------------------------------------------------------------ give_way.py


@pytest.mark.parametrize(
    ("to", "state"),
    [
        # The feed of spring is best on 10 April; 42 days after it is 22 May.
        ("2026-05-22/2026-05-30", "replaced"),
        ("2026-05-23/2026-05-30", "now"),
    ],
)
def test_a_plan_stands_for_a_proposal_six_weeks_before_it(
    written, states, pattern, to, state
) -> None:
    text = diary(("2025-06-06", "watered"), ("2026-03-01", f"planned feed, to {to}"))
    found = states(written(text, "2026-04-02"), "feed-spring/2026", pattern)
    assert found == {"hoshi/feed-spring/2026": state}


@pytest.mark.parametrize(
    ("to", "state"),
    [
        # The feed of autumn is best on 1 October; 42 days before it is 20 August.
        ("2026-08-10/2026-08-20", "replaced"),
        ("2026-08-10/2026-08-19", "now"),
    ],
)
def test_a_plan_stands_for_a_proposal_six_weeks_after_it(
    written, states, pattern, to, state
) -> None:
    text = diary(("2025-06-06", "watered"), ("2026-03-01", f"planned feed, to {to}"))
    found = states(written(text, "2026-09-20"), "feed-autumn/2026", pattern)
    assert found == {"hoshi/feed-autumn/2026": state}


# ------------------------------------------------------------------ insults.py, hard_work.py


@pytest.mark.parametrize(
    ("extent", "cautions"),
    [
        ("part", ()),
        ("usual", ("One insult a season: it was repotted on 2027-03-06.",)),
        ("hard", ("One insult a season: it was repotted on 2027-03-06.",)),
    ],
)
def test_work_in_part_is_no_second_insult(written, find, extent, cautions) -> None:
    class Stripped(Species):
        botanical = "Arbor foliata"
        common = ("leaf tree",)

        @each("summer", rule="strip")
        def strip(self, tree: Tree, season: Season, year: Year) -> Proposals:
            window = year.months((6, 1), (6, 5), (6, 15))
            yield Proposal("defoliated", window, "It is stripped.", extent=extent)

    session = written(diary(("2027-03-06", "repotted same pot")), "2027-06-02")
    assert find(session, "strip/2027", Stripped()).cautions == cautions


# ------------------------------------------------------------------ hang.py


@pytest.mark.parametrize(
    ("today", "act"),
    [
        # Spring begins on 1 March, and the window closes on 10 May.
        ("2027-03-01", "checked"),
        ("2027-04-20", "checked"),
        ("2027-05-10", "checked"),
        ("2027-05-11", "bent"),
    ],
)
def test_hard_work_is_held_back_from_its_seasons_first_day_to_its_windows_last(
    written, find, today, act
) -> None:
    text = diary(("2026-06-06", "watered"), ("2027-03-01", "vigour apex 1, low 1"))
    assert find(written(text, today), "bend/2027", Hard()).act == act
