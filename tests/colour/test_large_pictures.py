"""Very large pictures: every four pixels as one, in little memory, and nothing else is changed."""

import io
import subprocess
import sys

import numpy as np
import pytest
from PIL import Image

from yarncolor import PlanError
from yarncolor.colour.photo import image as photo_image
from yarncolor.colour.photo.image import halved, photo_from_bytes

SAID = "it is very large, and was made half as wide and half as high"


def picture(mode: str = "RGB", wide: int = 40, high: int = 30) -> Image.Image:
    """Return a picture in colours, rows and columns told apart."""
    y, x = np.mgrid[:high, :wide]
    image = Image.fromarray(np.stack([x * 6, y * 8, 255 - x * 6], axis=2).astype(np.uint8))
    return image.convert(mode)


def saved(image: Image.Image, form: str = "PNG", **options) -> bytes:
    stream = io.BytesIO()
    image.save(stream, form, **options)
    return stream.getvalue()


@pytest.fixture
def plenty(monkeypatch):
    """Let a picture of more than a thousand pixels be a very large one, in bands of eight rows."""
    monkeypatch.setattr(photo_image, "_PLENTY", 1000)
    monkeypatch.setattr(photo_image, "_BAND_PX", 8)


@pytest.mark.usefixtures("plenty")
@pytest.mark.parametrize("mode", ["RGB", "RGBA", "CMYK"])
@pytest.mark.parametrize("size", [(40, 30), (41, 31), (16, 63)])
def test_bands_make_what_the_whole_would(mode, size):
    image = picture(mode, *size)
    assert np.array_equal(np.asarray(halved(image)), np.asarray(image.reduce(2)))


@pytest.mark.usefixtures("plenty")
def test_a_very_large_picture_is_halved_and_that_is_said():
    photo = photo_from_bytes(saved(picture()))
    assert (photo.size_px, photo.notes) == ((20, 15), (SAID,))
    assert np.array_equal(photo.srgb, np.asarray(picture().reduce(2)))


@pytest.mark.usefixtures("plenty")
@pytest.mark.parametrize("form", ["JPEG", "PNG", "TIFF"])
def test_it_stands_upright_all_the_same(form):
    tags = Image.Exif()
    tags[0x0112] = 6
    photo = photo_from_bytes(saved(picture(), form, exif=tags))
    wanted = np.asarray(picture().reduce(2).transpose(Image.Transpose.ROTATE_270), int)
    assert photo.size_px == (15, 20)
    assert np.abs(photo.srgb - wanted).mean() < (6 if form == "JPEG" else 0.1)


@pytest.mark.usefixtures("plenty")
@pytest.mark.parametrize("mode", ["P", "RGB"])
def test_what_is_see_through_is_laid_on_white(mode):
    image = picture(mode)
    photo = photo_from_bytes(saved(image, transparency=image.getpixel((0, 0))))
    assert photo.notes == (SAID, "what is see-through was laid on white")
    assert photo.size_px == (20, 15)


def test_an_ordinary_picture_keeps_every_pixel():
    photo = photo_from_bytes(saved(picture()))
    assert (photo.size_px, photo.notes) == ((40, 30), ())


def test_of_webp_fewer_pixels_are_taken(monkeypatch):
    monkeypatch.setattr(photo_image, "_MOST_WEBP", 1000)
    with pytest.raises(PlanError, match="give at most 0 million, or a JPEG"):
        photo_from_bytes(saved(picture(), "WEBP"))
    assert photo_from_bytes(saved(picture(), "PNG"))


MEASURED = """
import re, sys
from pathlib import Path
from yarncolor.colour.photo.image import open_photo
from yarncolor.report.record.photograph import photograph
try:
    photograph("plan.toml", sys.argv[1]) if sys.argv[2] == "record" else open_photo(sys.argv[1])
finally:
    print(int(re.search(r"VmHWM:\\s+(\\d+)", Path("/proc/self/status").read_text())[1]) // 1024)
"""


@pytest.mark.thorough
@pytest.mark.skipif(sys.platform != "linux", reason="memory is measured otherwise elsewhere")
@pytest.mark.parametrize("into", ["photo", "record"])
@pytest.mark.parametrize(
    ("form", "mode", "size"),
    [
        ("JPEG", "RGB", (8000, 6250)),
        ("PNG", "RGB", (8000, 6250)),
        ("PNG", "RGBA", (8000, 6250)),
        ("PNG", "P", (8000, 6250)),
        ("TIFF", "RGB", (5000, 5000)),
        ("WEBP", "RGB", (4000, 3000)),
    ],
)
def test_the_largest_pictures_take_less_than_400_mb(form, mode, size, into, tmp_path):
    tags = Image.Exif()
    tags[0x0112] = 6
    large = picture(mode).resize(size, Image.Resampling.NEAREST)
    options = {"JPEG": {}, "PNG": {"compress_level": 1}, "WEBP": {"method": 0}, "TIFF": {}}[form]
    large.save(tmp_path / "large", form, exif=tags, **options)
    done = subprocess.run(
        [sys.executable, "-c", MEASURED, "large", into],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=True,
    )
    assert int(done.stdout) < 400
