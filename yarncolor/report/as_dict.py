"""An answer as plain data: the keys of ``plan.json``."""

import numpy as np

from yarncolor.answers import by_hand
from yarncolor.answers.answer import (
    Answer,
    check_points,
    first_all_different_m,
    missing,
    used_of_lots_g,
)
from yarncolor.answers.bobbins import filled_bobbins, weigh_points
from yarncolor.answers.closing_costs import ClosingCost
from yarncolor.answers.hours import hours
from yarncolor.answers.leftovers import Leftover
from yarncolor.answers.runs import listed
from yarncolor.answers.spread import matched_band
from yarncolor.defaults import taken_by_blends_g
from yarncolor.layout.portions import NO_PLACE
from yarncolor.layout.schemes import closing_in_force
from yarncolor.layout.stretches import colours_side_by_side
from yarncolor.layout.winding import comes_off
from yarncolor.report.yarn_as_dict import bobbin_dict, fabric_dict, weigh_point_dict, yarn_dict

FORMAT = 1
_EQUAL_TICKS = 2
"""Stretches of one length may differ so much, each edge being rounded by up to half a tick."""


def to_dict(answer: Answer) -> dict:
    """Return the answer's numbers as plain data, keys as in ``plan.json``; unknown ones are None.

    The advice, which reads these numbers, is added by `yarncolor.report.csv_json.plan_json`.
    """
    from yarncolor import __version__

    scheme, names = answer.resolved.scheme, answer.plan.names
    return {
        "format": FORMAT,
        "yarncolor": __version__,
        "title": answer.plan.title,
        "scheme": scheme.name,
        "plies": scheme.plies,
        "sequence": list(scheme.sequence),
        "closing": closing_in_force(answer.resolved.scheme_input),
        "assumptions": list(answer.assumptions),
        "lots": _lots(answer),
        "singles": _singles(answer),
        "heaps": _heaps(answer),
        "yarn": yarn_dict(answer),
        "stretches": _stretches(answer),
        "shares": _shares(answer),
        "longest": _longest(answer),
        "first_all_different_m": first_all_different_m(answer),
        "doubled_runs": _doubled_runs(answer),
        "remedies": [_remedy(remedy) for remedy in answer.remedies],
        "leftovers": [_leftover(left, names) for left in answer.leftovers],
        "bobbins": [bobbin_dict(bobbin) for bobbin in filled_bobbins(answer.layout)],
        "weigh_points": [
            weigh_point_dict(point, answer.layout) for point in weigh_points(answer.layout)
        ],
        "check_points": check_points(answer),
        "missing": missing(answer),
        "fabric": fabric_dict(answer),
    }


def _lots(answer: Answer) -> list[dict]:
    taken = taken_by_blends_g(answer.plan)
    used = used_of_lots_g(answer)
    colours = answer.palette
    return [
        {
            "name": lot.name,
            "mass_g": lot.mass_g,
            "reserve_g": lot.reserve_g,
            "to_card_g": float(lot.mass_g - lot.reserve_g - taken[at]),
            "used_g": float(used[at]),
            "weigh_rest_g": float(answer.weigh_rest_g[at]),
            "srgb": colours.srgb[at],
            "lab": colours.lab[at].tolist(),
            "in_gamut": bool(colours.in_gamut[at]),
            "made_of": lot.made_of,
            "regain": lot.regain,
            "colour_unsure": lot.colour_unsure,
        }
        for at, lot in enumerate(answer.plan.lots)
    ]


def _singles(answer: Answer) -> list[dict]:
    filled, portions = answer.resolved, answer.layout.portions
    divisions = filled.scheme.divisions if filled.scheme.name == "fractal" else None
    takes_h = hours(answer.layout).portion_h
    start_m = portions.ends_m - portions.length_m
    start_m[portions.starts[:-1]] = 0.0
    rows = [
        {
            "lot": answer.plan.names[portions.lot[at]],
            "place": int(portions.place[at]) if portions.place[at] != NO_PLACE else None,
            "repeat": int(portions.repeat[at]),
            "mass_g": float(portions.mass_g[at]),
            "weigh_g": _number(portions.weigh_g[at]),
            "start_m": float(start_m[at]),
            "end_m": float(portions.ends_m[at]),
            "words": answer.words[at],
            "minutes": None if takes_h is None else float(takes_h[at] * 60),
        }
        for at in range(len(portions))
    ]
    yarn, angles = filled.yarn, filled.yarn.surface_angles_deg
    return [
        {
            "ply": k + 1,
            "divisions": _plain(divisions[k]) if divisions else 1,
            "linear_density_tex": float(filled.tex[k]),
            "length_m": float(portions.single_m[k]),
            "mass_g": float(portions.mass_g[portions.of_ply(k)].sum()),
            "wound_off": int(filled.wound_off[k]),
            "comes_off": comes_off(int(filled.wound_off[k])),
            "strands": int(yarn.strands[k]),
            "twist_tpm": None if yarn.twist_tpm is None else float(yarn.twist_tpm[k]),
            "direction": yarn.directions[k],
            "surface_angle_deg": None if angles is None else float(angles[k]),
            "surface_share": float(yarn.surface_shares[k]),
            "hours": None if takes_h is None else float(takes_h[portions.of_ply(k)].sum()),
            "portions": rows[portions.of_ply(k)],
        }
        for k in range(len(filled.tex))
    ]


def _heaps(answer: Answer) -> list[dict]:
    heaps, masses = answer.heaps, answer.layout.portions.mass_g
    return [
        {
            "ply": int(heaps.ply[at]) + 1,
            "lot": answer.plan.names[heaps.lot[at]],
            "weigh_g": float(heaps.weigh_g[at]) or None,
            "pieces": int((heaps.group == at).sum()),
            "words": by_hand.heap_words(heaps.weigh_g[at], masses[heaps.group == at]),
        }
        for at in range(len(heaps.ply))
    ]


def _stretches(answer: Answer) -> list[dict]:
    along, names, far = answer.layout.stretches, answer.plan.names, answer.contrast
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
                "hyab": float(far.hyab[at]),
            },
        }
        for at in range(len(along.lot))
    ]


def _shares(answer: Answer) -> dict:
    shares = answer.shares.tolist()
    low, high = matched_band(answer.layout, answer.on_scale_g) or (None, None)
    return {
        "matched": shares[0],
        "marled": float(sum(shares[1:])),
        "by_colours": {str(at + 1): share for at, share in enumerate(shares)},
        "matched_low": low,
        "matched_high": high,
    }


def _longest(answer: Answer) -> dict:
    along = answer.layout.stretches
    matched = colours_side_by_side(along.lot) == 1
    length, edges = np.diff(along.edges_ppb), along.edges_m.tolist()
    longest = {}
    for word, these in (("matched", matched), ("marled", ~matched)):
        own = np.where(these, length, -1)
        at = int(np.argmax(these & (own >= own.max() - _EQUAL_TICKS)))
        longest[word] = {"start_m": edges[at], "end_m": edges[at + 1]} if these.any() else None
    return longest


def _doubled_runs(answer: Answer) -> list[dict]:
    these = answer.runs
    return [
        {
            "ply": int(these.ply[at]) + 1,
            "lot": answer.plan.names[these.lot[at]],
            "start_m": float(these.start_m[at]),
            "end_m": float(these.end_m[at]),
            "ratio": float(these.ratio[at]),
            "meant": bool(these.meant[at]),
        }
        for at in listed(these, answer.layout)
    ]


def _remedy(remedy: ClosingCost) -> dict:
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
