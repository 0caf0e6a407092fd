"""Lots as rows of typed text, and a plan with rows in the place of its lots."""

import re
from dataclasses import dataclass
from typing import Any

from yarncolor.errors import Fault, PlanError
from yarncolor.numbers_said import listed
from yarncolor.plan import Lot, Plan, to_data
from yarncolor.planfile import plan_from_data
from yarncolor.typed import number_of, number_text

FIELDS = ("name", "colour", "mass_g", "reserve_g", "note")
_COLOURS = ("colour", "lab", "blend", "bath")
_PLACE = re.compile(r"lots (\d+)(?: \(.*\))?: (\w+)", re.DOTALL)
_BATH = re.compile(r"bath (\S+) of (.+) on (.+), (\S+) taken", re.DOTALL)
_PART = re.compile(r"([\d.,]+)\s+(.+)", re.DOTALL)
_FROM_PICTURE = ("source", "colour_unsure")
_COUNTED = ("rolags", "rolag_g")


@dataclass(frozen=True)
class Row:
    """A lot as it is typed; the key tells a lot that was renamed from another.

    Parameters
    ----------
    key : int or None
        Which lot of the plan it was, from 0; None for a new one.
    name, colour, mass_g, reserve_g, note : str
        What stands in its fields. The colour is ``#rrggbb``, ``L a b`` of CIELAB, a blend as
        ``2 Kelp + 1 Foam`` or a later bath as ``bath 2 of Kelp on Foam, 0.7 taken``.
    """

    key: int | None
    name: str
    colour: str
    mass_g: str
    reserve_g: str = ""
    note: str = ""


def rows_of(plan: Plan) -> list[Row]:
    """Return a plan's lots as rows."""
    return [
        Row(
            at,
            lot.name,
            _colour_text(lot),
            number_text(lot.mass_g),
            number_text(lot.reserve_g) if lot.reserve_g else "",
            lot.note,
        )
        for at, lot in enumerate(plan.lots)
    ]


def plan_with_rows(plan: Plan, rows: list[Row]) -> Plan:
    """Return a plan whose lots are what rows say; what else a lot has, and the plan, is kept.

    A lot's new name goes wherever its old one stood. A lot that is gone leaves the sequence,
    a new one comes last in it.

    Parameters
    ----------
    plan : Plan
        As it stands.
    rows : list of Row
        What was typed.

    Raises
    ------
    PlanError
        With every fault; `faults_by_field` tells which belong to which field.
    """
    if not rows:
        raise PlanError([Fault("", "lots", "", "a plan needs a lot; add one")])
    old = to_data(plan)
    named = {plan.names[row.key]: _new_name(plan, row) for row in rows if row.key is not None}
    shown = rows_of(plan)
    lots = [_lot(row, old["lots"], shown, named) for row in rows]
    new = [row.name.strip() for row in rows if row.key is None]
    data = {**old, "lots": lots}
    if "scheme" in old:
        data["scheme"] = _scheme(old["scheme"], named, new)
    return plan_from_data(data, "")


def needed_words(plan: Plan, rows: list[Row]) -> str:
    """Return why lots that are gone from the rows have to stay; nothing where they may go.

    Parameters
    ----------
    plan : Plan
        As it stands.
    rows : list of Row
        What was typed; a recipe that was typed anew is left to the plan to judge.
    """
    shown = rows_of(plan)
    kept = [row for row in rows if row.key is not None]
    held = [plan.lots[row.key] for row in kept if _is_same(row.colour, shown[row.key].colour)]
    gone = set(plan.names) - {plan.names[row.key] for row in kept}
    words = []
    for name in (name for name in plan.names if name in gone):
        users = [lot.name for lot in held if name in lot.made_from]
        if users:
            made, what = ("is", "that") if len(users) == 1 else ("are", "those")
            words.append(f"{name} stays: {listed(users)} {made} made from it; change {what} first.")
    return " ".join(words)


def faults_by_field(error: PlanError) -> tuple[dict[tuple[int, str], str], list[str]]:
    """Return what is wrong by row and field, and what belongs to none, in words."""
    fields: dict[tuple[int, str], str] = {}
    rest = []
    for fault in error.faults:
        found = _PLACE.match(fault.place)
        if found is None:
            rest.append(str(fault))
            continue
        field = "colour" if found[2] in _COLOURS else found[2]
        place = (int(found[1]) - 1, field if field in FIELDS else "name")
        fields[place] = "; ".join(filter(None, (fields.get(place), fault.remedy)))
    return fields, rest


