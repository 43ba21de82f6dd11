"""Each threshold of the plan that decides what a keeper is told, on both sides of it.

The days are counted by hand; the figures themselves are common practice, no source.
"""

from __future__ import annotations

from datetime import date

import pytest

from backbud.collection.fold import tree_on
from backbud.plan.foliage import BARE, IN_LEAF, THINNED, Foliage
from backbud.plan.year import Years
from backbud.species import (
    CHANCE,
    PRESSING,
    Proposal,
    Proposals,
    Season,
    Species,
    Tree,
    Weight,
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
            yield Proposal(
                "checked", window, "It is too weak.", settled_by=settled_by, weight=PRESSING
            )
        else:
            yield Proposal("bent", window, "It is bent in spring.", weight=PRESSING)


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
        ("usual", ("One insult a season: it was repotted on 6 March 2027.",)),
        ("hard", ("One insult a season: it was repotted on 6 March 2027.",)),
    ],
)
def test_work_in_part_is_no_second_insult(written, find, extent, cautions) -> None:
    class Stripped(Species):
        botanical = "Arbor foliata"
        common = ("leaf tree",)

        @each("summer", rule="strip")
        def strip(self, tree: Tree, season: Season, year: Year) -> Proposals:
            window = year.months((6, 1), (6, 5), (6, 15))
            yield Proposal("defoliated", window, "It is stripped.", extent=extent, weight=PRESSING)

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


@pytest.mark.parametrize(
    ("day", "found"),
    [
        # Acts of this growing year and of the three before it ask for something.
        ("2023-01-01", {"pruned-2023-01-01/in", "pruned-2023-01-01/out"}),
        ("2022-12-31", set()),
    ],
)  # fmt: skip
def test_an_act_asks_for_something_for_three_growing_years(
    written, states, pattern, day, found
) -> None:
    session = written(diary((day, "pruned light")), "2026-11-20")
    asked = states(session, "/shelter/", pattern)
    assert {ident.removeprefix("hoshi/shelter/") for ident in asked} == found


@pytest.mark.parametrize(
    ("today", "found"),
    [
        # 400 days after 25 January 2026 is 1 March 2027.
        ("2026-01-25", {"hoshi/repot/2026", "hoshi/repot/2027"}),
        ("2026-01-24", {"hoshi/repot/2026"}),
    ],
)
def test_a_season_is_seen_four_hundred_days_ahead(written, states, pattern, today, found) -> None:
    text = diary(("2023-03-20", "repotted same pot"))
    assert set(states(written(text, today), "/repot/", pattern)) == found


# ------------------------------------------------------------------ settle.py: a word


@pytest.mark.parametrize(
    ("day", "outcome"),
    [
        # 399 days before 1 June 2027 is 28 April 2026.
        ("2026-04-28", "skipped"),
        ("2026-04-27", "open"),
    ],
)
def test_a_word_speaks_of_nothing_over_four_hundred_days_away(written, find, day, outcome) -> None:
    text = diary(("2026-03-01", "planned prune, to 2027-06"), (day, "skipped prune"))
    assert find(written(text, "2026-05-01"), "planned/pruned").outcome == outcome


@pytest.mark.parametrize(
    ("day", "rest"),
    [
        # The second pass opens on 20 June; four weeks before it is 23 May.
        ("2026-05-23", "skipped"),
        ("2026-05-22", "open"),
    ],
)
def test_a_word_is_about_what_opens_within_four_weeks(written, find, pattern, day, rest) -> None:
    session = written(diary(("2025-06-06", "watered"), (day, "skipped trim")), "2026-05-25")
    assert find(session, "trim/2026/low", pattern).outcome == "skipped"
    assert find(session, "trim/2026/rest", pattern).outcome == rest


@pytest.mark.parametrize(
    ("day", "state"),
    [
        # Repotted on 6 March it may be fed again until 1 May.
        ("2026-05-01", "skipped"),
        ("2026-05-02", "lapsed"),
    ],
)
def test_a_word_is_about_advice_until_its_window_closes(written, states, day, state) -> None:
    text = diary(("2026-03-06", "repotted same pot"), (day, "skipped feed"))
    assert states(written(text, "2026-06-01"), "feed-rests") == {
        "hoshi/feed-rests/repotted-2026-03-06": state
    }


