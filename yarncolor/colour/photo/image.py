"""Photographs, opened safely: any of the usual formats into plain sRGB bytes, or one clear line.

Size is checked before a pixel is decoded. Orientation and an embedded profile are honoured;
nothing else of what a picture says about place, time or device is read, kept or shown.
"""

import io
import warnings
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import numpy as np

from yarncolor.errors import Fault, PlanError, system_says

if TYPE_CHECKING:
    from PIL.Image import Image

FORMATS = ("JPEG", "PNG", "WEBP", "TIFF")
MOST_BYTES, MOST_PIXELS, LEAST_SIDE = 80_000_000, 50_000_000, 16
_PLENTY, _BAND_PX = 25_000_000, 256
"""Pixels above which every four are made one, and how many rows of them at a time."""
_MOST_WEBP = 12_000_000
"""Pixels: its decoder holds all of them several times."""
_JPEG, _SCAN, _MOST_SCANS = b"\xff\xd8", b"\xff\xda", 100
_ORIENTATION, _SAMPLED, _GREY_TO = 0x0112, 3, 2
_GREY_WORDS = "is greyscale; give one in colour"
_GREY = ("1", "L", "I", "F", "I;16", "I;16B", "I;16L", "LA")


@dataclass(frozen=True, eq=False)
class Photo:
    """A photograph as sRGB bytes.

    Parameters
    ----------
    srgb : (height, width, 3) uint8 array
        Upright, its profile turned into sRGB.
    notes : tuple of str
        What was done to it that a user should know.
    is_example : bool
        Whether it is invented, to try things on.
    """

    srgb: np.ndarray
    notes: tuple[str, ...] = ()
    is_example: bool = False

    @property
    def size_px(self) -> tuple[int, int]:
        """Width and height."""
        return self.srgb.shape[1], self.srgb.shape[0]


def open_photo(path: str | Path) -> Photo:
    """Return a photograph from a file.

    Parameters
    ----------
    path : str or Path
        JPEG, PNG, WebP or TIFF.

    Raises
    ------
    PlanError
        With one line where it is none of these, too large, grey, or broken.
    """
    try:
        is_large = Path(path).stat().st_size > MOST_BYTES
        data = b"" if is_large else Path(path).read_bytes()
    except (OSError, ValueError) as error:
        raise PlanError(
            [Fault(str(path), "", "", f"cannot be read: {system_says(error)}")]
        ) from error
    if is_large:
        _refuse(path, f"is larger than {MOST_BYTES // 1_000_000} MB; save a smaller copy")
    return photo_from_bytes(data, str(path))


def photo_from_bytes(data: bytes, name: str = "picture") -> Photo:
    """Return a photograph from the bytes of a file; faults as `open_photo`.

    Parameters
    ----------
    data : bytes
        JPEG, PNG, WebP or TIFF.
    name : str
        What it is called in a fault.
    """
    notes: list[str] = []
    try:
        plain = _decoded(_checked(opened(data, name), name), name, notes)
    except PlanError:
        raise
    except Exception as error:  # decoders raise whatever a broken file makes them
        raise PlanError([Fault(name, "", "", "is broken and cannot be decoded")]) from error
    return Photo(plain, tuple(notes))


def opened(data: bytes, name: str) -> "Image":
    """Return an image of which no pixel is decoded yet; `PlanError` where it is none.

    Parameters
    ----------
    data : bytes
        JPEG, PNG, WebP or TIFF.
    name : str
        What it is called in a fault.
    """
    from PIL import Image, UnidentifiedImageError

    if data.startswith(_JPEG) and data.count(_SCAN) > _MOST_SCANS:
        _refuse(name, "is laid out in too many scans; save it anew")
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            return Image.open(io.BytesIO(data), formats=FORMATS)
    except (UnidentifiedImageError, Image.DecompressionBombError, OSError, ValueError, SyntaxError):
        _refuse(
            name, f"is no picture in {', '.join(FORMATS[:-1])} or {FORMATS[-1]}, or is too large"
        )


