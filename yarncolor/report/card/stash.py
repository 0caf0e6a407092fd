"""The card's stash: what to card of each lot, and how to divide it over plies and repeats."""

from dataclasses import dataclass, replace

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.by_hand import (
    ByScale,
    HandDivision,
    OnStrip,
    Rolags,
    hand_division,
    nearest_rolags,
    rolags_to_divide,
)
from yarncolor.answers.fibre import batts
from yarncolor.defaults import taken_by_blends_g
from yarncolor.layout.layout import used_g
from yarncolor.layout.portions import Portions
from yarncolor.measures import Measures
from yarncolor.phrases import in_fractions, join_words
from yarncolor.report.weigh_out_words import hand_words, rest_words

_TENTH_G = 0.1

Shared = tuple[tuple[str, str], ...]
"""What a ply gets and which plies get it: (("6", "each ply"),)."""


@dataclass(frozen=True)
class Stashed:
    """One lot of the stash, in the words and grams of the card.

    Parameters
    ----------
    lot : int
        Index in the stash.
    card, keep_back, divide, over, blends : str
        Grams: to card, in reserve, to divide after carding and of those not spun, and what goes
        into blends and later baths; "" for none.
    rest : str
        What stays over because the scale cannot show it, with its unit; "" for none.
    into : str
        Which of the two, in words.
    mix : tuple
        What a blend is carded from: grams and lot of each.
    mixed_by : str
        How it is made from those, in words.
    rolags : str
        How many are used, where they were counted.
    plies, pieces : Shared
        What each ply gets, then in how many pieces each ply has it.
    would_divide : int or None
        Where hands cannot divide the rolags: the nearest number that they can.
    """

    lot: int
    card: str
    keep_back: str
    divide: str
    over: str
    blends: str
    rest: str
    into: str
    mix: tuple[tuple[str, int], ...]
    mixed_by: str
    rolags: str
    plies: Shared
    pieces: Shared
    would_divide: int | None


def stash(answer: Answer) -> list[Stashed]:
    """Return every lot of a plan, in file order."""
    step, shares, fine_g = answer.resolved.step_g, _shares(answer), _fine_g(answer)
    carded, divided = _carded_g(answer), answer.resolved.to_divide_g
    rests = rest_words(answer)
    over, blends = divided - used_g(answer.layout), taken_by_blends_g(answer.plan)
    return [
        Stashed(
            lot=at,
            card=_some(answer.say, carded[at], fine_g),
            keep_back=_some(answer.say, lot.reserve_g, step),
            divide=_some(answer.say, divided[at], step),
            over=_some(answer.say, over[at], step),
            blends=_some(answer.say, blends[at], step),
            rest=rests[at],
            into=_into(answer, lot.name),
            mix=_mix(answer, at),
            mixed_by="drafted side by side from" if lot.drafted is not None else "carded from",
            rolags=_rolags(answer, at),
            plies=_over_plies(answer, shares, at),
            pieces=_over_repeats(answer, shares, at),
            would_divide=_would_divide(answer, at),
        )
        for at, lot in enumerate(answer.plan.lots)
    ]


def shared_words(item: Stashed) -> str:
    """Return how a lot is divided over plies and pieces, in one line; "" where it is not spun."""
    counted = f"{item.rolags}: " if item.rolags and item.plies else ""
    over_plies = "; ".join(f"{text} for {who}" if who else text for text, who in item.plies)
    pieces = "; ".join(f"{who}: {text}" if who else text for text, who in item.pieces)
    return f"{counted}{over_plies}, then {pieces}" if pieces else f"{counted}{over_plies}"


def _into(answer: Answer, name: str) -> str:
    lots = answer.plan.lots
    blends = any(name == each for lot in lots for each, _ in lot.blend or ())
    drafted = any(name == each for lot in lots for each, _ in lot.drafted or ())
    baths = any(lot.bath is not None and lot.bath.takes_from == name for lot in lots)
    told = ["blends"] * blends + ["what is drafted"] * drafted + ["later baths"] * baths
    return join_words(told) if told else ""


def totals(answer: Answer) -> tuple[str, str]:
    """Return grams to card and grams in all portions."""
    in_all_g, step = _carded_g(answer).sum(), answer.resolved.step_g
    say = answer.say
    return say.on_scale(in_all_g, _fine_g(answer)), say.on_scale(answer.put_g.sum(), step)


def _fine_g(answer: Answer) -> float:
    """Return to what lots are told: as the scale shows, and finer where it leaves some over."""
    step_g = answer.resolved.step_g
    return min(step_g, _TENTH_G) if any(rest_words(answer)) else step_g


def plies_in_words(numbers: list[int], plies: int) -> str:
    """Return ply numbers as a spinner would say them; nothing where there is but one.

    Parameters
    ----------
    numbers : list of int
        Plies, from 1.
    plies : int
        How many there are.
    """
    if len(numbers) == plies:
        return "each ply" if plies > 1 else ""
    words = [str(number) for number in numbers]
    if len(words) == 1:
        return f"ply {words[0]}"
    return f"plies {', '.join(words[:-1])} and {words[-1]}"


@dataclass(frozen=True)
class _Shares:
    """What each ply gets of each lot, as portions of their own, in how many pieces."""

    of: Portions
    by_hand: list[HandDivision]
    pieces: np.ndarray
    alike: np.ndarray


