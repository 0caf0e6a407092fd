"""Why twist, angles and the length lost in plying are what they are."""

from collections.abc import Iterator

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.phrases import join_words, ply_words
from yarncolor.report.assumption_text import model_words
from yarncolor.report.why import equations as by
from yarncolor.report.why import sources
from yarncolor.report.why.equation import Working
from yarncolor.report.why.reason import NOT_ASKED, Reason, Source, Whys, whys_of
from yarncolor.yarn.balance import WORDS
from yarncolor.yarn.helix import Single, left_in_single_tpm
from yarncolor.yarn.over_twist import OverTwist, over_twisted
from yarncolor.yarn.structure import YarnStructure
from yarncolor.yarn.twist import twist_angle_deg

_EXPECTED = (
    "from what the gentler of two ways to reckon it says, less what it says where a measured yarn "
    "lost nothing, to what the harsher one says"
)
_SOLVED = {
    "equal_angles": "the ply twist at which what is left in the single stands at the ply’s own "
    "angle; found by trying, since the angle hangs on it",
    "equal_length": "the ply twist at which the helix takes as much length as the single gives "
    "back by untwisting; found by trying",
    "self_plied": "the twist of a single that is let go and plies itself: the least of what "
    "bending and twisting cost together, as of an elastic rod; found by trying",
}
"""Criteria of balance that no one line solves."""


def ply_twist_sources(answer: Answer) -> tuple[Source, ...]:
    """Return what all figures of twist rest on."""
    return (sources.single_twist(answer), sources.ply_twist(answer))


def length_lost(answer: Answer) -> tuple[Reason, Reason]:
    """Return why so much length is lost in plying, and between which shares it is expected."""
    yarn, known = answer.resolved.yarn, sources.length_lost(answer)
    words = "length lost in plying"
    if yarn.model in ("measured", "none"):
        return Reason(words, (known,)), Reason(words, (known,), (), _EXPECTED)
    rests_on = (known, *ply_twist_sources(answer), sources.packed_density(answer))
    how = f"by {model_words(yarn, yarn.model)}"
    return Reason(words, rests_on, tuple(_lost(yarn)), how), Reason(words, rests_on, (), _EXPECTED)


def lost_otherwise(answer: Answer) -> Reason:
    """Return what is lost in plying by models that are not in force."""
    yarn = answer.resolved.yarn
    ways = [model_words(yarn, one) for one in yarn.contraction_by_model if one != yarn.model]
    angle = {"angle_deg": yarn.helix_angle_deg or 0.0}
    lines = (Working(by.HELIX, angle),) if yarn.model != "helix" else ()
    rests_on = (*ply_twist_sources(answer), sources.packed_density(answer))
    return Reason("lost by another reckoning", rests_on, lines, f"by {join_words(ways)}")


def _lost(yarn: YarnStructure) -> Iterator[Working]:
    """Yield the length lost of each unlike single, and of the yarn."""
    angle_deg = yarn.helix_angle_deg or 0.0
    if yarn.model == "helix":
        yield Working(by.HELIX, {"angle_deg": angle_deg})
        return
    own = yarn.untwisting_contractions
    for ply, single in enumerate(yarn.each_single):
        if own is not None or ply == 0:
            of = ply_words(ply, len(yarn.tex)) if own is not None else ""
            yield Working(by.UNTWISTING, _untwisting(yarn, single, angle_deg), of)
    if own is not None:
        together = {"singles_tex": float(yarn.tex.sum())}
        yield Working(by.UNLIKE, {**together, "drawn_tex": float((yarn.tex / (1 - own)).sum())})


def _untwisting(yarn: YarnStructure, single: Single, angle_deg: float) -> dict[str, float]:
    left_tpm = abs(left_in_single_tpm(single, angle_deg, yarn.ply_twist_tpm or 0.0))
    return {
        "angle_deg": angle_deg,
        "angle_before_deg": twist_angle_deg(single.twist_tpm, single.diameter_mm),
        "angle_after_deg": twist_angle_deg(left_tpm, single.diameter_mm),
    }


def balance_whys(answer: Answer) -> Whys:
    """Return the reasons for the ply twist of a balanced yarn, by every criterion."""
    yarn = answer.resolved.yarn
    single, rests_on = (
        yarn.mean_single,
        (sources.single_twist(answer), sources.packed_density(answer)),
    )
    if single is None:
        return NOT_ASKED
    twist = {"twist_tpm": single.twist_tpm}
    values = {"two_thirds": twist}
    rows = {}
    for name in yarn.balanced_tpm:
        words = WORDS[name]
        if name in by.BALANCED:
            put_in = values.get(name, {**twist, "plies": yarn.plies})
            reason = Reason("ply twist", rests_on, (Working(by.BALANCED[name], put_in),))
        else:
            reason = Reason("ply twist", rests_on, (), _SOLVED[name])
        rows[words] = reason
    return whys_of(answer, rows=rows, column=0)


def over_twist_whys(answer: Answer, excess: float) -> Whys:
    """Return the reasons for what singles do that get another twist than planned.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    excess : float
        Share of more twist that the lines are reckoned for.
    """
    yarn = answer.resolved.yarn
    got, rests_on = over_twisted(yarn, excess), ply_twist_sources(answer)
    if got is None or yarn.twist_tpm is None:
        return NOT_ASKED
    of = f"with {excess:.0%} more twist"
    rests_on = (*rests_on, sources.packed_density(answer))
    return whys_of(answer, heads=_over_twist_heads(yarn, got, of, rests_on))


def _over_twist_heads(
    yarn: YarnStructure, got: OverTwist, of: str, rests_on: tuple[Source, ...]
) -> dict[str, Reason]:
    angles = [twist_angle_deg(one.twist_tpm, one.diameter_mm) for one in yarn.each_single]
    alike = len(set(angles)) == 1
    size_mm = float(np.mean(yarn.strand_diameters_mm))
    fibre = {"diameter_mm": size_mm, "twist_tpm": got.twist_tpm}
    drawn = {"angle_got_deg": got.angle_deg, "angle_planned_deg": float(np.mean(angles))}
    planned = yarn.contraction_by_model["helix" if yarn.model == "helix" else "untwisting"]
    lost = {"contraction": got.contraction, "contraction_planned": planned}
    mean = "" if alike else "of each single by itself, then the mean over the plies"
    one = (Working(by.FIBRE_ANGLE, fibre, of),) if alike else ()
    single = (Working(by.DRAWN_IN, drawn, of),) if alike else ()
    whole = (Working(by.YARN_DRAWN_IN, {"drawn_in": got.single_length, **lost}, of),)
    asked = "from the least to the most ply twist that the criteria of balance ask for then"
    return {
        "turns to the inch": Reason("turns", rests_on, (), "the planned turns and so many more"),
        "angle": Reason("angle", rests_on, one, mean),
        "single's length": Reason("the single’s length", rests_on, single, mean),
        "yarn's length": Reason("the yarn’s length", rests_on, whole),
        "balanced by": Reason("ply twist", rests_on, (), asked),
    }
