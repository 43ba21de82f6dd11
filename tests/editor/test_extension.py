"""The extension for editors that take one: its manifest, and (long) what npm builds of it."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import pytest

from backbud.cli import COMMANDS

ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "ledger/backbud/editor/extension"
GRAMMAR = ROOT / "grammar/backbud_grammar/editors/vscode"
MANIFEST = json.loads((SOURCE / "package.json").read_text("utf-8"))


def test_it_brings_the_language_and_grammar_that_are_generated() -> None:
    generated = json.loads((GRAMMAR / "package.json").read_text("utf-8"))["contributes"]
    assert MANIFEST["contributes"]["grammars"] == generated["grammars"]
    assert MANIFEST["contributes"]["languages"] == generated["languages"]


def test_it_starts_the_command_and_no_folder_can_name_another() -> None:
    started = MANIFEST["contributes"]["configuration"]["properties"]["backbud.command"]
    assert started["default"] == ["backbud", "editor"] and "editor" in COMMANDS
    # A setting of the machine is not read from a folder that is opened.
    assert started["scope"] == "machine"


def test_no_registry_is_named() -> None:
    assert "resolved" not in (SOURCE / "package-lock.json").read_text("utf-8")


@pytest.mark.long
@pytest.mark.slow
def test_npm_builds_a_folder_that_is_the_whole_extension(tmp_path: Path) -> None:
    npm = shutil.which("npm")
    assert npm is not None
    copy = tmp_path / "ledger/backbud/editor/extension"
    left_out = shutil.ignore_patterns("node_modules", "built")
    shutil.copytree(SOURCE, copy, ignore=left_out)
    shutil.copytree(GRAMMAR, tmp_path / "grammar/backbud_grammar/editors/vscode")
    for words in (("ci", "--no-audit", "--no-fund"), ("run", "build")):
        subprocess.run([npm, *words], cwd=copy, check=True, capture_output=True)
    built = copy / "built"
    manifest = json.loads((built / "package.json").read_text("utf-8"))
    named = [manifest["main"], manifest["contributes"]["grammars"][0]["path"],
             manifest["contributes"]["languages"][0]["configuration"]]  # fmt: skip
    assert all((built / name).is_file() for name in named)
    assert "devDependencies" not in manifest and "scripts" not in manifest
    # Nothing but the editor's own module is left to be found elsewhere.
    code = "const m = require('module'); const l = m._load; m._load = (n, ...r) => " \
           "n === 'vscode' ? new Proxy({}, {get: () => class {}}) : l(n, ...r); " \
           "console.log(Object.keys(require('./client.js')).sort().join())"  # fmt: skip
    done = subprocess.run(
        ["node", "-e", code], cwd=built, capture_output=True, text=True, check=False
    )
    assert done.stdout.strip() == "activate,deactivate", done.stderr
