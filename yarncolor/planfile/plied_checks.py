"""Checks of what was plied: how far, and where a single came to its end."""

from dataclasses import replace
from math import ceil, isfinite

from yarncolor.defaults import plying_tare_g
from yarncolor.layout.ended import LEAST_CONTRACTION, MOST_CONTRACTION, Misfit, WrongEnd
from yarncolor.layout.layout import in_line, layout
from yarncolor.layout.resolved import resolve
from yarncolor.plan import Plan, Plied
from yarncolor.plan.key import unit_slot
from yarncolor.planfile.reading import FaultIterator, Reading
from yarncolor.said import Amount, KeyName, Remedy, lacking, said

_METRES = unit_slot("metres")
_PLYING_TARE = KeyName("bobbins", "plying_tare_g")
_FAR = ("so_far_m", "turns", "gross_g")
_END = ("at_m", "at_gross_g")
_NOTHING = 1e-4


def plied_faults(reading: Reading, tables: Plan) -> FaultIterator:
    """Return place and remedy of each fault of the table by itself.

    Parameters
    ----------
    reading : Reading
        The file being read.
    tables : Plan
        What is right in it.
    """
    plied = tables.plied
    if plied is None or reading.is_bad("plied"):
        return
    if not _given(plied, (*_FAR, "ended_ply", *_END)):
        give = "is missing; give {metres}, turns or a weight"
        far = lacking("how much is plied", give, metres=_METRES)
        yield ("plied", "so_far_m"), far
    yield from _one_of(plied, _FAR)
    if plied.turns is not None and plied.turn_m is None:
        none = "is missing; turns say nothing without their length"
        turn = lacking("{metres} in a turn", none, metres=_METRES)
        yield ("plied", "turn_m"), turn
    yield from _end(plied)
    for key in ("gross_g", "at_gross_g"):
        yield from _plying_bobbin(tables, key, getattr(plied, key))


def _given(plied: Plied, keys: tuple[str, ...]) -> list[str]:
    return [key for key in keys if getattr(plied, key) is not None]


def _one_of(plied: Plied, keys: tuple[str, ...]) -> FaultIterator:
    first, *others = _given(plied, keys) or [""]
    for key in others:
        remedy = said("{way} is given too; give one of the two", way=KeyName("plied", first))
        yield ("plied", key), remedy


def _end(plied: Plied) -> FaultIterator:
    places = _given(plied, _END)
    if places and plied.ended_ply is None:
        which = "is missing; give the number of the ply whose single ended there"
        yield ("plied", "ended_ply"), lacking("which ply ran out", which)
    if plied.ended_ply is not None and not places:
        where = lacking(
            "after how much yarn", "is missing; give {metres} of yarn when it ended", metres=_METRES
        )
        yield ("plied", "at_m"), where
    yield from _one_of(plied, _END)


def _plying_bobbin(tables: Plan, key: str, gross_g: float | None) -> FaultIterator:
    empty_g = plying_tare_g(tables)
    if gross_g is None:
        return
    if empty_g is None:
        tare = said("give {tare} too, what it weighs empty", tare=_PLYING_TARE)
        yield ("plied", key), replace(tare, needed="what the empty plying bobbin weighs")
    elif gross_g < empty_g or (key == "at_gross_g" and gross_g == empty_g):
        is_it = "below" if gross_g < empty_g else "no more than"
        empty = Amount(empty_g, "g")
        yield ("plied", key), said(f"it is {is_it} the empty bobbin, {{empty}}", empty=empty)


def end_faults(plan: Plan, *, plies: int, is_laid: bool) -> FaultIterator:
    """Return place and remedy of an end of a single with which no lengths agree.

    Parameters
    ----------
    plan : Plan
        Of which no single value is at fault.
    plies : int
        How many singles it has.
    is_laid : bool
        Whether what lies on the bobbins can be reckoned.
    """
    plied = plan.plied
    if plied is None or plied.ended_ply is None:
        return
    if plied.ended_ply > plies:
        has = f"the plan has plies 1 to {plies}; name one of them"
        yield ("plied", "ended_ply"), has if plies > 1 else "the plan has one single; give ply 1"
    elif is_laid:
        as_reckoned = layout(resolve(replace(plan, plied=replace(plied, ended_ply=None))))
        found = in_line(replace(as_reckoned, resolved=resolve(plan)))
        if isinstance(found, WrongEnd):
            key = "at_m" if plied.at_m is not None else "at_gross_g"
            yield ("plied", key), _remedy(found, plied.ended_ply)


MISFITS: dict[Misfit, str] = {
    Misfit.BEYOND: "no other single reaches so far; the longest ends after {most} of yarn",
    Misfit.MEASURED: "what was measured of ply {ply} alone makes {least} of yarn; give more",
    Misfit.LOST: "all of ply {ply} was measured, and from "
    f"{LEAST_CONTRACTION:g} to {MOST_CONTRACTION:g} of a length can be lost in plying; "
    "give {least} to {most} of yarn",
}
"""Why a single cannot have ended there, with slots; the phone fills in the same."""


def _remedy(wrong: WrongEnd, ply: int) -> Remedy:
    bounds = {"least": _up(wrong.least_m), "most": -_up(-wrong.most_m)}
    told = {bound: Amount(value, "m", ".1f", bound) for bound, value in bounds.items()}
    return said(MISFITS[wrong.why], ply=ply, **told)


def _up(length_m: float) -> float:
    """Return a length rounded up to tenths of a metre, so that what is told can be given."""
    return ceil(length_m * 10 - _NOTHING) / 10 if isfinite(length_m) else length_m
