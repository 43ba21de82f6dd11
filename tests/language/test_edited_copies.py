"""A file beside its edited copy: what stands in both counts once, and one problem names the two."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest
from tests.fates import fates_of
from tests.language.conftest import CARDS as THREE_TREES

DIARY = """\
2027-03-06   low 1 C
hoshi
  wired 3 mm Al on left 1
  watered
kaze
  repotted 2 cm off below
  worked 2 h

2027-03-10
yuki
  trimmed
  worked 1 h

2027-03-12
hoshi
  pruned

2027-03-20
all in yard
  watered
"""


def _count(read, word: str) -> int:
    return sum(event.act == word for event in read.events)


def _told(read, name: str) -> list[tuple[str, int, str, str]]:
    return [(p.code, p.line, p.message, p.hint) for p in read.journal.problems() if p.file == name]


def _lost(read) -> list[str]:
    return [fate for of in fates_of(read.journal).values() for fate in of if fate == "lost"]


@pytest.mark.parametrize(
    ("name", "other"),
    [
        ("old-diary.txt", "diary.txt"),
        ("backup/diary.txt", "diary.txt"),
        # The shorter name counts, wherever it lies.
        ("a.txt", "a.txt"),
    ],
)
def test_lines_more_in_the_one_count_and_the_rest_counts_once(read, name, other) -> None:
    copy = DIARY.replace("  pruned\n", "  pruned\n  bent left 1\n") + "\n2027-04-02\nkaze\n  fed\n"
    found = read(DIARY, files={name: copy})
    assert [_count(found, act) for act in ("wired", "repotted", "worked", "bent", "fed")] == [
        1, 1, 2, 1, 1,
    ]  # fmt: skip
    assert found.problems == ["edited-copy"]
    assert _lost(found) == []
    (told,) = _told(found, name if other == "diary.txt" else "diary.txt")
    if other == "diary.txt":
        assert told[1:] == (
            1,
            "this file and diary.txt are copies of one another: of 5 pages 3 are the same, 1 "
            "differs, 1 is of a day that is only here",
            "What stands in both counts once, what stands in one alone counts as well. Only here: "
            "lines 17, 25. Bring what is right into one of the two, and take the other away.",
        )
    else:
        assert told[2:] == (
            "this file and a.txt are copies of one another: of 4 pages 4 are the same",
            "What stands in both counts once, what stands in one alone counts as well. Only "
            "there: lines 17, 25. Bring what is right into one of the two, and take the other "
            "away.",
        )


def test_of_a_changed_line_neither_version_counts(read) -> None:
    copy = DIARY.replace("worked 2 h", "worked 3 h").replace("3 mm", "2.5 mm")
    found = read(DIARY, files={"old-diary.txt": copy})
    assert [_count(found, act) for act in ("wired", "repotted", "worked")] == [0, 1, 1]
    assert _told(found, "diary.txt") == [
        (
            "two-versions",
            2,
            "old-diary.txt repeats this file, and tells lines 3, 7 otherwise",
            "Which is right is not known, so neither counts. Put it right in one of the two, and "
            "take the other away.",
        )
    ]
    assert _told(found, "old-diary.txt") == [
        (
            "edited-copy",
            1,
            "this file and diary.txt are copies of one another: of 4 pages 3 are the same, 1 "
            "differs",
            "What stands in both counts once, what stands in one alone counts as well. What may "
            "be two versions of one line counts in neither: lines 3, 7 here, lines 3, 7 there. "
            "Bring what is right into one of the two, and take the other away.",
        )
    ]
    assert _lost(found) == []


@pytest.mark.parametrize(
    "edit",
    [
        # Another day, another tree, a remark, two trees together, an hour, another way to write it.
        ("2027-03-12", "2027-03-13"),
        ("kaze\n", "yuki\n"),
        ("on left 1\n", "on left 1 -- too thick?\n"),
        ("yuki\n  trimmed", "yuki, kaze\n  trimmed"),
        ("2027-03-10\n", "2027-03-10 09:30\n"),
        ("wired 3 mm Al", "wired 3.0 mm Al"),
    ],
)
def test_a_line_that_was_put_right_in_any_way_never_counts_twice(read, edit) -> None:
    once = read(DIARY)
    found = read(DIARY, files={"old-diary.txt": DIARY.replace(*edit)})
    assert sorted(found.problems) == ["edited-copy", "two-versions"]
    for act in ("wired", "repotted", "trimmed", "worked", "pruned"):
        assert _count(found, act) <= _count(once, act)
    assert _lost(found) == []


@pytest.mark.parametrize(
    "edits",
    [
        # Said in other words; moved to another day and changed there besides.
        [("repotted 2 cm off below", "rptd, 2 cm off btm")],
        [("2027-03-06   low 1 C", "2027-03-07   low 1 C"), ("worked 2 h", "worked 3 h")],
    ],
)
def test_other_words_and_a_changed_line_of_a_moved_page_count_no_second_time(read, edits) -> None:
    copy = DIARY + "\n2027-03-24\nkaze\n  noted the back branch is thinner than last year\n"
    diary = copy
    for edit in edits:
        copy = copy.replace(*edit)
    once, found = read(diary), read(diary, files={"old-diary.txt": copy})
    assert sorted(found.problems) == ["edited-copy", "two-versions"]
    for act in ("wired", "repotted", "trimmed", "worked", "pruned"):
        assert _count(found, act) <= _count(once, act)


def test_sentences_that_are_the_same_tell_a_copy(read) -> None:
    notes = "".join(
        f"2027-02-{day}\nkaze\n  noted the {word} branch is thinner than last year\n"
        f"  worked {day} min\n"
        for day, word in ((10, "back"), (11, "left"), (12, "low"), (13, "second"))
    )
    found = read(notes, files={"old-diary.txt": notes.replace("worked 12 min", "worked 20 min")})
    assert _count(found, "worked") == 3
    assert sorted(found.problems) == ["edited-copy", "two-versions"]


def test_a_note_in_the_same_words_tells_that_its_page_is_the_same(read) -> None:
    """A first diary of one page, copied as it stood, and its one wire put right since."""
    page = (
        "2027-03-06\nhoshi\n  checked strength\n  wired 2 mm Al on left 1\n"
        "  noted buds are set well; the left side is thinner than the right\n"
    )
    found = read(page.replace("2 mm", "3 mm"), files={"old-diary.txt": page})
    assert [_count(found, act) for act in ("checked", "wired", "noted")] == [1, 0, 1]
    assert sorted(found.problems) == ["repeated-lines", "two-versions"]
    assert _lost(found) == []


def test_what_was_taken_out_in_the_one_counts_as_written_in_the_other(read) -> None:
    copy = DIARY.replace("  pruned\n", "  trimmed\n").replace("  worked 1 h\n", "")
    found = read(DIARY, files={"old-diary.txt": copy})
    assert [_count(found, act) for act in ("pruned", "trimmed", "worked")] == [1, 2, 2]
    assert found.problems == ["edited-copy"]


def test_a_copy_that_was_tidied_and_edited_is_one(read) -> None:
    copy = DIARY.replace("  pruned\n", "  pruned\n  fed\n")
    copy = copy.replace("\n  ", "\n      ").replace("\n", " \r\n")
    found = read(DIARY.replace("  watered", "  flushed"), files={"old-diary.txt": copy})
    assert found.problems == ["edited-copy"]
    assert [_count(found, act) for act in ("wired", "worked", "fed")] == [1, 2, 1]


def test_three_copies_are_two_problems_and_count_once(read) -> None:
    later = DIARY + "\n2027-04-02\nkaze\n  pruned\n\n2027-04-03\nkaze\n  worked 3 h\n"
    found = read(
        DIARY.replace("  pruned", "  rubbed"),
        files={
            "diary-b.txt": later.replace("wired 3", "wired 2"),
            "diary-cc.txt": later + "2027-04-04\nyuki\n  worked 4 h\n",
        },
    )
    assert [_count(found, act) for act in ("repotted", "rubbed", "worked")] == [1, 1, 4]
    assert found.problems.count("edited-copy") == 2


def test_two_keepers_with_the_same_routine_write_no_copies(read) -> None:
    days = range(1, 29)
    routine = [f"2027-02-{day:02}\nall in yard\n  watered\n  worked 30 min\n" for day in days]
    anna, ben = routine.copy(), routine.copy()
    for n, day in enumerate((3, 9, 15, 21)):
        anna[day] += f"hoshi\n  wired {n + 1} mm Al on left {n}\n"
        ben[day] += f"yuki\n  bent left {n}\n"
    # One work they told both, in their own words; and one day they worked the same hours.
    anna[5] += "hoshi\n  worked 2 h\nkaze\n  repotted 2 cm off below\n"
    ben[5] += "hoshi\n  worked 2 h\nkaze\n  repotted 3 cm off below\n"
    found = read("\n".join(anna), files={"ben.txt": "\n".join(ben)})
    assert found.problems == []
    assert [_count(found, act) for act in ("watered", "worked", "wired", "bent")] == [56, 58, 4, 4]


def test_hours_that_are_nearly_all_the_same_count_once_and_are_asked(read) -> None:
    hours = "".join(f"2027-02-{day:02}\nkaze\n  worked {day} h\n" for day in range(1, 9))
    found = read(hours, files={"old-diary.txt": hours + "2027-02-10\nkaze\n  worked 12 h\n"})
    assert _count(found, "worked") == 9
    # `repeated-file` is the other way round: all of the shorter file stands in the longer one.
    assert found.problems == ["repeated-file"]
    changed = hours.replace("worked 3 h", "worked 4 h")
    found = read(hours, files={"old-diary.txt": changed})
    assert _count(found, "worked") == 7
    assert sorted(found.problems) == ["edited-copy", "two-versions"]
    apart = hours.replace(" h\n", " h -- ben\n")
    found = read(hours, files={"old-diary.txt": apart})
    assert (_count(found, "worked"), found.problems) == (16, [])


def test_one_work_that_two_files_tell_counts_once_with_what_stands_beside_it(read) -> None:
    page = "2027-03-06\nhoshi\n  wired 3 mm Al on left 1\n  worked 2 h\n"
    own = "".join(f"2027-03-{day}\nyuki\n  bent left {day}\n" for day in range(10, 20))
    theirs = own.replace("yuki", "kaze").replace("left", "right")
    found = read(own + page, files={"ben-writes.txt": theirs + page + "yuki\n  fed\n"})
    assert [_count(found, act) for act in ("wired", "worked", "bent", "fed")] == [1, 1, 20, 1]
    assert _told(found, "ben-writes.txt") == [
        (
            "repeated-lines",
            32,
            "“wired 3 mm Al on left 1” and 1 more line stand in diary.txt too, of the same day",
            "What stands in both counts once (lines 33, 34 here). Take the second writing away; "
            "where it was done twice, a remark tells them apart: -- Ben, too.",
        )
    ]
    assert _lost(found) == []


def test_a_move_to_and_fro_is_told_by_two_files(read) -> None:
    found = read(
        "2027-03-06\nhoshi\n  moved tunnel\n",
        files={"ben.txt": "2027-03-06\nhoshi\n  moved tunnel\n  moved yard\n"},
    )
    assert found.problems == []
    assert _count(found, "moved") == 3


def test_which_counts_hangs_on_no_order_of_the_machine(tmp_path) -> None:
    """Neither on how a process orders what it looks through, nor on the order of writing."""
    copies = {
        "diary.txt": DIARY,
        "was.txt": DIARY.replace("2 h", "3 h"),
        "backup/diary.txt": DIARY.replace("pruned", "pruned 1/3 off"),
        "old-diary.txt": DIARY.replace("trimmed", "trimmed left 1") + "2027-04-01\nkaze\n  fed\n",
    }
    told = set()
    for seed in range(3):
        folder = tmp_path / str(seed)
        (folder / "backup").mkdir(parents=True)
        (folder / "backbud.toml").write_text("language = 1\n")
        (folder / "cards.txt").write_text(THREE_TREES)
        for name in [*copies][:: 1 if seed else -1]:
            (folder / name).write_text(copies[name])
        command = [sys.executable, "-m", "backbud", "check", "--json", "--on", "2027-06-01", "."]
        done = subprocess.run(
            command,
            cwd=folder,
            capture_output=True,
            text=True,
            env={**os.environ, "PYTHONHASHSEED": str(seed)},
        )
        told.add(done.stdout)
    assert len(told) == 1
    assert told.pop().count('"edited-copy"') == 3


def test_a_file_that_was_half_merged_counts_once(read) -> None:
    own = "".join(f"2027-04-{day}\nyuki\n  bent left {day}\n" for day in range(10, 30))
    found = read(DIARY, files={"half-merged.txt": own + DIARY.replace("  watered\n", "", 1)})
    assert [_count(found, act) for act in ("wired", "worked", "bent")] == [1, 2, 20]
    assert found.problems == ["edited-copy"]


def test_of_pages_that_were_pasted_again_one_that_was_edited_counts_once(read) -> None:
    page = "2027-03-06\nhoshi\n  wired 3 mm Al on left 1\n  worked 2 h\n  watered\n"
    other = "2027-03-07\nyuki\n  worked 30 min\n"
    edited = page.replace("2 h", "3 h") + "kaze\n  bent left 2\n"
    found = read(page + other + edited + other)
    assert [
        (event.act, event.text)
        for event in found.events
        if event.act in ("wired", "worked", "bent")
    ] == [("wired", "3 mm Al on left 1"), ("bent", "on left 2"), ("worked", "30 min")]
    assert [told[:3] for told in _told(found, "diary.txt")] == [
        (
            "two-versions",
            4,
            "a page further down repeats this one, and tells line 4 otherwise",
        ),
        (
            "repeated-lines",
            10,
            "“wired 3 mm Al on left 1” and 1 more line stand further up too, of the same day",
        ),
        ("repeated-page", 16, "this page stands in line 6 too, word for word"),
    ]
    assert _lost(found) == []


def test_two_pages_of_one_day_are_one_day(read) -> None:
    morning = "2027-03-06\nhoshi\n  worked 2 h\n  watered\n  moved tunnel\n"
    evening = "2027-03-06\nhoshi\n  worked 2 h\n  watered\n  moved yard\nkaze\n  trimmed\n"
    found = read(morning + evening)
    assert found.problems == []
    assert [_count(found, act) for act in ("worked", "watered", "moved")] == [2, 2, 2]


# ------------------------------------------------------------------ cards


CARDS = "".join(f"tree pine-{n}\n  kind trident maple\n  since 201{n}\n" for n in range(8))


def test_a_copied_cards_file_is_one_problem_and_what_is_new_in_it_counts(read) -> None:
    copy = CARDS.replace("2013", "2003").replace("tree pine-5\n", "tree suzu\n")
    found = read("", files={"trees.txt": CARDS, "trees-old.txt": copy})
    assert found.journal.things.find("suzu") is not None
    assert found.journal.things.find("pine-3").since.text == "2013"
    assert _told(found, "trees-old.txt") == [
        (
            "repeated-cards",
            1,
            "7 of the 8 cards of this file stand in trees.txt too",
            "Of 7 cards that stand in both those in trees.txt count; line 10 here differs. Bring "
            "over what is right, and take these away.",
        )
    ]
    assert found.problems == ["repeated-cards"]
    assert _lost(found) == []


def test_cards_that_were_pasted_again_into_their_file_are_one_problem(read) -> None:
    found = read("", files={"trees.txt": f"{CARDS}tree suzu\n  kind trident maple\n{CARDS}"})
    assert found.problems == ["repeated-cards"]
    assert len(found.journal.things.of_kind("tree")) == 8 + 1 + 3


def test_a_journal_of_one_file_and_its_edited_copy_is_one_problem(read) -> None:
    whole = f"{CARDS}2027-03-01\npine-1\n  worked 2 h\n2027-03-02\npine-2\n  wired 3 mm Al on top\n"
    found = read("", files={"all.txt": whole, "all-old.txt": whole + "pine-4\n  fed\n"})
    assert found.problems == ["edited-copy"]
    assert [_count(found, act) for act in ("worked", "wired", "fed")] == [1, 1, 1]
    (told,) = _told(found, "all-old.txt")
    assert "Of 8 cards that stand in both those in all.txt count." in told[3]
