"""Photographs opened: right pixels from every usual format, and one clear line for the rest.

What profiles ought to give is worked out by coloraide and by colour-science, neither of which the
package uses for that.
"""

import io
import re
import struct
import tracemalloc
import warnings
import zlib

import colour
import numpy as np
import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image, ImageCms, ImageFile, PngImagePlugin

from tests.helpers.colour_profiles import linear_wide_gamut, press_profile
from yarncolor import PlanError
from yarncolor.colour.photo.image import MOST_BYTES, Photo, open_photo, photo_from_bytes
from yarncolor.report.show.photos import show_photo

HIGH, WIDE = 40, 60
NO_PICTURE = "picture: is no picture in JPEG, PNG, WEBP or TIFF, or is too large"
BROKEN = "picture: is broken and cannot be decoded"
GREY = "picture: is greyscale; give one in colour"
PRESS = "picture: is in the colours of a press (CMYK) without a profile; save it as sRGB"
FIRST = "only the first of its pictures is used"
ON_WHITE = "what is see-through was laid on white"
PROFILE = "its colour profile was turned into sRGB"
LOSSLESS = {"PNG": {}, "WEBP": {"lossless": True}, "TIFF": {}}
SECRETS = ("Maker of Secrets", "Model of Secrets", "2021:03:04 05:06:07", "Somebody")


def smooth() -> np.ndarray:
    """Return a picture (HIGH, WIDE, 3) in which every corner has another colour."""
    y, x = np.mgrid[0:HIGH, 0:WIDE]
    channels = (40 + 3 * x, 30 + 4 * y, 200 - 2 * x - y)
    return np.stack(channels, axis=-1).astype(np.uint8)


def one_colour(rgb: tuple[int, ...], mode: str = "RGB") -> Image.Image:
    return Image.new(mode, (WIDE, HIGH), rgb)


def encoded(image: Image.Image, form: str, **options) -> bytes:
    stream = io.BytesIO()
    image.save(stream, form, **options)
    return stream.getvalue()


def refusal(data: bytes, name: str = "picture") -> str:
    """Return the text with which bytes are refused, and make sure that it is one line."""
    with pytest.raises(PlanError) as told:
        photo_from_bytes(data, name)
    assert "\n" not in str(told.value)
    return str(told.value)


def chunk(kind: bytes, data: bytes) -> bytes:
    return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))


def png(wide: int, high: int, rows: bytes = b"", bits: int = 8, extra: bytes = b"") -> bytes:
    """Return a PNG in RGB of that size by its header, whatever its rows hold."""
    head = chunk(b"IHDR", struct.pack(">IIBBBBB", wide, high, bits, 2, 0, 0, 0))
    body = chunk(b"IDAT", zlib.compress(rows))
    return b"\x89PNG\r\n\x1a\n" + head + extra + body + chunk(b"IEND", b"")


def tiff(wide: int, high: int, pixels: bytes = b"", bits: int = 8) -> bytes:
    """Return a TIFF in RGB of that size by its tags, whatever its pixels hold."""
    own = 8 + 2 + 9 * 12 + 4
    tags = [
        (256, 4, 1, wide), (257, 4, 1, high), (258, 3, 3, own), (259, 3, 1, 1), (262, 3, 1, 2),
        (273, 4, 1, own + 6), (277, 3, 1, 3), (278, 4, 1, high), (279, 4, 1, len(pixels)),
    ]  # fmt: skip
    table = struct.pack("<H", len(tags)) + b"".join(struct.pack("<HHII", *tag) for tag in tags)
    return (
        b"II*\0"
        + struct.pack("<I", 8)
        + table
        + bytes(4)
        + struct.pack("<HHH", *[bits] * 3)
        + (pixels)
    )


def jpeg_that_says(wide: int, high: int) -> bytes:
    """Return a small JPEG of which the header says another size."""
    data = encoded(Image.fromarray(smooth()), "JPEG")
    at = data.index(b"\xff\xc0") + 5
    return data[:at] + struct.pack(">HH", high, wide) + data[at + 4 :]


