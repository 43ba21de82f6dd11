"""Journals at places that the five climates lack: what is asked of their trees, and what is not.

What is expected was written down from memory of common practice; no source.
"""

from __future__ import annotations

from datetime import date

import pytest
from tests.conftest import Written
from tests.species.other_places import OTHER_PLACES

from backbud.plan.followups import FollowUp
from backbud.session import Session
from backbud.species import Window

HOME = 'home = "yard"\n'

SINGAPORE = """
place yard
  latitude   1.35 N
  longitude  103.8 E
  low   24.3 24.6 24.9 25.3 25.7 25.7 25.4 25.3 25.2 25 24.6 24.3 C
  high  30.6 31.5 32.2 32.4 32.3 31.9 31.4 31.4 31.6 31.9 31.2 30.5 C

tree kaede
  kind      japanese maple
  strength  strong

tree beringin
  kind      willow-leaf fig
  strength  strong
"""

BEFORE = "2024-03-20\nkaede, beringin\n  repotted  same pot\n"


def told(session: Session, handle: str) -> dict[str, FollowUp]:
    """What is open of a tree, by its rule."""
    every = session.plan().all()
    found = (one for one in every if one.id.startswith(f"{handle}/"))
    return {one.id.split("/")[1]: one for one in found if one.is_open(session.today)}


def test_no_work_is_asked_of_a_tree_that_finds_no_rest(written: Written) -> None:
    """It was asked to be repotted, pinched, defoliated and wired; it is looked at once a year."""
    session = written(SINGAPORE + BEFORE, "2026-02-01", settings=HOME)
    rules = {rule.removeprefix("palmatum-") for rule in told(session, "kaede")}
    assert "no-rest" in rules
    assert not rules & {"repot", "pinch", "trim", "defoliate", "prune", "wire", "spring-clean"}
    of_the_fig = set(told(session, "beringin"))
    assert "willow-fig-repot" in of_the_fig
    assert not of_the_fig & {"no-rest", "tender-in", "willow-fig-pests", "willow-fig-feed-winter"}


def test_roots_may_be_cut_at_any_time_where_a_tree_grows_all_year(written: Written) -> None:
    diary = "\n2026-09-05\nberingin\n  repotted  same pot, 2 cm off below\n"
    found = told(written(SINGAPORE + BEFORE + diary, "2026-09-06", settings=HOME), "beringin")
    assert not any(rule.startswith("out-of-its-time") for rule in found)
    assert found["root-rest"].title.endswith("from sun and wind")


def test_wire_is_looked_at_within_weeks_where_wood_thickens_all_year(written: Written) -> None:
    """Put on in November it would bite by New Year: two to six weeks, and not by a spring."""
    diary = "\n2026-11-20\nberingin\n  wired  2 mm Al on left 1\n"
    found = told(written(SINGAPORE + BEFORE + diary, "2026-11-21", settings=HOME), "beringin")
    window = found["wire-check"].window
    assert window.opens == date(2026, 12, 4) and window.closes == date(2027, 1, 1)


def test_feed_goes_on_all_year_in_the_tropics(written: Written) -> None:
    """Fed in October, when a fig elsewhere rests: what is used up after four weeks is given again,
    in November as in any month."""
    diary = "\n2026-10-20\nberingin\n  fed  8-8-8\n"
    found = told(written(SINGAPORE + BEFORE + diary, "2026-10-21", settings=HOME), "beringin")
    assert found["feed-again"].window.opens == date(2026, 11, 17)


CAPE = """
place yard
  latitude   33.9 S
  longitude  18.6 E
  low   15.7 15.6 14.2 11.9 9.4 7.8 7 7.5 8.7 10.6 13.2 14.9 C
  high  26.1 26.5 25.4 23 20.3 18.1 17.5 17.8 19.2 21.3 23.5 24.9 C

tree lork
  kind  European larch
"""


