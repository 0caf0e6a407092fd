"""A yarn in words, where a picture cannot be seen: from its numbers."""

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import if_single_is
from yarncolor.layout.layout import in_words
from yarncolor.phrases import metres, percent


def strip_alt(answer: Answer) -> str:
    """Return the text alternative of the strip, from its numbers."""
    shares = answer.shares
    laid = answer.layout
    matched = f"matched {_over(shares[0])}"
    many = f", all plies different {_over(shares[-1])}" if shares[-1] and len(shares) > 1 else ""
    lots = len(np.unique(laid.portions.lot))
    colours = f"{lots} colours" if lots > 1 else "one colour"
    return (
        f"{in_words(laid).capitalize()}, {metres(laid.stretches.yarn_m)} of yarn "
        f"in {colours}{_guess(answer)}; {matched}{many}."
    )


def whole_in_words(answer: Answer) -> str:
    """Return a yarn in words: scheme, plies, length, how much of it is matched."""
    shares = answer.shares
    matched = f"; matched {_over(shares[0])}" if len(shares) > 1 else ""
    yarn_m = metres(answer.layout.stretches.yarn_m)
    return f"{in_words(answer.layout).capitalize()}, {yarn_m}{_guess(answer)}{matched}"


def _guess(answer: Answer) -> str:
    """Return on what its length hangs, where the thickness of the single is a guess."""
    hangs_on = if_single_is(answer)
    return f", {hangs_on}" if hangs_on else ""


def _over(share: float) -> str:
    if share in (0, 1):
        return "over its whole length" if share else "nowhere"
    return f"over {percent(share)} of its length"
