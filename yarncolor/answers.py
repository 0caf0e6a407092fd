"""A plan's answer: everything that follows from it, and the same as plain data for a file."""

from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from yarncolor import hands, units
from yarncolor.colours import hex_from_srgb, lab_from_srgb, shown_srgb, srgb_from_hex
from yarncolor.contrast import (
    Contrast,
    Differences,
    colours_side_by_side,
    contrast,
    differences,
    shares_by_colours,
)
from yarncolor.defaults import PACKED_DENSITY, RELAXED_DENSITY, Settled, settled
from yarncolor.layout import Layout, layout, used_g
from yarncolor.leftovers import Leftover, leftovers
from yarncolor.plan import Lot, Plan
from yarncolor.portions import NO_PLACE
from yarncolor.remedies import Remedy, remedies
from yarncolor.runs import Runs, at_fault, listed, runs
from yarncolor.schemes import closing_in_force
from yarncolor.weighing import Heaps, weighed
from yarncolor.winding import comes_off

FORMAT = 1


@dataclass(frozen=True)
class Palette:
    """Colours of all lots: CIELAB, the sRGB to show them by, and what differs from what.

    Parameters
    ----------
    lab : (lots, 3) array
        D65, 2° observer.
    srgb : tuple of str
        CSS hex colours.
    in_gamut : (lots,) bool array
        False where a screen cannot show the colour and its nearest is shown.
    between : Differences
        Of any two lots.
    """

    lab: np.ndarray
    srgb: tuple[str, ...]
    in_gamut: np.ndarray
    between: Differences


@dataclass(frozen=True)
class Answer:
    """Everything that follows from a plan; `answer` makes it, `to_dict` writes it down."""

    layout: Layout
    heaps: Heaps
    weigh_rest_g: np.ndarray
    words: tuple[str, ...]
    palette: Palette
    contrast: Contrast
    runs: Runs
    leftovers: tuple[Leftover, ...]
    remedies: tuple[Remedy, ...]

    @property
    def settled(self) -> Settled:
        """The plan with every default settled."""
        return self.layout.settled

    @property
    def plan(self) -> Plan:
        """The plan."""
        return self.layout.settled.plan

    @property
    def shares(self) -> np.ndarray:
        """Share of the yarn's length that shows 1, 2, … colours: (plies,)."""
        along = self.layout.stretches
        return shares_by_colours(along.ticks, along.lot)


def answer(plan: Plan) -> Answer:
    """Return everything that follows from a plan.

    Parameters
    ----------
    plan : Plan
        As `read_plan` or `plan_from_data` returns it.
    """
    filled = settled(plan)
    laid = layout(filled)
    portions, heaps, rest = weighed(laid.portions, len(plan.lots), filled.step_g)
    laid = replace(laid, portions=portions)
    found = runs(laid)
    colours = palette(plan.lots)
    return Answer(
        layout=laid,
        heaps=heaps,
        weigh_rest_g=rest,
        words=tuple(hands.words(laid)),
        palette=colours,
        contrast=contrast(laid.stretches.lot, colours.between),
        runs=found,
        leftovers=tuple(leftovers(laid, found)),
        remedies=tuple(remedies(filled)) if at_fault(found, laid).any() else (),
    )


@lru_cache(maxsize=8)
def palette(lots: tuple[Lot, ...]) -> Palette:
    """Return the colours of all lots; kept, since dragging an order changes none."""
    given_hex = np.array([lot.colour is not None for lot in lots])
    lab = np.array([lot.lab or (0.0, 0.0, 0.0) for lot in lots])
    srgb, inside = np.zeros((len(lots), 3)), np.ones(len(lots), dtype=bool)
    if given_hex.any():
        srgb[given_hex] = srgb_from_hex([lot.colour for lot in lots if lot.colour])
        lab[given_hex] = lab_from_srgb(srgb[given_hex])
    if not given_hex.all():
        srgb[~given_hex], inside[~given_hex] = shown_srgb(lab[~given_hex])
    return Palette(lab, tuple(hex_from_srgb(srgb)), inside, differences(lab))


