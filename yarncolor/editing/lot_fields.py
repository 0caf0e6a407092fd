"""The fields of a lot as a spinner fills them in: what stands beside each and how it is typed."""

from dataclasses import dataclass
from typing import Any

from yarncolor.editing.option_text import format_number, parse_number, parse_share
from yarncolor.editing.options import LINE, LINES, NUMBER, PER_CENT, WORD

PREPARATIONS = ("rolag", "batt", "top", "roving", "locks")


@dataclass(frozen=True)
class LotField:
    """A field of a lot.

    Parameters
    ----------
    key : str
        Key in the plan file.
    words : str
        What stands beside the field, with its unit.
    kind : str
        How it is typed: number, per cent (of a share), word (one of `choices`), line, lines.
    brief : str
        How it is said in few words where the field is folded away; ``{}`` is what was typed.
    choices : tuple of str
        For a word.
    """

    key: str
    words: str
    kind: str = LINES
    brief: str = "{}"
    choices: tuple[str, ...] = ()


IN_SIGHT: tuple[LotField, ...] = (
    LotField("name", "name", LINE),
    LotField("colour", "colour", LINE),
    LotField("mass_g", "grams", NUMBER),
    LotField("reserve_g", "kept back, g", NUMBER),
    LotField("note", "note"),
)
FOLDED: tuple[LotField, ...] = (
    LotField("fibre", "fibre"),
    LotField("preparation", "prepared as", WORD, choices=PREPARATIONS),
    LotField("rolags", "rolags", NUMBER, "{} rolags"),
    LotField("rolag_g", "grams of one rolag", NUMBER, "{} g each"),
    LotField("regain", "water in it, % of dry mass", PER_CENT, "{} % water"),
    LotField("colour_unsure", "colour out by, CIEDE2000", NUMBER, "colour ± {}"),
    LotField("source", "where it comes from", brief="from {}"),
    LotField("dye", "dye", brief="dyed with {}"),
    LotField("mordant", "mordant", brief="mordant {}"),
    LotField("bath_number", "bath", brief="bath {}"),
    LotField("dyed_on", "dyed on", brief="dyed on {}"),
)
"""In the order in which they are shown; the dye's last, with their caution under them."""

LOT_FIELDS: dict[str, LotField] = {one.key: one for one in IN_SIGHT + FOLDED}


def field_text(field: LotField, value: Any) -> str:
    """Return what a lot has for a field, as it would be typed; empty where nothing."""
    if value is None or isinstance(value, str):
        return value or ""
    return format_number(100 * value if field.kind == PER_CENT else value)


def field_value(field: LotField, text: str) -> Any:
    """Return what a typed text gives for a key of the plan file, for the plan to judge."""
    if field.kind not in (NUMBER, PER_CENT):
        return text
    return parse_number(text) if field.kind == NUMBER else parse_share(text)


def is_same(field: LotField, typed: str, shown: str) -> bool:
    """Return whether a field says the same; a browser trims, and has line ends of its own."""
    return typed == shown or _told(field, typed) == _told(field, shown)


def _told(field: LotField, text: str) -> Any:
    lines = text.replace("\r\n", "\n").replace("\r", "\n").strip()
    return parse_number(lines) if field.kind in (NUMBER, PER_CENT) else lines
