"""Checks between the values of a plan file. None is made on a value already at fault."""

from dataclasses import replace

from yarncolor.defaults import singles_of
from yarncolor.plan import Bobbins, Fabric, Plan
from yarncolor.plan.key import WORD
from yarncolor.plan.reference import PER_PLY
from yarncolor.planfile import (
    lot_checks,
    made_checks,
    mass_checks,
    orders_checks,
    recipe_checks,
    scheme_checks,
    spun_checks,
    stripe_checks,
    yarn_checks,
)
from yarncolor.planfile.given import GivenPlan
from yarncolor.planfile.reading import FaultIterator, Reading
from yarncolor.planfile.scheme_checks import plies_are_good, so_many
from yarncolor.said import KeyName, lacking, said


def check(reading: Reading, given: GivenPlan) -> None:
    """Tell a reading every fault between values: of the lots, then of the other tables.

    Parameters
    ----------
    reading : Reading
        Knows which values are at fault already.
    given : GivenPlan
        What it found right.
    """
    lots, tables = given.lots, given.tables
    checks = (
        lot_checks.faults(reading, lots),
        recipe_checks.faults(reading, lots),
        scheme_checks.faults(reading, lots, tables.scheme),
        mass_checks.faults(reading, given),
        _per_ply(reading, tables),
        _target(reading, tables),
        _fabric(reading, tables.fabric),
        _bobbins(tables.bobbins),
        _yarn(reading, tables),
        made_checks.faults(reading, tables),
        spun_checks.faults(reading, given),
        orders_checks.faults(reading, given),
        stripe_checks.faults(reading, given),
        spun_checks.faults_beside_rows(reading, given),
    )
    for faults in checks:
        for path, remedy in faults:
            reading.tell(path, remedy)


def _per_ply(reading: Reading, tables: Plan) -> FaultIterator:
    for key in PER_PLY:
        values = getattr(getattr(tables, key.table), key.attribute)
        if isinstance(values, tuple) and plies_are_good(reading, tables.scheme):
            singles = singles_of(tables.scheme)
            if len(values) != singles:
                things = "directions" if key.kind == WORD else "numbers"
                yield (key.table, key.name), so_many(singles, things, "single")


def _target(reading: Reading, tables: Plan) -> FaultIterator:
    target = tables.target
    if target is None or reading.is_bad("target"):
        return
    if (target.yarn_m is None) == (target.yarn_g is None):
        metres, grams = KeyName("target", "yarn_m"), KeyName("target", "yarn_g")
        yield ("target",), said("give {m} or {g}, one of the two", m=metres, g=grams)


def _fabric(reading: Reading, fabric: Fabric) -> FaultIterator:
    if fabric == replace(Fabric(), finishing_shrinkage=fabric.finishing_shrinkage):
        return
    told = any(reading.is_bad("fabric", key) for key in ("stitches", "width_cm"))
    if fabric.stitches is None and fabric.width_cm is None and not told:
        remedy = lacking(
            "how wide it is, or how many stitches are cast on",
            "is missing; give stitches cast on, or {width}",
            width=KeyName("fabric", "width_cm"),
        )
        yield ("fabric", "stitches"), remedy


def _bobbins(bobbins: Bobbins) -> FaultIterator:
    count, tares = bobbins.count, bobbins.tare_g
    if isinstance(tares, tuple) and count is not None and len(tares) != count:
        yield ("bobbins", "tare_g"), so_many(count, "numbers", "bobbin")


def _yarn(reading: Reading, tables: Plan) -> FaultIterator:
    bad = any(reading.is_bad(table, key) for table, key in yarn_checks.KEYS)
    if not bad and plies_are_good(reading, tables.scheme):
        yield from yarn_checks.faults(tables)
