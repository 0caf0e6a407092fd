"""An answer as plain data: the keys of ``plan.json``."""

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.closing_costs import ClosingCost
from yarncolor.answers.fibre import missing, missing_for_stripes, used_of_lots_g
from yarncolor.answers.leftovers import Leftover
from yarncolor.answers.marl import PlyChange, first_all_different_m, ply_changes
from yarncolor.answers.runs import listed
from yarncolor.answers.short_lots import short_lots
from yarncolor.defaults import taken_by_blends_g
from yarncolor.layout.stretches import colours_side_by_side
from yarncolor.layout.winding import comes_off
from yarncolor.report.assumption_text import assumption_sentences
from yarncolor.report.weigh_out_words import hand_words, heap_words
from yarncolor.report.wheel_as_dict import (
    of_portion,
    of_single,
    progress_dict,
    where_dict,
)
from yarncolor.report.yarn_as_dict import (
    Json,
    bobbin_dict,
    fabric_dict,
    weigh_point_dict,
    yarn_dict,
)

FORMAT = 1
_EQUAL_TICKS = 2
"""Stretches of one length may differ so much, each edge being rounded by up to half a tick."""


def to_dict(answer: Answer) -> Json:
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
        "closing": answer.resolved.scheme_input.closing,
        "assumptions": list(assumption_sentences(answer)),
        "lots": _lots(answer),
        "singles": _singles(answer),
        "heaps": _heaps(answer),
        "yarn": yarn_dict(answer),
        "stretches": _stretches(answer),
        "shares": _shares(answer),
        "longest": _longest(answer),
        "first_all_different_m": first_all_different_m(answer),
        "doubled_runs": _doubled_runs(answer),
        "remedies": [_remedy(cost) for cost in answer.closing_costs],
        "leftovers": [_leftover(left, names) for left in answer.leftovers],
        "bobbins": [bobbin_dict(bobbin) for bobbin in answer.bobbins],
        "weigh_points": [weigh_point_dict(point, answer) for point in answer.weigh_points],
        "check_points": [_ply_change(change, names) for change in ply_changes(answer)],
        "missing": _missing(answer),
        "fabric": fabric_dict(answer),
        "progress": progress_dict(answer),
        "where": where_dict(answer),
        "drift": _drift(answer),
    }


def _missing(answer: Answer) -> list[Json]:
    lacks = [("target", one.lot, one.mass_g) for one in missing(answer)]
    lacks += [("stripes", one.lot, one.mass_g) for one in missing_for_stripes(answer)]
    carded = 1 - answer.resolved.card_loss
    short = (one for one in short_lots(answer.layout) if one.missing_g)
    lacks += [("spun", one.lot, one.missing_g / carded) for one in short]
    return [
        {"lot": answer.plan.names[lot], "mass_g": mass_g, "why": why} for why, lot, mass_g in lacks
    ]


def _lots(answer: Answer) -> list[Json]:
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


def _singles(answer: Answer) -> list[Json]:
    resolved, yarn, portions = answer.resolved, answer.resolved.yarn, answer.layout.portions
    divisions = resolved.scheme.divisions if resolved.scheme.name == "fractal" else None
    takes_h, angles = answer.hours.portion_h, yarn.surface_angles_deg
    rows = _portions(answer)
    return [
        {
            "ply": k + 1,
            "divisions": _plain(divisions[k]) if divisions else 1,
            "linear_density_tex": float(resolved.tex[k]),
            "length_m": float(portions.single_m[k]),
            "mass_g": float(portions.mass_g[portions.of_ply(k)].sum()),
            "wound_off": int(resolved.wound_off[k]),
            "comes_off": comes_off(int(resolved.wound_off[k])),
            "strands": int(yarn.strands[k]),
            "twist_tpm": None if yarn.twist_tpm is None else float(yarn.twist_tpm[k]),
            "direction": yarn.directions[k],
            "surface_angle_deg": None if angles is None else float(angles[k]),
            "surface_share": float(yarn.surface_shares[k]),
            "hours": None if takes_h is None else float(takes_h[portions.of_ply(k)].sum()),
            **of_single(answer, k),
            "portions": rows[portions.of_ply(k)],
        }
        for k in range(len(resolved.tex))
    ]


