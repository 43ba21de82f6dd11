"""Trees of warm countries: what a published source, or the trade's common practice, says of each.

The source stands beside each check; where none does, it is common practice, no source.
"""

from __future__ import annotations

from datetime import date

import pytest

from backbud_species.bougainvillea import Bougainvillea
from backbud_species.boxwood_honeysuckle import BoxwoodHoneysuckle
from backbud_species.dwarf_jade import DwarfJade
from backbud_species.fukien_tea import FukienTea
from backbud_species.jade_plant import JadePlant
from backbud_species.myrtle import Myrtle
from backbud_species.olive import Olive
from backbud_species.rosemary import Rosemary
from backbud_species.serissa import Serissa
from backbud_species.small_leaved_fig import SmallLeavedFig
from backbud_species.willow_leaf_fig import WillowLeafFig

FIGS = [SmallLeavedFig, WillowLeafFig]
SUCCULENTS = [JadePlant, DwarfJade]
TENDER = [*FIGS, *SUCCULENTS, Bougainvillea, Serissa, FukienTea]
HARDIER = [Olive, BoxwoodHoneysuckle, Myrtle, Rosemary]
EVERY = [*TENDER, *HARDIER]

# Invented monthly mean lows in °C of a mild English town, January first.
ENGLISH_LOW = (2.0, 2.0, 3.0, 5.0, 8.0, 11.0, 13.0, 13.0, 10.0, 7.0, 4.0, 2.0)


def window_of(made, kind, rule, year, tree=None):
    found = made.yearly(kind(), tree or made.tree(), year, f"{kind.rule_prefix}-{rule}")
    assert len(found) == 1, found
    return found[0].window


# ------------------------------------------------------------------ facts that were looked up


@pytest.mark.parametrize(
    ("kind", "rating"),
    [
        # RHS: Bougainvillea Elsbet, Salvia rosmarinus Salem, Lonicera ligustrina var. yunnanensis
        # Silver Beauty.
        (Bougainvillea, "H2"),
        (Rosemary, "H4"),
        (BoxwoodHoneysuckle, "H6"),
    ],
)
def test_hardiness_as_published(kind, rating):
    assert kind.hardiness.value == rating
    assert kind.hardiness.source.startswith("RHS")


@pytest.mark.parametrize(
    ("kind", "accepted", "trade"),
    [
        # Global Information Hub on Integrated Medicine (Malaysia).
        (FukienTea, "Ehretia microphylla", "Carmona retusa"),
        # Horticultural Flora of South-eastern Australia (Royal Botanic Gardens Victoria).
        (Serissa, "Serissa japonica", "Serissa foetida"),
        # Missouri Botanical Garden, and from memory.
        (BoxwoodHoneysuckle, "Lonicera ligustrina var. yunnanensis", "Lonicera nitida"),
        # RHS lists rosemary as a Salvia.
        (Rosemary, "Salvia rosmarinus", "Rosmarinus officinalis"),
        # Berg 2004, Brittonia 56: 54, from memory.
        (WillowLeafFig, "Ficus salicaria", "Ficus neriifolia"),
        # University of Florida EENY324 speaks of Ficus retusa where that of California has
        # Ficus microcarpa.
        (SmallLeavedFig, "Ficus microcarpa", "Ficus retusa"),
    ],
)
def test_the_names_of_the_trade_are_understood(kind, accepted, trade):
    assert kind.botanical == accepted
    assert trade in kind.also


@pytest.mark.parametrize(
    ("kind", "word"),
    [
        # From memory of lists of plants poisonous to pets.
        (SmallLeavedFig, "cats and dogs"),
        (WillowLeafFig, "cats and dogs"),
        (JadePlant, "Cats and dogs"),
        # RHS.
        (BoxwoodHoneysuckle, "berries"),
        (Rosemary, "skin allergen"),
        # Plant Pono (Hawaii): thorns, not toxic.
        (Bougainvillea, "thorns"),
    ],
)
def test_what_harms_says_so(kind, word):
    assert word in kind.toxicity.value


def test_dwarf_jade_is_eaten_and_jade_is_not():
    # University of the Free State, Agronomy 2023, 13: 1206: an edible plant.
    assert "People eat" in DwarfJade.toxicity.value
    assert "vomit" in JadePlant.toxicity.value


def test_jade_is_never_sprayed_with_soap():
    # Clemson HGIC 1507: insecticidal soap may damage the plant; alcohol on a swab.
    assert any("soap" in line and "alcohol" in line for line in JadePlant.never)


# ------------------------------------------------------------------ stages


@pytest.mark.parametrize("kind", EVERY)
def test_stages_come_in_the_order_of_the_bbch_scale(kind):
    # BBCH monograph, Meier 2001: 01, 07, 10, 19 and 91; 60, 65, 69. No leaf fall on evergreens.
    for part in range(3):
        for codes in ((1, 7, 10, 19, 91), (60, 65, 69)):
            found = [kind.stage_months[c][part] for c in codes if c in kind.stage_months]
            assert found == sorted(found)
    assert kind.evergreen and max(kind.stage_months) == 91


