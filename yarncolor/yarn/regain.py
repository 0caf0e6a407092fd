"""Water in fibre: what the air does to a mass, and to no length.

References
----------
.. [1] Regain R is water over dry mass, content C water over all: C = R / (1 + R).
.. [2] ASTM D1909-13, commercial regain of wool 13.6 %, as a paper quotes it.
.. [3] ASTM D2118-18, contents of 12.0 % scoured, 13.04 % worsted yarn.
.. [4] EU agreed allowances, 17.0 % carded; 18.25 % combed, read as the legal standard in
   Transactions of the New Zealand Institute 42, 1909.
.. [5] Morton & Hearle, Physical Properties of Textile Fibres: 14 to 18 % at 65 % rh, 20 °C.
"""

REGAINS = {
    "wool, commercial": 0.136,
    "wool, carded": 0.17,
    "wool, combed": 0.1825,
    "silk": 0.11,
    "cotton": 0.085,
    "flax": 0.12,
}
"""Agreed figures for trade [2]_ [4]_, no measurements of a room's air."""


def content(regain: float) -> float:
    """Return water over all mass [1]_."""
    return regain / (1 + regain)


def regain(content: float) -> float:
    """Return water over dry mass [1]_."""
    return content / (1 - content)


def mass_at_regain_g(mass_g: float, regain_before: float, regain_after: float) -> float:
    """Return what fibre weighs when its regain has changed: m (1 + R₂) / (1 + R₁).

    Its length stays: metres do not come and go with the weather.

    Parameters
    ----------
    mass_g : float
        As weighed before.
    regain_before, regain_after : float
        Water over dry mass, R₁ and R₂.
    """
    return mass_g * (1 + regain_after) / (1 + regain_before)
