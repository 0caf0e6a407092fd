"""What would be right where a value is not what its key is declared to be."""

from typing import Any, get_args

from pydantic_core import ErrorDetails

from yarncolor.errors import Path, nearest, suggestion
from yarncolor.planfile.fields import NO_COLOUR, Table
from yarncolor.said import Choice, Choices, Filling, Remedy, Said, predicate, said

A_TABLE = "give a table of keys and values"


def remedy_of(model: type[Table], error: ErrorDetails, also: tuple[str, ...]) -> Remedy:
    """Return what would be right, with the nearest known word where one was misspelt.

    Parameters
    ----------
    model : type
        Of the table that was read.
    error : ErrorDetails
        One of pydantic's.
    also : tuple of str
        Tables that the file may have beside the keys of this one.
    """
    owner, key = _owner(model, error["loc"])
    if error["type"] == "extra_forbidden":
        return _unknown(key, (*owner.model_fields, *also), also, error["input"])
    field = owner.model_fields[key]
    if error["type"] == "missing":
        return predicate("is missing; {right}", right=_right(field, ()))
    word = _meant(field, error)
    right = _right(field, error["loc"])
    if word is None:
        return right
    return said('{right}; did you mean "{meant}"?', right=right, meant=_as_listed(word, right))


def _meant(field: Any, error: ErrorDetails) -> str | None:
    """Return the known word, or the colour in words, that was likely meant."""
    from yarncolor.colour.words import likely_words

    value = error["input"]
    if error["type"] == NO_COLOUR:
        return likely_words(value)
    misspelt = error["type"] == "literal_error" and isinstance(value, str)
    return nearest(value, get_args(field.annotation)) if misspelt else None


def _as_listed(word: str, right: Remedy) -> Filling:
    """Return a word that is meant as the remedy lists it: as a choice, or as the file has it."""
    slots = right.slots.values() if isinstance(right, Said) else ()
    listed = next((slot for slot in slots if isinstance(slot, Choices)), None)
    return word if listed is None else Choice(listed.table, listed.key, word)


def _unknown(key: str, known: tuple[str, ...], tables: tuple[str, ...], value: Any) -> str:
    """Return what is told of a key, or a table, that is none of the file's."""
    what, known = ("table", tables) if tables and is_table(value) else ("key", known)
    close = suggestion(key, known) or f"; known are {', '.join(known)}"
    return f"unknown {what}{close}"


def _right(field: Any, at: Path) -> Remedy:
    """Return the remedy that a field declares, or that of one item of its list."""
    declared = field.metadata
    if at and isinstance(at[-1], int):
        (item,) = get_args(field.annotation)
        declared = getattr(item, "__metadata__", ())
    return next((part for part in declared if isinstance(part, Said)), A_TABLE)


def _owner(model: type[Table], at: Path) -> tuple[type[Table], str]:
    """Return the model that a value belongs to, and its key there."""
    *tables, key = (step for step in at if isinstance(step, str))
    for table in tables:
        annotation = model.model_fields[table].annotation
        (model,) = get_args(annotation) or (annotation,)
    return model, key


def is_table(value: Any) -> bool:
    """Return whether a value is a table, or a list of them."""
    return isinstance(value, dict) or (
        isinstance(value, list) and any(isinstance(item, dict) for item in value)
    )
