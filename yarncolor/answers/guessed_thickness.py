"""On what every length hangs while nobody said how thick the single is."""

from yarncolor.answers.answer import Answer, Preview
from yarncolor.layout.assumptions import Why
from yarncolor.layout.layout import Layout


def if_single_is(laid: Preview | Layout) -> str:
    """Return the thickness that was guessed, in words; nothing where it was given or measured."""
    grist = [one for one in laid.resolved.assumptions if one.key == "single_tex"]
    measured = _measured(laid if isinstance(laid, Layout) else laid.layout)
    if any(one.why is not Why.USUAL for one in grist) or (measured and all(measured)):
        return ""
    where = " where it was not measured" if any(measured) else ""
    thick = laid.say.fineness(1000 / grist[0].value[0], 0)
    return f"if your single is about {thick}{where}"


def about(laid: Preview | Layout) -> str:
    """Return what stands before metres that hang on a guess, away from where that is said."""
    return "about " if if_single_is(laid) else ""


def metres_told(laid: Preview | Layout, length_m: float) -> str:
    """Return a length in words; about, where it hangs on a guess.

    Parameters
    ----------
    laid : Preview or Layout
        Whose length it is.
    length_m : float
        As it is reckoned.
    """
    return f"{about(laid)}{laid.say.long(length_m)}"


def length_hangs(laid: Preview | Layout) -> str:
    """Return on what a length hangs, after a comma behind it; nothing where on nothing."""
    hangs_on = if_single_is(laid)
    return f", {hangs_on}" if hangs_on else ""


def hours_hang(answer: Answer) -> str:
    """Return on what hours by twist and treadling hang, behind a caption; else nothing."""
    takes, hangs_on = answer.hours, if_single_is(answer)
    by_metres = takes.source == "derived" or takes.plying_h is not None
    return f"; hours {hangs_on}" if hangs_on and by_metres else ""


def _measured(laid: Layout) -> list[bool]:
    """Return of which singles the thickness is measured well enough to go by; none unspun."""
    return [] if laid.wheel is None else [one.holds for one in laid.wheel.grist]


def metres_hang(laid: Preview | Layout) -> str:
    """Return on what the metres of a table hang, behind its caption; nothing where on nothing."""
    hangs_on = if_single_is(laid)
    return f"; {laid.say.length.plural} {hangs_on}" if hangs_on else ""
