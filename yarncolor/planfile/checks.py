"""Checks between the values of a plan file. None is made on a value already at fault."""

from dataclasses import replace
from math import ceil
from typing import Any

import numpy as np

from yarncolor.defaults import (
    LOSS,
    PIECES,
    divisions_of,
    place_masses_g,
    plies_of,
    scheme_name,
    sequence_of,
    singles_of,
    solid_lot_of,
    taken_g,
)
from yarncolor.errors import quoted, suggestion
from yarncolor.plan import REVERSIBLE, WAYS_TO_A_COLOUR, Bobbins, Fabric, Scheme
from yarncolor.plan.key import WORD
from yarncolor.plan.limits import MOST_GRAMS, MOST_LOTS_AND_STEPS, MOST_PORTIONS
from yarncolor.plan.reference import PER_PLY
from yarncolor.planfile import recipe_checks, yarn_checks
from yarncolor.planfile.reading import FaultIterator, Reading
from yarncolor.said import PORTIONS, Key, predicate, said

_TOLERANCE = 1e-9
MOST_BOBBINS = 500
_BY_GRAMS = (", having most grams", ", or name another {solid_lot}")
_MASS_KEYS = ("mass_g", "rolags", "rolag_g", "reserve_g")


def check(reading: Reading, lots: tuple[dict, ...], tables: dict[str, Any]) -> None:
    """Tell a reading every fault between values: of the lots, then of the other tables."""
    checks = (
        lambda: _lots(reading, lots),
        lambda: recipe_checks.faults(reading, lots),
        lambda: _scheme(reading, lots, tables["scheme"]),
        lambda: _count(reading, lots, tables["scheme"]),
        lambda: _masses(reading, lots, tables),
        lambda: _others(reading, tables),
        lambda: _fabric(reading, tables["fabric"]),
        lambda: _bobbins(tables["bobbins"]),
        lambda: _physics(reading, tables),
    )
    for found in checks:
        for place, remedy in found():
            reading.tell(place, remedy)


def _lots(reading: Reading, lots: tuple[dict, ...]) -> FaultIterator:
    first: dict[str, int] = {}
    for number, lot in enumerate(lots):
        place = ("lots", number)
        yield from _lot(place, lot, reading)
        name = lot.get("name")
        if name in first:
            remedy = f"lot {first[name] + 1} has that name already; give each lot its own"
            yield (*place, "name"), remedy
        elif name is not None:
            first[name] = number


def _lot(place: tuple, lot: dict, reading: Reading) -> FaultIterator:
    if "name" not in lot and not reading.is_bad(*place, "name"):
        yield (*place, "name"), "is missing; give each lot a name of its own"
    if not _any_bad(reading, place, WAYS_TO_A_COLOUR):
        ways = [way for way in WAYS_TO_A_COLOUR if way in lot]
        if not ways:
            yield (*place, "colour"), 'is missing; give colour = "#rrggbb" or lab = [L, a, b]'
        elif len(ways) > 1:
            yield (*place, ways[1]), f"a {ways[0]} is given too; give one of the two"
    if "bath" in lot and not reading.is_bad(*place, "bath"):
        for key in ("of", "number", "exhaustion", "undyed"):
            if key not in lot["bath"]:
                yield (*place, "bath", key), "is missing"
    if not _any_bad(reading, place, _MASS_KEYS):
        yield from _lot_mass(place, lot)


def _lot_mass(place: tuple, lot: dict) -> FaultIterator:
    rolags = {"rolags", "rolag_g"} & set(lot)
    if "mass_g" in lot and rolags:
        yield (*place, "mass_g"), "rolags are given too; give one of the two"
    elif "mass_g" not in lot and not rolags:
        yield (*place, "mass_g"), "is missing; give mass_g, or rolags with rolag_g"
    elif len(rolags) == 1:
        missing = ({"rolags", "rolag_g"} - rolags).pop()
        yield (*place, missing), f"is missing; {rolags.pop()} needs it to give a mass"
    elif _mass_g(lot) > MOST_GRAMS:
        remedy = f"these come to {_mass_g(lot):,.10g} g; a lot has at most {MOST_GRAMS:,.0f} g"
        yield (*place, "rolags"), remedy
    elif lot.get("reserve_g", 0) > _mass_g(lot):
        yield (*place, "reserve_g"), f"give at most {_mass_g(lot):.10g} g, the lot's mass"


