"""Rules that hold for every tree and follow the weather: wire, winter quarters, tender trees."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date, datetime
from textwrap import dedent
from typing import ClassVar

import pytest
from tests.plan.conftest import Pattern

from backbud.bench.bite import bites_on
from backbud.climate.air import OPEN_AIR, PlaceAir
from backbud.climate.days import MonthlyMeans
from backbud.climate.heat import heat_trace
from backbud.plan.followups import FollowUp
from backbud.species import COMMON_PRACTICE, Fact, StageMonths
from backbud.tongue import full_day
from backbud_grammar.dates import growing_year_days

HOME = 'home = "yard"\n'
LOW = (1, 1, 2, 4, 6, 9, 11, 11, 9, 6, 3, 1)
HIGH = (6, 7, 9, 12, 15, 18, 20, 19, 17, 13, 9, 6)
CARDS = f"""
place yard
  latitude  56
  low   {" ".join(map(str, LOW))} C
  high  {" ".join(map(str, HIGH))} C

place glass
  within  yard
  cover   unheated glass

place parlour
  within  yard
  cover   indoors

tree hoshi
  kind   pattern tree
  place  yard
"""

Find = Callable[..., FollowUp]


class Tender(Pattern):
    """A tree of warm countries."""

    comes_in_below_c = Fact(10.0, COMMON_PRACTICE)


class Tenderest(Pattern):
    """One that bears no cool night."""

    comes_in_below_c = Fact(12.0, COMMON_PRACTICE)


class HalfTender(Pattern):
    """One that bears cool nights, but no frost."""

    comes_in_below_c = Fact(3.0, COMMON_PRACTICE)


class Bursting(Pattern):
    """One whose buds burst in April."""

    stage_months: ClassVar[StageMonths] = {7: ((4, 1), (4, 10), (4, 20))}


class Rated(Pattern):
    """A tree whose top bears -10 °C, so -5 °C in a pot, and whose young roots -3 °C."""

    hardiness = Fact("H4", "a test")
    young_frost_limit_c = Fact(-3.0, "a book, page 1")


class Hardier(Pattern):
    """Rated -20 °C, so -15 °C in a pot: such nights do not come to the yard."""

    hardiness = Fact("H6", "a test")


def datum(found: FollowUp) -> str:
    return " ".join(reason.text for reason in found.because)


@pytest.fixture
def diary(written) -> Callable[..., object]:
    def write(text: str, on: str, cards: str = CARDS, problems: tuple[str, ...] = ()) -> object:
        return written(cards + dedent(text), on, settings=HOME, problems=problems)

    return write


# ------------------------------------------------------------------ wire


def test_a_look_is_set_before_the_wire_is_reckoned_to_bite(diary, find: Find) -> None:
    """Thin wire put on before the season's growth, on a strong branch: 12 mm of girth a year.

    The day is that of bench/bite.py by the yard's own heat sum; the look comes ten days before.
    """
    session = diary(
        """
        2026-03-01
        hoshi
          vigour  top 5
        2026-05-01
        hoshi
          wired   1 mm Al on left 1
        """,
        "2026-05-02",
    )
    look = find(session, "hoshi/wire-check/wired-2026-05-01", Pattern())
    air = PlaceAir({}, MonthlyMeans(LOW, HIGH), date(2026, 5, 2), "means")
    first, _ = growing_year_days(date(2026, 5, 1), southern=False)
    trace = heat_trace(air, OPEN_AIR, first, 5.0)
    sums = [(date.fromordinal(first.toordinal() + n), total) for n, total in enumerate(trace.sums)]
    bite = bites_on(date(2026, 5, 1), sums, trace.sums[-1], 12.0, 1.0)
    assert bite is not None and date(2026, 5, 20) < bite < date(2026, 7, 10)
    assert f"1 mm wire is reckoned to bite about {full_day(bite)}" in datum(look)
    assert look.window.closes <= max(bite, date(2026, 5, 15))


def test_thick_wire_does_not_put_the_look_off(diary, find: Find) -> None:
    """6 mm of girth a year are 0.95 mm of radius: a quarter of 6 mm wire is not reached by the
    weeks of the species, 4, 6 and 8, so these hold."""
    session = diary(
        """
        2026-05-01
        hoshi
          wired   6 mm Al on left 1
        """,
        "2026-05-02",
    )
    look = find(session, "hoshi/wire-check/wired-2026-05-01", Pattern())
    assert look.window.opens == date(2026, 5, 29)
    assert look.window.best == date(2026, 6, 12)
    assert look.window.closes == date(2026, 6, 26)
    assert "6 mm wire is reckoned to bite about" in datum(look)
    assert _day_of(BITES_ABOUT.findall(datum(look))[0][1]).year == 2027


def test_each_look_sets_the_next_before_the_bite(diary, find: Find) -> None:
    session = diary(
        """
        2026-05-01
        hoshi
          wired    1 mm Al on left 1
        2026-05-25
        hoshi
          checked  wire fine
        """,
        "2026-05-26",
    )
    again = find(session, "hoshi/wire-check-again/checked-2026-05-25", Pattern())
    assert "is reckoned to bite about" in datum(again)


def heat_to_bite(wired: date, wire_mm: float) -> date | None:
    """The day of bench/bite.py by the yard's own heat sum, at 12 mm of girth a year."""
    air = PlaceAir({}, MonthlyMeans(LOW, HIGH), wired, "means")
    first, _ = growing_year_days(wired, southern=False)
    trace = heat_trace(air, OPEN_AIR, first, 5.0)
    sums = [(date.fromordinal(first.toordinal() + n), total) for n, total in enumerate(trace.sums)]
    return bites_on(wired, sums, trace.sums[-1], 12.0, wire_mm)


