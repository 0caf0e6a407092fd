"""Why captions of pictures say what they say: what is shown of the yarn, and how large a piece."""

from yarncolor.answers.answer import Answer
from yarncolor.pictures.view import Rendered
from yarncolor.report.why import sources
from yarncolor.report.why.reason import Reason, Source
from yarncolor.report.why.seen import Seen, seen_in, together
from yarncolor.report.why.yarn import length_reason, thickness_reason
from yarncolor.report.why.yarn_seen import strip_seen

_CHOSEN = "beside the picture, or else so that it is seen whole and clear"
_LOOKED = "in Colour order, or else where the yarn first shows most colours"
_PART = (
    "the length that the stitches or picks shown take, from where the picture begins; in small, "
    "one stands for so many that the whole yarn is seen"
)
_PIECE = "as is chosen beside the picture, else as the plan has it, else a usual swatch"
_METHODS = {
    "row": ("one row", "the yarn’s length over the rows that are drawn"),
    "wraps": ("wraps on the card", "as many as lie on it side by side"),
    "every": ("one wrap for so much", "the yarn’s length over the wraps that are drawn"),
    "wound": ("yarn on the card", "wraps that are drawn, each once round it"),
    "turns": ("turns of the skein", "the yarn’s length over once round"),
    "ball": (
        "how wide the ball is",
        "a ball whose strands lie loosely and fill part of its room, so much yarn in it",
    ),
    "outside": ("on the outside of the ball", "what lies in the outermost layer that is drawn"),
    "sett": (
        "ends and picks",
        "as many picks as lie side by side when the cloth has room to bend, and fewer ends",
    ),
    "picks": ("picks drawn", "height of the picture over the room of one pick"),
    "part": ("yarn shown", _PART),
    "given": ("rows to come", "rows that the yarn is enough for, from where the picture begins"),
}


def picture_seen(answer: Answer, drawn: Rendered) -> tuple[Seen, ...]:
    """Return the figures of a picture's words with their reasons.

    Parameters
    ----------
    answer : Answer
        Whose picture it is.
    drawn : Rendered
        The picture.
    """
    told = seen_in([drawn.told], picture_reasons(answer))
    return together((*(one for one in told if one.words), *strip_seen(answer)))


def band_reasons(answer: Answer) -> dict[str, Reason]:
    """Return the reasons for the caption of the yarn in sight, by what a figure of it is of.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    """
    hand = Source("a hand’s breadth", "decided", "for every plan, or all of a yarn that is shorter")
    looked = Source("where one looks along the yarn", "decided", _LOOKED)
    return {
        "length": length_reason(answer),
        "shown": Reason("shown", (hand,)),
        "from": Reason("from where it is shown", (looked,)),
    }


def picture_reasons(answer: Answer) -> dict[str, Reason]:
    """Return the reasons for what captions say, by what a figure of them is of.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    """
    grist, gauge = sources.grist(answer), sources.gauge(answer)
    length = length_reason(answer)
    chosen = Source("what the picture shows", "decided", _CHOSEN)
    by_method = {
        of: Reason(figure, (chosen, *length.rests_on), (), method)
        for of, (figure, method) in _METHODS.items()
    }
    piece = [sources.size(answer, key, key) for key in ("stitches", "rows")]
    return {
        **by_method,
        "length": length,
        "shown": Reason("shown", (chosen,)),
        "from": Reason("from where it is shown", (chosen,)),
        "distance": Reason("from how far it is seen", (chosen,)),
        "single": Reason("how thick the single is", (grist,)),
        "wpi": thickness_reason(answer, "wraps to the inch"),
        "stitches": Reason("stitches", (chosen, *piece), (), _PIECE),
        "rows": Reason("rows", (chosen, *piece), (), _PIECE),
        "size": Reason("size", (gauge, *piece), (), "stitches and rows over the gauge"),
    }
