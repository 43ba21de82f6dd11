"""What is asked of cuttings and seed under one handle: nothing before it is there to be done.

The days are common practice, no source.
"""

from __future__ import annotations

from datetime import date

import pytest
from tests.plan.conftest import WANTED

CARDS = """\
tree mother
  kind   trident maple
  since  2010
  place  yard
place yard
  cover     open
  latitude  52 N
"""
STRUCK = CARDS + "2026-06-01\nmother\n  struck  50 cuttings, as little\n"
SOWN = CARDS + "2026-04-10\nmother\n  sown  30 seeds, as tray\n"


def wanted(session, handle: str) -> dict[str, tuple[str, ...]]:
    """The works that are wanted of a handle within the year, by title, and their days."""
    return {
        f.title: (
            f.window.opens.isoformat(),
            f.window.best.isoformat(),
            f.window.closes.isoformat(),
        )
        for f in session.plan().follow_ups[handle]
        if f.state(session.today) in WANTED
    }


def page(day: str, handle: str, act: str) -> str:
    return f"{day}\n{handle}\n  {act}\n"


def test_mere_seed_is_looked_at_and_nothing_else(written) -> None:
    assert wanted(written(SOWN, "2026-04-12"), "tray") == {
        "check for seedlings": ("2026-05-01", "2026-05-15", "2026-06-05")
    }


@pytest.mark.parametrize("said", ["2 trays", "2 trays of seed", "a handful of seed", "1 row"])
def test_trays_of_seed_are_mere_seed(written, said) -> None:
    session = written(SOWN.replace("30 seeds", said), "2026-04-12")
    assert list(wanted(session, "tray")) == ["check for seedlings"]


@pytest.mark.parametrize("sown", ["2026-08-20", "2026-11-01"])
def test_seed_that_was_sown_late_comes_up_after_its_winter(written, sown) -> None:
    text = SOWN.replace("2026-04-10", sown)
    assert wanted(written(text, sown), "tray") == {
        "check for seedlings": ("2027-04-01", "2027-04-25", "2027-06-01")
    }


SPRING = ("2027-04-01", "2027-04-25", "2027-06-01")


@pytest.mark.parametrize(
    ("sown", "days"),
    [
        # Not in growth yet: in the spring that comes.
        ("2026-02-10", ("2026-04-01", "2026-04-25", "2026-06-01")),
        # Until midsummer it comes up in three to eight weeks.
        ("2026-06-30", ("2026-07-21", "2026-08-04", "2026-08-25")),
        ("2026-07-01", SPRING),
    ],
)
def test_what_is_sown_after_midsummer_comes_up_next_spring(written, sown, days) -> None:
    text = SOWN.replace("2026-04-10", sown)
    assert wanted(written(text, sown), "tray") == {"check for seedlings": days}


def test_where_there_is_no_winter_seed_comes_up_at_any_time(written) -> None:
    months = f"  low   {'24 ' * 12}C\n  high  {'31 ' * 12}C\n"
    text = SOWN.replace("  latitude  52 N\n", f"  latitude  2 N\n{months}")
    found = wanted(written(text.replace("2026-04-10", "2026-08-01"), "2026-08-01"), "tray")
    assert found["check for seedlings"] == ("2026-08-22", "2026-09-05", "2026-09-26")


@pytest.mark.parametrize(
    ("up", "days"),
    [
        # Two months later are 30 March, and 31 March, when this winter's last weeks are over.
        ("2026-01-29", ("2026-01-15", "2026-02-20", "2026-03-31")),
        ("2026-01-30", ("2027-01-15", "2027-02-20", "2027-03-31")),
    ],
)
def test_what_came_up_two_months_before_growth_is_pricked_out_before_it(written, up, days) -> None:
    text = SOWN.replace("2026-04-10", "2025-10-10") + page(up, "tray", "germinated 22")
    found = written(text, "2026-02-01").plan().follow_ups["tray"]
    (one,) = (f for f in found if "/prick-out/" in f.id)
    window = one.window
    assert (f"{window.opens}", f"{window.best}", f"{window.closes}") == days


def test_seed_of_which_none_came_up_is_looked_at_again_a_year_later(written) -> None:
    (one,) = written(SOWN, "2027-05-20").plan().follow_ups["tray"]
    again = one.schedule.again
    assert again is not None
    assert (again.opens, again.closes) == (date(2027, 5, 1), date(2027, 6, 5))


def test_seedlings_are_kept_as_any_tree_and_pricked_out_before_the_next_growth(written) -> None:
    text = SOWN + page("2026-05-12", "tray", "germinated 22")
    found = wanted(written(text, "2026-06-01"), "tray")
    assert found["pot on the seedlings, each into a pot of its own, the long root shortened"] == (
        "2027-01-15", "2027-02-20", "2027-03-31",
    )  # fmt: skip
    assert {"protect against winter frost", "feed"} <= set(found)
    assert "check for seedlings" not in found
    assert not {title for title in found if title.startswith(("prune", "wire", "trim", "pinch"))}


