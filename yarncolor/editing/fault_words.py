"""Faults of a plan in the words of a form: its fields in the place of keys, shares in per cent."""

from collections.abc import Callable
from functools import partial

from yarncolor.editing.field_units import amount_words, in_units, span_words
from yarncolor.editing.options import OPTIONS
from yarncolor.errors import Fault, Path
from yarncolor.measures import METRIC, Measures
from yarncolor.plan.key import Key as Option
from yarncolor.said import (
    Amount,
    Choice,
    Choices,
    InFile,
    KeyName,
    Remedy,
    Said,
    ShareSpan,
    Slot,
    Span,
    UnitWord,
)

_AT = {(option.table, option.name): option for option in OPTIONS}


def words_beside(fault: Fault, option: Option, say: Measures = METRIC) -> str:
    """Return what would be right, as it stands beside a field; elsewhere in the plan, also where.

    Parameters
    ----------
    fault : Fault
        What a change of the option came to.
    option : Option
        Of the field.
    say : Measures
        What the plan is said in.
    """
    remedy = in_form_words(fault.remedy, say)
    keys = _keys(fault.path)
    own = [name for name in (option.table, option.name) if name]
    if all(step == name for step, name in zip(keys, own, strict=False)):
        return remedy
    there = _AT.get((keys[0], keys[1])) if len(keys) > 1 else None
    if there is None:
        return f"{fault.place}: {remedy}"
    goes_on = isinstance(fault.remedy, Said) and fault.remedy.is_predicate
    return f"{_quoted(in_units(there, say))}{'' if goes_on else ':'} {remedy}"


def in_form_words(remedy: Remedy, say: Measures = METRIC) -> str:
    """Return what would be right as a form says it.

    Parameters
    ----------
    remedy : Remedy
        Of a fault.
    say : Measures
        What the plan is said in.
    """
    return remedy.worded(partial(_worded, say, _in_form)) if isinstance(remedy, Said) else remedy


def needed_words(remedy: Remedy, say: Measures) -> str:
    """Return what is still needed as a form says it; empty where something is wrong.

    Parameters
    ----------
    remedy : Remedy
        Of a fault.
    say : Measures
        What the plan is said in.
    """
    return remedy.lacks(partial(_worded, say, _in_form)) if isinstance(remedy, Said) else ""


def in_row_words(remedy: Remedy, say: Measures = METRIC) -> str:
    """Return what would be right as a row of the stash says it.

    Parameters
    ----------
    remedy : Remedy
        Of a fault.
    say : Measures
        What the plan is said in.
    """
    return remedy.worded(partial(_worded, say, _in_row)) if isinstance(remedy, Said) else remedy


def _worded(say: Measures, otherwise: Callable[[Measures, Slot], str], slot: Slot) -> str:
    """Return a slot that has a unit in the plan's; another as its audience has it."""
    match slot:
        case Span():
            return span_words(slot, say)
        case Amount():
            return amount_words(slot, say)
        case UnitWord():
            return slot.metric if say is METRIC else slot.imperial
    return otherwise(say, slot)


def _in_form(say: Measures, slot: Slot) -> str:
    match slot:
        case KeyName():
            return _key(slot, say)
        case Choice(table, key, word):
            return _choice(table, key, word)
        case Choices(table, key, words):
            return ", ".join(_choice(table, key, word) for word in words)
        case ShareSpan(low, high, of):
            span = f"per cent from {low * 100:g} to {high * 100:g}"
            return f"{of}, {span}" if of else span
        case InFile():
            return slot.in_form
    return str(slot)


def _in_row(_: Measures, slot: Slot) -> str:
    """Return a slot in the words of a row, which calls its fields as the file calls its keys."""
    if isinstance(slot, ShareSpan):
        return f"{slot.of} in per cent, {slot.low * 100:g} to {slot.high * 100:g}"
    return str(slot)


def _key(slot: KeyName, say: Measures) -> str:
    option = _AT.get((slot.table, slot.key))
    if option is None:
        return str(slot)
    option = in_units(option, say)
    return f"{_quoted(option)} in {slot.table}" if slot.with_table else _quoted(option)


def _choice(table: str, key: str, word: str) -> str:
    option = _AT.get((table, key))
    return dict(option.choices).get(word, word) if option else word


def _keys(path: Path) -> list[str]:
    return [step for step in path if isinstance(step, str)]


def _quoted(option: Option) -> str:
    return f"“{option.words}”"
