"""``wheel.html``: the page itself, whole in one file that may load nothing."""

import json
from base64 import b64encode
from functools import lru_cache
from hashlib import sha256
from pathlib import Path
from typing import TYPE_CHECKING

from yarncolor.answers.answer import Answer
from yarncolor.phrases import title_of
from yarncolor.report.phone.facts import facts
from yarncolor.scripts import program

if TYPE_CHECKING:
    from jinja2 import Template

_HERE = Path(__file__).parent
_IN_MARKUP = {ord(sign): f"\\u{ord(sign):04x}" for sign in "<>&\u2028\u2029"}
"""Signs that could end or open something in HTML, as JSON writes them otherwise."""


def wheel_html(answer: Answer) -> bytes:
    """Return ``wheel.html``: the card for a phone, usable without any network.

    Text of the plan file stands in it once, as data that nothing reads as markup or script.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    """
    from yarncolor import __version__

    script, style = _script(), _style()
    return (
        _template()
        .render(
            version=__version__,
            title=title_of(answer.plan),
            facts=_as_data(answer),
            script=script,
            script_hash=_hash(script),
            style=style,
            style_hash=_hash(style),
        )
        .encode()
    )


def _as_data(answer: Answer) -> str:
    text = json.dumps(facts(answer), ensure_ascii=False, separators=(",", ":"), allow_nan=False)
    return text.translate(_IN_MARKUP)


@lru_cache(maxsize=1)
def _script() -> str:
    return f"\n{program(_HERE / 'page.js')}"


@lru_cache(maxsize=1)
def _style() -> str:
    return f"\n{(_HERE / 'page.css').read_text(encoding='utf-8')}"


def _hash(text: str) -> str:
    return f"sha256-{b64encode(sha256(text.encode()).digest()).decode()}"


@lru_cache(maxsize=1)
def _template() -> "Template":
    from jinja2 import Environment, PackageLoader, StrictUndefined

    house = Environment(
        loader=PackageLoader("yarncolor.report.phone", "."),
        autoescape=True,
        undefined=StrictUndefined,
    )
    return house.get_template("page.html.j2")