class Lapsing(Species):
    """A chance of each spring, that is gone once its window has passed."""

    botanical = "Arbor vernalis"
    common = ("spring tree",)

    @each("spring", rule="thin")
    def thin(self, tree: Tree, season: Season, year: Year) -> Proposals:
        window = year.months((4, 1), (4, 10), (5, 10))
        yield Proposal("thinned", window, "It is thinned in spring.", weight=CHANCE)


@pytest.mark.parametrize(
    ("day", "outcome"),
    [
        # The spring of 2026 is over with 10 May: up to 119 days later, on 6 September, a word is
        # about that one, and then about the spring to come, which opens on 1 April.
        ("2026-05-11", "open"),
        ("2026-09-06", "open"),
        ("2026-09-07", "skipped"),
    ],
)
def test_a_word_is_about_a_season_just_over_for_four_months(written, find, day, outcome) -> None:
    session = written(diary(("2025-06-06", "watered"), (day, "skipped thin")), "2026-09-10")
    assert find(session, "thin/2027", Lapsing()).outcome == outcome
    assert find(session, "thin/2026", Lapsing()).outcome == "open"


@pytest.mark.parametrize("day", ["2026-03-04", "2026-05-10"])
def test_a_word_before_a_season_is_over_is_about_that_season(written, find, day) -> None:
    session = written(diary(("2025-06-06", "watered"), (day, "skipped thin")), "2026-09-10")
    assert find(session, "thin/2026", Lapsing()).outcome == "skipped"
    assert find(session, "thin/2027", Lapsing()).outcome == "open"


@pytest.mark.parametrize(
    ("opens", "outcome"),
    [
        # The first of the two closes on 15 June.
        ("2027-06-15", "skipped"),
        ("2027-06-16", "open"),
    ],
)
def test_a_word_ahead_is_about_all_that_opens_before_the_first_closes(
    written, find, opens, outcome
) -> None:
    text = diary(
        ("2026-03-01", "planned prune, to 2027-06-01/2027-06-15"),
        ("2026-03-02", f"planned prune, to {opens}/2027-06-30"),
        ("2027-01-10", "skipped prune"),
    )
    session = written(text, "2027-01-11")
    assert find(session, "pruned-2026-03-01").outcome == "skipped"
    assert find(session, "pruned-2026-03-02").outcome == outcome


@pytest.mark.parametrize(
    ("day", "outcome"),
    [
        # From 15 September the feed of autumn stands for that of spring.
        ("2026-09-14", "done"),
        ("2026-09-15", "open"),
    ],
)
def test_an_act_settles_a_work_until_the_next_stands_for_it(
    written, find, pattern, day, outcome
) -> None:
    text = diary(("2025-06-06", "watered"), (day, "fed 4 cakes"))
    assert find(written(text, "2026-09-20"), "feed-spring/2026", pattern).outcome == outcome


@pytest.mark.parametrize(
    ("day", "rest"),
    [
        # The second pass opens on 20 June.
        ("2026-06-20", "done"),
        ("2026-06-19", "open"),
    ],
)
def test_an_act_settles_the_passes_whose_windows_have_opened(
    written, find, pattern, day, rest
) -> None:
    session = written(diary(("2025-06-06", "watered"), (day, "trimmed outline")), "2026-06-21")
    assert find(session, "trim/2026/low", pattern).outcome == "done"
    assert find(session, "trim/2026/rest", pattern).outcome == rest


# ------------------------------------------------------------------ give_way.py: once a year


@pytest.mark.parametrize(
    ("closes", "outcome"),
    [
        # The repotting of 2028 is best on 15 March; 180 days before it is 17 September.
        ("2027-09-17", "replaced"),
        ("2027-09-16", "open"),
    ],
)
def test_a_plan_of_root_work_stands_for_half_a_year_after_it(
    written, find, pattern, closes, outcome
) -> None:
    text = diary(
        ("2023-03-20", "repotted same pot"),
        ("2027-08-01", f"planned repot, to 2027-09-10/{closes}"),
    )
    assert find(written(text, "2027-09-01"), "hoshi/repot/2028", pattern).outcome == outcome


