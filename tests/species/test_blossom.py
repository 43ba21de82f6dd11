"""What the trade and open standards say of trees grown for flowers and fruit, against the plugins.

Sources that were looked up stand beside the check; "common practice" and "from memory" elsewhere.
"""

from __future__ import annotations

from datetime import date

import pytest
from tests.species.climates import year_at

from backbud.species import Window, rules_of
from backbud.species.year import NO_WEATHER
from backbud_grammar.acts import ACTS
from backbud_species.cherry import FloweringCherry
from backbud_species.common_camellia import CommonCamellia
from backbud_species.cotoneaster import RockCotoneaster
from backbud_species.crab_apple import CrabApple
from backbud_species.firethorn import Firethorn
from backbud_species.flowering_apricot import FloweringApricot
from backbud_species.japanese_quince import JapaneseQuince
from backbud_species.kurume_azalea import KurumeAzalea
from backbud_species.pomegranate import Pomegranate
from backbud_species.sasanqua_camellia import SasanquaCamellia
from backbud_species.satsuki_azalea import SatsukiAzalea
from backbud_species.small_leaved_cotoneaster import SmallLeavedCotoneaster
from backbud_species.snowbell import JapaneseSnowbell
from backbud_species.wisteria import Wisteria

KURUME, CRAB, UME, CHERRY = KurumeAzalea(), CrabApple(), FloweringApricot(), FloweringCherry()
QUINCE, WISTERIA, FIRETHORN = JapaneseQuince(), Wisteria(), Firethorn()
ROCK, SMALL = RockCotoneaster(), SmallLeavedCotoneaster()
POMEGRANATE, SNOWBELL = Pomegranate(), JapaneseSnowbell()
TSUBAKI, SAZANKA = CommonCamellia(), SasanquaCamellia()
ALL = [
    KURUME,
    CRAB,
    UME,
    CHERRY,
    QUINCE,
    WISTERIA,
    FIRETHORN,
    ROCK,
    SMALL,
    POMEGRANATE,
    TSUBAKI,
    SAZANKA,
    SNOWBELL,
]
EVERGREEN = [KURUME, FIRETHORN, SMALL, TSUBAKI, SAZANKA]
APPLE_TRIBE = [CRAB, QUINCE, FIRETHORN, ROCK, SMALL]
STONE_FRUIT = [UME, CHERRY]


def name(species):
    return species.common[0]


def days(*texts):
    return Window(*(date.fromisoformat(text) for text in texts))


def grown(made, *done, strength="fair"):
    """A tree repotted long ago."""
    return made.tree(made.event("2020-03-10", "repotted", "same pot"), *done, strength=strength)


def acts(made, species, tree, place="cool"):
    return {p.act for p in made.yearly(species, tree, made.year(species, place))}


# ------------------------------------------------------------------ names and facts

# Kew, Plants of the World Online: Malus toringo is accepted; GRIN gives its names zumi, ko-ringo
# and mitsuba-kaido. World Flora Online: Chaenomeles maulei and Cydonia maulei are C. japonica.
# The others from memory of Plants of the World Online.
NAMES = [
    (KURUME, "Rhododendron Kurume Group", "Rhododendron kiusianum"),
    (CRAB, "Malus toringo", "Malus sieboldii"),
    (CRAB, "Malus toringo", "zumi"),
    (UME, "Prunus mume", "Armeniaca mume"),
    (CHERRY, "Prunus incisa", "mamezakura"),
    (QUINCE, "Chaenomeles japonica", "Chaenomeles maulei"),
    (QUINCE, "Chaenomeles japonica", "Cydonia maulei"),
    (WISTERIA, "Wisteria floribunda", "noda fuji"),
    (FIRETHORN, "Pyracantha coccinea", "Cotoneaster pyracantha"),
    (ROCK, "Cotoneaster horizontalis", "beni shitan"),
    (SMALL, "Cotoneaster microphyllus", "Cotoneaster thymifolius"),
    (POMEGRANATE, "Punica granatum", "zakuro"),
    (TSUBAKI, "Camellia japonica", "tsubaki"),
    (SAZANKA, "Camellia sasanqua", "sazanka"),
    (SNOWBELL, "Styrax japonicus", "egonoki"),
]


