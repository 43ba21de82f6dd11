"""A tree whose roots were cut under cover is not put out into frost: four weeks, common practice.

Minneapolis' monthly means as remembered, rounded. A trident's young roots bear -5 °C: half of the
years have no such night after 9 April, nine of ten none after 20 April; of -3 °C, 15 April.
"""

from __future__ import annotations

import re
from datetime import date, timedelta

import pytest

from backbud.plan.followups import FollowUp

PLACES = """
place yard
  latitude   45 N
  longitude  93.3 W
  low   -13 -11 -4 3 9 15 18 16 11 5 -3 -10 C
  high  -4 -2 5 14 21 26 28 27 22 14 5 -2 C
place wall
  within  yard
place shade
  within  yard
  cover   shade net 40 %
place glass
  cover   unheated glass
place bench-in-glass
  within  glass
person marrow
"""
CARD = "tree hoshi\n  kind   {kind}\n  place  yard\n"
KNOWN = "2025-06-01\n{who}\n  noted  well\n"
IN = "2025-10-20\n{who}\n  moved  {glass}\n"
CUT = "2026-03-28\n{who}\n  repotted  same pot, 2 cm off below\n"
OUT = "2026-04-10\n{who}\n  moved  {to}\n"


@pytest.fixture
def wanted(written):
    def of(
        diary: str,
        on: str,
        card: str = CARD,
        kind: str = "trident maple",
        places: str = PLACES,
    ) -> list[FollowUp]:
        """What asks for shelter, or out of it, on that day or in the weeks after."""
        text = places + card.format(kind=kind) + diary
        session = written(text, on, settings='home = "yard"\n')
        day = date.fromisoformat(on)
        return [
            one
            for one in session.plan().all()
            if one.act in ("protected", "moved")
            and one.state(day) in ("now", "overdue", "coming")
            and one.window.opens < day + timedelta(days=60)
        ]

    return of


def told(*pages: str, glass: str = "glass", to: str = "yard") -> str:
    return "".join(pages).format(who="hoshi", glass=glass, to=to)


@pytest.mark.parametrize(("glass", "to"), [("glass", "yard"), ("bench-in-glass", "wall")])
def test_out_a_fortnight_after_the_cut_its_roots_are_kept_from_frost(wanted, glass, to) -> None:
    """Nobody told anything of it, and roots in a pot die at -5 °C. A place within a glasshouse is
    under glass."""
    diary = told(KNOWN, IN, CUT, OUT, glass=glass, to=to)
    one, leaves = wanted(diary, "2026-04-11")
    assert leaves.title == "protect young leaves against late frost"
    assert one.id == "hoshi/fresh-roots-out/moved-2026-04-10"
    assert one.title == "protect its fresh roots from frost"
    assert (one.weight.at_stake, one.weight.must) == ("life", True)
    assert one.window.opens == one.window.best == date(2026, 4, 10)
    # Four weeks after the cut.
    assert one.window.closes == date(2026, 4, 25)
    datum = " ".join(reason.text for reason in one.because)
    assert "Its roots were cut on 28 March 2026: young roots bear about −5 °C" in datum
    for act in ("protected  fleece", "moved  glass"):
        done = f"2026-04-12\nhoshi\n  {act}\n"
        left = wanted(diary + done, "2026-04-13")
        assert not any("/fresh-roots-out/" in one.id for one in left), act


def test_a_frost_that_comes_seldom_yet_is_less_loud(wanted) -> None:
    diary = told(KNOWN, IN, CUT.replace("03-28", "04-10"), OUT.replace("04-10", "04-18"))
    (one,) = [one for one in wanted(diary, "2026-04-19") if "/fresh-roots-out/" in one.id]
    assert (one.weight.at_stake, one.weight.must) == ("harm", True)


@pytest.mark.parametrize(
    "diary",
    [
        # From one open bench to a shadier one: the cut itself asked for shelter, and got it.
        told(KNOWN, CUT, OUT, to="shade"),
        # Where it stood already; in glass still; a mild day of May; no root was cut.
        told(KNOWN, CUT, OUT, to="yard"),
        told(KNOWN, IN, CUT, OUT, to="bench-in-glass"),
        told(KNOWN, IN, CUT.replace("03-28", "05-01"), OUT.replace("04-10", "05-15")),
        told(KNOWN, IN, CUT.replace("2 cm off below", "no root work"), OUT),
    ],
)
@pytest.mark.parametrize("on", ["2026-04-11", "2026-05-16"])
def test_it_is_not_asked_of_what_was_asked_already_or_is_in_no_danger(wanted, diary, on) -> None:
    pages = [page for page in re.split(r"(?m)^(?=2)", diary) if page[:10] <= on]
    assert not any("/fresh-roots-out/" in one.id for one in wanted("".join(pages), on))


