"""Which file a line of a day goes to."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from backbud.jot.write import place_in_diary

CARDS = "tree hoshi\n  kind   trident maple\n"
PAGE = "{}\n\nhoshi\n  fed\n"


@pytest.mark.parametrize(
    ("there", "day", "file", "is_new"),
    [
        # This year's, and the next year's once it comes.
        ({"diary/2027.txt": "2027-03-06"}, "2027-03-06", "diary/2027.txt", False),
        ({"diary/2027.txt": "2027-03-06"}, "2027-05-01", "diary/2027.txt", True),
        ({"diary/2027.txt": "2027-03-06"}, "2028-01-02", "diary/2028.txt", True),
        # Months, days, folders of years.
        ({"diary/2027-03.txt": "2027-03-06"}, "2027-04-01", "diary/2027-04.txt", True),
        ({"diary/2027/03.txt": "2027-03-06"}, "2027-04-01", "diary/2027/04.txt", True),
        ({"2027-03-06.txt": "2027-03-06"}, "2027-03-07", "2027-03-07.txt", True),
        ({"diary/2027-W09.txt": "2027-03-06"}, "2027-03-08", "diary/2027-W10.txt", True),
        # A name that says no time takes them all.
        ({"diary.txt": "2027-03-06"}, "2028-01-02", "diary.txt", True),
        ({"old1999.txt": "2027-03-06"}, "2028-01-02", "old1999.txt", True),
        # A file of that time that is there already, though its pages are later.
        (
            {"diary/2027.txt": "2027-03-06", "diary/2028.txt": "2028-02-01"},
            "2028-01-02",
            "diary/2028.txt",
            True,
        ),
        # What came from a phone is no pattern, and its page is left to it.
        (
            {"d.txt": "2027-03-06", "diary/jotted/2027-03-07.txt": "2027-03-07"},
            "2027-03-07",
            "d.txt",
            True,
        ),
        # No page at all.
        ({}, "2027-03-07", "diary/2027.txt", True),
    ],
)
def test_which_file(
    written: Any, tmp_path: Any, there: dict[str, str], day: str, file: str, is_new: bool
) -> None:
    for name in there:
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
    files = {name: PAGE.format(when) for name, when in there.items()}
    session = written(CARDS, "2028-12-31", files=files)
    place = place_in_diary(date.fromisoformat(day))(session)
    assert (place.file, place.is_new) == (file, is_new)


def test_no_file_that_the_journal_does_not_read_is_written(written: Any, tmp_path: Any) -> None:
    (tmp_path / "diary").mkdir()
    (tmp_path / ".gitignore").write_text("2028.txt\n")
    (tmp_path / "diary" / "2028.txt").write_text("somebody's\n")
    session = written(CARDS, "2028-12-31", files={"diary/2027.txt": PAGE.format("2027-03-06")})
    place = place_in_diary(date(2028, 1, 2))(session)
    assert (place.file, place.is_new) == ("diary/2027.txt", True)