@pytest.mark.parametrize(
    ("look", "reckoned_from"),
    [
        ("2026-05-20\nhoshi\n  checked  wire fine on left 1", date(2026, 5, 1)),
        ("2026-07-20\nhoshi\n  checked  wire fine on left 1", date(2026, 7, 20)),
        ("2026-07-20\nhoshi\n  checked  wire not biting", date(2026, 7, 20)),
        ("2026-07-20\nhoshi\n  checked  all fine", date(2026, 7, 20)),
        ("2026-07-20\nhoshi\n  checked  wire fine on left 2", date(2026, 5, 1)),
        ("2026-07-20\nhoshi\n  checked  wire biting on left 1", date(2026, 5, 1)),
        ("2026-07-20\nhoshi\n  checked  ties fine", date(2026, 5, 1)),
    ],
)
def test_a_look_that_found_it_fine_puts_off_a_day_that_had_come(
    diary, look: str, reckoned_from: date
) -> None:
    """On the tree's page; a look before that day does not undo what had grown under the wire."""
    session = diary(
        f"""
        2026-03-01
        hoshi
          vigour  top 5
        2026-05-01
        hoshi
          wired   1 mm Al on left 1
        {look.replace(chr(10), chr(10) + 8 * " ")}
        """,
        "2026-08-01",
    )
    bite = heat_to_bite(reckoned_from, 1.0)
    assert bite is not None
    assert session.plan().bites["hoshi"] == (bite,)


@pytest.mark.parametrize(
    ("looks", "bites"),
    [
        # Reckoned for June; seen in May, it bites since then.
        ({"05-12": "wire biting on left 1"}, date(2026, 5, 12)),
        ({"05-12": "wire biting on left 2"}, heat_to_bite(date(2026, 5, 1), 1.0)),
        # Eased, and found fine before the reckoned day: what had grown under it is still there.
        (
            {"05-12": "wire biting on left 1", "05-20": "wire fine on left 1"},
            heat_to_bite(date(2026, 5, 1), 1.0),
        ),
        ({"07-20": "wire biting on left 1"}, heat_to_bite(date(2026, 5, 1), 1.0)),
    ],
    ids=["seen", "on another branch", "eased", "seen later"],
)
def test_what_was_seen_to_bite_bites_from_that_day(diary, looks, bites: date) -> None:
    seen = "".join(
        f"        2026-{day}\n        hoshi\n          checked  {said}\n"
        for day, said in looks.items()
    )
    session = diary(
        "        2026-03-01\n        hoshi\n          vigour  top 5\n"
        "        2026-05-01\n        hoshi\n          wired   1 mm Al on left 1\n" + seen,
        "2026-08-01",
    )
    assert session.plan().bites["hoshi"] == (bites,)


