"""Who says so, how sure it is, whose it was: no work is done of that without a word; and talk that
only tells of the work, the tree or the day is kept with none."""

from __future__ import annotations

from pathlib import Path

import pytest
from tests.scribbles.test_turned import silent

from backbud_grammar.scribbles.empty_talk import is_empty_talk
from backbud_grammar.scribbles.hearsay import is_hearsay
from backbud_grammar.scribbles.turning_words import is_left_open, is_of_another_tree, is_somebodys
from backbud_grammar.scribbles.turns import end_that_turns, remark_that_turns, turn_of_part

ACTS = (
    "repotted",
    "watered",
    "fed 7-3-6",
    "pruned left 2",
    "wired 3 mm Al on left 2",
    "moved tunnel",
    "protected fleece",
    "unwired left 1",
    "carved jin on left 2",
    "layered on left 2",
    "treated soap",
    "top-dressed moss",
)
ASKED = (
    "says the book",
    "as in the book",
    "I read",
    "they say",
    "the label says",
    "per Gil",
    "according to Wren",
    "in Gil's notes",
    "Gil's",
    "Gil's pine",
    "apparently",
    "in theory",
    "some other time",
    "had I time",
    "end of August",
    "first thing tomorrow",
    "to be continued",
)
# By one who keeps a diary: each tells of the work, the tree, the hands or the day.
KEPT = (
    "repotted, took ages",
    "repotted, all in one go",
    "repotted, roots looked good",
    "repotted, for the show",
    "repotted, quite hard this time",
    "repotted, with the last of the rainwater",
    "repotted, a week early",
    "repotted, Wren helped",
    "repotted, hands cold",
    "repotted, after lunch",
    "repotted, like the others",
    "repotted, as usual",
    "repotted, first time in years",
    "repotted, pot cracked",
    "repotted, see photo",
    "pruned hard, as always",
    "pruned left 2, sap bleeding",
    "pruned, this evening",
    "pruned on the lower left side",
    "pruned on the left most branch",
    "watered, soil was dry",
    "fed 7-3-6, last of the year",
    "fed 7-3-6, scratched in",
    "wired 3 mm Al on left 2, bends well",
    "moved tunnel, frost tonight",
    "protected fleece, just in case",
    "trimmed, 40 min, clippings out",
    "pruned, First thing",
    "pruned, went very well",
    "pruned, while at it",
    "pruned, as promised",
    "pruned, same as always",
    "pruned, as every year",
    "watered, given the heat",
    "protected fleece, just in time",
    "repotted, for Wren's show",
    "repotted, at the owner's request",
    "pinched, every week now",
    "decandled, strong ones first",
    "cleaned trunk, with vinegar",
    "treated soap, calm evening",
    "top-dressed moss, whole slab",
    "repotted -- Gil's away, so alone",
    "repotted -- next time a bigger pot",
    "watered -- before the show",
)


@pytest.mark.parametrize("act", ACTS)
def test_it_is_asked_beside_every_act(tmp_path: Path, act: str) -> None:
    assert silent((*(f"{act}, {clause}" for clause in ASKED),), tmp_path) == []


def test_talk_of_the_work_itself_is_kept(tmp_path: Path) -> None:
    assert silent(KEPT, tmp_path) == [*KEPT]


@pytest.mark.parametrize(
    ("clause", "is_so"),
    [
        ("says the book", True),
        ("so the sticker says", True),
        ("rumour has it", True),
        ("I was told so", True),
        ("judging by the soil", True),
        ("Gil says roots dry", False),
        ("she said thanks", False),
        ("says goodbye", False),
        ("in the bucket", False),
        ("per shoot", False),
    ],
)
def test_who_says_so(clause: str, is_so: bool) -> None:
    assert is_hearsay(clause) is is_so


@pytest.mark.parametrize(
    ("clause", "is_so"),
    [
        ("apparently so", True),
        ("still to be done", True),
        ("in a while", True),
        ("time permitting", True),
        ("wire marks seen", False),
        ("first flush", False),
        ("good roots", False),
    ],
)
def test_how_open_it_is(clause: str, is_so: bool) -> None:
    assert is_left_open(clause) is is_so


@pytest.mark.parametrize(
    ("clause", "is_so"),
    [
        ("Gil's", True),
        ("the neighbours' fig", True),
        ("the club tree", True),
        ("the tree's left", False),
        ("it's dry", False),
        ("today's rain", False),
    ],
)
def test_which_tree_it_was(clause: str, is_so: bool) -> None:
    assert (is_of_another_tree(clause) or is_somebodys(clause)) is is_so


@pytest.mark.parametrize(
    ("clause", "is_so"),
    [
        ("about to be", True),
        ("may or may not", True),
        ("end of May", True),
        ("round and round it", False),
        ("again today", False),
        ("a week early", False),
        ("roots had time", False),
    ],
)
def test_a_clause_with_no_content(clause: str, is_so: bool) -> None:
    assert is_empty_talk(clause) is is_so


def test_what_was_read_for_a_part_or_a_tool_may_end_in_it() -> None:
    assert turn_of_part("left 2 as in the book") == "as in the book"
    assert turn_of_part("Gil's") == "Gil's"
    assert turn_of_part("the left most branch") == ""
    assert end_that_turns("water in theory") == "in theory"
    assert end_that_turns("a soft brush") == ""


def test_a_remark_may_speak_of_other_days_and_trees() -> None:
    assert remark_that_turns("says the book, page 3") == "says the book"
    assert remark_that_turns("apparently") == "apparently"
    assert remark_that_turns("the other one next week") == ""
    assert remark_that_turns("Gil's away") == ""
    # A label, as of a list's column.
    assert remark_that_turns("Notes: roots dry") == ""
    assert remark_that_turns("in the notes: roots dry") == "in the notes"
