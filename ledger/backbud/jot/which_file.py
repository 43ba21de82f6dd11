"""Which file of the diary a new page goes to, told from the names of those that are there."""

from __future__ import annotations

import posixpath
import re
from collections.abc import Callable, Iterable, Mapping
from datetime import date

from backbud.jot.placing import DiaryPlace, place_of
from backbud.journal.dated import DatedPage
from backbud.journal.line_order import line_order, sorted_as

# Pages that came from elsewhere than an editor, one file a day.
JOTTED = "diary/jotted"
# The folder of what came out of lists, a file each.
BROUGHT = "brought"
# How names say the time that a file is of, the longest first.
_PATTERNS = (
    "%G-W%V",
    "%Y-%m-%d",
    "%Y_%m_%d",
    "%Y%m%d",
    "%Y/%m/%d",
    "%Y-%m",
    "%Y_%m",
    "%Y/%m",
    "%Y%m",
    "%Y",
)
FIRST_FILE = "diary/%Y.txt"


def jotted_file(day: date) -> str:
    """The file of a day that lines from a phone go to, so that an open editor overwrites none."""
    return f"{JOTTED}/{day.isoformat()}.txt"


def place_for(
    day: date,
    pages: Iterable[DatedPage],
    texts: Mapping[str, bytes],
    is_free: Callable[[str], bool],
) -> DiaryPlace:
    """Where a line of a day goes: on the last page of that day, else on a new one, in the file
    that is of that time.

    `is_free`: whether nothing stands yet at a file's name that the journal does not read.
    """
    elsewhere = (JOTTED, BROUGHT)
    own = [p for p in pages if p.when.exact and posixpath.dirname(p.file) not in elsewhere]
    there = place_of(day, own, texts)
    if there is not None and not there.is_new:
        return there
    file = file_of(day, own)
    if there is not None and there.file == file:
        return there
    if file in texts:
        inside = place_of(day, [page for page in own if page.file == file], texts)
        return inside or DiaryPlace(file, texts[file].count(b"\n") + 1, day, True)
    if is_free(file) or there is None:
        return DiaryPlace(file, 0, day, True)
    return there


def file_of(day: date, pages: Iterable[DatedPage]) -> str:
    """The file of a day: that of the nearest page, its name of that day's year, month or day."""
    of_others = sorted(
        # What rests is read, and new pages go to where it came from.
        (page.when.first, line_order(page), sorted_as(page.file)[0])
        for page in pages
    )
    if not of_others:
        return day.strftime(FIRST_FILE)
    before = [one for one in of_others if one[0] <= day]
    first, _, file = before[-1] if before else of_others[0]
    for pattern in _PATTERNS:
        was = first.strftime(pattern)
        found = re.search(rf"(?<!\d){re.escape(was)}(?!\d)", file)
        if found is not None:
            return f"{file[: found.start()]}{day.strftime(pattern)}{file[found.end() :]}"
    return file
