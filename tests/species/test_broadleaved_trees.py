"""Fourteen broadleaves: what a published source, or the trade's common practice, says of each.

The source stands beside each check; where none does, it is common practice, no source.
"""

from __future__ import annotations

from datetime import date

import pytest

from backbud.species import Window
from backbud_species.border_privet import BorderPrivet
from backbud_species.box import CommonBox
from backbud_species.chinese_elm import ChineseElm
from backbud_species.european_beech import EuropeanBeech
from backbud_species.field_elm import FieldElm
from backbud_species.field_maple import FieldMaple
from backbud_species.ginkgo import Ginkgo
from backbud_species.hawthorn import Hawthorn
from backbud_species.hornbeam import EuropeanHornbeam
from backbud_species.japanese_beech import JapaneseBeech
from backbud_species.korean_hornbeam import KoreanHornbeam
from backbud_species.oak import EnglishOak
from backbud_species.privet import CommonPrivet
from backbud_species.zelkova import Zelkova

DECIDUOUS = [
    FieldMaple,
    Ginkgo,
    Zelkova,
    ChineseElm,
    FieldElm,
    EuropeanHornbeam,
    KoreanHornbeam,
    EuropeanBeech,
    JapaneseBeech,
    EnglishOak,
    Hawthorn,
    CommonPrivet,
    BorderPrivet,
]
EVERY = [*DECIDUOUS, CommonBox]


def days(*texts: str) -> Window:
    return Window(*(date.fromisoformat(text) for text in texts))


def acts(proposals):
    return {proposal.act for proposal in proposals}


# ------------------------------------------------------------------ facts that were looked up


@pytest.mark.parametrize(
    ("kind", "rating", "source"),
    [
        (EnglishOak, "H6", "RHS"),
        (Hawthorn, "H7", "RHS"),
        (KoreanHornbeam, "H6", "Trees and Shrubs Online"),
        (JapaneseBeech, "H7", "Trees and Shrubs Online"),
    ],
)
def test_hardiness_as_published(kind, rating, source):
    assert kind.hardiness.value == rating
    assert source in kind.hardiness.source


@pytest.mark.parametrize(
    ("kind", "accepted", "synonym"),
    [
        # Trees and Shrubs Online (International Dendrology Society).
        (KoreanHornbeam, "Carpinus turczaninovii", "Carpinus coreana"),
        # RHS.
        (EnglishOak, "Quercus robur", "Quercus pedunculata"),
        # Plants of the World Online, from memory.
        (FieldElm, "Ulmus minor", "Ulmus carpinifolia"),
        (Ginkgo, "Ginkgo biloba", "Salisburia adiantifolia"),
        (JapaneseBeech, "Fagus crenata", "Fagus sieboldii"),
    ],
)
def test_a_synonym_is_no_name_of_its_own(kind, accepted, synonym):
    assert kind.botanical == accepted
    assert synonym in kind.also


def test_beech_wants_soil_of_ph_6_to_7_and_a_half():
    # Forest Research, Tree species database: Beech.
    assert EuropeanBeech.soil_ph.value == (6.0, 7.5)


@pytest.mark.parametrize(
    ("kind", "word", "source"),
    [
        # Poisonous plants of the University of Pennsylvania, Massey University, the Hospital
        # Authority of Hong Kong ("10 seeds can be toxic"), the RHS, Boone County Arboretum.
        (CommonPrivet, "berries are poisonous", "Pennsylvania"),
        (CommonBox, "horses, sheep, pigs and cattle", "Pennsylvania"),
        (EnglishOak, "acorns poison all animals", "Massey"),
        (Ginkgo, "Ten of its seeds", "Hong Kong"),
        (Hawthorn, "seeds contain toxins", "RHS"),
        (JapaneseBeech, "raw nuts", "Boone County"),
    ],
)
def test_what_is_poisonous_says_so_with_its_source(kind, word, source):
    assert word in kind.toxicity.value
    assert source in kind.toxicity.source


