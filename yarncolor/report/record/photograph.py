"""The photograph of a yarn, small enough to stand in a page, and with nothing but its pixels."""

import io
from pathlib import Path
from typing import TYPE_CHECKING

from yarncolor.colour.photo.image import MOST_BYTES, MOST_PIXELS, in_srgb, loaded, opened
from yarncolor.errors import Fault, Place, PlanError, quoted, system_says

if TYPE_CHECKING:
    from PIL.Image import Image

_LONGEST_PX, _QUALITY = 1400, 82
_NO_PICTURE = "is no picture that can be shown; give a JPEG, PNG, WebP or TIFF"


def photograph(file: str, picture: str) -> bytes:
    """Return the photograph that a plan names, as a JPEG of at most 1,400 pixels.

    Place, time and device, which a camera writes into it, are left out.

    Parameters
    ----------
    file : str
        The plan file, in whose folder it lies.
    picture : str
        As the plan names it.

    Raises
    ------
    PlanError
        With one line where there is none, it lies elsewhere, or it is no picture.
    """
    folder = Path(file).resolve().parent
    try:
        path = (folder / picture).resolve()
        if not path.is_relative_to(folder):
            raise _fault(file, picture, "it leads out of the folder of the plan; put it there")
        if not path.is_file():
            raise _fault(file, picture, "there is no such file beside the plan")
        if path.stat().st_size > MOST_BYTES:
            raise _fault(file, picture, "is too large; save a smaller copy")
        return _as_jpeg(path.read_bytes(), picture)
    except PlanError as error:
        if error.faults[0].file == file:
            raise
        raise _fault(file, picture, _NO_PICTURE) from error
    except (OSError, ValueError, RuntimeError) as error:
        raise _fault(file, picture, f"cannot be read: {system_says(error)}") from error


def _fault(file: str, picture: str, remedy: str) -> PlanError:
    return PlanError([Fault(file, Place(("made", "picture")), quoted(picture), remedy)])


def _as_jpeg(data: bytes, name: str) -> bytes:
    """Return a picture as JPEG, upright and in sRGB; `PlanError` for what is none."""
    from PIL import ImageOps

    image = opened(data, name)
    if image.width * image.height > MOST_PIXELS:
        raise PlanError([Fault(name, "", "", _NO_PICTURE)])
    try:
        profile = image.info.get("icc_profile")
        image.draft(None, (_LONGEST_PX, _LONGEST_PX))
        image = loaded(image, [])
        ImageOps.exif_transpose(image, in_place=True)
        image.thumbnail((_LONGEST_PX, _LONGEST_PX))
        return _jpeg(in_srgb(image, profile, name, []))
    except PlanError:
        raise
    except Exception as error:  # decoders raise whatever a broken file makes them
        raise PlanError([Fault(name, "", "", _NO_PICTURE)]) from error


def _jpeg(image: "Image") -> bytes:
    stream, image.info = io.BytesIO(), {}
    image.save(stream, "JPEG", quality=_QUALITY)
    return stream.getvalue()