EXPECTED_BY = re.compile(r"to be expected by \d+ \w+ (\d{4})")
BITES_ABOUT = re.compile(r"(\S+) mm wire is reckoned to bite about ([^:]+):")


def _day_of(said: str) -> date:
    """`6 March 2027` as a day."""
    return datetime.strptime(said, "%d %B %Y").date()


@pytest.mark.parametrize(
    "later",
    [
        # What was seen of its strength after it was wired counts for both.
        "2026-05-10\nhoshi\n  vigour  top 5",
        "2026-05-10\nhoshi\n  moved  parlour",
        "2026-05-20\nhoshi\n  checked  wire fine",
        "2026-05-20\nhoshi\n  checked  wire fine on left 1\n2026-05-24\nhoshi\n  vigour  top 2",
        "2026-05-20\nhoshi\n  unwired  on right 2",
        "2026-05-20\nhoshi\n  wired  4 mm Al on apex",
    ],
)
def test_why_tells_the_days_that_the_tree_s_page_does(diary, later: str) -> None:
    """Each look tells the first of the days on which the wires that it is about bite."""
    session = diary(
        f"""
        2026-03-01
        hoshi
          noted   well
        2026-05-01
        hoshi
          wired   1 mm Al on left 1, 3 mm Al on right 2
        {later.replace(chr(10), chr(10) + 8 * " ")}
        """,
        "2026-05-28",
    )
    plan = session.plan()
    on = list(zip(plan.trees["hoshi"].on_tree, plan.bites["hoshi"], strict=True))
    open_looks = [f for f in plan.all() if f.act == "checked" and f.outcome == "open"]
    assert open_looks
    for look in open_looks:
        ((thickness, day),) = BITES_ABOUT.findall(datum(look))
        about = [
            (bite, w) for w, bite in on if f"on {w.part}" in look.title or " on " not in look.title
        ]
        first, wire = min(about, key=lambda pair: pair[0])
        assert (day, thickness) == (full_day(first), f"{wire.thickness_mm:g}"), look.title


def test_all_wire_off_settles_every_look_whenever_it_would_have_bitten(diary) -> None:
    """Thin wire bites long before thick wire, so their looks have windows of their own."""
    session = diary(
        """
        2026-03-01
        hoshi
          vigour  top 5
        2026-05-01
        hoshi
          wired   0.5 mm Al on left 1, 6 mm Al on left 1 tip
        2026-05-10
        hoshi
          unwired
        2026-05-12
        hoshi
          wired   1 mm Al on left 1 tip
        """,
        "2026-05-13",
    )
    looks = {f.id: f.state(session.today) for f in session.plan().all() if "wire-check/" in f.id}
    assert looks == {
        "hoshi/wire-check/wired-2026-05-01/left-1": "done",
        "hoshi/wire-check/wired-2026-05-01/left-1-tip": "done",
        "hoshi/wire-check/wired-2026-05-12/left-1-tip": "coming",
    }


