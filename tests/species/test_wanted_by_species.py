"""What growers asked for by species, each held to the rule that asks for it and to its season.

Dates and temperatures: the checked facts of the trade (Garden Organic on vine weevil, University of
Georgia on leaf gall, Forest Research on Phytophthora austrocedri, RHS on woolly aphid, growers'
pages); where no source is named they are common practice. Years are those of a cool place.
"""

from __future__ import annotations

from datetime import date

import pytest
from tests.species.climates import year_at
from tests.species.test_every_species import KINDS

from backbud.species import Species, rules_of

BY_NAME = {name: kind for kind in KINDS for name in kind.common}
AZALEAS = ("satsuki azalea", "kurume azalea")
CAMELLIAS = ("common camellia", "sasanqua camellia")
PINES = ("Japanese black pine", "Japanese white pine", "Japanese red pine", "Scots pine")
JUNIPERS = ("Chinese juniper", "procumbens juniper", "sabina juniper")


def species(name: str) -> Species:
    return BY_NAME[name]()


def year_of(made, name: str, *, strength: str = "strong", place: str = "Nottingham"):
    """The works of a year of an old tree: act, what, window, cautions and reason."""
    kind = species(name)
    tree = made.tree(made.event("2020-03-20", "repotted", "same pot"), strength=strength)
    return made.yearly(kind, tree, year_at(kind, place))


@pytest.mark.parametrize("name", [*AZALEAS, *CAMELLIAS])
@pytest.mark.parametrize(
    ("words", "first", "last"),
    [
        # Adults notch leaves from May to October, grubs eat roots from August to April.
        ("notched", (6, 1), (8, 31)),
        ("white curled grubs under the surface", (8, 20), (11, 10)),
        ("white curled grubs again", (3, 1), (5, 10)),
    ],
)
def test_vine_weevils_are_looked_for_above_and_below(made, name, words, first, last) -> None:
    (look,) = [one for one in year_of(made, name) if words in one.what]
    assert (look.act, look.weight.must) == ("checked", True)
    opens, closes = look.window.opens, look.window.closes
    assert first <= (opens.month, opens.day) and (closes.month, closes.day) <= last


def test_leaf_gall_of_azaleas_is_looked_for_from_april_to_june(made) -> None:
    for name in AZALEAS:
        (gall,) = [one for one in year_of(made, name) if "swollen leaves" in one.what]
        assert gall.window.opens.month >= 4 and gall.window.closes.month <= 6
        assert "before they turn white" in f"{gall.what} {gall.cautions}".casefold()


@pytest.mark.parametrize(
    ("name", "words"),
    [
        *((name, "petal blight") for name in AZALEAS),
        ("common camellia", "blight"),
    ],
)
def test_petal_blight_stands_with_the_spent_flowers(made, name, words) -> None:
    (spent,) = [one for one in year_of(made, name) if one.act == "deadheaded"]
    assert words in " ".join(spent.cautions)


def test_the_last_cut_of_an_azalea_comes_before_its_buds_are_set(made) -> None:
    """In Britain about 10 July (from memory); end of June in Tokyo (growers' pages 2016, 2019)."""
    for place, last in (("Nottingham", date(2027, 7, 14)), ("Tokyo", date(2027, 7, 4))):
        cuts = [one for one in year_of(made, "satsuki azalea", place=place) if one.act == "trimmed"]
        assert cuts and all(one.window.closes <= last for one in cuts)


@pytest.mark.parametrize("name", [*AZALEAS, *CAMELLIAS])
def test_new_shoots_are_covered_and_buds_thinned_for_a_show(name) -> None:
    prefix = species(name).rule_prefix
    ids = {rule.id for rule in rules_of(species(name))}
    wanted = {f"{prefix}-{one}" for one in ("late-frost", "show", "renew", "shade")}
    assert wanted <= ids


@pytest.mark.parametrize("name", PINES)
def test_needle_disease_is_looked_for_twice(made, name) -> None:
    """The second look lies between August and October."""
    (look,) = [one for one in year_of(made, name) if "for brown bands and tips" in one.what]
    assert look.window.opens.month >= 7 and look.window.closes <= date(2027, 10, 31)
    assert 8 <= look.window.best.month <= 10