# ------------------------------------------------------------------ stages


@pytest.mark.parametrize("kind", DECIDUOUS)
def test_stages_come_in_the_order_of_the_bbch_scale(kind):
    # BBCH monograph, Meier 2001: 01 bud swelling, 07 bud burst, 10 first leaves, 19 all leaves,
    # 91 shoot growth complete, 93 beginning and 97 end of leaf fall.
    for part in range(3):
        found = [kind.stage_months[code][part] for code in (1, 7, 10, 19, 91, 93, 97)]
        assert found == sorted(found)


def test_box_never_reaches_leaf_fall():
    assert CommonBox.evergreen
    assert max(CommonBox.stage_months) == 91


def test_trees_leaf_out_in_the_order_of_the_english_spring():
    # Spring records of the United Kingdom, from memory: hawthorn is the first, hornbeam before
    # beech and oak; Japanese beech opens before European; ginkgo among the last.
    burst = {kind: kind.stage_months[7][1] for kind in EVERY}
    assert min(burst, key=burst.get) is Hawthorn
    assert burst[EuropeanHornbeam] < burst[EnglishOak] < burst[EuropeanBeech]
    assert burst[JapaneseBeech] < burst[EuropeanBeech]
    assert burst[Ginkgo] > burst[FieldMaple]


def test_only_beeches_wait_for_chill():
    # Heide 1993, Physiologia Plantarum 89: 187: beech buds need long chill and long days, those of
    # Carpinus betulus do not mind the length of the day.
    assert {kind for kind in EVERY if kind.chill_portions} == {EuropeanBeech, JapaneseBeech}
    assert EuropeanBeech.chill_portions.value > JapaneseBeech.chill_portions.value


def test_hawthorn_flowers_after_its_leaves_and_privet_in_june():
    assert Hawthorn.stage_months[10][1] < Hawthorn.stage_months[60][1]
    # RHS: "in late spring".
    assert Hawthorn.stage_months[65][1][0] == 5
    # University of Pennsylvania: privet flowers in June and July.
    for kind in (CommonPrivet, BorderPrivet):
        assert kind.stage_months[60][1][0] == 6
        assert kind.stage_months[69][1][0] == 7


# ------------------------------------------------------------------ what is never done


@pytest.mark.parametrize("kind", [EuropeanBeech, JapaneseBeech])
def test_a_beech_is_never_stripped_nor_trimmed_twice(made, kind):
    species, tree = kind(), made.tree(strength="strong")
    found = made.yearly(species, tree, made.year(species, "warm"))
    assert "defoliated" not in acts(found)
    # Some outer leaf is thinned, from a strong tree only.
    assert "thinned" in acts(found)
    fair = made.yearly(species, made.tree(strength="fair"), made.year(species, "warm"))
    assert "thinned" not in acts(fair)
    # It makes one flush a year.
    assert len([p for p in found if p.act == "trimmed"]) == 1


@pytest.mark.parametrize("kind", [Ginkgo, CommonBox, Hawthorn, ChineseElm, CommonPrivet])
def test_these_keep_their_leaves(made, kind):
    species, tree = kind(), made.tree(strength="strong")
    assert "defoliated" not in acts(made.yearly(species, tree, made.year(species, "warm")))


@pytest.mark.parametrize("kind", [FieldMaple, Zelkova])
def test_only_these_two_are_stripped_in_strength_and_warmth(made, kind):
    species = kind()
    rule = f"{kind.rule_prefix}-defoliate"
    strong, fair = made.tree(strength="strong"), made.tree(strength="fair")
    (full,) = made.yearly(species, strong, made.year(species, "warm"), rule)
    assert full.what == "fully, the stalks left on"
    for tree, place in ((strong, "cool"), (fair, "warm")):
        (part,) = made.yearly(species, tree, made.year(species, place), rule)
        assert part.what.startswith("in part")


