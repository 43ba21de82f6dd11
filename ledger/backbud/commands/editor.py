"""`backbud editor`: serve an editor by the language server protocol."""

from __future__ import annotations

from argparse import Namespace, RawDescriptionHelpFormatter
from datetime import date

from backbud.commands.journal import day_of, day_option
from backbud.commands.parser import ArgumentParser
from backbud.commands.status import FINE

ABOUT = """\
A language server: an editor starts it, and speaks with it over standard input and output (Language
Server Protocol 3.17). It shows problems as you type, with fixes; completes handles, acts, details
and units; says what a tree is, what is due, and what a line led to; finds and renames handles.

It reads the journal that the open file lies in, as the editor has it. It writes nothing itself:
what it would change the editor changes. Code in plugins/ runs only where you trusted it, git never.
"""
EXAMPLE = """\
for example, in Neovim (the README has the lines for Emacs too):
  vim.lsp.start({ name = "backbud", cmd = { "backbud", "editor" } })
"""


def add_options(parser: ArgumentParser) -> None:
    """The day that counts as today."""
    parser.description, parser.epilog = ABOUT, EXAMPLE
    parser.formatter_class = RawDescriptionHelpFormatter
    day_option(parser, "take this day for today (2027-03-06)")


def run(options: Namespace) -> int:
    """Serve until the editor goes away."""
    from backbud.editor.serving import serve

    day, asked = day_of(options)
    serve((lambda: day) if asked else date.today)
    return FINE