def webp_that_says(wide: int, high: int) -> bytes:
    """Return an animated WebP of one small frame on a canvas of another size."""

    def riff(kind: bytes, data: bytes) -> bytes:
        return kind + struct.pack("<I", len(data)) + data

    def three(number: int) -> bytes:
        return struct.pack("<I", number)[:3]

    frame = encoded(Image.new("RGB", (16, 16)), "WEBP", lossless=True)[12:]
    canvas = riff(b"VP8X", b"\2\0\0\0" + three(wide - 1) + three(high - 1))
    placed = riff(b"ANMF", bytes(6) + three(15) * 2 + b"\x10\0\0\0" + frame)
    return riff(b"RIFF", b"WEBP" + canvas + riff(b"ANIM", bytes(6)) + placed)


# --- right pixels -------------------------------------------------------------------------------


@pytest.mark.parametrize("form", LOSSLESS)
def test_a_format_without_loss_gives_the_very_pixels(form):
    photo = photo_from_bytes(encoded(Image.fromarray(smooth()), form, **LOSSLESS[form]))
    np.testing.assert_array_equal(photo.srgb, smooth())
    assert (photo.size_px, photo.notes) == ((WIDE, HIGH), ())


@pytest.mark.parametrize("compression", ["tiff_lzw", "tiff_adobe_deflate", "packbits"])
def test_a_compressed_tiff_gives_the_very_pixels(compression):
    data = encoded(Image.fromarray(smooth()), "TIFF", compression=compression)
    np.testing.assert_array_equal(photo_from_bytes(data).srgb, smooth())


@pytest.mark.parametrize("options", [{"subsampling": 0}, {"progressive": True}, {}])
def test_a_jpeg_gives_nearly_the_pixels(options):
    photo = photo_from_bytes(encoded(Image.fromarray(smooth()), "JPEG", quality=95, **options))
    assert np.abs(photo.srgb.astype(int) - smooth()).mean() < 2


def test_a_file_is_opened_as_its_bytes_are(tmp_path):
    path = tmp_path / "no ending at all"
    path.write_bytes(encoded(Image.fromarray(smooth()), "PNG"))
    for name in (path, str(path)):
        np.testing.assert_array_equal(open_photo(name).srgb, smooth())


TURNS = {
    1: lambda stored: stored,
    2: lambda stored: stored[:, ::-1],
    3: lambda stored: stored[::-1, ::-1],
    4: lambda stored: stored[::-1],
    5: lambda stored: stored.transpose(1, 0, 2),
    6: lambda stored: np.rot90(stored, -1),
    7: lambda stored: np.rot90(stored, 2).transpose(1, 0, 2),
    8: lambda stored: np.rot90(stored, 1),
}


@pytest.mark.parametrize("form", LOSSLESS)
@pytest.mark.parametrize("orientation", TURNS)
def test_a_picture_stands_upright_whatever_its_tag(form, orientation):
    tags = Image.Exif()
    tags[274] = orientation
    photo = photo_from_bytes(encoded(Image.fromarray(smooth()), form, exif=tags, **LOSSLESS[form]))
    np.testing.assert_array_equal(photo.srgb, TURNS[orientation](smooth()))


@pytest.mark.parametrize("orientation", TURNS)
def test_a_jpeg_stands_upright_too(orientation):
    tags = Image.Exif()
    tags[274] = orientation
    photo = photo_from_bytes(encoded(Image.fromarray(smooth()), "JPEG", quality=95, exif=tags))
    assert np.abs(photo.srgb.astype(int) - TURNS[orientation](smooth())).mean() < 2


@pytest.mark.parametrize("orientation", [0, 9, 77])
def test_an_orientation_that_is_none_leaves_the_picture_as_it_is(orientation):
    tags = Image.Exif()
    tags[274] = orientation
    photo = photo_from_bytes(encoded(Image.fromarray(smooth()), "PNG", exif=tags))
    np.testing.assert_array_equal(photo.srgb, smooth())


