"""Refuses to publish when a file that gave something before is there and gives nothing now.

Half a journal must not pass for a whole one: its trees would leave the pages and the calendars.
Deleting a file is a keeper's right; a file that is there and gives nothing is most likely an
accident. What was never read is no loss, so a lost memory refuses nothing.
"""

from __future__ import annotations

import os
import stat
import tomllib
from collections.abc import Iterator

from backbud.journal.remember import keep_names, recall_names
from backbud.journal.settings import SETTINGS_FILE
from backbud.publish.memory import MemoryOf
from backbud.publish.refused import PublishError
from backbud.session import Session
from backbud_grammar.problems import Problem

# The names of the files that gave something to the last run that published.
READ_FILE = "read"
_MARK = "backbud read 1"
# A problem with one of these codes means that a whole file, or folder, is missing from what was
# read.
WHOLE_FILES = ("unreadable", "binary-file", "large-file", "link")


class Broken(PublishError):
    """The journal cannot be read as a whole; what was made last is better than half of it.

    `problems`: every one; `lost`: those for which something is missing.
    """

    def __init__(
        self,
        sentence: str,
        problems: tuple[Problem, ...] = (),
        lost: tuple[Problem, ...] = (),
    ) -> None:
        super().__init__(sentence)
        self.problems, self.lost = problems, lost


def check_settings(folder: str) -> None:
    """Raise Broken where the settings cannot be read: with other ones every page would change."""
    if not os.path.isdir(folder):
        raise Broken("The journal's folder is not there.")
    try:
        with open(os.path.join(folder, SETTINGS_FILE), "rb") as file:
            tomllib.load(file)
    except OSError as error:
        raise Broken(f"{SETTINGS_FILE} cannot be read: {error.strerror}.") from None
    except (ValueError, RecursionError) as error:
        raise Broken(f"{SETTINGS_FILE} is not TOML: {error}.") from None


def check_whole(session: Session) -> None:
    """Raise Broken where a file that was read before gives nothing now, though it is there."""
    journal = session.journal
    before = _read_before(journal.memory)
    if not before:
        return
    if SETTINGS_FILE in before:
        check_settings(journal.folder)
    problems = session.problems()
    lost = tuple(_lost(session, before, problems))
    if lost:
        files = ", ".join(dict.fromkeys(problem.file for problem in lost))
        others = (problem for problem in problems if problem not in lost)
        raise Broken(f"Not read as a whole: {files}.", (*lost, *others), lost)


def remember_read(session: Session) -> None:
    """Remember which files gave something, once the output is published."""
    memory, unread = session.journal.memory, _unread(session.problems())
    read = frozenset(
        name for name, text in session.texts.items() if text.strip() and name not in unread
    )
    if read != _read_before(memory):
        keep_names(memory, READ_FILE, _MARK, read)


def _read_before(memory: MemoryOf) -> frozenset[str]:
    return recall_names(memory, READ_FILE, _MARK)


def _unread(problems: tuple[Problem, ...]) -> set[str]:
    return {problem.file for problem in problems if problem.code in WHOLE_FILES}


def _lost(
    session: Session, before: frozenset[str], problems: tuple[Problem, ...]
) -> Iterator[Problem]:
    """A problem for each file, or folder of files, that was read before and gives nothing now."""
    folder, texts = session.journal.folder, session.texts
    for problem in problems:
        inside = f"{problem.file}/"
        if problem.code in WHOLE_FILES and any(
            name == problem.file or name.startswith(inside) for name in before
        ):
            yield problem
    told = {"", *_unread(problems)}
    for name in sorted(before - told):
        if name in texts and not texts[name].strip():
            yield _problem("empty-file", name, "this file is empty, and was not")
        elif name not in texts and _is_no_file(os.path.join(folder, name)):
            yield _problem("no-file", name, "this is no file, and was one")
        elif name not in texts and (above := _no_folder_above(folder, name)) not in told:
            yield _problem("no-folder", above, f"this is no folder, and {name} was in it")


def _is_no_file(path: str) -> bool:
    """Whether something stands there that cannot be read as a file: a folder, a pipe, a device."""
    try:
        return not stat.S_ISREG(os.lstat(path).st_mode)
    except OSError:
        return False


def _no_folder_above(folder: str, name: str) -> str:
    """The folder of a name that is something else now; "" where each is one, or gone."""
    parts = name.split("/")
    for n in range(1, len(parts)):
        above = "/".join(parts[:n])
        try:
            mode = os.lstat(os.path.join(folder, above)).st_mode
        except OSError:
            return ""
        if not stat.S_ISDIR(mode):
            return above
    return ""


def _problem(code: str, name: str, message: str) -> Problem:
    return Problem(
        code,
        "error",
        name,
        1,
        1,
        1,
        message,
        "If that is meant, delete it, or give it another name.",
        "",
    )
