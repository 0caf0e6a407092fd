"""What the tables of a plan file are made of: numbers and text with their ranges and remedies."""

import unicodedata
from datetime import date
from typing import Annotated, Any

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, Field

from yarncolor.defaults import MOST_PLIES
from yarncolor.said import Said, ShareSpan, said

LEAST_GRAMS, MOST_GRAMS = 0.001, 1e5
"""Of a lot, and of what is to be made; the least is below what any scale shows."""

LONGEST_NAME, LONGEST_NOTE = 60, 2000


def a_number(remedy: str, **bounds: float) -> Any:
    """Return a number within bounds; the remedy says what would be right."""
    return Annotated[float, Field(allow_inf_nan=False, description=f"give {remedy}", **bounds)]


def a_share(low: float, high: float, of: str = "") -> Any:
    """Return a share within bounds; ``of`` says of what, where that is not plain."""
    span = Field(allow_inf_nan=False, ge=low, le=high)
    return Annotated[float, span, *remedied(said("give {span}", span=ShareSpan(low, high, of)))]


def remedied(remedy: Said) -> tuple[Any, ...]:
    """Return what tells of a field what would be right, where audiences word it differently."""
    return (Field(description=str(remedy)), remedy)


def a_whole(remedy: str, **bounds: int) -> Any:
    """Return a whole number within bounds."""
    return Annotated[int, Field(description=f"give {remedy}", **bounds)]


def _holds(character: str, allowed: str) -> bool:
    """Return whether text may hold a character: no controls, nothing that XML 1.0 refuses."""
    if character in allowed:
        return True
    return unicodedata.category(character) not in ("Cc", "Cs") and character not in "\ufffe\uffff"


def clean(text: str, longest: int, allowed: str = "") -> str:
    """Return text, trimmed, that is short enough and holds no control characters."""
    text = text.strip()
    if len(text) > longest or not all(_holds(character, allowed) for character in text):
        raise ValueError
    return text


def clean_name(text: str) -> str:
    """Return a name, trimmed."""
    if not text.strip():
        raise ValueError
    return clean(text, LONGEST_NAME)


def _written(value: object) -> object:
    """Return a date or a whole number as text: a bath number need not stand in quotes."""
    is_plain = isinstance(value, date | int) and not isinstance(value, bool)
    return str(value) if is_plain else value


def each_or_one(low: float, high: float, kinds: tuple[type, ...]) -> Any:
    """Return a check for one number or a list of one for each ply."""

    def check(value: object) -> object:
        if value == []:
            raise ValueError
        for item in value if isinstance(value, list) else [value]:
            if isinstance(item, bool) or not isinstance(item, kinds) or not low <= item <= high:
                raise ValueError
        kind = float if float in kinds else int
        return tuple(map(kind, value)) if isinstance(value, list) else kind(value)

    return check


Name = Annotated[
    str,
    AfterValidator(clean_name),
    Field(description=f"give a name of 1 to {LONGEST_NAME} characters, without control characters"),
]
Text = Annotated[
    str,
    BeforeValidator(_written),
    AfterValidator(lambda text: clean(text, LONGEST_NOTE, "\n\r\t")),
    Field(
        description=f"give text of at most {LONGEST_NOTE:,} characters, without control characters"
    ),
]
Ply = a_whole(f"the number of a ply, 1 to {MOST_PLIES}", ge=1, le=MOST_PLIES)
Loss = a_share(0, 0.9)
Regain = a_share(0, 0.6, "water over dry mass")
Grams = a_number(f"grams, {LEAST_GRAMS} to {MOST_GRAMS:,.0f}", ge=LEAST_GRAMS, le=MOST_GRAMS)


class Table(BaseModel):
    """A table of the file. Keys that were not given are None, whatever their type says."""

    model_config = ConfigDict(strict=True, extra="forbid")
