"""Each command's JSON has the published shape, and the published schema is that of the code."""

from __future__ import annotations

import json
import shlex
import shutil
import sys
from contextlib import redirect_stdout
from copy import deepcopy
from io import StringIO
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator, FormatChecker, ValidationError
from tests.project.test_example import EXAMPLE

from backbud.cli import COMMANDS as EVERY
from backbud.cli import main
from backbud.views.published import SCHEMA, schema

ON = ("--on", "2026-05-20")
# One of each that a program may ask, of the example journal.
COMMANDS = {
    "check": ("check", "JOURNAL", *ON),
    "make": ("make", "JOURNAL", *ON),
    "due": ("due", "JOURNAL", *ON, "--within", "300d"),
    "why": ("why", "smoke", "JOURNAL", *ON),
    "tree": ("tree", "smoke", "JOURNAL", *ON),
    "trees": ("trees", "JOURNAL", *ON),
    "places": ("places", "JOURNAL", *ON),
    "pots": ("pots", "JOURNAL", *ON),
    "stores": ("stores", "JOURNAL", *ON),
    "registers": ("registers", "JOURNAL", *ON),
    "visits": ("visits", "JOURNAL", *ON),
    "account": ("account", "marrow", "JOURNAL", *ON),
    "papers": ("papers", "marrow", "JOURNAL", *ON),
    "species": ("species", "JOURNAL"),
    "species-NAME": ("species", "trident maple", "JOURNAL", *ON),
    "reckon": ("reckon", "pot", "--inside", "36 x 28 x 12 cm"),
}
# Those whose JSON is held to the schema where there is a server, a diary to write or a dataset.
ELSEWHERE = {
    "jot": "jot/test_jot.py",
    "data": "data/test_given_out.py",
    "publish": "subscribe/test_refusals.py",
    "collect": "subscribe/test_collect.py",
    "weather": "services/test_naming.py",
    "nightly": "services/test_nightly.py",
    "since": "plan/test_since.py",
    "bring": "bring/test_command.py",
}
SUMS = ("pot", "mix", "wire", "feed", "roots", "water")


def said(*words: str) -> Any:
    out = StringIO()
    with redirect_stdout(out):
        assert main([*words, "--json"]) in (0, 1)
    return json.loads(out.getvalue())


def strict(published: Any) -> Any:
    """The schema with nothing allowed in an object but what it names, and all of that there."""
    if isinstance(published, list):
        return [strict(one) for one in published]
    if not isinstance(published, dict):
        return published
    parts = {key: strict(one) for key, one in published.items()}
    if "properties" in parts and "additionalProperties" not in parts:
        parts |= {"additionalProperties": False, "required": list(parts["properties"])}
    return parts


def validator(command: str) -> Draft202012Validator:
    published = strict(json.loads(SCHEMA.read_text("utf-8")))
    whole = {"$defs": published["$defs"], "$ref": f"#/$defs/backbud-{command}"}
    return Draft202012Validator(whole, format_checker=FormatChecker())


@pytest.fixture(scope="module")
def journal(tmp_path_factory: pytest.TempPathFactory) -> str:
    """The example, with a line that is a problem and one that is held back."""
    folder = tmp_path_factory.mktemp("schema") / "journal"
    shutil.copytree(EXAMPLE, folder, ignore=shutil.ignore_patterns("made", ".backbud"))
    with (folder / "diary" / "2026.txt").open("a", encoding="utf-8") as diary:
        diary.write("\n2026-05-19\nsmoke\n  wird      3 mm Al\n  unwired   left 1, NOT yet\n")
    return str(folder)


def asked(command: str, journal: str) -> Any:
    return said(*(journal if word == "JOURNAL" else word for word in COMMANDS[command]))


def test_the_published_schema_is_that_of_the_code() -> None:
    """Made anew by `python -m backbud.views.published ledger/backbud/views/schema.json`."""
    assert SCHEMA.read_text("utf-8") == schema()
    Draft202012Validator.check_schema(json.loads(schema()))


@pytest.mark.parametrize("command", COMMANDS)
def test_a_command_prints_what_the_schema_tells(command: str, journal: str) -> None:
    found = asked(command, journal)
    assert len(found) > 0
    validator(command).validate(found)


@pytest.mark.parametrize("name", SUMS)
def test_each_sum_prints_what_the_schema_tells(name: str, capsys: Any) -> None:
    with pytest.raises(SystemExit):
        main(["reckon", name, "--help"])
    (example,) = [ln for ln in capsys.readouterr().out.splitlines() if "  backbud reckon " in ln]
    validator("reckon").validate(said(*shlex.split(example)[1:]))


def test_every_command_that_prints_json_is_held_to_the_schema(capsys: Any) -> None:
    prints = set()
    for command in EVERY:
        with pytest.raises(SystemExit):
            main([command, "--help"])
        if "--json" in capsys.readouterr().out:
            prints.add(command)
    assert prints - {"reckon"} == {words[0] for words in COMMANDS.values()} - {"reckon"} | {
        *ELSEWHERE
    }
    tests = Path(__file__).parents[1]
    for command, test in ELSEWHERE.items():
        assert f'validator("{command}").validate(' in (tests / test).read_text("utf-8")


def test_another_shape_fails(journal: str) -> None:
    """A key too many, one too few, another type, and a day that is none."""
    right = asked("due", journal)
    for change in (
        {"more": 1},
        {"minutes": "20"},
        {"best": "soon"},
        {"state": "late"},
        {"because": "a reason"},
        {"until": None},
    ):
        wrong = deepcopy(right)
        wrong[0] |= change
        with pytest.raises(ValidationError):
            validator("due").validate(wrong)
    del right[0]["id"]
    with pytest.raises(ValidationError):
        validator("due").validate(right)


def test_every_object_and_every_command_says_what_it_is() -> None:
    defs = json.loads(SCHEMA.read_text("utf-8"))["$defs"]
    assert {f"backbud-{command}" for command in COMMANDS} <= defs.keys()
    assert [n for n, one in defs.items() if "properties" in one and not one["description"]] == []
    assert not [name for name in defs if name.endswith("View")]


def test_the_schema_is_not_loaded_to_print() -> None:
    import subprocess

    code = (
        "import sys; from backbud.views.published import as_json; as_json([1]); "
        "print([m for m in sys.modules if m.startswith(('jsonschema', 'backbud.plan'))])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"
