"""What a spinner says of the bobbins: each a plan with one thing changed, or every fault of it.

Plies and rows are counted from 1, as on a bobbin's page. A row that is taken in stands where its
page has it; it can be moved from there, and what no entry names below the highest is left out.
"""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from yarncolor.editing.at_the_wheel_pieces import (
    PieceKey,
    keys_of_pieces,
    pieces_on,
    with_pieces,
)
from yarncolor.editing.field_units import in_units
from yarncolor.editing.option_text import read_again
from yarncolor.layout.layout import Layout, layout
from yarncolor.layout.resolved import resolve
from yarncolor.measures import measures_of
from yarncolor.plan import Plan, Sample, Spun, to_data
from yarncolor.plan.key import TABLE, Key
from yarncolor.plan.reference import KEYS
from yarncolor.planfile.read import plan_changed

TARE = KEYS["bobbins", "tare_g"]
PIECE_FIELDS: dict[str, Key] = {
    name: KEYS["spun", name]
    for name in ("mass_g", "length_m", "sample", "gross_g", "lot", "bobbin", "on", "note")
}
"""What can be said of a piece."""


def checked(plan: Plan) -> Plan:
    """Return a plan that is right; raise `PlanError` with every fault of one that is not."""
    return plan_changed(plan, to_data(plan))


def spun_through(plan: Plan, ply: int, row: int) -> Plan:
    """Return the plan of which every row of a ply's page up to one was spun as planned.

    Parameters
    ----------
    plan : Plan
        As it is.
    ply, row : int
        From 1.

    Raises
    ------
    PlanError
        Where the plan has no such row.
    """
    return checked(all_up_to(plan, PieceKey(ply, row=row)))


def measured(plan: Plan, ply: int, row: int, **found: Any) -> Plan:
    """Return the plan of which a row was spun and found to be otherwise than planned.

    Parameters
    ----------
    plan : Plan
        As it is.
    ply, row : int
        From 1.
    found : dict of str to number or text
        Keys of `PIECE_FIELDS`: mass_g, length_m, gross_g, lot and so on.

    Raises
    ------
    PlanError
        Where the plan has no such row, or that cannot be.
    """
    said = ticked(plan, PieceKey(ply, row=row))
    pieces = (replace(one, **found) if one.row == row else one for one in pieces_on(said, ply))
    return checked(with_pieces(said, ply, pieces))


def ticked(plan: Plan, key: PieceKey) -> Plan:
    """Return the plan of which a row was spun as planned.

    Parameters
    ----------
    plan : Plan
        As it is.
    key : PieceKey
        Of a row.
    """
    pieces = pieces_on(plan, key.ply)
    if key in keys_of_pieces(pieces):
        return plan
    return with_pieces(plan, key.ply, _put_in(pieces, Spun(key.ply, key.row)))


def unticked(plan: Plan, key: PieceKey) -> Plan:
    """Return the plan of which a piece was not spun.

    Parameters
    ----------
    plan : Plan
        As it is.
    key : PieceKey
        Of any piece.
    """
    pieces = pieces_on(plan, key.ply)
    stay = [one for one, own in zip(pieces, keys_of_pieces(pieces), strict=True) if own != key]
    return with_pieces(plan, key.ply, stay)


def all_up_to(plan: Plan, key: PieceKey) -> Plan:
    """Return the plan of which all that is to be spun up to a row was, as it is to be.

    What was left out stays so, as does a row that is not to be spun any more.

    Parameters
    ----------
    plan : Plan
        As it is.
    key : PieceKey
        Of a row.
    """
    own, laid = pieces_on(plan, key.ply), layout(resolve(plan))
    if not _has(laid, key):
        return with_pieces(plan, key.ply, [*own, Spun(key.ply, key.row)])
    of_ply = laid.portions.of_ply(key.ply - 1)
    rest = range(of_ply.start + len(own), of_ply.stop)
    last = max((at for at in rest if 0 < laid.row[at] <= key.row), default=-1)
    return with_pieces(
        plan, key.ply, [*own, *(_spun(laid, key.ply, at) for at in rest if at <= last)]
    )


def moved(plan: Plan, key: PieceKey, by: int) -> Plan:
    """Return the plan of which a piece was spun so many pieces later.

    Parameters
    ----------
    plan : Plan
        As it is.
    key : PieceKey
        Of a piece on the bobbin.
    by : int
        Pieces; below 0 sooner.
    """
    pieces = pieces_on(plan, key.ply)
    keys = keys_of_pieces(pieces)
    if key not in keys:
        return plan
    at = keys.index(key)
    to = min(max(at + by, 0), len(pieces) - 1)
    pieces.insert(to, pieces.pop(at))
    return with_pieces(plan, key.ply, pieces)


