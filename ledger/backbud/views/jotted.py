"""Lines that were jotted down: where they were put, and how each reads."""

from __future__ import annotations

from datetime import date

from msgspec import Struct


class AskView(Struct, frozen=True):
    """What was not understood in a line, and what to do about it, "" where nobody knows.

    `elsewhere`: the line of the diary that the new one makes a problem of (`diary/2027.txt:12`), ""
    where it is the new one itself.
    """

    message: str
    hint: str
    elsewhere: str


class JottedView(Struct, frozen=True):
    """One line as it reads.

    `subjects`, `line`: as they stand in the diary. `trees`: the handles that are meant. `act`: in
    its past form, "" where none was understood or it is held back. `details`: each as written.
    `kept`: the words that were not used. `asks`: what was not understood.
    """

    subjects: str
    line: str
    trees: tuple[str, ...]
    act: str
    details: tuple[str, ...]
    kept: tuple[str, ...]
    remark: str
    asks: tuple[AskView, ...]


class JottingView(Struct, frozen=True):
    """What `backbud jot` put into the diary, and how it reads. `new_page`, `new_file`: whether the
    page, the file was made. `written`: the new lines as they stand there."""

    file: str
    day: date
    new_page: bool
    new_file: bool
    written: tuple[str, ...]
    lines: tuple[JottedView, ...]
