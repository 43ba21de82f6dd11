"""Which wedges come next, and what asks for root work before its years are up."""

from __future__ import annotations

from datetime import date
from itertools import pairwise

import pytest
from msgspec.structs import replace

from backbud.bench.pots import pot_from_inside
from backbud.species import COMMON_PRACTICE, Fact, OnTree, ring
from backbud_species.box import CommonBox
from backbud_species.boxwood_honeysuckle import BoxwoodHoneysuckle
from backbud_species.chinese_elm import ChineseElm
from backbud_species.cotoneaster import RockCotoneaster
from backbud_species.field_elm import FieldElm
from backbud_species.habits.intervals import root_ball_depth_cm
from backbud_species.habits.roots import days_opened, share_taken
from backbud_species.habits.signs import early_signs, is_slow
from backbud_species.habits.turn import next_wedges
from backbud_species.jade_plant import JadePlant
from backbud_species.japanese_maple import JapaneseMaple
from backbud_species.japanese_quince import JapaneseQuince
from backbud_species.privet import CommonPrivet
from backbud_species.serissa import Serissa
from backbud_species.trident_maple import TridentMaple
from backbud_species.willow_leaf_fig import WillowLeafFig
from backbud_species.wisteria import Wisteria

TRIDENT = TridentMaple()
# Of eight wedges opened half-way in each takes 0.75 / 8, so 9.4 % of the ball.
THIRD = Fact((0.33, 0.5), COMMON_PRACTICE)
OPENED = {
    "N": "2024-03-10",
    "E": "2024-03-10",
    "S": "2022-03-10",
    "W": "2020-03-10",
}


def test_the_share_that_may_go_bounds_how_many_are_opened(made) -> None:
    tree = made.tree(opened=OPENED)
    cool = next_wedges(tree, made.year(TRIDENT, "cool"), THIRD, last_time=4)
    assert cool is not None and len(cool.names) == 3
    assert "3 wedges are about 28 % of the ball's volume" in cool.because
    assert "33 % is the most in a cool place (common practice, no source)." in cool.because
    warm = next_wedges(tree, made.year(TRIDENT, "warm"), THIRD, last_time=8)
    # Never more than half of them, whatever may go.
    assert warm is not None and len(warm.names) == 4
    assert set(warm.names) == {"NE", "SE", "SW", "NW"}


def test_never_opened_come_before_long_closed_and_they_lie_across(made) -> None:
    tree = made.tree(opened=OPENED)
    two = next_wedges(tree, made.year(TRIDENT), None, last_time=2)
    assert two is not None
    assert two.names == ("NE", "SW")
    assert two.because == "NE and SW were never opened."
    every = dict.fromkeys(("N", "NE", "E", "SE", "S", "SW", "NW"), "2024-03-10") | {
        "W": "2020-03-10"
    }
    one = next_wedges(made.tree(opened=every), made.year(TRIDENT), None, last_time=1)
    assert one is not None
    assert one == (("W",), "W not since 10 March 2020.")


def test_where_no_wedge_was_written_down_none_is_named(made) -> None:
    assert next_wedges(made.tree(), made.year(TRIDENT), THIRD, last_time=3) is None


def test_after_some_repottings_the_whole_ball_is_renewed(made) -> None:
    """Four times two of eight wedges, each chosen by the ones before: every wedge once."""
    opened = {"N": "2020-03-10", "S": "2020-03-10"}
    for year in (2022, 2024, 2026):
        turn = next_wedges(made.tree(opened=opened), made.year(TRIDENT), None, last_time=2)
        assert turn is not None and not set(turn.names) & set(opened)
        opened |= dict.fromkeys(turn.names, f"{year}-03-10")
    assert len(opened) == 8


@pytest.mark.parametrize(
    ("opened", "how_many", "names"),
    [
        # Never beside N, which was opened last, and across from each other.
        ({"N": "2022-03-10"}, 1, ("S",)),
        ({"N": "2022-03-10"}, 2, ("E", "W")),
        ({"N": "2022-03-10"}, 3, ("E", "S", "W")),
        ({"N": "2022-03-10", "NE": "2022-03-10"}, 1, ("S",)),
        # Only the last ones: N was opened longer ago than S.
        ({"N": "2020-03-10", "S": "2022-03-10"}, 1, ("NE",)),
    ],
)
def test_the_next_lie_away_from_those_opened_last(made, opened, how_many, names) -> None:
    turn = next_wedges(made.tree(opened=opened), made.year(TRIDENT), None, last_time=how_many)
    assert turn is not None and turn.names == names


