"""What holds for every built-in species: acts that exist, sentences, stable and unique rule ids."""

from __future__ import annotations

import tomllib
from datetime import date, timedelta
from importlib import import_module
from itertools import product
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from tests.examples import examples

from backbud.species import Fact, rules_of
from backbud_grammar.acts import ACTS, by_word
from backbud_species.habits.figures import FIGURES

PROJECT = tomllib.loads((Path(__file__).parents[2] / "pyproject.toml").read_text())
DECLARED = PROJECT["project"]["entry-points"]["backbud.species"]


def _kind(target):
    module, _, attribute = target.partition(":")
    return getattr(import_module(module), attribute)


# Every species of the built-in pack, as the project declares them.
KINDS = sorted({_kind(target) for target in DECLARED.values()}, key=lambda kind: kind.botanical)
# So many works a year at most are shown of a healthy tree: a practitioner's list, and no more.
MOST_WORKS = 15
# The only ones of them that answer cut candles with a second flush.
TWO_FLUSH = {"Pinus thunbergii", "Pinus densiflora"}

# One line of each act that a rule of some species hangs on, in forms that reach its branches.
LINES = [
    ("pruned", "hard on low left"),
    ("pruned", "light"),
    ("repotted", "same pot"),
    ("repotted", "same pot, off 90 %, wedges N E S"),
    ("repotted", "same pot, no root work"),
    ("potted-on", "loosened"),
    ("slipped", ""),
    ("root-pruned", "off 70 %"),
    ("moved", "glass"),
    ("drained", "3 min"),
    ("noted", "a hard surface"),
    ("opened", "hard surface, with metal hook"),
    ("defoliated", "full"),
    ("decandled", "weak"),
    ("decandled", ""),
    ("bent", "heavy on trunk"),
]


def sampled(kinds):
    """Every twelfth species now, the others in the long lane: for what asks each rule hundreds of
    times and is looked at for every species once already."""
    return [
        kind if n % 12 == 0 else pytest.param(kind, marks=pytest.mark.long)
        for n, kind in enumerate(kinds)
    ]


ALL = (
    ("", "weak", "fair", "strong"),
    ("cool", "mild", "warm", "unknown"),
    (False, True),
    ("", "unheated glass"),
)
# What differs most; of every species at once, where all of them are looked at of some.
SOME = (("", "weak", "strong"), ("cool", "warm"), (False, True), ("",))


def every_proposal(made, species, among=ALL):
    """Every proposal of the rules over strengths, places, hemispheres, covers and histories."""
    for strength, place, southern, cover in product(*among):
        year = made.year(species, place, southern=southern, cover=cover)
        first = year.first
        old = made.event(f"{first.year - 6}-03-20", "repotted", "same pot, wedges N E")
        carved = made.event(f"{first.year - 1}-03-20", "carved", "jin on left 3")
        for tree in (
            made.tree(strength=strength),
            made.tree(
                old,
                carved,
                strength=strength,
                owner="marrow",
                opened={"N": "2021-03-20", "E": "2021-03-20"},
                zones={"low": 5, "top": 1},
            ),
        ):
            yield from made.yearly(species, tree, year)
        for act, text in LINES:
            done = made.event(f"{first.year}-{first.month + 1:02}-20", act, text)
            before = made.event(f"{first.year}-{first.month + 1:02}-15", "pruned", "hard")
            tree = made.tree(before, done, strength=strength, root_ball="30 x 20 x 15 cm")
            for rule in rules_of(species):
                if act in rule.acts:
                    yield from rule.function(tree, done, year)


@pytest.mark.parametrize(
    ("kind", "among"),
    [
        *(pytest.param(kind, SOME, id=f"{kind.__name__}-some") for kind in KINDS),
        *(
            pytest.param(
                kind,
                ALL,
                id=f"{kind.__name__}-all",
                marks=[pytest.mark.long] if n % 12 else [],
            )
            for n, kind in enumerate(KINDS)
        ),
    ],
)
def test_every_proposal_is_a_known_act_in_order_and_in_sentences(made, kind, among):
    words = by_word(ACTS)
    past = {form.word for form in ACTS}
    seen = 0
    for proposal in every_proposal(made, kind(), among):
        seen += 1
        assert proposal.act in past
        for settling in proposal.settled_by:
            act, _, word = settling.partition(" ")
            assert act in past
            # "checked buds": the word is one that the act's details know.
            assert not word or any(word in form.words for form in words[act].forms), settling
        window = proposal.window
        assert window.opens <= window.best <= window.closes
        assert proposal.datum
        for sentence in (proposal.because, proposal.datum, *proposal.cautions):
            assert sentence.endswith("."), sentence
            assert sentence[0].isupper() or sentence[0].isdigit(), sentence
            assert "  " not in sentence, sentence
        assert ". " not in proposal.because, "the reason is one sentence"
        assert not proposal.what.endswith((".", " ")), proposal.what
    assert seen > (50 if among is ALL else 10)


