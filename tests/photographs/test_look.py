"""What is read of a picture's bytes, and what is let go of it."""

from __future__ import annotations

import struct
import zlib
from datetime import date
from io import BytesIO

import pytest
from PIL import Image

from backbud.photographs.look import Looked, copies_of, look_at


def opened(data: bytes) -> Image.Image:
    return Image.open(BytesIO(data))


def above_and_below(picture: Image.Image) -> list[str]:
    """Which of red and blue is the stronger near the upper and near the lower edge."""
    rgb = picture.convert("RGB")
    points = (rgb.getpixel((picture.width // 2, y)) for y in (5, picture.height - 6))
    return ["red" if red > blue else "blue" for red, _, blue in points]


def test_two_copies_are_made_no_larger_than_their_edges(camera) -> None:
    copies = copies_of(camera.jpeg((3000, 2000)))
    assert [opened(copy).size for copy in copies] == [(480, 320), (1440, 960)]
    assert [opened(copy).format for copy in copies] == ["JPEG", "JPEG"]


def test_a_small_picture_is_not_blown_up(camera) -> None:
    assert [opened(copy).size for copy in copies_of(camera.jpeg((120, 80)))] == [(120, 80)] * 2


def test_a_picture_is_turned_as_its_camera_was_held(camera) -> None:
    """CIPA DC-008 (Exif 2.32), 4.6.4: orientation 6 is a row 0 on the right-hand side."""
    data = camera.jpeg((800, 1200), turned=True)
    assert opened(data).size == (1200, 800)
    small, _ = copies_of(data)
    assert opened(small).size == (320, 480)
    assert above_and_below(opened(small)) == ["red", "blue"]


def test_where_and_by_which_camera_it_was_taken_stays_behind(camera) -> None:
    data = camera.jpeg(where=True, taken="2026:05:04 10:11:12")
    assert b"Secretcam" in data
    for copy in copies_of(data):
        assert b"Secretcam" not in copy
        assert b"Exif" not in copy
        assert dict(opened(copy).getexif()) == {}


@pytest.mark.parametrize(
    ("written", "day"),
    [
        ("2026:05:04 10:11:12", date(2026, 5, 4)),
        ("0000:00:00 00:00:00", None),
        ("1700:01:01 00:00:00", None),
        ("nonsense", None),
        ("", None),
    ],
)
def test_the_day_is_the_cameras_where_that_can_be(camera, written: str, day: date | None) -> None:
    assert look_at(camera.jpeg(taken=written)).taken == day


@pytest.mark.parametrize("form", ["PNG", "WEBP", "HEIF"])
def test_other_forms_are_read_too(camera, form: str) -> None:
    data = camera.other(form)
    assert look_at(data) == Looked(300, 200)
    assert above_and_below(opened(copies_of(data)[0])) == ["red", "blue"]


def test_what_can_be_seen_through_lies_on_white() -> None:
    out = BytesIO()
    Image.new("RGBA", (40, 40), (0, 0, 0, 0)).save(out, "PNG")
    red, green, blue = opened(copies_of(out.getvalue())[0]).convert("RGB").getpixel((20, 20))
    assert min(red, green, blue) > 250


def huge_png(width: int, height: int) -> bytes:
    """The head of a picture of so many points, and next to nothing of it (PNG, 11.2.2)."""

    def chunk(name: bytes, content: bytes) -> bytes:
        body = name + content
        return struct.pack(">I", len(content)) + body + struct.pack(">I", zlib.crc32(body))

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    body = zlib.compress(b"\0" * 1000)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", body) + chunk(b"IEND", b"")


@pytest.mark.parametrize(("width", "height"), [(40_000, 2), (9000, 8000)])
def test_a_picture_of_more_points_than_is_read_is_refused(width: int, height: int) -> None:
    data = huge_png(width, height)
    wrong = f"it has {width} x {height} points, more than is read"
    assert look_at(data) == Looked(wrong=wrong)
    assert copies_of(data) is None


def test_a_picture_that_no_memory_holds_is_refused_by_its_head() -> None:
    data = huge_png(60_000, 60_000)
    assert look_at(data) == Looked(wrong="it has far more points than is read")


def test_what_is_no_whole_picture_is_told(camera) -> None:
    whole = camera.jpeg()
    broken = Looked(wrong="it is broken, or no picture")
    for data in (b"", b"hello", whole[: len(whole) // 2], b"<svg/>", b"GIF89a" + b"\0" * 50):
        assert look_at(data) == broken
        assert copies_of(data) is None
