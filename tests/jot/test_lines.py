"""How a jotted line is parted and read, and that none can be more than one line of one page."""

from __future__ import annotations

import re
from datetime import date
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.examples import examples

from backbud.jot.line import JotError, checked, part_line
from backbud.jot.reading import as_read, parted
from backbud.jot.write import place_in_diary
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.outline import Known, sections
from backbud_grammar.syntax import Subjects

DAY = date(2027, 3, 6)
JOURNAL = """\
tree hoshi
  kind   trident maple

tree yuki
  kind   satsuki azalea
  place  tunnel

tree fed
  kind   trident maple

place tunnel
  cover  tunnel

group big
  trees  hoshi, yuki

2027-03-05

hoshi
  wired       3 mm Al on left 1, 2 mm Al on apex
"""
KNOWN = Known.of(by_word(ACTS))
HANDLES = ("hoshi", "yuki", "fed", "tunnel", "big", "trident maple")


def is_known(subjects: Subjects) -> bool:
    items = (*subjects.chosen, *subjects.left_out)
    return all(item.by == "all" or item.words.casefold() in HANDLES for item in items)


@pytest.mark.parametrize(
    ("text", "subjects", "act"),
    [
        ("hoshi repotted same pot, 1/3 off", "hoshi", "repotted same pot, 1/3 off"),
        ("hoshi, yuki watered", "hoshi, yuki", "watered"),
        ("all in tunnel except yuki watered", "all in tunnel except yuki", "watered"),
        ("all trident maple fed 2 g/L", "all trident maple", "fed 2 g/L"),
        ("hoshi: watered -- dry wind", "hoshi", "watered -- dry wind"),
        # A handle that is an act's word.
        ("fed fed 2 g/L", "fed", "fed 2 g/L"),
        ("hoshi, fed watered", "hoshi, fed", "watered"),
        ("hoshi put off repot, to 2028", "hoshi", "put off repot, to 2028"),
        # No act: as it is, for `check` to tell of.
        ("hoshi the left one died", "hoshi", "the left one died"),
        ("hoshi yuki watered", "hoshi", "noted yuki watered"),
        # What is unknown is kept as it was said.
        ("hoshy watered", "hoshy", "watered"),
        ("hoshi", "hoshi", ""),
        ("hoshi, watered", "hoshi", "watered"),
        ("hoshi, buds swelling", "hoshi", "buds swelling"),
        ("tree hoshi", "whose", "noted tree hoshi"),
        ("all", "whose", "noted all"),
        ("the big one watered", "whose", "noted the big one watered"),
        ("watered hoshi", "whose", "noted watered hoshi"),
        ("private owes me for the pot", "whose", "private owes me for the pot"),
        # A date, a card, a mark of a merge, a ruler, a remark to oneself.
        ("2027-01-01 watered", "whose", "noted 2027-01-01 watered"),
        ("2 watered", "whose", "noted 2 watered"),
        ("sat 21 nov watered", "whose", "noted sat 21 nov watered"),
        ("<<<<<<< watered", "whose", "noted <<<<<<< watered"),
        ("---- watered", "whose", "noted ---- watered"),
        ("# watered", "whose", "noted # watered"),
        ("hoshi # watered", "hoshi", "noted # watered"),
        ("hoshi 2027-01-01", "hoshi", "noted 2027-01-01"),
        ("hoshi sat 21 nov", "hoshi", "noted sat 21 nov"),
    ],
)
def test_whose_and_what(text: str, subjects: str, act: str) -> None:
    line = part_line(checked(text), KNOWN, is_known)
    assert (line.subjects, line.act) == (subjects, act)


@pytest.mark.parametrize(
    "text",
    [
        "",
        " \t ",
        "hoshi\nwatered",
        "hoshi watered\r2027-03-06",
        "hoshi\x0bwatered",
        "hoshi\x85watered",
        "hoshi\u2028watered",
        "hoshi \x1b[2Jwatered",
        "hoshi \x00",
        "hoshi \u202edeif",
        "hoshi \udcff",
        "hoshi " + "x" * 2000,
    ],
)
def test_what_is_no_line_is_refused(text: str) -> None:
    with pytest.raises(JotError):
        checked(text)


