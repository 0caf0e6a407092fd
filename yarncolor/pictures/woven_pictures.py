"""Pictures of cloth: plain weave, the yarn as weft."""

from dataclasses import dataclass, replace
from math import ceil

import numpy as np

from yarncolor.answers.answer import Answer
from yarncolor.errors import in_range
from yarncolor.layout.layout import in_words
from yarncolor.measures import Measures
from yarncolor.phrases import counted
from yarncolor.pictures.shown_part import lots_between, part_words
from yarncolor.pictures.view import Rendered, ViewSettings, checked_px, render
from yarncolor.pictures.woven_scenes import Sett, woven
from yarncolor.pictures.yarn_geometry import yarn_geometry_of
from yarncolor.pictures.yarn_scenes import PictureScale
from yarncolor.said import Figure, Said, said

_FEWEST, _MOST = 0.2, 100.0
"""Picks in a centimetre of cloth."""

_ENDS_A_PICK = 0.75
"""Ends in a centimetre over picks: the plain warp is set a little wider than the weft is beaten."""

_WEFT_ROOMS = (0.4, 1.2)
"""How wide a weft lies, over the room of its pick, at the least and at the most."""


def woven_cloth(
    answer: Answer,
    width_mm: float = 300.0,
    picks_per_cm: float | None = None,
    from_m: float | None = None,
    size_px: tuple[int, int] = (1200, 900),
    look: ViewSettings = ViewSettings(),
) -> Rendered:
    """Return plain weave with the yarn as weft on a plain warp.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    width_mm : float
        Of the cloth, 10 to 3,000.
    picks_per_cm : float, optional
        By default so many that the wefts lie as thick as they are.
    from_m : float, optional
        Metre of yarn in the first pick; by default the whole yarn is shown in small.
    size_px : (int, int)
        Width and height.
    look : ViewSettings
        How it is looked at.
    """
    yarn_m, yarn, start_m = answer.layout.stretches.yarn_m, answer.resolved.yarn, from_m or 0.0
    in_range("from_m", start_m, 0, yarn_m, "m")
    in_range("width_mm", width_mm, 10, 3000, "mm")
    wide, high = checked_px(size_px)
    if picks_per_cm is not None:
        in_range("picks_per_cm", picks_per_cm, _FEWEST, _MOST, "picks")
    picks = picks_per_cm or min(max(10 / yarn.relaxed_diameter_mm, _FEWEST), _MOST)
    cloth = _Cloth(picks, width_mm, round(high / wide * width_mm * picks / 10), start_m, yarn_m)
    times = 1 if from_m is not None else cloth.times_smaller
    turns = yarn_geometry_of(yarn, usual_twist=True).turns_per_mm
    weft_mm = float(np.clip(yarn.relaxed_diameter_mm * picks / 10, *_WEFT_ROOMS)) / picks * 10
    scene = woven(
        yarn.plies,
        PictureScale(wide, high, wide / width_mm),
        Sett(picks / 10, picks / 10 * _ENDS_A_PICK, turns, weft_mm),
        (start_m / times, yarn_m / times),
    )
    scene = replace(scene, metre=scene.metre * times)
    words = (
        cloth.caption(times, answer.say),
        f"Plain weave. The yarn, as weft: {in_words(answer.layout)}",
    )
    return render(answer, scene, look, words, lots_between(answer, start_m, cloth.end_m(times)))


@dataclass(frozen=True)
class _Cloth:
    """How much is woven of a yarn, and from where."""

    picks_per_cm: float
    width_mm: float
    picks: int
    from_m: float
    yarn_m: float

    @property
    def times_smaller(self) -> int:
        """For how many picks one stands where the whole yarn is to be woven."""
        return max(1, ceil(self.yarn_m / (max(1, self.picks) * self.width_mm / 1000)))

    def end_m(self, times: int) -> float:
        """Return the metre in the last pick, where one stands for so many."""
        return min(self.from_m + self.picks * self.width_mm / 1000 * times, self.yarn_m)

    def caption(self, times: int, measures: Measures) -> Said:
        """Return what it is and which part of the yarn it shows, one pick for so many.

        Parameters
        ----------
        times : int
            For how many picks one stands.
        measures : Measures
            What it is said in.
        """
        part = part_words((self.from_m, self.end_m(times)), self.yarn_m, measures.length)
        picks = self.picks_per_cm * measures.width.size
        small = " in small, each pick for {times}" if times > 1 else ""
        last = int((self.yarn_m - self.from_m) / self.width_mm * 1000) + 1
        is_short = times == 1 and last <= self.picks
        ends_in = " The yarn ends in pick {last} of {all_picks}." if is_short else ""
        return said(
            "Plain weave, {sett} picks to the {width_name} on a plain warp of {ends} ends, {wide} "
            f"wide: {{picks}}, begun at the bottom. It shows {{part}}{small}.{ends_in}",
            sett=Figure(f"{picks:.1f}", "sett"),
            width_name=measures.width.name,
            ends=Figure(f"{picks * _ENDS_A_PICK:.1f}", "sett"),
            wide=Figure(measures.thickness.given(self.width_mm), "shown"),
            picks=Figure(counted(self.picks, "pick"), "picks"),
            part=Figure(part, "part"),
            times=Figure(f"{times}", "part"),
            last=Figure(f"{last}", "picks"),
            all_picks=Figure(f"{self.picks}", "picks"),
        )