def _shares(answer: Answer) -> _Shares:
    portions, put = answer.layout.portions, answer.put_g
    key = portions.ply * len(answer.plan.lots) + portions.lot
    _, first, into, pieces = np.unique(
        key, return_index=True, return_inverse=True, return_counts=True
    )
    mass, weigh = (np.bincount(into, each).astype(float) for each in (portions.mass_g, put))
    largest = np.zeros(len(first))
    np.maximum.at(largest, into, portions.mass_g)
    shares = replace(portions.take(first), mass_g=mass, weigh_g=weigh)
    by_hand = hand_division(replace(answer.layout, portions=shares))
    return _Shares(shares, by_hand, pieces, largest * pieces <= mass * (1 + 1e-9))


def _over_plies(answer: Answer, shares: _Shares, at: int) -> Shared:
    """Return what each ply gets of a lot: as hands divide it, or in grams."""
    if _is_on_strips(answer, at):
        return (("on the strips of the braid", ""),)
    texts, say = {}, answer.say
    for one in np.flatnonzero(shares.of.lot == at):
        weigh = say.on_scale(shares.of.weigh_g[one], answer.resolved.step_g)
        weigh = f"{weigh}\N{NO-BREAK SPACE}{say.mass.unit}"
        texts[int(shares.of.ply[one])] = _divided(shares.by_hand[one]) or weigh
    return _together(texts, len(answer.resolved.tex))


def _is_on_strips(answer: Answer, lot: int) -> bool:
    """Return whether a lot is never parted from the strips of a braid."""
    own = np.flatnonzero(answer.layout.portions.lot == lot)
    return len(own) > 0 and all(isinstance(answer.by_hand[at], OnStrip) for at in own)


def _divided(division: HandDivision) -> str:
    """Return how hands divide a lot, behind how many rolags it has; nothing where they cannot."""
    if isinstance(division, Rolags):
        return in_fractions(float(division.count))
    return "" if isinstance(division, ByScale) else hand_words(division)


def _over_repeats(answer: Answer, shares: _Shares, at: int) -> Shared:
    """Return in how many pieces each ply has a lot; nothing where every ply has it whole."""
    if _is_on_strips(answer, at):
        return ()
    texts = {}
    for one in np.flatnonzero(shares.of.lot == at):
        whole, k = shares.pieces[one] == 1, int(shares.of.ply[one])
        kind = _kind(answer, k, at) if shares.alike[one] else "pieces, larger and smaller"
        texts[k] = "whole" if whole else f"{shares.pieces[one]} {kind}"
    return () if set(texts.values()) == {"whole"} else _together(texts, len(answer.resolved.tex))


def _kind(answer: Answer, k: int, lot: int) -> str:
    """Return what equal pieces of a lot on a ply are called: as their rows say, by hand or scale.

    Where a lot's total does not come out even on the scale, that is said: hands are nearer.
    """
    rows = [row for row in answer.weigh_out[k].rows if row.lot == lot and row.weigh_g is not None]
    weighed = sorted(
        {answer.say.on_scale(row.weigh_g or 0.0, answer.resolved.step_g) for row in rows},
        key=float,
    )
    if any(isinstance(row.by_hand, ByScale) for row in rows):
        return "equal pieces, by the scale"
    if len(weighed) < 2:
        return "equal pieces"
    return f"equal pieces by hand, {' and '.join(weighed)} {answer.say.mass.unit} by the scale"


def _together(texts: dict[int, str], plies: int) -> Shared:
    same: dict[str, list[int]] = {}
    for k, text in texts.items():
        same.setdefault(text, []).append(k + 1)
    return tuple((text, plies_in_words(numbers, plies)) for text, numbers in same.items())


def _carded_g(answer: Answer) -> np.ndarray:
    """Return grams of each lot to card: all there is to divide, or nothing if it is not used."""
    all_of_it = answer.resolved.to_divide_g / (1 - answer.resolved.card_loss)
    return np.where(used_g(answer.layout) > 0, all_of_it, 0.0)


def _some(say: Measures, mass_g: float, step_g: float) -> str:
    """Return grams, or nothing where the scale would show none."""
    shown = say.on_scale(mass_g, step_g)
    return shown if float(shown) > 0 else ""


def _mix(answer: Answer, at: int) -> tuple[tuple[str, int], ...]:
    step = answer.resolved.step_g
    parts = [part for batt in batts(answer) if batt.lot == at for part in batt.parts]
    return tuple((answer.say.on_scale(part.mass_g, step), part.lot) for part in parts)


def _rolags(answer: Answer, at: int) -> str:
    count = rolags_to_divide(answer.resolved, at)
    if not count:
        return ""
    used = count * used_g(answer.layout)[at] / answer.resolved.to_divide_g[at]
    part = "" if abs(used - count) < 1e-9 * count else f"{in_fractions(used)} of "
    return f"{part}{in_fractions(count)} rolag{'s' if count != 1 else ''}"


def _would_divide(answer: Answer, at: int) -> int | None:
    count, own = rolags_to_divide(answer.resolved, at), answer.layout.portions.lot == at
    needs_a_scale = any(isinstance(answer.by_hand[one], ByScale) for one in np.flatnonzero(own))
    if not count or not needs_a_scale:
        return None
    shares = np.unique(answer.layout.portions.mass_g[own]) / answer.resolved.to_divide_g[at]
    return nearest_rolags(count, shares)