def _checked(image: "Image", name: str) -> "Image":
    """Return an image that is neither too large nor too small, nor grey; else `PlanError`."""
    wide, high = image.size
    most = _MOST_WEBP if image.format == "WEBP" else MOST_PIXELS
    if wide * high > most:
        told = (
            f"has {wide * high / 1e6:.0f} million pixels; give at most {most // 1_000_000} million"
        )
        _refuse(name, told if most == MOST_PIXELS else f"{told}, or a JPEG")
    if min(wide, high) < LEAST_SIDE:
        _refuse(name, f"is {wide} × {high} pixels; give at least {LEAST_SIDE} either way")
    if image.mode in _GREY:
        _refuse(name, _GREY_WORDS)
    return image


def _decoded(image: "Image", name: str, notes: list[str]) -> np.ndarray:
    """Return an image as sRGB bytes, upright: (height, width, 3) uint8."""
    from PIL import ImageOps

    if getattr(image, "is_animated", False):
        notes.append("only the first of its pictures is used")
    profile = image.info.get("icc_profile")
    image = loaded(image, notes)
    if image.getexif().get(_ORIENTATION, 1) != 1:
        ImageOps.exif_transpose(image, in_place=True)
    plain = np.asarray(in_srgb(image, profile, name, notes), dtype=np.uint8)
    if np.ptp(plain[::_SAMPLED, ::_SAMPLED], axis=2).max() <= _GREY_TO:
        _refuse(name, _GREY_WORDS)
    return plain


def loaded(image: "Image", notes: list[str]) -> "Image":
    """Return an image decoded, of a very large one every four pixels as one.

    Parameters
    ----------
    image : Image
        As it was opened.
    notes : list of str
        Gets what was done to it that a user should know.
    """
    wide, high = image.size
    if wide * high <= _PLENTY:
        image.load()
        return image
    notes.append("it is very large, and was made half as wide and half as high")
    image.draft(None, ((wide + 1) // 2, (high + 1) // 2))
    image.load()
    return image if image.width < wide else halved(image)


def halved(image: "Image") -> "Image":
    """Return an image half as wide and high, made band after band: it is never there twice.

    Parameters
    ----------
    image : Image
        Of any kind; what is see-through stays so, and how it stands upright is kept.
    """
    from PIL import Image

    turn = image.getexif().get(_ORIENTATION, 1)
    mode = "RGBA" if _has_alpha(image) else image.mode
    small = Image.new(mode, ((image.width + 1) // 2, (image.height + 1) // 2))
    for top in range(0, image.height, _BAND_PX):
        rows = image.crop((0, top, image.width, min(top + _BAND_PX, image.height)))
        small.paste((rows if rows.mode == mode else rows.convert(mode)).reduce(2), (0, top // 2))
    small.getexif()[_ORIENTATION] = turn
    return small


def _has_alpha(image: "Image") -> bool:
    return image.mode in ("P", "PA", "RGBA", "RGBa") or "transparency" in image.info


def in_srgb(image: "Image", profile: bytes | None, name: str, notes: list[str]) -> "Image":
    """Return an image as sRGB, laid on white where it is see-through.

    Parameters
    ----------
    image : Image
        As it was opened, or made smaller.
    profile : bytes or None
        The profile that came with it.
    name : str
        What it is called in a fault.
    notes : list of str
        Gets what was done to it that a user should know.
    """
    from PIL import Image, ImageCms

    if _has_alpha(image):
        seen = image if image.mode == "RGBA" else image.convert("RGBA")
        if seen.getchannel("A").histogram()[255] < seen.width * seen.height:
            notes.append("what is see-through was laid on white")
        ground = Image.new("RGBA", seen.size, "white")
        ground.alpha_composite(seen)
        image = ground.convert("RGB")
    if image.mode == "CMYK" and not profile:
        _refuse(name, "is in the colours of a press (CMYK) without a profile; save it as sRGB")
    if profile:
        try:
            source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            target = ImageCms.createProfile("sRGB")
            turned = ImageCms.profileToProfile(image, source, target, outputMode="RGB")
        except (ImageCms.PyCMSError, OSError):
            if image.mode == "CMYK":
                _refuse(name, "is in the colours of a press (CMYK) and its profile cannot be read")
            notes.append("its colour profile cannot be read; taken as sRGB")
        else:
            notes.append("its colour profile was turned into sRGB")
            image = turned or image
    return image if image.mode == "RGB" else image.convert("RGB")


def _refuse(name: str | Path, remedy: str) -> NoReturn:
    raise PlanError([Fault(str(name), "", "", remedy)])
