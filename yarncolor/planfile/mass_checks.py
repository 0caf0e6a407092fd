"""Checks that show when grams are divided: something to spin, in every place, on few bobbins."""

from math import ceil

import numpy as np

from yarncolor.defaults import (
    LOSS,
    STEP_G,
    given_or,
    left_g,
    place_masses_g,
    scheme_name,
    sequence_of,
    solid_lot_of,
)
from yarncolor.errors import quoted
from yarncolor.plan import Bobbins, Plan, Scheme
from yarncolor.plan.key import attribute_of
from yarncolor.plan.lots import RECIPES
from yarncolor.planfile.given import GivenPlan
from yarncolor.planfile.lot_checks import MASS_KEYS, names_are_good
from yarncolor.planfile.reading import FaultIterator, Reading
from yarncolor.said import Amount, KeyName, said

MOST_BOBBINS = 500
_TOLERANCE = 1e-9
_BY_GRAMS = (", having most grams", ", or name another {solid_lot}")


def faults(reading: Reading, given: GivenPlan) -> FaultIterator:
    """Return place and remedy of each fault that dividing the stash comes to.

    Parameters
    ----------
    reading : Reading
        The file being read.
    given : GivenPlan
        Its tables.
    """
    numbers = range(len(given.lots))
    ways = (*MASS_KEYS, *RECIPES, "bath")
    bad = any(reading.any_bad(("lots", at), ways) for at in numbers)
    if bad or not names_are_good(reading, given.lots) or reading.is_bad("scheme", "name"):
        return
    left = left_g(given.lots, given_or(given.tables.scale.step_g, STEP_G))
    if not left.any():
        yield ("lots",), "every lot is kept back whole; leave some to spin"
        return
    yield from _too_many_bobbins(given.tables.bobbins, float(left.sum()))
    yield from _divided(reading, given.tables, tuple(lot.name for lot in given.lots), left)


def _divided(
    reading: Reading, tables: Plan, names: tuple[str, ...], left: np.ndarray
) -> FaultIterator:
    name = scheme_name(tables.scheme)
    if name == "stripes":
        return
    if name == "mixed":
        if not reading.is_bad("scheme", "ply"):
            yield from _mixed(tables.scheme, names, left)
    elif name == "fade":
        if not reading.any_bad(("scheme",), ("from", "to")):
            yield from _faded(tables.scheme, names, left)
    elif name != "free":
        if not reading.any_bad(("scheme",), ("sequence", "parts", "solid_lot")):
            yield from _laid(tables.scheme, names, left, tables.braid is not None)
    elif not (reading.is_bad("scheme", "portions") or reading.is_bad("spinning", "card_loss")):
        yield from _draws(tables.scheme, names, left * (1 - (tables.spinning.card_loss or LOSS)))


def _too_many_bobbins(bobbins: Bobbins, left_g: float) -> FaultIterator:
    for key, what in (("capacity_g", "bobbins"), ("plying_capacity_g", "skeins")):
        capacity_g = getattr(bobbins, key)
        if capacity_g is not None and left_g > MOST_BOBBINS * capacity_g:
            makes = f"makes {ceil(left_g / capacity_g):,} {what}"
            yield ("bobbins", key), f"{makes}; at most {MOST_BOBBINS:,} can be planned"


def _laid(
    scheme: Scheme, names: tuple[str, ...], left: np.ndarray, is_braided: bool
) -> FaultIterator:
    sequence = sequence_of(scheme, names, left)
    if scheme_name(scheme) == "solid":
        solid = solid_lot_of(scheme, names, left)
        told = list(_solid(scheme, solid, sequence, float(left[names.index(solid)]), is_braided))
        yield from told
        if told:
            return
    lot = np.array([names.index(item) for item in sequence], dtype=int)
    if place_masses_g(scheme, lot, left).any():
        return
    if scheme.parts:
        yield ("scheme", "parts"), "every place comes to 0 g; give parts to a lot that has fibre"
    else:
        yield ("scheme", "sequence"), "every lot in it is kept back whole; name a lot to spin"


def _mixed(scheme: Scheme, names: tuple[str, ...], left: np.ndarray) -> FaultIterator:
    """Yield every place of a ply that would have fibre of a lot that has none to spin."""
    for ply, own in enumerate(scheme.ply):
        lot = np.array([names.index(name) for name in own.sequence], dtype=int)
        wanted = np.array(own.parts) > 0 if own.parts else np.full(len(lot), False)
        for at in np.flatnonzero(wanted & (left[lot] <= 0)):
            remedy = "the lot is kept back whole, so the yarn would end before it begins"
            yield ("scheme", "ply", ply, "sequence", int(at)), f"{remedy}; leave some of it to spin"
        if not own.parts and not left[lot].any():
            remedy = "every lot in it is kept back whole; name a lot to spin"
            yield ("scheme", "ply", ply, "sequence"), remedy


def _faded(scheme: Scheme, names: tuple[str, ...], left: np.ndarray) -> FaultIterator:
    for key in ("from", "to"):
        side = [names.index(name) for name in getattr(scheme, attribute_of(key))]
        if not left[side].any():
            yield ("scheme", key), "every lot in it is kept back whole; name a lot to spin"


def _solid(
    scheme: Scheme, solid: str, sequence: tuple[str, ...], left_g: float, is_braided: bool
) -> FaultIterator:
    if not sequence:
        yield ("lots",), "a solid scheme needs a lot beside the solid one"
    if solid in sequence and is_braided:
        remedy = said("{lot} is a colour of the braid; name a lot beside it", lot=quoted(solid))
        yield ("scheme", "solid_lot"), remedy
    elif solid in sequence:
        why, or_else = ("", "") if scheme.solid_lot else _BY_GRAMS
        remedy = said(
            f"{{lot}} is the solid lot{why}; leave it out of the sequence{or_else}",
            lot=quoted(solid),
            solid_lot=KeyName("scheme", "solid_lot"),
        )
        yield ("scheme", "sequence"), remedy
    if not left_g:
        yield ("scheme", "solid_lot"), "the lot is kept back whole; leave some of it to spin"


def _draws(scheme: Scheme, names: tuple[str, ...], to_divide: np.ndarray) -> FaultIterator:
    lot = np.array([names.index(portion.lot) for portion in scheme.portions], dtype=int)
    drawn = np.bincount(lot, [portion.mass_g for portion in scheme.portions], len(names))
    for at in np.flatnonzero(drawn > to_divide * (1 + _TOLERANCE)):
        remedy = said(
            "together they draw {drawn} of {lot}, which has {has} to divide",
            drawn=Amount(float(drawn[at]), "g"),
            lot=quoted(names[at]),
            has=Amount(float(to_divide[at]), "g"),
        )
        yield ("scheme", "portions"), remedy
