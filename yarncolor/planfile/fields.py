"""A key of a plan file as pydantic reads it: its type, the checks of its kind, its remedy."""

import re
import unicodedata
from collections.abc import Callable
from dataclasses import MISSING, fields
from datetime import date, datetime
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field, create_model
from pydantic_core import PydanticCustomError

from yarncolor.plan import Bath, FreePortion, Stripe
from yarncolor.plan.key import (
    BLEND,
    COLOUR,
    DATE,
    DIVISION,
    DIVISIONS,
    FLAG,
    LAB,
    LINE,
    LOT,
    LOTS,
    NUMBER,
    PAIRS,
    PART,
    PARTS,
    PLACES_OF_LOTS,
    PLIES,
    PLY,
    SHARE,
    TABLE,
    TABLES,
    TEXT,
    WHOLE,
    WORD,
    YES_NO,
    Key,
    keys_of,
)
from yarncolor.plan.limits import LEAST_PART, LONGEST_NAME, MOST_LOTS, MOST_PARTS, MOST_REPEATS
from yarncolor.planfile.unseen import shows, without_unseen

_HEX = re.compile(r"#([0-9a-fA-F]{3}|[0-9a-fA-F]{6})")
NO_COLOUR = "no_colour"
"""What is wrong with words that mean no colour."""

_CHECKED_TOGETHER = (Bath, FreePortion, Stripe)
"""What these lack is told when all of the file is read, in words of their own."""


class Table(BaseModel):
    """A table of the file. Keys that were not given are None, whatever their type says."""

    model_config = ConfigDict(strict=True, extra="forbid")


def table_of(holder: type, keys: dict[str, Key] | None = None) -> type[Table]:
    """Return the model of a table.

    Parameters
    ----------
    holder : type
        The dataclass that declares its keys.
    keys : dict, optional
        Those keys in the order in which they are told, where it is not the class's own.
    """
    needed = {one.name for one in fields(holder) if one.default is MISSING}
    if holder in _CHECKED_TOGETHER or keys is not None:
        needed = set()
    declared = keys_of(holder) if keys is None else keys
    typed_keys: dict[str, Any] = {
        name: (typed(key), ... if name in needed else None) for name, key in declared.items()
    }
    return create_model(f"{holder.__name__}Table", __base__=Table, **typed_keys)


def typed(key: Key) -> Any:
    """Return the type that a key's value is read as, with its checks and its remedy."""
    kind, *checks = _one_or_each(key) if key.each else _OF_KIND[key.kind](key)
    return Annotated[(kind, *checks, key.remedy)]


def clean(text: str, longest: int, allowed: str = "") -> str:
    """Return text, trimmed, that is short enough and holds no control characters.

    What nobody can see is left out of it.

    Parameters
    ----------
    text : str
        As given.
    longest : int
        How many characters it may have.
    allowed : str
        Control characters that may be in it.
    """
    text = without_unseen(text).strip()
    if len(text) > longest or not all(_holds(character, allowed) for character in text):
        raise ValueError
    return text


def clean_name(text: str) -> str:
    """Return a name, trimmed, of which something can be seen."""
    name = clean(text, LONGEST_NAME)
    if not shows(name):
        raise ValueError
    return name


def _holds(character: str, allowed: str) -> bool:
    """Return whether text may hold a character: no controls, nothing that XML 1.0 refuses."""
    if character in allowed:
        return True
    return unicodedata.category(character) not in ("Cc", "Cs") and character not in "\ufffe\uffff"


def _written(value: object) -> object:
    """Return a date or a whole number as text: a bath number need not stand in quotes."""
    is_plain = isinstance(value, date | int) and not isinstance(value, bool)
    return str(value) if is_plain else value


def _bounds(key: Key) -> dict[str, Any]:
    low, high = ("gt", "lt") if key.is_open else ("ge", "le")
    return {low: key.low, high: key.high, "multiple_of": key.step}


def _one_or_each(key: Key) -> tuple[Any, ...]:
    """Return the check of one value, or of a list of one for each ply."""
    kind = {NUMBER: float, WHOLE: int, WORD: str}[key.kind]

    def check(value: object) -> object:
        if value == [] or not all(_is_one(key, item) for item in _as_list(value)):
            raise ValueError
        return tuple(map(kind, value)) if isinstance(value, list) else kind(value)

    return Any, AfterValidator(check)


def _as_list(value: object) -> list[Any]:
    return value if isinstance(value, list) else [value]


def _is_one(key: Key, value: Any) -> bool:
    """Return whether a value is right for one ply."""
    if key.kind == WORD:
        return value in [word for word, _ in key.choices]
    kinds = (int,) if key.kind == WHOLE else (int, float)
    return type(value) in kinds and key.low <= value <= key.high


