"""The command line: which commands there are, and how one is run and ends.

0 fine, 1 problems in the journal, 2 misuse, 3 not done to the end. Each command is a module of
`backbud.commands`; only the one that was asked for is imported.
"""

from __future__ import annotations

import os
import sys
from argparse import Namespace
from collections.abc import Sequence
from importlib import import_module

from backbud.commands.every import COMMANDS as COMMANDS
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import FAILED, FINE, MISUSE, Failed, Misuse
from backbud.say import CannotSay, warn

# They write what a person wrote; each file of it at once, whole.
WRITING = ("begin", "jot", "tidy", "collect", "papers", "weather", "nightly", "rest")


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit status."""
    words = sys.argv[1:] if arguments is None else list(arguments)
    parser = _parser(words)
    options = parser.parse_args(words)
    if not hasattr(options, "run"):
        parser.print_help()
        return MISUSE
    try:
        status: int = options.run(options)
    except Misuse as error:
        warn(f"backbud: {error}")
        return MISUSE
    except (CannotSay, Failed) as error:
        warn(f"backbud: {error}")
        return FAILED
    except BrokenPipeError:
        # The reader of our output went away, as `head` does.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FINE
    except KeyboardInterrupt:
        return 130
    except OSError as error:
        what = f"{error.filename}: " if error.filename else ""
        warn(f"backbud: {what}{error.strerror or error}. {_left(options)}.")
        return FAILED
    except Exception as error:
        from backbud.fault_report import last_word

        warn(f"backbud was stopped by {last_word(_journal_of(options), error, _left(options))}")
        return FAILED
    return status


def _left(options: Namespace) -> str:
    """What became of the journal in a run that failed."""
    from backbud.fault_report import UNCHANGED

    if options.command in WRITING:
        return "No file of the journal is half written"
    return UNCHANGED


def _journal_of(options: Namespace) -> str:
    """The journal's folder, where it can be told; else ""."""
    from backbud.commands.journal import folder_of

    try:
        return folder_of(getattr(options, "folder", ""))
    except (Misuse, OSError):
        return ""


def _parser(words: Sequence[str]) -> ArgumentParser:
    """The parser of every command; only the one that was asked for knows its options."""
    parser = ArgumentParser(
        prog="backbud",
        description="Compiles a plain-text care journal about bonsai into a calendar and pages.",
    )
    from backbud import __version__

    parser.add_argument("--version", action="version", version=f"backbud {__version__}")
    # With its name given, argparse needs not find out the width of the screen for it.
    commands = parser.add_subparsers(title="commands", metavar="COMMAND", prog="backbud")
    asked = next((word for word in words if not word.startswith("-")), "")
    for name, about in COMMANDS.items():
        one = commands.add_parser(name, help=about, description=about)
        if name == asked:
            module = import_module(f"backbud.commands.{name}")
            module.add_options(one)
            one.set_defaults(run=module.run, command=name)
            if "-h" in words or "--help" in words:
                from backbud.commands.examples import show_examples

                show_examples(one, name)
    return parser