def _lot(row: Row, old: list[dict], shown: list[Row], named: dict[str, str]) -> dict[str, Any]:
    """Return a row as a lot of the plan file; what was not touched is kept as it was."""
    before = Row(None, "", "", "") if row.key is None else shown[row.key]
    lot = {} if row.key is None else _renamed(old[row.key], named)
    lot["name"] = row.name
    if not _is_same(row.note, before.note):
        lot["note"] = row.note
    lot = _weighed(lot, row, before)
    if row.key is None or not _is_same(row.colour, before.colour):
        lot = {key: value for key, value in lot.items() if key not in _COLOURS}
        lot = {key: value for key, value in lot.items() if key not in _FROM_PICTURE}
        lot |= _colour(row.colour.strip(), named)
    return lot


def _weighed(lot: dict[str, Any], row: Row, before: Row) -> dict[str, Any]:
    """Return a lot with its grams as typed; they take the place of rolags that were counted."""
    if row.key is None or not _is_same(row.mass_g, before.mass_g):
        lot = {key: value for key, value in lot.items() if key not in _COUNTED}
        lot["mass_g"] = number_of(row.mass_g)
    if row.key is None or not _is_same(row.reserve_g, before.reserve_g):
        lot["reserve_g"] = number_of(row.reserve_g) if row.reserve_g.strip() else 0.0
    return lot


def _is_same(typed: str, shown: str) -> bool:
    """Return whether a field was left alone; a browser trims, and has line ends of its own."""
    return _lines(typed) == _lines(shown)


def _lines(text: str) -> list[str]:
    return text.replace("\r\n", "\n").replace("\r", "\n").strip().split("\n")


def _new_name(plan: Plan, row: Row) -> str:
    """Return a lot's new name; its old one where no lot can be called that, told once, there."""
    from yarncolor.schema_fields import clean_name

    try:
        return clean_name(row.name)
    except ValueError:
        return plan.names[row.key]


def _renamed(lot: dict[str, Any], named: dict[str, str]) -> dict[str, Any]:
    lot = dict(lot)
    if "blend" in lot:
        lot["blend"] = {named.get(name, name): part for name, part in lot["blend"].items()}
    if "bath" in lot:
        own = lot["bath"]
        lot["bath"] = {**own, **{key: named.get(own[key], own[key]) for key in ("of", "undyed")}}
    return lot


def _scheme(scheme: dict[str, Any], named: dict[str, str], new: list[str]) -> dict[str, Any]:
    """Return the scheme with lots renamed, those that are gone left out, new ones last."""
    scheme = dict(scheme)
    if "sequence" in scheme:
        places = [at for at, name in enumerate(scheme["sequence"]) if name in named]
        sequence = [named[scheme["sequence"][at]] for at in places] + new
        if "parts" in scheme:
            scheme["parts"] = [scheme["parts"][at] for at in places] + [1.0] * len(new)
        scheme["sequence"] = sequence
        if not sequence:
            del scheme["sequence"]
            scheme.pop("parts", None)
    if "solid_lot" in scheme:
        lot = named.get(scheme.pop("solid_lot"))
        scheme |= {"solid_lot": lot} if lot else {}
    if "portions" in scheme:
        scheme["portions"] = [
            {**portion, "lot": named[portion["lot"]]}
            for portion in scheme["portions"]
            if portion["lot"] in named
        ]
    return scheme


def _colour_text(lot: Lot) -> str:
    if lot.colour is not None:
        return lot.colour
    if lot.lab is not None:
        return " ".join(map(number_text, lot.lab))
    if lot.blend is not None:
        return " + ".join(f"{number_text(part)} {name}" for name, part in lot.blend)
    bath = lot.bath
    taken = number_text(bath.exhaustion)
    return f"bath {bath.number} of {bath.of} on {bath.undyed}, {taken} taken"


def _colour(text: str, named: dict[str, str]) -> dict[str, Any]:
    """Return the keys of a colour as typed; what cannot be read is left to the plan to judge."""
    numbers = [number_of(part) for part in re.split(r"[;\s]+", text.strip("[] ")) if part]
    if len(numbers) == 3 and not any(isinstance(number, str) for number in numbers):
        return {"lab": numbers}
    bath = _BATH.fullmatch(text)
    if bath is not None:
        return {
            "bath": {
                "number": number_of(bath[1]),
                "of": named.get(bath[2], bath[2]),
                "undyed": named.get(bath[3], bath[3]),
                "exhaustion": number_of(bath[4]),
            }
        }
    parts = [_PART.fullmatch(part.strip()) for part in text.split(" + ")]
    if all(parts):
        return {"blend": {named.get(part[2], part[2]): number_of(part[1]) for part in parts}}
    return {"colour": text}
