"""The builders of works: when, what and why. Windows are counted by hand from plain stage days."""

from __future__ import annotations

from datetime import date
from typing import ClassVar

import pytest
from msgspec.structs import replace

from backbud.species import (
    PRESSING,
    Fact,
    Proposal,
    Proposals,
    RepotInterval,
    Season,
    Species,
    StageMonths,
    Tree,
    Window,
    Year,
    each,
    rules_of,
)
from backbud_species.habits import works as w
from backbud_species.habits.gates import HARD_WORK, LEAF_WORK
from backbud_species.habits.intervals import years_between_repottings
from backbud_species.habits.strength import by_strength, left_to_grow
from backbud_species.japanese_maple import JapaneseMaple
from backbud_species.scots_pine import ScotsPine


class Plain(Species):
    """A species of tests with stages that are easy to count from."""

    botanical = "Arbor plana"
    common = ("plain tree",)
    rule_prefix = "plain"
    repot_years = Fact((2, 3, 5), "the test")
    repot_interval = Fact(RepotInterval((1, 2, 3), (4, 6, 8), 10, 40), "the test")
    root_share = Fact((0.3, 0.5), "the test")
    comes_in_below_c = Fact(8.0, "the test")
    bark = Fact("It is thin.", "the test")
    stage_months: ClassVar[StageMonths] = {
        1: ((3, 1), (3, 11), (3, 21)),
        10: ((4, 1), (4, 11), (4, 21)),
        69: ((5, 1), (5, 11), (5, 21)),
    }


def of(*works, **facts):
    """A plain tree with these works."""
    return type("Of", (Plain,), {"works": works, **facts})()


def days(*texts):
    return Window(*(date.fromisoformat(text) for text in texts))


WHY = "It is so."
AT = w.at(10, 0, 5, 10)


def test_days_count_from_the_first_usual_and_last_day_of_a_stage(made, only):
    species = of(w.work("x", "fed", w.at(10, -5, 0, 10), because=WHY, what="so"))
    found = only(made.yearly(species, made.tree(), made.year(species)))
    assert found.window == days("2027-03-27", "2027-04-11", "2027-05-01")
    assert (found.act, found.what, found.because, found.weight.lapses) == ("fed", "so", WHY, True)
    assert rules_of(species)[0].id == "plain-x"


def test_a_window_between_two_stages_and_by_months_also_over_new_year(made, only):
    species = of(w.work("x", "fed", w.between(1, 10), because=WHY))
    found = only(made.yearly(species, made.tree(), made.year(species)))
    assert found.window == days("2027-03-01", "2027-03-11", "2027-04-11")
    winter = of(w.work("x", "fed", w.by_warmth((11, 20), (12, 20), (2, 10)), because=WHY))
    found = only(made.yearly(winter, made.tree(), made.year(winter)))
    assert found.window == days("2027-11-20", "2027-12-20", "2028-02-10")
    south = only(made.yearly(winter, made.tree(), made.year(winter, southern=True)))
    assert south.window == days("2028-05-20", "2028-06-20", "2028-08-10")


@pytest.mark.parametrize(
    ("month", "season"),
    [(1, "winter"), (2, "winter"), (3, "spring"), (6, "summer"), (11, "autumn"), (12, "autumn")],
)
def test_a_work_of_months_asks_in_the_season_it_opens_in(month, season):
    rule = w.work("x", "fed", w.by_warmth((month, 5), (month, 6), (month, 7)), because=WHY)
    assert (rule.hangs_on, rule.season) == ("season", season)


def test_two_rules_of_one_id_are_refused_in_a_clear_sentence():
    rule = w.feeds("feed", w.at(10, 0, 1, 2), because=WHY)
    with pytest.raises(ValueError, match=r"two rules of Of have the id “plain-feed”"):
        rules_of(of(rule, rule))

    class Clash(Plain):
        works = (rule,)

        @each("spring", rule="plain-feed")
        def feed(self, tree: Tree, season: Season, year: Year) -> Proposals:
            yield Proposal("fed", year.months((4, 1), (4, 2), (4, 3)), WHY, weight=PRESSING)

    with pytest.raises(ValueError, match="plain-feed"):
        rules_of(Clash())


def test_without_a_prefix_the_botanical_name_goes_before_the_id():
    rule = w.feeds("feed", w.at(10, 0, 1, 2), because=WHY)
    species = of(rule, rule_prefix="", botanical="Ulmus × hollandica")
    assert [r.id for r in rules_of(species)] == ["ulmus-hollandica-feed"]