def test_each_flowers_in_its_season():
    # RHS Myrtle: mid- to late summer. RHS rosemary Salem: late spring and early summer; the wild
    # kind begins in March. Missouri Botanical Garden: box honeysuckle May to June.
    assert Myrtle.stage_months[65][1][0] == 7
    assert Rosemary.stage_months[65][1] < (6, 1)
    assert BoxwoodHoneysuckle.stage_months[65][1][0] == 5
    # Sanz-Cortés 2002 has the leaves of olive (19) and its flowers (65) as stages of their own;
    # in the north it flowers in June.
    assert Olive.stage_months[65][1][0] == 6


# ------------------------------------------------------------------ warmth, light and feed


@pytest.mark.parametrize("kind", TENDER)
def test_the_tender_ones_come_in_before_their_roots_freeze(kind):
    assert kind.comes_in_below_c.value > kind.frost_limit_c.value > 0


@pytest.mark.parametrize("kind", HARDIER)
def test_the_others_stay_out(kind):
    assert kind.comes_in_below_c is None
    assert kind.hardiness.value in ("H4", "H6")


def test_what_bears_least_cold_comes_in_first():
    limits = {kind: kind.comes_in_below_c.value for kind in TENDER}
    # Growers' pages and the RHS, as gathered for the trade's facts.
    assert limits[FukienTea] == limits[SmallLeavedFig] == limits[WillowLeafFig] == 12
    assert 8 <= limits[DwarfJade] <= 10
    assert 5 <= limits[Bougainvillea] <= 8


@pytest.mark.parametrize("kind", [*FIGS, FukienTea])
def test_what_comes_in_below_12_c_stays_in_where_no_night_is_warm(made, kind):
    species = kind()
    rule = f"{species.rule_prefix}-out"
    # The cool place's warmest month has nights of 11 °C.
    cool = made.year(species, "cool", cover="indoors")
    assert made.yearly(species, made.tree(), cool, rule) == []
    # An English town's nights pass from 11 °C in mid-June to 13 in mid-July, and in August from 13
    # to 10 in mid-September: over 12 °C from about 1 July to about 25 August.
    english = made.year(species, "cool", cover="indoors", low=ENGLISH_LOW)
    window = window_of(made, kind, "out", english)
    assert date(2027, 6, 25) <= window.opens <= date(2027, 7, 5)
    warm = made.year(species, "warm", cover="indoors")
    assert len(made.yearly(species, made.tree(), warm, rule)) == 1


@pytest.mark.parametrize("kind", [Serissa, JadePlant])
def test_what_bears_cooler_nights_spends_an_english_summer_outside(made, kind):
    year = made.year(kind(), "cool", cover="indoors", low=ENGLISH_LOW)
    window = window_of(made, kind, "out", year)
    assert date(2027, 4, 1) < window.opens < date(2027, 7, 5)


@pytest.mark.parametrize("kind", [*FIGS, Serissa, FukienTea])
def test_what_grows_on_in_winter_is_fed_and_turned_to_the_light(made, kind):
    species = kind()
    year = made.year(species, "cool")
    feed = window_of(made, kind, "feed-winter", year)
    light = window_of(made, kind, "light", year)
    assert feed.opens.month == light.opens.month == 11
    assert feed.closes == light.closes == date(2028, 2, 15)
    # In the south the dark months are May to August.
    assert window_of(made, kind, "light", made.year(species, "cool", southern=True)).opens == date(
        2028, 5, 1
    )


@pytest.mark.parametrize("kind", [*SUCCULENTS, Bougainvillea])
def test_what_rests_in_winter_is_not_fed(made, kind):
    species = kind()
    fed = [
        p.window
        for p in made.yearly(species, made.tree(), made.year(species, "warm"))
        if p.act == "fed"
    ]
    assert fed and all(w.opens.month >= 4 and w.closes.month <= 9 for w in fed)


def test_no_window_is_spoken_of_where_no_night_sends_it_in(made):
    tropics = (22.0,) * 12
    year = made.year(SmallLeavedFig(), "warm", low=tropics)
    assert made.yearly(SmallLeavedFig(), made.tree(), year, "fig-light") == []


# ------------------------------------------------------------------ what is never done


@pytest.mark.parametrize("kind", [kind for kind in EVERY if kind not in FIGS])
def test_only_figs_lose_their_leaves(made, kind):
    species, tree = kind(), made.tree(strength="strong")
    found = made.yearly(species, tree, made.year(species, "warm"))
    assert "defoliated" not in {p.act for p in found}


@pytest.mark.parametrize("kind", FIGS)
def test_a_fig_is_stripped_only_in_strength_rest_and_warmth(made, kind):
    species = kind()
    rule = f"{kind.rule_prefix}-defoliate"
    strong = made.tree(strength="strong")
    (full,) = made.yearly(species, strong, made.year(species, "warm"), rule)
    assert full.what.startswith("fully")
    (part,) = made.yearly(species, strong, made.year(species, "cool"), rule)
    assert part.what.startswith("in part")
    sick = made.tree(made.event("2027-05-10", "treated", "soap 1 L"), strength="strong")
    (held,) = made.yearly(species, sick, made.year(species, "warm"), rule)
    assert held.act == "checked"
    fresh = made.tree(made.event("2027-05-10", "repotted", "same pot"), strength="strong")
    assert made.yearly(species, fresh, made.year(species, "warm"), rule) == []