@pytest.mark.parametrize("kind", KINDS)
def test_rule_ids_are_short_and_carry_the_species(kind):
    ids = [rule.id for rule in rules_of(kind())]
    assert kind.rule_prefix, "without it the ids hang on the botanical name"
    for rule_id in ids:
        assert rule_id.startswith(f"{kind.rule_prefix}-")
        assert rule_id == rule_id.lower()
        assert len(rule_id) <= 30
        assert all(part.isalpha() for part in rule_id.split("-"))


def test_rule_ids_are_unique_over_all_species():
    ids = [rule.id for kind in KINDS for rule in rules_of(kind())]
    assert len(ids) == len(set(ids))
    assert len({kind.rule_prefix for kind in KINDS}) == len(KINDS)


def test_names_are_unique_over_all_species():
    names = [n.casefold() for kind in KINDS for n in (kind.botanical, *kind.common, *kind.also)]
    assert len(names) == len(set(names))


@pytest.mark.parametrize("kind", KINDS)
def test_proposals_of_one_cause_are_told_apart(made, kind):
    """Rule, act-and-date or growing year, and part make the id: so they must differ."""
    species = kind()
    for strength, place in product(("", "weak", "strong"), ("cool", "warm")):
        year = made.year(species, place)
        tree = made.tree(made.event("2020-03-20", "repotted", "same pot"), strength=strength)
        keys = [(rule, p.part) for rule, p in made.yearly_by_rule(species, tree, year)]
        assert len(keys) == len(set(keys))
        for act, text in LINES:
            done = made.event("2027-02-20", act, text)
            worked = made.tree(done, strength=strength)
            for rule in rules_of(species):
                if act in rule.acts:
                    parts = [p.part for p in rule.function(worked, done, year)]
                    assert len(parts) == len(set(parts))


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("place", ["cool", "warm"])
@pytest.mark.parametrize("strength", ["fair", "strong"])
def test_a_year_holds_a_practitioners_list_and_no_more(made, kind, place, strength):
    species = kind()
    tree = made.tree(made.event("2020-03-20", "repotted", "same pot"), strength=strength)
    found = made.yearly(species, tree, made.year(species, place))
    assert 6 <= len(found) <= MOST_WORKS, [p.act for p in found]


@pytest.mark.parametrize("kind", KINDS)
def test_a_weak_tree_is_never_worked_hard(made, kind):
    species = kind()
    tree = made.tree(made.event("2020-03-20", "repotted", "same pot"), strength="weak")
    for place in ("cool", "warm", "unknown"):
        acts = {p.act for p in made.yearly(species, tree, made.year(species, place))}
        assert not acts & {
            "repotted",
            "pruned",
            "trimmed",
            "decandled",
            "defoliated",
            "plucked",
            "wired",
            "pinched",
            "thinned",
            "bent",
        }


@pytest.mark.parametrize("kind", KINDS)
def test_work_of_a_season_lapses_with_it(made, kind):
    species = kind()
    for strength in ("", "weak", "strong"):
        tree = made.tree(
            made.event("2020-03-20", "repotted", "same pot"),
            made.event("2026-09-20", "carved", "jin on left 3"),
            strength=strength,
        )
        for proposal in made.yearly(species, tree, made.year(species, "warm")):
            assert proposal.weight.lapses, proposal


@pytest.mark.parametrize("kind", KINDS)
def test_facts_name_their_source(kind):
    facts = {name: value for name in dir(kind) if isinstance(value := getattr(kind, name), Fact)}
    for name in (
        "hardiness",
        "soil_ph",
        "usual_mix",
        "repot_years",
        "root_share",
        "toxicity",
        "wire_check_weeks",
        "light",
        "water",
        "bark",
    ):
        assert name in facts, name
    assert all(fact.source for fact in facts.values())
    least, usual, most = kind.repot_years.value
    assert 1 <= least < usual < most
    cool, warm = kind.root_share.value
    assert 0 < cool < warm <= 1
    acid, alkaline = kind.soil_ph.value
    # The limiest published is that of field maple, 8.2.
    assert 4 <= acid < alkaline <= 8.2
    assert all(line.endswith(".") for line in (*kind.advice, *kind.never))
    assert kind.advice and kind.never
    for sentence in (kind.habit, kind.light.value, kind.water.value, kind.bark.value):
        assert sentence[0].isupper() and sentence.endswith("."), sentence
    if kind.repot_interval is not None:
        young, old = kind.repot_interval.value[:2]
        assert young[0] <= young[1] <= young[2] and old[0] < old[1] < old[2]
        assert young[1] <= usual <= old[1], "young trees more often, old ones less"