def _scheme(reading: Reading, lots: tuple[dict, ...], scheme: Scheme) -> FaultIterator:
    if reading.is_bad("scheme", "name"):
        return
    name = scheme_name(scheme)
    if name == "chain" and scheme.plies not in (None, 3):
        yield ("scheme", "plies"), "a chain has 3 strands; leave plies out"
    if scheme.reversed_plies and name not in REVERSIBLE:
        able = f"{', '.join(REVERSIBLE[:-1])} and {REVERSIBLE[-1]}"
        remedy = f"only {able} take reversed plies, not {name}; leave them out"
        yield ("scheme", "reversed_plies"), remedy
    if name == "free" and not scheme.portions and not reading.is_bad("scheme", "portions"):
        remedy = predicate("are missing; a free scheme needs {portions}", portions=PORTIONS)
        yield ("scheme", "portions"), remedy
    if _plies_are_good(reading, scheme):
        yield from _of_plies(reading, scheme, name)
    if _names_are_good(reading, lots):
        yield from _named_lots(reading, scheme, [lot["name"] for lot in lots])
    if lots or scheme.sequence:
        yield from _parts(reading, scheme, lots)


def _names_are_good(reading: Reading, lots: tuple[dict, ...]) -> bool:
    return bool(lots) and not any(reading.is_bad("lots", at, "name") for at in range(len(lots)))


def _plies_are_good(reading: Reading, scheme: Scheme) -> bool:
    """Return whether nothing is at fault that the number of plies rests on."""
    instead = () if scheme.plies else ("divisions", "portions")
    return not _any_bad(reading, ("scheme",), ("name", "plies", *instead))


def _of_plies(reading: Reading, scheme: Scheme, name: str) -> FaultIterator:
    plies = plies_of(scheme)
    if name == "fractal" and scheme.divisions and len(scheme.divisions) != plies:
        yield ("scheme", "divisions"), _so_many(plies, "entries", "ply")
    listed = {"reversed_plies": name in REVERSIBLE, "solid_plies": name == "solid"}
    for key in (key for key, counts in listed.items() if counts):
        numbers = getattr(scheme, key) or ()
        if max(numbers, default=1) > plies or len(set(numbers)) < len(numbers):
            yield ("scheme", key), f"give different plies from 1 to {plies}"
    if name == "solid" and set(scheme.solid_plies or (1,)) >= set(range(1, plies + 1)):
        yield _not_solid(scheme, plies)
    if name == "free" and scheme.portions and not reading.is_bad("scheme", "portions"):
        yield from _free_plies(scheme, plies)


def _not_solid(scheme: Scheme, plies: int) -> tuple[tuple, str]:
    if plies == 1:
        return ("scheme", "plies"), "a solid scheme has at least 2 plies"
    key = "solid_plies" if scheme.solid_plies else "plies"
    return ("scheme", key), f"leave at least one of the {plies} plies to the other lots"


def _free_plies(scheme: Scheme, plies: int) -> FaultIterator:
    named = {portion.ply for portion in scheme.portions}
    empty = [str(ply) for ply in range(1, plies + 1) if ply not in named]
    if empty:
        which = f"plies {', '.join(empty)} have" if len(empty) > 1 else f"ply {empty[0]} has"
        yield ("scheme", "portions"), f"{which} none; give each ply a portion"
    if max(named) > plies:
        yield ("scheme", "plies"), f"a portion is for ply {max(named)}; give as many plies"


def _named_lots(reading: Reading, scheme: Scheme, names: list[str]) -> FaultIterator:
    named = [(("sequence", at), name) for at, name in enumerate(scheme.sequence or ())]
    if scheme.solid_lot is not None:
        named.append((("solid_lot",), scheme.solid_lot))
    if not reading.is_bad("scheme", "portions"):
        portions = enumerate(scheme.portions)
        named += [(("portions", at, "lot"), portion.lot) for at, portion in portions]
    for place, name in named:
        if name not in names:
            close = suggestion(name, names) or "; name a lot of the stash"
            yield ("scheme", *place), f"no lot has that name{close}"