@pytest.mark.parametrize(
    ("card", "opened", "share", "names", "says"),
    [
        # Three of six wedges half-way in are 3/6 x 0.75 = 37.5 %, which a third does not bear: two.
        ("6", ("2", "6", "10"), 0.33, ("12", "4"), "2 wedges are about 25 % of"),
        ("6", ("2", "6", "10"), 0.5, ("12", "4", "8"), "3 wedges are about 38 % of"),
        ("12", ("N",), 0.5, ("3", "6", "9"), "3 wedges are about 19 % of"),
        ("5", ("N",), 0.33, ("2:24", "7:12"), "2 wedges are about 30 % of"),
        ("16", ("N", "S"), 0.1, ("3", "9"), "2 wedges are about 9 % of"),
        ("4", ("2",), 0.33, ("9",), "1 wedge is about 19 % of"),
        # Half of the ball is one wedge, and a third is the most.
        (
            "2",
            ("N",),
            0.33,
            ("6",),
            "1 wedge is about 38 % of the ball's volume when opened half-way; 33 % is the most in "
            "a cool place (common practice, no source), so open it less far in.",
        ),
        # Of eight by the clock 1 (30 degrees) is the wedge at 45 degrees: 1:30.
        ("8", ("1", "4", "7"), 0.5, ("3", "6", "10:30"), "3 wedges are about 28 % of"),
    ],
)
def test_the_wedges_are_as_many_as_the_card_says(made, card, opened, share, names, says) -> None:
    tree = replace(made.tree(opened=dict.fromkeys(opened, "2022-03-10")), facts={"wedges": card})
    may_go = Fact((share, share), COMMON_PRACTICE)
    turn = next_wedges(tree, made.year(TRIDENT), may_go, last_time=3)
    assert turn is not None
    assert turn.names == names
    assert says in turn.because


def test_names_of_both_ways_are_one_ball(made) -> None:
    """N, E and S of 2018 are 12, 3 and 6 by the clock of 2020, so none of them was never opened."""
    opened = dict.fromkeys(("N", "E", "S"), "2018-03-10")
    opened |= dict.fromkeys(("1", "2", "7"), "2020-03-10")
    tree = made.tree(opened=opened)
    assert days_opened(tree) == {
        name: date(year, 3, 10)
        for year, names in ((2018, ("12", "3", "6")), (2020, ("1", "2", "7")))
        for name in names
    }
    turn = next_wedges(tree, made.year(TRIDENT), None, last_time=6)
    assert turn is not None
    assert turn.because == "4, 5, 8, 9, 10 and 11 were never opened."
    below = made.tree(opened={"underside": "2018-03-10"})
    assert next_wedges(below, made.year(TRIDENT), None, last_time=2) is None


def test_so_many_wedges_that_not_every_way_can_be_tried(made) -> None:
    """Half of 24, never opened before but for one: none beside another, and none beside N."""
    tree = replace(made.tree(opened={"N": "2022-03-10"}), facts={"wedges": "24"})
    turn = next_wedges(tree, made.year(TRIDENT), None, last_time=11)
    assert turn is not None and len(turn.names) == 11
    every = ring(24, turn.names).names
    at = [every.index(name) for name in turn.names]
    assert min(later - sooner for sooner, later in pairwise((0, *at, 24))) == 2


@pytest.mark.parametrize(
    ("root_ball", "last_time", "says"),
    [
        # 1 - (1 - b / 10) (1 - 3 x 0.75 / 8) = 0.5 at b = 3.04 cm; with two wedges 3.85 cm.
        ("30 x 20 x 10 cm", 3, "so about 3 cm goes below."),
        ("30 x 20 x 10 cm", 2, "so about 3.5 cm goes below."),
        # 0.30 cm of 1 cm: less than half a centimetre.
        ("30 x 20 x 1 cm", 3, "so nothing goes below."),
        ("", 3, "; with what goes below, 50 % is the most in a cool place"),
    ],
)
def test_how_much_may_go_below_besides(made, root_ball, last_time, says) -> None:
    half = Fact((0.5, 1.0), COMMON_PRACTICE)
    tree = made.tree(opened=OPENED, root_ball=root_ball)
    turn = next_wedges(tree, made.year(TRIDENT, "cool"), half, last_time)
    assert turn is not None and says in turn.because
    # Where the roots may all go, nothing is said of below.
    warm = next_wedges(tree, made.year(TRIDENT, "warm"), half, last_time)
    assert warm is not None and "below" not in warm.because