def test_works_of_a_group_are_altered_and_left_out_by_id():
    feed, trim = (
        w.feeds("feed", w.at(10, 0, 1, 2), because=WHY),
        w.trims("trim", w.at(10, 0, 1, 2), what="x", because=WHY),
    )
    late = w.feeds("feed", w.at(69, 0, 1, 2), because=WHY)
    assert w.altered((feed, trim), late) == (trim, late)
    assert w.without((feed, trim), "feed") == (trim,)
    with pytest.raises(ValueError, match="no work has the id prune"):
        w.without((feed, trim), "prune")


def test_a_work_of_a_group_keeps_the_id_it_had_in_a_species():
    group = (w.feeds("one", w.at(10, 0, 1, 2), because=WHY), w.disbuds("two", AT, because=WHY))
    assert [r.id for r in w.renamed(group, {"two": "older"})] == ["one", "older"]
    with pytest.raises(ValueError, match="no work has the id three"):
        w.renamed(group, {"three": "older"})


def test_a_weak_and_a_strong_tree_are_asked_their_own_work(made, only):
    trim = w.trims("trim", AT, what="long shoots", because=WHY)
    look = left_to_grow("trim", w.at(10, 0, 20, 30), because="It needs every leaf.")
    more = w.trims("trim", AT, what="all shoots", because=WHY)
    species = of(by_strength(trim, weak=look, strong=more))
    year = made.year(species)
    asked = {
        strength: only(made.yearly(species, made.tree(strength=strength), year))
        for strength in ("", "weak", "fair", "strong")
    }
    assert [asked[""].what, asked["fair"].what] == ["long shoots", "long shoots"]
    assert asked["strong"].what == "all shoots"
    weak = asked["weak"]
    assert (weak.act, weak.what) == ("checked", "strength before any trimming")
    assert (weak.because, weak.datum) == (
        "It needs every leaf.",
        "The tree is written down as weak.",
    )
    assert weak.window == days("2027-04-01", "2027-05-01", "2027-05-21")
    with pytest.raises(ValueError, match="other and trim differ in id or cause"):
        by_strength(trim, weak=w.feeds("other", AT, because=WHY))
    with pytest.raises(ValueError, match="trim and trim differ in id or cause"):
        by_strength(trim, weak=left_to_grow("trim", w.at(1, 0, 0, 0), because=WHY))


def test_a_window_may_open_with_an_earlier_stage(made, only):
    species = of(w.work("x", "fed", w.at(69, 0, 10, 20, open_from=1), because=WHY))
    found = only(made.yearly(species, made.tree(), made.year(species)))
    assert found.window == days("2027-03-01", "2027-05-21", "2027-06-10")
    # A species that has no such stage opens with its own.
    never = of(w.work("x", "fed", w.at(69, 0, 10, 20, open_from=19), because=WHY))
    found = only(made.yearly(never, made.tree(), made.year(never)))
    assert found.window == days("2027-05-01", "2027-05-21", "2027-06-10")


def test_a_gate_says_whether_leaves_that_stay_on_are_spoken_of(made, only):
    sick = made.tree(made.event("2027-03-10", "treated", "soap 1 L"), strength="strong")
    part = w.Way("in part", WHY)
    silent = of(w.defoliates("x", AT, part=part, gate=LEAF_WORK))
    assert made.yearly(silent, sick, made.year(silent)) == []
    aloud = of(w.defoliates("x", AT, part=part))
    assert only(made.yearly(aloud, sick, made.year(aloud))).act == "checked"
    # Root work of this year is known, and holds them back without a word.
    fresh = made.tree(made.event("2027-03-10", "repotted", "same pot"), strength="strong")
    assert made.yearly(aloud, fresh, made.year(aloud)) == []


def test_gates_hold_light_work_silently_and_hard_work_aloud(made, only):
    light = w.trims("trim", w.at(10, 0, 1, 2), what="x", because=WHY)
    hard = w.prunes("prune", w.at(10, 0, 1, 2), what="the old wood", because=WHY, hard=True)
    species, weak = of(light, hard), made.tree(strength="weak")
    found = only(made.yearly(species, weak, made.year(species)))
    assert (found.act, found.datum) == ("checked", "The tree is written down as weak.")
    strong = made.yearly(species, made.tree(strength="strong"), made.year(species))
    assert [(p.act, p.what) for p in strong] == [("pruned", "hard: the old wood"), ("trimmed", "x")]


def test_only_if_asks_the_tree(made):
    species = of(
        w.work(
            "x", "thinned", w.at(10, 0, 1, 2), because=WHY, only_if=lambda tree, day, year: False
        )
    )
    assert made.yearly(species, made.tree(), made.year(species)) == []


def test_deadheading_is_asked_unless_all_buds_came_off(made):
    species = of(w.deadheads("dead", w.at(69, 0, 3, 10), what="spent flowers", because=WHY))
    year = made.year(species)
    off = made.tree(made.event("2027-04-20", "disbudded", ""))
    some = made.tree(made.event("2027-04-20", "disbudded", "half"))
    before = made.tree(made.event("2026-04-20", "disbudded", ""))
    assert made.yearly(species, off, year) == []
    assert len(made.yearly(species, some, year)) == len(made.yearly(species, before, year)) == 1


