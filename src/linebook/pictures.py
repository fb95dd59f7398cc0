"""Photographs of a house: looked at when specs are checked, made ready to print when sheets are drawn.

The only module that imports Pillow, and only when a spec names a photograph. What it hands on is upright, in sRGB or
grey, no finer than 300 dots an inch, and holds nothing but the picture: no place, no maker, no second picture. It must
not know what the photograph shows nor where it is printed.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from io import BytesIO
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, Any, BinaryIO, Final

from linebook.figures.shapes import Picture
from linebook.source.codes import fault
from linebook.source.faults import Fault, Outcome
from linebook.source.files import list_folder, open_inside
from linebook.source.frozen import frozen
from linebook.source.nearest import nearest
from linebook.source.spans import Span

if TYPE_CHECKING:
    from PIL.Image import Image

MOST_BYTES: Final = 25_000_000
MOST_PIXELS: Final = 40_000_000
DOTS_AN_INCH: Final = 300
_MM_AN_INCH: Final = 25.4
_KINDS: Final = ("JPEG", "PNG")
_QUALITY: Final = 90
_KEPT_QUALITY: Final = 95
_ORIENTATION: Final = 0x0112
_PLAIN_MODES: Final = ("L", "RGB", "CMYK", "LAB")
_INSTEAD: Final = "save it as a JPEG or PNG file"


@frozen
class Photograph:
    """A photograph a spec names: the file in the house folder, and the text that names it."""

    root: Path
    path: PurePosixPath
    at: Span


def look_at(photograph: Photograph) -> tuple[Fault, ...]:
    """Return what is wrong with a photograph as far as its first bytes tell; the picture itself is not read.

    Faults: LB113 (leads out of the house), LB608 (not there), LB609 (not a JPEG or PNG picture), LB610 (over 25 MB or
    40 million pixels).
    """
    with _opened(photograph) as found:
        return found.faults


def prepare(photograph: Photograph, width_mm: float, height_mm: float, alternative: str) -> Outcome[Picture]:
    """Return a photograph large enough for a box of this size. Faults: those of ``look_at``, with all data read."""
    with _opened(photograph) as found:
        if found.value is None:
            return Outcome(value=None, faults=found.faults)
        try:
            return Outcome(value=_ready(found.value, (_dots(width_mm), _dots(height_mm)), alternative))
        except Exception:  # a decoder that meets broken or hostile data fails in any way it can
            return Outcome(value=None, faults=(_broken(photograph),))


def for_print(picture: Picture, width_mm: float, height_mm: float, *, grey: bool) -> Picture:
    """Return a prepared picture as it is printed at this size: no finer than 300 dots an inch, grey where asked."""
    from PIL import Image

    size = min(picture.width_px, _dots(width_mm)), min(picture.height_px, _dots(height_mm))
    with Image.open(BytesIO(picture.content), formats=_KINDS) as opened:
        same = size == (picture.width_px, picture.height_px) and picture.kind == "jpeg"
        if same and (picture.grey or not grey):
            return picture
        pixels = opened.convert("L" if grey or picture.grey else "RGB")
        if size != pixels.size:
            pixels = pixels.resize(size, Image.Resampling.LANCZOS)
        return _written(pixels, _QUALITY, picture.alternative)


@contextmanager
def _opened(photograph: Photograph) -> Iterator[Outcome[Any]]:
    """Open a picture file as far as its header, and close it again; nothing of the picture is decoded."""
    try:
        file = open_inside(photograph.root, photograph.path)
    except (OSError, ValueError, RuntimeError):
        yield Outcome(value=None, faults=(_missing(photograph),))
        return
    if file is None:
        message = f"`{photograph.path}` leads out of the house folder"
        hints = ("put the file itself in the folder photos",)
        yield Outcome(value=None, faults=(fault("LB113", message, photograph.at, hints=hints),))
        return
    with file:
        yield _header(photograph, file)


def _header(photograph: Photograph, file: BinaryIO) -> Outcome[Any]:
    import warnings

    from PIL import Image

    weight = file.seek(0, 2)
    file.seek(0)
    if weight > MOST_BYTES:
        return _too_large(photograph, f"{weight / 1e6:.0f} MB", f"{MOST_BYTES // 1_000_000} MB")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # Pillow warns of what is refused below
            picture = Image.open(file, formats=_KINDS)
    except Image.DecompressionBombError:
        return _too_large(photograph, "far too many pixels", f"{MOST_PIXELS // 1_000_000} million")
    except Exception:  # whatever a header that is not one makes of Pillow
        message = f"`{photograph.path}` is not a JPEG or PNG picture"
        return Outcome(value=None, faults=(fault("LB609", message, photograph.at, hints=(_INSTEAD,)),))
    pixels = picture.width * picture.height
    if pixels > MOST_PIXELS:
        return _too_large(photograph, f"{pixels / 1e6:.0f} million pixels", f"{MOST_PIXELS // 1_000_000} million")
    return Outcome(value=picture)


def _ready(picture: Image, box: tuple[int, int], alternative: str) -> Picture:
    """Return a picture that is open, decoded, turned upright, reduced to fit ``box`` and with its colours in sRGB."""
    from PIL import Image

    turned = _orientation(picture) >= 5
    wide, high = (box[1], box[0]) if turned else box
    share = min(1.0, wide / picture.width, high / picture.height)
    size = max(1, round(picture.width * share)), max(1, round(picture.height * share))
    picture.draft(None, (size[0] * 2, size[1] * 2))
    picture.load()
    orientation = _orientation(picture)  # of a PNG it may stand after the picture
    profile = picture.info.get("icc_profile")
    pixels = _plain(picture)
    if pixels.size != size:
        pixels = pixels.resize(size, Image.Resampling.LANCZOS, reducing_gap=3.0)
    pixels = _in_srgb(_upright(pixels, orientation), profile)
    return _written(pixels, _KEPT_QUALITY, alternative)


def _orientation(picture: Image) -> int:
    """Return how a camera says it was held, 1 for upright; what cannot be read says nothing."""
    try:
        said = picture.getexif().get(_ORIENTATION, 1)
    except Exception:
        return 1
    return said if isinstance(said, int) and 1 <= said <= 8 else 1


def _upright(pixels: Image, orientation: int) -> Image:
    from PIL.Image import Transpose

    turns = {
        2: Transpose.FLIP_LEFT_RIGHT,
        3: Transpose.ROTATE_180,
        4: Transpose.FLIP_TOP_BOTTOM,
        5: Transpose.TRANSPOSE,
        6: Transpose.ROTATE_270,
        7: Transpose.TRANSVERSE,
        8: Transpose.ROTATE_90,
    }
    return pixels.transpose(turns[orientation]) if orientation in turns else pixels


def _plain(picture: Image) -> Image:
    """Return a picture in a mode that can be reduced and has no holes: what is clear is white paper."""
    from PIL import Image

    if picture.mode.startswith("I"):  # sixteen bits a dot
        return picture.convert("I").point(lambda value: value / 256).convert("L")
    if picture.mode in ("LA", "PA", "RGBA", "La", "RGBa") or "transparency" in picture.info:
        clear = picture.convert("RGBA")
        paper = Image.new("RGBA", clear.size, "white")
        return Image.alpha_composite(paper, clear).convert("RGB")
    if picture.mode == "1":
        return picture.convert("L")
    return picture if picture.mode in _PLAIN_MODES else picture.convert("RGB")


def _in_srgb(pixels: Image, profile: object) -> Image:
    """Return a picture with its colours in sRGB; one without a readable profile is taken to be so already."""
    from PIL import ImageCms

    if isinstance(profile, bytes) and profile:
        try:
            own = ImageCms.ImageCmsProfile(BytesIO(profile))
            turned = ImageCms.profileToProfile(pixels, own, ImageCms.createProfile("sRGB"), outputMode="RGB")
        except Exception:
            turned = None
        if turned is not None:
            return turned
    return pixels if pixels.mode in ("L", "RGB") else pixels.convert("RGB")


def _written(pixels: Image, quality: int, alternative: str) -> Picture:
    """Return the picture as a JPEG file of its pixels alone."""
    pixels.info = {}  # a comment and the like would be written back
    into = BytesIO()
    pixels.save(into, "JPEG", quality=quality, subsampling=0, optimize=True)
    width, height = pixels.size
    content, grey = into.getvalue(), pixels.mode == "L"
    return Picture(content=content, width_px=width, height_px=height, grey=grey, alternative=alternative)


def _dots(length_mm: float) -> int:
    return max(1, int(length_mm / _MM_AN_INCH * DOTS_AN_INCH + 0.5))


def _missing(photograph: Photograph) -> Fault:
    there = list_folder(photograph.root, photograph.path.parent)
    name = photograph.path.name
    if name in there:
        message = f"`{photograph.path}` is no file that can be opened"
        hint = "put the picture itself there, and see that it may be read"
        return fault("LB608", message, photograph.at, hints=(hint,))
    close = next((one for one in there if one.casefold() == name), None) or nearest(name, there)
    hint = f"put the file in the folder {photograph.path.parent}, or delete the line"
    if close and close.casefold() == name:
        hint = f"rename the file `{close}` to `{name}`"
    elif close:
        hint = f"type `{photograph.path.parent}/{close}`"
    return fault("LB608", f"there is no photograph `{photograph.path}`", photograph.at, hints=(hint,))


def _broken(photograph: Photograph) -> Fault:
    message = f"the picture in `{photograph.path}` is damaged or cut short"
    return fault("LB609", message, photograph.at, hints=("copy it anew from the camera, or save it again",))


def _too_large(photograph: Photograph, found: str, most: str) -> Outcome[Any]:
    message = f"`{photograph.path}` has {found}, more than the {most} a page can use"
    hints = ("save it smaller: 2,000 pixels across are plenty",)
    return Outcome(value=None, faults=(fault("LB610", message, photograph.at, hints=hints),))