@pytest.mark.parametrize(
    ("said", "outcome"),
    [
        # The repotting of 2026 is best on 15 March; 365 days after it is 15 March 2027.
        ("2027-03-15", "replaced"),
        ("2027-03-16", "open"),
    ],
)
def test_a_plan_of_root_work_stands_for_a_year_before_it_was_said(
    written, find, pattern, said, outcome
) -> None:
    text = diary(("2023-03-20", "repotted same pot"), (said, "planned repot, to 2027-05"))
    assert find(written(text, "2027-03-20"), "hoshi/repot/2026", pattern).outcome == outcome


# ------------------------------------------------------------------ insults.py: a season


@pytest.mark.parametrize(
    ("opens", "warned"),
    [
        # 150 days from 6 March is 3 August.
        ("2026-08-02", True),
        ("2026-08-03", False),
    ],
)
def test_an_insult_is_remembered_for_a_season(written, find, opens, warned) -> None:
    text = diary(
        ("2026-03-06", "repotted same pot"),
        ("2026-04-01", f"planned defoliate, to {opens}/2026-08-20"),
    )
    said = ("One insult a season: it was repotted on 6 March 2026.",) if warned else ()
    assert find(written(text), "planned/defoliated").cautions == said


@pytest.mark.parametrize(
    ("day", "said", "warned"),
    [("2026-05-31", "31 May 2026", True), ("2026-06-01", "1 June 2026", False)],
)
def test_an_insult_counts_until_the_window_closes(written, find, day, said, warned) -> None:
    text = diary(("2026-04-01", "planned repot, to 2026-04/2026-05"), (day, "pruned hard"))
    told = (f"One insult a season: it was pruned on {said}.",) if warned else ()
    assert find(written(text), "planned/repotted").cautions == told


@pytest.mark.parametrize(
    ("best", "warned"),
    [
        # 149 and 150 days after 10 March, and the very day.
        ("2027-08-06", True),
        ("2027-08-07", False),
        ("2027-03-10", True),
    ],
)
def test_two_hard_works_due_within_a_season_are_told(written, find, best, warned) -> None:
    text = diary(
        ("2026-11-01", "planned repot, to 2027-03-10"),
        ("2026-11-02", f"planned defoliate, to {best}"),
    )
    said = ("One insult a season: it is due to repot as well.",) if warned else ()
    assert find(written(text), "planned/defoliated").cautions == said


# ------------------------------------------------------------------ followups.py, customers.py


@pytest.mark.parametrize(
    ("today", "state"),
    [
        ("2027-05-31", "coming"),
        ("2027-06-01", "now"),
        ("2027-06-30", "now"),
        ("2027-07-01", "overdue"),
    ],
)
def test_a_window_holds_its_first_day_and_its_last(written, states, today, state) -> None:
    text = diary(("2027-01-10", "planned prune, to 2027-06"))
    assert states(written(text, today), "planned") == {"hoshi/planned/pruned-2027-01-10": state}


@pytest.mark.parametrize(("came", "count"), [("2026-05-10", 1), ("2026-05-11", 0)])
def test_a_day_of_return_before_the_last_coming_is_of_an_earlier_visit(
    written, states, came, count
) -> None:
    text = """
    person marrow
    tree hoshi
      kind      garden shrub
      owner     marrow
      wanted    2026-05-10
    """
    assert len(states(written(diary((came, "received"), cards=text)), "hand-back")) == count


# ------------------------------------------------------------------ windows.py


@pytest.mark.parametrize(
    ("said", "day", "window"),
    [
        # A quarter of the time is room, and a day at least.
        ("in 3 weeks", "2027-03-01", ["2027-03-22", "2027-03-22", "2027-03-27"]),
        ("in 7 days", "2027-03-01", ["2027-03-08", "2027-03-08", "2027-03-09"]),
        ("in 3 days", "2027-03-01", ["2027-03-04", "2027-03-04", "2027-03-05"]),
        # Spring is March to May; the one that is not over, or the one that has not begun.
        ("in spring", "2027-05-30", ["2027-03-01", "2027-04-15", "2027-05-31"]),
        ("in spring", "2027-05-31", ["2028-03-01", "2028-04-15", "2028-05-31"]),
        ("next spring", "2027-02-28", ["2027-03-01", "2027-04-15", "2027-05-31"]),
        ("next spring", "2027-03-01", ["2028-03-01", "2028-04-15", "2028-05-31"]),
    ],
)
def test_when_a_plan_is_meant(written, find, days, said, day, window) -> None:
    assert (
        days(find(written(diary((day, f"planned prune, {said}")), "2027-06-01"), "planned"))
        == window
    )


