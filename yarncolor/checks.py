"""Checks between the values of a plan file. None is made on a value already at fault."""

from collections.abc import Iterator
from typing import Any

import numpy as np

from yarncolor.defaults import (
    LOSS,
    divisions_of,
    place_masses_g,
    plies_of,
    scheme_name,
    sequence_of,
    singles_of,
    solid_lot_of,
)
from yarncolor.errors import nearest, shown
from yarncolor.plan import Scheme
from yarncolor.schema import MOST_PORTIONS
from yarncolor.schemes import REVERSIBLE

Told = Iterator[tuple[tuple, str, str]]
"""Place, value as shown, remedy."""
_TOLERANCE = 1e-9


def check(reading: Any, lots: tuple[dict, ...], tables: dict[str, Any]) -> None:
    """Tell a reading every fault between values: of the lots, then of the other tables."""
    checks = (
        lambda: _lots(reading, lots),
        lambda: _scheme(reading, lots, tables["scheme"]),
        lambda: _masses(reading, lots, tables),
        lambda: _others(reading, tables),
    )
    for found in checks:
        for place, value, remedy in found():
            reading.tell(place, value, remedy)


def _lots(reading: Any, lots: tuple[dict, ...]) -> Told:
    first: dict[str, int] = {}
    for number, lot in enumerate(lots):
        place = ("lots", number)
        yield from _lot(place, lot, reading)
        name = lot.get("name")
        if name in first:
            remedy = f"lot {first[name] + 1} has that name already; give each lot its own"
            yield (*place, "name"), shown(name), remedy
        elif name is not None:
            first[name] = number


def _lot(place: tuple, lot: dict, reading: Any) -> Told:
    if "name" not in lot and not reading.is_bad(*place, "name"):
        yield (*place, "name"), "", "is missing; give each lot a name of its own"
    if not _any_bad(reading, place, ("colour", "lab")):
        if "colour" in lot and "lab" in lot:
            yield (*place, "lab"), shown(lot["lab"]), "a colour is given too; give one of the two"
        elif "colour" not in lot and "lab" not in lot:
            yield (*place, "colour"), "", 'is missing; give colour = "#rrggbb" or lab = [L, a, b]'
    if not _any_bad(reading, place, ("mass_g", "rolags", "rolag_g", "reserve_g")):
        yield from _lot_mass(place, lot)


def _lot_mass(place: tuple, lot: dict) -> Told:
    rolags = {"rolags", "rolag_g"} & set(lot)
    if "mass_g" in lot and rolags:
        yield (*place, "mass_g"), shown(lot["mass_g"]), "rolags are given too; give one of the two"
    elif "mass_g" not in lot and not rolags:
        yield (*place, "mass_g"), "", "is missing; give mass_g, or rolags with rolag_g"
    elif len(rolags) == 1:
        missing = ({"rolags", "rolag_g"} - rolags).pop()
        yield (*place, missing), "", f"is missing; {rolags.pop()} needs it to give a mass"
    elif lot.get("reserve_g", 0) > _mass_g(lot):
        yield (
            (*place, "reserve_g"),
            shown(lot["reserve_g"]),
            f"give at most {_mass_g(lot):g} g, the lot's mass",
        )
    elif _mass_g(lot) > 1e5:
        yield (*place, "rolags"), shown(lot["rolags"]), "give a lot of at most 100,000 g"


def _scheme(reading: Any, lots: tuple[dict, ...], scheme: Scheme) -> Told:
    if reading.is_bad("scheme", "name"):
        return
    name = scheme_name(scheme)
    if name == "chain" and scheme.plies not in (None, 3):
        yield ("scheme", "plies"), shown(scheme.plies), "a chain has 3 strands; leave plies out"
    if scheme.reversed_plies and name not in REVERSIBLE:
        remedy = f"only {', '.join(REVERSIBLE)} take reversed plies, not {name}"
        yield ("scheme", "reversed_plies"), shown(scheme.reversed_plies), remedy
    if name == "free" and not scheme.portions and not reading.is_bad("scheme", "portions"):
        yield ("scheme", "portions"), "", "are missing; a free scheme needs [[scheme.portions]]"
    if not reading.is_bad("scheme", "plies"):
        yield from _of_plies(reading, scheme, name)
    if _names_are_good(reading, lots):
        yield from _named_lots(reading, scheme, [lot["name"] for lot in lots if "name" in lot])
    yield from _parts(reading, scheme, lots)


def _names_are_good(reading: Any, lots: tuple[dict, ...]) -> bool:
    return bool(lots) and not any(reading.is_bad("lots", at, "name") for at in range(len(lots)))


def _of_plies(reading: Any, scheme: Scheme, name: str) -> Told:
    plies = plies_of(scheme)
    per_ply = f"give {plies}, one for each ply"
    if name == "fractal" and scheme.divisions and len(scheme.divisions) != plies:
        yield ("scheme", "divisions"), shown(scheme.divisions), per_ply
    for key in ("reversed_plies", "solid_plies"):
        numbers = getattr(scheme, key) or ()
        if key == "solid_plies" and name != "solid":
            continue
        if max(numbers, default=1) > plies or len(set(numbers)) < len(numbers):
            yield ("scheme", key), shown(numbers), f"give different plies from 1 to {plies}"
    solid = set(scheme.solid_plies or (1,))
    if name == "solid" and solid >= set(range(1, plies + 1)):
        yield (
            ("scheme", "solid_plies"),
            shown(sorted(solid)),
            f"leave one of the {plies} plies unsolid",
        )
    if name == "free" and scheme.portions and not reading.is_bad("scheme", "portions"):
        yield from _free_plies(scheme, plies)


