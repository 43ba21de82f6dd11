"""Cards: kind and handle, labels and values, and how a handle is written and found."""

from __future__ import annotations

import pytest

from backbud_grammar.handles import flaw_of, fold

EVERY_LINE = [
    ("tree", "kind satsuki azalea 'Kaho'", "kind: satsuki azalea 'Kaho'"),
    ("tree", "name The first, and oldest -- so far", "name: The first, and oldest -- so far"),
    ("tree", "since 2011-03", "since: 2011-03"),
    ("tree", "since 2014~", "since: 2014~"),
    ("tree", "since 2011", "since: 2011"),
    ("tree", "owner marrow", "owner: marrow"),
    ("tree", "place tunnel", "place: tunnel"),
    ("tree", "pot tray-7", "pot: tray-7"),
    ("tree", "mix maple", "mix: maple"),
    ("tree", "trunk 9 cm", "trunk: 9 cm"),
    ("tree", "trunk 9,5 cm", "trunk: 9.5 cm"),
    ("tree", "height 2 foot", "height: 2 foot"),
    ("tree", "root ball 34 x 24 x 6 cm", "root ball: 34 x 24 x 6 cm"),
    ("tree", "root   ball 34x24x6 cm", "root ball: 34 x 24 x 6 cm"),
    ("tree", "Root Ball 34 x 6 cm", "root ball: 34 x 6 cm"),
    ("tree", "wedges 8", "wedges: 8"),
    ("tree", "strength weak", "strength: weak"),
    ("tree", "value 300 EUR", "value: 300 EUR"),
    ("tree", "value 300", "value: 300"),
    ("tree", "wanted 2028-04", "wanted: 2028-04"),
    ("tree", "formerly old-one, older", "formerly: old-one, older"),
    ("place", "cover open", "cover: open"),
    ("place", "cover shade net 40 %", "cover: 40 % shade net"),
    ("place", "cover 40 % shade net", "cover: 40 % shade net"),
    ("place", "cover heated glass 5 C", "cover: 5 C heated glass"),
    ("place", "within yard", "within: yard"),
    ("place", "latitude 52.1 N", "latitude: 52.1 N"),
    ("place", "latitude -33.5", "latitude: -33.5"),
    ("place", "longitude 3 degrees W", "longitude: 3 degrees W"),
    ("place", "elevation -2 m", "elevation: -2 m"),
    ("place", "low 1 1 2 4 6 9 11 11 9 7 4 2 C", "low: 1 1 2 4 6 9 11 11 9 7 4 2 C"),
    ("place", "low -6 -4 -1 2,5 6 9 11 11 9 7 4 -2 C", "low: -6 -4 -1 2.5 6 9 11 11 9 7 4 -2 C"),
    (
        "place",
        "rain 60 50 50 40 50 60 70 70 60 70 70 60 mm",
        "rain: 60 50 50 40 50 60 70 70 60 70 70 60 mm",
    ),
    ("place", "weather data/station one.csv", "weather: data/station one.csv"),
    ("pot", "shape rectangle", "shape: rectangle"),
    ("pot", "inside 38 x 27 x 7 cm", "inside: 38 x 27 x 7 cm"),
    ("pot", "inside 30 x 8 cm", "inside: 30 x 8 cm"),
    ("pot", "taper 10 %", "taper: 10 %"),
    ("pot", "taper 1 cm", "taper: 1 cm"),
    ("pot", "holes 2", "holes: 2"),
    ("person", "rate 45 EUR/h", "rate: 45 EUR/h"),
    ("person", "rate 45", "rate: 45"),
    ("person", "contact 555-0100, evenings", "contact: 555-0100, evenings"),
    ("mix", "akadama 2", "ingredient: 2 akadama"),
    ("mix", "akadama 2-6 mm   2", "ingredient: 2 akadama 2-6 mm"),
    ("mix", "composted pine bark 1/2", "ingredient: 1/2 composted pine bark"),
    ("mix", "pumice 1 part", "ingredient: 1 pumice"),
    ("mix", "settles 10 %", "settles: 10 %"),
    ("mix", "pH 5.5", "pH: 5.5"),
    ("material", "sold in bag of 14 L", "sold in: 14 L bag of"),
    ("material", "sold in roll of 1 kg", "sold in: 1 kg roll of"),
    ("material", "sold in sheet of 50", "sold in: 50 sheet of"),
    ("material", "sold in pack of 100 pieces", "sold in: 100 pack of pieces"),
    ("material", "price 18.50 EUR", "price: 18.50 EUR"),
    ("material", "label 20-10-20", "label: 20-10-20"),
    ("material", "metal Al", "metal: Al"),
    ("material", "density 0.6 kg/L", "density: 0.6 kg/L"),
    ("group", "trees hoshi, yuki", "trees: hoshi, yuki"),
]


@pytest.mark.parametrize(("kind", "line", "expected"), EVERY_LINE)
def test_a_line_of_a_card(card_line, kind, line, expected) -> None:
    assert card_line(kind, line) == expected


