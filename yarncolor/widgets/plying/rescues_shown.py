"""The yarns that can still be made, as the section at the plying wheel shows them."""

from base64 import b64encode

from yarncolor.answers.answer import Answer
from yarncolor.answers.guessed_thickness import about
from yarncolor.answers.rescues import RescuedYarn, as_answer
from yarncolor.phrases import title_of
from yarncolor.pictures.png import png_bytes
from yarncolor.pictures.rescues import rescue_picture
from yarncolor.report.rescue_hands import hands_lines, rescue_words
from yarncolor.report.rescues_text import worth_text
from yarncolor.widgets.protocol.plying import RescueShown

_SHOWN_PX = 540


def rescues_shown(answer: Answer, yarns: tuple[RescuedYarn, ...]) -> list[RescueShown]:
    """Return every rescue with its picture, all on one scale.

    Parameters
    ----------
    answer : Answer
        To the plan.
    yarns : tuple of RescuedYarn
        What can still be made.
    """
    longest_m = max((one.extra_m for one in yarns), default=0.0)
    return [
        {
            "name": rescue_words(answer, one),
            "worth": worth_text(answer, one),
            "hands": list(hands_lines(answer, one)),
            "picture": _picture(answer, one, longest_m),
            "alt": _alt(answer, one),
        }
        for one in yarns
    ]


def _picture(answer: Answer, one: RescuedYarn, longest_m: float) -> str:
    """Return the picture as the address of an image; empty where nothing is plied."""
    if not one.plies:
        return ""
    image = rescue_picture(answer, as_answer(answer, one), longest_m, _SHOWN_PX)
    png = png_bytes(image, title_of(answer.plan), _alt(answer, one))
    return f"data:image/png;base64,{b64encode(png).decode()}"


def _alt(answer: Answer, one: RescuedYarn) -> str:
    if one.along is None:
        return ""
    names = answer.plan.names
    lots = dict.fromkeys(names[lot] for lot in one.along.lot.ravel().tolist())
    more = f"{about(answer)}{answer.say.length(one.extra_m)} more"
    return f"The end of the yarn, and beside it {more}: {', '.join(lots)}."
