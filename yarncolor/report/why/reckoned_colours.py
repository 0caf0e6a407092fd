"""Why lots of a plan that are made from others have their colours: carded, drafted, dyed paler."""

from collections.abc import Iterator

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.plan import Lot
from yarncolor.report.why import equations_of_colour as by
from yarncolor.report.why import sources
from yarncolor.report.why.equation import Working
from yarncolor.report.why.one_band import BATH, bath_lines, batt_words, carded_lines, fibres
from yarncolor.report.why.reason import Reason, Source
from yarncolor.report.why.seen import Seen

_DRAFTED = "the mean of the light of its lots, by parts; the single shows each of them"
_OWN_BATH = "photograph this bath dry, and give the lot the colour that is read"


def reckoned_seen(answer: Answer) -> tuple[Seen, ...]:
    """Return the colours of lots that are made from others, each with its reason.

    Of the carded steps of a gradient, which are all alike, the first alone is told.
    """
    return tuple(
        Seen(f"{lot.name}, {answer.palette.srgb[at]}", _reason(answer, lot))
        for at, lot in _made(answer)
    )


def _made(answer: Answer) -> Iterator[tuple[int, Lot]]:
    steps = 0
    for at, lot in enumerate(answer.plan.lots):
        steps += lot.is_step
        if lot.made_from and not (lot.is_step and steps > 1):
            yield at, lot


def _reason(answer: Answer, lot: Lot) -> Reason:
    figure, colours = "its colour, reckoned", sources.colours(answer)
    if lot.bath is not None:
        return Reason(figure, (colours, _takes()), tuple(_dyed(answer, lot)), BATH)
    recipe = Source("its recipe", "decided")
    if lot.drafted is not None:
        return Reason(figure, (colours, recipe), (), _DRAFTED)
    names, parts = zip(*lot.recipe, strict=True)
    lines = tuple(carded_lines(names, _lab(answer, names), parts))
    return Reason(figure, (colours, fibres(answer), recipe), lines, batt_words())


def _takes() -> Source:
    return Source("what a bath takes up", "decided", "with the lot", _OWN_BATH, sources.PHOTOGRAPHS)


def _dyed(answer: Answer, lot: Lot) -> Iterator[Working]:
    """Yield how much dye is left for a later bath, and what it makes of the fibre."""
    bath = lot.bath
    if bath is None:
        return
    values = {"exhaustion": bath.exhaustion, "baths_before": bath.number - 1}
    left = Working(by.LEFT_AFTER, values, "", "dye left")
    yield left
    names = (bath.of, bath.undyed)
    yield from bath_lines(names, _lab(answer, names), left.result)


def _lab(answer: Answer, names: tuple[str, ...]) -> np.ndarray:
    """Return CIELAB (lots, 3) of lots by their names."""
    return answer.palette.lab[[answer.plan.names.index(name) for name in names]]