# ------------------------------------------------------------------ year.py


@pytest.mark.parametrize(("today", "place"), [("2026-11-05", "yard"), ("2026-11-06", "glass")])
def test_after_three_hundred_days_it_lives_where_it_wintered(written, today, place) -> None:
    """10 January and 300 days is 6 November."""
    cards = """
    place yard
      latitude  56
    place glass
      cover     unheated glass
    tree hoshi
      kind      garden shrub
      place     yard
    """
    session = written(diary(("2026-01-10", "moved glass"), cards=cards), today)
    tree = tree_on(session.histories, session.journal.things, "hoshi", session.today)
    years = Years(session.journal, session.weather, session.today)
    assert years.usual_place(tree, session.today) == place


# ------------------------------------------------------------------ foliage.py


@pytest.mark.parametrize(
    ("day", "factor"),
    [
        # In leaf from 10 April to 10 November; five weeks from 1 June is 6 July.
        ("2027-04-09", BARE),
        ("2027-04-10", IN_LEAF),
        ("2027-05-31", IN_LEAF),
        ("2027-06-01", THINNED),
        ("2027-07-05", THINNED),
        ("2027-07-06", IN_LEAF),
        ("2027-11-09", IN_LEAF),
        ("2027-11-10", BARE),
    ],
)
def test_how_dense_the_foliage_is(day, factor) -> None:
    leaves = ((date(2027, 4, 10), date(2027, 11, 10)),)
    foliage = Foliage(leaves, date(2027, 6, 1), THINNED)
    assert len({BARE, IN_LEAF, THINNED}) == 3
    assert foliage.factor(date.fromisoformat(day)) == factor


# ------------------------------------------------------------------ common rules


COVERS = """
    place yard
      latitude  56
    place glass
      cover     unheated glass
    tree hoshi
      kind      garden shrub
      place     yard
"""


