"""A detail's parts are those that lark finds in the text itself, whichever digits stand there."""

from __future__ import annotations

import re
from importlib.resources import files
from pathlib import Path

import lark
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.examples import examples

from backbud_grammar import shape
from backbud_grammar.measures import BY_WRITING
from backbud_grammar.shape import Part, Piece, part_of, parts_of_detail
from backbud_grammar.tables import build_parser

GRAMMAR = files("backbud_grammar").joinpath("journal.lark").read_text(encoding="utf-8")
PARSER = build_parser(GRAMMAR)

# `9` stands for any digit.
WRITTEN = """9 99 999 9999 99999999 999999999 9.9 9,99 9.999,99 -9 +9 .9 9- -9.9 9-9 9-99 99–9 to
    -9 to 9 9 x 9 9 x 9 x 9 99x9 x 9 x 99 9/9 9/99 9 9/9 99/999 9999/99 9:9 9:99 99:99:99 9-9-9
    99-99-99 9.9-9-9 9 h 99 9h9 min 9999-99-99 9999-99 9999~ 9999-XX 99XX 999X 9999-W99 9999W999
    9999-99-99/9999-99-99 9999/ 9999/.. /9999 ../9999-99 mm cm m cm2 m2 m3 cm² m² m³ cm9 m9 am2
    inch ft L mL US gal g/L /L /h EUR EUR/h min h d C °C dH ppm % degrees tray-9 box-99 N9 a9b c
    'Kaho' 'K9' "a 9" "a, b 99 cm" " ' x × on left 9 to 9° 9% 9mm 9 9cm ٣ ４
    shoots quick-step Löss straße wordword inches weeks hours minute days/9 L/weeks /tree / tree
    foot litres/h left_9 half-9-9 µmeter second below off percent "word" "garden"
"""
SHAPES = st.sampled_from(WRITTEN.split())
DIGITS = st.sampled_from("0123456789")


@st.composite
def details(draw: st.DrawFn) -> str:
    words = draw(st.lists(SHAPES, min_size=1, max_size=6))
    text = draw(st.sampled_from((" ", "  ", ""))).join(words)
    return "".join(draw(DIGITS) if char == "9" else char for char in text)


def as_lark_has_it(text: str) -> tuple[Part, ...] | None:
    try:
        tree = PARSER.parse(text, start="detail")
    except lark.UnexpectedInput:
        return None
    return tuple(part_of(node) for node in tree.children)


@settings(max_examples=examples(600))
@given(details())
def test_the_parts_are_those_of_the_text_itself(text: str) -> None:
    assert parts_of_detail(text) == as_lark_has_it(text)


def test_every_long_unit_is_none_of_any_words() -> None:
    (pattern,) = re.findall(r"^UNIT[^/]*/(.*)/$", GRAMMAR, re.MULTILINE)
    unit = re.compile(pattern.replace("\\/", "/"))
    written = {f"{one}{end}" for one in BY_WRITING for end in ("", "s", "es")}
    long = {one for one in written if len(one) > 3 and one.isalpha() and unit.fullmatch(one)}
    assert long >= {"inch", "inches", "foot", "litre", "liters", "minutes", "hours", "percent"}
    for one in long:
        assert shape.of_any_words(f"0 {one} on leaves") == f"0 {one} on word"


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        # Where the digits do matter: 20260306 is a date, 20261306 has no such month.
        ("20260306", ("date", (Piece("DATE", 0, 8),))),
        ("20261306", ("number", (Piece("NUMBER", 0, 8),))),
        ("4 m2", ("quantity", (Piece("NUMBER", 0, 1), Piece("UNIT", 2, 4)))),
    ],
)
def test_digits_that_mean_something(text: str, parts: tuple[str, tuple[Piece, ...]]) -> None:
    # Another text of the same length comes first, so that its shape is known.
    parts_of_detail(re.sub("[0-9]", "1", text))
    assert parts_of_detail(text) == (Part(*parts),)


