"""What a sheet to share says of its yarn, in a line."""

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import about, metres_told
from yarncolor.layout.layout import in_words
from yarncolor.measures import IMPERIAL
from yarncolor.phrases import capital


def facts(answer: Answer) -> tuple[str, ...]:
    """Return a yarn in few words each: scheme and plies, fibre, length and mass, grist.

    In metres its length is said in yards too, by which many patterns are written.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    """
    laid, say = answer.layout, answer.say
    fibres = {lot.fibre for lot in answer.plan.lots}
    fibre = " ".join(fibres.pop().split()) if len(fibres) == 1 else ""
    long_m = laid.stretches.yarn_m
    yards = "" if say is IMPERIAL else f" ({IMPERIAL.long(long_m)})"
    told = (
        capital(in_words(laid)),
        fibre,
        f"{metres_told(laid, long_m)}{yards}, {say.mass(laid.yarn_g, 0)}",
        f"{about(laid)}{say.yarn(laid.yarn_tex)}",
    )
    return tuple(filter(None, told))
