"""What stands in a journal twice counts once, and is one problem."""

from __future__ import annotations

import pytest

PAGES = "".join(f"2027-03-0{day}\nhoshi\n  watered\n  noted {day}\n\n" for day in range(1, 7))
LAST = "2027-03-07\nyuki\n  watered\n"


@pytest.mark.parametrize(
    "copy", [PAGES, PAGES.rstrip(), PAGES.replace("\n", "\r\n"), "# a copy\n" + PAGES, LAST]
)
def test_a_file_that_repeats_another_counts_for_nothing(tell, copy) -> None:
    once = tell(PAGES + LAST).acts
    told = tell(PAGES + LAST, files={"diary (conflicted copy).txt": copy})
    problem = told.only()
    assert (problem.code, problem.file, problem.line) == (
        "repeated-file",
        "diary (conflicted copy).txt",
        1,
    )
    assert problem.message == "everything in this file stands in diary.txt too"
    assert problem.hint == (
        "diary.txt counts, and nothing of this one was read. Take one of the two away."
    )
    assert told.acts == once


def test_of_two_equal_files_the_one_with_the_shorter_name_counts(tell) -> None:
    told = tell(PAGES, files={"a diary.txt": PAGES, "b diary.txt": PAGES})
    assert [(p.code, p.file, p.message[-17:]) for p in told.problems] == [
        ("repeated-file", "a diary.txt", " in diary.txt too"),
        ("repeated-file", "b diary.txt", " in diary.txt too"),
    ]
    assert {page.file for page in told.journal.pages} == {"diary.txt"}


def test_the_file_that_holds_more_counts(tell) -> None:
    told = tell(PAGES, files={"diary of another.txt": PAGES + LAST})
    assert (told.only().code, told.only().file) == ("repeated-file", "diary.txt")
    assert told.acts[-1] == "yuki watered"
    assert len(told.acts) == 13


def test_a_copy_of_cards_is_one_problem(tell) -> None:
    from tests.problems.conftest import CARDS

    told = tell(PAGES, files={"cards copy.txt": CARDS})
    assert (told.only().code, told.only().file) == ("repeated-file", "cards copy.txt")


def test_two_helpers_may_write_the_same_page(tell) -> None:
    other = "2027-03-01\nkaze\n  watered\n\n"
    told = tell(LAST + PAGES, files={"ben.txt": LAST + "\n" + other})
    assert told.codes == []
    assert told.acts.count("yuki watered") == 2


def test_a_file_that_was_copied_and_written_on_is_told_and_read(tell) -> None:
    told = tell(PAGES + LAST, files={"diary-too.txt": PAGES + "2027-03-08\nkaze\n  turned\n"})
    problem = told.only()
    assert (problem.code, problem.file, problem.severity) == (
        "repeated-pages",
        "diary-too.txt",
        "warning",
    )
    assert problem.message == (
        "6 of the 7 pages of this file stand in diary.txt too, word for word, and count twice"
    )
    assert "kaze turned" in told.acts


@pytest.mark.parametrize(
    "copy",
    [
        PAGES.replace("\n", " \t\n"),
        PAGES.replace("  noted ", "    noted   ").replace("  watered", "    watered"),
        PAGES.replace("  noted", "\n  # to myself\n  noted"),
    ],
)
def test_blanks_and_remarks_to_oneself_make_no_difference(tell, copy) -> None:
    once = tell(PAGES).acts
    told = tell(PAGES, files={"diary copy.txt": copy})
    assert (told.only().code, told.only().file) == ("repeated-file", "diary copy.txt")
    assert told.acts == once


def test_a_copy_that_was_tidied_is_a_copy(tell, tmp_path) -> None:
    from backbud import cli

    diary = "2027-03-06\nhoshi\n  watered\n  wired 3 mm Al on left 1\n  fed\n"
    once = tell(diary).acts
    tell(diary, files={"diary copy.txt": diary.replace("\n  ", "\n      ")})
    assert cli.main(["tidy", str(tmp_path / "diary copy.txt")]) == 0
    copy = (tmp_path / "diary copy.txt").read_text("utf-8")
    told = tell(diary, files={"diary copy.txt": copy})
    assert (told.only().code, told.acts) == ("repeated-file", once)


LONG = "2027-03-08\nhoshi\n  watered\n  fed\nyuki\n  turned\n"
LATER = LONG.replace("-08", "-09")


