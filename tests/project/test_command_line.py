"""A command line is understood whatever the order of its words and options."""

from __future__ import annotations

from itertools import permutations
from pathlib import Path

import pytest

from backbud.cli import main

ON = "--on=2027-01-01"


@pytest.fixture
def journal(tmp_path: Path) -> str:
    (tmp_path / "backbud.toml").write_text("language = 1\n")
    (tmp_path / "a.txt").write_text("place yard\n  latitude 52 N\ntree elm\n  kind trident maple\n")
    return str(tmp_path)


@pytest.mark.parametrize(
    ("command", "words", "options"),
    [
        ("tree", ["elm", "JOURNAL"], ["--json", ON]),
        ("why", ["elm", "JOURNAL"], [ON]),
        ("species", ["trident", "maple", "JOURNAL"], ["--json"]),
        ("due", ["JOURNAL"], ["--json", ON, "--tree=elm"]),
    ],
)
def test_options_may_stand_between_the_words(
    journal: str,
    capsys: pytest.CaptureFixture[str],
    command: str,
    words: list[str],
    options: list[str],
) -> None:
    given = [journal if word == "JOURNAL" else word for word in words]
    assert main([command, *given, *options]) == 0
    told = capsys.readouterr().out
    assert "elm" in told or "trident maple" in told
    for order in permutations((*given, *options)):
        if [word for word in order if word in given] == given:
            assert main([command, *order]) == 0
            assert capsys.readouterr().out == told, order


def test_what_is_too_much_is_told(journal: str, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as left:
        main(["tree", "elm", "--json", journal, "more"])
    assert left.value.code == 2
    assert capsys.readouterr().err.endswith("unrecognized arguments: more\n")
