"""What would take minutes or hours is bounded: each within a few seconds, and told in plain words.

Times are of the processor, so that a busy machine fails no test; each stood at ten times its limit
and more before it was bounded.
"""

from __future__ import annotations

import gc
import subprocess
import sys
import time
import weakref
from collections.abc import Callable
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.examples import examples

from backbud.collection.replay import replay
from backbud.journal.find import find_files
from backbud.journal.ignore import without_second_tries
from backbud.journal.read import read_journal
from backbud.journal.weather.files import MOST_LINES
from backbud.make import make
from backbud_grammar.acts import ACTS, by_word
from backbud_grammar.parse import Details
from backbud_grammar.problems import nearest

TODAY = date(2027, 6, 1)
CARDS = """\
place yard
  latitude  52 N
tree hoshi
  kind      trident maple
  place     yard
"""
PAGE = "2027-03-06\nhoshi\n"


@pytest.fixture
def codes(tmp_path: Path) -> Callable[..., list[str]]:
    """The codes of what is wrong with a journal, once each, found within so many seconds."""

    def found(
        diary: str = "", cards: str = CARDS, *, seconds: float = 3.0, **files: str
    ) -> list[str]:
        texts = {"backbud.toml": 'language = 1\nhome = "yard"\n', "cards.txt": cards, **files}
        for name, text in {**texts, "diary.txt": diary}.items():
            (tmp_path / name).write_text(text)
        began = time.process_time()
        made = make(str(tmp_path), TODAY)
        assert time.process_time() - began < seconds
        return list(dict.fromkeys(problem.code for problem in made.problems))

    return found


# ------------------------------------------------------------------ .gitignore

HOSTILE = {
    "stars in a name": ("*a" * 30 + "*b", "a" * 120 + ".txt"),
    "folders in a path": ("**/a/" * 20 + "b", "/".join("a" * 40) + "/x.txt"),
    "stars, and nothing between them": ("*" * 200 + "b", "a" * 200 + ".txt"),
}


@pytest.mark.parametrize("case", HOSTILE)
def test_a_gitignore_with_many_stars_is_matched_at_once(tmp_path: Path, case: str) -> None:
    pattern, name = HOSTILE[case]
    (tmp_path / ".gitignore").write_text(pattern + "\n")
    file = tmp_path / name
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text("")
    # No timer of Python's rings inside a regular expression, so another process looks.
    look = (
        f"from backbud.journal.find import find_files; print(find_files({str(tmp_path)!r}).files)"
    )
    done = subprocess.run(
        [sys.executable, "-c", look], capture_output=True, text=True, timeout=60, check=True
    )
    assert done.stdout == f"({name!r},)\n"


PATTERNS = st.lists(
    st.sampled_from(["a", "b", "*", "*", "**", "/", "?", "[ab]", ".", "/**/", "**/", "/**"]),
    min_size=1,
    max_size=8,
).map("".join)
# As a walk gives them: no part is empty, and a folder ends in its `/`.
NAMES = (
    st.lists(st.lists(st.sampled_from("aab."), min_size=1, max_size=4).map("".join), min_size=1)
    .map("/".join)
    .flatmap(lambda name: st.sampled_from((name, f"{name}/")))
)


@settings(max_examples=examples(100))
@given(pattern=PATTERNS, names=st.lists(NAMES, min_size=5, max_size=5))
def test_it_takes_the_same_names_as_pathspec_alone(pattern: str, names: list[str]) -> None:
    import re

    from pathspec import GitIgnoreSpec

    try:
        (one,) = GitIgnoreSpec.from_lines([pattern], backend="simple").patterns
    except ValueError:
        return
    if one.regex is None:
        return
    ours = re.compile(without_second_tries(one.regex.pattern))
    for name in names:
        theirs = one.regex.match(name)
        found = ours.match(name)
        assert (found and found.groupdict()) == (theirs and theirs.groupdict())


def test_a_class_takes_no_slash(tmp_path: Path) -> None:
    """gitignore(5): a `/` parts folders, and a class stands for one letter of a name."""
    (tmp_path / ".gitignore").write_text("d[!x]e.txt\n")
    (tmp_path / "d").mkdir()
    for name in ("d/e.txt", "dae.txt", "dxe.txt"):
        (tmp_path / name).write_text("")
    assert find_files(str(tmp_path)).files == ("d/e.txt", "dxe.txt")