@given(
    st.lists(st.sampled_from((*HANDLES, *" ,:#-?2", "watered", "died", "tree", "2027-01-01"))).map(
        " ".join
    )
    | st.text(max_size=40)
)
@settings(max_examples=examples(80))
def test_no_line_is_more_than_a_line_of_its_page_and_none_loses_a_word(text: str) -> None:
    try:
        line = part_line(checked(text), KNOWN, is_known)
    except JotError:
        return
    page = f"2027-03-06\n\n{line.subjects}\n  {line.act}\n"
    assert len(sections(page.encode())) == 1
    # A colon or a comma may part the handle from what was done.
    written = re.sub("[:,]", "", f"{line.subjects} {line.act}").split()
    for word in re.sub("[:,]", "", text).split():
        assert word in written


def test_a_line_that_begins_with_a_day_is_told_how_to_say_it() -> None:
    line = part_line("2027-01-01 hoshi watered", KNOWN, is_known)
    assert line.hint == (
        "A jotted line stands on its page's day; another is given by backbud jot --on DATE."
    )


def read(session: Any, *texts: str) -> Any:
    lines = parted(session, texts, DAY)
    return as_read(session, lines, DAY, place_in_diary(DAY)(session))


def test_who_is_meant_which_act_which_details_and_the_words_kept(written: Any) -> None:
    session = written(JOURNAL, "2027-03-06", any_problems=True)
    (one,) = read(session, "hoshi repotted same pot, 2 cm off below -- dry")
    assert (one.trees, one.act, one.remark) == (("hoshi",), "repotted", "dry")
    assert one.details == ("same pot", "2 cm off below")
    assert one.is_understood
    group, place = read(session, "big watered", "all in tunnel watered")
    assert (group.trees, place.trees) == (("hoshi", "yuki"), ("yuki",))


def test_lines_are_read_one_after_another(written: Any) -> None:
    """The wire comes off with the first, so nothing is left for the second."""
    session = written(JOURNAL, "2027-03-06", any_problems=True)
    first, second = read(session, "hoshi unwired on left 1", "hoshi unwired on left 1")
    assert (first.act, first.is_understood) == ("unwired", True)
    assert (second.act, second.is_understood) == ("", False)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("hoshy watered", "nothing is called “hoshy”"),
        ("hoshi moved nowhere", "no place is called “nowhere”"),
        ("hoshi unwired left 1, NOT yet", "held back"),
        ("hoshi unwired on right 2", "held back"),
        ("the big one watered", "nobody can tell whose this is"),
        ("hoshi yuki watered", "no act stands behind the handle"),
    ],
)
def test_what_is_not_understood_is_asked_back_and_does_nothing(
    written: Any, text: str, message: str
) -> None:
    session = written(JOURNAL, "2027-03-06", any_problems=True)
    (one,) = read(session, text)
    assert message in one.asks[0].message
    assert (one.act, one.trees, one.details) == ("", (), ())


def test_what_begins_with_no_act_is_asked_back_and_kept_as_words(written: Any) -> None:
    session = written(JOURNAL, "2027-03-06", any_problems=True)
    (one,) = read(session, "hoshi gave it a talking to")
    assert one.asks[0].message == "“gave” is no act known here"
    assert (one.act, one.trees, one.details) == (
        "noted",
        ("hoshi",),
        ("gave it a talking to",),
    )


def test_a_line_that_spoils_another_is_asked_back(written: Any) -> None:
    """What was done later to a tree that is said to have died before."""
    session = written(JOURNAL, "2027-03-06", any_problems=True)
    lines = parted(session, ["hoshi died"], date(2027, 3, 4))
    day = date(2027, 3, 4)
    (one,) = as_read(session, lines, day, place_in_diary(day)(session))
    assert [ask.elsewhere for ask in one.asks] == ["journal.txt:20"]


@pytest.mark.parametrize(
    ("text", "hint"),
    [
        ("watered hoshi", "Put the tree's handle in front: hoshi watered"),
        ("soaked 2 L, yuki", "Put the tree's handle in front: yuki soaked 2 L"),
        # Which tree of all it was nobody said.
        ("watered", "Put the tree's handle in front: HANDLE watered"),
        ("watered them", "Put the tree's handle in front: HANDLE watered them"),
    ],
)
def test_a_handle_that_stands_behind_is_put_in_front(text: str, hint: str) -> None:
    assert part_line(text, KNOWN, is_known).hint == hint
