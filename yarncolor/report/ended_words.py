"""What the end of a single tells of the lengths, in a spinner's words."""

from collections.abc import Iterator

from yarncolor.answers.answer import Answer
from yarncolor.layout.ended import Ended
from yarncolor.phrases import join_words, metres

_SAME = 0.001
"""A single that is found longer or shorter by less than this part is as reckoned."""


def ended_lines(answer: Answer) -> Iterator[str]:
    """Yield where a single ended and what that says; nothing where none did."""
    ended = answer.layout.ended
    if ended is None:
        return
    yield f"Ply {ended.ply + 1} ran out after {metres(ended.at_m)} of yarn. {_tells(answer, ended)}"
    if ended.also:
        plies = join_words([f"ply {k + 1}" for k in ended.also])
        was = "were" if len(ended.also) > 1 else "was"
        yield (
            f"{plies[0].upper()}{plies[1:]} {was} reckoned shorter than that, and cannot be: what "
            "lies there is reckoned longer with the same grams."
        )


def _tells(answer: Answer, ended: Ended) -> str:
    if ended.tells_contraction:
        share = answer.resolved.contraction
        lost = f"{abs(share):.1%} of the length is {'lost' if share > 0 else 'won'} in plying"
        return f"All of it was measured, so {lost}."
    ratio = ended.single_m / ended.reckoned_m
    if abs(ratio - 1) < _SAME:
        return "That is as reckoned."
    more = "longer" if ratio > 1 else "shorter"
    return (
        f"So its single was {metres(ended.single_m)}, not {metres(ended.reckoned_m)}: what was not "
        f"measured of it is reckoned {more}, with the same grams."
    )
