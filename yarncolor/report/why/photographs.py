"""Why colours on a photograph are what they are: as seen, as put right, how far to be trusted."""

from collections.abc import Iterator

import numpy as np

from yarncolor.colour.photo.correction import UNSURE_BY_WHITE, Correction, PatchesSeen
from yarncolor.colour.photo.illumination import Illumination
from yarncolor.colour.photo.readings import Column
from yarncolor.colour.photo.sampling import (
    BRIGHTEST,
    CLIPPED,
    DARKEST,
    SHADOW,
    PatchReading,
    lab_as_seen,
)
from yarncolor.colour.photo.target import LEAST_UNSURE
from yarncolor.report.why import equations_of_photos as by
from yarncolor.report.why.equation import Working
from yarncolor.report.why.reason import Reason, Source
from yarncolor.report.why.sources import PHOTOGRAPHS, unlike

_CHANNELS = ("red", "green", "blue")
_ROOTS = ("red_green", "green_blue", "blue_red")
_STRAIGHT_BELOW = 0.0031308
"""Linear light below which the curve of sRGB is a straight line (IEC 61966-2-1)."""

_FILL = "draw a larger box, with nothing but fibre in it"
_BY_A_TARGET = "mark the corners of a target with known patches beside the fibre"
_BY_WHITE = "draw a box on something white in the picture"
_WRITTEN = "red, green and blue of 255, rounded, each as two digits in sixteens (IEC 61966-2-1)"
_BEYOND = "a screen does not show it, or hardly: with less chroma, or as near to black as it goes"
_EVEN = "the mean of how far pixels lie from the colour of the box, CIEDE2000"
_LEFT_OUT = (
    f"those above {CLIPPED:.0%} or below {SHADOW:.0%} of light say nothing; of the others the "
    f"darkest {DARKEST:.0%} and the brightest {BRIGHTEST:.0%} are left out"
)
_DOUBTS = (
    "from how much of a box is clipped or black, how dark and how uneven it is, how few pixels "
    "count, and whether its light is known"
)
_DOUBTED = (
    "from how much of what is known is clipped, how dark it is, and what in the picture is brighter"
)
_LEAST = Source(
    "what is left open however near patches come", "assumed", f"{LEAST_UNSURE:g}, by judgement"
)
_TWICE = "in the mean (CIEDE2000), since some colours lie twice as far off"
_ONE_OUT = "each patch put right by all the others, and held against its value, CIEDE2000"
_BY_GREY = (
    "each channel by the middle one of the gains of the grey patches; CIEDE2000 of all patches"
)
_SLOPE = (
    "a slope, from five places on also a bowl round the middle, through the logarithms of the light"
)
_FITS = {
    0: "each channel by the middle one of the gains of its grey patches, in linear light",
    1: "the 3 × 3 that brings all patches nearest to their values in linear light, by least "
    "squares (Cheung, Westland, Connah and Ripamonti 2004)",
    2: "the root polynomial that brings all patches nearest to their values in linear light, by "
    "least squares (Finlayson, Mackiewicz and Hurlbert 2015)",
}


def reading_reasons(reading: PatchReading, correction: Correction) -> dict[Column, Reason]:
    """Return the reasons for what is told of a box on fibre, by the column that tells it.

    Parameters
    ----------
    reading : PatchReading
        The colour of the box.
    correction : Correction
        How the picture was put right.
    """
    box, known = _box(reading), _known_by(correction)
    even, opens = tuple(_evenness(reading)), _left_open(correction)
    out = Working(by.OUT_BY, {"of_correction": correction.unsure, "of_reading": reading.unsure})
    drawn = Source("the box", "decided", "", _FILL, PHOTOGRAPHS)
    return {
        "colour": Reason(
            "colour",
            (box, *known),
            tuple(_becomes(reading, correction)),
            _written(reading, correction),
        ),
        "out_by": Reason("may be out by", (*opens.rests_on, box), (*opens.workings, out), _TWICE),
        "even": Reason("how even", (box,), even, _EVEN),
        "pixels": Reason("pixels that count", (drawn,), (), f"{_count(reading)}: {_LEFT_OUT}"),
        "doubts": Reason("doubts", (box,), (), _DOUBTS),
    }


def box_lines(reading: PatchReading, correction: Correction) -> list[str]:
    """Return the lines of a box on fibre: its colour, how far it may be out, how even, of what.

    Parameters
    ----------
    reading : PatchReading
        The colour of the box.
    correction : Correction
        How the picture was put right.
    """
    reasons = reading_reasons(reading, correction)
    told = (reasons[column] for column in _WITH_LINES)
    lines = [one.line(reason.figure) for reason in told for one in reason.workings]
    return [*dict.fromkeys(lines), f"Pixels: {_count(reading)}."]


