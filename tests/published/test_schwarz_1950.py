"""What plying does to the twist of a single: E. R. Schwarz, Twist structure of plied yarns,
Textile Research Journal 20, 1950, 175 (page as read, volume from memory), as read in an excerpt of
that page, which credits the geometric part, the tortuosity, to H. J. Woods.

The factor U cos² β was read in an abstract of 1961 and is derived by rigid rotation; here a
direction is carried along the bent single without turning it, and its turns are counted.
"""

from math import acos, cos, pi, radians, tan

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from yarncolor.yarn.helix import Single, left_in_single_tpm

angles = st.floats(0.5, 60)
twists = st.floats(1, 2000)


def turns_counted(radius_mm: float, twist_tpm: float, steps: int = 20_000) -> float:
    """Return turns in a metre of a strand laid round the yarn by rigid rotation.

    Its mark always faces the yarn's axis. Beside it goes a direction that only bends with the
    strand; the mark turns about the strand as often as it passes that direction.
    """
    height = np.linspace(0, 1 / twist_tpm, steps + 1)  # one turn, in metres
    round_it = 2 * pi * twist_tpm * height
    radius = radius_mm / 1000
    mark = -np.stack([np.cos(round_it), np.sin(round_it), 0 * round_it], axis=1)
    along = np.stack([-np.sin(round_it), np.cos(round_it), 0 * round_it], axis=1)
    along = along * radius * 2 * pi * twist_tpm + [0, 0, 1]
    metres = np.linalg.norm(along[0]) / twist_tpm
    along /= np.linalg.norm(along, axis=1)[:, None]
    carried = mark[0]
    for at in along[1:]:
        carried = carried - at * (carried @ at)
        carried /= np.linalg.norm(carried)
    sine = np.cross(carried, mark[-1]) @ along[-1]
    turned = np.arctan2(sine, carried @ mark[-1]) % (2 * pi)  # less than one turn, always
    return turned / (2 * pi) / metres


@pytest.mark.parametrize("angle", [3, 10, 17.441, 20, 30, 45, 60])
def test_a_strand_without_twist_gains_what_can_be_counted_along_it(angle):
    for twist in (60.0, 200.0):
        radius = tan(radians(angle)) / (2 * pi * twist) * 1000
        gained = left_in_single_tpm(Single(1.0, 0.0, opposed=False), angle, twist)
        assert gained == pytest.approx(turns_counted(radius, twist), rel=1e-4)


@given(angles, twists, twists)
def test_link_is_twist_and_writhe(angle, twist, in_single):
    """G. Călugăreanu's sum: what turning puts in, less what the coils take up.

    As M. R. Dennis and J. H. Hannay have it, Geometry of Călugăreanu's theorem, Proceedings of the
    Royal Society A 461, 2005, 3245, abstract.
    The coils of a helix take up 1 - cos β of each turn: the area that its direction draws on
    the sphere.
    """
    put_in = twist * cos(radians(angle))  # a metre of single is so much shorter when plied
    coils = put_in * (1 - cos(radians(angle)))
    left = left_in_single_tpm(Single(1.0, in_single), angle, twist)
    assert left == pytest.approx(in_single - (put_in - coils), abs=1e-9 * (twist + in_single))


@pytest.mark.oracle
def test_the_area_on_the_sphere_that_the_coils_draw():
    """Σ of its strips, by hand; 2π (1 - cos β) a turn."""
    for angle in (5, 20, 40, 60):
        polar = np.linspace(0, radians(angle), 10_001)
        area = np.trapezoid(2 * pi * np.sin(polar), polar)
        assert area / (2 * pi) == pytest.approx(1 - cos(radians(angle)), rel=1e-6)
        assert acos(1 - area / (2 * pi)) == pytest.approx(radians(angle), rel=1e-6)