@pytest.mark.parametrize("kind", KINDS)
def test_stages_come_in_order_and_evergreens_never_reach_leaf_fall(kind):
    for first, day, last in kind.stage_months.values():
        assert first < day < last
    # Flowers (60 to 69) run beside the leaves, before or after them as the species has it.
    for codes in (range(60), range(60, 70), (0, 10, 19, *range(90, 100))):
        usual = [kind.stage_months[code][1] for code in codes if code in kind.stage_months]
        assert usual == sorted(usual)
    # BBCH monograph (Meier 2001): 93 is the beginning, 97 the end of leaf fall.
    assert ({93, 97} <= set(kind.stage_months)) is not kind.evergreen
    assert kind.evergreen is not any(code >= 93 for code in kind.stage_months)


def test_the_entry_points_name_the_species():
    for name, target in DECLARED.items():
        assert _kind(target)().title == name


def test_figures_of_ours_have_a_name_a_unit_and_a_use():
    assert {figure.name for figure in FIGURES} >= {"shelter_below_c", "slow_drain_from_s"}
    for figure in FIGURES:
        assert figure.name.endswith(("_c", "_s", "_cm", "_ratio", "_share", "_days"))
        assert figure.about.endswith(".")


@pytest.mark.parametrize("kind", sampled(KINDS))
def test_candles_are_cut_on_two_flush_pines_only(made, kind):
    acts = {p.act for p in every_proposal(made, kind()) if p.act == "decandled"}
    assert bool(acts) is (kind.botanical in TWO_FLUSH)


# What a tree may not bear in the year of another hard work, or sick, or newly come.
HELD = [
    ("collected", "", "2026-03-10"),
    ("received", "imported", "2026-12-10"),
    ("checked", "pests many", "2027-02-10"),
]


@pytest.mark.parametrize("kind", sampled(KINDS))
@pytest.mark.parametrize(("act", "text", "day"), HELD)
def test_no_root_work_on_a_tree_that_is_sick_or_new(made, kind, act, text, day):
    tree = made.tree(
        made.event("2019-03-20", "repotted", "same pot"),
        made.event(day, act, text),
        strength="fair",
    )
    year = made.year(kind(), "cool")
    root_rules = [
        rule.id for rule in rules_of(kind()) if "repot" in rule.id or "root-work" in rule.id
    ]
    assert root_rules
    for rule in root_rules:
        for proposal in made.yearly(kind(), tree, year, rule):
            assert proposal.act != "repotted" or (
                # Eight weeks after the check of February the tree may be well again.
                act == "checked" and proposal.window.opens > date(2027, 4, 7)
            )


@pytest.mark.parametrize("kind", sampled(KINDS))
def test_a_tree_that_has_not_settled_is_not_wired_cut_or_bared(made, kind):
    new = made.tree(made.event("2026-03-10", "collected", ""), strength="strong")
    acts = {p.act for p in made.yearly(kind(), new, made.year(kind(), "warm"))}
    assert not acts & {
        "decandled",
        "defoliated",
        "pinched",
        "plucked",
        "pruned",
        "rubbed",
        "trimmed",
        "wired",
    }


DIARY = st.lists(st.tuples(st.sampled_from(LINES), st.integers(0, 500)), min_size=0, max_size=6)


@pytest.mark.parametrize("kind", sampled(KINDS))
@settings(
    max_examples=examples(12),
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)
@given(
    lines=DIARY,
    strength=st.sampled_from(["", "weak", "fair", "strong"]),
    place=st.sampled_from(["cool", "mild", "warm", "unknown"]),
    southern=st.booleans(),
)
def test_follow_ups_are_valid_for_random_small_diaries(
    made, kind, lines, strength, place, southern
):
    species, words = kind(), {form.word for form in ACTS}
    year = made.year(species, place, southern=southern)
    done = [
        made.event((year.first + timedelta(days=n - 200)).isoformat(), act, text)
        for (act, text), n in lines
    ]
    tree = made.tree(*done, strength=strength)
    found = list(made.yearly_by_rule(species, tree, year))
    for rule in rules_of(species):
        for event in done:
            if event.act in rule.acts:
                after = list(rule.function(tree, event, year))
                assert all(p.window.closes >= event.day for p in after), rule.id
                found += [(rule.id, p) for p in after]
    for rule_id, proposal in found:
        assert proposal.act in words, rule_id
        assert proposal.window.opens <= proposal.window.best <= proposal.window.closes
        assert proposal.datum.endswith(".") and proposal.because.endswith("."), rule_id
        hard = {"repotted", "decandled", "defoliated"}
        assert not (
            strength == "weak"
            and proposal.act in hard
            and rule_id.split("-")[-1] in {"repot", "decandle", "defoliate"}
        ), rule_id
    # The same diary gives the same follow-ups.
    assert [p for _, p in made.yearly_by_rule(species, tree, year)] == [
        p for _, p in found[: len(made.yearly(species, tree, year))]
    ]