def to_dict(found: Answer) -> dict:
    """Return the answer's numbers as plain data, keys as in ``plan.json``; unknown ones are None.

    The advice, which reads these numbers, is added by `yarncolor.tables.plan_json`.
    """
    from yarncolor import __version__

    scheme, names = found.settled.scheme, found.plan.names
    return {
        "format": FORMAT,
        "yarncolor": __version__,
        "title": found.plan.title,
        "scheme": scheme.name,
        "plies": scheme.plies,
        "sequence": list(scheme.sequence),
        "closing": closing_in_force(found.settled.draft),
        "assumptions": list(found.settled.assumptions),
        "lots": _lots(found),
        "singles": _singles(found),
        "heaps": _heaps(found),
        "yarn": _yarn(found),
        "stretches": _stretches(found),
        "shares": _shares(found),
        "longest": _longest(found),
        "first_all_different_m": first_all_different_m(found),
        "doubled_runs": _doubled_runs(found),
        "remedies": [_remedy(remedy) for remedy in found.remedies],
        "leftovers": [_leftover(left, names) for left in found.leftovers],
        "bobbins": [],
        "weigh_points": [],
        "check_points": check_points(found),
        "missing": missing(found),
    }


def first_all_different_m(found: Answer) -> float | None:
    """Return where all plies first differ, in metres of yarn; None if nowhere or with one ply."""
    along = found.layout.stretches
    plies = along.lot.shape[1]
    all_differ = np.flatnonzero(colours_side_by_side(along.lot) == plies)
    return float(along.edges_m[all_differ[0]]) if plies > 1 and len(all_differ) else None


def check_points(found: Answer) -> list[dict]:
    """Return every place of the yarn where a ply changes colour, and to what."""
    along, names = found.layout.stretches, found.plan.names
    stretch, ply = np.nonzero(along.lot[1:] != along.lot[:-1])
    return [
        {
            "yarn_m": float(along.edges_m[at + 1]),
            "ply": int(k) + 1,
            "from": names[along.lot[at, k]],
            "to": names[along.lot[at + 1, k]],
        }
        for at, k in zip(stretch, ply, strict=True)
    ]


def missing(found: Answer) -> list[dict]:
    """Return grams of each lot, to card, that the stash lacks for the target."""
    short = found.layout.wanted - 1
    if short <= 1e-9:
        return []
    grams = used_g(found.layout) * short / (1 - found.settled.card_loss)
    return [
        {"lot": found.plan.names[lot], "mass_g": float(grams[lot])}
        for lot in np.flatnonzero(grams > 0)
    ]


def _lots(found: Answer) -> list[dict]:
    used = used_g(found.layout) / (1 - found.settled.card_loss)
    colours = found.palette
    return [
        {
            "name": lot.name,
            "mass_g": lot.mass_g,
            "reserve_g": lot.reserve_g,
            "to_card_g": lot.mass_g - lot.reserve_g,
            "used_g": float(used[at]),
            "weigh_rest_g": float(found.weigh_rest_g[at]),
            "srgb": colours.srgb[at],
            "lab": colours.lab[at].tolist(),
            "in_gamut": bool(colours.in_gamut[at]),
            "made_of": None,
        }
        for at, lot in enumerate(found.plan.lots)
    ]


def _singles(found: Answer) -> list[dict]:
    filled, portions = found.settled, found.layout.portions
    divisions = filled.scheme.divisions if filled.scheme.name == "fractal" else None
    start_m = portions.ends_m - portions.length_m
    start_m[portions.starts[:-1]] = 0.0
    rows = [
        {
            "lot": found.plan.names[portions.lot[at]],
            "place": int(portions.place[at]) if portions.place[at] != NO_PLACE else None,
            "repeat": int(portions.repeat[at]),
            "mass_g": float(portions.mass_g[at]),
            "weigh_g": _number(portions.weigh_g[at]),
            "start_m": float(start_m[at]),
            "end_m": float(portions.ends_m[at]),
            "words": found.words[at],
        }
        for at in range(len(portions))
    ]
    return [
        {
            "ply": k + 1,
            "divisions": _plain(divisions[k]) if divisions else 1,
            "linear_density_tex": float(filled.tex[k]),
            "length_m": float(portions.single_m[k]),
            "mass_g": float(portions.mass_g[portions.of_ply(k)].sum()),
            "wound_off": int(filled.wound_off[k]),
            "comes_off": comes_off(int(filled.wound_off[k])),
            "portions": rows[portions.of_ply(k)],
        }
        for k in range(len(filled.tex))
    ]


def _heaps(found: Answer) -> list[dict]:
    heaps, masses = found.heaps, found.layout.portions.mass_g
    return [
        {
            "ply": int(heaps.ply[at]) + 1,
            "lot": found.plan.names[heaps.lot[at]],
            "weigh_g": float(heaps.weigh_g[at]) or None,
            "pieces": int((heaps.of == at).sum()),
            "words": hands.heap_words(heaps.weigh_g[at], masses[heaps.of == at]),
        }
        for at in range(len(heaps.ply))
    ]


