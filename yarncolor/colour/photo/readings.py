"""What is read where a hand has drawn: light, correction, a colour for each box; and as words."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Literal, NoReturn, TypedDict, TypeVar

from yarncolor.colour.photo.annotations import TARGET, Annotations, annotations_alt, named
from yarncolor.colour.photo.correction import (
    REFLECTS,
    Correction,
    PatchesSeen,
    by_white,
    uncorrected,
)
from yarncolor.colour.photo.illumination import Illumination, light_by_white
from yarncolor.colour.photo.image import Photo
from yarncolor.colour.photo.lots import read_boxes
from yarncolor.colour.photo.sampling import Box, PatchReading
from yarncolor.colour.photo.target import TargetFit, by_target
from yarncolor.colour.photo.target_values import OWN_VALUES, TargetValues, target_values
from yarncolor.colour.science import hex_from_srgb, shown_srgb
from yarncolor.errors import Fault, PlanError, one_line
from yarncolor.said import Figure, said
from yarncolor.said import Said as Sentence

_Made = TypeVar("_Made")
_CORNERS = 4


@dataclass(frozen=True)
class Seen:
    """What a photograph says where something is drawn on it.

    Parameters
    ----------
    photo : Photo
        The photograph.
    marks : Annotations
        What is drawn.
    light : Illumination or None
        How light falls over the picture, where that is asked and known.
    correction : Correction or None
        How it was put right; None where that is at fault, and then nothing is read.
    fit : TargetFit or None
        Of the target, where one is used.
    readings : dict of str to PatchReading
        By the key of the box on fibre.
    faults : dict of str to str
        By what they concern: the key of a box, ``corners``, ``way`` or ``light``.
    """

    photo: Photo
    marks: Annotations
    light: Illumination | None = None
    correction: Correction | None = None
    fit: TargetFit | None = None
    readings: dict[str, PatchReading] = field(default_factory=dict)
    faults: dict[str, str] = field(default_factory=dict)

    @property
    def reading_of_box(self) -> dict[Box, PatchReading]:
        """What was read, by the box that it was read in."""
        fibre = self.marks.of("fibre")
        return {one.box: self.readings[one.key] for one in fibre if one.key in self.readings}


def seen_on(photo: Photo, marks: Annotations, before: Seen | None = None) -> Seen:
    """Return what a photograph says of what is drawn; each fault beside what it concerns.

    Light, correction and readings whose boxes, corners and choices are as before are taken over,
    so that a box that was moved is the only one that is read.

    Parameters
    ----------
    photo : Photo
        The photograph.
    marks : Annotations
        What is drawn on it.
    before : Seen, optional
        What was seen last.
    """
    if before is None or before.photo is not photo:
        before = Seen(photo, Annotations())
    faults = dict(marks.faults)
    light = _tried(faults, "light", lambda: _light(marks, before)) if marks.even else None
    if "light" in faults:
        return Seen(photo, marks, faults=faults)
    put_right = _tried(faults, _concerned(marks), lambda: _corrected(marks, light, before))
    if put_right is None:
        return Seen(photo, marks, light, faults=faults)
    correction, fit = put_right
    known = before.reading_of_box if _same(before, correction, light) else {}
    readings = {}
    for mark in marks.of("fibre"):
        reading = known.get(mark.box) or _tried(
            faults, mark.key, _reader(photo, mark.box, correction, light)
        )
        if reading is not None:
            readings[mark.key] = reading
    return Seen(photo, marks, light, correction, fit, readings, faults)


def _same(before: Seen, correction: Correction, light: Illumination | None) -> bool:
    return before.correction is correction and before.light is light


def _reader(
    photo: Photo, box: Box, correction: Correction, light: Illumination | None
) -> Callable[[], PatchReading]:
    return lambda: read_boxes(photo, {"": box}, correction, light)[""]


Column = Literal["colour", "out_by", "even", "pixels", "doubts"]
"""What is told of a reading."""


class ReadingWords(TypedDict):
    """What is said of a reading, all text."""

    colour: str
    out_by: str
    even: str
    pixels: str
    doubts: str


class Row(ReadingWords):
    """A reading with the key and the name of its box, as a browser shows it."""

    key: str
    name: str


class Said(TypedDict):
    """What was read, as a browser shows it."""

    rows: list[Row]
    correction: list[str]
    fit: str
    light: str
    faults: dict[str, str]
    alt: str


def said_of(seen: Seen, size_px: tuple[int, int]) -> Said:
    """Return readings as a browser shows them, all text.

    Parameters
    ----------
    seen : Seen
        From `seen_on`.
    size_px : (int, int)
        Width and height of the photograph.
    """
    rows = _rows(seen, seen.correction) if seen.correction else []
    return {
        "rows": rows,
        "correction": [str(one) for one in correction_told(seen.correction)]
        if seen.correction
        else [],
        "fit": str(fit_told(seen.fit.patches)) if seen.fit else "",
        "light": seen.light.words if seen.light else "",
        "faults": seen.faults,
        "alt": _alt(rows, seen, size_px),
    }


def _rows(seen: Seen, correction: Correction) -> list[Row]:
    return [
        {
            "key": mark.key,
            "name": named(mark, number),
            **reading_words(seen.readings[mark.key], correction),
        }
        for number, mark in enumerate(seen.marks.of("fibre"), start=1)
        if mark.key in seen.readings
    ]


def reading_words(reading: PatchReading, correction: Correction) -> ReadingWords:
    """Return what is said of a reading: colour, how far out, how even, pixels, doubts.

    Parameters
    ----------
    reading : PatchReading
        The colour of a box.
    correction : Correction
        How the picture was put right.
    """
    srgb, _ = shown_srgb(reading.lab[None, :])
    (colour,) = hex_from_srgb(srgb)
    return {
        "colour": colour,
        "out_by": f"{correction.unsure_of(reading):.0f}",
        "even": f"± {reading.spread:.1f}",
        "pixels": f"{reading.pixels:,}",
        "doubts": "; ".join(reading.warnings),
    }


def correction_told(correction: Correction) -> tuple[Sentence, ...]:
    """Return how a picture was put right, what that leaves open, and what makes it doubtful."""
    note = said(
        "The picture was {way}; each colour may be out by {out} (CIEDE2000) in the mean, some by "
        "twice that. Loose fibre looks paler than spun yarn, wet fibre darker, and purples often "
        "come out too blue.",
        way=Figure(correction.words, "way"),
        out=Figure(f"{correction.unsure:.0f}", "unsure"),
    )
    counts = correction.patches is not None
    doubts = (Figure(one, "doubts") if counts else one for one in correction.warnings)
    return (note, *(said("{doubt}", doubt=one) for one in doubts))


def fit_told(patches: PatchesSeen) -> Sentence:
    """Return how well a target does on patches that it has not seen."""
    return said(
        "Patches left out one by one are met to {mean} CIEDE2000 in the mean, {worst} at worst; by "
        "the grey ones alone {grey}.",
        mean=Figure(f"{patches.left_out.mean():.1f}", "left_out_mean"),
        worst=Figure(f"{patches.left_out.max():.1f}", "left_out_max"),
        grey=Figure(f"{patches.by_grey.mean():.1f}", "by_grey_mean"),
    )


def _alt(rows: list[Row], seen: Seen, size_px: tuple[int, int]) -> str:
    read = ", ".join(f"{row['name']} is {row['colour']}" for row in rows)
    return annotations_alt(size_px, seen.marks) + (f" Read: {read}." if read else "")


def _places(marks: Annotations) -> list[Box]:
    return [mark.box for mark in marks.of("place")]


def _light(marks: Annotations, before: Seen) -> Illumination:
    if before.light is not None and _places(before.marks) == _places(marks):
        return before.light
    return light_by_white(before.photo, _places(marks))


def _concerned(marks: Annotations) -> str:
    """Return what a fault of the correction stands beside."""
    if marks.way == TARGET:
        return "corners"
    drawn = marks.of(marks.way)
    return drawn[-1].key if drawn else "way"


def _rests_on(marks: Annotations) -> tuple[object, ...]:
    """Return what a correction rests on, besides the light: the way, and what is drawn for it."""
    if marks.way == TARGET:
        return marks.way, marks.corners, marks.edition, marks.degree, marks.values
    return marks.way, [mark.box for mark in marks.of(marks.way)][-1:]


def _corrected(
    marks: Annotations, light: Illumination | None, before: Seen
) -> tuple[Correction, TargetFit | None]:
    rests_on = (light, *_rests_on(marks))
    if before.correction is not None and (before.light, *_rests_on(before.marks)) == rests_on:
        return before.correction, before.fit
    if marks.way == TARGET:
        if len(marks.corners) < _CORNERS:
            _refuse(f"set the four corners of the target: {len(marks.corners)} of 4 are set")
        fit = by_target(before.photo, marks.corners, _target(marks), marks.degree, light)
        return fit.correction, fit
    return _by_box(marks, light, before.photo), None


def _target(marks: Annotations) -> str | TargetValues:
    """Return which of the preset's values a target has, or its own."""
    if marks.edition != OWN_VALUES:
        return marks.edition
    if not marks.values:
        _refuse("open the file of the target's values: row, column, L, a and b of each patch")
    return target_values(marks.values, "the values")


def _by_box(marks: Annotations, light: Illumination | None, photo: Photo) -> Correction:
    if marks.way not in REFLECTS:
        return uncorrected()
    drawn = marks.of(marks.way)
    if not drawn:
        thing = "something white" if marks.way == "white" else "a grey card"
        _refuse(f"draw a box on {thing} in the picture, or choose nothing")
    return by_white(photo, drawn[-1].box, marks.way, light)


def _refuse(remedy: str) -> NoReturn:
    raise PlanError([Fault("", "", "", remedy)])


def _tried(faults: dict[str, str], concerns: str, make: Callable[[], _Made]) -> _Made | None:
    """Return what is made; where it is refused, nothing, and the fault under what it concerns."""
    try:
        return make()
    except PlanError as error:
        faults[concerns] = one_line(error)
        return None
