"""A receipt says how things stood on the day the tree came, whatever was written later."""

from __future__ import annotations

from decimal import Decimal as D

from backbud.papers.gather import papers_of
from backbud.views.paper import PapersView

CARDS = """\
place yard
  latitude 54 N
person una
  name Una
person ada
  name Ada Pell
pot tray
  owner ada
tree hoshi
  kind trident maple
  owner ada
  trunk 4 cm
"""
SETTINGS = 'home = "yard"\nkeeper = "una"\n'
CAME = """\
2026-02-18
hoshi
  agreed 180 EUR for "a first shaping", deposit 50 EUR, by 2026-06
  paid 50 EUR deposit
2026-02-20
hoshi
  received from ada, condition "sound", in tray
  quarantined 21 days
  insured 900 EUR
"""
LATER = """\
2026-03-14
hoshi
  released
  agreed 90 EUR for repotting, by 2026-09, risk "it may sulk"
  insured 1200 EUR
2026-05-10
hoshi
  wired 3 mm Al on left 1
  measured trunk 5 cm
  billed 180 EUR, number 1
  returned to ada
2026-06-10
ada
  paid 130 EUR deposit
"""


def papers(written, diary: str, on: str) -> PapersView:
    found = papers_of(written(CARDS + diary, on, settings=SETTINGS), "ada")
    assert found is not None
    return found


def test_a_receipt_is_the_same_on_the_day_and_three_months_later(written) -> None:
    (then,) = papers(written, CAME, "2026-02-20").receipts
    (later,) = papers(written, CAME + LATER, "2026-06-20").receipts
    assert later == then
    assert then.day == then.came
    assert then.agreed == ("180.00 EUR for a first shaping",)
    assert (then.wanted and then.wanted.text, then.insured, then.risks) == ("2026-06", D(900), ())
    assert (then.tree.sizes, then.on_it) == ({"trunk": "4 cm"}, ())
    assert [str(one.amount) for one in then.deposit_paid] == ["50.00"]
    # 21 days from 20 February.
    assert (then.apart, str(then.apart_until)) == (True, "2026-03-13")
    assert then.missing == ("photographs of it as it came, marked for owner",)


def test_each_coming_has_the_sizes_of_its_own_day(written) -> None:
    """Home in May with 5 cm, and back in June."""
    again = "2026-06-20\nhoshi\n  received from ada\n"
    first, second = papers(written, CAME + LATER + again, "2026-07-01").receipts
    assert [one.tree.sizes["trunk"] for one in (first, second)] == ["4 cm", "5 cm"]
    assert [one.on_it for one in (first, second)] == [(), ("3 mm aluminium wire on left 1",)]
    assert (second.agreed, second.deposit_paid) == ((), ())


def test_how_a_tree_came_may_be_said_in_any_words(written) -> None:
    """`not`, `only` and `fine` hold a line back elsewhere; here they describe the tree."""
    diary = (
        "2026-02-20\nhoshi\n"
        '  received from ada, condition "not strong, only two branches fine", in tray\n'
        '  agreed 90 EUR for pruning, risk "it may not live"\n'
    )
    (one,) = papers(written, diary, "2026-02-20").receipts
    assert one.condition == "not strong, only two branches fine"
    assert one.risks == ("it may not live",)
