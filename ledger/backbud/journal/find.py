"""Finds the journal that a folder belongs to, and the text files in it that are read.

Links are never followed and git is never run: the journal may come from anybody.
"""

from __future__ import annotations

import os
from collections.abc import Mapping

from msgspec import Struct

from backbud.journal.ignore import Ignores, ignored, read_ignore
from backbud.journal.settings import SETTINGS_FILE
from backbud.publish import DEEPEST, OUTPUTS
from backbud_grammar.problems import Flaw


class NotAJournal(Exception):
    """The folder holds no journal, or cannot be read; the sentence says which."""


def journal_in(folder: str) -> str:
    """Return the absolute path of a folder that holds a journal; else NotAJournal."""
    if not os.path.isfile(os.path.join(folder, SETTINGS_FILE)):
        raise NotAJournal(f"{folder} holds no journal (no {SETTINGS_FILE}).")
    return os.path.abspath(folder)


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


class Found(Struct, frozen=True):
    """What lies below a journal's folder: the text files, and what was passed over and why.

    Names are relative with `/`, sorted.
    """

    files: tuple[str, ...]
    passed_over: Mapping[str, Flaw]


def find_files(journal: str) -> Found:
    """Return the text files below the journal's folder.

    Left out without a word: folders whose names begin with a dot, the folders of output, what a
    `.gitignore` names. Git itself is never run. Links are passed over, with a word. OSError
    where the journal's folder itself cannot be read.
    """
    found: list[str] = []
    passed_over: dict[str, Flaw] = {}
    _walk(journal, "", (), found, passed_over)
    return Found(tuple(sorted(found)), dict(sorted(passed_over.items())))


def _walk(
    journal: str,
    below: str,
    ignores: Ignores,
    found: list[str],
    passed_over: dict[str, Flaw],
) -> None:
    folder = os.path.join(journal, below) if below else journal
    try:
        entries = sorted(os.scandir(folder), key=lambda entry: entry.name)
    except OSError as error:
        if not below:
            raise
        passed_over[below] = Flaw(
            "unreadable",
            0,
            1,
            1,
            f"this folder cannot be read: {error.strerror}",
            "Its files are missing here.",
        )
        return
    if any(
        entry.name == ".gitignore" and entry.is_file(follow_symlinks=False) for entry in entries
    ):
        read = read_ignore(os.path.join(folder, ".gitignore"))
        ignores = (*ignores, (below, read.spec))
        if read.flaw is not None:
            passed_over[f"{below}/.gitignore".lstrip("/")] = read.flaw
    for entry in entries:
        name = f"{below}/{entry.name}" if below else entry.name
        is_text = entry.name.lower().endswith(".txt")
        is_folder = entry.is_dir(follow_symlinks=False)
        if entry.name.startswith(".") or (name in OUTPUTS and is_folder):
            continue
        if ignores and ignored(name + ("/" if is_folder else ""), ignores):
            continue
        if not _is_unicode(entry.name):
            if is_folder or is_text:
                shown = name.encode(errors="surrogateescape").decode(errors="backslashreplace")
                passed_over[shown] = Flaw(
                    "bad-file-name",
                    0,
                    1,
                    1,
                    "this name is not UTF-8",
                    "It was left out. Give it another name.",
                )
        elif is_folder and name.count("/") >= DEEPEST:
            passed_over[name] = Flaw(
                "too-deep",
                0,
                1,
                1,
                f"this folder lies more than {DEEPEST} folders down, and was left out",
                "Move what is in it further up.",
            )
        elif is_folder:
            _walk(journal, name, ignores, found, passed_over)
        elif entry.is_symlink() and (is_text or _leads_to_folder(entry)):
            passed_over[name] = Flaw(
                "link",
                0,
                1,
                1,
                "this is a link and was not followed",
                "Everything of a journal lies in its own folder.",
            )
        elif is_text and entry.is_file(follow_symlinks=False):
            found.append(name)


def would_be_read(journal: str, name: str) -> bool:
    """Whether no `.gitignore` that is there would leave out a file of this name."""
    ignores: Ignores = ()
    *folders, _ = parts = name.split("/")
    for n in range(len(parts)):
        below = "/".join(folders[:n])
        path = os.path.join(journal, below, ".gitignore")
        if os.path.isfile(path) and not os.path.islink(path):
            ignores = (*ignores, (below, read_ignore(path).spec))
        inside = "/".join(parts[: n + 1])
        if ignores and ignored(inside if inside == name else f"{inside}/", ignores):
            return False
    return True


def _leads_to_folder(link: os.DirEntry[str]) -> bool:
    """Whether a link leads to a folder; one that leads round in a ring leads nowhere."""
    try:
        return link.is_dir()
    except OSError:
        return False


def _is_unicode(name: str) -> bool:
    """Whether a name has none of the stand-ins for bytes that are no text."""
    return name.isascii() or not any("\ud800" <= char <= "\udfff" for char in name)
