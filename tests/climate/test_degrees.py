"""A temperature is told with a minus that is one."""

from backbud.climate.degrees import degrees


def test_one_minus_sign_and_no_minus_nought():
    assert degrees(-11.2, ".0f") == "\N{MINUS SIGN}11 °C"
    assert degrees(-2.5) == "\N{MINUS SIGN}2.5 °C"
    assert degrees(-0.04, ".1f") == "0.0 °C"
    assert degrees(5) == "5 °C"
