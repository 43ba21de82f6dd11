"""What one line of the diary asks of many trees is told once, with the trees below it."""

from __future__ import annotations

import json
import re

from backbud.cli import main

CARDS = "place yard\n  latitude  52 N\n" + "".join(
    f"tree {name}\n  kind  trident maple\n  place  yard\n"
    for name in ("ash", "birch", "crow", "dove", "elk", "fox", "gnat", "hare")
)
TREATED = "2026-05-10\nall\n  treated  soap 1 L, against aphids\n"
EIGHT = "ash, birch, crow, dove, elk, fox, gnat, hare"


def pests(capsys, tmp_path, *more: str) -> list[str]:
    assert main(["due", str(tmp_path), "--on", "2026-05-12", "--within", "14d", *more]) == 0
    lines = capsys.readouterr().out.splitlines()
    at = [n for n, line in enumerate(lines) if "check for pests  –" in line]
    return [line.strip() for n in at for line in lines[n : n + 2]]


def test_all_treated_asks_once(written, tmp_path, capsys) -> None:
    written(CARDS + TREATED, "2026-05-12")
    # Seven to fourteen days after it; five minutes for each tree.
    assert pests(capsys, tmp_path) == [
        "8 trees  check for pests  –  17 to 24 May, best 20 May  (40 min)",
        EIGHT,
    ]


def test_a_tree_that_was_looked_at_leaves_the_round(written, tmp_path, capsys) -> None:
    looked = "2026-05-12\ncrow\n  checked  pests, fine\n"
    written(CARDS + TREATED + looked, "2026-05-12")
    assert pests(capsys, tmp_path) == [
        "7 trees  check for pests  –  17 to 24 May, best 20 May  (35 min)",
        EIGHT.replace("crow, ", ""),
    ]


def test_what_differs_by_its_reason_is_one_line_all_the_same(written, tmp_path, capsys) -> None:
    """The reasons stand beside each tree; the work is the same."""
    other = "ash\n  treated  soap 1 L, against aphids\n"
    written(CARDS + "2026-05-10\n" + other + other.replace("ash", "birch"), "2026-05-12")
    assert pests(capsys, tmp_path) == [
        "2 trees  check for pests  –  17 to 24 May, best 20 May  (10 min)",
        "ash, birch",
    ]


def rows_of(tmp_path, on: str) -> list[str]:
    """The rows of the first page that speak of pests."""
    assert main(["make", str(tmp_path), "--on", on]) == 0
    page = (tmp_path / f"made-on/{on}/index.html").read_text("utf-8")
    rows = re.findall(
        r'<li class="round.*?</h3>.*?(?=<li class="round|</ul>\s*</section>)', page, re.S
    )
    return [row for row in rows if "Check for pests" in row]


def test_the_first_page_has_one_row_for_a_round(written, tmp_path) -> None:
    """The very rounds of `due`; six trees are named, and the place leads to the rest."""
    written(CARDS + TREATED, "2026-05-18")
    assert rows_of(tmp_path, "2026-05-12") == []  # to come, so in the year
    (row,) = rows_of(tmp_path, "2026-05-18")
    text = " ".join(re.sub(r"<.*?>", " ", row).replace("\N{NO-BREAK SPACE}", " ").split())
    assert text.startswith("Check for pests") or "Check for pests" in text
    assert "40 min" in text
    leads = re.findall(r'href="(trees/\w+\.html)#(why-\w+)"', row)
    assert [page for page, _ in leads] == [f"trees/{name}.html" for name in EIGHT.split(", ")[:6]]
    assert "2 more" in text
    for path, anchor in leads:
        own = (tmp_path / "made-on/2026-05-18" / path).read_text("utf-8")
        (at,) = re.findall(rf'<li [^>]*id="{anchor}".*?</li>', own, re.S)
        assert "Check for pests" in at


def test_a_program_is_told_of_each(written, tmp_path, capsys) -> None:
    written(CARDS + TREATED, "2026-05-12")
    assert main(["due", str(tmp_path), "--on", "2026-05-12", "--within", "14d", "--json"]) == 0
    ids = [one["id"] for one in json.loads(capsys.readouterr().out)]
    assert sum("/pest-check/" in ident for ident in ids) == 8


def test_trees_whose_days_end_more_than_four_weeks_apart_are_two_rounds(
    written, tmp_path, capsys
) -> None:
    """13 June and four weeks is 11 July; crow's day is the one after."""
    ends = {"ash": "2026-06-13", "birch": "2026-07-11", "crow": "2026-07-12", "dove": "2026-07-14"}
    plans = "".join(
        f"{name}\n  planned  clean trunk, to 2026-05-15/{last}\n" for name, last in ends.items()
    )
    written(CARDS + "2026-05-10\n" + plans, "2026-05-20")
    assert main(["due", str(tmp_path), "--on", "2026-05-20", "--within", "0d"]) == 0
    lines = [line.strip() for line in capsys.readouterr().out.splitlines()]
    told = [(line, lines[n + 1]) for n, line in enumerate(lines) if "  clean" in line]
    assert [(line.partition("–")[2].partition("(")[0].strip(), trees) for line, trees in told] == [
        ("until 13 June, the last 11 July", "ash, birch"),
        ("until 12 July, the last 14 July", "crow, dove"),
    ]
    # So does the first page.
    assert main(["make", str(tmp_path), "--on", "2026-05-20"]) == 0
    page = (tmp_path / "made-on/2026-05-20/index.html").read_text("utf-8")
    rows = re.findall(
        r'<li class="round.*?</h3>.*?(?=<li class="round|</ul>\s*</section>)', page, re.S
    )
    cleaned = [row for row in rows if "Clean trunk" in row]
    named = [[one for one in ends if re.search(rf">{one}<", row)] for row in cleaned]
    assert sorted(named) == [["ash", "birch"], ["crow", "dove"]]
