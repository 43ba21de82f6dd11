"""Photographs in papers: those marked for the owner, upright copies with nothing of the camera."""

from __future__ import annotations

import re
from base64 import b64decode
from datetime import date
from io import BytesIO
from pathlib import Path

import exifread
import pytest
from PIL import Image
from PIL.ExifTags import GPS, IFD, Base

from backbud.papers.gather import papers_of
from backbud.papers.keep import issue
from backbud.session import Session, open_session

JOURNAL = """\
place yard
  latitude 54 N
person una
person ada
  name Ada Pell
tree hoshi
  name Old Star
  kind trident maple
  owner ada

2025-04-01
hoshi
  received from ada
  photographed first.jpg, front, for owner
  photographed hers.jpg, back
2025-05-01
hoshi
  returned to ada
2026-03-06
hoshi
  received from ada, condition "sound"
  photographed came.jpg, front, for owner
  photographed mine.jpg, roots
2026-03-07
hoshi
  photographed later.jpg, front, for owner
  ready
"""


def camera(colour: tuple[int, int, int]) -> bytes:
    """A JPEG as a telephone writes it: where it was, by which camera, and a word."""
    picture = Image.new("RGB", (900, 600), colour)
    exif = picture.getexif()
    exif[Base.Make] = "Secretcam"
    exif.get_ifd(IFD.GPSInfo)[GPS.GPSLatitude] = (52.0, 30.0, 0.0)
    exif.get_ifd(IFD.GPSInfo)[GPS.GPSLatitudeRef] = "N"
    out = BytesIO()
    picture.save(out, "JPEG", exif=exif, comment=b"Secretword")
    return out.getvalue()


@pytest.fixture(scope="module")
def session(tmp_path_factory: pytest.TempPathFactory) -> Session:
    folder: Path = tmp_path_factory.mktemp("pictures")
    (folder / "backbud.toml").write_text('language = 1\nhome = "yard"\nkeeper = "una"\n')
    (folder / "journal.txt").write_text(JOURNAL)
    for n, name in enumerate(("first", "hers", "came", "mine", "later")):
        (folder / f"{name}.jpg").write_bytes(camera((40 * n, 90, 60)))
    opened = open_session(str(folder), date(2026, 3, 10))
    assert opened.problems() == ()
    return opened


def test_each_paper_shows_what_its_owner_may_see(session) -> None:
    view = papers_of(session, "ada")
    assert view is not None
    (receipt,), (care,), (provenance,) = view.receipts, view.care, view.provenance
    assert [str(one.when.first) for one in receipt.photographs] == ["2026-03-06"]
    assert care.photograph is not None
    assert str(care.photograph.when.first) == "2026-03-07"
    assert provenance.portrait == care.photograph
    assert [(p.side, str(p.then.when.first), str(p.now.when.first)) for p in provenance.pairs] == [
        ("front", "2025-04-01", "2026-03-07")
    ]
    assert receipt.missing == ("the value it is insured at", "what was agreed")


def test_what_is_issued_holds_its_pictures_and_nothing_of_the_camera(session) -> None:
    """Read by exifread, which had no part in writing them."""
    view = papers_of(session, "ada")
    assert view is not None
    kept = issue(session, view, ["receipt", "care", "provenance"])
    # The receipt one, the care sheet one, the provenance its portrait and then and now.
    found = []
    for paper in kept:
        page = (Path(session.journal.folder) / paper.file).read_bytes()
        assert b"Secret" not in page
        pictures = re.findall(rb'src="data:image/jpeg;base64,([^"]*)"', page)
        found.append(len(pictures))
        for written in pictures:
            content = b64decode(written)
            assert b"Secret" not in content
            assert exifread.process_file(BytesIO(content)) == {}
            assert Image.open(BytesIO(content)).format == "JPEG"
    assert found == [1, 1, 3]
    assert exifread.process_file(BytesIO(camera((0, 0, 0)))) != {}
