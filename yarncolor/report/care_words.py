"""What to do about twist that is seen in the yarn; common practice, no source."""

from collections.abc import Iterator

from yarncolor.answers.answer import Answer
from yarncolor.answers.care import AGAINST_IT, STRAIGHT, WITH_THE_PLY, TwistSeen
from yarncolor.phrases import percent, turns

LOOP_WORDS = {
    STRAIGHT: "hangs open",
    WITH_THE_PLY: "twists the way it was plied",
    AGAINST_IT: "twists the other way",
}
"""How a loop of fresh yarn hangs, held with both ends together."""

_SHORTER = 0.0005

_LOOP = {
    STRAIGHT: "A loop that hangs open is in balance; leave the twist as it is.",
    WITH_THE_PLY: (
        "The singles want more plying: the yarn is under-plied. Treadle a little longer before "
        "you let it onto the bobbin, and send what is done through once more, the way it was plied."
    ),
    AGAINST_IT: (
        "There is more ply twist than the singles can hold: the yarn is over-plied. Let it onto "
        "the bobbin sooner, and run what is done through once the other way to let twist out."
    ),
}
_RESTED = (
    "Only fresh singles speak the truth: those that have rested for days look as if they wanted "
    "less. Ply a short length back on itself from fresh single, or wet and hang a sample, before "
    "you change much."
)
_HOOKS = (
    "Where the yarn catches on a hook it is not drawn in, and twist runs up in front of it. Stop, "
    "free it, pull the over-twisted length back out and let the twist run on into the next. Move "
    "on to the next hook before the bobbin is full at the one in use; smooth a hook that is rough."
)


def twist_lines(answer: Answer, seen: TwistSeen) -> Iterator[str]:
    """Yield how the counted twist stands beside the planned one, and what to do.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    seen : TwistSeen
        As counted.
    """
    if seen.planned_tpm is None:
        yield (
            f"The yarn has {turns(seen.found_tpm)}. The plan does not say how much ply twist it is "
            "to have; say so, and the two are compared."
        )
        return
    both = f"{turns(seen.found_tpm)}, planned were {turns(seen.planned_tpm)}"
    if seen.is_as_planned:
        yield f"The yarn has {both}: that is as planned."
        return
    say = answer.say
    much = f"{abs(seen.lacks_tpm) * say.length.size:.0f} turns to each {say.length.name}"
    treadles = _treadles(answer, seen.lacks_tpm)
    if seen.lacks_tpm > 0:
        yield (
            f"The yarn has {both}: it is under-plied. Wind the skein back onto a bobbin and send "
            f"it through once more, the way it was plied, to add {much}{treadles}.{_length(seen)}"
        )
    else:
        yield (
            f"The yarn has {both}: it is over-plied. Send it through once the other way, to let "
            f"{much} out{treadles}; for hard wear it can stay as it is.{_length(seen)}"
        )


def _treadles(answer: Answer, lacks_tpm: float) -> str:
    ratio = answer.plan.plying.drive_ratio
    each = abs(lacks_tpm) * answer.say.length.size
    return f", {each / ratio:.1f} treadles" if ratio else ""


def _length(seen: TwistSeen) -> str:
    if seen.shorter is None or abs(seen.shorter) < _SHORTER:
        return ""
    more = "shorter" if seen.shorter > 0 else "longer"
    return f" It comes out {_share(abs(seen.shorter))} {more}."


def _share(share: float) -> str:
    return f"{share:.1%}" if share < 0.1 else percent(share)


def loop_lines(loop: str) -> Iterator[str]:
    """Yield what a loop of fresh yarn says, by how it hangs; nothing where none was looked at."""
    if loop in _LOOP:
        yield f"The loop {LOOP_WORDS[loop]}. {_LOOP[loop]}"
        if loop != STRAIGHT:
            yield _RESTED


def hook_lines(*, catches: bool) -> Iterator[str]:
    """Yield what to do where the yarn catches on hooks.

    Parameters
    ----------
    catches : bool
        Whether it does.
    """
    if catches:
        yield _HOOKS
