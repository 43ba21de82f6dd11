"""Which wedges come next, and what asks for root work before its years are up."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from backbud.bench.pots import pot_from_inside
from backbud.species import COMMON_PRACTICE, Fact, OnTree
from backbud_species.habits.signs import early_signs
from backbud_species.habits.turn import next_wedges
from backbud_species.trident_maple import TridentMaple

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
    assert one == (("W",), "W not since 2020-03-10.")


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
        "water has been slow to pass (75 s on 2026-04-10)",
    )


def test_a_hard_surface_that_was_opened_is_a_sign(signs) -> None:
    assert signs(("2026-05-10", "opened", "hard surface")) == (
        "its hard surface had to be opened on 2026-05-10",
    )


def test_vigour_that_falls_each_year_is_a_sign(signs) -> None:
    assert signs(
        ("2025-06-10", "vigour", "top 5, low 3"),
        ("2026-06-10", "vigour", "top 3, low weak"),
    ) == ("it grows less each year (vigour 4, 2 of 5)",)
    assert signs(("2025-06-10", "vigour", "3"), ("2026-06-10", "vigour", "3")) == ()


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
    assert "Still in the root ball from before the last potting: 2 mm Al tie × 2." in (
        found.cautions
    )
    assert "To take out of the pot: mesh × 2." in found.cautions
