"""What a place's card says of its winters, and slips in it."""

from __future__ import annotations

import pytest

from backbud.climate.coldest_night import SaidCold

HOME = 'home = "yard"\n'
YARD = """
place yard
  latitude  53 N
  low   1 1 2 4 6 9 11 11 9 6 3 1 C
  high  6 7 9 12 15 18 20 19 17 13 9 6 C
"""


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        ("  coldest  -11 C\n", SaidCold(-11.0, "")),
        # 12.2 °F.
        ("  coldest  12.2 F\n", SaidCold(-11.0, "")),
        ("  hardiness zone  8b\n", SaidCold(None, "8b")),
        ("  hardiness zone  8B\n  coldest  -9.5 C\n", SaidCold(-9.5, "8b")),
        ("  hardiness zone  8\n", SaidCold(None, "8")),
        ("", None),
    ],
)
def test_what_a_card_says(written, lines: str, said: SaidCold | None) -> None:
    found = written(YARD + lines, settings=HOME).weather.record_of("yard").coldest
    if said is not None and said.coldest_c is not None:
        assert found.coldest_c == pytest.approx(said.coldest_c)
        assert found.zone == said.zone
    else:
        assert found == said


def test_the_nearest_card_counts(written) -> None:
    """A place without a word of its own takes what is around it, then home's."""
    places = """
place hollow
  within   yard
  coldest  -14 C

place bench
  within  hollow

place away
  latitude  50 N
"""
    weather = written(YARD + "  coldest  -11 C\n" + places, settings=HOME).weather
    found = {handle: weather.record_of(handle).coldest for handle in ("hollow", "bench", "away")}
    assert found == {
        "hollow": SaidCold(-14.0),
        "bench": SaidCold(-14.0),
        "away": SaidCold(-11.0),
    }


@pytest.mark.parametrize(
    ("line", "code", "message"),
    [
        (
            "  coldest  -110 C\n",
            "impossible-value",
            "a night of -110 °C cannot be; expected -90 to 57 °C",
        ),
        # A sign forgotten: January's mean low is 1 °C.
        (
            "  coldest  11 C\n",
            "impossible-value",
            "the coldest night is milder than the mean low of its month, 1 °C",
        ),
        ("  hardiness zone  8c\n", "unknown-zone", "there is no hardiness zone “8c”"),
        ("  hardiness zone  mild\n", "unknown-zone", "there is no hardiness zone “mild”"),
    ],
)
def test_a_slip_is_told_and_left_out(written, line: str, code: str, message: str) -> None:
    session = written(YARD + line, settings=HOME, problems=(code,))
    told = next(problem for problem in session.problems() if problem.code == code)
    assert message in str(told.message)
    assert session.weather.record_of("yard").coldest is None


def test_it_is_told_where_a_card_has_nothing_else_of_the_weather(written) -> None:
    written(
        "\nplace yard\n  hardiness zone  99\n",
        settings=HOME,
        problems=("unknown-zone",),
    )