def _free_plies(scheme: Scheme, plies: int) -> Told:
    for number, portion in enumerate(scheme.portions):
        for key in ("ply", "lot", "mass_g"):
            if getattr(portion, key, None) is None:
                yield ("scheme", "portions", number, key), "", "is missing"
    named = {portion.ply for portion in scheme.portions}
    empty = [str(ply) for ply in range(1, plies + 1) if ply not in named]
    if empty:
        yield (
            ("scheme", "portions"),
            "",
            f"ply {', '.join(empty)} has none; give each ply a portion",
        )
    if max(ply or 1 for ply in named) > plies:
        yield ("scheme", "plies"), shown(plies), f"a portion is for ply {max(named)}"


def _named_lots(reading: Any, scheme: Scheme, names: list[str]) -> Told:
    unknown = "no lot has that name"
    for at, name in enumerate(scheme.sequence or ()):
        if name not in names:
            yield ("scheme", "sequence", at), shown(name), unknown + nearest(name, names)
    if scheme.solid_lot is not None and scheme.solid_lot not in names:
        remedy = unknown + nearest(scheme.solid_lot, names)
        yield ("scheme", "solid_lot"), shown(scheme.solid_lot), remedy
    if reading.is_bad("scheme", "portions"):
        return
    for at, portion in enumerate(scheme.portions):
        if portion.lot is not None and portion.lot not in names:
            place = ("scheme", "portions", at, "lot")
            yield place, shown(portion.lot), unknown + nearest(portion.lot, names)


def _parts(reading: Any, scheme: Scheme, lots: tuple[dict, ...]) -> Told:
    if scheme.parts is None or scheme_name(scheme) == "free":
        return
    if _any_bad(reading, ("scheme",), ("sequence", "solid_lot")):
        return
    places = len(scheme.sequence or lots)
    if scheme_name(scheme) == "solid" and not scheme.sequence:
        places -= 1
    if len(scheme.parts) != places:
        yield ("scheme", "parts"), shown(scheme.parts), f"give {places}, one for each place"


def _masses(reading: Any, lots: tuple[dict, ...], tables: dict[str, Any]) -> Told:
    """Tell what only shows when masses are divided."""
    scheme: Scheme = tables["scheme"]
    if reading.is_bad("lots") or reading.is_bad("scheme"):
        return
    names = tuple(lot["name"] for lot in lots)
    kept = np.array([_mass_g(lot) - lot.get("reserve_g", 0) for lot in lots])
    if not kept.any():
        yield ("lots",), "", "every lot is kept back whole; leave some to spin"
        return
    yield from _places(scheme, names, kept)
    if scheme_name(scheme) == "free" and not reading.is_bad("spinning", "card_loss"):
        yield from _draws(scheme, names, kept * (1 - (tables["spinning"].card_loss or LOSS)))


def _places(scheme: Scheme, names: tuple[str, ...], kept: np.ndarray) -> Told:
    name = scheme_name(scheme)
    if name == "free":
        return
    sequence = sequence_of(scheme, names, kept)
    solid = solid_lot_of(scheme, names, kept)
    if name == "solid" and solid in sequence:
        remedy = f"{shown(solid)} is the solid lot; leave it out of the sequence"
        yield ("scheme", "sequence"), shown(sequence), remedy
    lot = np.array([names.index(item) for item in sequence], dtype=int)
    if not place_masses_g(scheme, lot, kept).any():
        yield (
            ("scheme", "sequence"),
            shown(sequence),
            "no fibre is left for any place; name a lot to spin",
        )
    if name == "solid" and not kept[names.index(solid)]:
        yield ("scheme", "solid_lot"), shown(solid), "the lot is kept back whole"
    count = _portions(scheme, name, len(sequence), len(set(sequence)))
    if count > MOST_PORTIONS:
        remedy = f"makes {count:,} portions; at most {MOST_PORTIONS:,} can be planned"
        yield ("scheme",), "", remedy


def _portions(scheme: Scheme, name: str, places: int, lots: int) -> int:
    if name == "fractal":
        return places * sum(d if isinstance(d, int) else len(d) for d in divisions_of(scheme))
    if name == "shuffled":
        return lots * (scheme.pieces or 4) * plies_of(scheme)
    return places * plies_of(scheme) * (2 if name == "mirrored" else 1)


def _draws(scheme: Scheme, names: tuple[str, ...], to_divide: np.ndarray) -> Told:
    lot = np.array([names.index(portion.lot) for portion in scheme.portions])
    drawn = np.bincount(lot, [portion.mass_g for portion in scheme.portions], len(names))
    for at in np.flatnonzero(drawn > to_divide * (1 + _TOLERANCE)):
        remedy = f"its portions draw {drawn[at]:g} g, but there are {to_divide[at]:g} g to divide"
        yield ("scheme", "portions"), shown(names[at]), remedy


def _others(reading: Any, tables: dict[str, Any]) -> Told:
    for table, key in (("spinning", "single_tex"), ("plying", "wound_off")):
        values = getattr(tables[table], key)
        counted = reading.is_bad("scheme", "plies") or reading.is_bad("scheme", "name")
        if isinstance(values, tuple) and not counted:
            singles = singles_of(tables["scheme"])
            if len(values) != singles:
                yield (table, key), shown(values), f"give {singles}, one for each single"
    target = tables["target"]
    given = "target" in reading.data and not reading.is_bad("target")
    if given and (target.yarn_m is None) == (target.yarn_g is None):
        yield ("target",), "", "give yarn_m or yarn_g, one of the two"


def _mass_g(lot: dict) -> float:
    return lot["mass_g"] if "mass_g" in lot else lot["rolags"] * lot["rolag_g"]


def _any_bad(reading: Any, place: tuple, keys: tuple[str, ...]) -> bool:
    return any(reading.is_bad(*place, key) for key in keys)
