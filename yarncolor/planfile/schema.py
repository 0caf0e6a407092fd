"""The shape of a plan file: keys, ranges, and what would be right in each (pydantic models).

Every field's description is the remedy that its fault tells. Loaded only to read a file.
"""

import re
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, Field

from yarncolor.defaults import MOST_PLIES, MOST_REPEATS
from yarncolor.plan import SCHEME_NAMES
from yarncolor.planfile.fields import (
    MOST_GRAMS,
    Grams,
    Name,
    Ply,
    Regain,
    Table,
    Text,
    a_number,
    a_whole,
    clean,
    clean_name,
    remedied,
)
from yarncolor.planfile.schema_yarn import (
    BobbinsTable,
    FabricTable,
    PlyingTable,
    ScaleTable,
    SpinningTable,
)
from yarncolor.said import LIST_OF_PLIES, PORTIONS, said

MOST_LOTS, MOST_PLACES, MOST_PORTIONS = 500, 500, 20_000
MOST_LOTS_AND_STEPS = 1000
_LEAST_PORTION_G = 1e-6
_LEAST_PART, _MOST_PARTS = 0.001, 1e6
LONGEST_TITLE = 120
_HEX = re.compile(r"#([0-9a-fA-F]{3}|[0-9a-fA-F]{6})")
_SIGNED_64 = 2**63 - 1


def _colour(text: str) -> str:
    if not _HEX.fullmatch(text):
        raise ValueError
    return text.lower()


def _lab(lab: list) -> tuple[float, ...]:
    if len(lab) != 3 or any(type(item) not in (int, float) for item in lab):
        raise ValueError
    if not (0 <= lab[0] <= 100 and all(-128 <= item <= 128 for item in lab[1:])):
        raise ValueError
    return tuple(map(float, lab))


def _blend(parts: object) -> tuple[tuple[str, float], ...]:
    if not isinstance(parts, dict) or not 1 <= len(parts) <= MOST_LOTS:
        raise ValueError
    numbers = [part for part in parts.values() if type(part) in (int, float) and 0 < part <= 1e6]
    if len(numbers) < len(parts):
        raise ValueError
    return tuple((clean_name(lot), float(part)) for lot, part in parts.items())


def _is_part(number: float) -> bool:
    return _LEAST_PART <= number <= _MOST_PARTS


def _parts(number: float) -> float:
    if number and not _is_part(number):
        raise ValueError
    return number


def _division(value: object) -> object:
    if isinstance(value, list):
        sizes = [item for item in value if type(item) in (int, float) and _is_part(item)]
        if not 1 <= len(value) <= MOST_REPEATS or len(sizes) < len(value):
            raise ValueError
        return tuple(map(float, value))
    if type(value) is not int or not 1 <= value <= MOST_REPEATS:
        raise ValueError
    return value


class BathTable(Table):
    of: Name = None
    number: a_whole("which bath, a whole number from 2 to 20", ge=2, le=20) = None
    exhaustion: a_number("a share above 0 and below 1", gt=0, lt=1) = None
    undyed: Name = None


class LotTable(Table):
    name: Name = None
    colour: Annotated[
        str,
        AfterValidator(_colour),
        Field(description='give sRGB as "#rrggbb" or "#rgb", or a lab colour in its place'),
    ] = None
    lab: Annotated[
        list[Any],
        AfterValidator(_lab),
        Field(description="give [L, a, b] of CIELAB D65: L 0 to 100, a and b -128 to 128"),
    ] = None
    blend: Annotated[
        Any,
        AfterValidator(_blend),
        Field(
            description="give parts by mass, each above 0 and at most 1,000,000, "
            "as { Kelp = 2, Foam = 1 }"
        ),
    ] = None
    bath: Annotated[
        BathTable,
        Field(description="give a table with of, number, exhaustion and undyed"),
    ] = None
    mass_g: Grams = None
    rolags: a_number("how many rolags, 0.01 to 10,000", ge=0.01, le=1e4) = None
    rolag_g: a_number("grams of one rolag, 0.001 to 1,000", ge=0.001, le=1e3) = None
    reserve_g: a_number("grams kept back, 0 up to the lot's mass", ge=0, le=MOST_GRAMS) = 0.0
    preparation: Annotated[
        Literal["rolag", "batt", "top", "roving", "locks"],
        Field(description='give "rolag", "batt", "top", "roving" or "locks"'),
    ] = None
    fibre: Text = ""
    note: Text = ""
    dye: Text = ""
    mordant: Text = ""
    bath_number: Text = ""
    dyed_on: Text = ""
    source: Text = ""
    regain: Regain = None
    colour_unsure: a_number(
        "by how much its colour may be out, CIEDE2000, 0 to 50", ge=0, le=50
    ) = None


