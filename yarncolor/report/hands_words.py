"""What hands do otherwise under a choice, in words."""

from collections.abc import Iterator, Sequence
from typing import TypeVar

from yarncolor.answers.choice import Choice
from yarncolor.answers.choices import Replan
from yarncolor.answers.hands import (
    Deed,
    DrawOff,
    Finer,
    HeapChanged,
    RowChanged,
    SpinNext,
    what_hands_do,
)
from yarncolor.phrases import join_words, percent, ply_words
from yarncolor.units import m_per_100g

_MOST_ROWS = 4
_TOLD = 0.005
_Kind = TypeVar("_Kind", bound=Deed)


def hands_text(found: Replan, choice: Choice) -> str:
    """Return what the hands do: how they spin, which rows change, what is drawn off.

    Parameters
    ----------
    found : Replan
        Every way to go on.
    choice : Choice
        One of them.
    """
    deeds = what_hands_do(found.choices[0], choice)
    told = [*_drawn(found, deeds), *_by_grist(found, deeds), *_of_plies(found, choice, deeds)]
    return "; ".join(told) if told else "change nothing"


def _of(kind: type[_Kind], deeds: Sequence[Deed], ply: int | None = None) -> list[_Kind]:
    return [one for one in deeds if isinstance(one, kind) and ply in (None, one.ply)]


def _drawn(found: Replan, deeds: Sequence[Deed]) -> Iterator[str]:
    long = found.answer.say.long
    for one in _of(DrawOff, deeds):
        yield (
            f"draw {long(one.length_m)} off the outer end of {_ply(found, one.ply)}"
            f"{' before plying' if found.answer.resolved.yarn.plies > 1 else ''}"
        )


def _by_grist(found: Replan, deeds: Sequence[Deed]) -> Iterator[str]:
    plies: dict[str, list[str]] = {}
    for one in _of(Finer, deeds):
        now, then = m_per_100g(one.tex * one.factor), m_per_100g(one.tex)
        how = "finer" if one.factor > 1 else "thicker"
        say = found.answer.say
        grist = f"{say.grist(then, 0)}, not {say.grist.number(now, 0)} {say.length.unit}"
        told = f"{how}, the {say.mass.plural} as they are: {grist}"
        plies.setdefault(told, []).append(_ply(found, one.ply))
    for told, named in plies.items():
        yield f"from here on spin {join_words(named)} {told}"


def _of_plies(found: Replan, choice: Choice, deeds: Sequence[Deed]) -> Iterator[str]:
    """Yield, ply by ply, what is spun beside the rows, and which rows and heaps change."""
    for k in range(len(choice.factors)):
        ply = _ply(found, k)
        beside, rows = _of(SpinNext, deeds, k), _of(RowChanged, deeds, k)
        if beside:
            pieces = [f"{_grams(found, one.mass_g)} of {_lot(found, one.lot)}" for one in beside]
            yield f"spin next on {ply}: {join_words(pieces)}"
        if len(rows) > _MOST_ROWS:
            yield f"{ply}: {len(rows)} rows from row {rows[0].row} on{_in_all(choice, k)}"
        elif rows:
            yield f"{ply}: {join_words([_row(found, one) for one in rows])}"
        for heap in _of(HeapChanged, deeds, k):
            yield (
                f"{ply}: what is weighed together of {_lot(found, heap.lot)} comes to "
                f"{_grams(found, heap.after_g)}, not {_grams(found, heap.before_g)}"
            )


def _in_all(choice: Choice, k: int) -> str:
    change = float(choice.factors[k]) - 1
    if abs(change) < _TOLD:
        return f" take other {choice.laid.say.mass.plural}, as the card of this way says"
    return f", {percent(abs(change))} {'longer' if change > 0 else 'shorter'} in all"


def _row(found: Replan, one: RowChanged) -> str:
    if one.after_g is None:
        return f"row {one.row} is not spun"
    after = _grams(found, one.after_g) if one.after_g else "a pinch"
    return f"row {one.row} takes {after} of {_lot(found, one.lot)}, not {_before(found, one)}"


def _before(found: Replan, one: RowChanged) -> str:
    return _grams(found, one.before_g) if one.before_g else "a pinch"


def _ply(found: Replan, k: int) -> str:
    return ply_words(k, len(found.choices[0].factors))


def _grams(found: Replan, mass_g: float) -> str:
    say = found.answer.say
    return f"{say.on_scale(mass_g, found.answer.resolved.step_g)} {say.mass.unit}"


def _lot(found: Replan, lot: int) -> str:
    return found.answer.plan.names[lot]
