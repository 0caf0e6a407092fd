"""``wheel.html``: the page itself, whole in one file that may load nothing."""

import json
from functools import lru_cache
from pathlib import Path

from yarncolor.answers.answer import Answer
from yarncolor.phrases import title_of
from yarncolor.report.one_file import fingerprint, templates
from yarncolor.report.phone.facts import facts
from yarncolor.scripts import program

_HERE = Path(__file__).parent
_IN_MARKUP = {ord(sign): f"\\u{ord(sign):04x}" for sign in "<>&\u2028\u2029"}
"""Signs that could end or open something in HTML, as JSON writes them otherwise."""


def wheel_html(answer: Answer) -> bytes:
    """Return ``wheel.html``: the card for a phone, usable without any network.

    Text of the plan file stands in it once, as data that nothing reads as markup or script. It is
    said as its plan is, in grams or in ounces; what it keeps and takes home is in grams and metres.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    """
    from yarncolor import __version__

    script, style = _script(), _style()
    return (
        templates("yarncolor.report.phone", trimmed=False)
        .get_template("page.html.j2")
        .render(
            version=__version__,
            title=title_of(answer.plan),
            facts=_as_data(answer),
            script=script,
            script_hash=fingerprint(script),
            style=style,
            style_hash=fingerprint(style),
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