def test_tags_that_are_garbage_do_not_spoil_the_picture():
    data = encoded(Image.fromarray(smooth()), "JPEG", quality=95, exif=b"Exif\0\0not tags at all")
    assert np.abs(photo_from_bytes(data).srgb.astype(int) - smooth()).mean() < 2


# --- profiles -----------------------------------------------------------------------------------


LINEAR = [(128, 128, 120), (90, 60, 30), (40, 90, 60), (160, 120, 100), (55, 60, 120)]


@pytest.mark.parametrize("rgb", LINEAR)
def test_a_wide_linear_profile_is_honoured_by_coloraide(rgb):
    data = encoded(one_colour(rgb), "PNG", icc_profile=linear_wide_gamut())
    photo = photo_from_bytes(data)
    right = Color("rec2020-linear", [value / 255 for value in rgb]).convert("srgb")
    assert right.in_gamut()
    np.testing.assert_allclose(photo.srgb[0, 0], np.array(right.coords()) * 255, atol=1)
    assert photo.notes == (PROFILE,)


@pytest.mark.parametrize("rgb", LINEAR)
def test_a_wide_linear_profile_is_honoured_by_colour_science(rgb):
    photo = photo_from_bytes(encoded(one_colour(rgb), "TIFF", icc_profile=linear_wide_gamut()))
    light = colour.RGB_to_RGB(np.array(rgb) / 255, "ITU-R BT.2020", "sRGB")
    np.testing.assert_allclose(photo.srgb[0, 0], colour.cctf_encoding(light) * 255, atol=1)


@pytest.mark.parametrize(("form", "options"), [("JPEG", {"quality": 100}), *LOSSLESS.items()])
def test_a_profile_is_honoured_in_every_format(form, options):
    data = encoded(one_colour((90, 60, 30)), form, icc_profile=linear_wide_gamut(), **options)
    right = Color("rec2020-linear", [90 / 255, 60 / 255, 30 / 255]).convert("srgb")
    found = photo_from_bytes(data).srgb.mean(axis=(0, 1))
    np.testing.assert_allclose(found, np.array(right.coords()) * 255, atol=2.5)


@pytest.mark.parametrize("mode", ["P", "RGBA"])
def test_a_profile_is_honoured_with_a_palette_and_with_alpha(mode):
    plain = one_colour((160, 120, 100))
    image = plain.quantize(2) if mode == "P" else plain.convert(mode)
    photo = photo_from_bytes(encoded(image, "PNG", icc_profile=linear_wide_gamut()))
    right = Color("rec2020-linear", [160 / 255, 120 / 255, 100 / 255]).convert("srgb")
    np.testing.assert_allclose(photo.srgb[0, 0], np.array(right.coords()) * 255, atol=1)
    assert photo.notes == (PROFILE,)


def test_a_profile_of_srgb_changes_nothing():
    own = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    photo = photo_from_bytes(encoded(Image.fromarray(smooth()), "PNG", icc_profile=own))
    np.testing.assert_allclose(photo.srgb.astype(int), smooth(), atol=1)


@pytest.mark.parametrize("icc", [b"not a profile", b"\0" * 200, linear_wide_gamut()[:150]])
def test_a_profile_that_cannot_be_read_is_said_and_left_out(icc):
    photo = photo_from_bytes(encoded(Image.fromarray(smooth()), "PNG", icc_profile=icc))
    np.testing.assert_array_equal(photo.srgb, smooth())
    assert photo.notes == ("its colour profile cannot be read; taken as sRGB",)


def test_a_profile_of_four_inks_on_three_channels_is_said_and_left_out():
    photo = photo_from_bytes(encoded(Image.fromarray(smooth()), "PNG", icc_profile=press_profile()))
    np.testing.assert_array_equal(photo.srgb, smooth())
    assert photo.notes == ("its colour profile cannot be read; taken as sRGB",)


