"""Numbers, measures, money and dates in details: what they are worth, or what is wrong."""

from __future__ import annotations

from decimal import Decimal

import pytest

from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.measures import Measure
from backbud_grammar.parse import Details

READER = Details(by_word(ACTS))


def measure_of(line: str) -> Measure:
    word, _, text = line.partition(" ")
    reading = READER.of(READER.acts[word], text)
    assert reading.flaws == ()
    found = [d.measure for d in reading.details if d.measure is not None]
    assert len(found) == 1
    return found[0]


def code_of(line: str) -> str:
    word, _, text = line.partition(" ")
    return ", ".join(flaw.code for flaw in READER.of(READER.acts[word], text).flaws)


@pytest.mark.parametrize(
    ("line", "number", "unit"),
    [
        ("measured trunk 4.5 cm", "4.5", "cm"),
        ("measured trunk 4,5 cm", "4.5", "cm"),
        ("measured trunk 4,50 cm", "4.50", "cm"),
        ("measured trunk ,5 cm", "0.5", "cm"),
        ("measured trunk .5 cm", "0.5", "cm"),
        ("measured trunk +4 cm", "4", "cm"),
        ("measured trunk 4cm", "4", "cm"),
        ("measured trunk 4   cm", "4", "cm"),
        ("measured trunk 1,234 m", "1.234", "m"),
        ("measured trunk 3 inch", "3", "inch"),
        ("measured trunk 1/2 inch", "0.5", "inch"),
        ("measured trunk 1 1/2 inch", "1.5", "inch"),
        ("measured height 2 feet", "2", "foot"),
        ("watered 4.5 L", "4.5", "L"),
        ("watered 4.5 l", "4.5", "L"),
        ("watered 2 litres", "2", "L"),
        ("watered 1 US gal", "1", "US gal"),
        ("watered 1 UK gal", "1", "UK gal"),
        ("fed 250 ml", "250", "mL"),
        ("fed 3 oz", "3", "oz"),
        ("drained 40 s", "40", "s"),
        ("worked 90 min", "90", "min"),
        ("worked 1,5 h", "1.5", "h"),
        ("worked 1 h 20", "80", "min"),
        ("worked 1 h 20 min", "80", "min"),
        ("worked 1h20", "80", "min"),
        ("worked 2 days", "2", "day"),
        ("checked again in 3 weeks", "3", "week"),
        ("shaded 40 %", "40", "%"),
        ("shaded 40%", "40", "%"),
        ("turned 90°", "90", "degrees"),
        ("measured conductivity 400 uS/cm", "400", "µS/cm"),
    ],
)
def test_a_measure(line, number, unit) -> None:
    measure = measure_of(line)
    assert (measure.numbers, measure.unit) == ((Decimal(number),), unit)
    assert (measure.upper, measure.per, measure.count) == (None, "", 1)


@pytest.mark.parametrize(
    ("line", "lower", "upper", "unit"),
    [
        ("wired 2-3 mm on apex", "2", "3", "mm"),
        ("wired 1,5-2 mm on apex", "1.5", "2", "mm"),
        ("wired 1.5–2 mm on apex", "1.5", "2", "mm"),
        ("wired 1 to 2 mm on apex", "1", "2", "mm"),
        ("checked again in 2-3 weeks", "2", "3", "week"),
        ("pruned back to 2-3 leaves", "2", "3", ""),
    ],
)
def test_a_range(line, lower, upper, unit) -> None:
    measure = measure_of(line)
    assert (measure.numbers[0], measure.upper) == (Decimal(lower), Decimal(upper))
    assert measure.unit == unit


def test_ranges_with_negatives() -> None:
    read = READER.weather("low -6 to -2 C").details[0].measure
    assert (read.numbers, read.upper, str(read)) == ((Decimal(-6),), Decimal(-2), "-6 to -2 C")
    read = READER.weather("low -2 to 3 C").details[0].measure
    assert (read.numbers[0], read.upper) == (-2, 3)
    read = READER.weather("low \N{MINUS SIGN}6 C").details[0].measure
    assert read.numbers == (-6,)


@pytest.mark.parametrize(
    ("line", "shown", "sort"),
    [
        ("repotted off 1/3", "1/3", "fraction"),
        ("fed 2 g/L", "2 g/L", "rate"),
        ("fed 2 g / L", "2 g/L", "rate"),
        ("fed 1-2 mL/L", "1-2 mL/L", "rate"),
        ("treated-deadwood diluted 1:10", "1:10", "ratio"),
        ("fed 20-10-20", "20-10-20", "npk"),
        ("fed 4.5-3-6.5", "4.5-3-6.5", "npk"),
        ("measured root ball 38 x 27 x 7 cm", "38 x 27 x 7 cm", "size"),
        ("measured root ball 38x27x7cm", "38 x 27 x 7 cm", "size"),
        ("measured root ball 38 × 27,5 × 7 cm", "38 x 27.5 x 7 cm", "size"),
        ("measured root ball 30 x 8 cm", "30 x 8 cm", "size"),
        ("tied 2 mm x 2", "2 mm x 2", "length"),
        ("tied 2 mm x2", "2 mm x 2", "length"),
        ("tied 2 mm Al x 2", "2 mm x 2", "length"),
        ("paid 120 EUR", "120 EUR", "money"),
        ("paid 120.50 EUR", "120.50 EUR", "money"),
        ("paid 120,50 EUR", "120.50 EUR", "money"),
        ("paid 120", "120", "money"),
        ("paid 0.125 KWD", "0.125 KWD", "money"),
        ("agreed rate 45 EUR/h", "45 EUR/h", "money rate"),
    ],
)
def test_other_measures(line, shown, sort) -> None:
    measure = measure_of(line)
    assert (str(measure), measure.sort) == (shown, sort)