def test_a_batch_is_asked_as_a_whole_and_what_is_parted_off_for_itself(wanted) -> None:
    card = "tree hoshi\n  kind   {kind}\n  place  glass\n"
    begun = "2025-03-01\nhoshi\n  sown  40 seeds\n2025-06-01\nhoshi\n  counted  40 seedlings\n"
    every = wanted(begun + told(CUT, OUT), "2026-04-11", card)
    assert [one.id for one in every if "roots" in one.title] == [
        "hoshi/fresh-roots-out/moved-2026-04-10"
    ]
    some = begun + told(CUT) + "2026-04-10\nhoshi\n  parted-off  12, as few, to yard\n"
    found = [one.id for one in wanted(some, "2026-04-11", card) if "roots" in one.title]
    assert found == ["few/fresh-roots-out/parted-off-2026-04-10"]


def test_one_that_comes_back_from_its_owner_with_fresh_roots(wanted) -> None:
    """Where it stood there nobody knows: it is asked for, and only once."""
    card = CARD + "  owner  marrow\n"
    came = "2026-03-01\nhoshi\n  received  from marrow\n"
    away = "2026-04-02\nhoshi\n  returned  to marrow\n2026-04-10\nhoshi\n  received  from marrow\n"
    found = wanted(came + told(CUT) + away, "2026-04-11", card)
    assert [
        one.id for one in found if one.id.split("/")[1] in ("root-rest", "fresh-roots-out")
    ] == ["hoshi/fresh-roots-out/received-2026-04-10"]


def test_a_fleece_that_comes_off_within_three_weeks(wanted) -> None:
    fleece = "2026-03-28\nhoshi\n  protected  fleece\n"
    off = "2026-04-08\nhoshi\n  unprotected\n"
    found = wanted(told(KNOWN, CUT) + fleece + off, "2026-04-09")
    assert "hoshi/fresh-roots-out/unprotected-2026-04-08" in [one.id for one in found]


@pytest.fixture
def ways_out(wanted):
    return lambda diary, on, **more: [
        one for one in wanted(diary, on, **more) if one.title.startswith("move out")
    ]


def test_the_way_out_waits_for_the_cut_roots(ways_out) -> None:
    """Without a cut it is from 4 April on; 28 March and four weeks is 25 April, but no night that
    its roots do not bear comes after the 20th."""
    (before,) = ways_out(told(KNOWN, IN), "2026-03-29")
    assert before.window.opens == date(2026, 4, 4)
    (held,) = ways_out(told(KNOWN, IN, CUT), "2026-04-14")
    assert held.id == "hoshi/winter-quarters-out-rested/repotted-2026-03-28/out"
    assert held.window.opens == date(2026, 4, 20)
    assert any("want no frost for four weeks" in reason.text for reason in held.because)
    # What was cut in February has rested by then.
    early = told(KNOWN, IN, CUT.replace("2026-03-28", "2026-02-10"))
    (same,) = ways_out(early, "2026-03-29")
    assert same.id == before.id


def test_roots_cut_in_autumn_under_cover_are_young_outside(wanted) -> None:
    """A quince's mature roots bear -15 °C, so winter's rule is silent at Nottingham; young ones
    bear -5 °C, and it went out five weeks after the cut."""
    mild = PLACES.replace(
        "low   -13 -11 -4 3 9 15 18 16 11 5 -3 -10 C", "low   1.4 1.2 2.7 4.1 7 10 12 12 10 7 4 2 C"
    ).replace(
        "high  -4 -2 5 14 21 26 28 27 22 14 5 -2 C", "high  7 7 10 13 16 19 21 21 18 14 10 7 C"
    ).replace("45 N", "53 N").replace("93.3 W", "1.1 W")  # fmt: skip
    diary = (
        told(KNOWN)
        + "2025-09-20\nhoshi\n  moved  glass\n"
        + CUT.replace("2026-03-28", "2025-10-05").format(who="hoshi")
        + "2025-11-09\nhoshi\n  moved  yard\n"
    )
    card = "pot tray\n  inside  30 x 20 x 12 cm\n" + CARD + "  pot    tray\n"
    found = wanted(diary, "2025-11-10", card, "Japanese quince", mild)
    assert [one.id for one in found if one.act == "protected"] == [
        "hoshi/fresh-roots-out/moved-2025-11-09"
    ]


@pytest.mark.parametrize("work", ["pruned  hard", "repotted  same pot, 2 cm off below"])
def test_an_azalea_under_glass_is_not_asked_out_into_frost(ways_out, work) -> None:
    """Two to three weeks after 1 March its roots would have met the nights of that month: the mean
    low is -4 °C, and one of ten goes far below."""
    diary = told(KNOWN, IN) + f"2026-03-01\nhoshi\n  {work}\n"
    found = ways_out(diary, "2026-03-20", kind="satsuki azalea")
    assert {one.window.opens for one in found} == {date(2026, 4, 20)}
