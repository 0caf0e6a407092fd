"""A plan in words, for a terminal or the plain text of a notebook."""

from collections.abc import Iterator
from textwrap import wrap

import numpy as np

from yarncolor.answers import by_hand
from yarncolor.answers.answer import Answer, batts
from yarncolor.answers.bobbins import thing_of_ply
from yarncolor.phrases import grams, join_words, metres
from yarncolor.pictures.strip import strip_alt
from yarncolor.report.advice import advice_on
from yarncolor.report.yarn_lines import yarn_lines

_WIDTH = 88


def summary_text(answer: Answer) -> str:
    """Return what to spin on each bobbin, the yarn, how the plies meet, and the advice."""
    plan = answer.plan
    head = [plan.title or "Untitled plan", strip_alt(answer)]
    parts = [
        head,
        list(_kept_back(answer)),
        list(_batts(answer)),
        list(lost_lines(answer)),
        list(_bobbins(answer)),
        list(yarn_lines(answer)),
        list(_advice(answer)),
        list(_notes(answer)),
    ]
    return "\n\n".join("\n".join(part) for part in parts if part) + "\n"


def weigh_out_text(answer: Answer) -> str:
    """Return the order for each bobbin, with grams and words."""
    return "\n".join([*lost_lines(answer), *_bobbins(answer)])


def lost_lines(answer: Answer) -> Iterator[str]:
    """Return what is lost on the way, beside the grams that are weighed out."""
    settled, weighed_g = answer.resolved, float(answer.layout.portions.mass_g.sum())
    if settled.card_loss:
        raw_g = weighed_g / (1 - settled.card_loss)
        yield (
            f"Before carding {raw_g:.1f} g, as {settled.card_loss:.1%} is lost there; "
            "what stands below is weighed after it."
        )
    if settled.spin_loss:
        spun_g = weighed_g * (1 - settled.spin_loss)
        yield (
            f"Weighed out {weighed_g:.1f} g, before spinning; {settled.spin_loss:.1%} is lost at "
            f"the wheel, so {spun_g:.1f} g come onto the bobbins."
        )


def _bobbins(answer: Answer) -> Iterator[str]:
    portions, filled = answer.layout.portions, answer.resolved
    many = len(filled.tex) > 1
    wide = max(len(name) for name in answer.plan.names)
    for k in range(len(filled.tex)):
        own = portions.of_ply(k)
        name = (
            f"{thing_of_ply(answer.layout)} {k + 1} of {len(filled.tex)}"
            if many
            else "The one bobbin"
        )
        yield f"{'' if k == 0 else chr(10)}{name}, in spinning order ({_single(answer, k)})"
        repeats = portions.repeat[own]
        running = 0.0
        for row, at in enumerate(range(own.start, own.stop)):
            if row and repeats[row] != repeats[row - 1]:
                yield f"  {'-' * (wide + 42)}"
            running += 0.0 if np.isnan(portions.weigh_g[at]) else portions.weigh_g[at]
            yield _row(answer, row, at, wide, running)
        yield from _heaps_of(answer, k, wide)


def _kept_back(answer: Answer) -> Iterator[str]:
    kept = [f"{lot.reserve_g:.1f} g of {lot.name}" for lot in answer.plan.lots if lot.reserve_g]
    if kept:
        yield f"Keep back first: {join_words(kept)}."


def _batts(answer: Answer) -> Iterator[str]:
    for at, (name, parts) in enumerate(batts(answer)):
        if not at:
            yield "To card together first"
        mix = " and ".join(f"{mass:.1f} g of {source}" for source, mass in parts)
        yield f"  {name}: {mix}"


def _single(answer: Answer, k: int) -> str:
    filled, portions = answer.resolved, answer.layout.portions
    mass = portions.mass_g[portions.of_ply(k)].sum()
    wound = int(filled.wound_off[k])
    off = "straight from the bobbin" if wound == 0 else f"wound off {_times(wound)}"
    length, strands = metres(portions.single_m[k]), int(filled.yarn.strands[k])
    single = f"{length} of single"
    if strands > 1:
        single = f"{strands} strands of {length} side by side: divide each portion by {strands}"
    return f"{grams(mass, 0.1)} g, {single}, {off}"


def _times(count: int) -> str:
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


def _row(answer: Answer, row: int, at: int, wide: int, running: float) -> str:
    portions, step = answer.layout.portions, answer.resolved.step_g
    name = answer.plan.names[portions.lot[at]].ljust(wide)
    if np.isnan(portions.weigh_g[at]):
        return f"  {row + 1:>3}  {name}  {'heap':>8}  {'':>13}  a piece of the heap"
    mass, total = grams(portions.weigh_g[at], step), grams(running, step)
    return f"  {row + 1:>3}  {name}  {mass:>8} g  {total:>9} g  {answer.words[at]}"


def _heaps_of(answer: Answer, k: int, wide: int) -> Iterator[str]:
    heaps, masses = answer.heaps, answer.layout.portions.mass_g
    for at in np.flatnonzero(heaps.ply == k):
        weigh, name = heaps.weigh_g[at], answer.plan.names[heaps.lot[at]].ljust(wide)
        words = by_hand.heap_words(weigh, masses[heaps.group == at])
        mass = f"{grams(weigh, answer.resolved.step_g):>8} g" if weigh else " " * 10
        yield f"       {name}  {mass}  {'':>11}  heap: {words}"


def _advice(answer: Answer) -> Iterator[str]:
    told = advice_on(answer)
    yield "Advice" if told else "Nothing to mend."
    for number, item in enumerate(told, 1):
        yield from wrap(
            item.text, _WIDTH, initial_indent=f"  {number}. ", subsequent_indent="     "
        )


def _notes(answer: Answer) -> Iterator[str]:
    if answer.assumptions:
        text = "Taken for granted: " + "; ".join(answer.assumptions) + "."
        yield from wrap(text, _WIDTH)
