"""Numbers with their units: how they are written, and how one unit becomes another.

Factors: NIST Special Publication 811 (2008), appendix B.8. Numbers stay decimal as written.
"""

from __future__ import annotations

import re
from decimal import Decimal
from functools import lru_cache

from msgspec import Struct

from backbud_grammar.problems import Misread, nearest


class Unit(Struct, frozen=True, gc=False):
    """A unit: its symbol, what it measures, and how many of the SI (or base) unit it is."""

    symbol: str
    dimension: str
    factor: Decimal
    written: tuple[str, ...] = ()


def _units(dimension: str, **factors: str) -> list[Unit]:
    return [Unit(symbol, dimension, Decimal(factor)) for symbol, factor in factors.items()]


# Base units: m, m2, L, kg, C, s, 1 (share), mg/L, mS/cm, m/s, degree of arc.
UNITS: tuple[Unit, ...] = (
    *_units("length", mm="0.001", cm="0.01", m="1"),
    Unit("inch", "length", Decimal("0.0254"), ("inches",)),
    Unit("foot", "length", Decimal("0.3048"), ("feet",)),
    Unit("cm2", "area", Decimal("0.0001"), ("cm²",)),
    Unit("m2", "area", Decimal("1"), ("m²",)),
    Unit("ha", "area", Decimal("10000")),
    Unit("mL", "volume", Decimal("0.001"), ("ml",)),
    Unit("cL", "volume", Decimal("0.01"), ("cl",)),
    Unit("dL", "volume", Decimal("0.1"), ("dl",)),
    Unit("L", "volume", Decimal("1"), ("l", "litre", "litres", "liter", "liters")),
    Unit("m3", "volume", Decimal("1000"), ("m³",)),
    Unit("US gal", "volume", Decimal("3.785411784")),
    Unit("UK gal", "volume", Decimal("4.54609")),
    Unit("mg", "mass", Decimal("0.000001")),
    Unit("g", "mass", Decimal("0.001")),
    Unit("kg", "mass", Decimal("1")),
    Unit("oz", "mass", Decimal("0.028349523125")),
    Unit("lb", "mass", Decimal("0.45359237")),
    Unit("C", "temperature", Decimal(1), ("°C",)),
    Unit("F", "temperature", Decimal(1), ("°F",)),
    Unit("s", "duration", Decimal(1), ("second", "seconds")),
    Unit("min", "duration", Decimal(60), ("minute", "minutes")),
    Unit("h", "duration", Decimal(3600), ("hour", "hours")),
    Unit("day", "duration", Decimal(86400), ("days", "d")),
    Unit("week", "duration", Decimal(604800), ("weeks",)),
    # A month and a year of a plan are the calendar's; as a length they are the mean ones.
    Unit("month", "duration", Decimal(2629746), ("months",)),
    Unit("year", "duration", Decimal(31556952), ("years",)),
    Unit("%", "share", Decimal("0.01"), ("percent",)),
    Unit("ppm", "concentration", Decimal(1)),
    Unit("dH", "hardness", Decimal(1), ("°dH",)),
    Unit("mS/cm", "conductivity", Decimal(1)),
    Unit("µS/cm", "conductivity", Decimal("0.001"), ("uS/cm", "μS/cm")),
    Unit("m/s", "speed", Decimal(1)),
    Unit("degrees", "angle", Decimal(1), ("degree", "°")),
)

# The ways each unit may be written. Case is kept: `l` and `L` are one, `M` is no `m`.
BY_WRITING: dict[str, Unit] = {
    writing: unit for unit in UNITS for writing in (unit.symbol, *unit.written)
}

