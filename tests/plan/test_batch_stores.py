"""What a batch takes of pots and mix: every figure worked out by hand beside it.

The density and sieve of lava are as in test_stores.py: 5 % stay in the sieve, the mix settles 5 %.
"""

from __future__ import annotations

from datetime import date
from math import pi
from pathlib import Path

import pytest

from backbud.plan.stores import Stores, stores_of
from backbud.session import Session, open_session

JOURNAL = """
place yard
  latitude  52
mix grit
  lava      1
  settles   5 %
material lava
  sold in   bag of 20 L
material pots-9
  name      9 cm pots
  sold in   box of 100
tree mother
  kind      garden shrub
tree reds
  kind      garden shrub
  place     yard
  mix       grit

2026-01-01
lava
  bought    3 bags
pots-9
  bought    1 box

2026-03-01
mother
  struck    50 cuttings, as reds

2026-05-01
reds
  died      3

2026-06-01
reds
  potted-on 20, 9 cm pots, mix grit

2026-06-08
reds
  potted-on 10, 9 cm pots, mix grit 0.4 L each

2026-06-15
reds
  planned   pot-on, 9 cm pots, to 2026-09
"""
# A round pot of 9 cm, filled to 1 cm below its rim, loose and before the sieve.
LITRES_EACH = pi / 4 * 9 * 9 * 8 / 1000 / 0.95 / 0.95


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory) -> Session:
    folder = tmp_path_factory.mktemp("batch")
    (folder / "backbud.toml").write_text('language = 1\ncurrency = "EUR"\n')
    (folder / "journal.txt").write_text(JOURNAL)
    return open_session(str(folder), date(2026, 7, 1))


@pytest.fixture(scope="module")
def stores(opened: Session) -> Stores:
    plan = opened.plan()
    return stores_of(opened.journal, opened.histories, plan, opened.today)


def test_each_of_a_batch_takes_a_pot_and_its_mix(stores: Stores) -> None:
    shelf = {one.material.key: one for one in stores.shelf}
    # Twenty, reckoned; ten of 0.4 L each, as written.
    assert shelf["lava"].reckoned == pytest.approx(20 * LITRES_EACH)
    assert shelf["lava"].written == pytest.approx(10 * 0.4 / 0.95)
    assert shelf["pots-9"].on_hand == 70


def test_a_planned_potting_wants_them_for_all_that_are_left(stores: Stores) -> None:
    buying = {one.material.key: one for one in stores.buying}
    # Fifty less three.
    assert buying["pots-9"].wanted == 47
    assert buying["lava"].wanted == pytest.approx(47 * LITRES_EACH)
    assert [want.because for want in buying["pots-9"].wants] == ["one for each"]


def test_a_batch_is_one_line_of_what_is_due(opened: Session) -> None:
    plan = opened.plan(["reds"])
    pottings = [one for one in plan.follow_ups["reds"] if one.act == "potted-on" and one.planned]
    assert len(pottings) == 1


def test_no_season_asks_for_the_shape_of_cuttings(tmp_path: Path) -> None:
    """A maple is wired, pruned and pinched in its season; forty cuttings of one are not."""
    (tmp_path / "backbud.toml").write_text("language = 1\n")
    (tmp_path / "journal.txt").write_text(
        "place yard\n  latitude 52\ntree one\n  kind trident maple\n  place yard\n"
        "tree many\n  kind trident maple\n  place yard\n  count 40 cuttings\n"
    )
    plan = open_session(str(tmp_path), date(2026, 5, 1)).plan()
    of_shape = {"branches", "wire", "deadwood"}
    asked = {
        tree: {follow_up.row.work for follow_up in plan.follow_ups[tree]}
        for tree in ("one", "many")
    }
    assert {"branches", "wire"} <= asked["one"]
    assert not asked["many"] & of_shape
    # What keeps them alive is asked of both.
    assert "shelter" in asked["many"]


@pytest.mark.parametrize(
    ("said", "litres", "because"),
    [
        # A sieve takes 5 % of lava. Forty-seven are left.
        ("mix grit 0.4 L each", 47 * 0.4 / 0.95, "as planned"),
        ("mix grit 10 L", 10 / 0.95, "as planned"),
        ("mix grit", 47 * LITRES_EACH, "reckoned: "),
    ],
)
def test_a_planned_potting_wants_the_mix_that_its_line_says(
    tmp_path: Path, said: str, litres: float, because: str
) -> None:
    (tmp_path / "backbud.toml").write_text('language = 1\ncurrency = "EUR"\n')
    text = JOURNAL.replace("planned   pot-on, 9 cm pots,", f"planned   pot-on, 9 cm pots, {said},")
    (tmp_path / "journal.txt").write_text(text)
    session = open_session(str(tmp_path), date(2026, 7, 1))
    found = stores_of(session.journal, session.histories, session.plan(), session.today)
    buying = {one.material.key: one for one in found.buying}
    assert buying["lava"].wanted == pytest.approx(litres)
    assert all(want.because.startswith(because) for want in buying["lava"].wants)