def test_candles_are_pinched_in_the_second_half_of_may_in_a_cool_place(made) -> None:
    """And where none are cut the spring's feed is lean."""
    for name in PINES:
        (pinch,) = [one for one in year_of(made, name) if one.act == "pinched"]
        assert date(2027, 5, 12) <= pinch.window.best <= date(2027, 6, 1), name
    feeds = [one for one in year_of(made, "Japanese black pine") if one.act == "fed"]
    assert min(feeds, key=lambda one: one.window.best).what == "leanly"


@pytest.mark.parametrize("name", [*JUNIPERS, "needle juniper"])
def test_junipers_are_looked_at_for_their_root_disease(made, name) -> None:
    """Notifiable in trade in Britain, which binds a professional (Forest Research)."""
    (look,) = [one for one in year_of(made, name) if "austrocedri" in one.because]
    told = " ".join(look.cautions)
    assert "Britain" in told and "report" in told


def test_a_false_cypress_too_is_looked_at_for_it(made) -> None:
    """Hosts beside junipers are Chamaecyparis lawsoniana and C. nootkatensis (Forest Research)."""
    works = year_of(made, "hinoki cypress")
    (look,) = [one for one in works if "austrocedri" in " ".join(one.cautions)]
    assert "on one side" in look.what


@pytest.mark.parametrize("name", JUNIPERS)
def test_a_juniper_has_scale_and_a_second_trim(made, name) -> None:
    works = year_of(made, name)
    assert any("white scale" in one.what for one in works)
    first, second = (one for one in works if one.act == "trimmed" and "runners" in one.what)
    assert (second.window.best - first.window.best).days > 30
    ids = {rule.id.removeprefix(species(name).rule_prefix) for rule in rules_of(species(name))}
    assert {"-live-veins", "-deadwood"} <= ids


@pytest.mark.parametrize(
    ("name", "celsius"),
    [
        ("small-leaved fig", (12, 12)),
        ("willow-leaf fig", (12, 12)),
        ("Fukien tea", (12, 12)),
        ("dwarf jade", (8, 10)),
        ("bougainvillea", (5, 8)),
    ],
)
def test_what_is_tender_comes_in_from_its_own_night(name, celsius) -> None:
    """Growers' pages; RHS of bougainvillea, which loses leaves below 8 °C."""
    limit = species(name).comes_in_below_c
    assert limit is not None and celsius[0] <= limit.value <= celsius[1]


def test_a_bougainvillea_is_repotted_with_the_figs(made) -> None:
    days = {}
    for name in ("bougainvillea", "small-leaved fig"):
        kind = species(name)
        year = year_at(kind, "Tokyo")
        (window,) = year.times("repotted")[:1] or [None]
        if window is None:
            (window,) = [
                rule.time.window(year.stage(rule.stage) or year.season(rule.season), year)
                for rule in rules_of(kind)
                if rule.time is not None and rule.time.act == "repotted"
            ]
        days[name] = window.best
    one, other = days.values()
    assert abs((one - other).days) <= 28, days


def test_a_japanese_maple_is_pruned_from_colour_to_december_and_as_leaves_harden(made) -> None:
    """RHS via the press 2024: by mid January the sap runs."""
    works = year_of(made, "Japanese maple")
    (pruned,) = [one for one in works if one.act == "pruned"]
    assert date(2027, 10, 1) <= pruned.window.opens and pruned.window.closes <= date(2027, 12, 31)
    trims = [one.window.best for one in works if one.act == "trimmed"]
    assert any(date(2027, 5, 20) <= day <= date(2027, 6, 30) for day in trims)


@pytest.mark.parametrize("name", ["crab apple", "Japanese quince", "firethorn", "cotoneaster"])
def test_woolly_aphids_are_looked_for(made, name) -> None:
    """April to October (RHS): also on quince, firethorn and Cotoneaster horizontalis."""
    assert any("white wool" in one.what for one in year_of(made, name))


def test_a_wisterias_flowers_are_covered_in_its_year(made) -> None:
    (cover,) = [one for one in year_of(made, "wisteria") if one.act == "protected"]
    assert cover.what == "buds and flowers against frost"
    assert cover.window.closes <= date(2027, 5, 31)


@pytest.mark.parametrize(
    "name",
    [
        "silver birch", "sabina juniper", "procumbens juniper", "stewartia", "cork oak",
        "holm oak", "hackberry", "bald cypress", "Chinese quince", "podocarpus", "premna",
        "water jasmine", "tamarind", "black olive", "buttonwood", "desmodium",
    ],
)  # fmt: skip
def test_the_species_that_were_missed_are_here(made, name) -> None:
    assert len(year_of(made, name)) >= 6
