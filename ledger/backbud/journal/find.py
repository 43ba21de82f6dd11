"""A journal's folder goes in; the names of the files to read come out, and what was passed over."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from backbud.journal.settings import SETTINGS_FILE
from backbud.publish import MADE

if TYPE_CHECKING:
    from pathspec import GitIgnoreSpec

Ignores = tuple[tuple[str, "GitIgnoreSpec"], ...]


def find_journal(start: str) -> str | None:
    """Return the nearest folder upward from `start` that holds a backbud.toml, or None."""
    folder = os.path.abspath(start)
    while True:
        if os.path.isfile(os.path.join(folder, SETTINGS_FILE)):
            return folder
        parent = os.path.dirname(folder)
        if parent == folder:
            return None
        folder = parent


def find_files(journal: str) -> tuple[list[str], list[str]]:
    """Return the text files below the journal's folder, and the links that were not followed.

    Both are relative names with `/`, sorted. Left out: folders whose names begin with a dot, the
    output folder, what a `.gitignore` names. Git itself is never run.
    """
    found: list[str] = []
    links: list[str] = []
    _walk(journal, "", (), found, links)
    return sorted(found), sorted(links)


def _walk(
    journal: str, below: str, ignores: Ignores, found: list[str], links: list[str]
) -> None:
    folder = os.path.join(journal, below) if below else journal
    try:
        entries = sorted(os.scandir(folder), key=lambda entry: entry.name)
    except OSError:
        return
    if any(entry.name == ".gitignore" and entry.is_file(follow_symlinks=False)
           for entry in entries):
        ignores = (*ignores, (below, _read_ignore(os.path.join(folder, ".gitignore"))))
    for entry in entries:
        name = f"{below}/{entry.name}" if below else entry.name
        is_folder = entry.is_dir(follow_symlinks=False)
        if entry.name.startswith(".") or (name == MADE and is_folder):
            continue
        if ignores and _ignored(name + ("/" if is_folder else ""), ignores):
            continue
        if is_folder:
            _walk(journal, name, ignores, found, links)
        elif entry.is_symlink() and (entry.name.endswith(".txt") or entry.is_dir()):
            links.append(name)
        elif entry.name.endswith(".txt") and entry.is_file(follow_symlinks=False):
            found.append(name)


def _read_ignore(path: str) -> GitIgnoreSpec:
    from pathspec import GitIgnoreSpec

    with open(path, encoding="utf-8", errors="replace") as file:
        return GitIgnoreSpec.from_lines(file.read().splitlines())


def _ignored(name: str, ignores: Ignores) -> bool:
    """Whether the deepest .gitignore that speaks of the name leaves it out."""
    for below, spec in reversed(ignores):
        inside = name[len(below) + 1 :] if below else name
        verdict = spec.check_file(inside).include
        if verdict is not None:
            return verdict
    return False