def with_extra(plan: Plan, key: PieceKey, lot: str, mass_g: float) -> Plan:
    """Return the plan of which a piece that no row asks for was spun after another.

    Parameters
    ----------
    plan : Plan
        As it is.
    key : PieceKey
        The piece before it; a row that was not spun yet is then, and all before it.
    lot : str
        Its name.
    mass_g : float
        As weighed out.
    """
    plan = all_up_to(plan, key) if key.row else plan
    pieces = pieces_on(plan, key.ply)
    keys = keys_of_pieces(pieces)
    at = keys.index(key) + 1 if key in keys else len(pieces)
    pieces.insert(at, Spun(key.ply, lot=lot, mass_g=mass_g))
    return with_pieces(plan, key.ply, pieces)


def with_typed(plan: Plan, texts: Mapping[str, str]) -> Plan:
    """Return the plan with what was typed of pieces, as `field_name` names the fields.

    What is said of a row says that it was spun. Values are as they were typed where they cannot
    be read: `checked` tells what is wrong with them.

    Parameters
    ----------
    plan : Plan
        As it is.
    texts : mapping of str to str
        What was typed, by field.
    """
    for name, text in texts.items():
        if name == TARE.path:
            tare_g = to_data(plan.bobbins).get(TARE.name)
            typed = read_again(in_units(TARE, measures_of(plan)), text, tare_g)
            plan = replace(plan, bobbins=replace(plan.bobbins, tare_g=typed))
        else:
            plan = _with_one(plan, name, text)
    return plan


def field_name(key: PieceKey, field: str) -> str:
    """Return what a field of a piece is called.

    Parameters
    ----------
    key : PieceKey
        Of the piece.
    field : str
        One of `PIECE_FIELDS`.
    """
    return f"{key}.{field}"


def key_of_field(name: str) -> tuple[PieceKey, str] | None:
    """Return the piece and the field that a name says; None where it says none."""
    piece, _, field = name.partition(".")
    key = PieceKey.read(piece)
    return (key, field) if key is not None and field in PIECE_FIELDS else None


def option_of_field(name: str) -> Key | None:
    """Return the key of the plan file of a field at the wheel; None where there is no such one."""
    told = key_of_field(name)
    return PIECE_FIELDS[told[1]] if told else TARE if name == TARE.path else None


def _with_one(plan: Plan, name: str, text: str) -> Plan:
    told = key_of_field(name)
    if told is None:
        return plan
    key, field = told
    pieces = pieces_on(plan, key.ply)
    keys = keys_of_pieces(pieces)
    if key not in keys:
        if not (key.row and text.strip()):
            return plan
        pieces = _put_in(pieces, Spun(key.ply, key.row))
        keys = keys_of_pieces(pieces)
    at = keys.index(key)
    key_of = in_units(PIECE_FIELDS[field], measures_of(plan))
    changed: dict[str, Any] = {field: _value(key_of, text, to_data(pieces[at]).get(field))}
    pieces[at] = replace(pieces[at], **changed)
    return with_pieces(plan, key.ply, pieces)


def _has(laid: Layout, key: PieceKey) -> bool:
    """Return whether the plan has such a row."""
    plies = len(laid.resolved.tex)
    return key.ply <= plies and 0 < key.row <= len(
        laid.planned.lot[laid.planned.of_ply(key.ply - 1)]
    )


def _spun(laid: Layout, ply: int, at: int) -> Spun:
    """Return a piece that is to be spun as one that was, as it was to be."""
    row, portions = int(laid.row[at]), laid.portions
    if row:
        return Spun(ply, row)
    lot = laid.resolved.plan.names[portions.lot[at]]
    return Spun(ply, lot=lot, mass_g=float(portions.mass_g[at]))


def _value(key: Key, text: str, now: Any) -> Any:
    value = read_again(key, text, now)
    if key.kind == TABLE and value is not None:
        return Sample(**value)
    return "" if value is None and key.name == "note" else value


def _put_in(pieces: list[Spun], new: Spun) -> list[Spun]:
    """Return pieces with one more, before the first of a later row."""
    row = new.row or 0
    at = next((at for at, one in enumerate(pieces) if (one.row or 0) > row), len(pieces))
    return [*pieces[:at], new, *pieces[at:]]
