"""The fields of a lot as a spinner fills them in: what stands beside each and how it is typed."""

from dataclasses import dataclass
from typing import Any

from yarncolor.editing.field_units import in_units
from yarncolor.editing.option_text import parse_value
from yarncolor.measures import Measures
from yarncolor.plan.key import NUMBER, SHARE, TEXT, WORD, Key
from yarncolor.plan.reference import KEYS


@dataclass(frozen=True)
class LotField:
    """A field of a lot, as the page is told of it.

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
    kind: str
    brief: str
    choices: tuple[str, ...]


LOT_FIELDS: dict[str, Key] = {
    key.name: key for key in KEYS.values() if key.table == "lots" and key.words
}
"""Keys of a lot that are typed each in a field of its own, as the plan file has them."""


def lot_fields(say: Measures) -> dict[str, Key]:
    """Return the same as fields of a plan have them.

    Parameters
    ----------
    say : Measures
        What the plan is said in.
    """
    return {name: in_units(key, say) for name, key in LOT_FIELDS.items()}


_IN_SIGHT = ("name", "colour", "mass_g", "reserve_g", "note")
_ABOUT = ("fibre", "preparation", "rolags", "rolag_g", "regain", "colour_unsure", "source")
_OF_THE_DYE = ("dye", "mordant", "bath_number", "dyed_on")
"""Shown last."""

_TYPED = {NUMBER: "number", SHARE: "per cent", WORD: "word", TEXT: "lines"}


def _field(key: Key) -> LotField:
    choices = tuple(key.choice_words)
    return LotField(key.name, key.words, _TYPED.get(key.kind, "line"), key.brief, choices)


def _others() -> tuple[str, ...]:
    return tuple(name for name in LOT_FIELDS if name not in _IN_SIGHT + _ABOUT + _OF_THE_DYE)


def in_sight(say: Measures) -> tuple[LotField, ...]:
    """Return the fields of a row that are always seen.

    Parameters
    ----------
    say : Measures
        What the plan is said in.
    """
    own = lot_fields(say)
    return tuple(_field(own[name]) for name in _IN_SIGHT)


def folded(say: Measures) -> tuple[LotField, ...]:
    """Return the fields of a row that unfold.

    Parameters
    ----------
    say : Measures
        What the plan is said in.
    """
    own = lot_fields(say)
    return tuple(_field(own[name]) for name in (*_ABOUT, *_others(), *_OF_THE_DYE))


def is_same(field: Key, typed: str, shown: str) -> bool:
    """Return whether a field says the same; a browser trims, and has line ends of its own.

    Parameters
    ----------
    field : Key
        Of a lot.
    typed, shown : str
        What stands in the field; what stood there.
    """
    return typed == shown or _told(field, typed) == _told(field, shown)


def _told(field: Key, text: str) -> Any:
    lines = text.replace("\r\n", "\n").replace("\r", "\n").strip()
    return parse_value(field, lines) if field.kind in (NUMBER, SHARE) else lines
