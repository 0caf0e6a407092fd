"""A plain name for a file: one that every system takes, and that a list of files shows."""

import re
import unicodedata

from yarncolor.errors import fail, on_one_line, quoted
from yarncolor.planfile.unseen import without_unseen

_NOT_IN_A_NAME = set('<>:"/\\|?*')
_RESERVED = re.compile(r"(con|prn|aux|nul|(com|lpt)[0-9¹²³])(\..*)?", re.IGNORECASE)
_MOST_BYTES = 255 - len(" versions")
"""Of a name without its ending: the folder of what was saved over is called after it."""


def plain_name(name: str, ending: str = ".toml") -> str:
    """Return the name of a file from what was typed, with its ending.

    Parameters
    ----------
    name : str
        As typed, with or without the ending.
    ending : str
        What the file is called by its kind.

    Raises
    ------
    PlanError
        Where no file can be called so on one system or another.
    """
    stem = name.strip().removesuffix(ending).strip()
    if not stem:
        fail("", "type a plain file name first; it is saved beside the plan")
    if signs := [sign for sign in dict.fromkeys(stem) if _is_out_of_place(sign)]:
        told = " ".join(on_one_line(sign) for sign in sorted(signs))
        fail("", f"type a plain file name, without {told}; it is saved beside the plan")
    if stem.startswith(".") or stem.endswith("."):
        fail("", f"{quoted(stem)} begins or ends with a dot; type a file name without it")
    if _RESERVED.fullmatch(stem):
        fail("", f"{quoted(stem)} is a name that some systems keep for themselves; type another")
    if more := len(stem) - _letters_that_fit(stem):
        fail("", f"this file name is too long; leave out {more} letters or more")
    return stem + ending


def _is_out_of_place(sign: str) -> bool:
    """Return whether a sign means something else in a path, or cannot be seen or written."""
    is_seen = without_unseen(sign) and unicodedata.category(sign) not in {"Cc", "Cs", "Zl", "Zp"}
    return sign in _NOT_IN_A_NAME or not is_seen


def _letters_that_fit(stem: str) -> int:
    return len(stem.encode()[:_MOST_BYTES].decode(errors="ignore"))