@pytest.mark.parametrize(("species", "botanical", "also"), NAMES)
def test_each_goes_by_its_botanical_name_and_those_of_the_trade(species, botanical, also):
    assert species.botanical == botanical
    assert also in species.also


def test_no_two_share_a_name_a_prefix_or_a_rule():
    names = [n.casefold() for s in ALL for n in (s.botanical, *s.common, *s.also)]
    assert len(names) == len(set(names))
    ids = [rule.id for species in ALL for rule in rules_of(species)]
    assert len(ids) == len(set(ids))
    assert all(len(rule_id) <= 30 for rule_id in ids)


def test_hardiness_that_was_looked_up():
    # RHS plant pages: Cotoneaster horizontalis H7, Chaenomeles speciosa H6, Punica granatum H3,
    # a cultivar of Camellia sasanqua H4.
    looked_up = {s.botanical: s.hardiness.value for s in ALL if "RHS" in s.hardiness.source}
    assert looked_up == {
        "Cotoneaster horizontalis": "H7",
        "Chaenomeles japonica": "H6",
        "Punica granatum": "H3",
        "Camellia sasanqua": "H4",
    }
    others = [s for s in ALL if s.botanical not in looked_up]
    assert {s.hardiness.source for s in others} == {"from memory"}


def test_poisons_that_were_looked_up():
    # University of Pennsylvania, Wisteria: seeds and pods; one or two seeds cause serious illness.
    assert "one or two seeds" in WISTERIA.toxicity.value
    # North Carolina State University: all parts of a rhododendron are highly toxic if eaten.
    assert "highly poisonous" in KURUME.toxicity.value
    # RHS, Chaenomeles speciosa: seeds contain toxins; pets: fruit not to be eaten.
    assert "seeds" in QUINCE.toxicity.value and "pets" in QUINCE.toxicity.value
    # Veterinary Poisons Information Service: numerous cases in ruminants, small risk to cats and
    # dogs.
    for species in STONE_FRUIT:
        assert "cattle" in species.toxicity.value and "seldom to dogs" in species.toxicity.value


def test_pomegranate_counts_its_heat_over_ten_degrees():
    # Annals of Applied Biology 130, 1997: stages of the pomegranate in degree-days over 10 °C.
    assert POMEGRANATE.base_c.value == 10.0


# ------------------------------------------------------------------ stages


@pytest.mark.parametrize("species", ALL, ids=name)
def test_stages_are_in_the_order_of_the_bbch_scale(species):
    # Meier 2001: 1 bud swelling, 7 bud burst, 10 first leaves, 19 first leaves full; 60 first
    # flowers, 65 full flower, 69 end of flowering; 91 growth complete, 93 and 97 leaf fall.
    for codes in ((1, 7, 10, 19, 91, 93, 97), (60, 65, 69)):
        usual = [species.stage_months[code][1] for code in codes if code in species.stage_months]
        assert usual == sorted(set(usual))
        assert codes[0] in species.stage_months
    assert ({93, 97} <= set(species.stage_months)) is (species not in EVERGREEN)
    assert species.evergreen is (species in EVERGREEN)


def test_which_flower_before_their_leaves():
    # RHS, Prunus incisa; Bean in Trees and Shrubs Online, Pyracantha coccinea: early June; the
    # others common practice.
    bare = {s for s in ALL if s not in EVERGREEN and s.stage_months[65] < s.stage_months[10]}
    assert bare == {UME, CHERRY}
    assert UME.stage_months[69] < UME.stage_months[7]
    assert FIRETHORN.stage_months[60][1] == (6, 3)
    assert SAZANKA.stage_months[65][1] > (10, 1) > TSUBAKI.stage_months[65][1]


def test_kurume_flowers_weeks_before_satsuki():
    # Common practice.
    kurume, satsuki = KURUME.stage_months[65], SatsukiAzalea.stage_months[65]
    assert kurume[2] < satsuki[0]


# ------------------------------------------------------------------ when pruning costs flowers


