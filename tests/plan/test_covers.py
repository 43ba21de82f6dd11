"""What each cover does to the air, the light and the water under it, both sides of its bounds."""

from __future__ import annotations

import pytest

from backbud.bench.water import WaterCover, shade_net
from backbud.climate.air import OPEN_AIR, Shift
from backbud.plan.covers import Cover, cover_from


@pytest.mark.parametrize(
    ("words", "shift", "light"),
    [
        # A cold frame or tunnel: 1 °C on the low, 3 on the high; glass: 1.5 and 6.
        ("cold frame", Shift(1.0, 3.0), 0.7),
        ("tunnel", Shift(1.0, 3.0), 0.7),
        ("Tunnel", Shift(1.0, 3.0), 0.7),
        ("unheated glass", Shift(1.5, 6.0), 0.7),
        # No figure that stands there makes unheated glass heated.
        ("unheated glass 3 mm", Shift(1.5, 6.0), 0.7),
        # Heated glass is kept at 5 °C where nobody says, at what is written where somebody does.
        ("heated glass", Shift(1.5, 6.0, 5.0), 0.7),
        ("heated glass, from 8 C", Shift(1.5, 6.0, 8.0), 0.7),
        ("heated glass, from -2,5 C", Shift(1.5, 6.0, -2.5), 0.7),
        ("indoors", Shift(0.0, 0.0, 15.0), 0.1),
        ("indoors, from 12 C", Shift(0.0, 0.0, 12.0), 0.1),
        ("open", OPEN_AIR, 1.0),
        ("", OPEN_AIR, 1.0),
    ],
)
def test_the_air_and_the_light_under_a_cover(words: str, shift: Shift, light: float) -> None:
    cover = cover_from(words, {})
    assert (cover.shift, cover.light) == (shift, light)


@pytest.mark.parametrize(
    ("words", "off_the_high", "light"),
    [
        # Half of the light where nobody says; a full net takes 2 °C from the high.
        ("shade", -1.0, 0.5),
        ("shade net 40 %", -0.8, 0.6),
        ("shade net 0 %", 0.0, 1.0),
        ("shade net -10 %", 0.0, 1.0),
        ("shade net 100 %", -2.0, 0.0),
        ("shade net 110 %", -2.0, 0.0),
    ],
)
def test_a_net_takes_light_and_heat_by_its_share(
    words: str, off_the_high: float, light: float
) -> None:
    cover = cover_from(words, {})
    assert (cover.shift.low_c, cover.shift.least_c) == (0.0, None)
    assert cover.shift.high_c == pytest.approx(off_the_high)
    assert cover.light == pytest.approx(light)


def test_a_setting_replaces_a_figure() -> None:
    figures = {"frame_low_c": 2.0, "frame_high_c": 4.0, "glass_light": 0.8, "frame_water": 0.5}
    expected = Cover(Shift(2.0, 4.0), 0.8, WaterCover(0.5, 0.0))
    assert cover_from("cold frame", figures) == expected
    warmer = {"glass_low_c": 0.5, "glass_high_c": 5.0, "indoors_least_c": 18.0, "indoor_light": 0.2}
    assert cover_from("unheated glass", warmer).shift == Shift(0.5, 5.0)
    assert cover_from("indoors", warmer).shift == Shift(0.0, 0.0, 18.0)
    assert cover_from("indoors", warmer).light == 0.2
    assert cover_from("shade 50 %", {"shade_high_c": 3.0}).shift == Shift(0.0, -1.5)


@pytest.mark.parametrize(
    ("share", "meant"), [(-0.1, 0.0), (0.0, 0.0), (0.3, 0.3), (1.0, 1.0), (1.1, 1.0)]
)
def test_of_what_a_net_takes_no_more_than_all_shows_in_water(share: float, meant: float) -> None:
    assert cover_from("shade 40 %", {"net_water": share}).water == shade_net(40, meant)


@pytest.mark.parametrize(("figure", "factor"), [(-0.1, 0.0), (0.0, 0.0), (0.1, 0.1), (1.2, 1.2)])
def test_under_a_roof_no_water_is_won(figure: float, factor: float) -> None:
    assert cover_from("unheated glass", {"glass_water": figure}).water == WaterCover(factor, 0.0)


FROM_A_WINTER = """
place yard
  cover      open
  latitude   45.5 N
  longitude  9 E
  low   -2 -1 3 7 12 16 18 18 14 9 4 -1 C
  high  5 8 13 18 23 27 30 29 24 18 11 6 C
tree hoshi
  kind        Japanese maple
  since       2012
  place       yard
  root ball   30 x 20 x 6 cm
2026-01-10
hoshi
  protected   fleece
2026-04-10
hoshi
  unprotected
"""


def test_a_cover_of_january_is_too_thin_for_that_winter_and_not_for_the_next(written) -> None:
    """Fleece that came off in April asks for nothing in November."""

    def on_from_there(text: str, day: str):
        ours = written(text, day).plan().follow_ups["hoshi"]
        (one,) = [f for f in ours if f.id == "hoshi/under-protection/protected-2026-01-10/on"]
        return one, written(text, day).today

    before, _, _ = FROM_A_WINTER.partition("2026-04-10")
    one, today = on_from_there(before, "2026-01-20")
    assert one.title == "move on, when a hard night is forecast"
    assert (one.state(today), one.window.opens.year, one.window.closes.year) == ("now", 2026, 2026)
    assert one.window.closes.month <= 4
    one, today = on_from_there(FROM_A_WINTER, "2026-11-21")
    assert one.state(today) not in ("overdue", "now", "coming")
