"""The page of visits: what was agreed, done, waits, when each can go home, what is open."""

from __future__ import annotations

from datetime import date

from backbud.pages.visits import sheet

CARDS = """\
place yard
  latitude 56 N
  low   0 0 1 3 5 8 10 10 8 5 3 1 C
  high  6 7 9 12 15 17 19 18 16 12 9 6 C
person me
person ada
  name Ada
tree hoshi
  kind trident maple
  owner ada
  place yard
tree yuki
  kind trident maple
  owner ada
  place yard
"""
DIARY = """\
2025-03-01
hoshi
  wired 2 mm Al on left 1
  returned to ada
2026-09-01
hoshi
  received from ada, wanted by 2026-12
  agreed 120 EUR for pruning
yuki
  received from ada
  agreed 50 EUR for wiring
2026-10-01
hoshi
  protected fleece
yuki
  billed 50 EUR, number 1
  returned to ada
2026-10-05
ada
  paid 20 EUR
"""
DAY = date(2026, 11, 20)


def test_it_says_what_to_think_of_before_a_tree_goes_home(written) -> None:
    """Its cover runs into spring and it is wanted by December; its wire is 20 months old; of the
    bill of 50.00 for the other 20.00 is paid."""
    session = written(CARDS + DIARY, str(DAY), settings='home = "yard"\nkeeper = "me"\n')
    shown = sheet(session.accounts(), {}, DAY)
    (here,), (gone,) = shown.here, shown.gone
    lines = {line.label: line.said for line in here.lines}
    assert (lines["agreed"], lines["wanted by"]) == ("120 EUR for pruning", "December")
    assert lines["can go home"].startswith("from ")
    assert lines["can go home"].endswith(" 2027")
    late, wire = here.cautions
    assert late.endswith("2027, and until then its winter shelter should not be broken off.")
    assert wire == (
        "As it stands it goes home with old wire on it: 2 mm aluminium wire on left 1, since March "
        "2025."
    )
    money = {line.label: line.said for line in gone.lines}["money"]
    assert money == "comes to 50.00 EUR, billed 50.00 EUR, open 30.00 EUR"
    assert (shown.open, shown.to_bill) == (("30.00 EUR",), ("120.00 EUR",))
