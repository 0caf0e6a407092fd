"""Faults of a plan file in the words of a form: no keys of the file, shares in per cent."""

import re

from yarncolor.editing.options import OPTIONS, Option
from yarncolor.errors import Fault
from yarncolor.said import Remedy
from yarncolor.yarn import balance

_SHARE = re.compile(r"a share from (-?[\d.]+) to (-?[\d.]+)")
_KEY = re.compile(r"\b(?:(spinning|plying) )?([a-z]+(?:_[a-z0-9]+)+)\b(?: = \{[^}]*\})?")
_VERBS = ("says ", "comes to ", "is ", "are ", "needs ")
_OF_A_FILE = {
    "a list with one for each": "one for each",
    "a list of plies": "plies",
    "[[scheme.portions]]": "portions",
}


def words_beside(fault: Fault, option: Option) -> str:
    """Return what would be right, as it stands beside a field; elsewhere in the plan, also where.

    Parameters
    ----------
    fault : Fault
        What a change of the option came to.
    option : Option
        Of the field.
    """
    remedy = in_form_words(fault.remedy, option.table)
    where = [step.split()[0] for step in str(fault.place).split(": ") if step]
    own = [name for name in (option.table, option.key) if name]
    if all(step == name for step, name in zip(where, own, strict=False)):
        return remedy
    found = next((one for one in OPTIONS if [one.table, one.key] == where[:2]), None)
    if found is None:
        return f"{fault.place}: {remedy}"
    return f"{_quoted(found)}{'' if remedy.startswith(_VERBS) else ':'} {remedy}"


def in_form_words(remedy: Remedy, table: str = "") -> str:
    """Return a remedy of the plan file as a screen says it.

    Parameters
    ----------
    remedy : Said or str
        Of a fault.
    table : str
        Where a key that several tables have is looked up first.
    """
    words = str(remedy)
    for of_a_file, of_a_form in _OF_A_FILE.items():
        words = words.replace(of_a_file, of_a_form)
    words = _SHARE.sub(_in_per_cent, words)
    return _KEY.sub(lambda found: _said(found, table), words)


def _in_per_cent(span: re.Match) -> str:
    low, high = (f"{float(share) * 100:g}" for share in span.groups())
    return f"per cent from {low} to {high}"


def _said(found: re.Match, table: str) -> str:
    of_table, key = found.groups()
    named = {one.table: one for one in OPTIONS if one.key == key}
    if not named:
        return balance.WORDS.get(key, found[0])
    quoted = _quoted(named.get(of_table or table, next(iter(named.values()))))
    return f"{quoted} in {of_table}" if of_table else quoted


def _quoted(option: Option) -> str:
    return f"“{option.words}”"
