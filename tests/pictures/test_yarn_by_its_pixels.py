"""From a plan to pixels and back: what is measured on the drawn yarn is what plan.json says.

Only the picture is looked at, and its scale. A strand is told by its hue, since its light goes from
dark at its edges to light in its middle; hairs are left out as what is narrower than a few pixels.
"""

from math import atan, ceil, degrees, pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.ndimage import binary_opening

import yarncolor as yc
from tests.helpers.strategies import by_hand
from yarncolor.pictures.painting import Paint
from yarncolor.pictures.view import ViewSettings
from yarncolor.pictures.yarn_pictures import yarn_at

COLOURS = {"Rust": "#e01818", "Kelp": "#18e018", "Slate": "#1818e0", "Samphire": "#a5a518"}
"""As much light in each, so that pixels which two of them share are left out of both alike."""

_EVEN = ViewSettings(paint=Paint(mottle=0.0))
_TURNS, _TURN_PX, _HAIR_PX = 6, 300, 11

singles = st.floats(40, 900)
angles = st.floats(8, 33)
plies_of = st.integers(2, 4)


class Seen:
    """A yarn drawn from a plan, and what is measured on its picture."""

    def __init__(self, tex: list[float], angle_deg: float, direction: str, from_m: float = 0.0):
        names = list(COLOURS)[: len(tex)]
        data = by_hand(
            dict.fromkeys(names, 40.0),
            scheme={"name": "staggered", "plies": len(tex)},
            spinning={"single_tex": tex if len(set(tex)) > 1 else tex[0]},
            plying={"twist_tpm": 100.0, "direction": direction},
        )
        for lot in data["lots"]:
            lot["colour"] = COLOURS[lot["name"]]
        ring_mm = yc.answer(yc.plan_from_data(data)).resolved.yarn.ply_helix_radius_mm
        data["plying"]["twist_tpm"] = np.tan(np.radians(angle_deg)) / (2 * pi * ring_mm) * 1000
        found = yc.answer(yc.plan_from_data(data))
        self.json = yc.to_dict(found)
        yarn = self.json["yarn"]
        pitch_mm = yarn["pitch_mm"]
        wide = _TURNS * _TURN_PX
        high = ceil(1.3 * yarn["diameter_mm"] / pitch_mm * _TURN_PX) // 2 * 2 + 2
        drawn = yarn_at(found, from_m, _TURNS * pitch_mm, (wide, high), _EVEN)
        self.mm_per_px = drawn.mm_per_px
        linear = (drawn.pixels / 255.0) ** 2.2
        self.lots = np.array(
            [[int(COLOURS[n][at : at + 2], 16) / 255 for at in (1, 3, 5)] for n in names]
        )
        hues = self.lots**2.2 / (self.lots**2.2).sum(axis=1, keepdims=True)
        hue = linear / np.maximum(linear.sum(axis=2, keepdims=True), 1e-9)
        apart = np.linalg.norm(hue[:, :, None] - hues, axis=3)
        which = np.where(apart.min(axis=2) < 0.2, apart.argmin(axis=2), -1)
        strand = np.ones((1, _HAIR_PX), bool)
        self.ply = [binary_opening(which == k, strand) for k in range(len(tex))]
        self.linear = linear

    def pitch_mm(self, ply: int = 0) -> float:
        """Return the length of a turn: from where a strand comes to the middle to the next time."""
        row = self.ply[ply][len(self.ply[ply]) // 2]
        comes = np.flatnonzero(~row[:-1] & row[1:])
        return float(np.diff(comes).mean()) * self.mm_per_px

    def angle_deg(self) -> float:
        """Return the angle of a strand's middle: it swings by so much in a turn.

        Of the two rows that it shares with the paper, half is its own.
        """
        rows = (self.ply[0].any(axis=1).sum() + 1) * self.mm_per_px
        swing_mm = (rows - self.json["yarn"]["single_diameter_mm"]) / 2
        return degrees(atan(2 * pi * swing_mm / self.pitch_mm()))

    def shares(self) -> np.ndarray:
        """Return how much of the yarn each strand shows, over whole turns."""
        turn_px = self.json["yarn"]["pitch_mm"] / self.mm_per_px
        whole = int(turn_px * (_TURNS - 1))
        area = np.array([ply[:, :whole].sum() for ply in self.ply], float)
        return area / area.sum()

    def said_shares(self) -> np.ndarray:
        """Return what plan.json says of each lot's ply: the first stretch tells which it is."""
        names = self.json["stretches"][0]["lots"]
        by_lot = {
            n: one["surface_share"] for n, one in zip(names, self.json["singles"], strict=True)
        }
        return np.array([by_lot[name] for name in list(COLOURS)[: len(names)]])

    def said_merged(self) -> np.ndarray:
        """Return the hue of the lots' light, each by its share."""
        light = self.said_shares() @ self.lots**2.2
        return light / light.sum()

    def merged(self) -> np.ndarray:
        """Return the hue of all light that comes from the yarn: shares of red, green and blue."""
        core = np.any(self.ply, axis=0)
        light = self.linear[core].sum(axis=0)
        return light / light.sum()


PITCH, ANGLE_DEG, SHARE, UNLIKE, HUE = 0.005, 0.8, 0.003, 0.035, 0.01
"""How near: a share of itself, degrees, shares of equal and of unlike plies, of light."""


@given(plies_of, singles, angles, st.sampled_from("SZ"), st.floats(0, 20))
def test_alike_plies_are_drawn_as_the_numbers_say(plies, tex, angle, direction, from_m):
    seen = Seen([tex] * plies, angle, direction, from_m)
    yarn = seen.json["yarn"]
    assert seen.pitch_mm() == pytest.approx(yarn["pitch_mm"], rel=PITCH)
    assert seen.angle_deg() == pytest.approx(yarn["helix_angle_deg"], abs=ANGLE_DEG)
    assert seen.shares() == pytest.approx(seen.said_shares(), abs=SHARE)
    assert seen.merged() == pytest.approx(seen.said_merged(), abs=HUE)


@given(st.lists(st.floats(0.5, 1), min_size=2, max_size=4), angles)
def test_thick_plies_show_as_much_more_as_is_said(parts, angle):
    """Within a thirtieth: the share is told by widths alone, the picture turns round strands."""
    seen = Seen([300 * part for part in parts], angle, "S")
    assert seen.shares() == pytest.approx(seen.said_shares(), abs=UNLIKE)


@pytest.mark.parametrize("direction", ["S", "Z"])
def test_strands_lean_as_the_letter_of_their_twist(direction):
    """Where a strand comes to rows below the middle later, it falls: S (ISO 2)."""
    ply = Seen([200.0, 200.0], 20, direction).ply[0]
    middle = len(ply) // 2
    upper, lower = (ply[middle + step] for step in (-4, 4))
    later = [np.correlate(lower.astype(float), np.roll(upper, by))[0] for by in (-6, 6)]
    assert (later[1] > later[0]) == (direction == "S")


def test_the_light_that_is_measured_is_that_of_the_marl_from_afar():
    """Half and half of two lots, by `far_lab`: the same hue of light."""
    seen = Seen([200.0, 200.0], 20, "S")
    (far,) = yc.colour.far_lab([[1, 1]], yc.colour.lab_from_srgb(seen.lots))
    (srgb,) = yc.colour.srgb_from_lab(far[None])
    light = np.clip(srgb, 0, None) ** 2.2
    assert seen.merged() == pytest.approx(light / light.sum(), abs=2 * HUE)
