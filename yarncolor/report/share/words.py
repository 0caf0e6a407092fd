"""What a sheet to share says of its yarn, in a line."""

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import about, metres_told
from yarncolor.layout.layout import in_words
from yarncolor.phrases import capital
from yarncolor.units import METRES_PER_YARD, m_per_100g


def facts(answer: Answer) -> tuple[str, ...]:
    """Return a yarn in few words each: scheme and plies, fibre, length, grams, grist.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    """
    laid = answer.layout
    long_m, fibres = laid.stretches.yarn_m, {lot.fibre for lot in answer.plan.lots}
    yards = f"{long_m / METRES_PER_YARD:.0f} yd"
    return (
        capital(in_words(laid)),
        *(
            [" ".join(fibre.split()) for fibre in fibres]
            if len(fibres) == 1 and all(fibres)
            else []
        ),
        f"{metres_told(laid, long_m)} ({yards}), {laid.yarn_g:.0f} g",
        f"{about(laid)}{m_per_100g(laid.yarn_tex):.0f} m in 100 g",
    )