# ------------------------------------------------------------------ how much went


@pytest.mark.parametrize(
    ("text", "card", "share"),
    [
        # 3/6, 3/5, 3/12 and 4/16 of the round, each half-way in: 0.75 of a wedge.
        ("wedges 2 6 10", "6", 0.375),
        ("wedges 12 5 7", "5", 0.45),
        ("wedges N E S", "12", 0.1875),
        ("wedges N E S W", "16", 0.1875),
        # By the card there are eight, by the clock twelve where it does not say.
        ("wedges 3 6", "8", 0.1875),
        ("wedges 3 6", "", 0.125),
        # N to S by way of E is three of four: NE and SE lie in their halves.
        ("wedges N NE E SE S", "4", 0.5625),
        # NE is half of N and half of E, so one of four.
        ("wedges NE", "4", 0.1875),
    ],
)
def test_the_share_goes_by_as_many_wedges_as_the_card_says(made, text, card, share) -> None:
    done = made.event("2027-03-10", "repotted", text)
    tree = replace(made.tree(done), facts={"wedges": card} if card else {})
    taken = share_taken(tree, done)
    assert taken is not None and taken.share == pytest.approx(share)


@pytest.mark.parametrize(
    ("text", "share"),
    [
        # 2 of 8 cm, and one of eight wedges half-way in: 1 - 0.75 x (1 - 0.75 / 8) = 32 %.
        ("2 cm off below, root ball 30 x 22 x 6 cm, wedges S", 0.3203125),
        # 2 cm off each side of 34 x 26 cm left 30 x 22 cm; 1 and 1 of 8 cm left 6.
        (
            "1 cm off below, 1 cm off top, 2 cm off sides, root ball 30 x 22 x 6 cm",
            1 - 30 * 22 * 6 / (34 * 26 * 8),
        ),
        ("2 cm off sides, root ball 20 x 8 cm", 1 - 20**2 / 24**2),
        ("8 cm off below, root ball 30 x 22 x 2 cm", 0.8),
        # Nothing but the wedge.
        ("wedges S, root ball 30 x 22 x 6 cm", 0.09375),
        ("2 cm off below, wedges S, root ball 30 x 22 x 0 cm", 0.09375),
    ],
)
def test_a_ball_that_the_work_measures_is_what_it_left(made, text, share) -> None:
    done = made.event("2027-03-10", "repotted", text)
    tree = made.tree(done, root_ball="30 x 22 x 6 cm")
    taken = share_taken(tree, done)
    assert taken is not None and taken.share == pytest.approx(share)


@pytest.mark.parametrize(
    ("written", "depth_cm"),
    [("30 x 22 x 6 cm", 6.0), ("30 x 22 x 0 cm", None), ("", None)],
)
def test_a_ball_with_no_depth_is_not_a_shallow_one(made, written, depth_cm) -> None:
    assert root_ball_depth_cm(made.tree(root_ball=written)) == depth_cm


# ------------------------------------------------------------------ every species


@pytest.mark.parametrize(
    "species",
    [
        BoxwoodHoneysuckle, ChineseElm, CommonBox, CommonPrivet, FieldElm, JadePlant,
        JapaneseMaple, JapaneseQuince, RockCotoneaster, Serissa, TridentMaple, WillowLeafFig,
        Wisteria,
    ],
    ids=lambda species: species.__name__,
)  # fmt: skip
def test_a_repotting_names_the_wedges_that_the_diary_does(made, species) -> None:
    kind = species()
    last = made.event("2017-03-10", "repotted", "same pot, wedges N S")
    for opened, named in (({"N": "2017-03-10", "S": "2017-03-10"}, ("E", "W")), ({}, ())):
        tree = made.tree(last, opened=opened, strength="fair")
        found = [p for p in made.yearly(kind, tree, made.year(kind)) if p.act == "repotted"]
        assert found
        assert {p.wedges for p in found} == {named}


# ------------------------------------------------------------------ signs


@pytest.fixture
def signs(made):
    """What speaks for root work in 2027 since a repotting in 2025."""

    def of(*after: tuple[str, str, str], **tree: str):
        last = made.event("2025-03-10", "repotted", "same pot, 2 cm off below")
        events = [made.event(*one) for one in after]
        year = made.year(TRIDENT)
        return early_signs(made.tree(last, *events, **tree), year, last, year.last)

    return of


