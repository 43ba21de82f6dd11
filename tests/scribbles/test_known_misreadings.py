"""Lines that were once read as more, or as another thing, than they say: each is right or asks."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

import pytest

from backbud.plan.followups import FollowUp
from backbud.session import Session

Written = Callable[..., Session]
CARDS = """\
place yard
  latitude  52 N
place tunnel
  within  yard
place bench
  within  yard
person gwen
person marrow
  name  Mrs Marrow
pot tray-7
  shape  oval
tree moll
  kind   trident maple
  since  2015
tree hoshi
  kind   trident maple
  since  2015
  place  tunnel
tree aki
  kind   trident maple
  since  2015
  owner  marrow
tree young
  kind   trident maple
  since  2015
  count  30
"""
PAST = """\
2026-03-01
hoshi, aki
  wired  3 mm Al on left 1, 2 mm Al on apex
  tied   2 mm x 2
2026-06-01
"""


def _read(written: Written, line: str, tree: str = "hoshi", day: str = "2026-06-02") -> Session:
    return written(f"{CARDS}{PAST}{tree}\n  {line}\n", day, any_problems=True)


def _done(session: Session, tree: str = "hoshi") -> list[str]:
    """The acts of the last day that are done, in their order."""
    entries = session.histories.trees[tree].entries
    return [
        one.event.act
        for one in entries
        if one.event.day == date(2026, 6, 1) and not one.event.held and one.event.act != "noted"
    ]


def _on(session: Session, tree: str = "hoshi") -> list[tuple[str, str]]:
    return [(one.sort, one.part) for one in session.plan((tree,)).trees[tree].on_tree]


@pytest.mark.parametrize(
    ("line", "tree"),
    [
        ("worked 2 h on moll", "hoshi"),
        ("worked 2 h at moll", "hoshi"),
        ("counted 32", "young"),
        ("billed again", "aki"),
        ("billed 40 EUR again", "aki"),
        ("potted history of the tree", "hoshi"),
        ("potted beauty", "hoshi"),
        ("moved bench from bench", "hoshi"),
        ("moved for repotting", "hoshi"),
        ("gran says yes", "aki"),
        ("the neighbour says yes", "aki"),
        ("soaked to the skin", "hoshi"),
        ("turned yellow", "hoshi"),
        ("turned to gold by 3rd, best in shade house", "hoshi"),
        ("fed up with it", "hoshi"),
        ("cleaned the benches", "hoshi"),
        ("lost interest", "hoshi"),
        ("died -- three of them", "young"),
        ("sold 300 EUR -- ten of the potted ones", "young"),
        ("sold -- half of them", "young"),
        ("sold all -- of the ten", "young"),
        ("died -- of the weak ones", "young"),
        # It may be how many, or the price of all.
        # Another wire is on: what it is stands on a line of its own.
        ("unwired on left 1 -- rewired with 2 mm", "hoshi"),
        ("sold 5", "young"),
        # One tree is sold once.
        ("sold 5, 40 EUR", "hoshi"),
        ("collected", "aki"),
        ("collected", "hoshi"),
        ("bought", "hoshi"),
        ("bought 120 EUR", "hoshi"),
    ],
)
def test_it_changes_nothing(written: Written, line: str, tree: str) -> None:
    session = _read(written, line, tree)
    assert _done(session, tree) == []
    assert session.problems() or session.words_kept()


@pytest.mark.parametrize(
    ("line", "tree", "acts"),
    [
        ("worked 2 h on wiring", "hoshi", ["worked"]),
        ("worked 2 h on left 1", "hoshi", ["worked"]),
        ("counted 28", "young", ["counted"]),
        ("counted 32 seedlings", "young", ["counted"]),
        ("billed 40 EUR", "aki", ["billed"]),
        ("potted tray-7", "hoshi", ["potted-on"]),
        ("potted nicely", "hoshi", ["potted-on"]),
        ("moved bench from tunnel", "hoshi", ["moved"]),
        ("moved bench from yard", "hoshi", ["moved"]),
        ("moved it to the bench", "hoshi", ["moved"]),
        ("I moved it to the bench because it was hot", "hoshi", ["moved"]),
        ("put it on the bench", "hoshi", ["moved"]),
        ("took photos", "hoshi", ["photographed"]),
        ("took the fleece off", "hoshi", ["unprotected"]),
        ("potted up into tray-7", "hoshi", ["potted-on"]),
        ("potted tray-7, 2 cm off below, tied 4", "hoshi", ["repotted"]),
        ("moved bench, for repotting", "hoshi", ["moved"]),
        ("marrow says yes", "aki", ["agreed"]),
        ("Mrs Marrow says yes", "aki", ["agreed"]),
        ("soaked 20 min", "hoshi", ["soaked"]),
        ("turned quarter", "hoshi", ["turned"]),
        ("cleaned bark", "hoshi", ["cleaned"]),
        ("died 3", "young", ["died"]),
        # A bare number is no price where the price stands beside it.
        ("sold 5, 40 EUR, to gwen", "young", ["sold"]),
        ("sold 3 for 15 EUR each", "young", ["sold"]),
        ("sold 300 EUR -- a fair price", "hoshi", ["sold"]),
        ("bought from marrow 500 EUR", "aki", ["bought"]),
    ],
)
def test_and_what_is_plain_is_done(written: Written, line: str, tree: str, acts: list[str]) -> None:
    assert _done(_read(written, line, tree), tree) == acts


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("repot postponed till spring 2028", "repot, to 2028-21"),
        ("repot put off till april 2027", "repot, to 2027-04"),
        ("no repotting before autumn 2027", "repot, to 2027-23"),
        ("repot postponed till spring", "repot, in spring"),
    ],
)
def test_a_season_is_put_off_to_the_year_that_is_said(
    written: Written, line: str, said: str
) -> None:
    entries = _read(written, line).histories.trees["hoshi"].entries
    assert (entries[-1].event.act, entries[-1].event.text) == ("put-off", said)


@pytest.mark.parametrize("line", ["repot postponed till spring 2025", "wire in next spring 2028"])
def test_a_year_that_nobody_can_place_is_asked(written: Written, line: str) -> None:
    assert _done(_read(written, line)) == []


LEFT, APEX, TIE = ("wire", "left 1"), ("wire", "apex"), ("tie", "")


@pytest.mark.parametrize(
    ("line", "on"),
    [
        ("rewired left 1", [APEX, TIE, LEFT]),
        ("rewired left 1, 2 mm Al", [APEX, TIE, LEFT]),
        ("wired 2 mm Al on left 1, old wire off", [APEX, TIE, LEFT]),
        ("rewired", [TIE, ("wire", "")]),
        # Which branches nobody said, so nobody knows what came off.
        ("rewired 2 branches", [LEFT, APEX, TIE, ("wire", "")]),
        ("rewired where needed", [LEFT, APEX, TIE]),
        # Nothing is said of the old one.
        ("wired 2 mm Al on left 1", [LEFT, APEX, TIE, LEFT]),
    ],
)
def test_what_is_rewired_loses_its_old_wire(
    written: Written, line: str, on: list[tuple[str, str]]
) -> None:
    assert _on(_read(written, line)) == on


@pytest.mark.parametrize(
    "line", ["wired 2 mm Al on left 2 again", "wired 2 mm Al on L2, again", "wired left 2 again"]
)
def test_how_often_is_no_part_of_the_tree(written: Written, line: str) -> None:
    assert _on(_read(written, line))[-1] == ("wire", "left 2")


def _follow_ups(session: Session, tree: str = "hoshi") -> list[FollowUp]:
    return list(session.plan((tree,)).follow_ups[tree])


def test_a_check_of_the_old_wire_is_done_with_where_it_was_rewired(written: Written) -> None:
    checks = [
        one
        for one in _follow_ups(_read(written, "rewired left 1, 2 mm Al"))
        if "/wire-check/" in one.id and "left-1" in one.id.replace(" ", "-")
    ]
    assert [one.outcome for one in checks] == ["done", "open"]


@pytest.mark.parametrize(
    ("line", "outcome"),
    [("protected net against cats", "open"), ("protected fleece against frost", "done")],
)
def test_a_net_against_cats_keeps_no_frost_off(written: Written, line: str, outcome: str) -> None:
    text = f"{CARDS}2026-11-20\nhoshi\n  {line}\n".replace("place  tunnel", "place  bench")
    session = written(text, "2026-11-21", any_problems=True)
    frost = [one for one in _follow_ups(session) if "/winter-frost/2026" in one.id]
    assert [one.outcome for one in frost] == [outcome]


def test_a_guard_against_animals_is_shown_and_comes_off(written: Written) -> None:
    session = _read(written, "protected net against cats")
    on_tree = session.plan(("hoshi",)).trees["hoshi"].on_tree
    assert on_tree[-1].what == "net against cats"
    off = _read(written, "protected net against cats\n  unprotected")
    assert all(sort != "guard" for sort, _ in _on(off))


def test_a_tree_that_is_here_is_not_looked_over_as_it_changes_hands(written: Written) -> None:
    found = _follow_ups(_read(written, "bought from marrow 500 EUR", "aki"), "aki")
    assert found
    assert not [one for one in found if "arrival-check" in one.id]


def test_what_comes_from_elsewhere_is(written: Written) -> None:
    text = f"{CARDS}tree new\n  kind  trident maple\n2026-06-01\nnew\n  bought 80 EUR\n"
    session = written(text, "2026-06-02", any_problems=True)
    assert [one for one in _follow_ups(session, "new") if "arrival-check" in one.id]


@pytest.mark.parametrize(
    ("line", "asked"),
    [
        ("checked wire, loose", True),
        ("checked wire loose on left 1", True),
        ("checked wire fine", False),
    ],
)
def test_loose_wire_is_set_anew_and_the_look_is_made(
    written: Written, line: str, asked: bool
) -> None:
    found = _follow_ups(_read(written, line))
    assert any("/wire-loose/" in one.id for one in found) == asked
    assert any("/wire-check-again/" in one.id for one in found)
