"""Strips of a braid in words for hands: into how many it is split, and which end is spun first."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import groupby

from yarncolor.answers.answer import Answer
from yarncolor.answers.braid_strips import Strip, braid_strips
from yarncolor.measures import Measures
from yarncolor.phrases import FRACTIONS, capital, counted, join_words, ply_words
from yarncolor.plan import Braid
from yarncolor.said import Figure, Filling, Said, said

_MOST_PARTS, _NEAR = 96, 1e-6


def strip_lines(answer: Answer) -> Iterator[str]:
    """Yield how a plan's braid is split, and how each ply spins its strips; nothing without one."""
    yield from map(str, strips_told(answer))


def strips_told(answer: Answer) -> Iterator[Said]:
    """Yield the same, its numbers as figures."""
    braid, strips = answer.plan.braid, braid_strips(answer.layout)
    if braid is None or not strips:
        return
    yield said(
        "The braid is split lengthwise into {strips}; nothing of it is weighed colour by colour, "
        "and its {grams} are by length. Tie a thread round its {end} before you split it.",
        strips=Figure(counted(len(strips), "strip"), "strips"),
        grams=answer.say.mass.plural,
        end=_near_end(braid),
    )
    left = 1 - sum(one.share for one in strips)
    if left > _NEAR:
        yield said("{left} of the braid is not spun.", left=Figure(f"{left:.0%}", "not_spun"))
    singles = len(answer.resolved.tex)
    for k, words in _of_plies(braid, strips, answer.say):
        yield said("{ply}: {words}.", ply=capital(ply_words(k, singles)), words=words)


def strips_of_ply(answer: Answer, k: int) -> str:
    """Return how a ply spins its strips of a braid; empty where it has none.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    k : int
        The ply, from 0.
    """
    braid, strips = answer.plan.braid, braid_strips(answer.layout)
    of_plies = {} if braid is None else dict(_of_plies(braid, strips, answer.say))
    return f"{capital(str(of_plies[k]))}." if k in of_plies else ""


def _of_plies(braid: Braid, strips: tuple[Strip, ...], say: Measures) -> Iterator[tuple[int, Said]]:
    for k, own in groupby(strips, lambda one: one.ply):
        yield k, _of_ply(braid, list(own), say)


def _of_ply(braid: Braid, strips: list[Strip], say: Measures) -> Said:
    slots: dict[str, Filling] = {
        "count": Figure(counted(len(strips), "strip"), "strips"),
        "ends": _ends(braid, strips),
    }
    slots |= {f"share_{at}": Figure(_share(one.share), "strip") for at, one in enumerate(strips)}
    slots |= {f"mass_{at}": Figure(say.mass(one.mass_g), "strip") for at, one in enumerate(strips)}
    if len(strips) == 1:
        size = "{share_0} of the braid, {mass_0}"
    elif len({_share(one.share) for one in strips}) == 1:
        size = "each {share_0} of the braid, {mass_0}"
    else:
        sizes = join_words([f"{{share_{at}}} ({{mass_{at}}})" for at in range(len(strips))])
        size = f"of the braid {sizes} in this order"
    return Said(f"{{count}}, {size}, {{ends}}", slots)


def _ends(braid: Braid, strips: list[Strip]) -> str:
    ways = list(dict.fromkeys(_end(braid, one) for one in strips))
    if len(ways) == 1:
        return ("each " if len(strips) > 1 else "") + ways[0]
    turns = [_end(braid, one) for one in strips]
    by_turns = len(ways) == 2 and turns == [ways[at % 2] for at in range(len(turns))]
    if by_turns:
        return f"the first {ways[0]}, the next {ways[1]}{', by turns' if len(turns) > 2 else ''}"
    return join_words([f"strip {one.number} {_end(braid, one)}" for one in strips])


def _end(braid: Braid, strip: Strip) -> str:
    if strip.is_parted:
        name = braid.sequence[strip.begins_at - 1]
        number = braid.sequence[: strip.begins_at].count(name)
        which = f"the {_ORDINAL.get(number, f'{number}th')} {name}" if number > 1 else name
        return f"parted before {which}: spun from there to its end, then what was before it"
    return f"begun at its {_far_end(braid) if strip.is_backwards else _near_end(braid)}"


_ORDINAL = {2: "second", 3: "third"}


def _near_end(braid: Braid) -> str:
    return f"{braid.sequence[0]} end" if _ends_differ(braid) else f"first {braid.sequence[0]} end"


def _far_end(braid: Braid) -> str:
    return f"{braid.sequence[-1]} end" if _ends_differ(braid) else f"last {braid.sequence[-1]} end"


def _ends_differ(braid: Braid) -> bool:
    return braid.sequence[0] != braid.sequence[-1]


def _share(share: float) -> str:
    part = Fraction(share).limit_denominator(_MOST_PARTS)
    if abs(part - share) > _NEAR:
        return f"{share:.1%}"
    return FRACTIONS.get(part, "all" if part == 1 else f"{part.numerator}/{part.denominator}")