@pytest.mark.parametrize("kind", SUCCULENTS)
def test_a_succulent_is_watered_a_week_after_its_roots_were_cut_and_never_sealed(made, kind):
    species, year = kind(), made.year(kind())
    done = made.event("2027-06-01", "repotted", "same pot")
    rule = f"{kind.rule_prefix}-water-again"
    (found,) = made.after(species, rule, made.tree(done), done, year)
    assert (found.act, found.window.best) == ("watered", date(2027, 6, 10))
    whole = made.event("2027-06-01", "repotted", "same pot, no root work")
    assert made.after(species, rule, made.tree(whole), whole, year) == []
    assert not [r for r in species.works if r.id == "seal"]


def test_rosemary_is_never_cut_to_bare_wood(made):
    species = Rosemary()
    for strength in ("fair", "strong"):
        found = made.yearly(species, made.tree(strength=strength), made.year(species, "warm"))
        assert "pruned" not in {p.act for p in found}
    assert any("bare wood does not shoot" in line for line in species.never)


def test_the_touchiest_roots_lose_least():
    most = {kind: kind.root_share.value[1] for kind in EVERY}
    assert min(most, key=most.get) is Rosemary
    assert max(most, key=most.get) is BoxwoodHoneysuckle


def test_olives_are_cut_after_the_wet_months(made):
    # University of California Cooperative Extension, First Press, spring 2007: wait until the
    # winter rains have passed, since cuts let in disease that water spreads.
    window = window_of(made, Olive, "prune", made.year(Olive(), "cool"))
    assert date(2027, 3, 15) <= window.opens and window.closes <= date(2027, 6, 1)


# ------------------------------------------------------------------ flowers


def test_flowers_on_new_wood_are_not_cut_off(made):
    # RHS: bougainvillea is pruned after flowering (group 12). What is cut before is cut before
    # the flowering shoots set their tips.
    for kind in (Bougainvillea, Myrtle):
        year = made.year(kind())
        first = year.stage(60)
        window = window_of(made, kind, "trim", year)
        assert (first.day - window.best).days >= 28
    bougainvillea = made.year(Bougainvillea())
    later = window_of(made, Bougainvillea, "trim-late", bougainvillea)
    assert later.best > bougainvillea.stage(69).day


def test_flowers_on_last_years_wood_are_cut_after_they_are_over(made):
    year = made.year(Rosemary())
    assert window_of(made, Rosemary, "trim", year).opens >= year.stage(69).first


def test_a_bougainvillea_is_kept_short_of_water_only_on_whole_roots(made):
    species = Bougainvillea()
    year = made.year(species)
    rule = "bougainvillea-dry-spell"
    assert len(made.yearly(species, made.tree(), year, rule)) == 1
    fresh = made.tree(made.event("2027-04-20", "repotted", "same pot"))
    assert made.yearly(species, fresh, year, rule) == []


# ------------------------------------------------------------------ their own ways


def test_what_shoots_from_the_base_says_so():
    for kind in (Serissa, Olive, BoxwoodHoneysuckle):
        assert kind.strongest == "basitonic"
    for kind in (*FIGS, *SUCCULENTS):
        assert kind.strongest == "acrotonic"


def test_a_serissa_is_looked_at_after_a_move(made):
    species = Serissa()
    done = made.event("2027-09-20", "moved", "glass")
    (found,) = made.after(species, "serissa-leaf-drop", made.tree(done), done, made.year(species))
    assert (found.act, found.window.opens) == ("checked", date(2027, 9, 30))


@pytest.mark.parametrize(
    ("kind", "rule", "month", "source"),
    [
        # University of California IPM: thrips on young growth, loopers in warm weather, peacock
        # spot in the wet of autumn.
        (SmallLeavedFig, "thrips", 6, "University of California IPM"),
        (Bougainvillea, "looper", 7, "University of California IPM"),
        (Olive, "peacock-spot", 10, "University of California IPM"),
        (JadePlant, "mealybug", 5, "Clemson"),
    ],
)
def test_pests_are_looked_for_when_they_show(made, kind, rule, month, source):
    (found,) = made.yearly(kind(), made.tree(), made.year(kind()), f"{kind.rule_prefix}-{rule}")
    assert found.act == "checked" and found.window.best.month == month
    assert source in found.because


def test_each_flush_is_trimmed_for_itself(made):
    for kind in (*FIGS, DwarfJade, Serissa, FukienTea, Olive, BoxwoodHoneysuckle, Rosemary):
        species = kind()
        trims = sorted(
            (
                p
                for p in made.yearly(species, made.tree(), made.year(species))
                if p.act == "trimmed"
            ),
            key=lambda p: p.window.opens,
        )
        assert [p.early_days for p in trims][1:] == [7] * (len(trims) - 1) != []
