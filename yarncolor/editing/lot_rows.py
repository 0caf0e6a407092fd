"""Lots as rows of typed text, and a plan with rows in the place of its lots."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from yarncolor.colour.dyes import guess_words, is_a_guess
from yarncolor.colour.photo.lots import is_of_photograph
from yarncolor.editing.colour_text import colour_keys, colour_text
from yarncolor.editing.fitted_orders import fitted, orders_renamed
from yarncolor.editing.lot_fields import LOT_FIELDS, is_same, lot_fields
from yarncolor.editing.option_text import format_value, parse_value
from yarncolor.editing.sequence import own_lots, with_new_lots, with_new_parts
from yarncolor.editing.spun_stays import stated
from yarncolor.errors import Fault, PlanError
from yarncolor.measures import measures_of
from yarncolor.phrases import join_words
from yarncolor.plan import WAYS_TO_A_COLOUR, Lot, Plan, to_data
from yarncolor.plan.key import Key
from yarncolor.plan.lots import RECIPES
from yarncolor.plan.reference import ROWS
from yarncolor.planfile.read import plan_from_data

WEIGHING = ("mass_g", "rolags", "rolag_g")
_COUNTED = ("rolags", "rolag_g")
_WEIGHED = ("mass_g", "rolag_g")
_OF_ITS_OWN = ("name", "colour", "reserve_g", *WEIGHING)


@dataclass(frozen=True)
class Row:
    """A lot as it is typed; the key tells a lot that was renamed from another.

    Parameters
    ----------
    key : int or None
        Which lot of the plan it was, from 0; None for a new one.
    name, colour, mass_g, reserve_g, note, rolags, rolag_g, preparation, fibre, regain : str
        What stands in its fields; water in per cent, a colour as `colour_text` has it. Grams
        count only where no rolags are given.
    source, colour_unsure, dye, mordant, bath_number, dyed_on : str
        The same of what is kept for the record.
    """

    key: int | None
    name: str
    colour: str
    mass_g: str
    reserve_g: str = ""
    note: str = ""
    rolags: str = ""
    rolag_g: str = ""
    preparation: str = ""
    fibre: str = ""
    regain: str = ""
    source: str = ""
    colour_unsure: str = ""
    dye: str = ""
    mordant: str = ""
    bath_number: str = ""
    dyed_on: str = ""


def rows_of(plan: Plan) -> list[Row]:
    """Return a plan's own lots as rows; a braid's colours stand in its table."""
    fields = lot_fields(measures_of(plan))
    return [Row(at, **_texts(lot, fields)) for at, lot in enumerate(plan.own_lots)]


def weighing(
    row: Row, own: Mapping[str, Key] = LOT_FIELDS
) -> tuple[tuple[str, int | float | str], ...]:
    """Return what a lot's mass rests on: its rolags where they are given, else its grams.

    Beside grams, what one rolag weighs stands where it is given.

    Parameters
    ----------
    row : Row
        Of a lot.
    own : mapping of str to Key
        Its fields, as the plan has them.
    """
    keys: tuple[str, ...] = _WEIGHED if row.rolag_g.strip() else WEIGHING[:1]
    if row.rolags.strip():
        keys = _COUNTED
    return tuple((key, parse_value(own[key], getattr(row, key))) for key in keys)


def plan_with_rows(plan: Plan, rows: list[Row]) -> Plan:
    """Return a plan whose lots are what rows say; what else a lot has, and the plan, is kept.

    A lot's new name goes wherever its old one stood. A lot that is gone leaves the sequence,
    a new one comes last in it, or before the lot that closes it.

    Parameters
    ----------
    plan : Plan
        As it stands.
    rows : list of Row
        What was typed.

    Raises
    ------
    PlanError
        With every fault; `row_faults` tells which belong to which field.
    """
    if not rows and plan.braid is None:
        raise PlanError([Fault("", "lots", "", "a plan needs a lot; add one")])
    old = to_data(stated(plan))
    named = {
        plan.names[row.key]: _new_name(row, plan.names[row.key])
        for row in rows
        if row.key is not None
    }
    shown = rows_of(plan)
    own = lot_fields(measures_of(plan))
    lots = [_lot(row, old["lots"], shown, named, own) for row in rows]
    new = [row.name.strip() for row in rows if row.key is None]
    wheel, asked = at_the_wheel_renamed(old, named), orders_renamed(old, named)
    data = {**old, "lots": lots, **wheel, **asked}
    if "scheme" in old:
        data["scheme"] = _scheme(old["scheme"], named, new)
    return plan_from_data(fitted(data), "")


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
    kept = {row.key: row for row in rows if row.key is not None}
    held = [plan.own_lots[at] for at, row in kept.items() if not _differ(row, shown[at], "colour")]
    own = [lot.name for lot in plan.own_lots]
    gone = set(own) - {own[at] for at in kept}
    words = [*_on_bobbins(plan, gone)]
    for name in (name for name in plan.names if name in gone):
        users = [lot.name for lot in held if name in lot.made_from]
        if users:
            made, what = ("is", "that") if len(users) == 1 else ("are", "those")
            words.append(
                f"{name} stays: {join_words(users)} {made} made from it; change {what} first."
            )
    return " ".join(words)


def _on_bobbins(plan: Plan, gone: set[str]) -> Iterator[str]:
    """Yield why a lot has to stay that lies on bobbins."""
    spun = stated(plan).spun
    for name in (name for name in plan.names if name in gone):
        plies = sorted({one.ply for one in spun if one.lot == name})
        if plies:
            of = f"{'plies' if len(plies) > 1 else 'ply'} {join_words([*map(str, plies)])}"
            yield f"{name} stays: it is spun on {of} already; take that back at the wheel first."


def _texts(lot: Lot, fields: Mapping[str, Key]) -> dict[str, str]:
    texts = {
        key: format_value(field, getattr(lot, key))
        for key, field in fields.items()
        if key != "colour"
    }
    kept_back = texts["reserve_g"] if lot.reserve_g else ""
    return texts | {"colour": colour_text(lot), "reserve_g": kept_back}


def _lot(
    row: Row,
    old: list[dict[str, Any]],
    shown: list[Row],
    named: dict[str, str],
    own: Mapping[str, Key],
) -> dict[str, Any]:
    """Return a row as a lot of the plan file; what was not touched is kept as it was."""
    before = Row(None, "", "", "") if row.key is None else shown[row.key]
    lot = {} if row.key is None else _renamed(old[row.key], named)
    lot["name"] = row.name
    if row.key is None or _differ(row, before, "colour"):
        lot = _without(lot, *WAYS_TO_A_COLOUR, *_told_by_picture(lot))
        lot |= colour_keys(row.colour, named)
        guess = guess_words(row.colour)
        lot |= {"source": guess} if guess and "source" not in lot else {}
    if row.key is None or weighing(row, own) != weighing(before, own):
        lot = _without(lot, *WEIGHING) | _weighed(row, before, lot, own)
    if row.key is None or _differ(row, before, "reserve_g", own):
        kept_back = row.reserve_g.strip()
        lot["reserve_g"] = parse_value(own["reserve_g"], kept_back) if kept_back else 0.0
    return _recorded(lot, row, before, own)


def _weighed(row: Row, before: Row, lot: dict[str, Any], own: Mapping[str, Key]) -> dict[str, Any]:
    """Return what a lot's mass rests on as typed; what was not touched to its last digit."""
    return {
        key: value if key not in lot or _differ(row, before, key, own) else lot[key]
        for key, value in weighing(row, own)
    }


