"""A plan in words, for a terminal or the plain text of a notebook."""

from collections.abc import Iterator
from textwrap import wrap

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import if_single_is, metres_told
from yarncolor.answers.weigh_out import Heap, Row, SingleWeighOut
from yarncolor.phrases import join_words, padded, title_of, wide
from yarncolor.pictures.alt_text import strip_alt
from yarncolor.report.advice import advice_on, no_advice
from yarncolor.report.assumption_text import assumption_sentences
from yarncolor.report.drift_words import drift_lines
from yarncolor.report.strip_words import strip_lines
from yarncolor.report.weigh_out_words import (
    batt_words,
    carded_colours,
    drafted_words,
    heap_words,
    lost_lines,
    thing_of_ply,
)
from yarncolor.report.wheel_words import row_and_stripe_words, wheel_lines
from yarncolor.report.yarn_lines import yarn_lines

_WIDTH = 88


def summary_text(answer: Answer) -> str:
    """Return what to spin on each bobbin, the yarn, how the plies meet, and the advice."""
    plan = answer.plan
    guess = ["How thick your single is has not been said: every length hangs on it."]
    is_guessed = bool(if_single_is(answer))
    head = [title_of(plan), strip_alt(answer), *(guess if is_guessed else [])]
    parts = [
        head,
        list(_kept_back(answer)),
        list(_batts(answer)),
        list(strip_lines(answer)),
        list(lost_lines(answer)),
        list(wheel_lines(answer)),
        list(_bobbins(answer)),
        list(yarn_lines(answer)),
        list(_drift(answer)),
        list(_advice(answer)),
        list(_notes(answer)),
    ]
    return "\n\n".join("\n".join(part) for part in parts if part) + "\n"


def weigh_out_text(answer: Answer) -> str:
    """Return the order for each bobbin, with grams and words."""
    return "\n".join([*strip_lines(answer), *lost_lines(answer), *_bobbins(answer)])


def _bobbins(answer: Answer) -> Iterator[str]:
    columns = max(map(wide, answer.plan.names))
    for single in answer.weigh_out:
        yield f"{chr(10) if single.ply else ''}{_head(answer, single)}"
        for row in single.rows:
            if row.begins_repeat or row.at == single.rows[0].at:
                yield from _between(answer, row, single.rows[0].at, columns)
            yield _row(answer, row, columns)
        for heap in single.heaps:
            yield _heap(answer, heap, columns)


def _between(answer: Answer, row: Row, first: int, columns: int) -> Iterator[str]:
    """Yield the line between two passes, which says where one of several alike begins."""
    copies, copy = answer.resolved.scheme.copies, answer.layout.portions.copy
    begins = row.at == first or copy[row.at] != copy[row.at - 1]
    if copies > 1 and begins:
        yield f"  {f'-- {row.copy} of {copies} alike ':-<{columns + 42}}"
    elif row.at != first:
        yield f"  {'-' * (columns + 42)}"


def _head(answer: Answer, single: SingleWeighOut) -> str:
    many = len(answer.weigh_out)
    number = f"{thing_of_ply(answer)} {single.ply + 1} of {many}" if many > 1 else "The one bobbin"
    return f"{number}, in spinning order ({_single(answer, single.ply)})"


def _kept_back(answer: Answer) -> Iterator[str]:
    mass, lots = answer.say.mass, answer.plan.lots
    kept = [f"{mass(lot.reserve_g)} of {lot.name}" for lot in lots if lot.reserve_g]
    if kept:
        yield f"Keep back first: {join_words(kept)}."


def _batts(answer: Answer) -> Iterator[str]:
    for at, (name, mix, near) in enumerate(batt_words(answer)):
        if not at:
            yield "To card together first"
        yield f"  {name}: {mix}; its colour {near}"
    if colours := carded_colours(answer):
        yield str(colours)
    for at, (name, mix) in enumerate(drafted_words(answer)):
        if not at:
            yield "Held side by side and drafted together, both colours in the single"
        yield f"  {name}: {mix}"


def _single(answer: Answer, k: int) -> str:
    filled, portions = answer.resolved, answer.layout.portions
    on_it = answer.put_g[portions.of_ply(k)].sum()
    wound = int(filled.wound_off[k])
    off = "straight from the bobbin" if wound == 0 else f"wound off {_times(wound)}"
    length = metres_told(answer, portions.single_m[k])
    strands = int(filled.yarn.strands[k])
    single = f"{length} of single"
    if strands > 1:
        single = f"{strands} strands of {length} side by side: divide each portion by {strands}"
    weight = f"{filled.say.on_scale(on_it, filled.step_g)} {filled.say.mass.unit}"
    return f"{weight}, {single}, {off}"


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


def _row(answer: Answer, row: Row, columns: int) -> str:
    step, name = answer.resolved.step_g, padded(answer.plan.names[row.lot], columns)
    say, words = answer.say, row_and_stripe_words(answer, row)
    total, unit = say.on_scale(row.on_bobbin_g, step), say.mass.unit
    number = row.number or "+"
    if row.from_heap:
        return f"  {number:>3}  {name}  {'heap':>8}  {' ' * len(unit)} {total:>9} {unit}  {words}"
    mass = say.on_scale(answer.put_g[row.at] if row.weigh_g is None else row.weigh_g, step)
    return f"  {number:>3}  {name}  {mass:>8} {unit}  {total:>9} {unit}  {words}"


def _heap(answer: Answer, heap: Heap, columns: int) -> str:
    name, say = padded(answer.plan.names[heap.lot], columns), answer.say
    mass = f"{say.on_scale(heap.weigh_g, answer.resolved.step_g):>8} {say.mass.unit}"
    mass = " " * len(mass) if heap.is_pinch else mass
    return f"       {name}  {mass}  {'':>9} {' ' * len(say.mass.unit)}  heap: {heap_words(heap)}"


def _advice(answer: Answer) -> Iterator[str]:
    advice = advice_on(answer)
    yield "Advice" if advice else no_advice(answer)
    for number, item in enumerate(advice, 1):
        yield from wrap(
            item.text, _WIDTH, initial_indent=f"  {number}. ", subsequent_indent="     "
        )


def _drift(answer: Answer) -> Iterator[str]:
    lines = drift_lines(answer)
    if lines:
        yield "What hands do to it"
    for line in lines:
        yield from wrap(line, _WIDTH, initial_indent="  ", subsequent_indent="  ")


def _notes(answer: Answer) -> Iterator[str]:
    assumed = assumption_sentences(answer)
    if assumed:
        text = "Taken for granted: " + "; ".join(assumed) + "."
        yield from wrap(text, _WIDTH)