def test_kurume_is_cut_between_flowering_and_midsummer(made):
    # University of Georgia Extension: flower buds form in summer, no pruning after 1 July.
    cuts = [
        p
        for p in made.yearly(KURUME, grown(made), made.year(KURUME))
        if p.act in ("trimmed", "pruned")
    ]
    assert [p.window for p in cuts] == [days("2027-05-13", "2027-06-04", "2027-06-29")]


@pytest.mark.parametrize("species", [TSUBAKI, SAZANKA], ids=name)
def test_camellias_are_not_cut_once_the_flush_is_hard(made, species):
    # Common practice: flower buds stand at the tips from midsummer on.
    year = made.year(species)
    for proposal in made.yearly(species, grown(made), year):
        if proposal.act in ("trimmed", "pruned", "pinched"):
            assert proposal.window.closes < year.stage(19).first


@pytest.mark.parametrize("species", STONE_FRUIT, ids=name)
def test_no_thick_cut_of_stone_fruit_in_the_wet_months(made, species):
    # Common practice: silver leaf flies from September to May, so cuts wait for early summer.
    assert any("silver leaf" in line for line in species.never)
    year = made.year(species)
    pruned = [p for p in made.yearly(species, grown(made), year) if p.act == "pruned"]
    assert len(pruned) == 1
    for proposal in pruned:
        in_summer = date(2027, 6, 1) <= proposal.window.opens <= date(2027, 8, 31)
        assert in_summer or any("thick" in caution for caution in proposal.cautions)


def test_a_flowering_apricot_is_cut_to_leaf_buds_and_stopped_before_midsummer(made):
    # Common practice: a twig cut back to flower buds alone dies; buds are set in midsummer.
    year = made.year(UME)
    first, second = sorted(
        (p for p in made.yearly(UME, grown(made), year) if p.act == "trimmed"),
        key=lambda p: p.window.best,
    )
    assert "leaf buds" in first.what and first.window.opens == date(2027, 2, 26)
    assert "six to eight leaves" in second.what
    assert second.window.closes <= date(2027, 7, 10)
    assert any("flower buds alone" in line for line in UME.never)


def test_wisteria_is_cut_twice_and_never_by_short_summer_cuts(made):
    # RHS, from memory: to five or six leaves in July or August, to two or three buds in January or
    # February.
    found = {p.act: p for p in made.yearly(WISTERIA, grown(made), made.year(WISTERIA))}
    summer, winter = found["trimmed"], found["pruned"]
    assert "five or six leaves" in summer.what and summer.window.best == date(2027, 7, 25)
    assert "two or three buds" in winter.what and winter.window.best == date(2027, 2, 8)


def test_firethorn_is_trimmed_only_after_it_has_flowered(made):
    # Bean in Trees and Shrubs Online: flowers on short twigs from shoots of the year before.
    year = made.year(FIRETHORN)
    for proposal in made.yearly(FIRETHORN, grown(made), year):
        if proposal.act in ("trimmed", "pruned", "pinched"):
            assert proposal.window.opens >= year.stage(69).first


# ------------------------------------------------------------------ roots


def test_quince_alone_is_repotted_in_autumn(made, only):
    # Common practice: crown gall enters roots cut in spring.
    for species in ALL:
        year = made.year(species)
        found = only(made.yearly(species, grown(made), year, f"{species.rule_prefix}-repot"))
        assert found.act == "repotted"
        if species is QUINCE:
            # The mean falls under 14 °C early in September there, and frosts of -2 °C come in
            # mid November.
            assert found.window.opens.month == found.window.best.month == 9
            assert date(2027, 9, 20) <= found.window.closes <= date(2027, 10, 31)
        else:
            assert found.window.closes <= date(2027, 5, 15)
    south = made.year(QUINCE, southern=True)
    found = only(made.yearly(QUINCE, grown(made), south, "quince-repot"))
    assert found.window.opens.month == found.window.best.month == 3
    # Where frost comes within six weeks of cool soil, and where nothing is known, it is spring.
    short = year_at(QUINCE, "Minneapolis")
    found = only(made.yearly(QUINCE, grown(made), short, "quince-repot"))
    assert found.window.closes <= date(2027, 4, 15)
    found = only(made.yearly(QUINCE, grown(made), made.year(QUINCE, "unknown"), "quince-repot"))
    assert found.window == days("2027-02-08", "2027-02-24", "2027-03-11")