def _colour(text: str) -> str:
    """Return a colour as it is kept: hex in small letters, or words as they were given."""
    from yarncolor.colour.words import colour_of_words

    if _HEX.fullmatch(text):
        return text.lower()
    if colour_of_words(text) is None:
        raise PydanticCustomError(NO_COLOUR, "no colour")
    return " ".join(text.split())


def _lab(lab: list[Any]) -> tuple[float, ...]:
    if len(lab) != 3 or any(type(item) not in (int, float) for item in lab):
        raise ValueError
    if not (0 <= lab[0] <= 100 and all(-128 <= item <= 128 for item in lab[1:])):
        raise ValueError
    return tuple(map(float, lab))


def _blend(parts: object) -> tuple[tuple[str, float], ...]:
    if not isinstance(parts, dict) or not 1 <= len(parts) <= MOST_LOTS:
        raise ValueError
    numbers = [
        part for part in parts.values() if type(part) in (int, float) and 0 < part <= MOST_PARTS
    ]
    if len(numbers) < len(parts):
        raise ValueError
    return tuple((clean_name(lot), float(part)) for lot, part in parts.items())


def _places_of_lots(key: Key) -> tuple[Any, ...]:
    low, high = key.low or 0, key.high or 0

    def check(places: object) -> tuple[tuple[str, int], ...]:
        if not isinstance(places, dict) or len(places) > MOST_LOTS:
            raise ValueError
        if any(type(place) is not int or not low <= place <= high for place in places.values()):
            raise ValueError
        return tuple((clean_name(lot), place) for lot, place in places.items())

    return Any, AfterValidator(check)


def _pair(lots: object) -> tuple[str, str]:
    if not isinstance(lots, list) or len(lots) != 2:
        raise ValueError
    if not all(isinstance(lot, str) for lot in lots):
        raise ValueError
    one, other = lots
    return clean_name(one), clean_name(other)


def _pairs(key: Key) -> tuple[Any, ...]:
    def check(pairs: object) -> tuple[tuple[str, str], ...]:
        if not isinstance(pairs, list) or len(pairs) > key.most:
            raise ValueError
        return tuple(map(_pair, pairs))

    return Any, AfterValidator(check)


def _yes_no(key: Key) -> tuple[Any, ...]:
    def check(value: object) -> object:
        if not isinstance(value, str | bool) or value not in dict(key.choices):
            raise ValueError
        return value

    return Any, AfterValidator(check)


def _is_part(number: float) -> bool:
    return LEAST_PART <= number <= MOST_PARTS


def _part(number: float) -> float:
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


def _line(key: Key) -> tuple[Any, ...]:
    return str, AfterValidator(clean_name if key.least else lambda text: clean(text, key.most))


def _text(key: Key) -> tuple[Any, ...]:
    check = AfterValidator(lambda text: clean(text, key.most, "\n\r\t"))
    return str, BeforeValidator(_written), check


def _date(value: object) -> object:
    if not isinstance(value, date) or isinstance(value, datetime):
        raise ValueError
    return value


def _number(key: Key) -> tuple[Any, ...]:
    return float, Field(allow_inf_nan=False, **_bounds(key))


def _whole(key: Key) -> tuple[Any, ...]:
    return int, Field(**_bounds(key))


def _list(key: Key) -> tuple[Any, ...]:
    item: Any = typed(key.items) if key.items else table_of(_held(key))
    return list.__class_getitem__(item), Field(min_length=key.least, max_length=key.most)


def _held(key: Key) -> type:
    if key.holds is None:
        raise TypeError(f"{key.path} says of no table what it holds")
    return key.holds


_OF_KIND: dict[str, Callable[[Key], tuple[Any, ...]]] = {
    NUMBER: _number,
    SHARE: _number,
    WHOLE: _whole,
    PLY: _whole,
    WORD: lambda key: (Literal[tuple(value for value, _ in key.choices)],),
    LINE: _line,
    TEXT: _text,
    LOT: lambda _: (str, AfterValidator(clean_name)),
    COLOUR: lambda _: (str, AfterValidator(_colour)),
    LAB: lambda _: (list[Any], AfterValidator(_lab)),
    BLEND: lambda _: (Any, AfterValidator(_blend)),
    DATE: lambda _: (Any, AfterValidator(_date)),
    FLAG: lambda _: (bool,),
    PART: lambda _: (float, Field(allow_inf_nan=False), AfterValidator(_part)),
    DIVISION: lambda _: (Any, AfterValidator(_division)),
    **dict.fromkeys((PLIES, LOTS, PARTS, DIVISIONS, TABLES), _list),
    TABLE: lambda key: (table_of(_held(key)),),
    PLACES_OF_LOTS: _places_of_lots,
    PAIRS: _pairs,
    YES_NO: _yes_no,
}
"""How each kind is read: a type and its checks."""
