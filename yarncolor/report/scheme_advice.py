"""What to know of schemes that leave fibre over, or run the other way than they are written."""

from collections.abc import Iterator

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.layout.layout import used_g
from yarncolor.phrases import join_first, join_words
from yarncolor.report.ways import Told, wound_off

_MOST = 0.5
_NEARLY = 1e-6
MOST_NAMED = 4


def mostly_left(answer: Answer) -> list[int]:
    """Return the lots that are used, and of which most is left."""
    return [int(at) for at in np.flatnonzero(_spun_share(answer) < 1 - _MOST)]


def _spun_share(answer: Answer) -> np.ndarray:
    """Return which share of each lot is spun; NaN where it is not used."""
    used = used_g(answer.layout)
    has_g = answer.resolved.to_divide_g * min(answer.layout.target_ratio, 1.0)
    share = np.divide(used, has_g, out=np.ones_like(used), where=has_g > 0)
    return np.where(used > 0, share, np.nan)


def mostly_unspun(answer: Answer) -> Iterator[str]:
    """Yield which lots a mixed plan leaves for the most part unspun, and what gives out first."""
    if answer.resolved.scheme.name != "mixed":
        return
    names, share, most = answer.plan.names, _spun_share(answer), mostly_left(answer)
    scant = [names[at] for at in np.flatnonzero(share > 1 - _NEARLY)]
    if not most:
        return
    lots = join_first([f"{names[at]}, {share[at]:.0%} of it spun" for at in most], MOST_NAMED)
    them = "it" if len(scant) == 1 else "them"
    yield (
        f"Most is left of {lots}: {join_words(scant)} {'gives' if len(scant) == 1 else 'give'} "
        f"out first. Give the plies less of {them}, or have more of {them}."
    )


def fades_backwards(answer: Answer) -> Iterator[Told]:
    """Yield how a fade runs straight from the bobbins: the other way than it was spun."""
    scheme, wound = answer.resolved.scheme, answer.resolved.wound_off
    if scheme.name != "fade" or (wound % 2).any():
        return
    first, last = scheme.from_, scheme.sequence[len(scheme.from_) :]
    bobbins = "every bobbin" if len(wound) > 1 else "the bobbin"
    yield (
        f"Straight from the bobbin what was spun last comes off first: the yarn begins with "
        f"{join_words(list(last))} and ends with {join_words(list(first))}. To have it fade as it "
        f"was spun, wind {bobbins} off once before plying.",
        (),
        (wound_off(f"wind {bobbins} off once", 1),),
    )