def test_a_tree_whose_chill_is_never_met_is_told_of_once_a_year(written: Written) -> None:
    """It stood on the species' page alone."""
    session = written(
        CAPE + "2024-08-20\nlork\n  repotted  same pot\n", "2026-08-02", settings=HOME
    )
    found = told(session, "lork")["no-rest"]
    assert "does not suit this place" in found.title
    assert any("60 chill portions" in reason.text for reason in found.because)


QUARTERS = """
place yard
  latitude   {latitude}
  longitude  {longitude}
  low   {low} C
  high  {high} C

place quarters
  within  yard
  cover   heated glass {least} C

tree hoshi
  kind   trident maple
  place  yard
"""


@pytest.mark.parametrize(
    ("name", "least", "first", "last"),
    [
        # A dark garage that is kept just clear of frost: resting trees are out before the leaves.
        ("Edmonton", 1, date(2026, 4, 6), date(2026, 5, 18)),
        # Of a bench at 10 °C, in soft leaf: after the last hard frosts, and not at midsummer.
        ("Edmonton", 10, date(2026, 5, 4), date(2026, 6, 22)),
        ("Stockholm", 10, date(2026, 4, 20), date(2026, 6, 8)),
    ],
)
def test_trees_from_a_heated_place_are_out_before_midsummer(
    written: Written, name: str, least: int, first: date, last: date
) -> None:
    """They waited for the last night of 5 °C: until 22 June, and best then."""
    place = OTHER_PLACES[name]
    cards = QUARTERS.format(
        latitude=place.latitude,
        longitude=place.longitude,
        low=" ".join(map(str, place.means.low_c)),
        high=" ".join(map(str, place.means.high_c)),
        least=least,
    )
    session = written(cards + "2025-10-28\nhoshi\n  moved  quarters\n", "2026-03-20", settings=HOME)
    window = told(session, "hoshi")["winter-quarters-out"].window
    assert first <= window.opens <= window.best <= window.closes <= last


def test_of_cuttings_nobody_asks_when_they_were_last_repotted(written: Written) -> None:
    """Struck on 3 January at the Cape, they were to be looked at for it by the 6th."""
    diary = "2026-01-03\nlork\n  struck 30 cuttings, as little\n"
    session = written(
        CAPE.replace("European larch", "satsuki") + diary, "2026-01-05", settings=HOME
    )
    ids = {one.id for one in session.plan().all() if one.is_open(session.today)}
    assert "little/cutting-check/struck-2026-01-03" in ids
    assert "little/satsuki-root-work/2025-26" not in ids
    # What has no roots yet is not fed; next summer it is.
    assert "little/satsuki-feed-after-flowering/2025-26" not in ids
    assert "little/satsuki-feed-after-flowering/2026-27" in ids


HILL = """
place hill
  latitude   33.9 S
  longitude  18.6 E
  low   9.9 9.8 7.6 4.9 2.7 1.2 1.4 1.6 3.9 7.1 7.1 9.8 C
  high  18.0 20.9 18.0 13.8 9.8 7.1 6.9 7.3 9.9 12.6 16.0 18.9 C
"""


@pytest.mark.parametrize(("moved", "asked"), [("yard", True), ("hill", False)])
def test_who_finds_no_rest_is_asked_about_where_it_stands_now(
    written: Written, moved: str, asked: bool
) -> None:
    """It was moved in July, in the growing year's first days; January's weeks are July's here."""
    other = "yard" if moved == "hill" else "hill"
    diary = f"2024-08-20\nlork\n  repotted  same pot\n  moved  {other}\n"
    diary += f"2026-07-10\nlork\n  moved  {moved}\n"
    session = written(CAPE + HILL + diary, "2026-08-02", settings=HOME)
    found = {one.id: one.window for one in session.plan().all()}.get("lork/no-rest/2026-27")
    july = Window(date(2026, 7, 10), date(2026, 7, 25), date(2026, 8, 28))
    assert found == (july if asked else None)
