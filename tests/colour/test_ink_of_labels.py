"""Words on a colour are black or white, whichever stands out more (WCAG 2.2, contrast ratio)."""

import pytest

from yarncolor.colour.srgb import label_ink

WEIGHTS = (0.2126, 0.7152, 0.0722)
"""Of red, green and blue light in the relative luminance of WCAG 2.2."""


def luminance(colour: str) -> float:
    levels = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    light = [one / 12.92 if one <= 0.04045 else ((one + 0.055) / 1.055) ** 2.4 for one in levels]
    return sum(weight * one for weight, one in zip(WEIGHTS, light, strict=True))


@pytest.mark.parametrize("pattern", ["{0}{0}{0}", "{0}0000", "00{0}00", "0000{0}", "ff{0}80"])
def test_the_ink_is_that_of_more_contrast_and_always_enough_to_read(pattern):
    for level in range(256):
        colour = "#" + pattern.format(f"{level:02x}")
        black, white = (luminance(colour) + 0.05) / 0.05, 1.05 / (luminance(colour) + 0.05)
        assert label_ink(colour) == ("#000000" if black > white else "#ffffff")
        assert max(black, white) >= 4.5
