"""Every command is a module of its own, and only the one that was asked for is loaded."""

from __future__ import annotations

import os
import subprocess
import sys
from importlib import import_module
from pathlib import Path
from pkgutil import iter_modules

import pytest

from backbud import commands
from backbud.cli import COMMANDS, WRITING

ROOT = Path(__file__).parents[2]


def test_each_command_has_a_module_and_each_such_module_is_a_command() -> None:
    found = {name: import_module(f"backbud.commands.{name}") for _, name, _ in _modules()}
    assert {name for name, module in found.items() if hasattr(module, "run")} == {*COMMANDS}
    assert all(hasattr(found[name], "add_options") for name in COMMANDS)
    assert {*WRITING} < {*COMMANDS}


def _modules() -> list[tuple[object, str, bool]]:
    return [*iter_modules(commands.__path__)]


def test_the_readme_lists_every_command() -> None:
    text = (ROOT / "README.md").read_text("utf-8")
    assert [name for name in COMMANDS if f"`backbud {name}" not in text] == []


@pytest.mark.parametrize(
    ("words", "loaded"),
    [
        (["--version"], []),
        (["check", "--help"], ["check"]),
        (["tidy", "due"], ["tidy"]),
        (["due", "--tree", "check", "--help"], ["due"]),
    ],
)
def test_only_the_one_that_was_asked_for_is_loaded(
    words: list[str], loaded: list[str], tmp_path: Path
) -> None:
    code = (
        "import sys; from backbud.cli import COMMANDS, main\n"
        "try: main(sys.argv[1:])\n"
        "except SystemExit: pass\n"
        "print(*sorted(c for c in COMMANDS if f'backbud.commands.{c}' in sys.modules))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, *words],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "COLUMNS": "100"},
    )
    assert done.stdout.splitlines()[-1].split() == loaded
