"""Whatever a card may name as weather: told, never followed out of the journal, never fatal."""

from __future__ import annotations

import os
from datetime import date
from pathlib import Path

import pytest

from backbud.journal.weather.files import LARGEST_WEATHER_FILE
from backbud.journal.weather.named import weather_files
from backbud.make import make
from backbud.publish.unchanged import make_arguments, nothing_to_do

SOUND = "date,low\n2027-03-06,1\n"


def yard(name: str) -> str:
    return f"place yard\n  latitude 52 N\n  weather {name}\n"


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("../station.csv", "outside-journal"),
        ("data/../../station.csv", "outside-journal"),
        ("/etc/hostname", "outside-journal"),
        ("C:\\station.csv", "outside-journal"),
        ("nothing.csv", "missing-file"),
        ("data", "no-file"),
    ],
)
def test_a_name_that_leads_nowhere_is_told_on_the_card(tell, mark, tmp_path, name, code) -> None:
    (tmp_path.parent / "station.csv").write_text(SOUND)
    told = tell(yard(name), files={"data/other.csv": SOUND})
    problem = told.only()
    assert (problem.code, problem.file, problem.line) == (code, "cards.txt", 3)
    assert mark(problem) == name
    assert told["yard"].days == {}


@pytest.mark.parametrize("link", ["station.csv", "data"])
def test_no_link_is_followed(tell, tmp_path: Path, link) -> None:
    outside = tmp_path.parent / f"{tmp_path.name}-outside"
    outside.mkdir()
    (outside / "station.csv").write_text(SOUND)
    (tmp_path / link).symlink_to(outside / "station.csv" if "." in link else outside)
    told = tell(yard(link if "." in link else "data/station.csv"))
    assert [p.code for p in told.problems if p.file == "cards.txt"] == ["link"]
    assert told["yard"].days == {}


def test_a_pipe_is_no_file(tell, tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "station.csv")
    assert tell(yard("station.csv")).only().code == "no-file"


@pytest.mark.parametrize(
    ("text", "code", "line"),
    [
        (b"", "empty-file", 1),
        (b"\n \n", "empty-file", 1),
        (b"\x89PNG\r\n\x1a\n\x00\x00\x00\x0dIHDR\x00\x00\x00\x00", "binary-file", 1),
        ("date,low\n2027-03-06,1\n".encode("utf-16"), "binary-file", 1),
        (b"\n2027-03-06,1,9,4\n", "unknown-weather-form", 2),
        (b"<html>\n<body>not found</body>\n", "unknown-weather-form", 1),
    ],
)  # fmt: skip
def test_what_is_no_weather_is_told_at_the_file(tell_file, text, code, line) -> None:
    told = tell_file(text)
    problem = told.problems[0]
    assert (problem.code, problem.file, problem.line) == (code, "station.csv", line)
    assert problem.hint


def test_one_letter_that_is_not_utf_8_spoils_no_other_row(tell_file) -> None:
    told = tell_file("date,low °C\n2027-03-06,1\n".encode("latin-1"))
    assert told.codes == ["not-utf-8"]
    assert told["yard"].days[date(2027, 3, 6)].low_c == 1


def test_a_value_that_is_not_utf_8_is_left_out_alone(tell_file) -> None:
    told = tell_file(b"date,low\n2027-03-06,1\n2027-03-07,2\xb0\n2027-03-08,3\n2027-03-07,4\n")
    assert sorted({(p.code, p.line) for p in told.problems}) == [
        ("bad-number", 3), ("missing-days", 4), ("not-utf-8", 3), ("repeated-day", 5),
    ]  # fmt: skip
    assert [day.low_c for day in told["yard"].days.values()] == [1, 3]


def test_a_file_over_the_limit_is_not_read(tell, tmp_path: Path) -> None:
    (tmp_path / "station.csv").write_text(SOUND)
    os.truncate(tmp_path / "station.csv", LARGEST_WEATHER_FILE + 1)
    told = tell(yard("station.csv"))
    assert (told.only().code, told.only().file) == ("large-file", "station.csv")


def test_a_text_file_that_is_weather_is_read_from_what_was_loaded(tell, tmp_path: Path) -> None:
    told = tell(yard("data\\station.txt"), files={"data/station.txt": SOUND + "2027-03-07,x\n"})
    (tmp_path / "data/station.txt").write_text("changed since")
    assert told["yard"].days[date(2027, 3, 6)].low_c == 1
    problem = told.only()
    assert (problem.code, problem.file, problem.source) == (
        "bad-number", "data/station.txt", "2027-03-07,x",
    )  # fmt: skip


def test_a_file_that_two_places_name_is_told_once(tell) -> None:
    cards = yard("a.csv") + "place roof\n  weather a.csv\n"
    told = tell(cards, files={"a.csv": SOUND + "2027-03-07,x\n"})
    assert told.codes == ["bad-number"]
    assert told["roof"].own_days == told["yard"].own_days


# ------------------------------------------------------------------ nothing to do


def test_a_weather_file_of_any_name_counts_among_the_inputs(tell, tmp_path: Path) -> None:
    cards = yard("station.dat") + "place roof\n  weather roof.csv\nplace out\n  weather ../x.csv\n"
    told = tell(cards, files={"station.dat": SOUND})
    assert weather_files(told.journal.things) == ("roof.csv", "station.dat")
    day = date(2027, 6, 1)

    def same() -> bool:
        asked = nothing_to_do(str(tmp_path), day.isoformat(), make_arguments(False, False))
        if asked is None:
            make(str(tmp_path), day)
        return asked is not None

    assert [same(), same()] == [False, True]
    (tmp_path / "station.dat").write_text(SOUND + "2027-03-07,1\n")
    assert [same(), same()] == [False, True]
    (tmp_path / "roof.csv").write_text(SOUND)
    assert [same(), same()] == [False, True]
    (tmp_path / "roof.csv").write_text(SOUND.replace("1\n", "2\n"))
    assert [same(), same()] == [False, True]
    (tmp_path / "station.dat").unlink()
    assert [same(), same()] == [False, True]
