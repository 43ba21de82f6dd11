"""What one line of the diary asks of many trees is told once, with the trees below it."""

from __future__ import annotations

import json

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


def test_a_program_is_told_of_each(written, tmp_path, capsys) -> None:
    written(CARDS + TREATED, "2026-05-12")
    assert main(["due", str(tmp_path), "--on", "2026-05-12", "--within", "14d", "--json"]) == 0
    ids = [one["id"] for one in json.loads(capsys.readouterr().out)]
    assert sum("/pest-check/" in ident for ident in ids) == 8
