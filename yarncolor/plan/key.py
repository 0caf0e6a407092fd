"""What a key of a plan file is: declared once, on the field that holds it, for all who ask.

A key is the annotation of a field of its table::

    loop_m: Annotated[
        float | None,
        Key(NUMBER, "The longest third of a loop.", "metres, {}", 0.01, 100, unit="m", default=0.3),
    ] = None

The shape of the file, its remedies, defaults, fields of a form and the reference derive from it.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, fields, replace
from functools import cache
from keyword import iskeyword
from typing import Any, get_type_hints

from yarncolor.plan.unit_words import IMPERIAL, METRIC, in_words, unit_slots, unit_word
from yarncolor.said import Choices, Said, ShareSpan, Slot, Span, UnitWord, one_for_each, said

NUMBER, WHOLE, SHARE, WORD = "number", "whole number", "share", "word"
LINE, TEXT, COLOUR, LAB, BLEND = "line", "text", "colour", "lab", "blend"
PLY, PLIES, LOT, LOTS = "ply", "plies", "lot", "lots"
PART, PARTS, DIVISION, DIVISIONS = "part", "parts", "division", "divisions"
TABLE, TABLES = "table", "tables"
DATE, FLAG = "date", "flag"
PLACES_OF_LOTS, PAIRS, YES_NO = "places of lots", "pairs of lots", "yes or no"
KINDS = (
    *(NUMBER, WHOLE, SHARE, WORD, LINE, TEXT, COLOUR, LAB, BLEND, DATE, FLAG),
    *(PLY, PLIES, LOT, LOTS, PART, PARTS, DIVISION, DIVISIONS, TABLE, TABLES),
    *(PLACES_OF_LOTS, PAIRS, YES_NO),
)

_IN_WORDS = ("words", "words_each", "brief", "otherwise", "example")


@dataclass(frozen=True)
class Key:
    """A key of a plan file.

    Parameters
    ----------
    kind : str
        One of `KINDS`. A share is typed as per cent on screens; a lot is one by its name.
    meaning : str
        What it says, in a sentence.
    right : str
        What would be right, in the file's words; ``{}`` stands for the range or the choices. Here
        and in all that is said of it a unit stands in braces, as `unit_words` has it.
    low, high : float, optional
        Of a number; both belong to the range, but for a key that ``is_open``.
    unit : str
        Of a number.
    imperial : str
        Unit in which a plan in ounces and yards has it on screens, where not the usual one.
    default : optional
        What stands in where nothing is given, as in the file; None where that is no one value.
    otherwise : str
        What stands in where that is no one value, in words.
    each : str
        ply or bobbin, where a list may give one for each.
    words : str
        What stands beside its field, with the unit.
    words_each : str
        The same where every ply has its own in place of one choice for all.
    heading : str
        What stands over it and its alternatives, or over fields that belong together.
    choices : tuple of pairs
        What is given and what is said of it, where it is chosen.
    schemes : tuple of str
        Schemes for which it matters; empty for all.
    most : int
        Characters of a text, items of a list.
    least : int
        Items of a list.
    step : float, optional
        A number is a multiple of it.
    is_open : bool
        Whether the range's ends are out of it.
    of : str
        Of what it is a share, where that does not go without saying.
    brief : str
        How a lot's field is said where it is folded away; ``{}`` is what was typed.
    holds : type, optional
        The small table that it is, or that it lists.
    example : str
        How a small table is typed: ``20 m 2.6 g``, and what that says.
    items : Key, optional
        What each item of a list is.
    typed : str
        Unit of a number that is typed alone; its own where this is empty.
    parts : tuple of Key
        Of a small table, as they are typed; those of what it holds where there are none.
    slots : mapping of str to slot
        What else ``right`` names that audiences word for themselves.
    table, name : str
        Where it stands; told by the class that holds it.
    """

    kind: str
    meaning: str
    right: str = "{}"
    low: float | None = None
    high: float | None = None
    unit: str = ""
    imperial: str = ""
    default: Any = None
    otherwise: str = ""
    each: str = ""
    words: str = ""
    words_each: str = ""
    heading: str = ""
    choices: tuple[tuple[Any, str], ...] = ()
    schemes: tuple[str, ...] = ()
    most: int = 0
    least: int = 0
    step: float | None = None
    is_open: bool = False
    of: str = ""
    brief: str = "{}"
    holds: type | None = None
    example: str = ""
    items: "Key | None" = None
    typed: str = ""
    parts: "tuple[Key, ...]" = ()
    slots: Mapping[str, Slot] = field(default_factory=dict, hash=False)
    table: str = ""
    name: str = ""

    @property
    def attribute(self) -> str:
        """The field of its class that holds it: its name, or ``from_`` for ``from``."""
        return attribute_of(self.name)

    @property
    def path(self) -> str:
        """Where it stands: ``spinning.single_tex``."""
        return f"{self.table}.{self.name}"

    @property
    def range_text(self) -> str:
        """Its range as the file writes it; empty where it has none."""
        if self.low is None or self.high is None:
            return ""
        return str(self._span(self.low, self.high))

    @property
    def span(self) -> Choices | ShareSpan | Span | str:
        """Its range or its choices, for each audience to word; empty where it has neither."""
        if self.kind == SHARE and self.low is not None and self.high is not None:
            share = ShareSpan(self.low, self.high, self.of)
            return f"a share {self.range_text}" if self.is_open else share
        words = tuple(str(value) for value, _ in self.choices)
        if self.low is not None and self.high is not None:
            return self._span(self.low, self.high)
        if not words:
            return ""
        if self.right != "{}":
            return Choices(self.table, self.name, words)
        quoted = [f'"{word}"' for word in words]
        return f"{', '.join(quoted[:-1])} or {quoted[-1]}"

    @property
    def remedy(self) -> Said:
        """What would be right: in a file ``give metres, 0.01 to 100``."""
        template = f"give {self.right.replace('{}', '{span}')}"
        units = {name: unit_slot(name) for name in unit_slots(self.right)}
        slots = {**self.slots, **units, "span": self.span}
        if self.each:
            slots["each"] = one_for_each(self.each)
        return said(template + ", or {each}" * bool(self.each), **slots)

    @property
    def held(self) -> "dict[str, Key]":
        """The keys of a small table, by name."""
        own = self.parts or tuple(keys_of(self.holds).values() if self.holds else ())
        return {key.name: key for key in own}

    def _span(self, low: float, high: float) -> Span:
        return Span(low, high, self.unit, self.imperial, self.is_open)

    @property
    def choice_words(self) -> dict[str, str]:
        """What is said of each choice, by how it is typed."""
        return {str(value): words for value, words in self.choices}


def attribute_of(name: str) -> str:
    """Return the field of a class that holds a key; a word of Python has a line under its end."""
    return f"{name}_" if iskeyword(name) else name


def name_of(attribute: str) -> str:
    """Return the key of the file that a field of a class holds."""
    return attribute.removesuffix("_")


def unit_slot(name: str) -> UnitWord:
    """Return a unit as a slot of a sentence, by its name in `unit_words`."""
    return UnitWord(unit_word(name, METRIC), unit_word(name, IMPERIAL))


@cache
def keys_of(table: type, name: str = "", system: str = METRIC) -> dict[str, Key]:
    """Return the keys that a table's class declares, by name, in its order.

    Parameters
    ----------
    table : type
        A dataclass whose fields are annotated with their keys; one that is not is no key.
    name : str
        How the table is called in the file.
    system : str
        ``metric`` or ``imperial``: the units that its words have.
    """
    hints = get_type_hints(table, include_extras=True)
    found = {}
    for one in fields(table):
        for declared in getattr(hints[one.name], "__metadata__", ()):
            key = name_of(one.name)
            words = {about: in_words(getattr(declared, about), system) for about in _IN_WORDS}
            found[key] = replace(declared, table=name, name=key, **words)
    return found
