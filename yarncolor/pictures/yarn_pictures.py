"""Pictures of the yarn itself: at true scale, folded whole, wrapped on a card."""

from dataclasses import replace

import numpy as np

from yarncolor.answers.answer import Answer, Preview
from yarncolor.answers.guessed_thickness import about, length_hangs, metres_told
from yarncolor.errors import in_range
from yarncolor.layout.layout import in_words
from yarncolor.phrases import counted
from yarncolor.pictures.alt_text import whole_in_words
from yarncolor.pictures.scene import PAPER, Scene, fixed
from yarncolor.pictures.shown_part import lots_between, lots_seen
from yarncolor.pictures.thick_and_thin import swollen, yarn_thickness_at
from yarncolor.pictures.view import LEAST_PX, MOST_PX, Rendered, ViewSettings, checked_px, render
from yarncolor.pictures.yarn_geometry import yarn_geometry_of
from yarncolor.pictures.yarn_scenes import PictureScale, folded, true_scale, wrap_card
from yarncolor.said import Figure, said

_FILLED = 0.9


def yarn_at(
    answer: Answer,
    from_m: float = 0.0,
    length_mm: float = 24.0,
    size_px: tuple[int, int] = (1200, 200),
    look: ViewSettings = ViewSettings(),
) -> Rendered:
    """Return a length of yarn at true scale: twist, angles, thickness, and the colours there.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    from_m : float
        Metre at the left edge, from the start of plying.
    length_mm : float
        How much of the yarn is seen, 1 to 2,000; more where it would not fit in height.
    size_px : (int, int)
        Width and height.
    look : ViewSettings
        How it is looked at.

    Raises
    ------
    PlanError
        For a place beyond the yarn's end, or a size that cannot be.
    """
    yarn_m = answer.layout.stretches.yarn_m
    scene = yarn_scene(answer, from_m, length_mm, size_px)
    length_mm = scene.shape[1] * scene.mm_per_px
    end_m = from_m + length_mm / 1000
    measures = answer.say
    uneven = ""
    if answer.plan.spinning.variation_within:
        uneven = " Thick and thin as its hands are said to be."
    caption = said(
        f"{'{shown} of the yarn from {place} on' if from_m else 'The first {shown} of the yarn'}; "
        "it is {long} long{hangs}. Plying began to the left of it, the yarn ends to the right."
        "{uneven}",
        shown=Figure(measures.thickness(length_mm, 0), "shown"),
        place=Figure(measures.length(from_m, 2), "from"),
        long=Figure(measures.long(yarn_m), "length"),
        hangs=Figure(length_hangs(answer), "single"),
        uneven=uneven,
    )
    what = f"The yarn: {in_words(answer.layout)}"
    return render(
        answer, scene, look, (caption, what), lots_between(answer, from_m, min(end_m, yarn_m))
    )


def yarn_scene(
    preview: Preview, from_m: float, length_mm: float, size_px: tuple[int, int]
) -> Scene:
    """Return a length of yarn at true scale before it has colours; parameters as of `yarn_at`.

    Parameters
    ----------
    preview : Preview
        The plan laid out, with its colours.
    from_m : float
        Metre at the left edge, from the start of plying.
    length_mm : float
        How much of the yarn is seen, 1 to 2,000.
    size_px : (int, int)
        Width and height.
    """
    yarn_m = preview.layout.stretches.yarn_m
    in_range("from_m", from_m, 0, yarn_m, "m")
    in_range("length_mm", length_mm, 1, 2000, "mm")
    wide, high = checked_px(size_px)
    yarn = preview.resolved.yarn
    thick_mm = yarn.relaxed_diameter_mm
    size = PictureScale(wide, high, _px_per_mm(preview, length_mm, size_px))
    scene = true_scale(yarn_geometry_of(yarn, usual_twist=True), thick_mm, size, from_m)
    scene = replace(scene, metre=np.where(scene.metre <= yarn_m, scene.metre, np.nan))
    columns_m = from_m + (np.arange(wide) + 0.5) * scene.mm_per_px / 1000
    thickness = yarn_thickness_at(preview.layout, columns_m)
    if thickness is None:
        return scene
    return replace(scene, index=swollen(scene.index, thickness, fixed(PAPER)))


