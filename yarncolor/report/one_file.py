"""Pages that are whole in one file: their templates, and what lets their own style alone."""

from base64 import b64encode
from functools import cache
from hashlib import sha256
from typing import TYPE_CHECKING

from markupsafe import Markup

from yarncolor.phrases import isolated

if TYPE_CHECKING:
    from jinja2 import Environment


@cache
def templates(package: str, *, trimmed: bool = True) -> "Environment":
    """Return the templates that lie in a package; every text is escaped where it is shown.

    Parameters
    ----------
    package : str
        Its name.
    trimmed : bool
        Whether a line that holds a block alone leaves nothing in the page.
    """
    from jinja2 import Environment, PackageLoader, StrictUndefined

    return Environment(
        loader=PackageLoader(package, "."),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=_isolated,
        trim_blocks=trimmed,
        lstrip_blocks=trimmed,
    )


def _isolated(shown: object) -> object:
    """Return what a template shows, words from the right by themselves; HTML as it is."""
    return isolated(shown) if isinstance(shown, str) and not isinstance(shown, Markup) else shown


def fingerprint(text: str) -> str:
    """Return what a page says of a style or script, so that a browser takes it and no other."""
    return f"sha256-{b64encode(sha256(text.encode()).digest()).decode()}"
