"""The card that the stores ask for works when it is written as they say."""

from __future__ import annotations

import pytest

from backbud.plan.stores import stores_of
from backbud_grammar.handles import flaw_of, handle_of

CARDS = """\
place yard
  latitude  52 N
mix grit
  coarse moss peat  2
  pumice            1
pot tray
  shape     rectangle
  inside    30 x 20 x 8 cm
  holes     2
tree oak
  kind      garden shrub
  place     yard
  pot       tray
  mix       grit
  height    40 cm
2026-05-01
oak
  wired     3 mm Al on left 1
  wired     2.5 mm Al on left 2
  wired     1 mm Cu on left 3
  repotted  same pot, mix grit 3 L, tied 2 mm Al x 2
"""


def missing(session):
    stores = stores_of(session.journal, session.histories, session.plan(), session.today)
    return {one.what: one.to_write for one in stores.missing if one.to_write.startswith("a card: ")}


def test_each_card_applied_literally_is_no_longer_missing(written) -> None:
    lacking = missing(written(CARDS, "2026-06-01"))
    assert lacking["aluminium wire 3 mm"] == (
        "a card: material aluminium-wire-3-mm, name aluminium wire 3 mm, sold in roll of 1 kg, "
        "price 24 EUR, metal aluminium"
    )
    assert {
        "aluminium wire 2.5 mm", "aluminium wire 2 mm", "annealed copper wire 1 mm", "pumice",
        "coarse moss peat",
    } <= {*lacking}  # fmt: skip
    cards = "".join(
        to_write.removeprefix("a card: ").replace(", ", "\n  ") + "\n"
        for to_write in lacking.values()
    )
    assert missing(written(cards + CARDS, "2026-06-01")) == {}


@pytest.mark.parametrize(
    ("handle", "thickness_mm"),
    [("aluminium-wire-3-mm", 3.0), ("al-3mm", 3.0), ("al-2-5-mm", None), ("al-2-15-mm", None)],
)
def test_a_wire_s_handle_tells_its_thickness_where_that_is_clear(
    written, handle, thickness_mm
) -> None:
    from backbud.plan.stores.materials import Materials

    things = written(f"material {handle}\n  metal aluminium\n").journal.things
    assert Materials(things).by_key[handle].thickness_mm == thickness_mm


@pytest.mark.parametrize(
    ("words", "handle"),
    [
        ("aluminium wire 3 mm", "aluminium-wire-3-mm"),
        ("aluminium wire 2.5 mm", "aluminium-wire-2-5-mm"),
        ("Lava, 2-6 mm", "lava-2-6-mm"),
        ("赤玉 小粒", "赤玉-小粒"),
        ("3 mm Al", "mm-al"),
        ("tree", ""),
        ("12", ""),
    ],
)
def test_words_become_a_handle(words, handle) -> None:
    assert handle_of(words) == handle
    assert not handle or flaw_of(handle) == ""
