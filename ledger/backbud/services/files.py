"""Puts a weather file into a journal's folder `weather`, whole, and only where it differs."""

from __future__ import annotations

import os

from backbud.journal.weather.arrived import FOLDER


def put(journal: str, name: str, text: str) -> bool:
    """Write the file; whether it is another one now. PublishError where a link is in the way."""
    from backbud.publish.disk import check_file, make_real_folder, write_whole

    folder = os.path.join(journal, FOLDER)
    make_real_folder(folder, FOLDER)
    base = os.path.basename(name)
    path = os.path.join(folder, base)
    check_file(path, name)
    content = text.encode()
    if text_of_file(journal, name) == text:
        return False
    write_whole(folder, base, content)
    return True


def text_of_file(journal: str, name: str) -> str | None:
    """The text of such a file; None where there is none that can be read."""
    from backbud.publish.plain import read_plain

    try:
        found = read_plain(journal, name)
        return None if found is None else found.decode()
    except (OSError, ValueError):
        return None
