"""Looks at the bytes of a picture: whether it can be shown, when it was taken, how large it is."""

from __future__ import annotations

from datetime import date, datetime
from io import BytesIO
from typing import TYPE_CHECKING
from warnings import catch_warnings, simplefilter

from msgspec import Struct

if TYPE_CHECKING:
    from PIL.Image import Image

# Ours: a phone's picture has 12 to 200 million points and some 20 MB. A JPEG is read at a part of
# its size, anything else whole.
MOST_BYTES = 64 << 20
MOST_PIXELS, MOST_PIXELS_WHOLE = 220_000_000, 64_000_000
MOST_SIDE = 32_000
# The longer edges of the two copies: in a row of the page, and to look at.
EDGES = (480, 1440)
_QUALITY = 80
_FORMS = ("JPEG", "PNG", "WEBP", "HEIF")
# Exif 2.32 (CIPA DC-008): DateTimeOriginal stands in the Exif block, DateTime beside it.
_EXIF_BLOCK, _TAKEN, _CHANGED = 0x8769, 0x9003, 0x0132
_OLDEST = date(1840, 1, 1)


class Looked(Struct, frozen=True):
    """What a picture is: its size once it is turned upright, the day its camera says it was taken
    on, and what is wrong with it ("" where nothing is)."""

    width: int = 0
    height: int = 0
    taken: date | None = None
    wrong: str = ""


def look_at(data: bytes) -> Looked:
    """Look at a picture whole: one that ends too early is told. Raises nothing."""
    try:
        with _opened(data) as picture:
            taken = _taken(picture)
            upright = _upright(picture, EDGES[-1])
            return Looked(upright.width, upright.height, taken)
    except _Refused as refused:
        return Looked(wrong=str(refused))
    except Exception:
        # What a decoder raises on bytes that somebody made up is not foretold.
        return Looked(wrong="it is broken, or no picture")


def copies_of(data: bytes) -> tuple[bytes, ...] | None:
    """The copies of a picture, one for each edge: JPEG, upright, in sRGB, with nothing but the
    picture in them. None where it cannot be shown."""
    try:
        with _opened(data) as picture:
            whole = _upright(picture, EDGES[-1])
            return tuple(_copy(whole, edge) for edge in EDGES)
    except Exception:
        return None


class _Refused(Exception):
    """What is wrong with a picture."""


def _opened(data: bytes) -> Image:
    from PIL import Image

    if data[4:8] == b"ftyp":
        # ISO/IEC 23008-12: as phones write them.
        from pillow_heif import register_heif_opener

        register_heif_opener()
    with catch_warnings():
        # The bounds below are our own.
        simplefilter("ignore", Image.DecompressionBombWarning)
        try:
            picture = Image.open(BytesIO(data), formats=_FORMS)
        except Image.DecompressionBombError:
            raise _Refused("it has far more points than is read") from None
    width, height = picture.size
    most = MOST_PIXELS if picture.format == "JPEG" else MOST_PIXELS_WHOLE
    if width * height > most or max(width, height) > MOST_SIDE:
        raise _Refused(f"it has {width} x {height} points, more than is read")
    return picture


def _upright(picture: Image, edge: int) -> Image:
    """The picture as its camera was held, no larger than the edge, in sRGB."""
    from PIL import Image, ImageOps

    # A JPEG can be read at an eighth, a quarter or a half of its size.
    picture.draft("RGB", (edge, edge))
    picture.load()
    turned = ImageOps.exif_transpose(picture)
    profile = turned.info.get("icc_profile")
    if turned.mode in ("P", "LA", "PA", "RGBA") or "transparency" in turned.info:
        turned = turned.convert("RGBA")
        paper = Image.new("RGBA", turned.size, "white")
        turned = Image.alpha_composite(paper, turned)
    turned = turned.convert("RGB")
    turned.thumbnail((edge, edge), Image.Resampling.LANCZOS, reducing_gap=3.0)
    return _in_srgb(turned, profile)


def _in_srgb(picture: Image, profile: bytes | None) -> Image:
    """Phones write wider colours; a copy without its profile would look dull."""
    if not profile:
        return picture
    from PIL import ImageCms

    try:
        found = ImageCms.profileToProfile(
            picture, BytesIO(profile), ImageCms.createProfile("sRGB"), outputMode="RGB"
        )
    except (ImageCms.PyCMSError, OSError, ValueError):
        return picture
    return found or picture


def _copy(whole: Image, edge: int) -> bytes:
    from PIL import Image

    picture = whole.copy()
    # What came along with it (where it was taken, and by which camera) stays behind.
    picture.info.clear()
    picture.thumbnail((edge, edge), Image.Resampling.LANCZOS)
    written = BytesIO()
    picture.save(written, "JPEG", quality=_QUALITY, optimize=True, progressive=True)
    return written.getvalue()


def _taken(picture: Image) -> date | None:
    """The day that the camera wrote down, if it wrote one that can be."""
    exif = picture.getexif()
    said = exif.get_ifd(_EXIF_BLOCK).get(_TAKEN) or exif.get(_CHANGED)
    try:
        day = datetime.strptime(str(said).strip("\0 ")[:10], "%Y:%m:%d").date()
    except ValueError:
        return None
    return day if day >= _OLDEST else None
