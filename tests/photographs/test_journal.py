"""Photographs of a journal: found, told, copied once, shown, and never followed out of it."""

from __future__ import annotations

import os
from datetime import date
from pathlib import Path

import pytest

from backbud.make import make
from backbud.photographs import known, look
from backbud.session import open_session
from backbud.views.photograph import portrait, then_and_now
from backbud_grammar.problems import Problem

DAY = date(2027, 6, 1)


def write(garden: Path, diary: str) -> None:
    (garden / "diary.txt").write_text(diary)


def problems(garden: Path) -> list[tuple[str, int, str]]:
    session = open_session(str(garden), DAY, only_check=True)
    return of_pictures(session.problems())


def of_pictures(found: tuple[Problem, ...]) -> list[tuple[str, int, str]]:
    """A link is told for itself, too."""
    return [(one.code, one.line, one.message) for one in found if one.code != "link"]


def of_hoshi(garden: Path):
    session = open_session(str(garden), DAY)
    return session.photographs_of(session.plan(["hoshi"]).trees["hoshi"])


def copies(garden: Path) -> list[str]:
    return sorted(path.name for path in (garden / "made" / "photographs").iterdir())


def test_a_photograph_is_copied_and_shown_with_its_line(garden: Path, camera) -> None:
    (garden / "photos" / "a.jpg").write_bytes(camera.jpeg(where=True))
    write(garden, "2027-03-06\nhoshi\n  photographed photos/a.jpg, front\n")
    assert make(str(garden), DAY).problems == ()
    small, large = sorted(copies(garden), reverse=True)
    assert small.endswith("-s.jpg")
    assert large.endswith("-l.jpg")
    page = (garden / "made" / "trees" / "hoshi.html").read_text()
    assert f'src="../photographs/{small}" alt="hoshi, the front, 6 March 2027"' in page
    assert f'href="../photographs/{large}"' in page
    assert b"Secretcam" not in b"".join(
        (garden / "made" / "photographs" / name).read_bytes() for name in (small, large)
    )


def test_only_what_changed_is_looked_at_and_copied_again(
    garden: Path, camera, monkeypatch: pytest.MonkeyPatch
) -> None:
    (garden / "photos" / "a.jpg").write_bytes(camera.jpeg())
    (garden / "photos" / "b.jpg").write_bytes(camera.jpeg((400, 300)))
    write(garden, "2027-03-06\nhoshi\n  photographed photos/a.jpg, photos/b.jpg\n")
    make(str(garden), DAY)
    before = copies(garden)
    looked: list[int] = []
    copied: list[int] = []
    monkeypatch.setattr(known, "look_at", lambda data: looked.append(1) or look.look_at(data))
    real = look.copies_of
    monkeypatch.setattr(look, "copies_of", lambda data: copied.append(1) or real(data))
    (garden / "photos" / "b.jpg").write_bytes(camera.jpeg((500, 300)))
    make(str(garden), DAY)
    assert (len(looked), len(copied)) == (1, 1)
    assert len(copies(garden)) == 4
    assert len(set(copies(garden)) & set(before)) == 2


def test_a_picture_that_came_later_is_seen_though_no_line_changed(garden: Path, camera) -> None:
    write(garden, "2027-03-06\nhoshi\n  photographed photos/a.jpg\n")
    assert [one.code for one in make(str(garden), DAY).problems] == ["bad-photograph"]
    (garden / "photos" / "a.jpg").write_bytes(camera.jpeg())
    assert make(str(garden), DAY).problems == ()


def test_check_and_make_tell_the_same_of_what_cannot_be_shown(garden: Path, camera) -> None:
    whole = camera.jpeg()
    (garden / "photos" / "torn.jpg").write_bytes(whole[:2000])
    (garden / "photos" / "text.jpg").write_text("hello")
    (garden / "outside.jpg").write_bytes(whole)
    os.symlink(garden / "outside.jpg", garden / "photos" / "link.jpg")
    os.mkfifo(garden / "photos" / "pipe.jpg")
    os.symlink(garden, garden / "way")
    names = (
        "photos/torn.jpg", "photos/text.jpg", "photos/link.jpg", "photos/pipe.jpg",
        "photos/gone.jpg", "../x.jpg", "/etc/x.jpg", "photos/raw.cr2", "way/outside.jpg",
    )  # fmt: skip
    lines = "".join(f"  photographed {name}\n" for name in names)
    write(garden, f"2027-03-06\nhoshi\n{lines}  photographed the whole bench\n")
    broken, plain = "it is broken, or no picture", "it is no plain file that can be read"
    told = (
        broken, broken, plain, plain,
        "there is no such file in the journal's folder",
        *("it lies outside the journal's folder",) * 2,
        "a page cannot show such a file", plain,
    )  # fmt: skip
    expected = [
        ("bad-photograph", 3 + n, f"“{name}”: {wrong}")
        for n, (name, wrong) in enumerate(zip(names, told, strict=True))
    ]
    assert problems(garden) == expected
    made = make(str(garden), DAY)
    assert of_pictures(made.problems) == expected
    # Each line of it stands in the history all the same.
    page = (garden / "made" / "trees" / "hoshi.html").read_text()
    assert page.count("<b>photographed</b>") == len(names) + 1
    assert not (garden / "made" / "photographs").exists()