def _parts(reading: Reading, scheme: Scheme, lots: tuple[dict, ...]) -> FaultIterator:
    if scheme.parts is None or scheme_name(scheme) == "free":
        return
    if _any_bad(reading, ("scheme",), ("sequence", "solid_lot")):
        return
    places = _places(scheme, lots)
    if len(scheme.parts) != places:
        yield ("scheme", "parts"), _so_many(places, "numbers", "place of the sequence")


def _places(scheme: Scheme, lots: tuple[dict, ...]) -> int:
    if scheme.sequence:
        return len(scheme.sequence)
    return len(lots) - (scheme_name(scheme) == "solid")


def _count(reading: Reading, lots: tuple[dict, ...], scheme: Scheme) -> FaultIterator:
    bad = _any_bad(reading, ("scheme",), ("sequence", "divisions", "pieces", "blend_steps"))
    if bad or not lots or not _plies_are_good(reading, scheme):
        return
    made = (scheme.blend_steps or 0) * (_places(scheme, lots) - 1)
    if scheme_name(scheme) == "gradient" and made + len(lots) > MOST_LOTS_AND_STEPS:
        remedy = f"makes {made:,} blends; lots and blends are at most {MOST_LOTS_AND_STEPS:,}"
        yield ("scheme", "blend_steps"), remedy
        return
    count = _portions(scheme, _places(scheme, lots), len(set(scheme.sequence or range(len(lots)))))
    if count > MOST_PORTIONS:
        yield ("scheme",), f"makes {count:,} portions; at most {MOST_PORTIONS:,} can be planned"


def _portions(scheme: Scheme, places: int, lots: int) -> int:
    name = scheme_name(scheme)
    if name == "fractal":
        return places * sum(d if isinstance(d, int) else len(d) for d in divisions_of(scheme))
    if name == "shuffled":
        return lots * (scheme.pieces or PIECES) * plies_of(scheme)
    if name == "gradient":
        places += (scheme.blend_steps or 0) * (places - 1)
    return places * plies_of(scheme) * (2 if name == "mirrored" else 1)


def _masses(reading: Reading, lots: tuple[dict, ...], tables: dict[str, Any]) -> FaultIterator:
    """Tell what only shows when masses are divided."""
    numbers = range(len(lots))
    bad = any(_any_bad(reading, ("lots", at), (*_MASS_KEYS, "blend")) for at in numbers)
    if bad or not _names_are_good(reading, lots) or reading.is_bad("scheme", "name"):
        return
    scheme: Scheme = tables["scheme"]
    names = tuple(lot["name"] for lot in lots)
    masses = [_mass_g(lot) for lot in lots]
    taken = taken_g(names, masses, [lot.get("blend") for lot in lots])
    kept = np.array(masses) - [lot.get("reserve_g", 0) for lot in lots] - taken
    kept[kept < _TOLERANCE * np.array(masses)] = 0
    if not kept.any():
        yield ("lots",), "every lot is kept back whole; leave some to spin"
        return
    yield from _too_many_bobbins(tables["bobbins"], float(kept.sum()))
    if scheme_name(scheme) != "free":
        if not _any_bad(reading, ("scheme",), ("sequence", "parts", "solid_lot")):
            yield from _laid(scheme, names, kept)
    elif not (reading.is_bad("scheme", "portions") or reading.is_bad("spinning", "card_loss")):
        yield from _draws(scheme, names, kept * (1 - (tables["spinning"].card_loss or LOSS)))


def _too_many_bobbins(bobbins: Bobbins, kept_g: float) -> FaultIterator:
    for key, what in (("capacity_g", "bobbins"), ("plying_capacity_g", "skeins")):
        capacity_g = getattr(bobbins, key)
        if capacity_g is not None and kept_g > MOST_BOBBINS * capacity_g:
            makes = f"makes {ceil(kept_g / capacity_g):,} {what}"
            yield ("bobbins", key), f"{makes}; at most {MOST_BOBBINS:,} can be planned"


