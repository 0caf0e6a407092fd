"""Paper and ink of every picture, and a PNG that says what it shows."""

import io
from typing import TYPE_CHECKING

from yarncolor.units import MM_PER_INCH

if TYPE_CHECKING:
    from PIL import Image

PAPER, INK = "#ffffff", "#1f1f1f"


def png_bytes(
    image: "Image.Image",
    title: str,
    alt: str,
    *,
    width_mm: float | None = None,
    compress_level: int = 3,
) -> bytes:
    """Return a picture as PNG with its title, its text alternative and what made it.

    Parameters
    ----------
    image : Image
        The picture.
    title, alt : str
        Of the plan; in words.
    width_mm : float, optional
        How wide it prints.
    compress_level : int
        0 to 9, where smaller takes longer.
    """
    from PIL import PngImagePlugin

    from yarncolor import __version__

    notes = PngImagePlugin.PngInfo()
    for key, text in (
        ("Title", title),
        ("Description", alt),
        ("Software", f"yarncolor {__version__}"),
    ):
        notes.add_itxt(key, text)
    stream = io.BytesIO()
    size = {} if width_mm is None else {"dpi": (image.width / width_mm * MM_PER_INCH,) * 2}
    image.save(stream, "PNG", pnginfo=notes, compress_level=compress_level, **size)
    return stream.getvalue()
