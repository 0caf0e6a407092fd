"""A lot of which more is taken than there is: what happened, what is short, what helps."""

from collections.abc import Iterator, Sequence

import numpy as np

from yarncolor.answers.choice import FINEST
from yarncolor.answers.short_lots import ShortLot, short_lots
from yarncolor.layout.layout import Layout, left_g, reserve_g
from yarncolor.phrases import capital, is_seen, join_words, percent


def short_sentences(laid: Layout) -> list[str]:
    """Return for every lot that runs short what happened, and what helps."""
    shorts = short_lots(laid)
    return [
        _told(laid, short, _instead(laid, shorts[:at], short)) for at, short in enumerate(shorts)
    ]


def _instead(laid: Layout, before: Sequence[ShortLot], short: ShortLot) -> tuple[int, float] | None:
    """Return the lot that can stand in for one, and how much of it is over; None where none can.

    What stands in for one lot does not stand in for the next as well.

    Parameters
    ----------
    laid : Layout
        What is spun and to be spun.
    before : sequence of ShortLot
        Those that were told before.
    short : ShortLot
        The one that is told.
    """
    spare_g, found = left_g(laid), None
    for one in (*before, short):
        most = int(np.argmax(spare_g))
        found = (most, float(spare_g[most])) if spare_g[most] >= one.short_g else None
        if found is not None:
            spare_g[most] -= one.short_g
    return found


def short_notes(laid: Layout) -> dict[int, str]:
    """Return of each lot that more is taken of than there was, how much more, in a few words."""
    return {short.lot: _in_short(laid, short) for short in short_lots(laid)}


def _in_short(laid: Layout, short: ShortLot) -> str:
    if short.gone_in_g:
        return f"{_grams(laid, short.gone_in_g)} more than you had went in"
    if short.missing_g:
        return f"runs short by {_amount(laid, short)}"
    return f"takes {_grams(laid, short.from_reserve_g)} of what you kept back"


def runs_short(laid: Layout) -> str:
    """Return which lots rows to spin take more of than is left; nothing where all suffice."""
    told = [
        f"{_name(laid, short)} runs short by {_amount(laid, short)}"
        for short in short_lots(laid)
        if _is_seen(laid, short.short_g)
    ]
    return join_words(told) if told else ""


def _told(laid: Layout, short: ShortLot, instead: tuple[int, float] | None) -> str:
    name = _name(laid, short)
    if short.gone_in_g:
        return f"{name}: {_gone_in(laid, short, instead)}"
    kept = ", what you kept back counted" if short.reserve_g else ""
    if short.missing_g:
        return (
            f"{name} runs short by {_amount(laid, short)}: its rows to spin take "
            f"{_grams(laid, short.to_spin_g)}, and {_left(laid, short)}{kept}. "
            f"{_helps(laid, short, instead)}"
        )
    over, kept = _grams(laid, short.over_g), _grams(laid, short.reserve_g)
    if short.to_spin_g:
        what = f"what is spun and still to spin takes {over} more than there was to divide"
    else:
        what = f"{over} more than there was to divide went in"
    return f"{name}: {what}. That comes out of the {kept} you kept back."


def _left(laid: Layout, short: ShortLot) -> str:
    if not _is_seen(laid, short.left_g):
        return "none is left"
    return f"{_grams(laid, short.left_g)} are left"


def _gone_in(laid: Layout, short: ShortLot, instead: tuple[int, float] | None) -> str:
    kept = ", what you kept back counted" if short.reserve_g else ""
    more = f"{_grams(laid, short.gone_in_g)} more than you had went in{kept}."
    if not _is_seen(laid, short.to_spin_g):
        return f"{more} Nothing of it is still to spin; see whether a weight is written down wrong."
    rest = f"None is left for its rows to spin, which take {_grams(laid, short.to_spin_g)}."
    return f"{more} {rest} {_helps(laid, short, instead)}"


def _helps(laid: Layout, short: ShortLot, instead: tuple[int, float] | None) -> str:
    """Return what to do for rows to spin for which there is not enough."""
    return f"{capital('; or '.join(_ways(laid, short, instead)))}."


def _ways(laid: Layout, short: ShortLot, instead: tuple[int, float] | None) -> Iterator[str]:
    if short.left_g * FINEST >= short.to_spin_g:
        yield f"spin those rows {percent(short.to_spin_g / short.left_g - 1)} finer"
    if _is_seen(laid, short.left_g):
        yield f"weigh out {percent(short.left_g / short.to_spin_g)} of each of them"
    amount = _amount(laid, short)
    if instead is not None:
        most, over_g = instead
        name, over = laid.resolved.plan.names[most], _grams(laid, over_g)
        kept = ", what you kept back counted" if reserve_g(laid)[most] else ""
        yield f"take {amount} of {name} instead, of which {over} are over{kept}"
    yield f"make {amount} more of it"


def _name(laid: Layout, short: ShortLot) -> str:
    return laid.resolved.plan.names[short.lot]


def _amount(laid: Layout, short: ShortLot) -> str:
    """Return what is lacking: what is wanted less what is left, both as they are shown."""
    step_g = laid.resolved.step_g
    wanted, left = (laid.say.on_scale(g, step_g) for g in (short.to_spin_g, short.left_g))
    return _grams(laid, (float(wanted) - float(left)) * laid.say.mass.size)


def _grams(laid: Layout, mass_g: float) -> str:
    return laid.say.seen(mass_g, laid.resolved.step_g)


def _is_seen(laid: Layout, mass_g: float) -> bool:
    return is_seen(mass_g, laid.resolved.step_g)