@pytest.mark.parametrize(
    ("pages", "rule", "window"),
    [
        # Feeding again is best 35 days on, and in April to September only.
        ([("2026-02-25", "repotted same pot")], "feed-rests",
         ["2026-03-25", "2026-04-01", "2026-04-22"]),
        ([("2026-02-24", "repotted same pot")], "feed-rests", None),
        ([("2026-08-26", "repotted same pot")], "feed-rests",
         # No feed goes into winter: it ends with September.
         ["2026-09-23", "2026-09-30", "2026-09-30"]),
        ([("2026-08-27", "repotted same pot")], "feed-rests", None),
        # A cover of autumn and winter comes off in spring, any other soon.
        ([("2026-08-31", "protected fleece")], "protection-off",
         ["2026-09-01", "2026-09-03", "2026-09-21"]),
        ([("2026-09-01", "protected fleece")], "protection-off",
         ["2027-03-10", "2027-04-05", "2027-05-10"]),
        ([("2026-02-28", "protected fleece")], "protection-off",
         ["2026-03-10", "2026-04-05", "2026-05-10"]),
        ([("2026-03-01", "protected fleece")], "protection-off",
         ["2026-03-02", "2026-03-04", "2026-03-22"]),
        # Roots are fresh for four weeks: 9 May is 28 days after 11 April.
        ([("2026-04-11", "repotted same pot"), ("2026-05-09", "protected windbreak")],
         "protection-off", ["2026-05-30", "2026-06-06", "2026-06-20"]),
        ([("2026-04-11", "repotted same pot"), ("2026-05-10", "protected windbreak")],
         "protection-off", ["2026-05-11", "2026-05-13", "2026-05-31"]),
        # Shade of summer.
        ([("2026-09-30", "shaded 40 %")], "shade-off", ["2026-09-30", "2026-09-30", "2026-10-15"]),
        ([("2026-10-01", "shaded 40 %")], "shade-off", None),
        # Under glass for the winter, from September to mid-April, and two weeks at least; then
        # there are two weeks at least to carry it out.
        ([("2026-04-15", "moved glass")], "winter-quarters-out",
         ["2026-04-29", "2026-04-29", "2026-05-13"]),
        ([("2026-04-16", "moved glass")], "winter-quarters-out", None),
        ([("2026-08-31", "moved glass")], "winter-quarters-out", None),
        ([("2026-09-01", "moved glass")], "winter-quarters-out",
         ["2027-03-10", "2027-04-05", "2027-05-10"]),
        # Wood grows from 15 March to 15 October where no stage says.
        ([("2026-03-14", "wired 3 mm Al")], "wire-check",
         ["2026-04-29", "2026-05-13", "2026-05-27"]),
        ([("2026-03-15", "wired 3 mm Al")], "wire-check",
         ["2026-04-12", "2026-04-26", "2026-05-10"]),
        ([("2026-10-15", "wired 3 mm Al")], "wire-check",
         ["2026-11-12", "2026-11-26", "2026-12-10"]),
        ([("2026-10-16", "wired 3 mm Al")], "wire-check",
         ["2027-04-29", "2027-05-13", "2027-05-27"]),
        # A weak tree is looked at after six weeks where that is in growth, up to 15 October.
        ([("2026-09-03", "vigour apex 2, low 2")], "strength-check",
         ["2026-10-01", "2026-10-15", "2026-11-12"]),
        ([("2026-09-04", "vigour apex 2, low 2")], "strength-check",
         ["2027-04-15", "2027-05-01", "2027-05-31"]),
        # Water: a minute, or twice as slow as before and half a minute at least.
        ([("2026-05-01", "drained 60 s")], "drains-slowly",
         ["2026-05-01", "2026-05-04", "2026-05-15"]),
        ([("2026-05-01", "drained 59 s")], "drains-slowly", None),
        ([("2026-04-01", "drained 14 s"), ("2026-05-01", "drained 30 s")], "drains-slowly",
         ["2026-05-01", "2026-05-04", "2026-05-15"]),
        ([("2026-04-01", "drained 14 s"), ("2026-05-01", "drained 29 s")], "drains-slowly", None),
        ([("2026-04-01", "drained 20 s"), ("2026-05-01", "drained 40 s")], "drains-slowly",
         ["2026-05-01", "2026-05-04", "2026-05-15"]),
        ([("2026-04-01", "drained 20 s"), ("2026-05-01", "drained 39 s")], "drains-slowly", None),
        # What was measured on the day of new soil says nothing of it.
        ([("2026-04-01", "repotted same pot"), ("2026-04-01", "drained 20 s"),
          ("2026-05-01", "drained 40 s")], "drains-slowly", None),
        ([("2026-04-01", "repotted same pot"), ("2026-04-02", "drained 20 s"),
          ("2026-05-01", "drained 40 s")], "drains-slowly",
         ["2026-05-01", "2026-05-04", "2026-05-15"]),
    ],
)  # fmt: skip
def test_a_common_rule_asks_up_to_its_bounds(
    written, states, find, days, pages, rule, window
) -> None:
    session = written(diary(*pages, cards=COVERS))
    if window is None:
        assert states(session, f"/{rule}/") == {}
    else:
        assert days(find(session, f"/{rule}/")) == window


def test_a_zone_at_two_is_told_as_weak_and_one_at_three_is_not(written, find) -> None:
    text = diary(("2026-05-01", "vigour apex 2, middle 2, low 3"))
    look = find(written(text), "strength-check")
    assert look.because[-1].text == "Weak: apex, middle."


# ------------------------------------------------------------------ settle.py: which words count


@pytest.mark.parametrize(
    ("pages", "outcome"),
    [
        ([("2027-06-05", "skipped prune")], "skipped"),
        # A rough date, or a word that was taken back, says nothing.
        ([("2027-06", "skipped prune")], "open"),
        ([("2027-06-05", "skipped prune"),
          ("2027-06-06", "corrected skipped 2027-06-05, not done")], "open"),
        # So with what was done.
        ([("2027-06-05", "pruned light")], "done"),
        ([("2027-06-05", "pruned light on left 1")], "done"),
        # Wire that comes off is no pruning.
        ([("2027-02-01", "wired 3 mm Al"), ("2027-06-05", "unwired")], "open"),
        ([("2027-06-05", "pruned light"),
          ("2027-06-06", "corrected pruned 2027-06-05, not done")], "open"),
    ],
)  # fmt: skip
def test_which_words_and_acts_close_a_plan(written, find, pages, outcome) -> None:
    text = diary(("2027-01-10", "planned prune, to 2027-06"), *pages)
    assert find(written(text, "2027-06-20"), "planned/pruned").outcome == outcome


