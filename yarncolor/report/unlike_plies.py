"""Advice on plies that are not alike: each takes up its own length; a thin one may wind round."""

from collections.abc import Iterator

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.phrases import join_words

WORTH_SAYING = 0.01
"""Lengths lost in plying that lie so far apart are said."""
WINDS_ROUND = 2.0
"""A ply so many times as thick as another is a core more than a partner: judgement, no source."""


def unlike_plies(answer: Answer) -> Iterator[str]:
    """Yield how unlike plies take up their length, and which would rather wind round another."""
    lost = answer.resolved.yarn.contractions
    told = [*_own_lengths(lost)] if np.ptp(lost) >= WORTH_SAYING * (1 - 1e-9) else []
    told += _winds_round(answer)
    if told:
        yield " ".join(told)


def _own_lengths(lost: np.ndarray) -> Iterator[str]:
    least, most = int(lost.argmin()), int(lost.argmax())
    more = (1 - lost[least]) / (1 - lost[most]) - 1
    each = join_words([f"ply {k + 1} {_taken_up(one)}" for k, one in enumerate(lost.tolist())])
    yield (
        f"The plies do not take up alike as they untwist: {each}. To end together ply {most + 1} "
        f"has to be {more:.1%} longer than ply {least + 1}; fibre that is divided for you, lengths "
        "and what stays over are reckoned so."
    )


def _taken_up(share: float) -> str:
    if abs(share) < 0.0005:
        return "keeps its length"
    return f"loses {share:.1%}" if share > 0 else f"gains {-share:.1%}"


def _winds_round(answer: Answer) -> Iterator[str]:
    wide = answer.resolved.yarn.diameters_mm
    thick, thin = int(wide.argmax()), int(wide.argmin())
    if wide[thick] >= WINDS_ROUND * wide[thin] * (1 - 1e-9):
        yield (
            f"Ply {thin + 1} is at most half as thick as ply {thick + 1}. If it winds round that "
            "one, instead of both round each other, it takes far more length, and that is another "
            "yarn than is drawn here: ply a sample, and measure."
        )