def _recorded(lot: dict[str, Any], row: Row, before: Row, own: Mapping[str, Key]) -> dict[str, Any]:
    """Return a lot with what was typed into its other fields; one that was cleared goes."""
    for key, field in own.items():
        if key not in _OF_ITS_OWN and _differ(row, before, key, own):
            text = getattr(row, key)
            lot = _without(lot, key)
            lot |= {key: parse_value(field, text)} if text.strip() else {}
    return lot


def _told_by_picture(lot: dict[str, Any]) -> tuple[str, ...]:
    """Return the keys that say where a colour comes from, and not where the lot does."""
    source = lot.get("source", "")
    is_source = is_of_photograph(source) or is_a_guess(source)
    return ("colour_unsure", "source") if is_source else ("colour_unsure",)


def _differ(row: Row, before: Row, key: str, own: Mapping[str, Key] = LOT_FIELDS) -> bool:
    return not is_same(own[key], getattr(row, key), getattr(before, key))


def _without(lot: dict[str, Any], *keys: str) -> dict[str, Any]:
    return {key: value for key, value in lot.items() if key not in keys}


def _new_name(row: Row, old: str) -> str:
    """Return a lot's new name; its old one where no lot can be called that, told once, there."""
    from yarncolor.planfile.fields import clean_name

    try:
        return clean_name(row.name)
    except ValueError:
        return old