def _yarn(found: Answer) -> dict:
    laid, filled, given = found.layout, found.settled, found.plan
    tex = laid.yarn_tex
    diameter = units.diameter_mm(tex, RELAXED_DENSITY)
    alike = np.ptp(filled.tex) == 0
    measured = given.plying.contraction is not None
    return {
        "length_m": float(laid.stretches.yarn_m),
        "mass_g": float(laid.yarn_g),
        "linear_density_tex": float(tex),
        "contraction": filled.contraction,
        "contraction_model": "measured" if measured else "none",
        "single_diameter_mm": units.diameter_mm(filled.tex[0], PACKED_DENSITY) if alike else None,
        "helix_angle_deg": None,
        "pitch_mm": None,
        "diameter_mm": diameter,
        "wpi": units.wraps_per_inch(diameter),
        "m_per_100g": units.m_per_100g(tex),
        "designation": None,
        "length_low_m": None,
        "length_high_m": None,
        "finished_length_m": None,
        "skeins": [],
        "hours": None,
        "source": {
            "single_tex": "assumed" if given.spinning.single_tex is None else "given",
            "contraction": "measured" if measured else "assumed",
            "packed_density_g_per_cm3": "assumed",
            "relaxed_density_g_per_cm3": "assumed",
            "length_m": "derived",
            "mass_g": "derived",
            "linear_density_tex": "derived",
            "single_diameter_mm": "derived" if alike else None,
            "diameter_mm": "derived",
            "wpi": "derived",
            "m_per_100g": "derived",
        },
    }


def _stretches(found: Answer) -> list[dict]:
    along, names, far = found.layout.stretches, found.plan.names, found.contrast
    edges = along.edges_m.tolist()
    return [
        {
            "start_m": edges[at],
            "end_m": edges[at + 1],
            "lots": [names[lot] for lot in along.lot[at]],
            "contrast": {
                "ciede2000": float(far.ciede2000[at]),
                "lightness_range": float(far.lightness_range[at]),
                "grey_scale": float(far.grey_scale[at]),
            },
        }
        for at in range(len(along.lot))
    ]


def _shares(found: Answer) -> dict:
    shares = found.shares.tolist()
    return {
        "matched": shares[0],
        "marled": float(sum(shares[1:])),
        "by_colours": {str(at + 1): share for at, share in enumerate(shares)},
    }


def _longest(found: Answer) -> dict:
    along = found.layout.stretches
    matched = colours_side_by_side(along.lot) == 1
    length, edges = np.diff(along.ticks), along.edges_m.tolist()
    longest = {}
    for word, these in (("matched", matched), ("marled", ~matched)):
        at = int(np.argmax(np.where(these, length, -1)))
        longest[word] = {"start_m": edges[at], "end_m": edges[at + 1]} if these.any() else None
    return longest


def _doubled_runs(found: Answer) -> list[dict]:
    these = found.runs
    return [
        {
            "ply": int(these.ply[at]) + 1,
            "lot": found.plan.names[these.lot[at]],
            "start_m": float(these.start_m[at]),
            "end_m": float(these.end_m[at]),
            "ratio": float(these.ratio[at]),
            "meant": bool(these.meant[at]),
        }
        for at in listed(these, found.layout)
    ]


def _remedy(remedy: Remedy) -> dict:
    return {
        "closing": remedy.closing,
        "longest_run_ratio": remedy.longest_run_ratio,
        "matched": remedy.matched,
        "left_over_g": remedy.left_over_g,
        "shifted_m": remedy.shifted_m,
        "hands": "hands" if remedy.by_hand else "scale",
    }


def _leftover(left: Leftover, names: tuple[str, ...]) -> dict:
    spun = left.ply is not None
    return {
        "ply": left.ply + 1 if spun else None,
        "lot": names[left.lot],
        "mass_g": float(left.mass_g),
        "length_m": float(left.end_m - left.start_m) if spun else None,
        "start_m": float(left.start_m) if spun else None,
        "end_m": float(left.end_m) if spun else None,
        "end": ("first spun" if left.first_spun else "last spun") if spun else None,
    }


def _number(value: float) -> float | None:
    return None if np.isnan(value) else float(value)


def _plain(division: int | tuple[float, ...]) -> int | list[float]:
    return list(division) if isinstance(division, tuple) else division
