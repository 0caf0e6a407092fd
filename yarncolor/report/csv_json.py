"""Answers as files for other programs: JSON and CSV."""

import csv
import io
import json
from collections.abc import Iterable

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.weigh_out import Heap, Row
from yarncolor.measures import Measure, Measures
from yarncolor.report.advice import advice_on
from yarncolor.report.as_dict import to_dict
from yarncolor.report.weigh_out_words import divided_words, heap_words

_FORMULA_STARTS = ("=", "+", "-", "@", "\t")


def plan_json(answer: Answer) -> bytes:
    """Return ``plan.json``: UTF-8, no NaN, the same bytes for the same plan."""
    data = to_dict(answer)
    data["advice"] = [{"kind": item.kind, "text": item.text} for item in advice_on(answer)]
    return (json.dumps(data, ensure_ascii=False, allow_nan=False, indent=1) + "\n").encode()


def weigh_out_csv(answer: Answer) -> bytes:
    """Return ``weigh-out.csv``: a row for each portion in spinning order, then the heaps.

    ``row`` is that of the ply's page, empty for a piece that is no row. ``running_g`` runs along
    the ply over the rows that are weighed singly, ``on_bobbin_g`` is what is on the bobbin after
    each row, pieces of heaps counted. ``state`` is empty where nothing is said of spinning. The
    headings of a plan in ounces and yards say so: ``running_oz``.
    """
    say = answer.say
    g, m = say.mass.unit, say.length.unit
    weighed = (f"mass_{g}", f"weigh_{g}", "words", f"running_{g}")
    reach = (f"start_{m}", f"end_{m}", f"on_bobbin_{g}")
    head = ("ply", "row", "lot", *weighed, *reach, "state")
    names, singles = answer.plan.names, answer.weigh_out
    rows = [_row(names, single.ply, row, say) for single in singles for row in single.rows]
    heaps = [_heap(names, heap, say.mass) for single in singles for heap in single.heaps]
    return as_csv(head, [*rows, *heaps])


def _row(names: tuple[str, ...], ply: int, row: Row, say: Measures) -> tuple[object, ...]:
    words = f"{'heap: ' if row.from_heap else ''}{divided_words(row)}"
    mass, length = say.mass, say.length
    weighed = (mass.of(row.mass_g), tidy(row.weigh_g, mass), words, tidy(row.running_g, mass))
    reach = (length.of(row.start_m), length.of(row.end_m), tidy(row.on_bobbin_g, mass))
    return (ply + 1, row.number or "", names[row.lot], *weighed, *reach, row.state or "")


def _heap(names: tuple[str, ...], heap: Heap, mass: Measure) -> tuple[object, ...]:
    words, weigh = f"heap: {heap_words(heap)}", tidy(heap.weigh_g or None, mass)
    return (heap.ply + 1, "", names[heap.lot], "", weigh, words, *[""] * 5)


def stretches_csv(answer: Answer) -> bytes:
    """Return ``stretches.csv``: start, end, the lot of each ply, and CIEDE2000.

    ``start_m`` and ``end_m`` of a plan in ounces and yards are ``start_yd`` and ``end_yd``.
    """
    along, names = answer.layout.stretches, np.array(answer.plan.names, dtype=object)
    plies, length = along.lot.shape[1], answer.say.length
    reach = (f"start_{length.unit}", f"end_{length.unit}")
    head = (*reach, *(f"ply_{k + 1}" for k in range(plies)), "ciede2000")
    edges, far = length.of(along.edges_m).tolist(), answer.contrast.ciede2000.tolist()
    rows = (
        (edges[at], edges[at + 1], *names[along.lot[at]], far[at]) for at in range(len(along.lot))
    )
    return as_csv(head, rows)


def tidy(mass_g: float | None, mass: Measure) -> float | str:
    """Return a mass without the noise of the last bits; empty where there is none.

    Parameters
    ----------
    mass_g : float or None
        As it is kept.
    mass : Measure
        What it is said in.
    """
    return "" if mass_g is None else round(mass.of(mass_g), 9)


def as_csv(head: Iterable[str], rows: Iterable[Iterable[object]]) -> bytes:
    """Return a table as CSV, no cell of which a spreadsheet takes for a formula.

    Parameters
    ----------
    head : iterable of str
        Of each column.
    rows : iterable of iterable
        Its cells.
    """
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(head)
    writer.writerows([_safe(cell) for cell in row] for row in rows)
    return text.getvalue().encode()


def _safe(cell: object) -> object:
    """Return a text cell that a spreadsheet will not take for a formula."""
    dangerous = isinstance(cell, str) and cell.startswith(_FORMULA_STARTS)
    return f"'{cell}" if dangerous else cell