def test_a_gitignore_longer_than_any_is_read_in_part_and_told(tmp_path: Path) -> None:
    (tmp_path / ".gitignore").write_text("a.txt\n" + "x\n" * 999 + "b.txt\n")
    for name in ("a.txt", "b.txt"):
        (tmp_path / name).write_text("")
    found = find_files(str(tmp_path))
    assert found.files == ("b.txt",)
    flaw = found.passed_over[".gitignore"]
    assert (flaw.code, flaw.line) == ("large-file", 1000)
    assert flaw.message == "only the first 1000 lines of this file were read"


def test_a_pattern_longer_than_any_names_nothing_and_is_told(tmp_path: Path) -> None:
    (tmp_path / ".gitignore").write_text(f"b.txt\n{'a*' * 251}\n")
    for name in ("a.txt", "b.txt"):
        (tmp_path / name).write_text("")
    found = find_files(str(tmp_path))
    assert found.files == ("a.txt",)
    flaw = found.passed_over[".gitignore"]
    assert (flaw.code, flaw.line, flaw.message) == ("long-line", 1, "a pattern of 502 characters")


# ------------------------------------------------------------------ long and many lines

LONG = {
    "words": ("  pruned " + "foo bar " * 1230, ["unknown-detail"]),
    "commas": ("  pruned " + "x, " * 3300 + "x", ["unknown-detail"]),
    "one word": ("  pruned " + "x" * 9900, ["unknown-detail"]),
    "no act": ("  " + "x" * 9900, []),
    "measures": ("  wired " + "3 mm " * 1950, ["two-measures"]),
}


@pytest.mark.parametrize("case", LONG)
def test_a_line_as_long_as_any_may_be_is_read_at_once(codes, case: str) -> None:
    line, expected = LONG[case]
    assert codes(PAGE + line + "\n") == expected


def test_forty_thousand_deeper_lines_are_joined_in_time(codes) -> None:
    assert codes(f"{PAGE}  noted a\n" + "    more\n" * 40_000) == []


def test_forty_thousand_deeper_pieces_are_told_in_time(codes) -> None:
    found = codes(f"{PAGE}  pruned\n" + "    moor,\n" * 40_000, seconds=6)
    # The same is asked once; the last comma has nothing behind it.
    assert found == ["unknown-detail", "empty-detail"]


def test_the_place_of_a_piece_far_down_is_right(tmp_path: Path) -> None:
    """Where the seams are not gone through one by one."""
    (tmp_path / "backbud.toml").write_text("language = 1\n")
    (tmp_path / "a.txt").write_text(
        f"{CARDS}{PAGE}  pruned\n    hard,\n    # mine\n      hard to say\n"
    )
    (problem,) = read_journal(str(tmp_path), TODAY).problems()
    # Five lines of cards, the date, the subject, the act, two more and the remark; what is no
    # place or date behind “to” is marked.
    assert (problem.line, problem.column) == (11, 15)


def test_a_word_too_long_to_be_one_is_not_compared() -> None:
    """To compare two of them takes as long as the product of their lengths."""
    letters = [chr(0x4E00 + n * n % 151) for n in range(9000)]
    known = ["".join(letters[n:] + letters[:n]) for n in range(1, 4)]
    began = time.process_time()
    assert nearest("".join(letters), [*known, "trident"]) == ""
    assert nearest("tridant", [*known, "trident"]) == "trident"
    assert time.process_time() - began < 1


def test_three_thousand_corrections_of_one_day_find_their_lines(codes) -> None:
    diary = (
        f"{PAGE}"
        + "  watered\n" * 2999
        + "2027-03-07\nhoshi\n"
        + "  corrected watered 2027-03-06, not done\n" * 3000
    )
    assert codes(diary, seconds=6) == []


# ------------------------------------------------------------------ places


def _chain(places: int) -> str:
    return "".join(f"place p{n}\n  within p{n + 1}\n" for n in range(places)) + f"place p{places}\n"