@pytest.mark.parametrize("form", ["TIFF", "JPEG"])
@pytest.mark.parametrize(
    ("inks", "lab"), [((255, 255, 0, 0), (30, 10, -30)), ((0, 255, 255, 0), (50, 60, 40))]
)
def test_the_colours_of_a_press_with_a_profile_become_srgb(form, inks, lab):
    data = encoded(one_colour(inks, "CMYK"), form, icc_profile=press_profile())
    photo = photo_from_bytes(data)
    right = np.array(Color("lab", lab).convert("srgb").coords()) * 255
    np.testing.assert_allclose(photo.srgb.mean(axis=(0, 1)), right, atol=3)
    assert photo.notes == (PROFILE,)


@pytest.mark.parametrize("form", ["TIFF", "JPEG"])
def test_the_colours_of_a_press_without_a_profile_are_refused(form):
    assert refusal(encoded(one_colour((0, 99, 99, 0), "CMYK"), form)) == PRESS


def test_the_colours_of_a_press_with_a_broken_profile_are_refused():
    data = encoded(one_colour((0, 99, 99, 0), "CMYK"), "TIFF", icc_profile=b"no profile")
    assert refusal(data) == (
        "picture: is in the colours of a press (CMYK) and its profile cannot be read"
    )


# --- unusual pictures ---------------------------------------------------------------------------


@pytest.mark.parametrize("form", ["PNG", "TIFF"])
@pytest.mark.parametrize("mode", ["1", "L", "LA", "I;16"])
def test_greyscale_is_refused(form, mode):
    grey = Image.fromarray(smooth()).convert("L")
    image = grey.convert("I").convert("I;16") if mode == "I;16" else grey.convert(mode)
    assert refusal(encoded(image, form)) == GREY


@pytest.mark.parametrize("mode", ["I", "F"])
def test_greyscale_of_wide_numbers_is_refused(mode):
    assert refusal(encoded(Image.fromarray(smooth()).convert("L").convert(mode), "TIFF")) == GREY


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP", "TIFF"])
def test_grey_in_three_channels_is_refused(form):
    grey = Image.fromarray(smooth()).convert("L")
    assert refusal(encoded(grey.convert("RGB"), form)) == GREY


@pytest.mark.parametrize("form", ["JPEG", "WEBP"])
def test_a_grey_picture_that_knows_loss_is_refused(form):
    assert refusal(encoded(Image.fromarray(smooth()).convert("L"), form)) == GREY


def test_one_spot_of_colour_makes_a_picture_in_colour():
    almost = np.repeat(smooth()[..., :1], 3, axis=-1)
    almost[3:8, 4:9] = 10, 200, 30
    assert photo_from_bytes(encoded(Image.fromarray(almost), "PNG")).size_px == (WIDE, HIGH)


def deep() -> np.ndarray:
    """Return 16 bits of a picture, of which the upper byte alone is not the whole story."""
    rng = np.random.default_rng(3)
    return rng.integers(0, 2**16, (HIGH, WIDE, 3), dtype=np.uint16)


def test_a_png_of_sixteen_bits_is_taken_down_to_eight():
    rows = b"".join(b"\0" + row.astype(">u2").tobytes() for row in deep())
    photo = photo_from_bytes(png(WIDE, HIGH, rows, bits=16))
    np.testing.assert_allclose(photo.srgb, deep() / 257, atol=1)


def test_a_tiff_of_sixteen_bits_is_taken_down_to_eight():
    photo = photo_from_bytes(tiff(WIDE, HIGH, deep().astype("<u2").tobytes(), bits=16))
    np.testing.assert_allclose(photo.srgb, deep() / 257, atol=1)