@pytest.mark.parametrize(
    ("line", "code"),
    [
        # marks and gaps
        ("measured trunk 4.5.6 cm", "two-decimal-marks"),
        ("measured trunk 4,5,6 cm", "two-decimal-marks"),
        ("watered 1,234.5 L", "two-decimal-marks"),
        ("paid 1,200 EUR", "thousands-separator"),
        ("paid 1.200 EUR", "thousands-separator"),
        ("paid 1,200", "thousands-separator"),
        ("paid 1.200,50 EUR", "two-decimal-marks"),
        ("paid 1 200 EUR", "thousands-separator"),
        # units
        ("measured trunk 4", "no-unit"),
        ("measured trunk 4 in", "unknown-unit"),
        ("measured trunk 4 ft", "unknown-unit"),
        ('measured trunk 4"', "unknown-unit"),
        ("measured trunk 4 CM", "unknown-unit"),
        ("measured trunk 4 kg", "wrong-measure"),
        ("watered 2 gal", "unknown-unit"),
        ("fed 2 g/bucket", "unknown-unit"),
        ("measured root ball 38 x 27 x 7", "no-unit"),
        ("measured root ball 38 cm x 27 cm x 7 cm", "wrong-measure"),
        ("measured root ball 38 cm", "wrong-measure"),
        ("drained 40", "no-unit"),
        # signs, order, size
        ("measured trunk -4 cm", "negative-measure"),
        ("wired 3-2 mm on apex", "falling-range"),
        ("wired 2-2 mm on apex", "falling-range"),
        ("worked 1 h 75", "too-many-minutes"),
        ("repotted off 0/3", "zero-ratio"),
        ("treated-deadwood diluted 1:0", "zero-ratio"),
        ("fed 60-50-20", "out-of-range"),
        ("watered 1/3 L", "bad-number"),
        ("tied 2 mm x 99999", "bad-number"),
        ("tied 2 mm x 0", "bad-number"),
        ("worked 20 min 3 s", "two-measures"),
        ("wired 3 mm 2 mm on apex", "two-measures"),
        # N-P-K stands in `fed` and on a label only
        ("repotted 20-10-20", "unknown-detail"),
        ("watered 20-10-20", "wrong-measure"),
        # money
        ("paid 120 EURO", "unknown-unit"),
        ("paid 120 eur", "unknown-unit"),
        ("paid 120 €", "unknown-unit"),
        ("paid €120", "punctuation"),
        ("paid 120 XYZ", "unknown-unit"),
        ("paid -120 EUR", "negative-measure"),
        ("watered 120 EUR", "wrong-measure"),
        ("worked 120 EUR", "wrong-measure"),
    ],
)
def test_what_is_wrong_with_a_number(line, code) -> None:
    assert code_of(line) == code


@pytest.mark.parametrize("zero", ["\N{FULLWIDTH DIGIT ZERO}", "\N{ARABIC-INDIC DIGIT ZERO}"])
def test_digits_of_other_scripts_are_told(zero) -> None:
    assert code_of(f"watered 2{zero} L") == "bad-number"
    assert code_of(f"tied 2 mm x {zero}") == "bad-number"


def test_a_number_of_thousands_of_digits_is_read_or_told_and_never_raises() -> None:
    assert code_of(f"tied 2 mm x {'9' * 5000}") == "bad-number"
    assert code_of(f"watered {'9' * 5000} L") == "bad-number"


# ------------------------------------------------------------------ dates in details


@pytest.mark.parametrize(
    "written",
    [
        "2028",
        "2028-03",
        "2028-03-06",
        "20280306",
        "2028~",
        "2028-21",
        "2028-W10",
        "2028W10",
        "2028-W10-3",
        "2028W103",
        "202X",
        "2028-03/2028-04",
        "2027-03-06/2027-04-01",
        "1985/",
        "1985/..",
        "/1985",
        "../1985",
        "2028-W10/2028-W12",
    ],
)
def test_a_date_or_a_span(details, written) -> None:
    assert details(f"planned repot, to {written}") == [f"when: {written}"]
    assert details(f"put-off repot to {written}") == [f"when: {written}"]


@pytest.mark.parametrize(
    ("written", "code", "hint"),
    [
        ("2028-3", "bad-date", "Write 2028-03."),
        ("6.3.2028", "bad-date", "It can be read two ways: write 2028-03-06 or 2028-06-03."),
        ("March 2028", "bad-date", "Write 2028-03."),
        ("spring 2028", "bad-date", "Write 2028-21."),
        ("2028/03/06", "bad-date", "Write 2028-03-06."),
        ("2028-w10", "bad-date", "Write 2028-W10."),
        ("soon", "bad-date", "Write 2027-03-06, or 2027-03, 2027 or 2027~ if you know no more."),
        ("", "no-date", ""),
    ],
)
def test_what_is_no_date_says_what_would_be(written, code, hint) -> None:
    reading = READER.of(READER.acts["planned"], f"repot, to {written}".rstrip())
    assert [(flaw.code, flaw.hint) for flaw in reading.flaws] == [(code, hint)]