@pytest.mark.parametrize(
    ("look", "outcome"),
    [
        ("checked wire fine", "done"),
        ("checked wire fine on left 1", "open"),
        # One that found where it bites, or that set the next, was a look at all of it.
        ("checked wire biting on left 1", "done"),
        ("checked wire fine on left 1, again in 2 weeks", "done"),
        ("checked ties fine", "open"),
        ("checked", "done"),
    ],
)
def test_which_looks_settle_a_look_at_all_of_the_wire(written, find, look, outcome) -> None:
    text = diary(("2026-05-01", "wired 3 mm Al"), ("2026-06-01", look))
    assert find(written(text, "2026-06-02"), "/wire-check/").outcome == outcome


@pytest.mark.parametrize(
    ("pages", "outcome"),
    [
        ([("2026-11-20", "unwired")], "done"),
        ([("2026-11-20", "unwired on left 1")], "open"),
        # What was skipped stays so, though the wire came off later.
        ([("2026-11-10", "skipped unwire"), ("2026-11-20", "unwired")], "skipped"),
    ],
)
def test_what_becomes_of_a_wire_that_is_to_come_off(written, find, pages, outcome) -> None:
    """It is to come off from 30 October."""
    text = diary(("2026-05-01", "wired 3 mm Al"), *pages)
    assert find(written(text, "2026-11-21"), "/wire-off/").outcome == outcome


@pytest.mark.parametrize(
    ("pages", "rule", "outcomes"),
    [
        # A word speaks of what was due when it was written, and of nothing that is done.
        ([("2026-05-01", "skipped unwire"), ("2026-05-01", "wired 3 mm Al")],
         "wire-off", {"": "open"}),
        ([("2026-05-01", "wired 3 mm Al"), ("2026-05-01", "skipped unwire")],
         "wire-off", {"": "skipped"}),
        ([("2026-05-01", "wired 3 mm Al"), ("2026-11-05", "unwired"),
          ("2026-11-06", "skipped unwire")],
         "wire-off", {"": "done"}),
        # Of a part only of that.
        ([("2026-05-01", "wired 3 mm Al on left 2, 2 mm Al on apex"),
          ("2026-11-05", "skipped unwire on left 2")],
         "wire-off", {"left-2": "skipped", "apex": "open"}),
        ([("2026-05-01", "wired 3 mm Al on left 2, 2 mm Al on apex"),
          ("2026-11-05", "skipped unwire")],
         "wire-off", {"left-2": "skipped", "apex": "skipped"}),
        # Where the act itself is not due, of what it would settle.
        ([("2026-05-01", "drained 90 s"), ("2026-05-05", "skipped repot")],
         "drains-slowly", {"": "skipped"}),
        ([("2026-05-01", "drained 90 s"), ("2026-05-05", "skipped feed")],
         "drains-slowly", {"": "open"}),
        ([("2026-05-01", "vigour apex 2, low 1"), ("2026-06-05", "skipped check")],
         "strength-check", {"": "skipped"}),
    ],
)  # fmt: skip
def test_what_a_word_is_about(written, find, pages, rule, outcomes) -> None:
    session = written(diary(*pages))
    for part, outcome in outcomes.items():
        assert find(session, f"/{rule}/{_cause(pages, rule)}{part}").outcome == outcome


def _cause(pages: list[tuple[str, str]], rule: str) -> str:
    """The cause in the id, with what stands before a part."""
    act = {"wire-off": "wired", "drains-slowly": "drained", "strength-check": "vigour"}[rule]
    day, line = next(page for page in pages if page[1].startswith(act))
    return f"{act}-{day}" + ("/" if " on " in line else "")