def _portions(answer: Answer) -> list[Json]:
    takes_h = answer.hours.portion_h
    rows = [row for single in answer.weigh_out for row in single.rows]
    return [
        {
            "lot": answer.plan.names[row.lot],
            "place": row.place,
            "repeat": row.repeat,
            "copy": None if answer.plan.scheme.copies is None else row.copy,
            "mass_g": row.mass_g,
            "weigh_g": row.weigh_g,
            "on_bobbin_g": row.on_bobbin_g,
            "start_m": row.start_m,
            "end_m": row.end_m,
            "words": hand_words(row.by_hand),
            "minutes": None if takes_h is None else float(takes_h[at] * 60),
            **of_portion(answer, at),
        }
        for at, row in enumerate(rows)
    ]


def _heaps(answer: Answer) -> list[Json]:
    return [
        {
            "ply": heap.ply + 1,
            "lot": answer.plan.names[heap.lot],
            "weigh_g": heap.weigh_g or None,
            "pieces": len(heap.mass_g),
            "words": heap_words(heap),
        }
        for single in answer.weigh_out
        for heap in single.heaps
    ]


def _stretches(answer: Answer) -> list[Json]:
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


def _shares(answer: Answer) -> Json:
    shares = answer.shares.tolist()
    low, high = answer.matched_band or (None, None)
    return {
        "matched": shares[0],
        "marled": float(sum(shares[1:])),
        "by_colours": {str(at + 1): share for at, share in enumerate(shares)},
        "matched_low": low,
        "matched_high": high,
    }


def _longest(answer: Answer) -> Json:
    along = answer.layout.stretches
    matched = colours_side_by_side(along.lot) == 1
    length, edges = np.diff(along.edges_ppb), along.edges_m.tolist()
    longest = {}
    for word, these in (("matched", matched), ("marled", ~matched)):
        own = np.where(these, length, -1)
        at = int(np.argmax(these & (own >= own.max() - _EQUAL_TICKS)))
        longest[word] = {"start_m": edges[at], "end_m": edges[at + 1]} if these.any() else None
    return longest


def _doubled_runs(answer: Answer) -> list[Json]:
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


def _remedy(cost: ClosingCost) -> Json:
    return {
        "closing": cost.closing,
        "longest_run_ratio": cost.longest_run_ratio,
        "matched": cost.matched,
        "left_over_g": cost.left_over_g,
        "shifted_m": cost.shifted_m,
        "hands": "hands" if cost.by_hand else "scale",
    }


def _leftover(left: Leftover, names: tuple[str, ...]) -> Json:
    end = left.on_bobbin
    return {
        "ply": end.ply + 1 if end else None,
        "lot": names[left.lot],
        "mass_g": float(left.mass_g),
        "length_m": end.end_m - end.start_m if end else None,
        "start_m": end.start_m if end else None,
        "end_m": end.end_m if end else None,
        "end": ("first spun" if end.first_spun else "last spun") if end else None,
    }


def _ply_change(change: PlyChange, names: tuple[str, ...]) -> Json:
    return {
        "yarn_m": change.yarn_m,
        "ply": change.ply + 1,
        "from": names[change.before],
        "to": names[change.after],
        "spread_m": change.spread_m,
    }


def _drift(answer: Answer) -> Json | None:
    found = answer.drift
    if found is None:
        return None
    places = zip(ply_changes(answer), found.changes_m.tolist(), strict=True)
    return {
        "ends_first": found.ends_first.tolist(),
        "short_by_m": found.short_by_m.tolist(),
        "changes": [
            {"ply": change.ply + 1, "yarn_m": change.yarn_m, "low_m": low_m, "high_m": high_m}
            for change, (low_m, high_m) in places
        ],
        "off_m": found.off_m.tolist(),
        "matched": None if found.matched is None else found.matched.tolist(),
        "helps": [
            {
                "what": one.what,
                "short_by_m": one.short_by_m.tolist(),
                "off_m": one.off_m.tolist(),
            }
            for one in found.helps
        ],
    }


def _plain(division: int | tuple[float, ...]) -> int | list[float]:
    return list(division) if isinstance(division, tuple) else division