def _laid(scheme: Scheme, names: tuple[str, ...], kept: np.ndarray) -> FaultIterator:
    sequence = sequence_of(scheme, names, kept)
    if scheme_name(scheme) == "solid":
        solid = solid_lot_of(scheme, names, kept)
        told = list(_solid(scheme, solid, sequence, kept[names.index(solid)]))
        yield from told
        if told:
            return
    lot = np.array([names.index(item) for item in sequence], dtype=int)
    if place_masses_g(scheme, lot, kept).any():
        return
    if scheme.parts:
        yield ("scheme", "parts"), "every place comes to 0 g; give parts to a lot that has fibre"
    else:
        yield ("scheme", "sequence"), "every lot in it is kept back whole; name a lot to spin"


def _solid(scheme: Scheme, solid: str, sequence: tuple[str, ...], kept_g: float) -> FaultIterator:
    if not sequence:
        yield ("lots",), "a solid scheme needs a lot beside the solid one"
    if solid in sequence:
        why, or_else = ("", "") if scheme.solid_lot else _BY_GRAMS
        remedy = said(
            f"{{lot}} is the solid lot{why}; leave it out of the sequence{or_else}",
            lot=quoted(solid),
            solid_lot=Key("scheme", "solid_lot"),
        )
        yield ("scheme", "sequence"), remedy
    if not kept_g:
        yield ("scheme", "solid_lot"), "the lot is kept back whole; leave some of it to spin"


def _draws(scheme: Scheme, names: tuple[str, ...], to_divide: np.ndarray) -> FaultIterator:
    lot = np.array([names.index(portion.lot) for portion in scheme.portions], dtype=int)
    drawn = np.bincount(lot, [portion.mass_g for portion in scheme.portions], len(names))
    for at in np.flatnonzero(drawn > to_divide * (1 + _TOLERANCE)):
        has = f"{quoted(names[at])}, which has {to_divide[at]:.10g} g to divide"
        yield ("scheme", "portions"), f"together they draw {drawn[at]:.10g} g of {has}"


def _others(reading: Reading, tables: dict[str, Any]) -> FaultIterator:
    for key in PER_PLY:
        values = getattr(tables[key.table], key.name)
        if isinstance(values, tuple) and _plies_are_good(reading, tables["scheme"]):
            singles = singles_of(tables["scheme"])
            if len(values) != singles:
                things = "directions" if key.kind == WORD else "numbers"
                yield (key.table, key.name), _so_many(singles, things, "single")
    target = tables["target"]
    given = "target" in reading.data and not reading.is_bad("target")
    if given and (target.yarn_m is None) == (target.yarn_g is None):
        metres, grams = Key("target", "yarn_m"), Key("target", "yarn_g")
        yield ("target",), said("give {m} or {g}, one of the two", m=metres, g=grams)


def _fabric(reading: Reading, fabric: Fabric) -> FaultIterator:
    if fabric == replace(Fabric(), finishing_shrinkage=fabric.finishing_shrinkage):
        return
    for key, what in (("stitches", "stitches cast on"), ("gauge_stitches", "stitches in 10 cm")):
        if getattr(fabric, key) is None and not reading.is_bad("fabric", key):
            yield ("fabric", key), predicate(f"is missing; give {what}")


def _bobbins(bobbins: Bobbins) -> FaultIterator:
    count, tares = bobbins.count, bobbins.tare_g
    if isinstance(tares, tuple) and count is not None and len(tares) != count:
        yield ("bobbins", "tare_g"), _so_many(count, "numbers", "bobbin")


def _physics(reading: Reading, tables: dict[str, Any]) -> FaultIterator:
    bad = (reading.is_bad(table, key) for table, key in yarn_checks.KEYS)
    if not any(bad) and _plies_are_good(reading, tables["scheme"]):
        yield from yarn_checks.faults(tables)


def _so_many(count: int, things: str, each: str) -> str:
    if count == 1:
        return f"give one, for the one {each}"
    return f"give {count} {things}, one for each {each}"


def _mass_g(lot: dict) -> float:
    return lot["mass_g"] if "mass_g" in lot else lot["rolags"] * lot["rolag_g"]


def _any_bad(reading: Reading, place: tuple, keys: tuple[str, ...]) -> bool:
    return any(reading.is_bad(*place, key) for key in keys)
