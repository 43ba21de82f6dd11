"""A class's name means one thing in all three packages."""

from __future__ import annotations

import ast
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).parents[2]
PACKAGES = ("ledger/backbud", "grammar/backbud_grammar", "plugins/backbud_species")

# Each with the reason why two classes may share it.
DOUBLED = {
    "Journal": "the front door's, which a program sees, is made from the one that was read",
}


def class_names() -> Counter[str]:
    return Counter(
        node.name
        for package in PACKAGES
        for path in (ROOT / package).rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.ClassDef)
    )


def test_no_two_classes_share_a_name() -> None:
    assert {name for name, times in class_names().items() if times > 1} == {*DOUBLED}


def test_classes_are_seen() -> None:
    names = class_names()
    assert names["Species"] == names["ActForm"] == names["TridentMaple"] == 1


# What each module of its kind has: a command its `run`, a drawing its `draw`, a page its `sheet`.
ALIKE = {
    "add_options", "draw", "main", "reckon", "recognises", "run", "sheet",
}  # fmt: skip
# Functions of one name in two modules that mean two things, each with the reason.
TWO_MEANINGS = {
    "between": "in words: from a day to a day; of a species' works: from a stage to a stage",
}


def function_names() -> Counter[str]:
    return Counter(
        node.name
        for package in PACKAGES
        for path in (ROOT / package).rglob("*.py")
        for node in ast.parse(path.read_text("utf-8")).body
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_")
    )


def test_no_two_functions_share_a_name() -> None:
    doubled = {name for name, times in function_names().items() if times > 1} - ALIKE
    assert doubled == {*TWO_MEANINGS}
