"""Anchor wires and mesh worked by hand: common practice, no source to hold them against."""

from __future__ import annotations

from itertools import pairwise

import pytest

from backbud.bench.anchors import Anchors, Mesh, anchors, mesh


@pytest.mark.parametrize(
    ("litres", "wires", "mm"),
    [
        (0.3, 1, 1.0),
        (0.5, 1, 1.0),
        (1.2, 1, 1.5),
        (4.9, 2, 2.0),
        (7.2, 2, 2.5),
        (14.7, 2, 3.0),
        (40.0, 4, 3.0),
    ],
)
def test_wires_by_volume(litres, wires, mm):
    found = anchors(litres, 2, 38, 7)
    assert (found.wires, found.aluminium_mm) == (wires, mm)


def test_a_wire_goes_across_and_up_at_both_ends():
    # 38 across, 7 up twice, 5 to twist twice: 62 cm; two of them 1.24 m.
    found = anchors(7.182, 2, 38, 7)
    assert found == Anchors(2, 2.5, 62, False)
    assert found.total_m == pytest.approx(1.24)


def test_one_hole_needs_a_bar_under_the_pot():
    assert anchors(4, 1, 28, 9).bar
    assert not anchors(4, 2, 28, 9).bar


def test_heavier_pots_never_get_thinner_or_fewer_wires():
    found = [anchors(litres / 10, 2, 30, 8) for litres in range(1, 600)]
    for lighter, heavier in pairwise(found):
        assert heavier.wires >= lighter.wires
        assert heavier.aluminium_mm >= lighter.aluminium_mm


def test_a_piece_of_mesh_and_a_staple_for_each_hole():
    # Holes of 2 cm: pieces 4 x 4 cm, staples 8 cm.
    assert mesh(3) == Mesh(3, 4, 48, pytest.approx(0.24))
    assert mesh(1, 3.5) == Mesh(1, 5.5, 30.25, pytest.approx(0.14))


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: anchors(4, 0, 28, 9), "number of holes, 1 or more"),
        (lambda: mesh(0), "number of holes, 1 or more"),
        (lambda: anchors(0, 1, 28, 9), "volume of the pot in litres, above 0"),
        (lambda: anchors(4, 1, 0, 9), "length of the pot in cm, above 0"),
        (lambda: anchors(4, 1, 28, -9), "depth of the pot in cm, above 0"),
        (lambda: mesh(1, 0), "diameter of a hole in cm, above 0"),
    ],
)
def test_what_makes_no_sense_says_what_to_give(call, says):
    with pytest.raises(ValueError) as caught:
        call()
    assert says in str(caught.value)