def test_a_look_tells_nothing_of_wire_that_is_off_by_now(diary) -> None:
    """A bare look tells of all wire; once the thin one is off, when the thick one bites."""
    session = diary(
        """
        2026-05-01
        hoshi
          wired   1 mm Al on left 1, 3 mm Al on right 2
        2026-05-20
        hoshi
          checked wire
        2026-05-24
        hoshi
          unwired on left 1
        """,
        "2026-05-25",
    )
    plan = session.plan()
    (look,) = (f for f in plan.all() if "wire-check-again/" in f.id)
    ((thickness, day),) = BITES_ABOUT.findall(datum(look))
    assert (thickness, plan.bites["hoshi"]) == ("3", (_day_of(day),))


def test_a_look_a_year_later_counts_what_grew_before_it(diary, find: Find) -> None:
    """6 mm of girth a year are 0.95 mm of radius; 4 mm wire bites after 1 mm, so early in the
    second summer, whether it was looked at in between or not."""
    wired = """
        2026-03-01
        hoshi
          wired   4 mm Al on left 1
        """
    looked = f"""{wired}
        2027-03-10
        hoshi
          checked  wire fine on left 1
        """
    days = []
    for text, ident in ((wired, "wire-check/wired"), (looked, "wire-check-again/checked")):
        look = find(diary(text, "2027-03-12"), ident, Pattern())
        ((_, day),) = BITES_ABOUT.findall(datum(look))
        days.append(_day_of(day))
    assert days[0] == days[1]
    # 0.05 mm of 0.95 mm, so a twentieth of the second year's heat.
    assert date(2027, 3, 20) < days[0] < date(2027, 5, 1)


def test_wire_put_on_in_autumn_tells_the_growth_of_the_spring_to_come(diary, find: Find) -> None:
    session = diary(
        """
        2026-11-10
        hoshi
          wired   6 mm Al on left 1
        """,
        "2026-11-20",
    )
    look = find(session, "hoshi/wire-check/wired-2026-11-10", Bursting())
    assert look.window.opens.year == 2027
    # The spring of 2026 was reached; that of 2027 is still to come.
    assert "the rest by the place's monthly means." in datum(look)
    assert "reached" not in datum(look)


# ------------------------------------------------------------------ winter quarters


def test_it_comes_out_when_hard_nights_have_ended(diary, find: Find) -> None:
    """-3 °C (ours), by lows whose winter drops by 8.6 K: in the mean year the figure falls from
    8.6 K in mid-January to 4.4 in mid-April, so to 5.8 on 15 March; the mean low is 2.5 °C then.
    """
    session = diary(
        """
        2026-06-01
        hoshi
          noted  well
        2026-11-10
        hoshi
          moved  glass
        """,
        "2026-11-20",
    )
    out = find(session, "hoshi/winter-quarters-out/moved-2026-11-10", Pattern())
    # Of the spring in which it comes out, not of the one before it went in.
    assert "The last night of −3 °C is to be expected by" in datum(out)
    assert EXPECTED_BY.findall(datum(out)) == ["2027"]
    assert date(2027, 3, 15) <= out.window.best <= date(2027, 4, 10)
    assert out.window.best.weekday() == 0
    # One mild winter in ten has its last such night in February, a cold one in April.
    assert date(2027, 2, 8) <= out.window.opens <= date(2027, 3, 1)
    assert date(2027, 4, 5) <= out.window.closes <= date(2027, 4, 26)


def test_what_winters_under_cold_glass_is_looked_at_in_the_dark_months(diary, find: Find) -> None:
    def session_of(place: str):
        return diary(
            f"""
            2026-06-01
            hoshi
              noted  well
            2026-11-10
            hoshi
              moved  {place}
            """,
            "2026-11-20",
        )

    looked = find(session_of("glass"), "hoshi/under-cover/moved-2026-11-10", Pattern())
    # Five, seven and eleven weeks after 10 November.
    assert (looked.window.opens, looked.window.best, looked.window.closes) == (
        date(2026, 12, 15),
        date(2026, 12, 29),
        date(2027, 1, 26),
    )
    assert "Look for gnawed bark: mice winter where trees do." in looked.cautions
    # In a warm room whoever lives there sees it.
    ids = [one.id for one in session_of("parlour").plan().all()]
    assert not [one for one in ids if "under-cover" in one]


