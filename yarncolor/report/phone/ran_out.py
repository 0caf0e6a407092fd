"""What can be done when a single runs out, in words that hold for every yarn: for the phone."""

from yarncolor.report.rescues_text import CAUTIONS

_BALL = "the end that goes to the yarn comes out of its middle, the far end lies outside."


def ran_out_words(plies: int) -> list[list[str]]:
    """Return each way by its name, and what the hands do; none for one single.

    Parameters
    ----------
    plies : int
        Singles that are plied together.
    """
    return [*([_FEWER] if plies > 2 else []), *_WAYS] if plies > 1 else []


_FEWER = [
    "Go on with fewer plies",
    "Go on with the others as they run, and let the end thin out between them. The yarn gets "
    "thinner from here on, and wants more twist.",
]
_WAYS = [
    [
        "Fold the fullest in two",
        f"Wind all that is left on the fullest bobbin into a ball, beginning at the yarn: {_BALL}",
        "Splice the outer end to the single that ran out; look whether the colours agree there. "
        "Ply on the same way.",
    ],
    [
        "Halve the fullest",
        "Wind half of what is left into a ball, beginning at the yarn, and break it off.",
        "Splice the end that is now outermost on the bobbin to the single that ran out. Ply on the "
        "same way, from the middle of the ball and from the bobbin.",
    ],
    [
        "The fullest alone",
        "Break the yarn off, and ply the fullest from both ends of a ball, or as a chain.",
    ],
    [
        "Spin more",
        "Of the colour on which it ended, as thick and the same way round; splice its outer end "
        "to the single that ran out.",
    ],
    ["Keep the rest", "Break the yarn off, and keep what is left for mending."],
    ["For all of them", "Winding off never turns the twist round.", CAUTIONS],
]
