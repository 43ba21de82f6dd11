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
    assert pests(capsys, tmp_path) == ["8 trees  check for pests  –  17 to 24 May  (40 min)", EIGHT]


def test_a_tree_that_was_looked_at_leaves_the_round(written, tmp_path, capsys) -> None:
    looked = "2026-05-12\ncrow\n  checked  pests, fine\n"
    written(CARDS + TREATED + looked, "2026-05-12")
    assert pests(capsys, tmp_path) == [
        "7 trees  check for pests  –  17 to 24 May  (35 min)",
        EIGHT.replace("crow, ", ""),
    ]


def test_what_differs_by_its_reason_stands_alone(written, tmp_path, capsys) -> None:
    other = "ash\n  treated  soap 1 L, against aphids\n"
    written(CARDS + "2026-05-10\n" + other + other.replace("ash", "birch"), "2026-05-12")
    assert [line.split("  ")[0] for line in pests(capsys, tmp_path)[::2]] == ["ash", "birch"]


def rows_of(tmp_path, on: str) -> list[str]:
    """The rows of the first page that speak of pests, as text."""
    assert main(["make", str(tmp_path), "--on", on]) == 0
    page = (tmp_path / f"made-on/{on}/index.html").read_text("utf-8")
    rows = re.findall(r'<li class="lined row .*?</li>', page, re.S)
    texts = [" ".join(re.sub(r"<.*?>", "", row).split()) for row in rows]
    return [text for text in texts if "Check for pests" in text and "soap" in text]


def test_the_first_page_has_one_row_for_a_round(written, tmp_path) -> None:
    """The very rounds of `due`: in the window the row of one tree that was treated apart, too."""
    other = "2026-05-10\nash\n  treated  soap 1 L, against aphids\n"
    rest = TREATED.replace("all", "all except ash")
    for on, word in (("2026-05-12", "best"), ("2026-05-18", "until")):
        written(CARDS + rest + other.split("\n", 1)[1], on)
        joint, single = sorted(rows_of(tmp_path, on), key=len, reverse=True)
        assert joint.startswith(word) and "Check for pests 7 trees 35 min" in joint
        names = ", ".join(f"{name} yard" for name in EIGHT.split(", ")[1:])
        assert names in joint
        assert "Check for pests ash yard 5 min" in single
    page = (tmp_path / "made-on/2026-05-18/index.html").read_text("utf-8")
    (row,) = (one for one in re.findall(r"<li class.*?</li>", page, re.S) if ">7 trees<" in one)
    # Each tree of it leads to its own page and reasons.
    leads = re.findall(r'href="(trees/\w+\.html)#(why-\w+)"', row)
    assert [page for page, _ in leads] == [f"trees/{name}.html" for name in EIGHT.split(", ")[1:]]
    for path, anchor in leads:
        own = (tmp_path / "made-on/2026-05-18" / path).read_text("utf-8")
        (at,) = re.findall(rf'<li [^>]*id="{anchor}".*?</li>', own, re.S)
        assert "Check for pests" in at


def test_a_program_is_told_of_each(written, tmp_path, capsys) -> None:
    written(CARDS + TREATED, "2026-05-12")
    assert main(["due", str(tmp_path), "--on", "2026-05-12", "--within", "14d", "--json"]) == 0
    ids = [one["id"] for one in json.loads(capsys.readouterr().out)]
    assert sum("/pest-check/" in ident for ident in ids) == 8
