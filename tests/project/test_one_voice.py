"""The source goes in; there is one place in it that prints."""

from __future__ import annotations

import ast
from pathlib import Path

LEDGER = Path(__file__).parents[2] / "ledger" / "backbud"
VOICE = "say.py"


def prints(source: str) -> list[int]:
    """The lines that print, ask or reach for a stream to write on."""
    found = []
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Name) and node.id in ("print", "input"):
            found.append(node.lineno)
        if isinstance(node, ast.Attribute) and node.attr in (
            "stdout", "stderr", "__stdout__", "__stderr__", "print_exc", "print_exception",
        ):  # fmt: skip
            found.append(node.lineno)
        if isinstance(node, ast.ImportFrom) and node.module == "sys":
            found.append(node.lineno)
    return sorted(found)


# What a module may do with a stream beside printing: end it, or name it to argparse.
ALLOWED = {"start.py": 2, "cli.py": 1, "commands/parser.py": 1}


def test_nothing_else_prints() -> None:
    found = {
        str(path.relative_to(LEDGER)): len(prints(path.read_text("utf-8")))
        for path in LEDGER.rglob("*.py")
        if path.name != VOICE
    }
    assert {name: count for name, count in found.items() if count} == ALLOWED


def test_what_prints_is_seen() -> None:
    assert prints("import sys\nprint(1)\nsys.stdout.write('x')\nfrom sys import stderr\n") == [
        2, 3, 4,
    ]  # fmt: skip