@pytest.mark.parametrize(
    "name",
    [
        "diary copy.txt",
        "Copy of diary.txt",
        "Kopie von diary.txt",
        "diary - Kopie.txt",
        "diary (1).txt",
        "diary (conflicted copy 2027-03-09).txt",
        "diary.sync-conflict-20270309-101112-ABCDEFG.txt",
        "diary_conflict.txt",
    ],
)
def test_a_synchronisers_copy_that_differs_is_one_problem_and_doubles_nothing(tell, name) -> None:
    wires = "2027-03-07\nkaze\n  wired 2 mm Al on left 1\n"
    card = "tree suzu\n  kind  trident maple\n"
    copy = card + wires + "2027-03-08\nkaze\n  turned\n"
    told = tell(card + wires + "2027-03-09\nkaze\n  fed\n", files={name: copy})
    problem = told.only()
    assert (problem.code, problem.file, problem.line) == ("repeated-file", name, 1)
    assert problem.message == ("by its name this file is a copy of diary.txt, and they differ")
    assert problem.hint == (
        "diary.txt counts, and nothing of this one was read. What only this one has begins on "
        "line 6: bring it over, and take this file away."
    )
    # One wire, and not two.
    assert told.acts == ["kaze wired 2 mm Al on left 1", "kaze fed"]


def test_a_copy_of_a_diary_of_one_page_that_was_written_on_doubles_nothing(tell) -> None:
    page = "2027-03-07\nkaze\n  wired 2 mm Al on left 1\n"
    told = tell(page, files={"diary copy.txt": f"{page}yuki\n  fed\n"})
    problem = told.only()
    assert (problem.code, problem.file, problem.line) == ("repeated-file", "diary copy.txt", 1)
    assert problem.hint == (
        "diary.txt counts, and nothing of this one was read. What only this one has begins on "
        "line 1: bring it over, and take this file away."
    )
    assert told.acts == ["kaze wired 2 mm Al on left 1"]


def test_two_parts_of_a_day_are_no_copy(tell) -> None:
    told = tell(
        "2027-03-07\nkaze\n  watered\n", files={"diary (1).txt": "2027-03-07\nyuki\n  watered\n"}
    )
    assert told.codes == []
    assert sorted(told.acts) == ["kaze watered", "yuki watered"]


def test_a_name_alone_makes_no_copy(tell) -> None:
    told = tell(
        "2027-03-07\nkaze\n  watered\n", files={"diary (1).txt": "2027-03-08\nkaze\n  fed\n"}
    )
    assert told.codes == []
    assert told.acts == ["kaze watered", "kaze fed"]


def test_in_a_copy_that_was_edited_what_was_not_counts_once(tell) -> None:
    short = "2027-03-10\nyuki\n  watered\n"
    edited = "2027-03-07\nkaze\n  turned\n"
    copy = edited + (LONG + LATER).replace("\n", "  \n") + short
    diary = edited.replace("turned", "fed") + LONG + LATER + short
    told = tell(diary, files={"diary-too.txt": copy})
    problem = told.only()
    assert (problem.code, problem.file, problem.line, problem.severity) == (
        "repeated-page",
        "diary-too.txt",
        4,
        "error",
    )
    assert problem.message == ("this page and 1 more page stand in diary.txt too, word for word")
    assert problem.hint == (
        "They count once, as written there. Take the second writing away. 1 shorter page written "
        "twice counts twice."
    )
    acts = ["hoshi watered", "hoshi fed", "yuki turned"]
    assert told.acts == ["kaze turned", "kaze fed", *acts, *acts, "yuki watered", "yuki watered"]


def test_a_page_that_was_pasted_twice_into_one_file_counts_once(tell) -> None:
    told = tell(LONG + LATER + LONG)
    problem = told.only()
    assert (problem.code, problem.line, problem.lines) == ("repeated-page", 13, 7)
    assert problem.message == "this page stands in line 1 too, word for word"
    assert problem.hint == "It counts once, as written there. Take the second writing away."
    assert told.acts == ["hoshi watered", "hoshi fed", "yuki turned"] * 2


def test_pages_that_stand_apart_are_told_each_with_all_its_lines(tell) -> None:
    own = "2027-03-10\nkaze\n  fed\n"
    told = tell(
        LONG + LATER + own, files={"diary-too.txt": LONG + own.replace("-10", "-11") + LATER}
    )
    assert [(p.code, p.file, p.line, p.lines) for p in told.problems] == [
        ("repeated-page", "diary-too.txt", 1, 6),
        ("repeated-page", "diary-too.txt", 10, 7),
    ]


def test_each_pair_of_files_is_told_once(tell) -> None:
    other = "2027-03-07\nkaze\n  turned\n"
    told = tell(LONG + LATER, files={"ben diary.txt": other + LONG, "eva diary.txt": LATER + other})
    assert [(p.code, p.file, p.line) for p in told.problems] == [
        ("repeated-page", "ben diary.txt", 4),
        ("repeated-page", "eva diary.txt", 1),
    ]
    assert told.acts.count("hoshi fed") == 2


def test_another_date_or_word_makes_another_page(tell) -> None:
    other = LONG.replace("turned", "fed")
    assert tell(LONG + LATER, files={"ben.txt": other}).codes == []