@pytest.mark.parametrize(
    ("pages", "today", "rule", "outcome"),
    [
        # What an act asked for comes off on whatever day; a bare check counts four weeks early:
        # the look at this wire opens on 29 April.
        ([("2025-11-20", "wired 3 mm Al"), ("2026-01-10", "unwired")],
         "2026-05-01", "wire-check", "done"),
        ([("2025-11-20", "wired 3 mm Al"), ("2026-04-01", "checked")],
         "2026-05-01", "wire-check", "done"),
        ([("2025-11-20", "wired 3 mm Al"), ("2026-03-31", "checked")],
         "2026-05-01", "wire-check", "open"),
        # What is overdue may still be skipped: it was to come off by 30 April 2027.
        ([("2026-05-01", "wired 3 mm Al"), ("2027-05-10", "skipped unwire")],
         "2027-05-11", "wire-off", "skipped"),
        # What a season asked for is looked at four weeks early at most: from 1 April.
        ([("2026-06-06", "vigour apex 1, low 1"), ("2027-03-04", "checked strength weak")],
         "2027-04-02", "bend/2027", "done"),
        ([("2026-06-06", "vigour apex 1, low 1"), ("2027-03-03", "checked strength weak")],
         "2027-04-02", "bend/2027", "open"),
    ],
)  # fmt: skip
def test_how_early_and_how_late_a_look_or_a_word_counts(
    written, find, pages, today, rule, outcome
) -> None:
    species = Hard() if rule.startswith("bend") else None
    session = written(diary(*pages), today)
    assert find(session, rule if species else f"/{rule}/", species).outcome == outcome


@pytest.mark.parametrize(
    ("plan", "day", "act", "outcome"),
    [
        # A planned look counts 60 days before June, from 2 April on; not a look in winter.
        ("planned check, wire, to 2027-06", "2027-04-02", "checked wire fine", "done"),
        ("planned check, wire, to 2027-06", "2027-04-01", "checked wire fine", "open"),
        ("planned check, wire, to 2027-06", "2027-04-02", "checked", "done"),
        ("planned check, wire, to 2027-06", "2027-04-01", "checked", "open"),
        # What came off is off, on whatever day.
        ("planned unwire, to 2027-06", "2027-01-11", "unwired", "done"),
    ],
)
def test_how_early_a_planned_look_is_done(written, find, plan, day, act, outcome) -> None:
    text = diary(("2026-11-20", "wired 3 mm Al"), ("2027-01-10", plan), (day, act))
    assert find(written(text, "2027-04-10"), "/planned/").outcome == outcome


class Looked(Species):
    """A look each spring."""

    botanical = "Arbor visa"
    common = ("seen tree",)

    @each("spring", rule="look")
    def look(self, tree: Tree, season: Season, year: Year) -> Proposals:
        window = year.months((4, 1), (4, 10), (5, 10))
        yield Proposal("checked", window, "", what="pests", settled_by=("checked pests",),
                       weight=CHANCE)  # fmt: skip


@pytest.mark.parametrize(
    ("look", "outcome"),
    [
        # Nothing was put on that could be left elsewhere: who looked at a part has looked.
        ("checked pests none on left 1", "done"),
        ("checked pests none", "done"),
        ("checked wire fine", "open"),
    ],
)
def test_a_look_at_a_part_is_the_look_of_the_season(written, find, look, outcome) -> None:
    session = written(diary(("2025-06-06", "watered"), ("2026-04-05", look)), "2026-04-06")
    assert find(session, "look/2026", Looked()).outcome == outcome


def test_a_cover_that_came_off_before_says_nothing_of_the_next(written, find) -> None:
    text = diary(
        ("2026-01-10", "protected fleece"),
        ("2026-03-12", "unprotected"),
        ("2026-11-01", "protected fleece"),
    )
    session = written(text, "2026-11-20")
    assert find(session, "/protection-off/protected-2026-01-10").outcome == "done"
    assert find(session, "/protection-off/protected-2026-11-01").outcome == "open"


def test_what_was_put_off_must_be_done_and_stays(written, find) -> None:
    text = diary(("2025-06-06", "watered"), ("2026-04-05", "put-off thin, to 2026-06"))
    found = find(written(text, "2026-04-06"), "thin/2026", Lapsing())
    # It was a chance, that lapses; what is at stake is as before.
    assert found.weight == Weight("style", must=True, once_past="stays")
    assert found.moved_from is not None
    assert found.moved_from.best == date(2026, 4, 10)


@pytest.mark.parametrize(("today", "state"), [("2026-06-30", "now"), ("2026-07-01", "overdue")])
def test_advice_that_was_put_off_is_a_plan_and_does_not_lapse(
    written, states, today, state
) -> None:
    text = diary(("2026-03-06", "repotted same pot"), ("2026-04-10", "put-off feed, to 2026-06"))
    assert states(written(text, today), "feed-rests") == {
        "hoshi/feed-rests/repotted-2026-03-06": state
    }
