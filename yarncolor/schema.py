"""The shape of a plan file: keys, ranges, and what would be right in each (pydantic models).

Every field's description is the remedy that its fault tells. Loaded only to read a file.
"""

import re
import unicodedata
from datetime import date
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field

from yarncolor.schemes import SCHEMES

MOST_PLIES, MOST_REPEATS, MOST_LOTS, MOST_PLACES, MOST_PORTIONS = 12, 64, 500, 500, 20_000
LONGEST_NAME, LONGEST_TITLE, LONGEST_NOTE = 60, 120, 2000
_HEX = re.compile(r"#([0-9a-fA-F]{3}|[0-9a-fA-F]{6})")
_SIGNED_64 = 2**63 - 1


def _number(remedy: str, **bounds: float) -> Any:
    return Annotated[float, Field(allow_inf_nan=False, description=f"give {remedy}", **bounds)]


def _whole(remedy: str, **bounds: int) -> Any:
    return Annotated[int, Field(description=f"give {remedy}", **bounds)]


def _holds(character: str, allowed: str) -> bool:
    """Return whether text may hold a character: no controls, nothing that XML 1.0 refuses."""
    if character in allowed:
        return True
    return unicodedata.category(character) not in ("Cc", "Cs") and character not in "\ufffe\uffff"


def _clean(text: str, longest: int, allowed: str = "") -> str:
    text = text.strip()
    if len(text) > longest or not all(_holds(character, allowed) for character in text):
        raise ValueError
    return text


def _name(text: str) -> str:
    if not text.strip():
        raise ValueError
    return _clean(text, LONGEST_NAME)


def _written(value: object) -> object:
    """Return a date or a whole number as text: a bath number need not stand in quotes."""
    is_plain = isinstance(value, date | int) and not isinstance(value, bool)
    return str(value) if is_plain else value


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


def _each_or_one(low: float, high: float, kinds: tuple[type, ...]) -> Any:
    """Return a check for one number or a list of one for each ply."""

    def check(value: object) -> object:
        for item in value if isinstance(value, list) else [value]:
            if isinstance(item, bool) or not isinstance(item, kinds) or not low <= item <= high:
                raise ValueError
        kind = float if float in kinds else int
        return tuple(map(kind, value)) if isinstance(value, list) else kind(value)

    return check


def _division(value: object) -> object:
    if isinstance(value, list):
        sizes = [item for item in value if type(item) in (int, float) and 0 < item <= 1e6]
        if not 1 <= len(value) <= MOST_REPEATS or len(sizes) < len(value):
            raise ValueError
        return tuple(map(float, value))
    if type(value) is not int or not 1 <= value <= MOST_REPEATS:
        raise ValueError
    return value


Name = Annotated[
    str,
    AfterValidator(_name),
    Field(description=f"give a name of 1 to {LONGEST_NAME} characters, without control characters"),
]
Text = Annotated[
    str,
    BeforeValidator(_written),
    AfterValidator(lambda text: _clean(text, LONGEST_NOTE, "\n\r\t")),
    Field(description=f"give text of at most {LONGEST_NOTE:,} characters, no control characters"),
]
Ply = _whole(f"the number of a ply, 1 to {MOST_PLIES}", ge=1, le=MOST_PLIES)
Loss = _number("a share from 0 to 0.9", ge=0, le=0.9)
Grams = _number("grams, above 0 and at most 100,000", gt=0, le=1e5)


class _Table(BaseModel):
    """A table of the file. Keys that were not given are None, whatever their type says."""

    model_config = ConfigDict(strict=True, extra="forbid")


class LotTable(_Table):
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
    mass_g: Grams = None
    rolags: _number("how many rolags, above 0 and at most 10,000", gt=0, le=1e4) = None
    rolag_g: _number("grams of one rolag, above 0 and at most 1,000", gt=0, le=1e3) = None
    reserve_g: _number("grams kept back, 0 up to the lot's mass", ge=0, le=1e5) = 0.0
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