def _renamed(lot: dict[str, Any], named: dict[str, str]) -> dict[str, Any]:
    lot = dict(lot)
    for way in (way for way in RECIPES if way in lot):
        lot[way] = {named.get(name, name): part for name, part in lot[way].items()}
    if "bath" in lot:
        own = lot["bath"]
        lot["bath"] = {**own, **{key: named.get(own[key], own[key]) for key in ("of", "undyed")}}
    return lot


def at_the_wheel_renamed(data: dict[str, Any], named: dict[str, str]) -> dict[str, Any]:
    """Return what was spun, lost and decided at the wheel, its lots by their new names.

    Parameters
    ----------
    data : dict
        Of a plan.
    named : dict of str to str
        New names by old ones.
    """
    return {
        table: [
            {**one, "lot": named.get(one["lot"], one["lot"])} if "lot" in one else one
            for one in data[table]
        ]
        for table in ROWS
        if table in data
    }


def _scheme(scheme: dict[str, Any], named: dict[str, str], new: list[str]) -> dict[str, Any]:
    """Return the scheme with lots renamed, those that are gone left out, new ones last."""
    scheme = dict(scheme)
    if "sequence" in scheme:
        places = [at for at, name in enumerate(scheme["sequence"]) if name in named]
        kept = [named[scheme["sequence"][at]] for at in places]
        if "parts" in scheme:
            scheme["parts"] = with_new_parts(kept, [scheme["parts"][at] for at in places], new)
        scheme["sequence"] = with_new_lots(kept, new)
        if not scheme["sequence"]:
            del scheme["sequence"]
            scheme.pop("parts", None)
    if "solid_lot" in scheme:
        lot = named.get(scheme.pop("solid_lot"))
        scheme |= {"solid_lot": lot} if lot else {}
    scheme |= own_lots(scheme, named)
    if "to" in scheme:
        scheme["to"] = [*scheme["to"], *new]
    if "portions" in scheme:
        scheme["portions"] = [
            {**portion, "lot": named[portion["lot"]]}
            for portion in scheme["portions"]
            if portion["lot"] in named
        ]
    if "stripes" in scheme:
        scheme["stripes"] = [
            with_lots(stripe, named)
            for stripe in scheme["stripes"]
            if {stripe.get("lot"), *stripe.get("lots", ())} <= {None, *named}
        ]
    return scheme


def with_lots(stripe: dict[str, Any], named: dict[str, str]) -> dict[str, Any]:
    """Return a stripe's data, its lots by their new names.

    Parameters
    ----------
    stripe : dict
        Rows, and a lot or one for each ply.
    named : dict of str to str
        New names by old ones; others stay.
    """
    if "lots" in stripe:
        return {**stripe, "lots": [named.get(name, name) for name in stripe["lots"]]}
    return {**stripe, "lot": named.get(stripe["lot"], stripe["lot"])}
