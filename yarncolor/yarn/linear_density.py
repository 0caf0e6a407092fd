"""Linear density in every system that spinners and standards use, and the designation of yarns.

Tables for the trade are short of one thing: "worsted" is a count, a way of preparing fibre and
a class of knitting yarn. Here it is only ever the *worsted count*.

References
----------
.. [1] ISO 1144, Textiles. Universal system for designating linear density (Tex System).
.. [2] ISO 2947, Textiles. Integrated conversion table for replacing traditional yarn numbers by
   rounded values in the Tex System; ASTM D2260, conversion factors. Scopes as read.
.. [3] ISO 1139, Textiles. Designation of yarns. Scope and titles of clauses as read; notations
   from memory, for open previews leave them out.
"""

from collections.abc import Sequence

from yarncolor.units import GRAMS_PER_POUND, METRES_PER_YARD

_TEX_TIMES_YD_PER_LB = 1000 * GRAMS_PER_POUND / METRES_PER_YARD

DIRECT = {"tex": 1.0, "dtex": 10.0, "denier": 9.0, "ktex": 1e-3}
"""Systems of grams in a length: so many of them in one tex."""

INDIRECT = {
    "Nm": 1000.0,
    "m/g": 1000.0,
    "m/100 g": 1e5,
    "yd/lb": _TEX_TIMES_YD_PER_LB,
    "cotton count": _TEX_TIMES_YD_PER_LB / 840,
    "worsted count": _TEX_TIMES_YD_PER_LB / 560,
    "woollen run": _TEX_TIMES_YD_PER_LB / 1600,
    "Yorkshire skein": _TEX_TIMES_YD_PER_LB / 256,
    "linen lea": _TEX_TIMES_YD_PER_LB / 300,
}
"""Systems of length in a mass: tex times the count, the same for every yarn."""

SYSTEMS = (*DIRECT, *INDIRECT)


def from_tex(linear_density_tex: float, system: str) -> float:
    """Return a linear density in another system [1]_ [2]_.

    Parameters
    ----------
    linear_density_tex : float
        Grams in 1000 m, above 0.
    system : str
        One of `SYSTEMS`.

    Raises
    ------
    KeyError
        For a system that is not one of them.
    """
    if system in DIRECT:
        return linear_density_tex * DIRECT[system]
    return INDIRECT[system] / linear_density_tex


def to_tex(value: float, system: str) -> float:
    """Return tex of a linear density given in another system; the inverse of `from_tex`.

    Parameters
    ----------
    value : float
        In that system, above 0.
    system : str
        One of `SYSTEMS`.
    """
    return value / DIRECT[system] if system in DIRECT else INDIRECT[system] / value


def resultant_tex(singles_tex: Sequence[float], contraction: float) -> float:
    """Return the linear density of a plied yarn: R = Σ T / (1 - c) [3]_.

    Parameters
    ----------
    singles_tex : sequence of float
        Of each single, as spun, T.
    contraction : float
        Share of the singles' length lost in plying, c; below 0 where the yarn is longer.
    """
    return sum(singles_tex) / (1 - contraction)


def short_designation(linear_density_tex: float, plies: int) -> str:
    """Return the resultant of a yarn in short form [3]_: ``R 330 tex / 3``; a single: ``110 tex``.

    Three figures are given; hand-spun yarn is not known to more.

    Parameters
    ----------
    linear_density_tex : float
        Of the yarn.
    plies : int
        How many.
    """
    shown = _in_tex(linear_density_tex)
    return f"R {shown} / {plies}" if plies > 1 else shown


def long_designation(
    linear_density_tex: float,
    plies: int,
    single_tex: float,
    twists: tuple[tuple[str, float], tuple[str, float]],
) -> str:
    """Return a plied yarn from fold to single with its twists in turns a metre [3]_.

    Parameters
    ----------
    linear_density_tex : float
        Of the yarn.
    plies : int
        How many.
    single_tex : float
        Of one of its equal plies.
    twists : pair of (direction, turns a metre)
        Of the yarn, then of the single; the direction is "S" or "Z".
    """
    (fold, turns), (single, single_turns) = twists
    return (
        f"R {_in_tex(linear_density_tex)} {fold} {turns:.0f} / {plies} "
        f"{single} {single_turns:.0f}; {_in_tex(single_tex)}"
    )


def _in_tex(linear_density_tex: float) -> str:
    return f"{float(f'{linear_density_tex:.3g}'):g} tex"
