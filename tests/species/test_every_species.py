"""What holds for every built-in species: acts that exist, sentences, stable and unique rule ids."""

from __future__ import annotations

import tomllib
from importlib import import_module
from itertools import product
from pathlib import Path

import pytest

from backbud.species import Fact, rules_of
from backbud_grammar.acts import ACTS, by_word
from backbud_species.chinese_juniper import ChineseJuniper
from backbud_species.habits.figures import FIGURES
from backbud_species.japanese_black_pine import JapaneseBlackPine
from backbud_species.satsuki_azalea import SatsukiAzalea
from backbud_species.trident_maple import TridentMaple

PREFIXES = {
    SatsukiAzalea: "satsuki-",
    TridentMaple: "trident-",
    JapaneseBlackPine: "black-pine-",
    ChineseJuniper: "juniper-",
}
KINDS = sorted(PREFIXES, key=lambda kind: kind.botanical)

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


def every_proposal(made, species):
    """Every proposal of the rules over strengths, places, hemispheres, covers and histories."""
    for strength, place, southern, cover in product(
        ("", "weak", "fair", "strong"),
        ("cool", "mild", "warm", "unknown"),
        (False, True),
        ("", "unheated glass"),
    ):
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


@pytest.mark.parametrize("kind", KINDS)
def test_every_proposal_is_a_known_act_in_order_and_in_sentences(made, kind):
    words = by_word(ACTS)
    past = {form.word for form in ACTS}
    seen = 0
    for proposal in every_proposal(made, kind()):
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
    assert seen > 50


@pytest.mark.parametrize("kind", KINDS)
def test_rule_ids_are_short_and_carry_the_species(kind):
    ids = [rule.id for rule in rules_of(kind())]
    methods = [name for name in vars(kind) if hasattr(vars(kind)[name], "__backbud_rule__")]
    assert len(ids) == len(methods), "two methods share an id"
    for rule_id in ids:
        assert rule_id.startswith(PREFIXES[kind])
        assert rule_id == rule_id.lower()
        assert len(rule_id) <= 30
        assert all(part.isalpha() for part in rule_id.split("-"))


def test_rule_ids_are_unique_over_all_species():
    ids = [rule.id for kind in KINDS for rule in rules_of(kind())]
    assert len(ids) == len(set(ids))


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
    assert 6 <= len(found) <= 13, [p.act for p in found]


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
            assert proposal.lapses, proposal


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
        "frost_limit_c",
        "wire_check_weeks",
    ):
        assert name in facts, name
    assert all(fact.source for fact in facts.values())
    least, usual, most = kind.repot_years.value
    assert 1 <= least < usual < most
    cool, warm = kind.root_share.value
    assert 0 < cool < warm <= 1
    acid, alkaline = kind.soil_ph.value
    assert 4 < acid < alkaline < 8
    assert all(line.endswith(".") for line in (*kind.advice, *kind.never))
    assert kind.advice and kind.never


@pytest.mark.parametrize("kind", KINDS)
def test_stages_come_in_order_and_evergreens_never_reach_leaf_fall(kind):
    stages = [kind.stage_months[code] for code in sorted(kind.stage_months)]
    for first, day, last in stages:
        assert first < day < last
    usual = [day for _, day, _ in stages]
    assert usual == sorted(usual)
    # BBCH monograph (Meier 2001): 93 is the beginning, 97 the end of leaf fall.
    assert ({93, 97} <= set(kind.stage_months)) is not kind.evergreen
    assert kind.evergreen is not any(code >= 93 for code in kind.stage_months)


def test_the_entry_points_name_the_species():
    project = tomllib.loads((Path(__file__).parents[2] / "pyproject.toml").read_text())
    declared = project["project"]["entry-points"]["backbud.species"]
    for name, target in declared.items():
        module, _, attribute = target.partition(":")
        assert getattr(import_module(module), attribute)().title == name


def test_figures_of_ours_have_a_name_a_unit_and_a_use():
    assert {figure.name for figure in FIGURES} >= {"shelter_below_c", "slow_drain_from_s"}
    for figure in FIGURES:
        assert figure.name.endswith(("_c", "_s"))
        assert figure.about.endswith(".")