_WITH_LINES: tuple[Column, ...] = ("colour", "out_by", "even")


def every_box(correction: Correction) -> list[str]:
    """Return what holds for all boxes on fibre alike, where it comes from and what is surer.

    Parameters
    ----------
    correction : Correction
        How the picture was put right.
    """
    box = Source("light seen in the box", "measured", "by its pixels", _FILL, PHOTOGRAPHS)
    rests_on = unlike((box, *_known_by(correction), *_left_open(correction).rests_on))
    known = Reason("colours of the boxes", rests_on, (), f"a colour is written as {_WRITTEN}")
    told = {"How even": _EVEN, "Pixels": _LEFT_OUT, "Doubts": _DOUBTS, "May be out by": _TWICE}
    return [*(f"{head}: {words}." for head, words in told.items()), *known.lines()]


def correction_reasons(correction: Correction) -> dict[str, Reason]:
    """Return the reasons for how a picture is put right, by what a figure of its words is of.

    Parameters
    ----------
    correction : Correction
        How the picture was put right.
    """
    known = _known_by(correction)
    method = _FITS[correction.degree] if correction.patches else ""
    way = Reason("how it is put right", known, tuple(_gains(correction)), method)
    reasons = {"way": way, "unsure": _left_open(correction), "doubts": _of_doubts(known)}
    return {**reasons, **(_of_patches(correction.patches, known) if correction.patches else {})}


def light_reasons(light: Illumination) -> dict[str, Reason]:
    """Return the reasons for how uneven the light is said to be, by what a figure is of.

    Parameters
    ----------
    light : Illumination
        How light falls over the picture.
    """
    surer = "draw more boxes on one even white or grey, all round the fibre"
    places = f"at {len(light.seen)} places"
    white = (Source("light on the white", "measured", places, surer, PHOTOGRAPHS),)
    seen, fitted = np.array(light.seen), np.array(light.fitted)
    if not len(seen):
        return {of: Reason("light", white) for of in ("falls_by", "strays_by")}
    worst = int(np.abs(seen / fitted - 1).argmax())
    falls = {"darkest": float(fitted.min()), "brightest": float(fitted.max())}
    strays = {"seen_light": float(seen[worst]), "fitted_light": float(fitted[worst])}
    return {
        "falls_by": Reason("falls off by", white, (Working(by.FALLS, falls),), _SLOPE),
        "strays_by": Reason(
            "strays by", white, (Working(by.STRAYS, strays, f"place {worst + 1}"),), _SLOPE
        ),
    }


def _box(reading: PatchReading) -> Source:
    counted = f"by {reading.pixels:,} pixels"
    return Source("light seen in the box", "measured", counted, _FILL, PHOTOGRAPHS)


def _known_by(correction: Correction) -> tuple[Source, ...]:
    """Return what a picture is put right by, and how that is known."""
    if correction.patches is not None:
        return _by_patches(correction.patches)
    if correction.white is None:
        as_it_comes = "to be as they come"
        return (
            Source(
                "the picture’s light and camera", "assumed", as_it_comes, _BY_WHITE, PHOTOGRAPHS
            ),
        )
    white = correction.white
    larger = f"draw a larger box on something evenly {correction.kind}, lit as the fibre is"
    thing = "white paper" if correction.kind == "white" else "a grey card"
    share = f"{white.reflects:.0%}, by common practice"
    return (
        Source(f"what {thing} reflects", "assumed", share, _BY_A_TARGET, PHOTOGRAPHS),
        Source("light seen on it", "measured", f"by {white.pixels:,} pixels", larger, PHOTOGRAPHS),
    )


def _by_patches(patches: PatchesSeen) -> tuple[Source, ...]:
    nearer = "come nearer, so that the target fills more of the picture"
    each = f"by {patches.pixels:,} pixels each" if patches.pixels else ""
    seen = f"light seen on the {len(patches.seen)} patches of the target"
    return (
        Source(seen, "measured", each, nearer, PHOTOGRAPHS),
        Source("their values", "given", "by the target’s sheet"),
    )


def _count(reading: PatchReading) -> str:
    return f"{reading.pixels:,} of {reading.in_box:,} in the box"


def _evenness(reading: PatchReading) -> Iterator[Working]:
    if reading.looked_at:
        values = {"apart": reading.apart, "looked_at": reading.looked_at}
        yield Working(by.MEAN_OF_PIXELS, values)


def _gains(correction: Correction) -> Iterator[Working]:
    """Yield how much more of each channel something white or grey asks for."""
    if correction.white is None:
        return
    reflects, seen = correction.white.reflects, correction.white.linear.tolist()
    for channel, light in zip(_CHANNELS, seen, strict=True):
        yield Working(
            by.GAIN, {"reflects": reflects, "seen_light": light}, "", f"gain of {channel}"
        )