def test_short_pages_that_were_pasted_twice_into_one_file_are_told_and_read(tell) -> None:
    told = tell(PAGES + PAGES)
    problem = told.only()
    assert (problem.code, problem.line, problem.severity) == ("repeated-pages", 31, "warning")
    assert problem.message == (
        "6 of the 12 pages of this file stand further up too, word for word, and count twice"
    )
    assert problem.hint == "Take the second writing away, if they were not meant twice."
    assert len(told.acts) == 24


@pytest.mark.parametrize(
    ("acts", "counts_once"),
    [
        # Hours and bags would count double.
        ("worked 2 h", True),
        ("used 3 bags akadama\n  watered", True),
        ("wired 3 mm Al on left 1", True),
        # Nobody is told that they watered twice.
        ("watered", False),
        ("noted a warm day\n  watered", False),
    ],
)
def test_a_short_page_that_was_pasted_twice_counts_once_where_it_adds_up(
    tell, acts, counts_once
) -> None:
    page = f"2027-03-01\nhoshi\n  {acts}\n"
    told = tell(f"{page}2027-03-02\nhoshi\n  turned\n{page}")
    found = [one for one in told.problems if one.code.startswith("repeated")]
    first = f"hoshi {acts.partition(chr(10))[0]}"
    assert told.acts.count(first) == (1 if counts_once else 2)
    if not counts_once:
        assert found == []
        return
    problem = found[0]
    assert (problem.code, problem.severity, problem.line) == (
        "repeated-page",
        "error",
        page.count("\n") + 4,
    )
    assert problem.message == "this page stands in line 1 too, word for word"
    assert problem.hint == "It counts once, as written there. Take the second writing away."


# ------------------------------------------------------------------ merges


def test_of_two_versions_neither_is_read(tell, mark) -> None:
    told = tell(
        "2027-03-01\nhoshi\n  watered\n<<<<<<< mine\n  moved yard\n=======\n  moved tunnel\n"
        "  turned\n>>>>>>> theirs\n  fed\nyuki\n  watered\n"
    )
    problem = told.only()
    assert (problem.code, problem.line, problem.lines) == ("merge-marks", 4, 6)
    assert mark(problem) == "<<<<<<< mine"
    assert problem.message == "two versions stand here, as a merge left them"
    assert (
        problem.hint == "Neither was read. Keep what is right of the two, and take the marks out."
    )
    assert told.acts == ["hoshi watered", "hoshi fed", "yuki watered"]


@pytest.mark.parametrize("theirs", ["2027-03-02\nhoshi", "yuki", "tree new"])
def test_what_stands_below_versions_that_end_otherwise_is_filed_nowhere(tell, theirs) -> None:
    told = tell(
        "2027-03-01\nhoshi\n  watered\n<<<<<<<\n  turned\n|||||||\n=======\n"
        f"{theirs}\n>>>>>>>\n  moved tunnel\nyuki\n  fed\n\n2027-03-03\nyuki\n  turned\n"
    )
    problem = told.only()
    assert (problem.code, problem.line) == ("merge-marks", 4)
    assert problem.hint.endswith(" Until then what stands below it is filed nowhere.")
    assert told.acts == ["hoshi watered", "yuki turned"]


def test_two_versions_of_a_card(tell) -> None:
    cards = (
        "place yard\n\ntree hoshi\n  kind trident maple\n<<<<<<< mine\n  since 2011\n=======\n"
        "  since 2012\n>>>>>>> theirs\n  note two scars\n\n<<<<<<< mine\ntree one\n=======\n"
        "tree other\n>>>>>>> theirs\n  kind trident maple\n\ntree yuki\n  kind trident maple\n"
    )
    told = tell("2027-03-01\nhoshi, yuki\n  watered\n", cards=cards)
    assert [(p.code, p.file, p.line, p.lines) for p in told.problems] == [
        ("merge-marks", "cards.txt", 5, 5),
        ("merge-marks", "cards.txt", 12, 7),
    ]
    assert [line.detail.name for line in told.journal.things.find("hoshi").lines] == [
        "kind",
        "note",
    ]
    assert [t.handle for t in told.journal.things.of_kind("tree")] == ["hoshi", "yuki"]


def test_marks_without_their_like_are_told(tell) -> None:
    told = tell("2027-03-01\nhoshi\n  watered\n<<<<<<< mine\n  turned\nyuki\n  fed\n")
    assert (told.only().code, told.only().line) == ("bad-heading", 4)
    assert told.acts == ["hoshi watered"]


def test_a_conflict_of_one_page_doubles_nothing(tell) -> None:
    page = "2027-03-07\nkaze\n  wired 2 mm Al on left 1\n"
    name = "diary.sync-conflict-20270309-101112-ABCDEFG.txt"
    told = tell(page, files={name: f"{page}  fed\n"})
    problem = told.only()
    assert (problem.code, problem.file) == ("repeated-file", name)
    assert told.acts == ["kaze wired 2 mm Al on left 1"]