def test_no_large_cut_on_an_elm_while_bark_beetles_fly(made, only):
    # City of East Lansing: elms are pruned in dormancy only.
    species = FieldElm()
    found = only(
        [
            p
            for p in made.yearly(species, made.tree(), made.year(species, "cool"))
            if p.act == "pruned"
        ]
    )
    assert found.window.opens == date(2027, 11, 10)
    # End of leaf fall 12 December and 75 days.
    assert found.window.closes == date(2028, 2, 25)


@pytest.mark.parametrize(
    "rule",
    ["zelkova-pinch", "hornbeam-pinch", "beech-pinch", "oak-pinch", "field-maple-pinch"],
)
def test_a_weak_or_just_repotted_tree_is_not_pinched(made, rule):
    kind = next(k for k in EVERY if rule == f"{k.rule_prefix}-pinch")
    species = kind()
    year = made.year(species)
    fresh = made.tree(made.event("2027-03-10", "repotted", "same pot"), strength="strong")
    assert made.yearly(species, fresh, year, rule) == []
    assert made.yearly(species, made.tree(strength="weak"), year, rule) == []
    assert len(made.yearly(species, made.tree(strength="fair"), year, rule)) == 1


# ------------------------------------------------------------------ their own ways


def test_beech_buds_are_stopped_in_the_days_they_unfold(made, only):
    species = EuropeanBeech()
    found = only(made.yearly(species, made.tree(), made.year(species), "beech-pinch"))
    # First leaves 18 April, 28 April and 10 May: 3 days before, 2 and 9 days after.
    assert found.window == days("2027-04-15", "2027-04-30", "2027-05-19")


def test_old_beech_leaves_come_off_before_the_buds_swell(made, only):
    species = JapaneseBeech()
    found = only(
        made.yearly(species, made.tree(), made.year(species), "japanese-beech-winter-leaves")
    )
    assert (found.act, found.window.best) == ("cleaned", date(2027, 3, 24))
    assert found.window.best < date(2027, 3, 27) == made.year(species).stage(1).day


def test_a_first_trim_does_not_stand_for_the_later_ones(made):
    for kind in (ChineseElm, FieldElm, CommonPrivet, BorderPrivet):
        species = kind()
        trims = [
            p for p in made.yearly(species, made.tree(), made.year(species)) if p.act == "trimmed"
        ]
        trims.sort(key=lambda p: p.window.opens)
        assert [p.window.opens.month for p in trims] == [5, 7, 8]
        assert [p.early_days for p in trims] == [None, 7, 7]


def test_a_hornbeam_dies_back_so_its_stub_is_looked_at_a_year_later(made, only):
    species = EuropeanHornbeam()
    done = made.event("2027-02-20", "pruned", "hard on left 2")
    found = only(made.after(species, "hornbeam-stubs", made.tree(done), done, made.year(species)))
    assert found.window.best == date(2028, 2, 19)
    assert found.part == "left 2"
    light = made.event("2027-02-20", "pruned", "light")
    assert made.after(species, "hornbeam-stubs", made.tree(light), light, made.year(species)) == []


def test_catkins_are_taken_from_old_korean_hornbeams(made):
    species = KoreanHornbeam()
    year = made.year(species)
    young = made.tree(made.event("2020-04-01", "sown", ""))
    old = made.tree(made.event("2000-04-01", "sown", ""))
    rule = "korean-hornbeam-catkins"
    assert made.yearly(species, young, year, rule) == []
    # Nobody knows how old a collected one is.
    assert len(made.yearly(species, old, year, rule)) == 1
    assert len(made.yearly(species, made.tree(), year, rule)) == 1


def test_a_weak_hawthorn_loses_its_flowers_and_keeps_its_shoots(made):
    species = Hawthorn()
    found = acts(made.yearly(species, made.tree(strength="weak"), made.year(species)))
    assert {"disbudded", "deadheaded"} <= found
    assert not found & {"trimmed", "pruned", "wired"}


