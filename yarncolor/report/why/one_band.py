"""How fibre that is carded or dyed paler reflects: one band of its light, line by line."""

from collections.abc import Iterator, Sequence

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.colour.carding import MODELS, STEARNS_NOECHEL_M
from yarncolor.colour.dye_depth import k_over_s
from yarncolor.colour.mixtures import WOOL, Model
from yarncolor.colour.reflectance import reflectance_from_lab
from yarncolor.report.why import equations_of_colour as by
from yarncolor.report.why.equation import Working
from yarncolor.report.why.reason import Source
from yarncolor.report.why.sources import PHOTOGRAPHS, in_units

_BAND, _AT = (550 - 380) // 5, "at 550 nm"
"""One band of 81, told for all: green, to which the eye is keenest."""

_BATT = (
    "each colour becomes the reflectance of a wool; band by band f(R) of the batt is the mean of "
    "those of its lots, by parts; back to R, and to the colour of its light (CIE 15)"
)
_FUNCTIONS = {
    "stearns-noechel": "f(R) = (1 − R) ÷ (M × (R − 0.01) + 0.01), Stearns and Noechel 1944",
    "friele": "f(R) = exp(−s × (1 − R)² ÷ (2 × R)), Friele 1952",
    "linear": "f(R) = R, as if fibres shaded nothing",
}
BATH = (
    "the dye’s own K/S (Kubelka and Munk) is that of the first bath less the fibre’s, band by "
    "band; a later bath has so much of it as there is dye left"
)
_SAMPLE = "card {small_batt} of it and photograph it dry beside its lots"
_TWO = 2


def batt_words(model: Model = WOOL) -> str:
    """Return how the colour of a batt is reckoned.

    Parameters
    ----------
    model : Model
        Of carded fibre.
    """
    return f"{_BATT}: {_FUNCTIONS[model.name]}"


def fibres(answer: Answer) -> Source:
    """Return how fibres shade one another, and how that is known."""
    surer = in_units(answer, _SAMPLE)
    by_whom = "as measured for wool"
    return Source("how fibres shade one another", "assumed", by_whom, surer, PHOTOGRAPHS)


def carded_lines(
    names: Sequence[str], lab: np.ndarray, parts: Sequence[float], model: Model = WOOL
) -> Iterator[Working]:
    """Yield how much light of one band a batt reflects, by what its lots do.

    Parameters
    ----------
    names : sequence of str
        Of its lots.
    lab : (lots, 3) array
        CIELAB of each.
    parts : sequence of float
        Of each in the batt.
    model : Model
        Of carded fibre.
    """
    constants = () if model.constant is None else (model.constant,)
    f = MODELS[model.name][0](reflectance_from_lab(lab)[:, _BAND], *constants).tolist()
    shares = [part / sum(parts) for part in parts]
    added = list(_added(names, shares, f))
    yield from added
    if model.name == "stearns-noechel":
        m = STEARNS_NOECHEL_M if model.constant is None else model.constant
        back = {"f_of_batt": sum(line.result for line in added), "m": m}
        yield Working(by.REFLECTS, back, _AT, "the batt’s reflectance")


def _added(names: Sequence[str], shares: list[float], f: list[float]) -> Iterator[Working]:
    """Yield f of a batt: of two lots in one line, of more what each of them adds."""
    if len(names) == _TWO:
        one = {"share_of_one": shares[0], "f_of_one": f[0]}
        other = {"share_of_other": shares[1], "f_of_other": f[1]}
        yield Working(by.ADDED, one | other, _AT, "f of the batt")
        return
    for name, share, own in zip(names, shares, f, strict=True):
        values = {"share": share, "f_of_lot": own}
        yield Working(by.ADDS, values, f"{name} {_AT}", "added to f of the batt")


def bath_lines(names: Sequence[str], lab: np.ndarray, left: float) -> Iterator[Working]:
    """Yield depth of first bath, of the fibre and of a later bath, and what that reflects.

    Nothing where the first bath is no deeper than the fibre.

    Parameters
    ----------
    names : sequence of str
        Of the first bath and of the fibre.
    lab : (2, 3) array
        CIELAB of both.
    left : float
        Share of the dye that is left.
    """
    bands = reflectance_from_lab(lab)[:, _BAND]
    dyed, fibre = k_over_s(bands).tolist()
    if dyed <= fibre:
        return
    for name, reflectance in zip(names, bands.tolist(), strict=True):
        yield Working(by.DEPTH, {"reflectance": reflectance}, f"{name} {_AT}", "K/S")
    values = {"k_of_fibre": fibre, "k_of_dyed": dyed, "left": left}
    bath = Working(by.OF_BATH, values, _AT, "K/S of the paler bath")
    yield bath
    yield Working(by.OF_DEPTH, {"k_of_bath": bath.result}, _AT, "what it reflects")
