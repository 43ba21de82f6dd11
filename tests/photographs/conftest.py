"""Pictures made in a test: of one colour above and another below, as a camera writes them."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image
from PIL.ExifTags import GPS, IFD, Base


class Camera:
    """Makes pictures: red above, blue below as they were meant to be seen."""

    def jpeg(
        self,
        size: tuple[int, int] = (1200, 800),
        *,
        taken: str = "",
        turned: bool = False,
        where: bool = False,
    ) -> bytes:
        """A JPEG. `taken`: as Exif has it. `turned`: the camera was held on its side. `where`: it
        wrote down where it was."""
        picture = _two_colours(size)
        exif = picture.getexif()
        if turned:
            # Exif orientation 6: to be seen, it is turned a quarter clockwise.
            picture = picture.transpose(Image.Transpose.ROTATE_90)
            exif[Base.Orientation] = 6
        if taken:
            exif.get_ifd(IFD.Exif)[Base.DateTimeOriginal] = taken
        if where:
            exif[Base.Make] = "Secretcam"
            exif.get_ifd(IFD.GPSInfo)[GPS.GPSLatitude] = (52.0, 30.0, 0.0)
        return _written(picture, "JPEG", exif=exif)

    def other(self, form: str, size: tuple[int, int] = (300, 200)) -> bytes:
        """PNG, WEBP or HEIF."""
        if form == "HEIF":
            import pillow_heif

            pillow_heif.register_heif_opener()
        return _written(_two_colours(size), form)


def _two_colours(size: tuple[int, int]) -> Image.Image:
    width, height = size
    picture = Image.new("RGB", size, (200, 30, 30))
    picture.paste((30, 30, 200), (0, height // 2, width, height))
    return picture


def _written(picture: Image.Image, form: str, **more: object) -> bytes:
    out = BytesIO()
    picture.save(out, form, **more)  # type: ignore[arg-type]
    return out.getvalue()


@pytest.fixture(scope="session")
def camera() -> Camera:
    return Camera()


@pytest.fixture
def garden(tmp_path: Path) -> Path:
    """A journal of one tree, with a folder for pictures."""
    (tmp_path / "backbud.toml").write_text('language = 1\nhome = "yard"\n')
    (tmp_path / "cards.txt").write_text(
        "place yard\n  latitude 52 N\ntree hoshi\n  kind trident maple\n  place yard\n"
    )
    (tmp_path / "photos").mkdir()
    return tmp_path