def test_under_cover_after_the_last_hard_night_it_comes_out_this_spring(diary, find: Find) -> None:
    """Two weeks after it went in, the hard nights being over; not in the spring a year later."""
    session = diary(
        """
        2026-03-01
        hoshi
          noted  well
        2026-04-10
        hoshi
          moved  glass
        """,
        "2026-04-12",
    )
    out = find(session, "hoshi/winter-quarters-out/moved-2026-04-10", Pattern())
    assert (out.window.opens, out.window.closes) == (date(2026, 4, 24), date(2026, 5, 8))
    assert "The last night of −3 °C is to be expected by" in datum(out)
    assert EXPECTED_BY.findall(datum(out)) == ["2026"]


def test_a_tender_tree_comes_out_only_after_its_own_limit(diary, find: Find) -> None:
    session = diary(
        """
        2026-06-01
        hoshi
          noted  well
        2026-09-10
        hoshi
          moved  parlour
        """,
        "2026-09-20",
    )
    out = find(session, "hoshi/winter-quarters-out/moved-2026-09-10", Tender())
    assert "The usual night is over 10 °C from 26 June 2027" in datum(out)
    assert date(2027, 6, 22) <= out.window.opens <= date(2027, 6, 30)


def test_a_tender_tree_goes_in_before_cold_nights(diary, find: Find) -> None:
    session = diary(
        """
        2026-06-01
        hoshi
          noted  well
        """,
        "2026-06-20",
    )
    inside = find(session, "hoshi/tender-in/2026", HalfTender())
    assert inside.title.startswith("move")
    # Whoever has not brought it in is told all winter.
    assert (inside.weight.at_stake, inside.weight.once_past) == ("life", "grows")
    # Nights are usually under 3 °C only from mid-November. But a night of 2 °C comes in half of the
    # years where the mean low is 0.75 x (3.5 + 0.33 x 8.6) = 4.7 K over it, so about 8 October;
    # four days before that, on a Monday.
    assert inside.window.best == date(2026, 10, 5)
    assert "The first night of 2 °C is to be expected by" in datum(inside)
    assert "It comes in once nights are usually under 3 °C." in datum(inside)
    # From mid-month to mid-month mean lows pass 10 °C about 30 June, and fall under it about 31
    # August; the curve that keeps each month's mean is rounder, and is over it four days longer.
    usual = find(session, "hoshi/tender-in/2026", Tender())
    assert usual.window.best == date(2026, 8, 31)
    assert "The usual night is over 10 °C from 26 June 2026 to 4 September 2026" in datum(usual)
    # They pass 12 °C on no day: it stands outside for the warm days alone, by the months.
    months = find(session, "hoshi/tender-in/2026", Tenderest())
    assert months.window.best == date(2026, 9, 7)
    assert "By the months" in datum(months) and "usual night" not in datum(months)
    assert find(session, "feed-spring/2027", Pattern())
    assert not [f for f in session.plan().all() if "tender-in" in f.id]


# ------------------------------------------------------------------ frost and hardiness


@pytest.mark.parametrize(
    ("pot", "said"),
    [
        (
            "30 x 20 x 8 cm",
            "It is rated H4 (a test), and mature roots in a pot bear about −5 °C (pot_margin_c, a "
            "setting of ours, common practice, no source).",
        ),
        (
            "30 x 20 x 7.9 cm",
            "Its pot is 7.9 cm deep, so shallow: young roots bear about −3 °C (a book, page 1).",
        ),
    ],
)
def test_the_rating_and_the_depth_of_the_pot_decide_what_its_roots_bear(
    diary, find: Find, pot: str, said: str
) -> None:
    """H4 is -10 °C for the top (RHS, from memory); 5 °C sooner in a pot is ours."""
    cards = CARDS + f"  pot    tray\n\npot tray\n  inside  {pot}\n"
    session = diary("2026-06-01\nhoshi\n  noted  well\n", "2026-09-01", cards)
    assert said in datum(find(session, "hoshi/winter-frost/2026", Rated()))


