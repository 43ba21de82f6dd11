"""A scribbled line goes in; the acts it is read as come out, in the words of the tables."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.parse import Details
from backbud_grammar.scribbles.named import handles_of
from backbud_grammar.scribbles.read import Talk
from backbud_grammar.scribbles.spelled import in_full

KINDS = {
    "tunnel": "place",
    "north-bench": "place",
    "grey-oval": "pot",
    "tray-7": "pot",
    "gwen": "person",
    "maple": "mix",
    "soap": "material",
}


@pytest.fixture(scope="module")
def read() -> Callable[[str], list[str]]:
    talk = Talk(Details(by_word(ACTS)), handles_of(KINDS), lambda word: KINDS.get(word.lower(), ""))
    return lambda line: [
        f"{told.word} {told.text}".rstrip() + (f" -- {told.remark}" if told.remark else "")
        for told in talk.read(line)
    ]


@pytest.mark.parametrize(
    ("written", "spelled"),
    [
        ('3/4" off btm', "3/4 inch off below"),
        ('1"', "1 inch"),
        ("2in", "2 inch"),
        ("1h30", "1 h 30"),
        ("2 hrs", "2 h"),
        ("5h", "5 h"),
        ("20mins", "20 min"),
        ("2 wks", "2 weeks"),
        ("14 bags @31", "14 bags at 31"),
        ("w/ water", "with water"),
        ("L1", "left 1"),
        ("R2", "right 2"),
        ("2nd left", "left 2"),
        ("low L", "low left"),
        ("LH", "left"),
        ("30% off", "30 % off"),
        ("120 eur", "120 EUR"),
        ("£40", "40 GBP"),
        ("2 g/l", "2 g/L"),
        ("30deg", "30 degrees"),
        # Which dollar, which gallon, and `in` behind a blank: nobody can tell.
        ("$40", "$40"),
        ("2 gal", "2 gal"),
        ("4 in tunnel", "4 in tunnel"),
    ],
)
def test_what_is_written_short(written: str, spelled: str) -> None:
    assert in_full(written) == spelled


@pytest.mark.parametrize(
    ("line", "acts"),
    [
        ("rptd same pot, 1/3 off btm", ["repotted same pot, 1/3 off below"]),
        ('rptd grey oval, 3/4" off btm', ["repotted into grey-oval, 3/4 inch off below"]),
        ("repotted same pot; tied x4, 2h", ["repotted same pot, tied 4", "worked 2 h"]),
        ("uekae, same pot, maple 4 L", ["repotted same pot, mix maple 4 L"]),
        ("wire off R2", ["unwired on right 2"]),
        ("wired, 2 mm al, L1 + apex", ["wired 2 mm Al on left 1, 2 mm Al on apex"]),
        ("wired L1", ["wired on left 1"]),
        ("mekiri", ["decandle"]),
        ("momiage, Gwen 2h", ["plucked old needles", "worked 2 h, by Gwen"]),
        ("old needles out", ["plucked old needles"]),
        ("spent flowers off", ["deadheaded"]),
        ("fleece on", ["protected fleece"]),
        ("fleece off", ["unprotected"]),
        ("into tunnel", ["moved tunnel"]),
        ("back to north bench", ["moved north-bench"]),
        ("soap, again in 8 days", ["treated soap", "planned treat, in 8 days"]),
        ("soap #2", ["treated soap, second time"]),
        ("5h", ["worked 5 h"]),
        ("0-10-10 half str.", ["fed 0-10-10 half strength"]),
        ("no mekiri this yr, resting", ["skipped decandle -- resting"]),
        ("NOT repotted, buds too far on", ["skipped repot -- buds too far on"]),
        ("repot put off, buds moving", ["put-off repot -- buds moving"]),
        ("buds swelling", ["noted buds swelling", "staged 01"]),
        ("leaf fall", ["noted leaf fall", "staged 93"]),
        ("petals down", ["noted petals down", "staged 69"]),
        # What only part of the tree has reached sets no stage.
        ("buds swelling but only in top", ["noted buds swelling but only in top"]),
        ("toothbrush & soap", ["treated by hand, soap"]),
        ("EC 0.6, pH 6.4", ["measured EC 0.6 mS/cm, pH 6.4"]),
        # No act: nothing is made of it.
        ("the cat sat in it again", []),
        ("in", []),
    ],
)
def test_a_line_in_the_words_of_the_tables(
    read: Callable[[str], list[str]], line: str, acts: list[str]
) -> None:
    assert read(line) == acts
