"""How hairy a portrait is: length of hairs beyond the body, over length of yarn.

What is counted is a hair length index as in A. Fabijanska and L. Jackowska-Strumillo, Image
processing and analysis algorithms for yarn hairiness determination, Machine Vision and Applications
23, 2012, 527-540 (read in the abstract), which compare theirs to that of yarn testers: centimetres
of hair that stand off in a centimetre of yarn, as articles on testing define it too. That of staple
yarns lies between about 3 and 12 (from memory; no open table was found).
"""

import numpy as np
import pytest

from yarncolor.pictures.portrait_hairs import hairs_of
from yarncolor.pictures.yarn_geometry import YarnGeometry

LONG_MM = 60.0
X_MM = np.linspace(0, LONG_MM, 3000, dtype=np.float32)


def hair_length_index(rope: YarnGeometry, fuzz: float, seed: int = 1) -> float:
    """Return the length of hair that is seen beside the body, over that of the yarn."""
    plies, reach_mm = len(rope.radii_mm), 0.125 * rope.envelope_mm
    every = hairs_of(rope, X_MM, reach_mm, np.full(plies, fuzz), np.random.default_rng(seed))
    hairs = every.rooted_in(0, LONG_MM)
    piece = np.hypot(np.diff(hairs.x_mm, axis=1), np.diff(hairs.y_mm, axis=1))
    is_beyond = np.abs(hairs.y_mm[:, 1:]) > rope.envelope_mm / 2
    return float((piece * is_beyond).sum() / LONG_MM)


def two_ply(thick_mm: float) -> YarnGeometry:
    return YarnGeometry((thick_mm / 4,) * 2, thick_mm / 4, 0.2, (0.0,) * 2)


@pytest.mark.parametrize("thick_mm", [0.8, 1.6, 3.2])
def test_a_carded_yarn_is_as_hairy_as_staple_yarns_are(thick_mm):
    assert 3 < hair_length_index(two_ply(thick_mm), 1.0) < 12


def test_hairs_grow_with_the_fuzz_and_without_it_there_are_none():
    half, whole = (hair_length_index(two_ply(1.6), fuzz) for fuzz in (0.5, 1.0))
    assert half == pytest.approx(whole / 2, rel=0.15)
    assert hair_length_index(two_ply(1.6), 0.0) == 0