_PLIES = said(f"give {{plies}}, each a whole number from 1 to {MOST_PLIES}", plies=LIST_OF_PLIES)
_DIVISION = (
    f"give for each ply a whole number of repeats from 1 to {MOST_REPEATS}, or a list of at most "
    f"as many sizes, each from {_LEAST_PART} to {_MOST_PARTS:,.0f}"
)
_PARTS = f"a number of parts, 0 or from {_LEAST_PART} to {_MOST_PARTS:,.0f}"


class FreePortionTable(Table):
    ply: Ply = None
    lot: Name = None
    mass_g: a_number(
        f"grams, {_LEAST_PORTION_G:f} to {MOST_GRAMS:,.0f}", ge=_LEAST_PORTION_G, le=MOST_GRAMS
    ) = None


class SchemeTable(Table):
    name: Annotated[
        Literal[SCHEME_NAMES], Field(description="give one of " + ", ".join(SCHEME_NAMES))
    ] = None
    plies: a_whole(f"a whole number of plies from 1 to {MOST_PLIES}", ge=1, le=MOST_PLIES) = None
    divisions: Annotated[
        list[Annotated[Any, AfterValidator(_division), Field(description=_DIVISION)]],
        Field(
            description=f"give 1 to {MOST_PLIES} entries, one for each ply: a whole number of "
            f"repeats from 1 to {MOST_REPEATS}, or a list of the repeats' sizes",
            min_length=1,
            max_length=MOST_PLIES,
        ),
    ] = None
    reversed_plies: Annotated[list[Ply], Field(max_length=MOST_PLIES), *remedied(_PLIES)] = []
    sequence: Annotated[
        list[Name],
        Field(
            description=f"give a list of 1 to {MOST_PLACES} names of lots",
            min_length=1,
            max_length=MOST_PLACES,
        ),
    ] = None
    parts: Annotated[
        list[Annotated[a_number(_PARTS), AfterValidator(_parts)]],
        Field(
            description="give a list of numbers, one for each place of the sequence",
            min_length=1,
            max_length=MOST_PLACES,
        ),
    ] = None
    closing: Annotated[
        Literal["keep", "tail", "share", "halve", "drop"],
        Field(description="give one of keep, tail, share, halve, drop"),
    ] = None
    stagger_places: a_number(
        "places as a multiple of 0.5, from 0 to 500", ge=0, le=500, multiple_of=0.5
    ) = None
    blend_steps: a_whole("a whole number of blends from 0 to 20", ge=0, le=20) = None
    solid_plies: Annotated[
        list[Ply],
        Field(min_length=1, max_length=MOST_PLIES),
        *remedied(_PLIES),
    ] = None
    solid_lot: Name = None
    random_seed: a_whole(f"a whole number from 0 to {_SIGNED_64}", ge=0, le=_SIGNED_64) = None
    pieces: a_whole("a whole number of pieces from 1 to 64", ge=1, le=64) = None
    loop_m: a_number("metres, 0.01 to 100", ge=0.01, le=100) = None
    portions: Annotated[
        list[FreePortionTable],
        Field(max_length=MOST_PORTIONS),
        *remedied(
            said(
                f"give at most {MOST_PORTIONS:,} portions, each as a {{them}} table", them=PORTIONS
            )
        ),
    ] = []


class TargetTable(Table):
    yarn_m: a_number("metres, 0.001 to 1,000,000", ge=0.001, le=1e6) = None
    yarn_g: Grams = None


class HeadTable(Table):
    title: Annotated[
        str,
        AfterValidator(lambda text: clean(text, LONGEST_TITLE)),
        Field(description=f"give one line of at most {LONGEST_TITLE} characters"),
    ] = ""
    purpose: Text = ""


TABLES: dict[str, type[Table]] = {
    "scheme": SchemeTable,
    "spinning": SpinningTable,
    "plying": PlyingTable,
    "scale": ScaleTable,
    "bobbins": BobbinsTable,
    "fabric": FabricTable,
    "target": TargetTable,
}
