"""Where in the journal a list's mapping and its cards and days go: new files, side by side."""

from __future__ import annotations

import os

from backbud.jot.which_file import BROUGHT
from backbud.publish.disk import lstat
from backbud_grammar.handles import handle_of

_LONGEST_NAME = 60


def mapping_name(file: str) -> str:
    """The name of the mapping of a list, below the journal's folder. Of the list's own name only
    letters, digits and hyphens are taken.

    >>> mapping_name("../../Winter list (2).CSV")
    'brought/winter-list-2.csv.toml'
    """
    stem, extension = os.path.splitext(os.path.basename(file))
    end = handle_of(extension)
    return f"{BROUGHT}/{_plain(stem)}{f'.{end}' if end else ''}.toml"


def free_text_name(folder: str, file: str) -> str:
    """A name for the cards and days of a list at which nothing stands yet."""
    stem = _plain(os.path.splitext(os.path.basename(file))[0])
    name, count = f"{BROUGHT}/{stem}.txt", 2
    while lstat(os.path.join(folder, name)) is not None:
        name, count = f"{BROUGHT}/{stem}-{count}.txt", count + 1
    return name


def _plain(stem: str) -> str:
    return handle_of(f"x-{stem}").removeprefix("x-")[:_LONGEST_NAME].strip("-") or "list"
