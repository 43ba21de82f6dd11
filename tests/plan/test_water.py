"""Water by tree and place: by hand, and the days of weather against `pyet`.

The places have means that are the same all year, so that every expected day is one sum by hand.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta

import pandas as pd
import pyet
import pytest
from msgspec.structs import replace

from backbud.bench.water import NET_EFFECT, WaterCover, shade_net
from backbud.climate.air import OPEN_AIR
from backbud.climate.datum import Datum, is_expected
from backbud.plan.covers import cover_from
from backbud.plan.demand import OpenSkies
from backbud.plan.followups import FollowUp, Reason
from backbud.plan.skies import Skies
from backbud.plan.vessels import Vessel, vessel_of
from backbud.plan.waits import waits_on_weather
from backbud.plan.water import Water, water_of
from backbud.session import Session
from backbud.species import Window

Written = Callable[..., Session]

YARD = """\
place yard
  latitude   45.72
  elevation  200 m
  low        {low} C
  high       {high} C
  rain       31 28 31 30 31 30 31 31 30 31 30 31 mm
""".format(low=" ".join(["14.8"] * 12), high=" ".join(["26.6"] * 12))
# 40 x 25 cm, soil 9 cm deep under a rim gap of 1: 9 L in a square pot of 10 cm.
POT = """\
pot tray
  shape    rectangle
  inside   40 x 25 x 10 cm

pot bowl
  shape    rectangle
  inside   20 x 20 x 11 cm