def test_what_follows_an_act_for_each_part(made):
    species = of(
        w.checks_after(
            "buds",
            ("pruned",),
            w.weeks(7, 8, 10),
            look_at="buds",
            because=WHY,
            only_after=lambda done: done.says("hard"),
            each_part=True,
        )
    )
    done = made.event("2027-06-01", "pruned", "hard on left 2, hard on apex")
    found = made.after(species, "plain-buds", made.tree(done), done, made.year(species))
    assert [(p.part, p.what) for p in found] == [
        ("left 2", "buds, left 2"),
        ("apex", "buds, apex"),
    ]
    assert found[0].window == days("2027-07-20", "2027-07-27", "2027-08-10")
    assert found[0].datum == "It was pruned on 1 June 2027."
    assert found[0].settled_by == ("checked buds",)
    light = made.event("2027-06-01", "pruned", "light")
    assert made.after(species, "plain-buds", made.tree(light), light, made.year(species)) == []


# ------------------------------------------------------------------ repotting


@pytest.mark.parametrize(
    ("done", "root_ball", "since", "years", "words"),
    [
        ([], "", None, (2, 3, 5), "the test"),
        # Sown 2020: 7 years old in 2027, under the 10 of the interval.
        ([("2020-04-01", "sown")], "", None, (1, 2, 3), "the test, for a young tree"),
        ([("2015-04-01", "struck")], "", None, (2, 3, 5), "the test"),
        # Cuttings and seed were taken of a tree that has a past: she is not young.
        ([("2019-04-01", "pruned"), ("2020-04-01", "struck")], "", None, (2, 3, 5), "the test"),
        ([("2020-04-01", "struck")], "", "1980-01-01", (4, 6, 8), "the test, for an old tree"),
        # In the collection since 1980: 47 years at least.
        ([], "", "1980-01-01", (4, 6, 8), "the test, for an old tree"),
        # Only lately here says nothing of its age.
        ([], "", "2024-01-01", (2, 3, 5), "the test"),
        (
            [],
            "30 x 20 x 4 cm",
            None,
            (1, 2, 4),
            "the test, a year less where the ball is 4 cm deep",
        ),
        ([], "30 x 20 x 5 cm", None, (2, 3, 5), "the test"),
        (
            [("2020-04-01", "sown")],
            "12 x 3 cm",
            None,
            (1, 1, 2),
            "the test, for a young tree, a year less where the ball is 3 cm deep",
        ),
    ],
)
def test_young_trees_and_shallow_pots_are_repotted_more_often(
    made, done, root_ball, since, years, words
):
    import msgspec

    tree = made.tree(*(made.event(day, act) for day, act in done), root_ball=root_ball)
    if since:
        tree = msgspec.structs.replace(tree, since=date.fromisoformat(since))
    species = Plain()
    found = years_between_repottings(species, tree, date(2027, 3, 11), made.year(species))
    assert (found.value, found.source) == (years, words)


def test_repotting_is_due_by_the_interval_and_names_it(made, only):
    species = of(*w.repots("repot", w.between(1, 10), because=WHY))
    year = made.year(species)
    tree = made.tree(made.event("2025-03-11", "repotted", "same pot"), root_ball="30 x 4 cm")
    found = only(made.yearly(species, tree, year, "plain-repot"))
    assert found.act == "repotted"
    assert "2 years before; the usual time is 2 (the test, a year less" in found.datum
    deep = made.tree(made.event("2025-03-11", "repotted", "same pot"), root_ball="30 x 9 cm")
    assert made.yearly(species, deep, year, "plain-repot") == []


def test_too_much_root_off_is_looked_at_closely(made, only):
    species = of(*w.repots("repot", w.between(1, 10), because=WHY))
    done = made.event("2027-03-10", "repotted", "same pot, off 40 %")
    found = only(made.after(species, "plain-root-share", made.tree(done), done, made.year(species)))
    assert "30 % is the most in a cool place (the test)" in found.datum


# ------------------------------------------------------------------ leaves, weather


def test_leaves_are_guarded_only_where_frost_comes_after_them(made, only):
    species = of(w.protects_leaves("frost", 10, because=WHY))
    # The cool place's cold nights reach 0 °C until after mid-May (a mean low of 6.5 °C), the warm
    # one's until February (4.7 °C).
    found = only(made.yearly(species, made.tree(), made.year(species, "cool")))
    assert found.act == "protected"
    assert found.window.opens == date(2027, 3, 29)
    assert date(2027, 5, 18) <= found.window.closes <= date(2027, 5, 26)
    assert made.yearly(species, made.tree(), made.year(species, "warm")) == []
    glass = made.year(species, "cool", cover="unheated glass")
    assert made.yearly(species, made.tree(), glass) == []
    # Unknown weather: three days before the first leaf to 25 days after the last.
    unknown = only(made.yearly(species, made.tree(), made.year(species, "unknown")))
    assert unknown.window == days("2027-03-29", "2027-04-14", "2027-05-16")