def test_a_shallow_pot_is_protected_earlier(diary, find: Find) -> None:
    """Young roots bear -3 °C, mature ones -5 °C."""
    deep, shallow = (
        find(
            diary(
                "2026-06-01\nhoshi\n  noted  well\n",
                "2026-09-01",
                CARDS + f"  pot    tray\n\npot tray\n  inside  30 x 20 x {depth} cm\n",
            ),
            "hoshi/winter-frost/2026",
            Rated(),
        )
        for depth in (12, 5)
    )
    assert shallow.window.best < deep.window.best


@pytest.mark.parametrize(
    ("repotted", "on", "young"),
    [("2026-03-01", "2026-09-01", True), ("2025-08-31", "2026-09-01", False)],
)
def test_roots_cut_within_a_year_are_young_in_a_deep_pot_too(
    diary, find: Find, repotted: str, on: str, young: bool
) -> None:
    """By the first day of autumn, 1 September."""
    cards = CARDS + "  pot    tray\n\npot tray\n  inside  30 x 20 x 12 cm\n"
    text = f"{repotted}\nhoshi\n  repotted  same pot, 2 cm off below\n"
    found = datum(find(diary(text, on, cards), "hoshi/winter-frost/2026", Rated()))
    cut = full_day(date.fromisoformat(repotted))
    assert (f"were cut on {cut}: young roots bear about −3 °C" in found) is young


def test_where_nothing_is_known_of_young_roots_they_bear_five_degrees(diary, find: Find) -> None:
    text = "2026-06-01\nhoshi\n  noted  well\n"
    found = datum(find(diary(text, "2026-09-01"), "hoshi/winter-frost/2026", Hardier()))
    assert (
        "The depth of its pot is not known: young roots bear about −5 °C (none is known of it: "
        "young_roots_c, a setting of ours, common practice, no source)."
    ) in found


def test_where_no_such_night_comes_nothing_is_asked(diary) -> None:
    """H6 in a deep pot bears -15 °C. Where the place lies as Europe, one year in ten has -10.9 °C,
    ± 3 K; where nobody says where it lies, ± 4.9 K, and then it is close."""
    from backbud.plan.run import plan_all

    deep = CARDS + "  pot    tray\n\npot tray\n  inside  30 x 20 x 12 cm\n"
    species = Hardier()
    for cards, asked in (
        (deep.replace("latitude  56", "latitude  56\n  longitude 10"), ""),
        (deep, ", when a hard night is forecast"),
    ):
        session = diary("2026-06-01\nhoshi\n  noted  well\n", "2026-09-01", cards)
        plan = plan_all(
            session.journal, session.histories, lambda kind: species, session.weather, session.today
        ).value
        found = {f.title for f in plan.all() if "winter-frost" in f.id}
        assert found == ({f"protect against winter frost{asked}"} if asked else set())


def test_in_the_south_frost_comes_in_june(written, find: Find) -> None:
    """The yard turned by six months; a pot that is not known counts as shallow, so -3 °C. In one
    year of ten the figure goes from 6.6 K in mid-April to 11.9 in mid-July: some 8.3 K in mid-May,
    where the mean low is 3 °C, and 7 K about 25 April, where it is 4 °C or more."""
    lows = " ".join(map(str, LOW[6:] + LOW[:6]))
    highs = " ".join(map(str, HIGH[6:] + HIGH[:6]))
    cards = f"""
place yard
  latitude  -44
  low   {lows} C
  high  {highs} C

tree hoshi
  kind   pattern tree
  place  yard
"""
    session = written(cards + "\n2026-08-01\nhoshi\n  noted  well\n", "2026-09-01", settings=HOME)
    on = find(session, "hoshi/winter-frost/2026-27", Rated())
    assert date(2027, 4, 15) < on.window.best < date(2027, 5, 15)
