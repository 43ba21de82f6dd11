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


@pytest.mark.parametrize("sown", ["2026-08-20", "2026-11-01"])
def test_seed_that_was_sown_late_comes_up_after_its_winter(written, sown) -> None:
    text = SOWN.replace("2026-04-10", sown)
    assert wanted(written(text, sown), "tray") == {
        "check for seedlings": ("2027-04-01", "2027-04-25", "2027-06-01")
    }


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


@pytest.mark.parametrize("found", ["roots, rooted", "cuttings, white roots", "roots, none"])
def test_a_look_tells_that_cuttings_have_roots(written, found) -> None:
    text = STRUCK + page("2026-08-15", "little", f"checked {found}")
    asked = "pot on those with roots, each into a pot of its own"
    assert (asked in wanted(written(text, "2026-08-16"), "little")) == (found != "roots, none")


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
