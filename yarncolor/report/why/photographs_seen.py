"""Figures of a photograph as they are seen, in tables and sentences, each with its reason."""

from collections.abc import Iterable, Iterator, Sequence

from yarncolor.colour.photo.annotations import named
from yarncolor.colour.photo.correction import Correction
from yarncolor.colour.photo.illumination import Illumination
from yarncolor.colour.photo.proposals import Proposal, proposal_words
from yarncolor.colour.photo.readings import Seen as OnPhoto
from yarncolor.colour.photo.readings import correction_told, fit_told, reading_words
from yarncolor.colour.photo.sampling import PatchReading
from yarncolor.measures import METRIC
from yarncolor.report.why.photographs import box_lines, correction_reasons, every_box, light_reasons
from yarncolor.report.why.reason import Reason, Source
from yarncolor.report.why.seen import Seen, seen_in, told_of
from yarncolor.said import Said

_SHARE = "pixels of one patch of one colour, over all pixels of a small copy of the picture"


def photo_told(on_photo: OnPhoto, proposed: Sequence[Proposal] = ()) -> list[tuple[str, list[str]]]:
    """Return what every figure answers that is told of a photograph: headings with their lines.

    Parameters
    ----------
    on_photo : OnPhoto
        What the photograph says where something is drawn on it.
    proposed : sequence of Proposal
        Lots that it may show, where they are told.
    """
    read, correction = list(_read(on_photo)), on_photo.correction
    in_words = sentences_seen(correction, on_photo.light, bool(read))
    told = told_of((*in_words, *_proposals_seen(proposed)), METRIC)
    if correction is None or not read:
        return told
    boxes = [
        (_heading(name, reading, correction), box_lines(reading, correction))
        for name, reading in read
    ]
    return [*told, *boxes, ("Every box", every_box(correction))]


def sentences_of(
    correction: Correction | None, light: Illumination | None = None, are_read: bool = True
) -> tuple[Said, ...]:
    """Return what is told below a photograph: how it is put right, how near, how even its light.

    Parameters
    ----------
    correction : Correction or None
        How the picture was put right.
    light : Illumination or None
        How light falls over it, where that is known.
    are_read : bool
        Whether colours are read, of which it is told how far they may be out.
    """
    told = list(correction_told(correction)) if correction is not None and are_read else []
    if correction is not None and correction.patches is not None:
        told.append(fit_told(correction.patches))
    return (*told, *([] if light is None else [light.told]))


def sentences_seen(
    correction: Correction | None, light: Illumination | None = None, are_read: bool = True
) -> tuple[Seen, ...]:
    """Return the figures of what is told below a photograph, with their reasons.

    Parameters
    ----------
    correction : Correction or None
        How the picture was put right.
    light : Illumination or None
        How light falls over it, where that is known.
    are_read : bool
        Whether colours are read, of which it is told how far they may be out.
    """
    reasons = dict[str, Reason]()
    if correction is not None:
        reasons |= correction_reasons(correction)
    if light is not None:
        reasons |= light_reasons(light)
    return seen_in(sentences_of(correction, light, are_read), reasons)


def _heading(name: str, reading: PatchReading, correction: Correction) -> str:
    """Return what is told of a box, in one line."""
    words = reading_words(reading, correction)
    each = (words["colour"], f"may be out by {words['out_by']}", words["even"])
    more = (f"{words['pixels']} pixels", words["doubts"])
    return f"{name}: {', '.join(filter(None, (*each, *more)))}"


def _read(on_photo: OnPhoto) -> Iterator[tuple[str, PatchReading]]:
    """Yield each box that is read, as it is called."""
    for number, mark in enumerate(on_photo.marks.of("fibre"), start=1):
        if mark.key in on_photo.readings:
            yield named(mark, number), on_photo.readings[mark.key]


def _proposals_seen(proposed: Iterable[Proposal]) -> tuple[Seen, ...]:
    words = "; ".join(dict.fromkeys(proposal_words(one) for one in proposed))
    copy = Source("the picture as it comes", "measured")
    return (Seen(words, Reason("proposed", (copy,), (), _SHARE)),) if words else ()
