"""Reads the bytes of a file and makes of them what all else relies on: UTF-8, `\\n` line ends."""

from __future__ import annotations

import os

from msgspec import Struct

from backbud_grammar.problems import Flaw

# More than any hand writes; what is larger is some other file.
LARGEST_FILE = 256 * 1024 * 1024


class Loaded(Struct, frozen=True):
    """A file's text as UTF-8 with `\\n` line ends, and what was wrong with its bytes."""

    data: bytes
    flaws: tuple[Flaw, ...] = ()


# What a file begins with that is no UTF-8 (The Unicode Standard, section 23.8).
_OTHER_MARKS = {
    "UTF-32": (b"\xff\xfe\0\0", b"\0\0\xfe\xff"),
    "UTF-16": (b"\xff\xfe", b"\xfe\xff"),
}


def load(folder: str, name: str) -> Loaded:
    """Read one file's bytes; what is no UTF-8 text is a flaw, and as much as can be is kept."""
    try:
        with open(os.path.join(folder, name), "rb") as file:
            if os.fstat(file.fileno()).st_size > LARGEST_FILE:
                return _left_out(
                    "large-file", "this file is too large for a journal", "It was left out."
                )
            data = file.read()
    except OSError as error:
        return _left_out(
            "unreadable",
            f"this file cannot be read: {error.strerror}",
            "Its lines are missing here. May you read it?",
        )
    return loaded_from(data)


def loaded_from(data: bytes) -> Loaded:
    """The text that the bytes of a file are."""
    # UTF-32 first: its mark begins as that of UTF-16.
    for encoding, marks in _OTHER_MARKS.items():
        if data.startswith(marks):
            return _left_out("binary-file", f"this file is {encoding}", "Save it as UTF-8.")
    data = data.removeprefix(b"\xef\xbb\xbf")
    if b"\r" in data:
        data = data.replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    if b"\0" not in data:
        if data.isascii():
            return Loaded(data)
        try:
            data.decode()
        except UnicodeDecodeError:
            return _mended(data)
        return Loaded(data)
    if not data.strip(b"\0\n"):
        return _left_out(
            "binary-file",
            "this file holds nothing but nought bytes",
            "A power cut or a copy may have spoiled it. Put a copy of yours in its place.",
        )
    # A power cut can leave noughts at the end of a file that is sound otherwise.
    if _is_binary(data):
        return _left_out(
            "binary-file", "this is no text file", "It was left out. Only UTF-8 text ends in .txt."
        )
    return _mended(data)


def _left_out(code: str, message: str, hint: str) -> Loaded:
    return Loaded(b"", (Flaw(code, 0, 1, 1, message, hint),))


def _is_binary(data: bytes) -> bool:
    """Whether noughts are scattered all over, or stand among other bytes that are no text."""
    text = data.rstrip(b"\0\n")
    if 20 * text.count(b"\0") > len(text):
        return True
    try:
        text.decode()
    except UnicodeDecodeError:
        return b"\0" in text
    return False


def _mended(data: bytes) -> Loaded:
    """Put a sign in the place of what is no text, so that every other line is read."""
    lines = data.split(b"\n")
    flaws: list[Flaw] = []
    for number, line in enumerate(lines):
        if b"\0" in line:
            column = len(line[: line.index(b"\0")].decode(errors="replace")) + 1
            flaws.append(
                Flaw(
                    "no-text",
                    number,
                    column,
                    1,
                    "this is no letter but a nought byte",
                    "Take it out; what stands around it was read.",
                )
            )
            # A line of nothing else says nothing.
            line = (
                line.replace(b"\0", "\N{REPLACEMENT CHARACTER}".encode())
                if (line.strip(b"\0"))
                else b""
            )
            lines[number] = line
        try:
            line.decode()
        except UnicodeDecodeError as error:
            column = len(line[: error.start].decode()) + 1
            flaws.append(
                Flaw(
                    "not-utf-8",
                    number,
                    column,
                    1,
                    "this letter is not UTF-8",
                    "Save the file as UTF-8; the letter was read as \N{REPLACEMENT CHARACTER}.",
                )
            )
            lines[number] = line.decode(errors="replace").encode()
    # The lines that problems show are the mended ones.
    return Loaded(b"\n".join(lines), tuple(flaws))