def test_two_thousand_nested_places_are_cut_where_it_is_too_deep(tmp_path: Path) -> None:
    (tmp_path / "backbud.toml").write_text("language = 1\n")
    (tmp_path / "a.txt").write_text(f"{CARDS}{_chain(2000)}2027-03-06\nall in p2000\n  watered\n")
    began = time.process_time()
    journal = read_journal(str(tmp_path), TODAY)
    # No tree stands in the innermost place.
    assert [one.flaw.code for one in replay(journal).flaws] == ["nobody-meant"]
    assert time.process_time() - began < 3
    assert {problem.code for problem in journal.problems()} == {"bad-reference"}
    # Every 21st place of 2001 stands in no other: p1979, p1958 … p5.
    assert len(journal.problems()) == 95


def test_places_nested_as_deep_as_may_be_are_no_problem(tmp_path: Path) -> None:
    (tmp_path / "backbud.toml").write_text("language = 1\n")
    (tmp_path / "a.txt").write_text(
        f"{_chain(20)}tree t\n  kind trident maple\n  place p0\n2027-03-06\nall in p20\n  watered\n"
    )
    journal = read_journal(str(tmp_path), TODAY)
    assert journal.problems() == ()
    (entry,) = replay(journal).value.trees["t"].entries
    assert entry.event.act == "watered"


def test_the_place_that_is_too_deep_stands_in_no_other_and_is_told(tmp_path: Path) -> None:
    (tmp_path / "backbud.toml").write_text("language = 1\n")
    (tmp_path / "a.txt").write_text(_chain(21))
    journal = read_journal(str(tmp_path), TODAY)
    (problem,) = journal.problems()
    assert problem.line == 2
    assert problem.message == "“p0” is within more than 20 places, one in another"
    assert journal.things.by_handle["p0"].text("within") == ""
    assert journal.things.by_handle["p1"].text("within") == "p2"


def test_only_the_places_of_a_circle_are_within_themselves(tmp_path: Path) -> None:
    (tmp_path / "backbud.toml").write_text("language = 1\n")
    (tmp_path / "a.txt").write_text(
        "place a\n  within b\nplace b\n  within c\nplace c\n  within b\nplace d\n  within d\n"
    )
    found = [problem.message for problem in read_journal(str(tmp_path), TODAY).problems()]
    assert found == [f"“{name}” is within itself" for name in "bcd"]


# ------------------------------------------------------------------ weather, settings, materials


def test_a_weather_file_of_too_many_rows_is_left_out_and_told(codes) -> None:
    cards = CARDS.replace("52 N\n", "52 N\n  weather   w.csv\n")
    rows = {"w.csv": "date,low,high,rain\n" + "x,y,z,w\n" * MOST_LINES}
    assert codes("", cards, **rows) == ["large-file"]


def test_a_weather_file_of_one_endless_line_is_left_out_and_told(codes) -> None:
    cards = CARDS.replace("52 N\n", "52 N\n  weather   w.csv\n")
    assert codes("", cards, **{"w.csv": "date,low,high,rain," * 1_000_000}) == ["long-line"]


def test_thousands_of_unknown_figures_are_told_in_time(codes) -> None:
    figures = "".join(f"a{n} = 1\n" for n in range(5000))
    toml = {"backbud.toml": f"language = 1\n[figures]\n{figures}"}
    assert codes("", seconds=5, **toml) == ["unknown-figure", "many-problems"]


def test_a_mix_of_ten_thousand_ingredients_is_weighed_in_time(codes) -> None:
    mix = "mix m\n" + "".join(f"  stuff{n} 1\n" for n in range(10_000))
    assert codes(f"{PAGE}  repotted mix m 4.5 L\n", CARDS + mix, seconds=10) == []


def test_a_handle_too_long_for_a_file_has_a_page_all_the_same(codes, tmp_path: Path) -> None:
    """POSIX: NAME_MAX is 255 octets on the usual file systems; か has three."""
    handles = ["k" * 300, "か" * 100]
    codes("", CARDS + "".join(f"tree {handle}\n  kind trident maple\n" for handle in handles))
    pages = [path.name for path in (tmp_path / "made" / "trees").iterdir()]
    assert len(pages) == 3
    assert all(len(name.encode()) <= 210 for name in pages)
    assert "か" * 62 in "".join(pages)


# ------------------------------------------------------------------ memory


def test_what_read_a_wrong_measure_is_let_go(tmp_path: Path) -> None:
    """`watch` reads again and again; what each reading held must go with it."""
    details = Details(by_word(ACTS))
    assert details.of(details.acts["wired"], "3-2 mm").flaws
    gone = weakref.ref(details)
    del details
    gc.collect()
    assert gone() is None
