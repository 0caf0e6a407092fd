"""Plain knitting: how much yarn a stitch takes, and what a gauge asks of a yarn.

References
----------
.. [1] Munden 1959, The geometry and dimensional properties of plain-knit fabrics, Journal of
   the Textile Institute 50, T448: stitch density S = Ks / l². Ks of wool as lecture slides print
   it: dry relaxed 19.0, wet relaxed 21.6; fully relaxed 23.1 from 5.5 · 4.2.
.. [2] Chamberlain: a plain fabric jams where the loop is 16.67 diameters long, as quoted.
"""

from math import sqrt

MUNDEN_KS = {"dry relaxed": 19.0, "wet relaxed": 21.6, "fully relaxed": 23.1}
KS = MUNDEN_KS["wet relaxed"]
JAMMED_LOOP_DIAMETERS = 16.67
FORMULA_BAND = 0.15
"""The formula is right to within 10 to 15 %; a weighed or unravelled swatch is better."""

USUAL_TIGHTNESS = 11.0
"""Tightness factor, tex^½/cm, of a gauge where none is given: the middle of hand knitting."""

LOOSEST, TIGHTEST = 9.0, 19.0
"""Tightness factors, tex^½/cm, of wool in use; from memory, no open copy. By hand 10.5 to 11.5."""


def loop_length_cm(stitches_per_10cm: float, rows_per_10cm: float, ks: float = KS) -> float:
    """Return the length of yarn in a stitch of plain knitting: l = √(Ks / S) [1]_.

    Parameters
    ----------
    stitches_per_10cm, rows_per_10cm : float
        Gauge of the washed fabric.
    ks : float
        Munden's constant for its state of relaxation.
    """
    return sqrt(ks / (stitches_per_10cm * rows_per_10cm / 100))


def usual_loop_cm(linear_density_tex: float) -> float:
    """Return the yarn in a stitch of a fabric as tight as hands usually knit: √T / K."""
    return sqrt(linear_density_tex) / USUAL_TIGHTNESS


def tightness_factor(linear_density_tex: float, loop_length_cm: float) -> float:
    """Return K = √T / l in tex^½/cm: how full of yarn the fabric is.

    Parameters
    ----------
    linear_density_tex : float
        Grams in 1000 m, above 0.
    loop_length_cm : float
        Yarn in a stitch, l.
    """
    return sqrt(linear_density_tex) / loop_length_cm


def tex_for_tightness(tightness: float, loop_length_cm: float) -> float:
    """Return the linear density that fills a fabric so far: T = (K l)².

    Parameters
    ----------
    tightness : float
        Tightness factor K, in tex^½/cm.
    loop_length_cm : float
        Yarn in a stitch, l.
    """
    return (tightness * loop_length_cm) ** 2


def yarn_per_area_m(
    stitches_per_10cm: float, rows_per_10cm: float, area_cm2: float, ks: float = KS
) -> float:
    """Return metres of yarn in an area of plain knitting: S · A · l.

    Parameters
    ----------
    stitches_per_10cm, rows_per_10cm : float
        Gauge of the washed fabric.
    area_cm2 : float
        Of the fabric.
    ks : float
        Munden's constant for its state of relaxation.
    """
    stitches = stitches_per_10cm * rows_per_10cm / 100 * area_cm2
    return stitches * loop_length_cm(stitches_per_10cm, rows_per_10cm, ks) / 100


def loop_from_swatch_cm(stitches: float, mass_g: float, linear_density_tex: float) -> float:
    """Return the length of yarn in a stitch from a weighed swatch of so many stitches.

    Parameters
    ----------
    stitches : float
        In the whole swatch: stitches times rows.
    mass_g : float
        Of the swatch, dry, without its ends.
    linear_density_tex : float
        Of the yarn as it lies in the swatch, washed if that is.
    """
    return mass_g / linear_density_tex * 1e5 / stitches


def stitch_mm(stitches_per_10cm: float) -> float:
    """Return the width of a stitch; its two legs have to lie beside each other in it."""
    return 100 / stitches_per_10cm