"""


def water(session: Session) -> Water:
    plan = session.plan()
    return water_of(
        session.journal, plan.trees.values(), plan.species, session.weather, session.today
    )


def test_a_july_day_at_lyon(written: Written) -> None:
    """FAO-56, its example for July at Lyon: 5.0 mm a day of 26.6 and 14.8 °C."""
    session = written(
        YARD + POT + "tree hoshi\n  kind Japanese black pine\n  place yard\n  pot tray\n"
        "  spread 50 x 40 cm\n",
        "2027-07-15",
    )
    found = water(session).trees["hoshi"]
    # 5.0 mm x 0.8 x pi/4 x 0.5 x 0.4 m² = 0.63 L; the example rounds the radiation of mid July.
    assert found.litres_now == pytest.approx(0.628, rel=0.01)
    assert found.litres_week == pytest.approx(7 * found.litres_now, rel=0.01)
    # 40 x 25 x 9 cm = 9 L, of which 0.35 is water: 3.15 L; half of it at 0.628 L a day.
    assert found.vessel.held_litres == pytest.approx(3.15)
    assert found.days_until_half == pytest.approx(1.575 / 0.628, rel=0.02)
    assert found.guessed == ("a mix that nobody wrote down taken to hold 35% water",)


def _day_et0(low: float, high: float, day: str, latitude: float) -> float:
    index = pd.DatetimeIndex([day])
    mean = pd.Series([(low + high) / 2], index)
    lows, highs = pd.Series([low], index), pd.Series([high], index)
    lat = latitude * 3.141592653589793 / 180
    return float(pyet.hargreaves(tmean=mean, tmax=highs, tmin=lows, lat=lat).iloc[0])


def _open_sky(session: Session, place: str = "yard"):  # type: ignore[no-untyped-def]
    journal = session.journal
    skies = Skies(session.weather, journal.settings.figures, journal.southern, session.today)
    sky = OpenSkies(skies, session.weather, journal.things).over(place)
    assert sky is not None
    return sky


def test_measured_days_then_the_climate_as_pyet_has_them(written: Written) -> None:
    session = written(YARD + "\n2027-07-14   low 11 C, high 31 C, rain 4 mm\n", "2027-07-15")
    sky = _open_sky(session)
    measured, expected = sky.on(date(2027, 7, 14)), sky.on(date(2027, 7, 15))
    assert measured.measured and not expected.measured
    assert measured.et0_mm == pytest.approx(_day_et0(11, 31, "2027-07-14", 45.72), rel=0.01)
    assert expected.et0_mm == pytest.approx(_day_et0(14.8, 26.6, "2027-07-15", 45.72), rel=0.01)
    assert (measured.rain_mm, expected.rain_mm) == (4.0, pytest.approx(1.0))
    # A measured day of the last three tells what today is like.
    assert sky.now().et0_mm == measured.et0_mm
    # A day that only the diary's low tells is no measured one, yet its low counts.
    half = written(YARD + "\n2027-07-14   low 20 C\n", "2027-07-15")
    assert not _open_sky(half).on(date(2027, 7, 14)).measured
    assert _open_sky(half).on(date(2027, 7, 14)).et0_mm == pytest.approx(
        _day_et0(20, 26.6, "2027-07-14", 45.72), rel=0.01
    )


def test_penman_monteith_where_the_day_allows_it(written: Written) -> None:
    """FAO-56 example 18, Uccle: 3.9 mm, of 12.3 and 21.5 °C, 2.078 m/s and 9.25 h of sun.

    It gives the humidity as 63 and 84 %, which make 1.409 kPa: 71.3 % by the day's mean.
    """
    brussels = YARD.replace("45.72", "50.8").replace("200 m", "100 m")
    session = written(
        brussels + "\n2027-07-06   low 12.3 C, high 21.5 C, humidity 71.3 %, wind 2.078 m/s, "
        "sun 9.25 h\n",
        "2027-07-06",
    )
    found = _open_sky(session).on(date(2027, 7, 6))
    assert found.method == "Penman-Monteith"
    assert found.et0_mm == pytest.approx(3.9, abs=0.06)


def test_under_glass_the_open_air_decides_and_the_cover_takes_off(written: Written) -> None:
    trees = "".join(
        f"tree t-{place}\n  kind Japanese black pine\n  place {place}\n  pot p-{place}\n"
        "  spread 40 cm\n"
        for place in ("yard", "glass")
    )
    pots = "".join(f"pot p-{place}\n  inside 20 x 20 x 11 cm\n" for place in ("yard", "glass"))
    cards = YARD + "place glass\n  within yard\n  cover unheated glass\n" + pots + trees
    # A thermometer in the glass house knows nothing of the air outside.
    text = cards + "\n2027-07-15   low 16 C, high 41 C, at glass\n"
    found = water(written(text, "2027-07-15")).trees
    open_litres = found["t-yard"].litres_now
    # Amiri et al. 2018: 17.6 mm a week within, 27.6 mm without.
    assert found["t-glass"].litres_now / open_litres == pytest.approx(17.6 / 27.6, abs=0.005)


def test_what_a_cover_does_is_said_once() -> None:
    assert cover_from("unheated glass", {}).water == WaterCover(0.64, 0.0)
    assert cover_from("tunnel", {"tunnel_water": 0.7}).water == WaterCover(0.7, 0.0)
    assert cover_from("cold frame", {}).water == WaterCover(0.6, 0.0)
    assert cover_from("indoors", {}).water == WaterCover(0.4, 0.0)
    assert cover_from("shade net 40 %", {}).water == shade_net(40, NET_EFFECT)
    assert cover_from("shade net 40 %", {"net_water": 1.0}).water.factor == pytest.approx(0.6)
    assert cover_from("shade net 150 %", {}).water.factor == pytest.approx(0.3)
    assert (cover_from("open", {}).water, cover_from("", {}).shift) == (WaterCover(), OPEN_AIR)


def _vessel(written: Written, cards: str, tree: str) -> Vessel:
    session = written(cards + "\n" + tree, "2027-07-15")
    found = vessel_of(session.plan().trees["hoshi"], session.journal.things, {})
    assert isinstance(found, Vessel), found
    return found


HOSHI = "tree hoshi\n  kind trident maple\n"


def test_the_crown_by_the_rule_that_fits(written: Written) -> None:
    # A circle of 40 cm: 0.1257 m². 0.8 of a height of 50, 1.2 of a pot of 40: 48 cm, 0.181 m².
    measured = _vessel(written, POT, HOSHI + "  pot tray\n  spread 40 cm\n  height 90 cm\n")
    assert measured.canopy_area_m2 == pytest.approx(0.1257, abs=1e-4)
    by_height = _vessel(written, POT, HOSHI + "  pot tray\n  height 50 cm\n  trunk 7 cm\n")
    assert by_height.canopy_area_m2 == pytest.approx(0.1257, abs=1e-4)
    assert by_height.guessed[0] == "crown taken as 40 cm across, 0.8 × its height"
    by_pot = _vessel(written, POT, HOSHI + "  pot tray\n  trunk 7 cm\n")
    assert by_pot.canopy_area_m2 == pytest.approx(0.18096, abs=1e-4)
    # With no pot on record the trunk tells more than the ball: 5 x 8 cm.
    by_trunk = _vessel(written, "", HOSHI + "  trunk 8 cm\n  root ball 30 x 20 x 6 cm\n")
    assert by_trunk.canopy_area_m2 == pytest.approx(0.1257, abs=1e-4)
    # 30 x 20 x 5 cm below the rim's gap.
    assert by_trunk.pot_litres == pytest.approx(3.0)
    assert "its root ball stands for a pot" in by_trunk.guessed


def test_the_pot_and_the_mix_by_their_cards(written: Written) -> None:
    mix = "mix maple\n  akadama 2\n  pumice 1\n  bark 1\n"
    found = _vessel(written, POT + mix, HOSHI + "  pot tray\n  mix maple\n  spread 40 cm\n")
    # A litre holds 0.42 of akadama, 0.35 of pumice, 0.48 of bark: (2 x 0.42 + 0.35 + 0.48) / 4.
    assert found.held_litres == pytest.approx(9.0 * 0.4175)
    assert found.guessed == ()
    # Floor 4 cm narrower: each wall comes in 2. Mean of a frustum from 36 x 21 to 40 x 25 is not
    # needed: at 9 of 10 cm the section is 39.6 x 24.6, at 4.5 it is 37.8 x 22.8, at 0 36 x 21.
    tapered = POT.replace("40 x 25 x 10 cm", "40 x 25 x 10 cm\n  taper 4 cm", 1)
    by_hand = 9 / 6 * (36 * 21 + 4 * 37.8 * 22.8 + 39.6 * 24.6) / 1000
    assert _vessel(written, tapered, HOSHI + "  pot tray\n").pot_litres == pytest.approx(by_hand)
    # Measured outside: 1 cm off each side and off the floor, 2 cm of feet: 38 x 23 x 6 cm filled.
    outside = "pot tray\n  shape rectangle\n  outside 40 x 25 x 10 cm\n  feet 2 cm\n"
    assert _vessel(written, outside, HOSHI + "  pot tray\n").pot_litres == pytest.approx(
        38 * 23 * 6 / 1000
    )
    strange = _vessel(written, POT + "mix odd\n  moondust 1\n", HOSHI + "  pot tray\n  mix odd\n")
    assert strange.held_litres == pytest.approx(9.0 * 0.35)
    assert "the mix odd taken to hold 35% water" in strange.guessed


def test_too_little_is_said_with_what_to_write(written: Written) -> None:
    session = written(
        "place yard\npot bare\n  shape round\n" + HOSHI + "  place yard\n\n"
        "tree yuki\n  kind satsuki azalea\n  place yard\n  pot bare\n",
        "2027-07-15",
    )
    found = water(session)
    assert found.trees == {} and found.places == () and found.weeks == ()
    wanted = {one.tree: one.to_write for one in found.too_little}
    assert "inside 38 x 27 x 7 cm" in wanted["hoshi"]
    assert "twelve monthly lows and highs" in wanted["hoshi"]
    assert wanted["yuki"].startswith("the inside size on the card of bare")


def test_a_maple_drinks_little_without_leaves(written: Written) -> None:
    cards = YARD + POT + HOSHI + "  place yard\n  pot tray\n  spread 40 cm\n"
    summer = water(written(cards, "2027-07-15")).trees["hoshi"].litres_now
    winter = water(written(cards, "2027-01-10")).trees["hoshi"].litres_now
    sky = {day: _open_sky(written(cards, day)).on(date.fromisoformat(day)).et0_mm
           for day in ("2027-07-15", "2027-01-10")}  # fmt: skip
    # 0.15 without leaves, 0.8 with them.
    assert summer / sky["2027-07-15"] == pytest.approx(0.8 * 0.12566, rel=1e-3)
    assert winter / sky["2027-01-10"] == pytest.approx(0.15 * 0.12566, rel=1e-3)
    cut = cards + "\n2027-07-01\nhoshi\n  defoliated full\n"
    assert water(written(cut, "2027-07-15")).trees["hoshi"].litres_now == pytest.approx(
        summer * 0.15 / 0.8
    )


def test_the_hottest_week_to_come_and_the_sums_of_a_place(written: Written) -> None:
    cards = YARD + POT + (
        "tree pine\n  kind Japanese black pine\n  place yard\n  pot tray\n  spread 50 cm\n\n"
        "tree gorse\n  kind Chinese juniper\n  place yard\n  pot bowl\n  spread 30 cm\n"
    )  # fmt: skip
    found = water(written(cards, "2027-01-10"))
    (place,) = found.places
    assert place.trees == ("pine", "gorse")
    both = [found.trees[handle] for handle in place.trees]
    assert place.litres_now == pytest.approx(sum(tree.litres_now for tree in both))
    assert place.litres_week == pytest.approx(sum(tree.litres_week for tree in both))
    # The same air all year: the sun decides, and it is highest at the solstice of 21 June.
    assert abs(place.hottest_first + timedelta(days=3) - date(2027, 6, 21)) <= timedelta(days=7)
    assert place.hottest_last - place.hottest_first == timedelta(days=6)
    assert place.hottest_litres == pytest.approx(
        7 * sum(tree.hottest.litres_a_day for tree in both)
    )


def test_the_south_is_hottest_at_its_own_solstice(written: Written) -> None:
    south = YARD.replace("45.72", "-37.8")
    cards = south + POT + "tree pine\n  kind Japanese black pine\n  place yard\n  pot tray\n"
    (place,) = water(written(cards, "2026-07-10", settings='home = "yard"\n')).places
    assert abs(place.hottest_first - date(2026, 12, 22)) <= timedelta(days=14)


def test_weeks_are_measured_then_expected(written: Written) -> None:
    cards = YARD + POT + "tree pine\n  kind Japanese black pine\n  place yard\n  pot tray\n"
    days = "".join(
        f"\n2027-07-{day:02}   low 10 C, high 30 C, rain 10 mm\n" for day in range(5, 13)
    )
    weeks = water(written(cards + days, "2027-07-14")).weeks
    # 14 July 2027 is a Wednesday; eight weeks before its Monday.
    assert (len(weeks), weeks[0].first) == (52, date(2027, 5, 17))
    measured = {week.first: week.measured_days for week in weeks if week.measured_days}
    assert measured == {date(2027, 7, 5): 7, date(2027, 7, 12): 1}
    # 10 mm on 40 x 25 cm, 0.6 of it let past, seven days.
    assert weeks[7].rain_litres == pytest.approx(10 * 0.1 * 0.6 * 7)


def test_who_is_gone_or_planted_out_is_not_watered(written: Written) -> None:
    cards = (
        YARD
        + POT
        + HOSHI
        + "  place yard\n  pot tray\n\ntree oak\n  kind trident maple\n  pot bowl\n"
    )
    diary = "\n2026-05-01\nhoshi\n  planted-out\n\noak\n  died\n"
    found = water(written(cards + diary, "2027-07-15"))
    assert (found.trees, found.too_little, found.planted_out) == ({}, (), ("hoshi",))


# ------------------------------------------------------------------ what waits on the weather


def _follow_up(datum: str, opens: date = date(2027, 9, 1)) -> FollowUp:
    window = Window(opens, opens, opens + timedelta(days=9))
    reason = Reason("datum", str(datum), expected=is_expected(datum))
    return FollowUp("hoshi/x/y", "hoshi", "fed", "feed", window, (reason,), (), 5, ("fed",))


def test_the_climates_own_sentences_wait(written: Written) -> None:
    """Every sentence with which the climate speaks of days to come, as it writes them."""
    today = date(2027, 1, 10)
    session = written(YARD.replace("14.8", "-2"), "2027-01-10")
    journal = session.journal
    outlook = Skies(session.weather, {}, journal.southern, today).over("yard", "")
    assert outlook is not None
    year = date(2027, 1, 1)
    turn = outlook.cold_nights_end(year, 0.0)
    (hot,) = outlook.hot_spells(year, 20.0)
    plan = session.plan()
    assert plan.trees == {} and turn is not None
    for because in (outlook.mean(date(2027, 4, 1), 21).because, turn.because, hot.because):
        assert waits_on_weather(_follow_up(because), today), because


def test_stages_to_come_wait_and_what_was_seen_does_not(written: Written) -> None:
    session = written(
        YARD + POT + HOSHI + "  place yard\n  pot tray\n\n2025-03-01\nhoshi\n  noted  buds tight\n",
        "2027-01-10",
    )
    coming = [f for f in session.plan().all() if f.state(session.today) == "coming"]
    stages = [f for f in coming if any("; the rest by" in r.text for r in f.because)]
    assert stages and all(waits_on_weather(f, session.today) for f in stages)
    plain = _follow_up("It was cut on 2026-11-01.")
    assert not waits_on_weather(plain, date(2027, 1, 10))
    months = _follow_up(
        "By the months of the northern hemisphere. Nothing is known of the weather."
    )
    assert not waits_on_weather(months, date(2027, 1, 10))
    expected = _follow_up(Datum("The 21 days average 9.0 °C here (by the means).", expected=True))
    assert waits_on_weather(expected, date(2027, 1, 10))
    # Once its window is open nothing is waited for, nor once it is done.
    assert not waits_on_weather(expected, date(2027, 9, 1))
    assert not waits_on_weather(replace(expected, outcome="done"), date(2027, 1, 10))


@pytest.mark.parametrize("ball", ["12 x 4 inch", "0 x 0 x 0 cm", "30 cm", "30 x 20 x 6 cm"])
def test_a_root_ball_of_any_sizes_ends_no_run(written, ball: str) -> None:
    """Two sizes are a round ball; of one, or of nothing, no pot can be made."""
    session = written(
        f"place yard\n  latitude  50\n  low  {'5 ' * 12}C\n  high  {'9 ' * 12}C\n"
        f"tree hoshi\n  kind  trident maple\n  place  yard\n  root ball  {ball}\n"
        "2026-11-01\nhoshi\n  noted  well\n",
        settings='home = "yard"\n',
        problems=("wrong-measure",) if ball == "30 cm" else (),
    )
    plan = session.plan()
    water = water_of(
        session.journal, plan.trees.values(), plan.species, session.weather, session.today
    )
    known = "hoshi" in water.trees
    assert known is (ball in ("12 x 4 inch", "30 x 20 x 6 cm"))
    assert known or water.too_little[0].tree == "hoshi"


@pytest.mark.parametrize(("taper", "floor_cm"), [("20 %", (35, 20)), ("5 cm", (35, 20))])
def test_a_taper_is_told_in_centimetres_or_as_a_share_of_the_width(
    written: Written, taper, floor_cm
) -> None:
    """A fifth of 25 cm is 5 cm, 2.5 off each side: filled to 9 of 10 cm."""
    pot = POT.replace("40 x 25 x 10 cm", f"40 x 25 x 10 cm\n  taper {taper}", 1)
    long, wide = floor_cm
    by_hand = 9 / 6 * (long * wide + 4 * 37.25 * 22.25 + 39.5 * 24.5) / 1000
    assert _vessel(written, pot, HOSHI + "  pot tray\n").pot_litres == pytest.approx(by_hand)