# The units as people also write them, and the hint they get.
_SAID_OTHERWISE: dict[str, str] = {
    said: hint
    for hint, names in {
        "Write inch.": 'in in. ins " ″ ”',
        "Write foot.": "ft ft. ' ′ ’",
        "Write mm.": "millimetre millimetres millimeter millimeters",
        "Write cm.": "centimetre centimetres centimeter centimeters",
        "Write m.": "metre metres meter meters",
        "Write it in m or foot.": "yd yard yards",
        "Write mL.": "cc ccm millilitre millilitres milliliter milliliters",
        "Write g.": "gr gram grams gramme grammes",
        "Write kg.": "kilo kilos kilogram kilograms",
        "Write oz.": "ounce ounces",
        "Write lb.": "lbs pound pounds",
        "Write C.": "celsius centigrade degc",
        "Write F.": "fahrenheit degf",
        "Write s.": "sec sec. secs",
        "Write min.": "mins min.",
        "Write h.": "hr hrs hr. h.",
        "Write week.": "wk wks",
        "Write month.": "mo mos mth mths",
        "Write year.": "yr yrs",
        "Write US gal or UK gal (the UK one is a fifth larger), or say whose in backbud.toml.": (
            "gal gal. gals gallon gallons"
        ),
        "Write mL/L: a tablespoon to a US gallon is 3.9 mL/L, a teaspoon 1.3 mL/L.": (
            "tbs/gal tbsp/gal tsp/gal tbs/gallon tbsp/gallon tsp/gallon"
        ),
        "Write it in mm: AWG 18 is 1.0 mm, 16 1.3, 14 1.6, 12 2.1, 10 2.6; an SWG is thicker.": (
            "ga ga. gauge awg swg"
        ),
        "Write it in mL; the US one and the UK one differ.": "floz fl.oz pint pints",
        "Write it in L: a US quart is 0.95 L, a UK one 1.14; or say whose in backbud.toml.": (
            "quart quarts qt qts qt."
        ),
    }.items()
    for said in names.split()
}

# ISO 4217, list one as published 2026-01-01. Left out: funds, metals, units of account, tests.
_CURRENT = """
AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BHD BIF BMD BND BOB BRL BSD BTN BWP BYN BZD CAD
CDF CHF CLP CNY COP CRC CUP CVE CZK DJF DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD
GNF GTQ GYD HKD HNL HTG HUF IDR ILS INR IQD IRR ISK JMD JOD JPY KES KGS KHR KMF KPW KRW KWD KYD
KZT LAK LBP LKR LRD LSL LYD MAD MDL MGA MKD MMK MNT MOP MRU MUR MVR MWK MXN MYR MZN NAD NGN NIO
NOK NPR NZD OMR PAB PEN PGK PHP PKR PLN PYG QAR RON RSD RUB RWF SAR SBD SCR SDG SEK SGD SHP SLE
SOS SRD SSP STN SVC SYP SZL THB TJS TMT TND TOP TRY TTD TWD TZS UAH UGX USD UYU UZS VED VES VND
VUV WST XAF XCD XCG XOF XPF YER ZAR ZMW ZWG
"""
# Withdrawn since 2002, so that an old page still reads.
_FORMER = """
AFA ANG ATS AZM BEF BGN BYR CSD CUC CYP DEM EEK ESP FIM FRF GHC GRD HRK IEP ITL LTL LUF LVL MGF
MRO MTL MZM NLG PTE ROL SDD SIT SKK SLL SRG STD TMM TRL VEB VEF ZMK ZWD ZWL ZWR
"""
CURRENT_CURRENCIES = frozenset(_CURRENT.split())
CURRENCIES = CURRENT_CURRENCIES.union(_FORMER.split())


class Measure(Struct, frozen=True, array_like=True, gc=False):
    """One measure as written.

    `numbers`: one, or two or three for sizes, or twelve for a list; decimal, in `unit`.
    `upper`: the upper end of a range. `unit`: the symbol in `UNITS`, an ISO 4217 code, or "".
    `per`: the unit after the stroke of a rate. `count`: the whole number after `x`.
    `sort`: what it measures (a dimension, or size, number, fraction, ratio, npk, money).
    """

    numbers: tuple[Decimal, ...]
    unit: str
    sort: str
    upper: Decimal | None = None
    per: str = ""
    count: int = 1

    @property
    def number(self) -> Decimal:
        """The number, or the middle of a range."""
        first = self.numbers[0]
        return first if self.upper is None else (first + self.upper) / 2

    def within(self, unit: str) -> float:
        """Return the number in `unit` (same dimension, else ValueError)."""
        return float(convert(self.number, self.unit, unit))

    def sizes_in(self, unit: str) -> tuple[float, ...]:
        """Return every number of a size or list in `unit`."""
        return tuple(float(convert(n, self.unit, unit)) for n in self.numbers)

    def __str__(self) -> str:
        # Two or three numbers of one unit are a size, more are a list.
        plain = " x " if len(self.numbers) <= 3 else " "
        joiner = {"npk": "-", "ratio": ":", "fraction": "/"}.get(self.sort, plain)
        text = joiner.join(f"{n:f}" for n in self.numbers)
        if self.upper is not None:
            both = f"{self.upper:f}"
            text += f" to {both}" if self.numbers[0] < 0 or self.upper < 0 else f"-{both}"
        if self.unit:
            text += f" {self.unit}"
        if self.per:
            text += f"/{self.per}"
        if self.count != 1:
            text += f" x {self.count}"
        return text


