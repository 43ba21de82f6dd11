"""The scanned outline is that of the grammar: the rules of journal.lark parse the same row."""

from __future__ import annotations

from collections.abc import Iterable
from importlib.resources import files

import lark
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.examples import examples

from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.outline import Known, read_any_section, read_section, sections
from backbud_grammar.syntax import Act, Block, Card, CardLine, Page, Section, Stray
from backbud_grammar.tables import build_parser

GRAMMAR = files("backbud_grammar").joinpath("journal.lark").read_text(encoding="utf-8")
PARSER = build_parser(GRAMMAR, ["page", "card", "stray"])
KNOWN = Known.of(by_word(ACTS))

LINES = st.sampled_from(
    [
        "2027-03-06   low 1 C",
        "2014~",
        "tree hoshi",
        "Tree hoshi",
        "tree",
        "tree hoshi yuki",
        "place tunnel  ",
        "hoshi, yuki",
        "all in tunnel",
        "  repotted  same pot",
        "  watered",
        "    mix maple 4.5 L",
        "\tmoved tunnel",
        "\t  tunnel",
        "  # a remark",
        "# a remark",
        "",
        "   ",
        "  noted   two roots -- crossed",
        "      watered",
        "x",
        "0",
        "  kind   trident maple",
        " note  two scars",
        "\tsince 2011",
        "ō",
    ]
)


def shape_by_the_grammar(section: bytes) -> tuple[str, list[tuple[str, int, int]]]:
    """What the LALR rules make of it: the rule, and each block's subjects, line, lines below."""
    text = section.decode()
    start = "page" if text[0].isdigit() else "card" if "HEAD" in first_token(text) else "stray"
    tree = PARSER.parse(text, start=start)
    blocks = []
    for child in tree.children:
        if isinstance(child, lark.Tree):
            tokens = [t for t in child.children if isinstance(t, lark.Token)]
            if child.data == "loose":
                blocks.append(("", 0, len(tokens)))
            else:
                blocks.append((tokens[0].rstrip(), (tokens[0].line or 0) - 1, len(tokens) - 1))
    return start, blocks


def first_token(text: str) -> str:
    try:
        return str(next(iter(PARSER.parse_interactive(text, start="card").iter_parse())).type)
    except (lark.UnexpectedInput, StopIteration):
        return ""


def shape_as_scanned(section: Section) -> tuple[str, list[tuple[str, int, int]]]:
    # To the grammar, which knows no words, a line that is left out is a line.
    left_out = {
        flaw.line
        for flaw in section.flaws
        if flaw.code == "mixed-indent" and flaw.severity == "error"
    }
    ends = [*(block.line for block in section.blocks[1:]), 10_000]

    def size(lines: Iterable[Act | CardLine], begin: int, end: int) -> int:
        return sum(1 for _ in lines) + sum(1 for line in left_out if begin <= line < end)

    blocks = [
        (b.subjects, b.line if b.subjects else 0, size(b.acts, b.line, end))
        for b, end in zip(section.blocks, ends, strict=False)
    ]
    if isinstance(section, Card):
        begin = section.blocks[0].line if section.blocks else 10_000
        loose = [("", 0, size(section.lines, 0, begin))] if section.lines else []
        return "card", loose + blocks
    return "page" if isinstance(section, Page) else "stray", blocks


@settings(max_examples=examples(150))
@given(st.lists(LINES, max_size=25))
def test_scanned_and_parsed_are_the_same(lines: list[str]) -> None:
    for _, section in sections(("\n".join(lines) + "\n").encode()):
        assert shape_as_scanned(read_section(section, KNOWN)) == shape_by_the_grammar(section)


# Lines that begin as they should, deeper ones, and some that make a page to be outlined by steps.
ON_A_PAGE = st.sampled_from(
    (
        "",
        "  ",
        "# to myself",
        "hoshi",
        "hoshi, yuki   ",
        "  watered",
        "  Watered  well ",
        "  wired      3 mm Al on left 2, -- gently",
        "  noted two roots -- the left one is gone",
        "  moved tunnel — for the night",
        "    on right 1",
        "    -- it was dry",
        "      # to myself",
        "     pruned apex",
        "   watered",
        "  put off repot",
        "  looked at it",
    )
)


@settings(max_examples=examples(100))
@given(st.sampled_from(("2027-03-06", "2027-03-06   low 1 C ")), st.lists(ON_A_PAGE, max_size=12))
def test_in_one_go_and_by_steps_are_the_same(first: str, lines: list[str]) -> None:
    text = "\n".join((first, *lines)) + "\n"
    assert read_section(text.encode(), KNOWN) == read_any_section(text, KNOWN)


def test_every_line_of_a_section_is_read() -> None:
    text = b"2027-03-06  low 1 C\n\nhoshi\n  watered\n  # to myself\n  moved  tunnel\n     \nyuki\n"
    page = read_section(text, KNOWN)
    assert isinstance(page, Page)
    assert page.date == "2027-03-06"
    assert page.weather == "low 1 C"
    assert [
        (b.subjects, b.line, [(a.word, a.text, a.line) for a in b.acts]) for b in page.blocks
    ] == [
        ("hoshi", 2, [("watered", "", 3), ("moved", "tunnel", 5)]),
        ("yuki", 7, []),
    ]


@pytest.mark.parametrize("text", ["", "\n", "   \n\n", "# only a remark\n"])
def test_nothing_is_nothing(text: str) -> None:
    assert [read_section(section, KNOWN) for _, section in sections(text.encode())] == [Stray(())]


def test_a_block_keeps_its_place_when_the_section_moves() -> None:
    one = sections(b"2027-03-06\nhoshi\n  watered\n")
    two = sections(b"tree x\n\n2027-03-06\nhoshi\n  watered\n")
    assert one[0][1] == two[1][1]
    assert (one[0][0], two[1][0]) == (0, 2)
    assert isinstance(read_section(one[0][1], KNOWN).blocks[0], Block)