def test_wisteria_keeps_most_of_its_roots(made, only):
    done = made.event("2027-03-30", "repotted", "same pot, off 50 %")
    found = only(
        made.after(
            WISTERIA, "wisteria-root-share", made.tree(done), done, made.year(WISTERIA, "warm")
        )
    )
    assert "40 % is the most in a warm place" in found.datum


def test_pomegranate_is_repotted_last_and_bears_least_frost():
    assert max(ALL, key=lambda s: s.stage_months[1][1]) is POMEGRANATE
    limits = {s: s.frost_limit_c.value for s in ALL if s.frost_limit_c is not None}
    assert max(limits, key=limits.get) is POMEGRANATE


# ------------------------------------------------------------------ flowers, fruit, frost


@pytest.mark.parametrize("species", [CRAB, UME, CHERRY, QUINCE, WISTERIA, TSUBAKI], ids=name)
def test_early_flowers_are_covered_where_frost_still_comes(made, only, species):
    rule = f"{species.rule_prefix}-blossom"
    year = made.year(species, "cool")
    found = only(made.yearly(species, grown(made), year, rule))
    assert found.act == "protected"
    assert found.window.opens < year.stage(60).first
    assert found.window.closes <= year.stage(69).last
    glass = made.year(species, "cool", cover="unheated glass")
    assert made.yearly(species, grown(made), glass, rule) == []
    off = grown(made, made.event("2027-01-10", "disbudded", "all"))
    assert made.yearly(species, off, year, rule) == []
    unknown = only(made.yearly(species, grown(made), made.year(species, "unknown"), rule))
    assert unknown.window.closes == date(2027, *species.stage_months[69][2])
    assert NO_WEATHER in unknown.datum


def test_a_flower_seen_at_an_odd_time_turns_no_order_round(made, only):
    """Without weather, too: the end of flowering comes after its first flower, whenever seen."""
    year = made.year(UME, "unknown", seen={60: "2027-10-20"})
    window = only(made.yearly(UME, grown(made), year, "apricot-blossom")).window
    assert window.opens <= window.best <= window.closes
    assert year.stage(60).day == date(2027, 10, 20) < year.stage(69).day


def test_a_crab_that_flowers_after_the_last_frost_is_not_covered(made):
    assert made.yearly(CRAB, grown(made), made.year(CRAB, "warm"), "crab-apple-blossom") == []


@pytest.mark.parametrize(
    "species",
    [KURUME, CRAB, UME, CHERRY, QUINCE, WISTERIA, FIRETHORN, ROCK, SMALL, POMEGRANATE, SNOWBELL],
    ids=name,
)
def test_a_weak_tree_flowers_less_and_a_strong_one_in_full(made, species):
    for strength, asked in (("weak", True), ("fair", True), ("", True), ("strong", False)):
        tree = grown(made, strength=strength)
        assert ("disbudded" in acts(made, species, tree)) is asked


@pytest.mark.parametrize(
    ("species", "ends"),
    [(CRAB, "11-25"), (POMEGRANATE, "11-10"), (ROCK, "01-15"), (FIRETHORN, "01-28")],
)
def test_fruit_comes_off_in_the_end_unless_there_is_none(made, species, ends):
    rule = f"{species.rule_prefix}-fruit-off"
    year = made.year(species)
    found = made.yearly(species, grown(made), year, rule)
    assert [(p.act, f"{p.window.best:%m-%d}") for p in found] == [("thinned", ends)]
    assert made.yearly(species, grown(made, strength="weak"), year, rule) == []


def test_no_fruit_is_thinned_where_the_flowers_came_off(made):
    off = grown(made, made.event("2027-04-20", "disbudded", "all"))
    year = made.year(CRAB)
    assert made.yearly(CRAB, off, year, "crab-apple-fruit") == []
    assert len(made.yearly(CRAB, grown(made), year, "crab-apple-fruit")) == 1


