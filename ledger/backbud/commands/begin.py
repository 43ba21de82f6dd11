"""`backbud begin`: start a journal that compiles and explains itself, in a new folder."""

from __future__ import annotations

import os
import secrets
from argparse import Namespace
from collections.abc import Iterator
from datetime import date

from backbud.commands.parser import ArgumentParser
from backbud.commands.repository import begin_repository, can_begin_repository
from backbud.commands.status import FINE, Misuse
from backbud.journal.settings import SETTINGS_FILE
from backbud.say import say
from backbud_grammar.languages import LANGUAGE

_SETTINGS = """\
# The settings of this journal. The lines that begin with # are for you.
language = {language}
name = "My trees"
home = "yard"              # the place card of the place where you are
keeper = "keeper"          # your own person card
currency = "EUR"           # what an amount is in when it names no currency
hours_per_week = 10        # what you have for the trees
journal_id = "{journal_id}"   # ends every calendar entry's id; never change it
"""

_CARDS = """\
# What exists: one card each. A card begins at the left edge with its kind and its handle,
# the short name you use for it in the diary. The lines below it are indented.
# A card says what was so at the start. What changes later is an act in the diary.

person keeper
  name      Your name

place yard
  name      The yard
  cover     open
  # Put your own here: the seasons hang on it. In the south 37.8 S; or instead of it
  # the nearest town, such as: town  Seattle
  latitude  52 N

place glass
  name      The cold house
  within    yard
  cover     unheated glass

mix maple
  akadama   2
  pumice    1
  lava      1

pot tray-1
  shape     rectangle
  inside    38 x 27 x 7 cm
  holes     2

tree first
  name      The first one
  kind      trident maple
  since     {year}
  place     yard
  pot       tray-1
  trunk     4 cm
"""

_IGNORED = """\
# Compiled anew at any time.
made/
made-on/
made-aside/
.backbud/
# What editors leave behind.
*~
.*.sw?
\\#*#
.DS_Store
"""

_DIARY = """\
# What happened: a date at the left edge, then the tree's handle, then what was done, indented.
# An act is one word and then details with commas; free words stand after two hyphens.
# Every act and what it takes: grammar/README.md in the backbud sources.

{today}   low 4 C, high 11 C

first
  checked   strength
  wired     2 mm Al on left 1 -- the lowest branch
  noted     buds are set well; the left side is thinner than the right
"""


def add_options(parser: ArgumentParser) -> None:
    """The folder that is to become a journal."""
    parser.add_argument("folder", metavar="FOLDER", help="the new journal: a new or empty folder")
    about = "make it a git repository, too; nothing is committed"
    parser.add_argument("--git", action="store_true", help=about)
    about = "with --git: have check told before each commit, which it never stops"
    parser.add_argument("--hook", action="store_true", help=about)


def run(options: Namespace) -> int:
    """Start the journal and name its files."""
    if not options.folder:
        raise Misuse("a journal needs a folder of its own: backbud begin FOLDER")
    if options.hook and not options.git:
        raise Misuse("a hook belongs to a git repository: backbud begin FOLDER --git --hook")
    if options.git and not can_begin_repository():
        raise Misuse(
            "neither dulwich nor git is installed, so no repository can be made; nothing was "
            "written. Either of them serves: pip install dulwich"
        )
    try:
        written = begin(options.folder, date.today())
        if options.git:
            begin_repository(options.folder, hook=options.hook)
    except FileExistsError as error:
        raise Misuse(
            f"{error.filename or options.folder} is there already; choose a new or empty folder"
        ) from None
    except OSError as error:
        raise Misuse(f"{options.folder} cannot be made: {error.strerror}") from None
    say(
        f"A journal is in {options.folder}:",
        *(f"  {name}" for name in written),
        *_on_the_repository(options),
        f"Write in it with any text editor. Then: backbud make {options.folder}",
    )
    return FINE


def _on_the_repository(options: Namespace) -> Iterator[str]:
    if options.git:
        yield "It is a git repository; nothing is committed yet."
    if options.hook:
        yield "Before each commit check tells what is wrong, and stops nothing."


def begin(folder: str, today: date) -> list[str]:
    """Write a new journal and return its files' names.

    FileExistsError where the folder holds anything already; OSError where it cannot be made.
    """
    if os.path.exists(folder) and (not os.path.isdir(folder) or os.listdir(folder)):
        raise FileExistsError(17, "exists", folder)
    filled = {
        SETTINGS_FILE: _SETTINGS.format(language=LANGUAGE, journal_id=secrets.token_hex(6)),
        "cards/all.txt": _CARDS.format(year=today.year - 3),
        f"diary/{today.year}.txt": _DIARY.format(today=today.isoformat()),
        ".gitignore": _IGNORED,
    }
    for name, text in filled.items():
        path = os.path.join(folder, name)
        os.makedirs(os.path.dirname(path), exist_ok=True)
        with open(path, "x", encoding="utf-8") as file:
            file.write(text)
    return list(filled)