def test_a_file_that_is_too_large_is_not_read(
    garden: Path, camera, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(known, "MOST_BYTES", 1 << 20)
    (garden / "photos" / "a.jpg").write_bytes(camera.jpeg() + b"\0" * (1 << 20))
    write(garden, "2027-03-06\nhoshi\n  photographed photos/a.jpg\n")
    assert problems(garden) == [
        ("bad-photograph", 3, "“photos/a.jpg”: it has more than 1 MB"),
    ]


def test_the_cameras_day_is_offered_where_the_page_is_rough(garden: Path, camera) -> None:
    (garden / "photos" / "a.jpg").write_bytes(camera.jpeg(taken="2014:05:17 08:00:00"))
    write(garden, "2014\nhoshi\n  photographed photos/a.jpg\n")
    (found,) = open_session(str(garden), DAY).problems()
    assert found.message == "“photos/a.jpg” was taken on 2014-05-17, by its camera"
    assert found.hint == "Write the page as 2014-05-17, if its clock was right."
    # A clock that was not set says nothing of the page.
    (garden / "photos" / "a.jpg").write_bytes(camera.jpeg(taken="2009:01:01 00:00:00"))
    assert problems(garden) == []


def test_a_tree_is_known_by_the_latest_of_its_front(garden: Path, camera) -> None:
    for name in "abc":
        (garden / "photos" / f"{name}.jpg").write_bytes(camera.jpeg((400 + ord(name), 300)))
    write(
        garden,
        "2024-03-06\nhoshi\n  photographed photos/a.jpg, front\n\n"
        "2025-03-06\nhoshi\n  photographed photos/b.jpg, front\n\n"
        "2026-03-06\nhoshi\n  photographed photos/c.jpg, back\n",
    )
    found = of_hoshi(garden)
    assert [one.side for one in found] == ["front", "front", "back"]
    assert portrait(found) == found[1]
    (pair,) = then_and_now(found)
    assert (pair.side, pair.then, pair.now) == ("front", found[0], found[1])
    assert portrait(found[2:]) == found[2]
    assert portrait(()) is None


def test_pictures_of_one_summer_are_no_pair(garden: Path, camera) -> None:
    for name, day in (("a", "2026-05-01"), ("b", "2026-09-01")):
        (garden / "photos" / f"{name}.jpg").write_bytes(camera.jpeg((400 + ord(name), 300)))
        with (garden / "diary.txt").open("a") as diary:
            diary.write(f"{day}\nhoshi\n  photographed photos/{name}.jpg, front\n\n")
    assert len(of_hoshi(garden)) == 2
    assert then_and_now(of_hoshi(garden)) == ()


def test_a_line_that_was_taken_back_shows_nothing(garden: Path, camera) -> None:
    (garden / "photos" / "a.jpg").write_bytes(camera.jpeg())
    write(
        garden,
        "2026-05-01\nhoshi\n  photographed photos/a.jpg\n\n"
        "2026-05-02\nhoshi\n  corrected photographed 2026-05-01, not done\n",
    )
    assert of_hoshi(garden) == ()


def test_a_journal_without_pictures_loads_nothing_that_reads_them(garden: Path) -> None:
    import subprocess
    import sys

    write(garden, "2027-03-06\nhoshi\n  watered\n")
    code = (
        "import sys; from backbud.cli import main; "
        f"main(['check', '--on', '2027-06-01', {str(garden)!r}]); "
        "print([m for m in sys.modules if m.partition('.')[0] in ('PIL', 'pillow_heif')])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.stdout.splitlines()[-1] == "[]", done.stderr
