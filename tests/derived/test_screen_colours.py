"""Screen colours there and back, greys, channels and hex: what the standards imply."""

import numpy as np

from yarncolor.colour.science import hex_from_srgb, lab_from_srgb, srgb_from_hex, srgb_from_lab

LIBRARIES_DIFFER = 0.03


def cube(steps: int) -> np.ndarray:
    axis = np.linspace(0, 1, steps)
    return np.stack(np.meshgrid(axis, axis, axis), axis=-1).reshape(-1, 3)


def test_there_and_back_is_the_same_screen_colour():
    srgb = cube(33)
    back = srgb_from_lab(lab_from_srgb(srgb))
    np.testing.assert_allclose(back, srgb, rtol=0, atol=0.1 / 255)


def test_every_grey_is_nearly_without_chroma_and_rises_in_lightness():
    lab = lab_from_srgb(np.repeat(np.linspace(0, 1, 256)[:, None], 3, axis=1))
    assert np.abs(lab[:, 1:]).max() < LIBRARIES_DIFFER
    assert (np.diff(lab[:, 0]) > 0).all()


def test_more_light_in_any_channel_is_never_darker():
    for channel in range(3):
        for rest in cube(4):
            srgb = np.tile(rest, (256, 1))
            srgb[:, channel] = np.linspace(0, 1, 256)
            assert (np.diff(lab_from_srgb(srgb)[:, 0]) > 0).all()


def test_every_level_of_a_screen_is_kept_as_hex():
    levels = np.arange(256)
    srgb = np.column_stack([levels, levels[::-1], np.roll(levels, 77)]) / 255
    assert hex_from_srgb(srgb) == [
        f"#{red:02x}{green:02x}{blue:02x}"
        for red, green, blue in np.rint(srgb * 255).astype(int).tolist()
    ]
    np.testing.assert_allclose(srgb_from_hex(hex_from_srgb(srgb)), srgb, atol=1e-15)


def test_three_digits_stand_for_six():
    np.testing.assert_array_equal(
        srgb_from_hex(["#abc", "#f09"]), srgb_from_hex(["#aabbcc", "#ff0099"])
    )
    assert hex_from_srgb(srgb_from_hex(["#abc"])) == ["#aabbcc"]
