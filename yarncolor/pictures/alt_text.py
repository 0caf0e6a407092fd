"""A yarn in words, where a picture cannot be seen: from its numbers."""

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import length_hangs
from yarncolor.layout.layout import in_words
from yarncolor.phrases import percent


def strip_alt(answer: Answer) -> str:
    """Return the text alternative of the strip, from its numbers."""
    shares = answer.shares
    laid = answer.layout
    matched = f"matched {_over(shares[0])}"
    many = f", all plies different {_over(shares[-1])}" if shares[-1] and len(shares) > 1 else ""
    lots = len(np.unique(laid.portions.lot))
    colours = f"{lots} colours" if lots > 1 else "one colour"
    return (
        f"{in_words(laid).capitalize()}, {laid.say.long(laid.stretches.yarn_m)} of yarn "
        f"in {colours}{length_hangs(answer)}; {matched}{many}."
    )


def whole_in_words(answer: Answer) -> str:
    """Return a yarn in words: scheme, plies, length, how much of it is matched."""
    shares = answer.shares
    matched = f"; matched {_over(shares[0])}" if len(shares) > 1 else ""
    long = answer.say.long(answer.layout.stretches.yarn_m)
    return f"{in_words(answer.layout).capitalize()}, {long}{length_hangs(answer)}{matched}"


def _over(share: float) -> str:
    if share in (0, 1):
        return "over its whole length" if share else "nowhere"
    return f"over {percent(share)} of its length"
