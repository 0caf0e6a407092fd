"""What all benches share: the line that says what happened, and controls with their words."""

from html import escape
from typing import Any

import ipywidgets as w


def status(words: str) -> str:
    """Return the line of a bench that says what happened; a screen reader reads it out."""
    return f'<p role="status" aria-live="polite" style="min-height:1.5em">{escape(words)}</p>'


def label(controls: dict[str, Any], words: dict[str, str], label_em: int) -> None:
    """Write before each control what it is; all labels are as wide, and all controls.

    Parameters
    ----------
    controls : dict of str to widget
        Of a bench, by key.
    words : dict of str to str
        What stands before each.
    label_em : int
        Width of the longest.
    """
    for key, control in controls.items():
        control.description, control.style = words[key], {"description_width": f"{label_em}em"}
        control.layout = w.Layout(width="44em")