def seen_mm(preview: Preview, length_mm: float, size_px: tuple[int, int]) -> float:
    """Return how much of a yarn is seen at true scale; parameters as of `yarn_scene`.

    Parameters
    ----------
    preview : Preview
        The plan laid out.
    length_mm : float
        How much of the yarn is asked for.
    size_px : (int, int)
        Width and height.
    """
    return size_px[0] / _px_per_mm(preview, length_mm, size_px)


def _px_per_mm(preview: Preview, length_mm: float, size_px: tuple[int, int]) -> float:
    """Return the scale at which a length of yarn fills a picture, or its thickness does."""
    wide, high = size_px
    return min(wide / length_mm, _FILLED * high / preview.resolved.yarn.relaxed_diameter_mm)


def whole_yarn(
    answer: Answer,
    rows: int = 24,
    size_px: tuple[int, int] = (1200, 640),
    look: ViewSettings = ViewSettings(),
) -> Rendered:
    """Return the whole yarn folded into rows of equal length, as on a niddy-noddy.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    rows : int
        How many, at most one for three pixels of height.
    size_px : (int, int)
        Width and height.
    look : ViewSettings
        How it is looked at.
    """
    yarn_m = answer.layout.stretches.yarn_m
    wide, high = checked_px(size_px)
    in_range("rows", rows, 1, high // 3, "rows")
    rows = int(rows)
    yarn = answer.resolved.yarn
    scale = high / rows / yarn.relaxed_diameter_mm
    scene = folded(
        yarn_m, yarn_geometry_of(yarn, usual_twist=True), rows, PictureScale(wide, high, scale)
    )
    caption = said(
        "The whole yarn, {long}, in {rows} of {each}, each from left to right: plying began at the "
        "top left, it ends at the bottom right.",
        long=Figure(metres_told(answer, yarn_m), "length"),
        rows=Figure(counted(rows, "row"), "shown"),
        each=Figure(answer.say.length(yarn_m / rows), "row"),
    )
    what = f"The whole yarn in {counted(rows, 'row')}. {whole_in_words(answer)}"
    return render(answer, scene, look, (caption, what), lots_between(answer, 0.0, yarn_m))


def wraps(
    answer: Answer,
    card_mm: tuple[float, float] = (50.0, 50.0),
    from_m: float | None = None,
    size_px: int = 1200,
    look: ViewSettings = ViewSettings(),
) -> Rendered:
    """Return a wrap card: the yarn wound round a card at its own wraps to the inch.

    Parameters
    ----------
    answer : Answer
        What follows from a plan.
    card_mm : (float, float)
        Width and height of the card, 10 to 300 mm.
    from_m : float, optional
        Metre that is wound on first. By default the wraps are taken from all along the yarn.
    size_px : int
        Width of the picture.
    look : ViewSettings
        How it is looked at.
    """
    yarn_m, yarn = answer.layout.stretches.yarn_m, answer.resolved.yarn
    for value in card_mm:
        in_range("card_mm", value, 10, 300, "mm")
    in_range("size_px", size_px, LEAST_PX, MOST_PX, "pixels")
    scale = size_px / card_mm[0]
    wide, high = checked_px((size_px, round(card_mm[1] * scale)))
    start = 0.0 if from_m is None else from_m
    in_range("from_m", start, 0, yarn_m, "m")
    wpi = yarn.wpi(yarn.yarn_tex)
    card = wrap_card(
        yarn_geometry_of(yarn, usual_twist=True),
        wpi,
        PictureScale(wide, high, scale),
        (start, yarn_m),
        sampled=from_m is None,
    )
    length = answer.say.length
    taken = "one from every {about}{every} of the yarn, the first at the top"
    if from_m is not None:
        taken = "{taken} from {about}{begin} on, wound from the top"
    caption = said(
        f"{{wraps}}, {{wpi}} to the inch, on a card {{wide}} wide: {taken}.",
        wraps=Figure(counted(card.wraps, "wrap"), "wraps"),
        wpi=Figure(f"{wpi:.0f}", "wpi"),
        wide=Figure(answer.say.thickness.given(card_mm[0]), "shown"),
        about=about(answer),
        every=Figure(length(yarn_m / card.wraps), "every"),
        taken=Figure(length(card.length_m), "wound"),
        begin=Figure(length(start), "from"),
    )
    lots = lots_seen(answer, card.scene)
    what = f"Wraps on a card. {whole_in_words(answer)}"
    return render(answer, card.scene, look, (caption, what), lots)
