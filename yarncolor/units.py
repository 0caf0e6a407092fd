"""Spinners' units at the edge, SI inside: exact conversions and the size of a yarn.

References
----------
.. [1] ISO 1144, Textiles. Universal system for designating linear density (Tex System).
.. [2] International yard and pound agreement, 1959: 1 yd = 0.9144 m, 1 lb = 0.45359237 kg.
"""

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from math import pi, sqrt
from typing import TypeVar

import numpy as np

Numbers = TypeVar("Numbers", float, np.ndarray)
"""One number, or an array of them: what goes in comes out."""

METRES_PER_YARD = 0.9144
GRAMS_PER_POUND = 453.59237
GRAMS_PER_OUNCE = GRAMS_PER_POUND / 16
MM_PER_INCH = 25.4


def m_per_100g(linear_density_tex: float) -> float:
    """Return metres in 100 g of a strand of so many tex (g per 1000 m) [1]_."""
    return 1e5 / linear_density_tex


def yd_per_lb(linear_density_tex: float) -> float:
    """Return yards in a pound of a strand of so many tex [1]_ [2]_."""
    return 1000 / linear_density_tex * GRAMS_PER_POUND / METRES_PER_YARD


def diameter_mm(linear_density_tex: float, density_g_per_cm3: float) -> float:
    """Return the diameter of a round strand of even density.

    A metre of T tex holds T/1000 g; as a cylinder of density ρ that is
    d = sqrt(4 T / (π ρ · 1000)) mm. Packed density (about 0.5) gives the strand in a
    twisted yarn, relaxed density (about 0.16) the strand as wrapped on a ruler.

    Parameters
    ----------
    linear_density_tex : float
        T, grams in 1000 m, above 0.
    density_g_per_cm3 : float
        ρ, above 0.
    """
    return sqrt(4 * linear_density_tex / (pi * density_g_per_cm3 * 1000))


def wraps_per_inch(diameter_mm: float) -> float:
    """Return how many strands of that diameter lie side by side in an inch."""
    return MM_PER_INCH / diameter_mm


TPM_PER_TPI = 1000 / MM_PER_INCH


def tpi(twist_tpm: Numbers) -> Numbers:
    """Return turns to the inch of turns to the metre.

    Parameters
    ----------
    twist_tpm : float or array
        Turns in a metre.
    """
    return twist_tpm / TPM_PER_TPI


def tpm(twist_tpi: Numbers) -> Numbers:
    """Return turns to the metre of turns to the inch.

    Parameters
    ----------
    twist_tpi : float or array
        Turns in an inch.
    """
    return twist_tpi * TPM_PER_TPI


@dataclass(frozen=True)
class Unit:
    """A unit as it is written beside a number.

    Parameters
    ----------
    size : Fraction
        How much it is of its base units, exactly.
    powers : frozenset of (str, int)
        Base units with their powers: m, g, min, and things that are counted.
    """

    size: Fraction
    powers: frozenset[tuple[str, int]]

    def __truediv__(self, other: "Unit") -> "Unit":
        """Return so much of this in so much of another."""
        powers = Counter(dict(self.powers))
        powers.subtract(dict(other.powers))
        left = frozenset((base, power) for base, power in powers.items() if power)
        return Unit(self.size / other.size, left)

    def times(self, count: Fraction) -> "Unit":
        """Return so many of it, as the 100 g of "metres in 100 g"."""
        return Unit(self.size * count, self.powers)

    @property
    def inverse(self) -> "Unit":
        """Return grams in a metre for metres in a gram."""
        return ONE / self

    @property
    def things(self) -> frozenset[str]:
        """What is counted in it: turns, wraps, stitches."""
        return frozenset(base for base, _ in self.powers if base not in _MEASURED)

    @property
    def measured(self) -> frozenset[tuple[str, int]]:
        """Its powers but for what is counted."""
        return frozenset((base, power) for base, power in self.powers if base in _MEASURED)


_MEASURED = ("m", "g", "min", "degree")
ONE = Unit(Fraction(1), frozenset())


def _of(base: str, size: str = "1", power: int = 1) -> Unit:
    return Unit(Fraction(size), frozenset({(base, power)}))


_METRE, _GRAM, _TURN, _WRAP = _of("m"), _of("g"), _of("turn"), _of("wrap")
_INCH, _YARD, _POUND = _of("m", "0.0254"), _of("m", "0.9144"), _of("g", "453.59237")
_CENTIMETRE = _of("m", "0.01")
_WRITTEN: tuple[tuple[str, Unit], ...] = (
    ("m metre metres meter meters", _METRE),
    ("km", _of("m", "1000")),
    ("cm cms centimetre centimetres centimeter centimeters", _CENTIMETRE),
    ("mm millimetre millimetres millimeter millimeters", _of("m", "0.001")),
    ('in ins inch inches ″ ” "', _INCH),
    ("ft foot feet ′ ’ '", _of("m", "0.3048")),
    ("yd yds yard yards", _YARD),
    ("g gr gm gms gram grams gramme grammes", _GRAM),
    ("kg kgs kilo kilos kilogram kilograms", _of("g", "1000")),
    ("mg", _of("g", "0.001")),
    ("oz ozs ounce ounces", _of("g", "28.349523125")),
    ("lb lbs # pound pounds", _POUND),
    ("min mins minute minutes", _of("min")),
    ("s sec secs second seconds", _of("min", "1/60")),
    ("h hr hrs hour hours", _of("min", "60")),
    ("° º deg degs degree degrees", _of("degree")),
    ("cm3 cm³ cm^3 ccm cc ml", _of("m", "1/1000000", 3)),
    ("m3 m³ m^3", _of("m", power=3)),
    ("tex", _GRAM / _METRE.times(Fraction(1000))),
    ("dtex", _GRAM / _METRE.times(Fraction(10_000))),
    ("ktex", _GRAM / _METRE),
    ("den denier", _GRAM / _METRE.times(Fraction(9000))),
    ("nm", _METRE / _GRAM),
    ("ypp", _YARD / _POUND),
    ("ne nec", _YARD.times(Fraction(840)) / _POUND),
    ("nek", _YARD.times(Fraction(560)) / _POUND),
    ("tpi", _TURN / _INCH),
    ("tpm", _TURN / _METRE),
    ("tpc tpcm", _TURN / _CENTIMETRE),
    ("wpi", _WRAP / _INCH),
    ("wpc", _WRAP / _CENTIMETRE),
    ("t turn turns twist twists", _TURN),
    ("wrap wraps", _WRAP),
    ("st sts stitch stitches increase increases", _of("stitch")),
    ("row rows round rounds", _of("row")),
    *((f"{thing} {thing}s", _of(thing)) for thing in ("treadle", "rolag", "bobbin", "place")),
    *((f"{thing} {thing}s", _of(thing)) for thing in ("strand", "repeat")),
    *((f"{thing} {thing}s", _of(thing)) for thing in ("piece", "blend", "time")),
)
UNITS: dict[str, Unit] = {name: unit for names, unit in _WRITTEN for name in names.split()}
"""Units by every way in which they are written, in small letters; factors are exact [1]_ [2]_."""


def names_of_unit(name: str) -> list[str]:
    """Return every way in which a unit is written."""
    return [each for each, unit in UNITS.items() if unit == UNITS[name]]


def things_counted() -> frozenset[str]:
    """Return everything that is counted in a unit: turns, stitches."""
    return frozenset().union(*(unit.things for unit in UNITS.values()))