def test_a_tender_tree_goes_out_when_nights_are_mild_and_only_from_warmth(made, only):
    species = of(w.goes_out("out", because=WHY))
    found = only(made.yearly(species, made.tree(), made.year(species, "warm", cover="indoors")))
    assert (found.act, found.part) == ("moved", "out")
    # Mean lows of 7 °C in mid-March and 11 in mid-April pass 8 °C about 24 March; the winter drops
    # by 5.2 + 0.28 x 19 - 7.3 = 3.2 K, so in spring the mean year by 3.1 K: of 2 °C, nothing being
    # said of its roots, the last comes where the mean low is 5.1 °C, about 28 February.
    assert "The usual night is over 8 °C from 24 March 2027" in found.datum
    assert found.window == days("2027-03-24", "2027-03-31", "2027-04-14")
    unknown = made.year(species, "unknown", cover="indoors")
    found = only(made.yearly(species, made.tree(), unknown))
    assert found.window == days("2027-05-10", "2027-05-25", "2027-06-20")
    assert "Wait until nights stay over 8 °C." in found.datum
    assert made.yearly(species, made.tree(), made.year(species, "warm")) == []


# ------------------------------------------------------------------ the two patterns


def test_a_japanese_maple_is_stopped_as_its_first_pair_opens(made, only):
    maple = JapaneseMaple()
    found = only(made.yearly(maple, made.tree(), made.year(maple), "palmatum-pinch"))
    # First leaves 28 March, 10 and 25 April: 0, 4 and 14 days after.
    assert found.window == days("2027-03-28", "2027-04-14", "2027-05-09")
    fresh = made.tree(made.event("2027-03-10", "repotted", "same pot"))
    assert made.yearly(maple, fresh, made.year(maple), "palmatum-pinch") == []


def test_a_scots_pine_is_never_decandled_and_warned_of_where_it_was(made, only):
    scots = ScotsPine()
    for strength in ("", "fair", "strong"):
        found = made.yearly(scots, made.tree(strength=strength), made.year(scots, "warm"))
        assert "decandled" not in {p.act for p in found}
    done = made.event("2027-06-20", "decandled", "")
    found = only(made.after(scots, "scots-pine-one-flush", made.tree(done), done, made.year(scots)))
    assert found.act == "checked" and "one-flush pine" in found.because.casefold()


def test_a_scots_pines_shoots_are_not_cut_in_the_year_of_repotting(made, only):
    scots = ScotsPine()
    fresh = made.tree(made.event("2027-03-20", "repotted", "same pot"), strength="strong")
    found = only(made.yearly(scots, fresh, made.year(scots), "scots-pine-shoots"))
    assert found.act == "checked" and "20 March 2027" in found.datum
    assert HARD_WORK.speaks


# ------------------------------------------------------------------ the aim of a season's feed


@pytest.mark.parametrize(
    ("begun", "since", "strength", "what"),
    [
        # Struck five years ago: young until ten.
        ("2022-05-01", None, "fair", "fully, from the first leaf on"),
        # Here for fifty years: old from forty on, by the test's species.
        (None, date(1977, 3, 1), "strong", "leanly"),
        (None, date(1977, 3, 1), "fair", ""),
        (None, date(2007, 3, 1), "strong", ""),
        (None, None, "strong", ""),
    ],
)
def test_feed_is_full_for_a_young_tree_and_lean_for_a_refined_one(
    made, only, begun, since, strength, what
):
    species = of(w.feeds("feed", w.at(10, 14, 20, 30), because=WHY))
    history = (made.event(begun, "struck", ""),) if begun else ()
    tree = replace(made.tree(*history, strength=strength), since=since)
    found = only(made.yearly(species, tree, made.year(species)))
    assert found.what == what
    # From the usual first leaf on, 11 April, or 14 days after the first of them, 1 April.
    opens = "2027-04-11" if what.startswith("fully") else "2027-04-15"
    assert found.window.opens == date.fromisoformat(opens)


def test_an_autumn_feed_has_no_aim_but_autumn(made, only):
    species = of(w.feeds("feed", w.by_warmth((9, 1), (9, 15), (9, 30)), because=WHY))
    tree = replace(made.tree(strength="strong"), since=date(1977, 3, 1))
    assert only(made.yearly(species, tree, made.year(species))).what == ""
