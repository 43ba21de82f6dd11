"""Any table goes in; every word of every cell stands in a card, an act, a note or the report."""

from __future__ import annotations

import csv
import io
import re
import tempfile
from pathlib import Path

from hypothesis import HealthCheck, event, given, settings
from hypothesis import strategies as st
from tests.bring.books import by_odfpy, by_openpyxl
from tests.bring.conftest import Desk
from tests.examples import examples

from backbud.bring.sheet import in_plain_words
from backbud.views.brought import BroughtView

# What hurts: what opens a remark, a comment, a date, a card, a quotation, another act; limiters;
# units, lists, other directions of writing, and words of no language.
NASTY = st.sampled_from(
    (
        "repotted", "Wired", "wire off", "watered?", "not yet", "except heron", "died",
        "2 cm off below", "2 mm Al on left 1", "same pot", "--", " -- ", "# x", "tree x",
        "2020-01-01", "1,250.00", "52", "7 x 6", "70x60 mm", "0,5", "1:10", "1/3 off",
        '"', "“", "'Kaho'",
        "all", "planned repot, to 2028", "corrected repotted 2020-01-01", "noted", "private",
        "sold to x", "moved tunnel", "=1+1", "+44", "@x", "-", "{}", "\\n", "for owner: x",
        "yes", "盆栽", "ü\u202ex", "a\nb", "a\tb", "words", "in 3 weeks", "20-10-20", "9 EUR",
        "tied", "fed 20-10-20 2 g/L",
    )
)  # fmt: skip
WORDS = st.one_of(
    NASTY, st.text(max_size=12), st.lists(NASTY, max_size=4).map(" ".join), st.just("")
)
DAYS = st.sampled_from(("2021-04-03", "2014", "2009-05", "2027-01-01", "", "soon", "13/04/2021"))
TREES = st.sampled_from(("heron", "anvil", "yard", "", "q1", "q2", "anvil, heron", "x" * 90))
KINDS = st.sampled_from(("trident maple", "Chinese elm", "zzz", ""))
# What a list that says no kind leaves to its keeper, who is told so before it is written.
THE_KEEPERS = ("unknown-species", "no-kind")
WORK_HEADS = ("Date", "Tree", "Work", "Details", "Notes", "Hours", "Used", "Pot", "Place", "Kind",
              "Weather", "Odd, cm")  # fmt: skip
TREE_HEADS = ("Tree", "Kind", "Since", "Height (cm)", "Trunk", "Pot", "Place", "Value (EUR)",
              "Style", "Last repotted", "Pruned", "Notes", "Odd")  # fmt: skip
OF_HEAD = {"Date": DAYS, "Tree": TREES, "Since": DAYS, "Last repotted": DAYS, "Kind": KINDS}


def tables(heads: tuple[str, ...]) -> st.SearchStrategy[list[list[str]]]:
    """A few rows below these headings."""
    row = st.tuples(*(OF_HEAD.get(head, WORDS) for head in heads)).map(list)
    return st.lists(row, min_size=1, max_size=4).map(lambda rows: [list(heads), *rows])


def tokens(text: str) -> set[str]:
    """The words and numbers of a text, in small letters."""
    return set(re.findall(r"[^\W_]+", text.casefold().replace("×", "x")))


def lost(table: list[list[str]], view: BroughtView) -> set[str]:
    """Words of cells that stand nowhere."""
    told = " ".join(
        (
            view.text,
            *(f"{one.heading} {one.words} {one.why}" for one in (*view.not_read, *view.noted)),
        )
    )
    there = tokens(told)
    # What a card of the journal says already, dates in the order of the standard.
    there |= tokens("trident maple heron 13/04/2021" if "2021-04-13" in told else "trident maple")
    wanted = {word for row in table[1:] for cell in row for word in tokens(in_plain_words(cell))}
    return {word for word in wanted - there if not any(word in one for one in there)}


def as_csv(table: list[list[str]]) -> bytes:
    out = io.StringIO()
    csv.writer(out).writerows(table)
    return out.getvalue().encode(errors="backslashreplace")


def held(table: list[list[str]], rows: str, data: bytes, name: str) -> None:
    """Nothing is lost, nothing comes twice, `check` finds nothing to mend."""
    with tempfile.TemporaryDirectory() as folder:
        desk = Desk(Path(folder))
        said = {"rows": rows, "heading": 1, "dates": ("day-first",)}
        view = desk.written(data, name, **said)
        if view.asks:
            event("asked")
            assert view.text == "" and not (desk.folder / "brought").exists()
            return
        event(f"acts: {min(view.acts, 3)}, written: {view.is_written}")
        assert lost(table, view) == set()
        problems = desk.problems()
        assert [one for one in problems if not one.endswith(THE_KEEPERS)] == []
        assert len(problems) == len(view.problems), (problems, view.problems)
        if view.is_written:
            mapping = (desk.folder / view.mapping).read_text()
            again = desk.brought(data, name, mapping)
            assert again.checked is None, again.checked.laid.text


_SETTINGS = settings(max_examples=examples(10), suppress_health_check=list(HealthCheck))


@_SETTINGS
@given(tables(WORK_HEADS))
def test_of_any_list_of_works(table: list[list[str]]) -> None:
    held(table, "works", as_csv(table), "list.csv")


@_SETTINGS
@given(tables(TREE_HEADS))
def test_of_any_list_of_trees(table: list[list[str]]) -> None:
    held(table, "trees", as_csv(table), "list.csv")


def _writable(table: list[list[str]]) -> list[list[str]]:
    """What XML 1.0 holds (odfpy leaves out what it discourages, too), and is no formula."""
    return [
        [re.sub(r"[^\t\n\x20-\x7e\xa0-\ud7ff\ue000-\ufffd]", "", cell).lstrip("=") for cell in row]
        for row in table
    ]


@settings(_SETTINGS, max_examples=examples(4))
@given(tables(WORK_HEADS).map(_writable))
def test_of_any_workbook(table: list[list[str]]) -> None:
    held(table, "works", by_openpyxl(table), "list.xlsx")


@settings(_SETTINGS, max_examples=examples(4))
@given(tables(TREE_HEADS).map(_writable))
def test_of_any_open_document(table: list[list[str]]) -> None:
    held(table, "trees", by_odfpy(table), "list.ods")


def test_a_word_that_is_lost_is_seen() -> None:
    with tempfile.TemporaryDirectory() as folder:
        view = Desk(Path(folder)).shown("Date,Work,Tree\n2021-04-03,watered,anvil\n")
    assert lost([[], ["2021-04-03", "watered", "anvil", "gone"]], view) == {"gone"}
