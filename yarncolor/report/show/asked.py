"""Figures of a table that answer why: native disclosures, by mouse, touch or keyboard."""

from collections.abc import Iterable, Iterator

from yarncolor.measures import METRIC, Measures
from yarncolor.report.show.markup import Html, joined
from yarncolor.report.why.reason import Reason, Whys

_BOX = "margin:0;text-align:left;white-space:normal"
_ASKED = "cursor:pointer;min-height:24px;padding:3px 0"
_TOLD = "max-width:30em;min-width:14em;padding:.2em 1.1em .4em;line-height:1.4;font-weight:normal"

_LINE = "margin:.35em 0"


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
    lines = joined(
        Html('<div style="{}">{}</div>').format(_LINE, line) for line in reason.lines(measures)
    )
    told = Html(
        '<details class="why" name="why" style="{}">'
        '<summary aria-label="why {}?" style="{}">{}</summary>'
        '<div style="{}">{}</div></details>'
    )
    return told.format(_BOX, text, _ASKED, text, _TOLD, lines)


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