def _light(reading: PatchReading) -> np.ndarray:
    """Return linear light (3,) of a box as it would be in the middle of the picture."""
    return reading.linear / reading.light


def _is_on_curve(reading: PatchReading, correction: Correction) -> bool:
    """Return whether a screen shows a colour, by the curved part of sRGB in all its channels."""
    right = correction.apply(_light(reading)[None, :])
    return bool((right > _STRAIGHT_BELOW).all() and (right <= 1).all())


def _written(reading: PatchReading, correction: Correction) -> str:
    return _WRITTEN if _is_on_curve(reading, correction) else f"{_WRITTEN}; {_BEYOND}"


def _becomes(reading: PatchReading, correction: Correction) -> Iterator[Working]:
    """Yield what becomes of the light of a box, channel by channel, until it is a colour."""
    light = _light(reading)
    if reading.light != 1:
        for channel, seen in zip(_CHANNELS, reading.linear.tolist(), strict=True):
            there = {"seen_light": seen, "light_there": reading.light}
            yield Working(by.EVENED, there, "", f"{channel}, made even")
    yield from _put_right(light, correction)
    if _is_on_curve(reading, correction):
        right = correction.apply(light[None, :])[0].tolist()
        for channel, value in zip(_CHANNELS, right, strict=True):
            yield Working(by.SHOWN, {"light": value}, "", f"{channel}, of 255")


def _put_right(light: np.ndarray, correction: Correction) -> Iterator[Working]:
    if correction.kind == "none":
        return
    if correction.degree == 0:
        gains = correction.matrix.tolist()
        for channel, seen, gain in zip(_CHANNELS, light.tolist(), gains, strict=True):
            values = {"seen_light": seen, "gain": gain}
            yield Working(by.PUT_RIGHT, values, "", f"{channel}, put right")
        return
    equation = by.BY_MATRIX if correction.degree == 1 else by.BY_ROOTS
    seen_of = dict(zip(_CHANNELS, light.tolist(), strict=True))
    slots = [f"of_{name}" for name in (*_CHANNELS, *_ROOTS)][: correction.matrix.shape[1]]
    for channel, row in zip(_CHANNELS, correction.matrix.tolist(), strict=True):
        values = {**dict(zip(slots, row, strict=True)), **seen_of}
        yield Working(equation, values, "", f"{channel}, put right")


def _left_open(correction: Correction) -> Reason:
    """Return why colours may be out by so much when they are put right."""
    figure = "left open by the correction"
    if correction.patches is not None:
        left_out, by_grey = correction.patches.left_out, correction.patches.by_grey
        nearer = float(min(left_out.mean(), by_grey.mean()))
        line = Working(by.LARGER, {"least": LEAST_UNSURE, "nearer": nearer}, "", figure)
        return Reason(figure, (*_by_patches(correction.patches), _LEAST), (line,), _TWICE)
    surer = _BY_A_TARGET if correction.white is not None else _BY_WHITE
    if correction.white is not None and correction.unsure == UNSURE_BY_WHITE:
        words, where = "how far colours by white or grey lie off", "on three real photographs"
        return Reason(figure, (Source(words, "measured", where, surer, PHOTOGRAPHS),))
    words = "how far such colours lie off"
    return Reason(figure, (Source(words, "assumed", "by judgement", surer, PHOTOGRAPHS),))


def _of_doubts(known: tuple[Source, ...]) -> Reason:
    return Reason("doubts of the correction", known, (), _DOUBTED)


def _of_patches(patches: PatchesSeen, known: tuple[Source, ...]) -> dict[str, Reason]:
    """Return the reasons for how near the patches of a target come to what they are."""
    return {
        "left_out_mean": Reason("in the mean", known, (_mean(patches.left_out),), _ONE_OUT),
        "left_out_max": Reason("at worst", known, (), _worst(patches)),
        "by_grey_mean": Reason("by the grey ones", known, (_mean(patches.by_grey),), _BY_GREY),
    }


def _mean(apart: np.ndarray) -> Working:
    values = {"patches_apart": float(apart.sum()), "patches": len(apart)}
    return Working(by.MEAN_OF_PATCHES, values)


def _worst(patches: PatchesSeen) -> str:
    """Return which patch comes out farthest off: what it was, what it became, what it is."""
    at = int(patches.left_out.argmax())
    row, column = at // patches.columns + 1, at % patches.columns + 1
    seen, became, wanted = (
        " ".join(f"{value:.0f}" for value in lab_as_seen(linear[at : at + 1])[0])
        for linear in (patches.seen, patches.became, patches.wanted)
    )
    return (
        f"the patch in row {row}, column {column} of the target’s sheet: in CIELAB seen as {seen}, "
        f"put right by all the others {became}, by the sheet {wanted}"
    )