def is_money(sort: str) -> bool:
    """Whether measures of a sort are amounts of money."""
    return sort in ("money", "money rate")


def convert(number: Decimal, unit: str, to: str) -> Decimal:
    """Return `number` of `unit` in the unit `to`; ValueError when they measure other things.

    Temperatures: t/°C = (t/°F - 32)/1.8 (NIST SP 811, B.8).
    """
    here, there = BY_WRITING.get(unit), BY_WRITING.get(to)
    if unit == to or (here and here is there):
        return number
    if here is None or there is None or here.dimension != there.dimension:
        raise ValueError(f"{unit} and {to} do not measure the same")
    if here.dimension == "temperature":
        if there.symbol == "F":
            return number * Decimal(9) / 5 + 32
        return (number - 32) * 5 / Decimal(9)
    return number * here.factor / there.factor


# A whole number, or a decimal of either mark; the whole part may be missing.
_NUMBER = re.compile(r"[+-]?(?:[0-9]+|[0-9]*[.,][0-9]+)")
_DIGITS = re.compile("[0-9]+")
# Nothing at a bench has more, and no sum of what has fewer runs over.
MOST_DIGITS = 9
# In money: up to three digits, a mark and three more can be thousands, unless a zero leads.
_PERHAPS_THOUSANDS = re.compile(r"[+-]?[1-9][0-9]{0,2}[.,][0-9]{3}")


@lru_cache(maxsize=4096)
def read_number(text: str, *, money: bool = False) -> Decimal:
    """Return a number as written: `4.5`, `4,5`, `-6`.

    Raises Misread: `two-decimal-marks`; `thousands-separator` where an amount of money can be
    read two ways; `bad-number` for anything else.
    """
    plain = text.replace("\N{MINUS SIGN}", "-")
    if plain.count(".") + plain.count(",") > 1:
        raise Misread(
            "two-decimal-marks",
            f"“{text}” has two decimal marks",
            "Write one decimal comma or point and no thousands separator.",
            length=len(text),
        )
    if any(len(digits) > MOST_DIGITS for digits in _DIGITS.findall(plain)):
        raise Misread(
            "bad-number",
            f"“{text[:MOST_DIGITS]}…” has more digits than a measure can have",
            f"At most {MOST_DIGITS} stand before the decimal mark, and as many behind it.",
            length=len(text),
        )
    point = plain.replace(",", ".")
    if money and _PERHAPS_THOUSANDS.fullmatch(plain):
        raise Misread(
            "thousands-separator",
            f"“{text}” can be read two ways",
            f"Write {point.replace('.', '')} if you mean thousands, "
            f"or {point.rstrip('0').rstrip('.')} if you mean a decimal.",
            length=len(text),
        )
    if not _NUMBER.fullmatch(plain):
        raise Misread("bad-number", f"“{text}” is no number", "Write 4, 4.5 or 4,5.", 0, len(text))
    return Decimal(point)


def unit_named(written: str) -> Unit:
    """Return the unit so written; Misread with the nearest one when there is none."""
    key = re.sub(r"\s+", " ", written)
    unit = BY_WRITING.get(key)
    if unit is None:
        message = f"“{written}” is no unit known here"
        raise Misread("unknown-unit", message, _hint_for_unit(key), length=len(written))
    return unit


# Units of so few letters are alike.
_SHORT_UNIT = 3


def hint_of_unit(written: str) -> str:
    """How to write a unit that people also write so; "" where it is none.

    >>> hint_of_unit("ccm")
    'Write mL.'
    """
    return _SAID_OTHERWISE.get(written.casefold(), "")


def _hint_for_unit(written: str) -> str:
    folded = written.casefold().replace(" ", "")
    if folded in _SAID_OTHERWISE:
        return _SAID_OTHERWISE[folded]
    # The short ones are like too many things.
    long = [said for said in _SAID_OTHERWISE if len(said) > 4]
    near = nearest(written, [*long, *BY_WRITING])
    whole = near.casefold()
    is_in_it = whole == folded or (
        len(near) > 1 and (folded.startswith(whole) or folded.endswith(whole))
    )
    if len(written) <= _SHORT_UNIT and not is_in_it:
        # So few letters are near to many a unit, but `cms` only goes on where one ends.
        near = ""
    if not near:
        return "Units: mm cm m, mL L, g kg, C F, min h, %."
    return _SAID_OTHERWISE.get(near) or f"Did you mean “{near}”?"
