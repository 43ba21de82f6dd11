"""Measures as written, against published factors, other libraries and sums done by hand.

NIST Special Publication 811 (2008), appendix B.8, gives its factors to seven figures.
ISO 4217 codes: the package `iso4217`, which carries the agency's own list one.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import iso4217
import msgspec
import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from backbud_grammar.measures import (
    BY_WRITING,
    CURRENCIES,
    CURRENT_CURRENCIES,
    UNITS,
    Measure,
    convert,
    read_number,
    unit_named,
)
from backbud_grammar.problems import Misread

UREG: Any = pint.UnitRegistry(non_int_type=Decimal, autoconvert_offset_to_baseunit=True)
UREG.define("calendar_month = gregorian_year / 12")

# The same units by pint's names.
IN_PINT = {
    "mm": "millimeter", "cm": "centimeter", "m": "meter", "inch": "inch", "foot": "foot",
    "cm2": "centimeter**2", "m2": "meter**2", "ha": "hectare",
    "mL": "milliliter", "cL": "centiliter", "dL": "deciliter", "L": "liter", "m3": "meter**3",
    "US gal": "US_liquid_gallon", "UK gal": "imperial_gallon",
    "mg": "milligram", "g": "gram", "kg": "kilogram", "oz": "avoirdupois_ounce",
    "lb": "avoirdupois_pound",
    "C": "degC", "F": "degF",
    "s": "second", "min": "minute", "h": "hour", "day": "day", "week": "week",
    "month": "calendar_month", "year": "gregorian_year",
}  # fmt: skip
CHECKED = ("length", "area", "volume", "mass", "temperature", "duration")


def unit(symbol: str) -> Decimal:
    return BY_WRITING[symbol].factor


def numbers(*written: str) -> tuple[Decimal, ...]:
    return tuple(map(Decimal, written))


# NIST SP 811, B.8: name there, factor to the SI unit as printed, our symbol, SI units in our base.
@pytest.mark.parametrize(
    ("name", "printed", "symbol", "base"),
    [
        ("inch (in)", "2.54E-02", "inch", "1"),
        ("foot (ft)", "3.048E-01", "foot", "1"),
        ("hectare (ha)", "1.0E+04", "ha", "1"),
        ("liter (L)", "1.0E-03", "L", "0.001"),
        ("gallon (U.S.) (gal)", "3.785412E-03", "US gal", "0.001"),
        ("gallon [Canadian and U.K. (Imperial)] (gal)", "4.54609E-03", "UK gal", "0.001"),
        ("ounce (avoirdupois) (oz)", "2.834952E-02", "oz", "1"),
        ("pound (avoirdupois) (lb)", "4.535924E-01", "lb", "1"),
        ("minute (min)", "6.0E+01", "min", "1"),
        ("hour (h)", "3.6E+03", "h", "1"),
        ("day (d)", "8.64E+04", "day", "1"),
    ],
)
def test_factors_of_nist(name: str, printed: str, symbol: str, base: str) -> None:
    ours = unit(symbol) * Decimal(base)
    assert float(f"{ours:.6E}") == float(printed), name


def test_exact_definitions() -> None:
    # NIST SP 811, B.8, note 22: the pound is exactly 0.453 592 37 kg; 16 ounces make one.
    assert unit("lb") == Decimal("0.45359237")
    assert unit("oz") * 16 == unit("lb")
    # NIST SP 811, B.6 and Handbook 44, appendix C: the US gallon is 231 cubic inches.
    assert unit("US gal") == 231 * (unit("inch") * 10) ** 3
    assert unit("foot") == 12 * unit("inch")
    # The calendar repeats after 400 years, 146 097 days and 4800 months.
    assert unit("year") * 400 == unit("day") * 146097
    assert unit("month") * 4800 == unit("day") * 146097


@pytest.mark.parametrize("dimension", CHECKED)
def test_every_unit_and_pair_agrees_with_pint(dimension: str) -> None:
    symbols = [u.symbol for u in UNITS if u.dimension == dimension]
    assert len(symbols) >= 2
    for here in symbols:
        for there in symbols:
            ours = convert(Decimal("36.6"), here, there)
            theirs = UREG.Quantity(Decimal("36.6"), IN_PINT[here]).to(IN_PINT[there]).magnitude
            assert float(ours) == pytest.approx(float(theirs), rel=1e-12), (here, there)


def test_no_unit_is_left_unchecked() -> None:
    other = {u.symbol for u in UNITS} - IN_PINT.keys()
    assert other == {"%", "ppm", "dH", "mS/cm", "µS/cm", "m/s", "degrees"}


@pytest.mark.parametrize(
    ("fahrenheit", "celsius"),
    # NIST SP 811, B.8: t/°C = (t/°F - 32)/1.8, worked by hand.
    [("32", "0"), ("212", "100"), ("-40", "-40"), ("50", "10"), ("14", "-10"), ("62.6", "17")],
)
def test_temperature_both_ways(fahrenheit: str, celsius: str) -> None:
    assert convert(Decimal(fahrenheit), "F", "C") == Decimal(celsius)
    assert convert(Decimal(celsius), "C", "F") == Decimal(fahrenheit)
    assert convert(Decimal(celsius), "°C", "°F") == Decimal(fahrenheit)
    assert convert(Decimal(fahrenheit), "°F", "°C") == Decimal(celsius)


@pytest.mark.parametrize(
    ("number", "here", "there", "expected"),
    [
        ("4.5", "L", "mL", "4500"),
        ("2", "inch", "cm", "5.08"),
        ("1", "UK gal", "L", "4.54609"),
        ("12", "oz", "g", "340.194277500"),
        ("2", "ha", "m2", "20000"),
        ("38", "cm", "mm", "380"),
        ("3", "week", "day", "21"),
        ("90", "min", "h", "1.5"),
        ("250", "µS/cm", "mS/cm", "0.25"),
        # One unit under two names is the same number, whatever it measures.
        ("7", "C", "°C", "7"),
        ("7", "l", "litres", "7"),
        ("7", "EUR", "EUR", "7"),
        ("7", "", "", "7"),
    ],
)
def test_conversion_by_hand(number: str, here: str, there: str, expected: str) -> None:
    assert convert(Decimal(number), here, there) == Decimal(expected)


@pytest.mark.parametrize(
    ("here", "there"),
    [("L", "kg"), ("cm", "cm2"), ("C", "s"), ("EUR", "USD"), ("EUR", "kg"), ("kg", "stone"),
     ("", "kg")],
)  # fmt: skip
def test_what_does_not_measure_the_same_is_refused(here: str, there: str) -> None:
    with pytest.raises(ValueError, match="do not measure the same"):
        convert(Decimal(1), here, there)


@given(
    st.decimals("-1000", "1000", places=3),
    st.sampled_from([(a.symbol, b.symbol) for a in UNITS for b in UNITS
                     if a.dimension == b.dimension]),
)  # fmt: skip
def test_there_and_back_again(number: Decimal, pair: tuple[str, str]) -> None:
    here, there = pair
    back = convert(convert(number, here, there), there, here)
    assert abs(back - number) <= Decimal("1e-18")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("4", "4"),
        ("4.5", "4.5"),
        ("4,5", "4.5"),
        ("4.50", "4.50"),
        ("-6", "-6"),
        ("\N{MINUS SIGN}6", "-6"),
        ("\N{MINUS SIGN}0,5", "-0.5"),
        ("+3", "3"),
        (".5", "0.5"),
        ("007", "7"),
        # Outside money a decimal may have any number of places.
        ("1.234", "1.234"),
        ("1,234", "1.234"),
        ("123456789.123456789", "123456789.123456789"),
    ],
)
def test_numbers_as_written(text: str, expected: str) -> None:
    number = read_number(text)
    assert number == Decimal(expected)
    assert str(number) == str(Decimal(expected))


@pytest.mark.parametrize("text", ["1.234,56", "1,234.56", "1.234.567", "1,2,3", "4..5"])
@pytest.mark.parametrize("money", [False, True])
def test_two_decimal_marks(text: str, money: bool) -> None:
    with pytest.raises(Misread) as caught:
        read_number(text, money=money)
    assert caught.value.code == "two-decimal-marks"
    assert caught.value.message == f"“{text}” has two decimal marks"
    assert caught.value.hint == "Write one decimal comma or point and no thousands separator."
    assert caught.value.length == len(text)


@pytest.mark.parametrize(
    ("text", "whole", "decimal"),
    [
        ("1.234", "1234", "1.234"),
        ("1,234", "1234", "1.234"),
        ("12.500", "12500", "12.5"),
        ("120,050", "120050", "120.05"),
        ("1.000", "1000", "1"),
        ("200,000", "200000", "200"),
        ("-1,500", "-1500", "-1.5"),
        ("\N{MINUS SIGN}1,500", "-1500", "-1.5"),
    ],
)
def test_money_that_can_be_read_two_ways(text: str, whole: str, decimal: str) -> None:
    with pytest.raises(Misread) as caught:
        read_number(text, money=True)
    assert caught.value.code == "thousands-separator"
    assert caught.value.message == f"“{text}” can be read two ways"
    expected = f"Write {whole} if you mean thousands, or {decimal} if you mean a decimal."
    assert caught.value.hint == expected
    # What it offers can be written.
    assert read_number(whole, money=True) == Decimal(whole)
    assert text.lstrip("-\N{MINUS SIGN}").replace(",", ".").startswith(decimal.lstrip("-"))


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("85", "85"), ("4,50", "4.5"), ("1234.50", "1234.5"), ("0.5", "0.5"), ("1234", "1234"),
        # No thousands can begin with a zero or with four digits.
        ("0.125", "0.125"), ("0,125", "0.125"), ("1234.567", "1234.567"), ("1.2345", "1.2345"),
    ],
)  # fmt: skip
def test_money_that_can_be_read_one_way(text: str, expected: str) -> None:
    assert read_number(text, money=True) == Decimal(expected)


@pytest.mark.parametrize(
    "text", ["", "abc", "4.", "-", ".", "1e5", "1_000", "NaN", "Infinity", "4 5", "٤", "--4", "½"]
)
def test_what_is_no_number(text: str) -> None:
    with pytest.raises(Misread) as caught:
        read_number(text)
    assert (caught.value.code, caught.value.length) == ("bad-number", len(text))
    assert caught.value.message == f"“{text}” is no number"
    assert caught.value.hint == "Write 4, 4.5 or 4,5."


@pytest.mark.parametrize(
    ("written", "symbol", "dimension"),
    [
        ("l", "L", "volume"), ("L", "L", "volume"), ("litres", "L", "volume"),
        ("ml", "mL", "volume"), ("mL", "mL", "volume"), ("m³", "m3", "volume"),
        ("US gal", "US gal", "volume"), ("US  gal", "US gal", "volume"),
        ("UK\tgal", "UK gal", "volume"), ("cm²", "cm2", "area"),
        ("m", "m", "length"), ("inches", "inch", "length"), ("feet", "foot", "length"),
        ("min", "min", "duration"), ("d", "day", "duration"), ("weeks", "week", "duration"),
        # By itself `oz` is the ounce that is weighed (avoirdupois), never a fluid one.
        ("oz", "oz", "mass"), ("lb", "lb", "mass"),
        ("°C", "C", "temperature"), ("F", "F", "temperature"),
        ("percent", "%", "share"), ("°dH", "dH", "hardness"), ("°", "degrees", "angle"),
        # The micro sign, the Greek letter and the letter u
        ("\N{MICRO SIGN}S/cm", "µS/cm", "conductivity"),
        ("\N{GREEK SMALL LETTER MU}S/cm", "µS/cm", "conductivity"),
        ("uS/cm", "µS/cm", "conductivity"),
    ],
)  # fmt: skip
def test_units_as_written(written: str, symbol: str, dimension: str) -> None:
    assert (unit_named(written).symbol, unit_named(written).dimension) == (symbol, dimension)


def test_no_two_units_share_a_writing() -> None:
    writings = [w for u in UNITS for w in (u.symbol, *u.written)]
    assert len(writings) == len(set(writings)) == len(BY_WRITING)


_GALLON = "Write US gal or UK gal (the UK one is a fifth larger), or say whose in backbud.toml."


@pytest.mark.parametrize(
    ("written", "hint"),
    [
        # Units keep their case.
        ("M", "Did you mean “m”?"),
        ("KG", "Did you mean “kg”?"),
        ("c", "Did you mean “C”?"),
        ("Litre", "Did you mean “litre”?"),
        ("us gal", "Did you mean “US gal”?"),
        ("milimetre", "Write mm."),
        ("ounes", "Write oz."),
        ("wekks", "Did you mean “weeks”?"),
        ("tablespoons", "Units: mm cm m, mL L, g kg, C F, min h, %."),
        # `in` and `ft` are words of a sentence too, and the nearest unit to `in` would be `min`.
        ("in", "Write inch."),
        ("ft", "Write foot."),
        ("″", "Write inch."),
        ("pounds", "Write lb."),
        ("ounces", "Write oz."),
        ("Grams", "Write g."),
        ("kilos", "Write kg."),
        ("hrs", "Write h."),
        ("sec", "Write s."),
        ("degC", "Write C."),
        ("millimetres", "Write mm."),
        ("gal", _GALLON),
        ("gallons", _GALLON),
        ("fl oz", "Write it in mL; the US one and the UK one differ."),
        ("pint", "Write it in mL; the US one and the UK one differ."),
        ("yards", "Write it in m or foot."),
    ],
)
def test_unknown_units_are_told_the_nearest(written: str, hint: str) -> None:
    with pytest.raises(Misread) as caught:
        unit_named(written)
    assert caught.value.code == "unknown-unit"
    assert caught.value.message == f"“{written}” is no unit known here"
    assert caught.value.hint == hint
    assert caught.value.length == len(written)


def test_the_uk_gallon_is_a_fifth_larger() -> None:
    assert float(unit("UK gal") / unit("US gal")) == pytest.approx(1.2, abs=0.001)


# List one marks funds; of the rest these are no money to pay with: metals, units of account,
# tests, no currency at all.
NO_MONEY = {
    "UYW", "XAD", "XAG", "XAU", "XBA", "XBB", "XBC", "XBD", "XDR", "XPD", "XPT", "XSU", "XTS",
    "XUA", "XXX",
}  # fmt: skip


def test_currencies_are_those_of_iso_4217() -> None:
    if iso4217.__published__.isoformat() > "2026-01-01":
        pytest.skip("ISO 4217 was amended: bring CURRENCIES up to the list the package now has")
    entries = list(iso4217.raw_xml.iter("CcyNtry"))
    listed = {entry.findtext("Ccy") for entry in entries} - {None}
    funds = {
        entry.findtext("Ccy")
        for entry in entries
        if (name := entry.find("CcyNm")) is not None and name.get("IsFund") == "true"
    }
    assert funds == {"BOV", "CHE", "CHW", "CLF", "COU", "MXV", "USN", "UYI"}
    assert listed - funds - NO_MONEY == CURRENT_CURRENCIES


def test_an_old_page_keeps_its_money() -> None:
    # Withdrawn: the mark 2002, the kroon 2010, the kuna 2023, the guilder and the lev 2025 (CLDR).
    for code in ("DEM", "EEK", "HRK", "ANG", "BGN"):
        assert code in CURRENCIES
        assert code not in CURRENT_CURRENCIES
    assert CURRENT_CURRENCIES < CURRENCIES
    assert all(len(code) == 3 and code.isascii() and code.isupper() for code in CURRENCIES)


def test_no_currency_is_a_unit() -> None:
    assert not CURRENCIES & BY_WRITING.keys()


@pytest.mark.parametrize(
    ("measure", "text"),
    [
        (Measure(numbers("4.5"), "L", "volume"), "4.5 L"),
        (Measure(numbers("-6"), "C", "temperature"), "-6 C"),
        (Measure(numbers("2"), "cm", "length", Decimal(3)), "2-3 cm"),
        (Measure(numbers("-6"), "C", "temperature", Decimal(-2)), "-6 to -2 C"),
        (Measure(numbers("-2"), "C", "temperature", Decimal(4)), "-2 to 4 C"),
        (Measure(numbers("38", "27", "7"), "cm", "size"), "38 x 27 x 7 cm"),
        (Measure(numbers("38", "27"), "cm", "size"), "38 x 27 cm"),
        (Measure(numbers("2"), "mm", "length", None, "", 2), "2 mm x 2"),
        (Measure(numbers("2"), "g", "rate", None, "L"), "2 g/L"),
        (Measure(numbers("38.50"), "EUR", "money", None, "h"), "38.50 EUR/h"),
        (Measure(numbers("1", "3"), "", "fraction"), "1/3"),
        (Measure(numbers("1", "10"), "", "ratio"), "1:10"),
        (Measure(numbers("20", "10", "20"), "", "npk"), "20-10-20"),
        (Measure(numbers("8"), "", "number"), "8"),
        (Measure(numbers("40"), "%", "share"), "40 %"),
        (Measure(tuple(map(Decimal, (1, 1, 2, 4, 6, 9, 11, 11, 9, 7, 4, 2))), "C", "list"),
         "1 1 2 4 6 9 11 11 9 7 4 2 C"),
        # Never in powers of ten
        (Measure((Decimal("1E+3"),), "g", "mass"), "1000 g"),
        (Measure((Decimal("0.0000001"),), "g", "mass"), "0.0000001 g"),
    ],
)  # fmt: skip
def test_a_measure_is_shown_as_it_is_written(measure: Measure, text: str) -> None:
    assert str(measure) == text


def test_numbers_of_a_measure_in_other_units() -> None:
    size = Measure(numbers("10", "8", "2"), "inch", "size")
    assert size.sizes_in("cm") == (25.4, 20.32, 5.08)
    # The middle of a range: 2.5 cm, and -4 °C = 24.8 °F
    assert Measure(numbers("2"), "cm", "length", Decimal(3)).within("mm") == 25.0
    assert Measure(numbers("-6"), "C", "temperature", Decimal(-2)).within("F") == 24.8
    assert Measure(numbers("4.5"), "L", "volume").number == Decimal("4.5")
    with pytest.raises(ValueError, match="L and g do not measure the same"):
        Measure(numbers("4.5"), "L", "volume").within("g")


def test_a_measure_survives_msgpack() -> None:
    measure = Measure(numbers("2", "1.50"), "mm", "size", None, "", 2)
    packed = msgspec.msgpack.encode(measure)
    again = msgspec.msgpack.decode(packed, type=Measure)
    assert again == measure
    assert str(again) == "2 x 1.50 mm x 2"
