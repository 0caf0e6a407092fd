"""Three mixtures of the same two lots that must not be confused, side by side."""

import io
from dataclasses import dataclass
from html import escape

import numpy as np
from PIL import Image

from yarncolor.baths import later_baths_lab
from yarncolor.colours import ciede2000, hex_from_srgb, shown_srgb
from yarncolor.contrast import hyab
from yarncolor.contrast_words import contrast_word
from yarncolor.distance import far_lab, reads_as_one_m
from yarncolor.distance_view import seen_from_afar, stripes
from yarncolor.even_steps import even_fractions, plain_fractions, step_sizes
from yarncolor.mixing import blended_lab
from yarncolor.strips import label_ink

_VIEW_PX = (640, 120)
_VIEW_MM = 64.0
_STEPS = 5


@dataclass(frozen=True)
class Pair:
    """Two lots: their names and their CIELAB, (2, 3)."""

    names: tuple[str, str]
    lab: np.ndarray

    @property
    def by_lightness(self) -> np.ndarray:
        """Index of the darker lot, then of the lighter."""
        return np.argsort(self.lab[:, 0], kind="stable")


@dataclass(frozen=True)
class Mixtures:
    """What becomes of two lots: (3,) CIELAB each.

    Parameters
    ----------
    carded : array
        Fibres mixed before spinning.
    afar : array
        Plied, and seen from so far that the stripes run together.
    bath : array or None
        A second bath of the darker lot on the lighter one's fibre; None where neither is lighter.
    """

    carded: np.ndarray
    afar: np.ndarray
    bath: np.ndarray | None


@dataclass(frozen=True)
class Model:
    """How a blend is reckoned: stearns-noechel, friele or linear, and its constant."""

    name: str = "stearns-noechel"
    constant: float | None = None


WOOL = Model()
"""Stearns and Noechel with their constant for worsted wool."""


def mixtures(pair: Pair, share: float, exhaustion: float, model: Model = WOOL) -> Mixtures:
    """Return the three mixtures of two lots.

    Parameters
    ----------
    pair : Pair
        The lots.
    share : float
        Share of the second lot in the blend, 0 to 1; the plies show half of each.
    exhaustion : float
        Share of the dye that a bath takes, above 0 and below 1.
    model : Model
        Of the carded blend.
    """
    parts = [[1 - share, share]]
    dark, light = pair.lab[pair.by_lightness]
    has_bath = dark[0] < light[0]
    return Mixtures(
        carded=blended_lab(parts, pair.lab, model.name, model.constant)[0],
        afar=far_lab(parts, pair.lab)[0],
        bath=later_baths_lab(dark, light, exhaustion, [2])[0] if has_bath else None,
    )


def mixtures_html(pair: Pair, made: Mixtures) -> str:
    """Return swatches of two lots and their three mixtures, with their differences in numbers."""
    dark, light = (pair.names[at] for at in pair.by_lightness)
    swatches = [
        (pair.names[0], pair.lab[0]),
        (pair.names[1], pair.lab[1]),
        ("carded together", made.carded),
        ("plied, from afar", made.afar),
    ]
    if made.bath is not None:
        swatches.append((f"{dark}, second bath on {light}", made.bath))
    boxes = "".join(_swatch(name, lab) for name, lab in swatches)
    apart = float(ciede2000(made.carded, made.afar))
    words = (
        f"Carded and plied differ by {apart:.1f} (CIEDE2000), lightness {made.carded[0]:.0f} "
        f"against {made.afar[0]:.0f}: fibres that are mixed shade one another, plies do not."
    )
    return f'<div style="display:flex;flex-wrap:wrap;gap:4px">{boxes}</div><p>{words}</p>'


def steps_html(pair: Pair, steps: int = _STEPS) -> str:
    """Return the plain and the even gradient of carded steps between two lots, with percentages."""
    rows = []
    for name, fractions in (
        ("mixed in even parts", plain_fractions(steps)),
        ("evenly spaced to the eye", even_fractions(pair.lab, steps)),
    ):
        whole = np.concatenate([[0.0], fractions, [1.0]])
        labs = blended_lab(np.column_stack([1 - whole, whole]), pair.lab)
        boxes = "".join(_swatch(f"{part:.0%}", lab) for part, lab in zip(whole, labs, strict=True))
        sizes = step_sizes(fractions, pair.lab)
        ratio = sizes.max() / sizes.min() if sizes.min() > 0 else 1.0
        rows.append(
            f"<p>{name}: the largest step is {ratio:.1f} times the smallest</p>"
            f'<div style="display:flex;flex-wrap:wrap;gap:4px">{boxes}</div>'
        )
    second = escape(pair.names[1])
    return f"{''.join(rows)}<p>The figures are how much of the batt is {second}.</p>"


def marl_png(pair: Pair, period_mm: float, distance_m: float) -> bytes:
    """Return 64 mm of a two-ply marl as it looks from a distance, as PNG.

    Parameters
    ----------
    pair : Pair
        The lots of the plies.
    period_mm : float
        Length of yarn over which both plies show once, above 0.
    distance_m : float
        From the eye; 0 shows the stripes as they are.
    """
    wide, high = _VIEW_PX
    px_mm = _VIEW_MM / wide
    index = stripes(wide, high, 2, period_mm / px_mm)
    degrees = np.degrees(np.arctan(px_mm / 1000 / distance_m)) if distance_m > 0 else 0.0
    stream = io.BytesIO()
    Image.fromarray(seen_from_afar(index, pair.lab, float(degrees))).save(stream, "PNG")
    return stream.getvalue()


def marl_words(pair: Pair, period_mm: float) -> str:
    """Return in words how loud a marl of two lots is, and from where it reads as one colour."""
    one, other = pair.lab
    word = contrast_word(float(ciede2000(one, other)), float(hyab(one, other)))
    metres = float(reads_as_one_m(pair.lab, period_mm))
    where = "at any distance" if metres == 0 else f"from about {metres:.1f} m"
    return f"{pair.names[0]} beside {pair.names[1]} is {word}; it reads as one colour {where}."


def _swatch(name: str, lab: np.ndarray) -> str:
    srgb, inside = shown_srgb(np.array([lab]))
    (colour,) = hex_from_srgb(srgb)
    note = "" if inside[0] else " (beyond the screen)"
    look = f"background:{colour};color:{label_ink(colour)};padding:1.4em .6em;min-width:5em"
    return f'<div style="{look}">{escape(name)}{note}</div>'
