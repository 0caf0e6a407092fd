"""Lots that are made from other lots, by carding or in a later bath: may they be, and from what."""

from collections.abc import Iterator

import numpy as np

from yarncolor.defaults import taken_g
from yarncolor.errors import Path, quoted, suggestion
from yarncolor.phrases import join_words
from yarncolor.plan.lots import RECIPES
from yarncolor.planfile.given import GivenLot
from yarncolor.planfile.lot_checks import MASS_KEYS, names_are_good
from yarncolor.planfile.reading import FaultIterator, Reading
from yarncolor.said import Amount, said

_Sources = list[tuple[Path, str]]
"""Where each lot that another is made from is named, and its name."""

_TOLERANCE = 1e-9


def faults(reading: Reading, lots: tuple[GivenLot, ...]) -> FaultIterator:
    """Return place and remedy of each fault of the blends and baths among the lots.

    Parameters
    ----------
    reading : Reading
        The file being read.
    lots : tuple of GivenLot
        As given.
    """
    if not names_are_good(reading, lots):
        return
    names = [lot.name for lot in lots]
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
        way = next((way for way in RECIPES if way in lots[at].values), "bath")
        yield ("lots", at, way), "goes round in a circle: the lot is made from itself"
    if not looped and len(made) == len(lots):
        yield from _too_little(reading, lots)
        yield from _too_dark(reading, lots)


def _is_bad(reading: Reading, at: int) -> bool:
    return any(reading.is_bad("lots", at, way) for way in (*RECIPES, "bath"))


def _sources(lot: GivenLot) -> _Sources:
    """Return where each source of a made lot is named, and the name."""
    way = "drafted" if "drafted" in lot.values else "blend"
    mixed: _Sources = [((way,), name) for name, _ in lot.recipe]
    if lot.bath is None:
        return mixed
    return [*mixed, (("bath", "of"), lot.bath.of), (("bath", "undyed"), lot.bath.undyed)]


def _looped(names: list[str], made: dict[int, _Sources]) -> list[int]:
    """Return the lots that are, by whatever way, made from themselves."""
    pairs = sorted({(at, names.index(name)) for at, own in made.items() for _, name in own})
    if not pairs:
        return []
    from scipy.sparse import csr_array
    from scipy.sparse.csgraph import connected_components

    ends = tuple(np.array(pairs).T)
    graph = csr_array((np.ones(len(pairs)), ends), shape=(len(names), len(names)))
    _, ring = connected_components(graph, connection="strong")
    in_ring = np.bincount(ring)[ring] > 1
    in_ring[[at for at, source in pairs if at == source]] = True
    return [int(at) for at in np.flatnonzero(in_ring)]


def _too_little(reading: Reading, lots: tuple[GivenLot, ...]) -> FaultIterator:
    if any(reading.any_bad(("lots", at), MASS_KEYS) for at in range(len(lots))):
        return
    for at, takes_g in enumerate(taken_g(lots)):
        there_g = lots[at].mass_g - lots[at].reserve_g
        if takes_g > there_g + _TOLERANCE * lots[at].mass_g:
            who = join_words(list(_takers(lots, lots[at].name)))
            which = "" if lots[at].stands_in_file else f" of {quoted(lots[at].name)}"
            place: Path = ("braid",) if which else ("lots", at)
            remedy = said(
                "{who} take {takes}{which}, but there are {there}",
                who=who,
                takes=Amount(float(takes_g), "g"),
                which=which,
                there=Amount(float(there_g), "g"),
            )
            yield place, remedy


def _takers(lots: tuple[GivenLot, ...], name: str) -> Iterator[str]:
    """Yield what takes grams of a lot: blends, drafted lots, baths."""
    takes = [lot for lot in lots if any(name == source for source, _ in lot.recipe)]
    yield from ["blends"] * any("blend" in lot.values for lot in takes)
    yield from ["drafted lots"] * any("drafted" in lot.values for lot in takes)
    yield from ["baths"] * any(lot.bath and lot.bath.takes_from == name for lot in lots)


def _too_dark(reading: Reading, lots: tuple[GivenLot, ...]) -> FaultIterator:
    if not any(lot.bath for lot in lots) or reading.is_bad("lots"):
        return
    from yarncolor.colour.palette import lots_lab

    built = tuple(given.lot for given in lots)
    light = dict(zip([lot.name for lot in built], lots_lab(built)[:, 0], strict=True))
    for at, lot in enumerate(built):
        if lot.bath is not None and light[lot.bath.undyed] <= light[lot.bath.of]:
            remedy = f"is not lighter than {quoted(lot.bath.of)}; name the fibre before dyeing"
            yield ("lots", at, "bath", "undyed"), remedy