def test_one_shape_is_parsed_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    parsed: list[str] = []

    class Counting:
        def parse(self, text: str, start: str) -> object:
            parsed.append(text)
            return PARSER.parse(text, start=start)

    monkeypatch.setattr(shape, "parser", Counting)
    monkeypatch.setattr(shape, "SHAPES", shapes := shape.Shapes())
    for text in ("2.5 mm Al x 2", "3.0 mm Al x 4", "12 mm Al x 4", "10 mm Al x 2"):
        parts_of_detail(text)
    assert parsed == ["0.0 mm Al x 0", "00 mm Al x 0"]
    # Nor is another long word another shape.
    for text in ("2.5 cm off below", "3.5 cm off leaders"):
        parts_of_detail(text)
    assert parsed[2:] == ["0.0 cm off word"]
    # The next run knows them, and parses only what is new.
    monkeypatch.setattr(shape, "SHAPES", later := shape.Shapes())
    later.recall = lambda: shapes.parsed
    for text in ("7.5 mm Al x 3", "1/3 off"):
        parts_of_detail(text)
    assert parsed[3:] == ["0/0 off"]


def test_another_journal_finds_what_one_has_parsed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    monkeypatch.setattr(shape, "SHAPES", first := shape.Shapes())
    texts = ("9.5 mm on quincewood x 2", "into quincewood-12", 'at "Quincewood 4"', "1/3 off")
    known = [parts_of_detail(text) for text in texts]
    first.keep()
    (file,) = tmp_path.glob("backbud/shapes-*")
    # No word of a journal stands there.
    assert b"quince" not in file.read_bytes().lower()
    monkeypatch.setattr(shape, "SHAPES", shape.Shapes())
    monkeypatch.setattr(shape, "parser", None)
    monkeypatch.setattr(shape, "_parse", lambda text: pytest.fail(f"{text} was parsed"))
    assert parts_of_detail("9.5 mm on quincewood x 2") == known[0]
    assert parts_of_detail("into quincewood-12") == known[1]
    assert parts_of_detail("2/5 off") == known[3]
    # A torn file is as good as none.
    file.write_bytes(file.read_bytes()[:9])
    monkeypatch.setattr(shape, "SHAPES", shape.Shapes())
    parsed: list[str] = []
    monkeypatch.setattr(shape, "_parse", parsed.append)
    parts_of_detail("2/5 off")
    assert parsed == ["0/0 off"]


def test_no_other_terminal_asks_which_digit_stands_there() -> None:
    """Each digit that a terminal of a detail names, but for counts such as {1,3}."""
    terminals = GRAMMAR[GRAMMAR.index("detail: _item+") :]
    patterns = re.findall(r"^[A-Z]+(?:\.\d+)?: +/(.*)/$", terminals, re.MULTILINE)
    assert len(patterns) == 15
    named = re.findall(r"\[[^]]*\d[^]]*\]|(?<![{,\d])\d(?![},\d])", " ".join(patterns))
    date = ["[12]", "0", "[1-9]", "1", "[0-2]", "0", "[1-9]", "[12]", "3", "[01]"]
    assert named == [*date, "[2²]", "[2²]", "[3³]"]


def test_the_oldest_shapes_make_way(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What other journals left never keeps out what this one needs."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    monkeypatch.setattr(shape, "_MOST_KEPT", 2)
    for text in ("1/3 off", "2 mm Al", "3 x 4 cm"):
        monkeypatch.setattr(shape, "SHAPES", shapes := shape.Shapes())
        parts_of_detail(text)
        shapes.keep()
    monkeypatch.setattr(shape, "SHAPES", shape.Shapes())
    parsed: list[str] = []
    monkeypatch.setattr(shape, "_parse", parsed.append)
    for text in ("3 x 4 cm", "2 mm Al", "1/3 off"):
        parts_of_detail(text)
    assert parsed == ["0/0 off"]
