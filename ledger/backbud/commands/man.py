"""`backbud man`: the manual man_lines, made from the help of each command."""

from __future__ import annotations

from argparse import Namespace, _SubParsersAction
from collections.abc import Iterator
from importlib import import_module

from backbud.commands.every import COMMANDS
from backbud.commands.examples import EXAMPLES
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import FINE
from backbud.say import say

_INTRO = (
    "Compiles a plain-text care journal about bonsai: from dated entries it works out what was "
    "done to each tree, what is on it, and what falls due next in this place, this year; and it "
    "makes calendars to subscribe to and pages to read and print. Each command takes the journal's "
    "folder, or the one it is called in."
)
_STATUS = (
    ("0", "all is well"),
    ("1", "the journal has problems, or not all that was asked for was done"),
    ("2", "the command cannot be carried out as it was given"),
    ("3", "it could not be carried through: the disk refused, another run was at work, or backbud "
     "itself had a fault"),
)  # fmt: skip
_ENVIRONMENT = (
    ("BACKBUD_CONFIG", "your own folder for settings, with the secret that marks what is yours and "
     "what you trust (without it the system's: ~/.config/backbud on Linux)"),
    ("BACKBUD_CALDAV_USER, BACKBUD_CALDAV_PASSWORD", "name and password for publish and collect"),
    ("NO_COLOR", "where it is set, nothing in a terminal is bold"),
)  # fmt: skip
_FILES = (
    ("backbud.toml", "the settings; its folder is the journal"),
    ("*.txt", "cards and diary, in any layout"),
    ("made/", "what make writes"),
    (".backbud/", "what is remembered; may be deleted at any time"),
)


def add_options(parser: ArgumentParser) -> None:
    """None."""


def run(options: Namespace) -> int:
    """Print the page."""
    say(*man_lines())
    return FINE


def man_lines() -> Iterator[str]:
    """The lines of the manual man_lines, in the macros of man(7)."""
    from backbud import __version__

    yield f'.TH BACKBUD 1 "" "backbud {__version__}" "User Commands"'
    yield from (".SH NAME", r"backbud \- compile a care journal about bonsai")
    yield from (".SH SYNOPSIS", r".B backbud", r".I COMMAND", r"[\fIoptions\fR]")
    yield from (".SH DESCRIPTION", _text(_INTRO), ".SH COMMANDS")
    for name, about in COMMANDS.items():
        yield from _command(name, about)
    yield ".SH EXIT STATUS"
    yield from _listed(_STATUS)
    yield ".SH ENVIRONMENT"
    yield from _listed(_ENVIRONMENT)
    yield ".SH FILES"
    yield from _listed(_FILES)


def _command(name: str, about: str) -> Iterator[str]:
    parser = ArgumentParser(prog=f"backbud {name}")
    import_module(f"backbud.commands.{name}").add_options(parser)
    yield f".SS {name}"
    yield _text(f"{about[0].upper()}{about[1:]}.")
    usage = " ".join(parser.format_usage().removeprefix("usage: ").split())
    yield from (".PP", rf"\fB{_text(usage)}\fR")
    for action in parser._actions:
        if isinstance(action, _SubParsersAction):
            sums = ", ".join(action.choices)
            yield from (".TP", rf"\fI{_text(str(action.metavar or action.dest))}\fR")
            yield _text(f"one of {sums}; each has a --help of its own")
        elif action.dest != "help" and action.metavar != "":
            said = ", ".join(action.option_strings)
            value = "" if action.nargs == 0 and said else str(action.metavar or action.dest)
            yield from (".TP", rf"\fB{_text(said)}\fR \fI{_text(value)}\fR".replace(r"\fB\fR ", ""))
            yield _text(str(action.help) % {"default": action.default})
    for line, does in EXAMPLES.get(name, ()):
        yield from (
            ".PP",
            _text(f"For example ({does}):"),
            ".PP",
            ".EX",
            f"    {_text(line)}",
            ".EE",
        )


def _listed(rows: tuple[tuple[str, str], ...]) -> Iterator[str]:
    for name, about in rows:
        yield from (".TP", rf"\fB{_text(name)}\fR", _text(about))


# What roff would take for something else than the sign itself, in words.
_SIGNS = str.maketrans({"\\": "\\e", "-": "\\-", "~": "\\(ti", "^": "\\(ha"})


def _text(words: str) -> str:
    """Words as roff takes them for words."""
    ascii_only = (
        one if one.isascii() else rf"\[u{ord(one):04X}]" for one in words.translate(_SIGNS)
    )
    plain = "".join(ascii_only)
    return rf"\&{plain}" if plain.startswith((".", "'")) else plain
