"""The help of each command fits a screen and ends with examples that work in the example journal;
the manual page and what shells complete are made of the same."""

from __future__ import annotations

import os
import shlex
import shutil
import subprocess
import sys
from importlib import import_module
from pathlib import Path

import pytest
from tests.project.test_example import EXAMPLE

from backbud.cli import COMMANDS, main
from backbud.commands.completion import SCRIPTS
from backbud.commands.examples import EXAMPLES
from backbud.commands.man import man_lines
from backbud.commands.next_words import next_words
from backbud.commands.parser import ArgumentParser

# They wait for something: a browser, a server, an editor.
_WAITING = {"watch", "publish", "collect", "editor"}
_SCREEN = (40, 100)


@pytest.fixture(scope="module")
def journal(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("help") / "example_journal"
    shutil.copytree(EXAMPLE, folder, ignore=shutil.ignore_patterns("made", ".backbud"))
    by = ("git", "-c", "user.name=x", "-c", "user.email=x@example.org")
    for words in (("init", "-q"), ("add", "cards"), ("commit", "-q", "-m", "The cards")):
        subprocess.run([*by, *words], cwd=folder, check=True)
    return folder


@pytest.mark.parametrize("command", COMMANDS)
def test_the_help_of_a_command_is_one_screen_with_an_example(
    command: str, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", str(_SCREEN[1]))
    with pytest.raises(SystemExit):
        main([command, "--help"])
    lines = capsys.readouterr().out.splitlines()
    assert len(lines) <= _SCREEN[0], command
    assert max(map(len, lines)) <= _SCREEN[1]
    assert any(line.startswith(f"  backbud {command}") for line in lines), command


EVERY = [line for name, lines in EXAMPLES.items() if name not in _WAITING for line, _ in lines]


@pytest.mark.parametrize("line", EVERY)
def test_an_example_works_in_the_example_journal(
    line: str, journal: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(journal)
    try:
        status = main(shlex.split(line)[1:])
    except SystemExit as end:  # --help
        status = int(end.code or 0)
    told = capsys.readouterr()
    # Without a yes to them the plugins stay untrusted: not all that was asked for was done.
    assert status == (1 if line == "backbud trust" else 0), told.err
    assert told.out.strip()


def test_the_manual_page_is_sound_roff_and_names_everything() -> None:
    """groff finds nothing to warn of."""
    made = "\n".join(man_lines()) + "\n"
    done = subprocess.run(
        ["groff", "-man", "-ww", "-Tutf8", "-P-cbou"],
        input=made.encode(),
        capture_output=True,
        check=True,
    )
    assert done.stderr == b""
    shown = " ".join(done.stdout.decode().split())
    for name, about in COMMANDS.items():
        assert f"{about[0].upper()}{about[1:]}." in shown, name
    assert "--take-over" in shown and "EXIT STATUS" in shown
    assert "ENVIRONMENT BACKBUD_CONFIG your own folder for settings" in shown
    assert "For example (in made/data-for-helper/):" in shown


@pytest.mark.parametrize("command", COMMANDS)
def test_every_option_and_word_of_a_command_has_a_help_of_its_own(command: str) -> None:
    parser = ArgumentParser(prog=command)
    import_module(f"backbud.commands.{command}").add_options(parser)
    assert [action.dest for action in parser._actions if not (action.help or action.choices)] == []


def test_an_unknown_shell_is_told_of_the_shells_alone(capsys: pytest.CaptureFixture[str]) -> None:
    for words, told in (
        (["csh"], "argument SHELL: invalid choice: 'csh' (choose from 'bash', 'zsh', 'fish')\n"),
        ([], "the following arguments are required: SHELL\n"),
    ):
        with pytest.raises(SystemExit):
            main(["completion", *words])
        assert capsys.readouterr().err == (
            f"usage: backbud completion [-h] SHELL\nbackbud completion: error: {told}"
        )


def test_what_a_word_can_become(monkeypatch: pytest.MonkeyPatch, journal: Path) -> None:
    monkeypatch.chdir(journal)
    assert next_words(["du"]) == ("due",)
    assert next_words(["due", "--tr"]) == ("--tree",)
    assert next_words(["due", "--tree", "he"]) == ("heron",)
    assert next_words(["tree", "an"]) == ("anvil",)
    assert next_words(["account", "ma"]) == ("marrow",)
    assert next_words(["trees", "--in", "tu"]) == ("tunnel",)
    assert next_words(["registers", "--only", ""]) == ("plants", "stock", "treatments", "unpaid")
    assert next_words(["data", "--for", "h"]) == ("helper",)
    # The next word is a folder, or there is none: the shell knows those.
    assert next_words(["due", ""]) == next_words(["nothing", "x"]) == ()
    # Behind a tree stands its work, not another tree.
    assert next_words(["why", "he"]) == ("heron",)
    assert next_words(["why", "heron", ""]) == ()
    assert next_words(["completion", ""]) == ("bash", "fish", "zsh")


def test_handles_of_a_stranger_s_journal_hold_no_control_characters(tmp_path: Path) -> None:
    (tmp_path / "backbud.toml").write_text("language = 1\n")
    (tmp_path / "a.txt").write_text("tree he\x1b[31mron\ntree $(id)\ntree yuki\n")
    (tmp_path / "b.txt").symlink_to("/etc/passwd")
    os.mkfifo(tmp_path / "c.txt")
    assert next_words(["due", str(tmp_path), "--tree", ""]) == ("yuki",)


def in_shell(program: list[str], script: str, journal: Path) -> list[str]:
    here = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    done = subprocess.run(
        [*program, script],
        cwd=journal,
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "PATH": here},
    )
    return done.stdout.split()


def test_bash_completes(journal: Path) -> None:
    asked = f"{SCRIPTS['bash']}\nCOMP_WORDS=(backbud due --tree he); COMP_CWORD=3; _backbud\n"
    assert in_shell(["bash", "-c"], f'{asked}printf "%s\\n" "${{COMPREPLY[@]}}"', journal) == [
        "heron"
    ]


def test_zsh_completes(journal: Path) -> None:
    # compadd stands in for the line editor, which wants a terminal.
    stub = "compdef() { :; }; compadd() { shift; print -l ${(P)1}; }; words=(backbud tree an)\n"
    asked = f"{stub}CURRENT=3\n{SCRIPTS['zsh']}\n_backbud"
    assert in_shell(["zsh", "-f", "-c"], asked, journal) == ["anvil"]


def test_fish_completes(journal: Path) -> None:
    asked = f"{SCRIPTS['fish']}\ncomplete --do-complete 'backbud tree an'"
    assert in_shell(["fish", "--no-config", "-c"], asked, journal) == ["anvil"]