def test_cuttings_that_have_roots_are_potted_on_and_the_others_looked_at(written) -> None:
    text = STRUCK + page("2026-08-15", "little", "rooted 20")
    found = wanted(written(text, "2026-08-16"), "little")
    potting = "pot on those with roots, each into a pot of its own"
    assert found[potting] == ("2026-08-15", "2026-08-22", "2026-09-12")
    assert found["check roots of the others"] == ("2026-09-05", "2026-09-12", "2026-09-26")
    assert "check roots" not in found
    # Those are potted on; nobody has looked at the others.
    text += page("2026-08-20", "little", "potted-on 20")
    found = wanted(written(text, "2026-08-21"), "little")
    assert potting not in found
    assert "check roots of the others" in found
    # And all the others have roots.
    text += page("2026-09-10", "little", "rooted 30 more")
    found = wanted(written(text, "2026-09-11"), "little")
    assert potting in found
    assert "check roots of the others" not in found


@pytest.mark.parametrize(
    ("struck", "rooted", "because"),
    [
        ("50 cuttings", "rooted 20", "20 of 50 had roots on 15 August 2026."),
        ("50 cuttings", "rooted 49", "49 of 50 had roots on 15 August 2026."),
        ("50 cuttings", "rooted 50", None),
        # Nobody knows how many stand in a tray.
        ("2 trays of cuttings", "rooted 1", None),
    ],
)
def test_the_others_are_looked_at_where_some_are_left(written, struck, rooted, because) -> None:
    text = STRUCK.replace("50 cuttings", struck) + page("2026-08-15", "little", rooted)
    plan = written(text, "2026-08-16").plan()
    others = [f for f in plan.follow_ups["little"] if "/cuttings-left/" in f.id]
    assert [f.because[1].text for f in others] == ([because] if because else [])


@pytest.mark.parametrize("found", ["roots, rooted", "cuttings, white roots", "roots, none"])
def test_a_look_tells_that_cuttings_have_roots(written, found) -> None:
    text = STRUCK + page("2026-08-15", "little", f"checked {found}")
    asked = "pot on those with roots, each into a pot of its own"
    assert (asked in wanted(written(text, "2026-08-16"), "little")) == (found != "roots, none")


@pytest.mark.parametrize(
    ("before", "then", "is_asked"),
    [
        ((), "rooted 1", True),
        (("rooted 20", "potted-on 20"), "checked roots, rooted", False),
        (("rooted 20", "potted-on 20"), "rooted 1 more", True),
        (("rooted 20", "potted-on 19"), "checked roots, rooted", True),
    ],
)
def test_only_those_that_are_still_together_are_potted_on(written, before, then, is_asked) -> None:
    days = ("2026-08-10", "2026-08-15", "2026-08-20")
    acts = (*before, then)
    text = STRUCK + "".join(page(day, "little", act) for day, act in zip(days, acts, strict=False))
    day = days[len(acts) - 1]
    found = written(text, day).plan().follow_ups["little"]
    asked = [f for f in found if "/rooted-on/" in f.id and f.id.endswith(day)]
    assert len(asked) == is_asked


def test_new_roots_of_a_tree_that_was_repotted_are_no_cutting_to_pot_on(written) -> None:
    text = CARDS + page("2026-03-10", "mother", "repotted same pot")
    text += page("2026-08-15", "mother", "checked roots, white roots")
    found = written(text, "2026-08-16").plan().follow_ups["mother"]
    assert not [f.id for f in found if "/rooted-on/" in f.id]


def test_roots_that_came_late_wait_for_the_last_weeks_of_rest(written) -> None:
    text = STRUCK + page("2026-11-10", "little", "rooted")
    found = wanted(written(text, "2026-11-11"), "little")
    assert found["pot on those with roots, each into a pot of its own"] == (
        "2027-01-15", "2027-02-20", "2027-03-31",
    )  # fmt: skip


def test_white_roots_of_the_mother_are_no_cutting_to_pot_on(written) -> None:
    text = STRUCK + page("2026-08-15", "mother", "checked roots, white roots")
    found = wanted(written(text, "2026-08-16"), "mother")
    assert not {title for title in found if title.startswith("pot on")}


def test_a_layer_that_came_off_is_not_fed_for_four_weeks(written) -> None:
    """As any tree whose roots are new."""
    text = CARDS + page("2026-06-01", "mother", "layered on left 1")
    text += page("2026-08-20", "mother", "separated on left 1, as kid")
    plan = written(text, "2026-08-21").plan()
    feeds = {f.id: f.outcome for trees in plan.follow_ups.values() for f in trees}
    assert feeds["mother/trident-feed-autumn/2026"] == "open"
    assert feeds["kid/trident-feed-autumn/2026"] == "replaced"


def test_once_all_that_live_have_roots_the_others_are_looked_for_no_more(written) -> None:
    """Of 50 cuttings 30 have roots: 20 are looked at again, and 2 where 18 of them died; none where
    all 20 did."""
    rooted = STRUCK + page("2026-08-01", "little", "rooted 30")
    look = "check roots of the others"
    assert look in wanted(written(rooted, "2026-08-20"), "little")
    some = rooted + page("2026-08-10", "little", "died 18")
    assert look in wanted(written(some, "2026-08-20"), "little")
    all_of_them = rooted + page("2026-08-10", "little", "died 20")
    assert look not in wanted(written(all_of_them, "2026-08-20"), "little")