def test_a_maple_bleeds_when_cut_hard_in_rising_sap(made):
    species = FieldMaple()
    for day, watched in (("2027-02-20", True), ("2027-07-01", False)):
        done = made.event(day, "pruned", "hard")
        found = made.after(
            species, "field-maple-bleeding", made.tree(done), done, made.year(species)
        )
        assert bool(found) is watched


def test_hardy_leaves_are_not_covered_for_a_touch_of_frost(made):
    # The cool place's nights reach 0 °C until late May and -4 °C where the mean low is 3.4 °C or
    # less, so into the first days of April (a drop of 7.4 K there, one of 6.5 in mid-April).
    for kind, rule in (
        (EuropeanBeech, "beech-late-frost"),
        (EnglishOak, "oak-late-frost"),
        (Ginkgo, "ginkgo-late-frost"),
    ):
        species = kind()
        (found,) = made.yearly(species, made.tree(), made.year(species, "cool"), rule)
        assert found.window.closes > date(2027, 5, 10)
    species = CommonPrivet()
    rule = "privet-late-frost"
    (found,) = made.yearly(species, made.tree(), made.year(species, "cool"), rule)
    assert found.window.closes == date(2027, 4, 3)
    assert made.yearly(species, made.tree(), made.year(species, "warm"), rule) == []


def test_the_box_tree_moth_is_looked_for_in_each_of_its_broods(made):
    species = CommonBox()
    year = made.year(species)
    (first,) = made.yearly(species, made.tree(), year, "box-moth")
    (later,) = made.yearly(species, made.tree(), year, "box-moth-summer")
    # University of Delaware: larvae that wintered feed in late May and early June, and two or
    # three generations follow each other.
    assert first.window.opens <= date(2027, 5, 20) and date(2027, 6, 5) <= first.window.closes
    assert first.window.closes < later.window.opens
    assert {first.act, later.act} == {"checked"}


def test_box_is_not_cut_so_late_that_its_shoots_freeze(made):
    species = CommonBox()
    cuts = [
        p.window.closes
        for p in made.yearly(species, made.tree(), made.year(species))
        if p.act in ("trimmed", "pruned", "thinned")
    ]
    assert len(cuts) == 4
    assert max(cuts) == date(2027, 9, 5)


def test_what_grows_from_fleshy_roots_comes_in_first():
    for kind in (Ginkgo, ChineseElm):
        assert kind.frost_limit_c.value == -5.0
    assert FieldMaple.frost_limit_c.value == -10.0
    assert all(kind.frost_limit_c is None for kind in (EnglishOak, Hawthorn, CommonBox))


@pytest.mark.parametrize(
    ("kind", "cool"),
    [
        # Roots with fungus threads, few and thick, or fleshy: a third at most in a cool place.
        (EuropeanBeech, 0.33),
        (JapaneseBeech, 0.33),
        (EnglishOak, 0.33),
        (Ginkgo, 0.33),
        # Roots that regrow from a stump.
        (CommonPrivet, 0.6),
        (ChineseElm, 0.6),
    ],
)
def test_root_share_goes_by_how_roots_regrow(kind, cool):
    assert kind.root_share.value[0] == cool


def test_every_one_names_what_must_not_be_done():
    for kind in EVERY:
        assert len(kind.never) >= 3, kind
        assert len(kind.advice) >= 3, kind
        assert all(line.startswith("Never ") for line in kind.never)


def test_late_winter_cuts_go_by_the_buds_and_not_by_the_months(made, only):
    species = ChineseElm()
    early = made.year(species, seen={1: "2027-02-20", 7: "2027-03-10"})
    found = only(made.yearly(species, made.tree(), early, "chinese-elm-prune-spring"))
    assert found.window == days("2027-01-30", "2027-02-04", "2027-02-10")
