"""When a single runs out: every sentence of it, with slots for what is known only then.

The bench, the terminal and the phone fill in the same sentences, each in its own way.
"""

from yarncolor.cautions import CUTTING
from yarncolor.measures import Measures
from yarncolor.phrases import TURNS

_TURNS_NOTHING = "Winding off never turns the twist round."

NAMES: dict[str, str] = {
    "fewer_plies": "go on with fewer plies",
    "fold": "fold the rest of {full} in two",
    "halves": "halve the rest of {full}",
    "both_ends": "{full} alone, from both its ends",
    "chain": "{full} alone, as a chain",
    "top_up": "spin more {spun}",
    "keep": "keep the rest for mending",
}
"""What each rescue is called, by its kind."""

HANDS: dict[str, tuple[str, str, str]] = {
    "fewer_plies": (
        "Go on with plies {going} as they run, and let the end of {ended} thin out between them.",
        "Ply the same way as before, until {runs_out}.",
        "{twist}",
    ),
    "fold": (
        "Wind all that {full} has left, {left}, into a ball, beginning at the yarn: the end that "
        "goes to the yarn comes out of its middle, the far end lies outside.",
        "Splice the outer end of the ball to the end of {ended}: {meets}.",
        "Ply on the same way: the middle of the ball as {full}, its outside as {ended}. "
        + _TURNS_NOTHING,
    ),
    "halves": (
        "Wind half of what {full} has left, {half}, into a ball, beginning at the yarn, and break "
        "it off: the end that goes to the yarn comes out of the middle of the ball.",
        "Splice the end that is now outermost on its bobbin to the end of {ended}: {meets}.",
        "Ply on the same way: the middle of the ball as {full}, the bobbin as {ended}. "
        + _TURNS_NOTHING,
    ),
    "both_ends": (
        "Break the yarn off. Wind all that {full} has left, {left}, into a ball: the end that went "
        "to the yarn comes out of its middle, the far end lies outside.",
        "Ply these two ends the same way as before; they begin with {begins}. " + _TURNS_NOTHING,
        "{twist}",
    ),
    "chain": (
        "Break the yarn off, and take {full} straight from its bobbin by the end that went to the "
        "yarn, {comes_first}.",
        "Draw loop through loop, each at most {loop} long, and ply the same way as before: three "
        "strands of one single.",
        "{twist}",
    ),
    "top_up": (
        "Spin {needs}, {single} of single, the same way and as thick as before.",
        "Splice its outer end to the end of {ended}: {meets}.",
        "Ply on with all plies, the same way, until {used_up}.",
    ),
    "keep": (
        "Break the yarn off, and let its end be tied.",
        "Wind each rest onto a card of its own, and write its lot, its ply and its twist on it.",
        "It mends and sews up what is made of this yarn.",
    ),
}
"""What the hands do, by its kind: which end, which way."""

WORDS: dict[str, str] = {
    "ply": "ply {ply}",
    "runs_out": "{plies} runs out",
    "run_out": "{plies} run out",
    "used_up": "that is used up; there is no more of it",
    "meets": "{left} meets {right}",
    "both_are": "both are {left}",
    "need": "{mass} of {lot} for {ply}",
    "as_thick": "It is as thick as before, and takes as much twist.",
    "other": "This yarn is {thick}: about {now} {grist}, not {had}{wants}. It loses a little "
    "{less} in plying than is reckoned here.",
    "thinner": "thinner",
    "thicker": "thicker",
    "less": "less",
    "more": "more",
    "wants": ", and at the same angle wants {now}, not {had}",
    "turns": TURNS,
    "comes_to": "{metres} more, {plied}",
    "plied1": "single",
    "plied2": "two-ply",
    "plied3": "three-ply",
    "plied4": "four-ply",
    "plied5": "five-ply",
    "plied6": "six-ply",
    "plied": "{plies}-ply",
    "nothing": "no more yarn",
    "agree": "where the colours agree",
    "disagree": "where the colours do not agree",
    "splice": "{count} splice, {agree}",
    "splices": "{count} splices, {agree}",
    "over": "{mass} of {lot}",
    "stays": "{over} stays over",
    "stay": "{over} stay over",
    "hardly_over": "hardly anything stays over",
    "together": "The plies run out together: hardly anything stays on a bobbin.",
    "of_ply": "{metres} of {ply}",
    "first": "As it is now, {plies} {out} first, after {metres} of yarn. Left then: {left}.",
    "out": "runs out",
    "outs": "run out",
    "has": "{plies} has run out after {metres} of yarn. Left: {left}.",
    "have": "{plies} have run out after {metres} of yarn. Left: {left}.",
}
"""Words that stand in those sentences, and what a rescue comes to."""

CAUTIONS = (
    f"{CUTTING} Do not shuffle several storage bobbins to use everything up: that mixes up the "
    "order of the colours."
)
"""What holds for all of them; common practice, no source."""


def words_in(say: Measures) -> dict[str, str]:
    """Return the words for rescues with grist as a plan says it; the phone fills in the same."""
    return {**WORDS, "other": WORDS["other"].replace("{grist}", say.grist.unit)}