@pytest.mark.parametrize("form", LOSSLESS)
def test_what_is_see_through_is_laid_on_white_and_said(form):
    seen = np.dstack([smooth(), np.full((HIGH, WIDE), 255, np.uint8)])
    seen[: HIGH // 2, :, 3] = 0
    seen[-1, :, 3] = 128
    photo = photo_from_bytes(encoded(Image.fromarray(seen), form, **LOSSLESS[form]))
    np.testing.assert_array_equal(photo.srgb[: HIGH // 2], 255)
    np.testing.assert_array_equal(photo.srgb[HIGH // 2 : -1], smooth()[HIGH // 2 : -1])
    share = 128 / 255
    half = smooth()[-1] * share + 255 * (1 - share)
    np.testing.assert_allclose(photo.srgb[-1], half, atol=1)
    assert photo.notes == (ON_WHITE,)


def test_alpha_that_hides_nothing_is_not_mentioned():
    data = encoded(Image.fromarray(smooth()).convert("RGBA"), "PNG")
    assert photo_from_bytes(data).notes == ()


def test_a_palette_with_one_see_through_colour_is_laid_on_white():
    image = Image.new("P", (WIDE, HIGH), 1)
    image.putpalette([10, 20, 30, 200, 100, 50])
    image.paste(0, (0, 0, WIDE // 2, HIGH))
    photo = photo_from_bytes(encoded(image, "PNG", transparency=0))
    assert photo.srgb[5, 5].tolist() == [255, 255, 255]
    assert photo.srgb[5, -5].tolist() == [200, 100, 50]
    assert photo.notes == (ON_WHITE,)


def test_one_see_through_colour_of_a_plain_png_is_laid_on_white():
    image = Image.fromarray(smooth())
    photo = photo_from_bytes(encoded(image, "PNG", transparency=tuple(smooth()[3, 4].tolist())))
    assert photo.srgb[3, 4].tolist() == [255, 255, 255]
    assert photo.srgb[4, 4].tolist() == smooth()[4, 4].tolist()
    assert photo.notes == (ON_WHITE,)


@pytest.mark.parametrize("form", LOSSLESS)
def test_of_several_pictures_the_first_is_used_and_that_is_said(form):
    first, second = Image.fromarray(smooth()), Image.fromarray(smooth()[::-1].copy())
    options = LOSSLESS[form] | {"save_all": True, "append_images": [second]}
    photo = photo_from_bytes(encoded(first, form, **options))
    np.testing.assert_array_equal(photo.srgb, smooth())
    assert photo.notes == (FIRST,)


def test_of_several_pictures_in_one_jpeg_the_first_is_used_and_that_is_said():
    first, second = Image.fromarray(smooth()), Image.fromarray(smooth()[::-1].copy())
    data = encoded(first, "MPO", quality=95, save_all=True, append_images=[second])
    photo = photo_from_bytes(data)
    assert np.abs(photo.srgb.astype(int) - smooth()).mean() < 2
    assert photo.notes == (FIRST,)


# --- refused ------------------------------------------------------------------------------------

RANDOM = np.random.default_rng(5).bytes(5000)


@pytest.mark.parametrize(
    "data",
    [b"", b"\0", b"A letter to a friend.\n" * 40, RANDOM, b"<svg xmlns='http://www.w3.org/2000/svg'/>",
     b"%PDF-1.7\n", b"\xff\xd8\xff", b"\x89PNG\r\n\x1a\n", b"RIFF\0\0\0\0WEBP", b"II*\0"],
)  # fmt: skip
def test_what_is_no_picture_is_refused_in_one_line(data):
    assert refusal(data) == NO_PICTURE


@pytest.mark.parametrize("form", ["GIF", "BMP", "PPM", "ICO"])
def test_other_formats_are_refused(form):
    assert refusal(encoded(Image.fromarray(smooth()), form)) == NO_PICTURE


def test_an_animated_gif_is_refused():
    frames = [Image.fromarray(smooth()), Image.fromarray(smooth()[::-1].copy())]
    data = encoded(frames[0], "GIF", save_all=True, append_images=frames[1:])
    assert refusal(data) == NO_PICTURE


@pytest.mark.parametrize("form", ["JPEG", "PNG", "TIFF"])
@pytest.mark.parametrize("share", [0.5, 0.8, 0.97])
def test_a_picture_cut_short_is_refused(form, share):
    noise = np.random.default_rng(2).integers(0, 255, (200, 300, 3), dtype=np.uint8)
    data = encoded(
        Image.fromarray(noise), form, **({"compression": "raw"} if form == "TIFF" else {})
    )
    assert refusal(data[: int(len(data) * share)]) in (BROKEN, NO_PICTURE)


def test_a_jpeg_cut_short_is_said_to_be_broken():
    data = encoded(Image.fromarray(smooth()), "JPEG")
    assert refusal(data[: len(data) - 200]) == BROKEN


def test_a_webp_cut_short_is_refused():
    data = encoded(Image.fromarray(smooth()), "WEBP")
    assert refusal(data[: len(data) // 2]) in (BROKEN, NO_PICTURE)


@pytest.mark.parametrize(("wide", "high"), [(0, 20), (20, 0), (0, 0)])
def test_a_picture_of_no_pixels_is_refused(wide, high):
    assert refusal(png(wide, high)) == NO_PICTURE
    assert refusal(tiff(wide, high)).startswith("picture: is ")


@pytest.mark.parametrize(("wide", "high"), [(15, 16), (16, 15), (1, 1), (15, 4000)])
def test_a_picture_of_hardly_any_pixels_is_refused(wide, high):
    data = encoded(Image.new("RGB", (wide, high)), "PNG")
    assert refusal(data) == f"picture: is {wide} × {high} pixels; give at least 16 either way"


def test_the_smallest_picture_is_opened():
    assert photo_from_bytes(encoded(Image.new("RGB", (16, 16), "tan"), "PNG")).size_px == (16, 16)


BOMBS = {
    "a PNG of two thousand million": (png(50_000, 40_000), NO_PICTURE),
    "the largest PNG there is": (png(2**31 - 1, 2**31 - 1), NO_PICTURE),
    "a PNG of 60 million": (
        png(10_000, 6_000),
        "picture: has 60 million pixels; give at most 50 million",
    ),
    "a JPEG of 4000 million": (jpeg_that_says(65_000, 65_000), NO_PICTURE),
    "a JPEG of 63 million": (
        jpeg_that_says(9_000, 7_000),
        "picture: has 63 million pixels; give at most 50 million",
    ),
    "a TIFF of 3600 million": (tiff(60_000, 60_000), NO_PICTURE),
    "a TIFF of 64 million": (
        tiff(8_000, 8_000),
        "picture: has 64 million pixels; give at most 50 million",
    ),
    "a WebP of 64 million": (
        webp_that_says(8_000, 8_000),
        "picture: has 64 million pixels; give at most 12 million, or a JPEG",
    ),
    "a WebP of 268 million": (webp_that_says(16_383, 16_383), NO_PICTURE),
    "a profile of 100 megabytes": (
        png(20, 20, extra=chunk(b"iCCP", b"x\0\0" + zlib.compress(bytes(100_000_000)))),
        NO_PICTURE,
    ),
}


@pytest.mark.parametrize("bomb", BOMBS)
def test_a_bomb_is_refused_before_it_is_decoded_in_little_memory(bomb, monkeypatch):
    data, right = BOMBS[bomb]
    photo_from_bytes(encoded(Image.fromarray(smooth()), "PNG"))
    monkeypatch.setattr(ImageFile.ImageFile, "load", lambda _: pytest.fail("decoded"))
    tracemalloc.start()
    said = refusal(data)
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert said == right
    assert peak < 3_000_000


@pytest.mark.parametrize("strict", ["error", "always"])
def test_a_bomb_is_refused_without_a_warning_beside_it(strict):
    with warnings.catch_warnings(record=True) as warned:
        warnings.simplefilter(strict)
        said = refusal(png(12_000, 10_000))
    assert said == "picture: has 120 million pixels; give at most 50 million"
    assert warned == []


def test_a_jpeg_of_hundreds_of_scans_is_refused_before_it_is_decoded():
    """Each costs 3 kB in the file and the time of a whole picture in decoding."""
    data = encoded(Image.new("RGB", (900, 600), "tan"), "JPEG", progressive=True)
    scan = data[data.rindex(b"\xff\xda") : -2]
    assert photo_from_bytes(data).size_px == (900, 600)
    assert refusal(data[:-2] + scan * 400 + data[-2:]).startswith("picture: ")


def test_a_png_in_which_the_mark_of_a_scan_stands_by_chance_is_opened():
    srgb = np.full((64, 64, 3), (150, 60, 50), np.uint8)
    about = PngImagePlugin.PngInfo()
    about.add_text("note", "ÿÚ" * 1000)
    stream = io.BytesIO()
    Image.fromarray(srgb).save(stream, "PNG", pnginfo=about)
    assert stream.getvalue().count(b"\xff\xda") >= 1000
    np.testing.assert_array_equal(photo_from_bytes(stream.getvalue()).srgb, srgb)


def test_a_file_of_too_many_bytes_is_not_read(tmp_path, monkeypatch):
    path = tmp_path / "huge.jpg"
    with path.open("wb") as file:
        file.truncate(MOST_BYTES + 1)
    monkeypatch.setattr("pathlib.Path.read_bytes", lambda _: pytest.fail("read"))
    with pytest.raises(PlanError) as told:
        open_photo(path)
    assert str(told.value) == f"{path}: is larger than 80 MB; save a smaller copy"


def test_a_missing_file_is_said_to_be_missing(tmp_path):
    path = tmp_path / "nothing here.jpg"
    with pytest.raises(PlanError) as told:
        open_photo(path)
    assert str(told.value) == f"{path}: cannot be read: no such file or directory"


def test_a_folder_is_said_to_be_one(tmp_path):
    with pytest.raises(PlanError) as told:
        open_photo(tmp_path)
    assert str(told.value) == f"{tmp_path}: cannot be read: is a directory"


def test_a_name_that_no_disk_takes_is_refused():
    with pytest.raises(PlanError) as told:
        open_photo("a\0b.jpg")
    assert "\n" not in str(told.value)


def test_a_hostile_name_stays_on_one_line():
    said = refusal(b"", "a\nb\x1b[31m.jpg")
    assert said == "a\\nb\\x1b[31m.jpg: is no picture in JPEG, PNG, WEBP or TIFF, or is too large"


def opened_or_told(data: bytes) -> tuple[Photo | None, str]:
    try:
        return photo_from_bytes(data), ""
    except PlanError as error:
        return None, str(error)


SMALL = {form: encoded(Image.fromarray(smooth()), form) for form in ("JPEG", "PNG", "WEBP", "TIFF")}


@pytest.mark.parametrize("form", SMALL)
@given(st.lists(st.tuples(st.integers(0, 10**6), st.integers(0, 255)), min_size=1, max_size=8))
def test_whatever_is_done_to_a_file_it_is_a_photo_or_one_line(form, spoilt):
    data = bytearray(SMALL[form])
    for at, value in spoilt:
        data[at % len(data)] = value
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        opened, told = opened_or_told(bytes(data))
    if opened is None:
        assert re.fullmatch(r"picture: [^\n]+", told)
    else:
        assert opened.srgb.shape[2] == 3
        assert opened.srgb.dtype == np.uint8


# --- nothing of place, time and device ----------------------------------------------------------


def tell_tale(form: str) -> bytes:
    """Return a picture whose tags say by what, when, where and of whom it was taken."""
    tags = Image.Exif()
    tags[271], tags[272], tags[306], tags[315] = SECRETS
    tags.get_ifd(34853).update({1: "N", 2: (54.0, 3.0, 2.0), 3: "W", 4: (1.0, 2.0, 3.0)})
    return encoded(Image.fromarray(smooth()), form, exif=tags, icc_profile=linear_wide_gamut())


@pytest.mark.parametrize("form", ["JPEG", "PNG", "WEBP", "TIFF"])
def test_no_place_time_or_device_is_kept_or_shown(form):
    data = tell_tale(form)
    assert SECRETS[0].encode() in data
    photo = photo_from_bytes(data)
    assert set(vars(photo)) == {"srgb", "notes", "is_example"}
    assert type(photo.srgb) is np.ndarray
    assert photo.notes == (PROFILE,)
    assert photo.is_example is False
    shown = show_photo(photo)
    kept = repr(photo) + shown.alt + shown.png.decode("latin-1")
    assert not [word for word in (*SECRETS, "wide and linear", "GPS", "Exif") if word in kept]


def test_the_size_is_width_and_height():
    assert Photo(np.zeros((20, 30, 3), np.uint8)).size_px == (30, 20)