class FreePortionTable(_Table):
    ply: Ply = None
    lot: Name = None
    mass_g: Grams = None


class SchemeTable(_Table):
    name: Annotated[
        Literal[tuple(SCHEMES)], Field(description="give one of " + ", ".join(SCHEMES))
    ] = None
    plies: _whole(f"a whole number of plies from 1 to {MOST_PLIES}", ge=1, le=MOST_PLIES) = None
    divisions: Annotated[
        list[Annotated[Any, AfterValidator(_division)]],
        Field(
            description="give for each ply a whole number of repeats from 1 to "
            f"{MOST_REPEATS}, or a list of the repeats' sizes, each above 0",
            min_length=1,
            max_length=MOST_PLIES,
        ),
    ] = None
    reversed_plies: Annotated[
        list[Ply], Field(description="give a list of the numbers of plies", max_length=MOST_PLIES)
    ] = []
    sequence: Annotated[
        list[Name],
        Field(
            description=f"give a list of 1 to {MOST_PLACES} names of lots",
            min_length=1,
            max_length=MOST_PLACES,
        ),
    ] = None
    parts: Annotated[
        list[_number("a number of parts, 0 to 1,000,000", ge=0, le=1e6)],
        Field(description="give a list of numbers, one for each place of the sequence"),
    ] = None
    closing: Annotated[
        Literal["keep", "tail", "share", "halve", "drop"],
        Field(description="give one of keep, tail, share, halve, drop"),
    ] = None
    stagger_places: _number(
        "places as a multiple of 0.5, from 0 to 500", ge=0, le=500, multiple_of=0.5
    ) = None
    blend_steps: _whole("0: carded blends are not built yet", ge=0, le=0) = None
    solid_plies: Annotated[
        list[Ply],
        Field(description="give a list of the numbers of plies", min_length=1, max_length=12),
    ] = None
    solid_lot: Name = None
    random_seed: _whole(f"a whole number from 0 to {_SIGNED_64}", ge=0, le=_SIGNED_64) = None
    pieces: _whole("a whole number of pieces from 1 to 64", ge=1, le=64) = None
    loop_m: _number("metres, 0.01 to 100", ge=0.01, le=100) = None
    portions: Annotated[
        list[FreePortionTable],
        Field(description=f"give 1 to {MOST_PORTIONS:,} tables", max_length=MOST_PORTIONS),
    ] = []


class SpinningTable(_Table):
    single_tex: Annotated[
        Any,
        AfterValidator(_each_or_one(1, 50_000, (int, float))),
        Field(description="give tex (grams in 1,000 m) from 1 to 50,000: one number, or one a ply"),
    ] = None
    card_loss: Loss = None
    spin_loss: Loss = None


class PlyingTable(_Table):
    wound_off: Annotated[
        Any,
        AfterValidator(_each_or_one(0, 9, (int,))),
        Field(description="give how often, a whole number from 0 to 9: one number, or one a ply"),
    ] = None
    contraction: _number("a share from -0.2 to 0.6", ge=-0.2, le=0.6) = None


class ScaleTable(_Table):
    step_g: _number("grams, 0.001 to 100", ge=0.001, le=100) = None


class TargetTable(_Table):
    yarn_m: _number("metres, above 0 and at most 1,000,000", gt=0, le=1e6) = None
    yarn_g: Grams = None


class HeadTable(_Table):
    title: Annotated[
        str,
        AfterValidator(lambda text: _clean(text, LONGEST_TITLE)),
        Field(description=f"give one line of at most {LONGEST_TITLE} characters"),
    ] = ""
    purpose: Text = ""


TABLES: dict[str, type[_Table]] = {
    "scheme": SchemeTable,
    "spinning": SpinningTable,
    "plying": PlyingTable,
    "scale": ScaleTable,
    "target": TargetTable,
}
