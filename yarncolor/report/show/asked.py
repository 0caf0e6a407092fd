"""Figures of a table that answer why: native disclosures, by mouse, touch or keyboard."""

from collections.abc import Iterable, Iterator, Sequence

from yarncolor.measures import METRIC, Measures
from yarncolor.phrases import capital
from yarncolor.report.show.markup import Html, joined
from yarncolor.report.why.reason import Reason, Whys
from yarncolor.report.why.seen import Seen, told_of

_BOX = "margin:0;white-space:normal"
_ASKED = "cursor:pointer;min-height:24px;padding:3px 0"
_FIGURE = f"{_ASKED};list-style:none;text-decoration:underline dotted 1px;text-underline-offset:4px"
_TOLD = (
    "max-width:30em;min-width:14em;padding:.2em 1.1em .4em;line-height:1.4;font-weight:normal;"
    "text-align:left"
)
_TOLD_WIDE = f"{_TOLD};max-width:45em"

_LINE = "margin:.35em 0"
_DISCLOSED = Html(
    '<details class="{}" name="why" style="{}">'
    '<summary aria-label="{}" style="{}">{}</summary>'
    '<div style="{}">{}</div></details>'
)
THESE = "Why these figures?"
"""What is pressed under a paragraph or a picture."""


def asked(text: str, reason: Reason, measures: Measures = METRIC) -> Html:
    """Return a figure that tells why when it is opened; one is open at a time.

    Parameters
    ----------
    text : str
        What is seen of it.
    reason : Reason
        What it tells.
    measures : Measures
        What it is told in.
    """
    lines = _lines(reason.lines(measures))
    return _DISCLOSED.format("why", _BOX, f"why {text}?", _FIGURE, text, _TOLD, lines)


def _lines(lines: Iterable[str]) -> Html:
    return joined(Html('<div style="{}">{}</div>').format(_LINE, line) for line in lines)


def asked_together(seen: Sequence[Seen], about: str = "", measures: Measures = METRIC) -> Html:
    """Return what tells why of all figures of a paragraph or caption; empty where it has none.

    Parameters
    ----------
    seen : sequence of Seen
        Its figures.
    about : str
        What they are about, for who only hears it.
    measures : Measures
        What they are told in.
    """
    if not seen:
        return Html("")
    each = joined(
        Html('<div style="{}"><b>{}</b></div>{}').format(_LINE, heading, _lines(lines))
        for heading, lines in told_of(seen, measures)
    )
    name = f"{THESE} {capital(about)}".strip()
    return _DISCLOSED.format("why these", _BOX, name, _ASKED, THESE, _TOLD_WIDE, each)


def at_heads(head: Iterable[str], whys: Whys) -> Iterator[str]:
    """Return the heads of a table, those with a reason as what tells it.

    Parameters
    ----------
    head : iterable of str
        Of each column.
    whys : Whys
        The table's reasons.
    """
    for text in head:
        yield asked(text, whys.heads[text], whys.measures) if text in whys.heads else text


def at_rows(rows: Iterable[tuple[str, ...]], whys: Whys) -> Iterator[tuple[str, ...]]:
    """Return the rows of a table, the figure of those with a reason as what tells it.

    Parameters
    ----------
    rows : iterable of tuple of str
        Each row's first cell says what it is.
    whys : Whys
        The table's reasons.
    """
    for row in rows:
        reason = whys.rows.get(row[0])
        if reason is None:
            yield row
        else:
            at = whys.column
            yield (*row[:at], asked(row[at], reason, whys.measures), *row[at + 1 :])