def test_water_that_takes_longer_each_spring_is_a_sign(signs) -> None:
    """20, 28 and 40 s: each at least a quarter longer than the year before (ours)."""
    assert signs(
        ("2025-04-10", "drained", "20 s"),
        ("2026-04-10", "drained", "28 s"),
        ("2027-02-10", "drained", "40 s"),
    ) == ("water takes longer each year (20, 28, 40 s)",)
    assert signs(("2025-04-10", "drained", "20 s"), ("2026-04-10", "drained", "22 s")) == ()
    assert signs(("2026-04-10", "drained", "22 s")) == ()


def test_slow_water_is_a_sign_at_once(signs) -> None:
    assert signs(("2026-04-10", "drained", "75 s")) == (
        "water has been slow to pass (75 s on 10 April 2026)",
    )


def test_a_hard_surface_that_was_opened_is_a_sign(signs) -> None:
    assert signs(("2026-05-10", "opened", "hard surface")) == (
        "its hard surface had to be opened on 10 May 2026",
    )
    # What is only roughly known is history.
    assert signs(("2026-05", "opened", "hard surface")) == ()


def test_roots_that_were_found_to_fill_the_pot_are_a_sign(signs) -> None:
    assert signs(("2026-05-10", "checked", "roots rootbound")) == (
        "it was found rootbound on 10 May 2026",
    )
    assert signs(("2026-05-10", "checked", "pot, root-bound")) == (
        "it was found rootbound on 10 May 2026",
    )
    assert signs(("2026-05-10", "checked", "roots fine")) == ()


def test_vigour_that_falls_each_year_is_a_sign(signs) -> None:
    assert signs(
        ("2025-06-10", "vigour", "top 5, low 3"),
        ("2026-06-10", "vigour", "top 3, low weak"),
    ) == ("it grows less each year (vigour 4, 2 of 5)",)
    assert signs(("2025-06-10", "vigour", "3"), ("2026-06-10", "vigour", "3")) == ()
    # A check of the strength says it too.
    assert signs(
        ("2025-06-10", "vigour", "4"), ("2026-06-10", "checked", "wire fine, strength weak")
    ) == ("it grows less each year (vigour 4, 1 of 5)",)


def test_a_ball_that_fills_its_pot_is_a_sign(made) -> None:
    """30 x 20 x 6 cm are 3.6 of the 3.96 L of a pot of 33 x 20 x 6 cm: 91 %."""
    last = made.event("2025-03-10", "repotted", "same pot")
    tree = made.tree(last, root_ball="30 x 20 x 6 cm")
    year = made.year(TRIDENT)
    full = replace(year, pot=pot_from_inside("rectangle", (33.0, 20.0, 6.0)))
    assert early_signs(tree, full, last, year.last) == ("its root ball fills the pot (91 % of it)",)
    roomy = replace(year, pot=pot_from_inside("rectangle", (36.0, 24.0, 8.0)))
    assert early_signs(tree, roomy, last, year.last) == ()


def test_signs_bring_the_repotting_forward_and_it_says_so(made, only) -> None:
    """The trident's least is one year; two is the usual time."""
    year = made.year(TRIDENT)
    history = [
        made.event("2026-03-10", "repotted", "same pot, 2 cm off below"),
        made.event("2026-04-10", "drained", "20 s"),
        made.event("2027-02-10", "drained", "30 s"),
    ]
    early = only(made.yearly(TRIDENT, made.tree(*history), year, "trident-repot"))
    assert "water takes longer each year (20, 30 s)" in early.datum
    assert made.yearly(TRIDENT, made.tree(history[0]), year, "trident-repot") == []


def test_ties_and_mesh_stand_in_the_repottings_own_list(made, only) -> None:
    """First what was left from before the last potting, then what holds the tree now."""
    last = made.event("2024-03-10", "repotted", "same pot, 2 cm off below")
    put_in = made.event("2021-03-10", "repotted", "same pot, tied 2 mm x 2, mesh 2")
    on_tree = (
        OnTree("tie", "2 mm Al", "", 2, put_in.day, put_in, 2.0, True),
        OnTree("mesh", "mesh", "", 2, last.day, last),
    )
    tree = replace(made.tree(last), on_tree=on_tree)
    found = only(made.yearly(TRIDENT, tree, made.year(TRIDENT), "trident-repot"))
    assert "Not said to be out since the last potting: 2 mm Al tie × 2." in (found.cautions)
    assert "To take out of the pot: mesh × 2." in found.cautions
    # Mesh that stayed in its pot is not in the root ball.
    stayed = replace(tree, on_tree=(OnTree("mesh", "mesh", "", 4, put_in.day, put_in, None, True),))
    again = only(made.yearly(TRIDENT, stayed, made.year(TRIDENT), "trident-repot"))
    assert again.cautions[-1] == "To take out of the pot: mesh × 4."