@pytest.mark.parametrize(
    ("kind", "line", "code"),
    [
        ("tree", "colour red", "unknown-label"),
        ("tree", "trunk", "no-value"),
        ("tree", "trunk 9", "no-unit"),
        ("tree", "trunk 9 kg", "wrong-measure"),
        ("tree", "trunk -9 cm", "negative-measure"),
        ("tree", "root ball 34 x 24", "no-unit"),
        ("tree", "root ball 34 x 24 kg", "wrong-measure"),
        ("tree", "wedges 1", "out-of-range"),
        ("tree", "strength mighty", "unknown-word"),
        ("tree", "since spring", "bad-date"),
        ("tree", "value 1,200 EUR", "thousands-separator"),
        ("tree", "value 300 EURO", "unknown-unit"),
        ("pot", "holes 2.5", "not-whole"),
        ("place", "latitude 91 N", "out-of-range"),
        ("place", "low 1 2 3 C", "wrong-list"),
        ("place", "low 1 1 2 4 6 9 11 11 9 7 4 2", "no-unit"),
        ("place", "low 1 1 2 4 6 9 11 11 9 7 4 2 mm", "wrong-measure"),
        ("place", "rain 60 50 50 40 50 60 70 70 60 70 70 -6 mm", "negative-measure"),
        ("mix", "akadama", "unknown-label"),
        ("mix", "2", "no-words"),
        ("mix", "akadama 2 mm", "wrong-measure"),
        ("material", "label 60-50-20", "out-of-range"),
        ("material", "label 20-10", "falling-range"),
        ("person", "rate 45 EUR/parsec", "unknown-unit"),
    ],
)
def test_what_a_card_does_not_take(card_line, kind, line, code) -> None:
    assert card_line(kind, line) == code


def test_a_card_goes_on_over_deeper_lines(read) -> None:
    journal = read(
        cards="tree hoshi\n  kind trident maple\ntree yuki\n  kind trident maple\n"
        "group pair\n  trees  hoshi,\n         yuki\n"
    )
    assert journal.problems == []
    assert journal.journal.things.by_handle["pair"].text("trees") == "hoshi, yuki"


def test_a_telephones_capital_letter_is_a_kind_all_the_same(read) -> None:
    journal = read(cards="Tree hoshi\n  kind trident maple\n")
    assert journal.problems == []
    assert journal.journal.things.by_handle["hoshi"].kind == "tree"


def test_a_card_ends_the_page_above_it(read) -> None:
    journal = read(
        "2027-03-06\nhoshi\n  watered\n\ntree mori\n  kind trident maple\n\nyuki\n  watered\n"
    )
    assert journal.acts == ["2027-03-06 hoshi | watered"]
    assert journal.problems == ["no-date"]


# ------------------------------------------------------------------ handles


@pytest.mark.parametrize(
    "handle", ["hoshi", "tray-7", "b2", "kōyō", "星", "かえで", "сосна", "שלום", "a", "x-", "ß"]
)
def test_a_good_handle(handle) -> None:
    assert flaw_of(handle) == ""


@pytest.mark.parametrize(
    "handle",
    [
        "Hoshi",
        "2b",
        "-b",
        "b_c",
        "b.c",
        "b/c",
        "🌲",
        "b🌲",
        "tree",
        "place",
        "pot",
        "person",
        "mix",
        "material",
        "group",
        "all",
        "except",
        "each",
        "trée",
        "b\u202ec",
        "b\u200dc",
        "\u0301b",
        "",
    ],
)
def test_a_bad_handle(handle) -> None:
    assert flaw_of(handle) != ""


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("Hoshi", "hoshi", True),
        ("kōyō", "KOYO", True),
        ("ko\u0304yo\u0304", "kōyō", True),
        ("Ἀθήνα", "αθηνα", True),
        ("straße", "STRASSE", True),
        ("か", "が", False),
        ("й", "и", False),
        ("ё", "е", False),
        ("ハ", "バ", False),
        ("שלום", "שלוֹם", False),
    ],
)
def test_case_never_counts_and_marks_count_outside_latin_and_greek(one, other, same) -> None:
    assert (fold(one) == fold(other)) is same


def test_an_old_handle_still_finds_the_card_and_makes_its_ids(read) -> None:
    journal = read(
        "2027-03-06\nBlight\n  watered\n  moved  to the tunnel\n",
        cards="tree hoshi\n  kind trident maple\n  formerly blight, second\nplace tunnel\n",
    )
    assert journal.problems == []
    hoshi = journal.journal.things.by_handle["hoshi"]
    assert hoshi.first_handle == "blight"
    assert journal.journal.things.find("SECOND") is hoshi


def test_a_capital_on_a_card_is_a_problem_but_the_card_is_found(read) -> None:
    journal = read("2027-03-06\nMori\n  watered\n", cards="tree Mori\n  kind trident maple\n")
    assert journal.problems == ["bad-handle"]
    assert journal.journal.things.find("mori").handle == "mori"
