"""On what every length hangs while nobody said how thick the single is."""

from yarncolor.answers.answer import Preview
from yarncolor.layout.assumptions import Why
from yarncolor.layout.layout import Layout


def if_single_is(laid: Preview | Layout) -> str:
    """Return the thickness that was guessed, in words; nothing where it was given."""
    grist = [one for one in laid.resolved.assumptions if one.key == "single_tex"]
    if any(one.why is not Why.USUAL for one in grist):
        return ""
    return f"if your single is about {1000 / grist[0].value[0]:.0f} m/g"


def metres_hang(laid: Preview | Layout) -> str:
    """Return on what the metres of a table hang, behind its caption; nothing where on nothing."""
    hangs_on = if_single_is(laid)
    return f"; metres {hangs_on}" if hangs_on else ""