@pytest.mark.parametrize(("took", "slow"), [("59 s", False), ("60 s", True), ("1 min", True)])
def test_a_can_of_water_that_takes_a_minute_passes_slowly(made, took, slow) -> None:
    assert is_slow(made.event("2027-05-01", "drained", took), made.year(TRIDENT)) == slow


@pytest.mark.parametrize(
    ("second", "told"), [("24 s", ()), ("25 s", ("water takes longer each year (20, 25 s)",))]
)
def test_water_is_slower_by_a_quarter_a_year(signs, second, told) -> None:
    assert signs(("2025-04-10", "drained", "20 s"), ("2026-04-10", "drained", second)) == told


def test_water_must_be_slower_in_each_year(signs) -> None:
    assert not signs(
        ("2025-04-10", "drained", "20 s"),
        ("2026-04-10", "drained", "28 s"),
        ("2027-02-10", "drained", "30 s"),
    )
    assert not signs(
        ("2025-06-10", "vigour", "5"), ("2026-06-10", "vigour", "3"), ("2027-06-10", "vigour", "4")
    )


def test_how_long_somebody_worked_says_nothing_of_the_soil(signs) -> None:
    assert not signs(("2025-04-10", "worked", "10 min"), ("2026-04-10", "worked", "20 min"))


@pytest.mark.parametrize(
    ("day", "is_sign"),
    [("2025-03-10", False), ("2025-03-11", True), ("2027-01-31", True), ("2027-02-01", False)],
)
def test_a_sign_comes_after_the_last_root_work_and_before_the_day(made, day, is_sign) -> None:
    last = made.event("2025-03-10", "repotted", "same pot")
    for act, said in (("drained", "75 s"), ("opened", "hard surface"), ("checked", "rootbound")):
        tree = made.tree(last, made.event(day, act, said))
        found = early_signs(tree, made.year(TRIDENT), last, date(2027, 2, 1))
        assert bool(found) == is_sign, act


@pytest.mark.parametrize(
    ("length", "told"),
    [
        # 3.6 L of roots in 4.0, 4.02 and 3.0 L.
        (40.0, ("its root ball fills the pot (90 % of it)",)),
        (40.2, ()),
        (30.0, ("its root ball fills the pot (100 % of it)",)),
    ],
)
def test_a_ball_fills_its_pot_from_nine_tenths_on(made, length, told) -> None:
    last = made.event("2025-03-10", "repotted", "same pot")
    tree = made.tree(last, root_ball="30 x 20 x 6 cm")
    pot = pot_from_inside("rectangle", (length, 20.0, 5.0))
    year = replace(made.year(TRIDENT), pot=pot)
    assert early_signs(tree, year, last, year.last) == told


def test_the_latest_day_of_a_sign_is_told_and_a_soft_surface_is_none(signs) -> None:
    hard, bound = ("opened", "hard surface"), ("checked", "roots rootbound")
    assert signs(("2026-05-10", *hard), ("2026-08-10", *hard)) == (
        "its hard surface had to be opened on 10 August 2026",
    )
    assert signs(("2026-05-10", *bound), ("2026-08-10", *bound)) == (
        "it was found rootbound on 10 August 2026",
    )
    assert signs(("2026-05-10", "opened", "surface")) == ()
    assert signs(("2026-05-10", "noted", "a hard surface, rootbound")) == ()


def test_a_ball_or_a_pot_of_no_known_size_fills_nothing(made) -> None:
    last = made.event("2025-03-10", "repotted", "same pot")
    year = made.year(TRIDENT)
    potted = replace(year, pot=pot_from_inside("rectangle", (30.0, 20.0, 5.0)))
    assert early_signs(made.tree(last), potted, last, year.last) == ()
    of_a_ball = made.tree(last, root_ball="30 x 20 x 6 cm")
    assert early_signs(of_a_ball, replace(year, pot=None), last, year.last) == ()
