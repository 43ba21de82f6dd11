"""When a hard cut of an evergreen has its time, and what follows it. Common practice, no source."""

from __future__ import annotations

from datetime import date

import pytest

from backbud.species import Window
from backbud_species.common_camellia import CommonCamellia
from backbud_species.kurume_azalea import KurumeAzalea
from backbud_species.sasanqua_camellia import SasanquaCamellia
from backbud_species.satsuki_azalea import SatsukiAzalea

KURUME, SATSUKI = KurumeAzalea(), SatsukiAzalea()


@pytest.mark.parametrize(
    ("species", "rule", "days"),
    [
        # Bud burst on a species' usual days (numbers.txt): from four weeks before the first of
        # them, 14 and 8 April, best two weeks before the usual one, until the last.
        (CommonCamellia(), "camellia-renew", ("2027-03-17", "2027-04-14", "2027-05-13")),
        (SasanquaCamellia(), "sasanqua-renew", ("2027-03-11", "2027-04-09", "2027-05-08")),
    ],
)
def test_a_camellia_whose_buds_came_off_is_cut_hard_before_its_flush(
    made, only, species, rule, days
):
    off = made.event("2026-09-10", "disbudded", "all")
    tree = made.tree(off, strength="strong")
    year = made.year(species, "cool")
    work = only(made.yearly(species, tree, year, rule))
    assert (work.act, work.extent, work.singly) == ("pruned", "hard", True)
    assert work.window == Window(*map(date.fromisoformat, days))
    assert work.datum.startswith("Its flower buds came off on 10 September 2026.")
    # Silence without a reason in this tree: its flowers are on, or it is not strong.
    some = made.tree(made.event("2026-09-10", "disbudded", "some"), strength="strong")
    for other in (made.tree(off, strength="fair"), some, made.tree(strength="strong")):
        assert made.yearly(species, other, year, rule) == []


def test_a_kurume_gains_by_glass_as_a_satsuki_does(made):
    """Early April in a cool place is under 17 °C (a setting of ours)."""
    done = made.event("2027-04-05", "pruned", "hard")
    into, out = made.after(KURUME, "kurume-glass", made.tree(done), done, made.year(KURUME, "cool"))
    assert (into.act, into.what) == ("moved", "under unheated glass for two to three weeks")
    assert out.what == "out from under glass"
    warm = made.event("2027-07-01", "pruned", "hard")
    year = made.year(KURUME, "warm")
    assert made.after(KURUME, "kurume-glass", made.tree(warm), warm, year) == []


def test_in_autumn_there_are_two_weeks_to_bring_it_under_glass(made, only):
    """It rests there until spring, so the move is no matter of one week, as in growth."""
    done = made.event("2027-10-03", "pruned", "hard")
    year = made.year(SATSUKI, "cool")
    move = only(made.after(SATSUKI, "satsuki-glass", made.tree(done), done, year))
    assert move.what == "under unheated glass until spring"
    assert move.window.closes == date(2027, 10, 17)
