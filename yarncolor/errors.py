"""What a user can mend: faults, told all at once, one line each."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import get_close_matches

_LONGEST_VALUE = 60


@dataclass(frozen=True)
class Fault:
    """One thing wrong in what the user gave: where, what stands there, what would be right.

    Parameters
    ----------
    file : str
        Name of the file, as the user typed it.
    place : str
        Table, entry and field, such as ``lots 2 (Foam), mass_g``; empty for the whole file.
    value : str
        What stands there, already written out by `shown`; empty where nothing does.
    remedy : str
        What would be right.
    """

    file: str
    place: str
    value: str
    remedy: str

    def __str__(self) -> str:
        where = f"{self.place} = {self.value}" if self.value else self.place
        return ": ".join(part for part in (self.file, where, self.remedy) if part)


class PlanError(ValueError):
    """Every fault found in one input; its text is one line for each.

    Parameters
    ----------
    faults : iterable of Fault
        In the order in which the file is read.
    """

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("\n".join(str(fault) for fault in self.faults))


def shown(value: object) -> str:
    """Return a value as it would stand in the file, on one line and cut where it is long."""
    if isinstance(value, bool):
        text = str(value).lower()
    elif isinstance(value, str):
        text = '"' + value.encode("unicode_escape", "surrogatepass").decode() + '"'
        text = text if not value.isprintable() else f'"{value}"'
    elif isinstance(value, dict):
        text = "{" + ", ".join(f"{key} = {shown(item)}" for key, item in value.items()) + "}"
    elif isinstance(value, list | tuple):
        text = "[" + ", ".join(shown(item) for item in value[:_LONGEST_VALUE]) + "]"
    else:
        text = str(value)
    return text if len(text) <= _LONGEST_VALUE else text[: _LONGEST_VALUE - 1] + "…"


def nearest(word: str, known: Sequence[str]) -> str:
    """Return ``; did you mean "Kelp"?`` for a misspelling of a known word, else nothing."""
    folded = {name.casefold(): name for name in known}
    close = get_close_matches(word.casefold(), folded, n=1, cutoff=0.6)
    return f"; did you mean {shown(folded[close[0]])}?" if close else ""