# ------------------------------------------------------------------ health


def test_fireblight_is_looked_for_in_the_apple_tribe_only(made):
    # Texas A&M, Texas Plant Disease Handbook: Cotoneaster, Pyracantha; cut four inches below.
    for species in ALL:
        year = made.year(species)
        found = [p for p in made.yearly(species, grown(made), year) if "Fireblight" in p.because]
        assert len(found) == (species in APPLE_TRIBE)
        for proposal in found:
            assert proposal.window.opens > year.stage(60).first
            assert "10 cm" in proposal.cautions[0]


def test_rust_comes_from_junipers(made):
    # Connecticut Agricultural Experiment Station: rusts need a rose relative and a juniper; The
    # Morton Arboretum names flowering quince.
    for species in (CRAB, QUINCE):
        reasons = [p.because for p in made.yearly(species, grown(made), made.year(species))]
        assert sum("junipers" in reason for reason in reasons) == 1


@pytest.mark.parametrize("species", ALL, ids=name)
def test_a_hard_cut_is_looked_at_where_old_wood_answers(made, species):
    done = made.event("2027-06-20", "pruned", "hard on left 2")
    year, tree = made.year(species), made.tree(done)
    looks = [
        p
        for rule in rules_of(species)
        if "pruned" in rule.acts
        for p in rule.function(tree, done, year)
        if p.act == "checked"
    ]
    # From memory: apricots and cherries gum and seldom bud, these six shoot from bare wood.
    shoots = species in (KURUME, FIRETHORN, ROCK, SMALL, TSUBAKI, SAZANKA)
    assert [p.settled_by[0] for p in looks] == (
        ["checked buds"] if shoots else ["checked wounds"] if species in STONE_FRUIT else []
    )


# ------------------------------------------------------------------ the year


@pytest.mark.parametrize("species", ALL, ids=name)
@pytest.mark.parametrize("place", ["cool", "mild", "warm"])
@pytest.mark.parametrize("strength", ["", "weak", "fair", "strong"])
def test_a_years_list_is_one_that_can_be_worked(made, species, place, strength):
    words = {form.word for form in ACTS}
    found = made.yearly(species, grown(made, strength=strength), made.year(species, place))
    # An azalea's grubs are looked for in spring and in autumn, its leaf galls in May.
    assert (3 if strength == "weak" else 6) <= len(found) <= 14
    for proposal in found:
        assert proposal.act in words and proposal.weight.lapses
        assert proposal.act not in ("defoliated", "decandled"), "none of these is ever stripped"
    hard = {"repotted", "trimmed", "pruned", "pinched", "thinned", "rubbed", "wired"}
    assert strength != "weak" or hard.isdisjoint(p.act for p in found)


def test_years_that_were_read_by_eye(made):
    """The works of a fair tree in the cool place by month of the best day."""
    year_of = {
        species: [
            f"{p.window.best:%m} {p.act}"
            for p in sorted(
                made.yearly(species, grown(made), made.year(species)),
                key=lambda p: (p.window.best, p.act, p.what),
            )
        ]
        for species in (UME, TSUBAKI, ROCK)
    }
    assert year_of[UME] == [
        "02 disbudded",
        "02 protected",
        "03 deadheaded",
        "03 repotted",
        "03 trimmed",
        "05 checked",
        "05 fed",
        "06 wired",
        "06 trimmed",
        "07 checked",
        "09 fed",
        "11 pruned",
    ]
    assert year_of[TSUBAKI] == [
        "03 protected",
        "03 checked",
        "04 deadheaded",
        "04 repotted",
        "04 trimmed",
        "05 protected",
        "06 fed",
        "06 checked",
        "07 wired",
        "09 disbudded",
        "09 checked",
        "09 fed",
    ]
    assert year_of[ROCK] == [
        "01 thinned",
        "03 repotted",
        "05 disbudded",
        "06 checked",
        "06 fed",
        "06 trimmed",
        "06 checked",
        "08 trimmed",
        "09 fed",
        "12 pruned",
        "12 wired",
    ]
