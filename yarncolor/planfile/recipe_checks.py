"""Lots that are made from other lots, by carding or in a later bath: may they be, and from what."""

from typing import Any

import numpy as np
from scipy.sparse import csr_array
from scipy.sparse.csgraph import connected_components

from yarncolor.defaults import taken_g
from yarncolor.errors import quoted, suggestion
from yarncolor.plan import Bath, Lot
from yarncolor.planfile.reading import FaultIterator, Reading

_TOLERANCE = 1e-9


def faults(reading: Reading, lots: tuple[dict, ...]) -> FaultIterator:
    """Return place and remedy of each fault of the blends and baths among the lots."""
    names = [lot.get("name") for lot in lots]
    if any(reading.is_bad("lots", at, "name") for at in range(len(lots))) or None in names:
        return
    made = {at: _sources(lot) for at, lot in enumerate(lots) if not _is_bad(reading, at)}
    unknown = False
    for at, sources in made.items():
        for place, name in sources:
            if name not in names:
                unknown = True
                yield (
                    ("lots", at, *place),
                    f"no lot is named {quoted(name)}{suggestion(name, names)}",
                )
    if unknown or len(set(names)) < len(names):
        return
    looped = _looped(names, made)
    for at in looped:
        way = "blend" if "blend" in lots[at] else "bath"
        yield ("lots", at, way), "goes round in a circle: the lot is made from itself"
    if not looped:
        yield from _too_little(reading, lots)
        yield from _too_dark(reading, lots)


def _is_bad(reading: Reading, at: int) -> bool:
    return any(reading.is_bad("lots", at, way) for way in ("blend", "bath"))


def _sources(lot: dict) -> list[tuple[tuple, str]]:
    """Return where each source of a made lot is named, and the name."""
    blend = [(("blend",), name) for name, _ in lot.get("blend", ())]
    bath = [(("bath", key), lot["bath"][key]) for key in ("of", "undyed") if "bath" in lot]
    return blend + bath


def _looped(names: list[str], made: dict[int, list]) -> list[int]:
    """Return the lots that are, by whatever way, made from themselves."""
    pairs = [(at, names.index(name)) for at, sources in made.items() for _, name in sources]
    if not pairs:
        return []
    ends = tuple(np.array(pairs).T)
    graph = csr_array((np.ones(len(pairs)), ends), shape=(len(names), len(names)))
    _, ring = connected_components(graph, connection="strong")
    in_ring = np.bincount(ring)[ring] > 1
    in_ring[[at for at, source in pairs if at == source]] = True
    return np.flatnonzero(in_ring).tolist()


def _too_little(reading: Reading, lots: tuple[dict, ...]) -> FaultIterator:
    keys = ("mass_g", "rolags", "rolag_g", "reserve_g")
    if any(reading.is_bad("lots", at, key) for at in range(len(lots)) for key in keys):
        return
    masses = [_mass_g(lot) for lot in lots]
    takes = taken_g([lot["name"] for lot in lots], masses, [lot.get("blend") for lot in lots])
    for at, lot in enumerate(lots):
        there = masses[at] - lot.get("reserve_g", 0.0)
        if takes[at] > there * (1 + _TOLERANCE):
            yield ("lots", at), f"blends take {takes[at]:.10g} g, but there are {there:.10g} g"


def _too_dark(reading: Reading, lots: tuple[dict, ...]) -> FaultIterator:
    if not any("bath" in lot for lot in lots) or reading.is_bad("lots"):
        return
    from yarncolor.colour.palette import lots_lab

    built = tuple(_bare(lot) for lot in lots)
    light = dict(zip([lot.name for lot in built], lots_lab(built)[:, 0], strict=True))
    for at, lot in enumerate(built):
        if lot.bath is not None and light[lot.bath.undyed] <= light[lot.bath.of]:
            remedy = f"is not lighter than {quoted(lot.bath.of)}; name the fibre before dyeing"
            yield ("lots", at, "bath", "undyed"), remedy


def _bare(lot: dict[str, Any]) -> Lot:
    """Return a lot with what its making needs: name, mass and colour."""
    bath = Bath(**lot["bath"]) if "bath" in lot else None
    ways = {key: lot[key] for key in ("colour", "lab", "blend") if key in lot}
    return Lot(lot["name"], _mass_g(lot), bath=bath, **ways)


def _mass_g(lot: dict[str, Any]) -> float:
    return lot["mass_g"] if "mass_g" in lot else lot["rolags"] * lot["rolag_g"]
