"""What a hand has drawn on a photograph: boxes, a target's corners, the way of putting right.

A browser sends it as a plain dict; whatever stands in that, each fault goes beside what it
concerns, and the rest is read.
"""

from dataclasses import dataclass, field
from math import isfinite
from typing import Any

from yarncolor.colour.photo.sampling import Box
from yarncolor.errors import Fault, PlanError, fail, one_line, truncated

KINDS = {"fibre": "fibre", "white": "white", "grey": "grey card", "place": "light"}
"""What a box may lie on, and what it is called."""

NOTHING, TARGET = "nothing", "target"
WAYS = (NOTHING, "white", "grey", TARGET)
_SIDES = ("left", "top", "width", "height")
_SPARE = 1e-6


@dataclass(frozen=True)
class Annotation:
    """A box drawn on a photograph.

    Parameters
    ----------
    key : str
        By which the browser knows it.
    kind : str
        What it lies on, one of `KINDS`.
    box : Box
        Where.
    name : str
        Of the lot, for fibre; empty where none is given yet.
    mass_g : float or None
        Grams of the lot; None where that is no number.
    """

    key: str
    kind: str
    box: Box
    name: str = ""
    mass_g: float | None = None


@dataclass(frozen=True)
class Annotations:
    """Everything that is drawn on a photograph.

    Parameters
    ----------
    boxes : tuple of Annotation
        Those that lie inside the picture, in the order in which they were drawn.
    corners : tuple of (x, y)
        Of a target, as far as they are set.
    way : str
        How the picture is put right, one of `WAYS`.
    edition, degree : str, int
        Of the target, and how closely it is followed.
    even : bool
        Whether light is made even by the places on white.
    values : str
        What the file of a target's own values says; empty where there is none.
    faults : dict of str to str
        What is wrong, by the key of a box, or by ``corners``.
    """

    boxes: tuple[Annotation, ...] = ()
    corners: tuple[tuple[float, float], ...] = ()
    way: str = NOTHING
    edition: str = ""
    degree: int = 1
    even: bool = False
    values: str = ""
    faults: dict[str, str] = field(default_factory=dict)

    def of(self, kind: str) -> tuple[Annotation, ...]:
        """Return the boxes on one kind of thing."""
        return tuple(mark for mark in self.boxes if mark.kind == kind)


def read_annotations(drawn: dict[str, Any]) -> Annotations:
    """Return what a browser says is drawn.

    Parameters
    ----------
    drawn : dict
        ``boxes``, each with ``key``, ``kind`` and ``box`` (left, top, width and height in shares
        of the picture), fibre also with ``name`` and ``mass_g``; ``corners``, pairs of shares;
        ``way``, ``edition``, ``degree``, ``even`` and ``values``.
    """
    boxes, faults = [], {}
    for given in drawn.get("boxes", ()):
        if given.get("kind") not in KINDS:
            continue
        try:
            boxes.append(_mark(given))
        except PlanError as error:
            faults[str(given.get("key"))] = one_line(error)
    corners = [_corner(pair) for pair in drawn.get("corners", ())]
    placed = tuple(corner for corner in corners if corner is not None)
    if len(placed) < len(corners):
        placed, faults["corners"] = (), "corners: give numbers, 0 to 100 percent"
    return Annotations(
        tuple(boxes),
        placed,
        drawn["way"] if drawn.get("way") in WAYS else NOTHING,
        str(drawn.get("edition", "")),
        drawn.get("degree", 1),
        bool(drawn.get("even")),
        str(drawn.get("values") or ""),
        faults,
    )


def named(mark: Annotation, number: int) -> str:
    """Return what a box is called: the lot's name, or which it is of its kind, from 1.

    Parameters
    ----------
    mark : Annotation
        The box.
    number : int
        Which of its kind, from 1.
    """
    return truncated(mark.name) or f"{KINDS[mark.kind]} {number}"


def annotations_alt(size_px: tuple[int, int], marks: Annotations) -> str:
    """Return the text alternative of a photograph with what is drawn on it.

    Parameters
    ----------
    size_px : (int, int)
        Width and height of the photograph.
    marks : Annotations
        What is drawn.
    """
    wide, high = size_px
    told = [
        f"{named(mark, number)} at {_percent(mark.box.left)}, {_percent(mark.box.top)}"
        for kind in KINDS
        for number, mark in enumerate(marks.of(kind), start=1)
    ]
    if marks.corners:
        told.append(f"{len(marks.corners)} of 4 corners of a target")
    drawn = f"drawn on it, from the left and the top: {'; '.join(told)}" if told else "no boxes"
    return f"A photograph of {wide} × {high} pixels, {drawn}."


def _mark(given: dict[str, Any]) -> Annotation:
    given_shares = [_number(share) for share in (given.get("box") or ())]
    shares = [share for share in given_shares if share is not None]
    if len(given_shares) != len(_SIDES) or len(shares) < len(_SIDES):
        pairs = zip(_SIDES, given_shares, strict=False)
        missing = [side for side, share in pairs if share is None]
        fail(", ".join(missing) or "box", "give a number, 0 to 100 percent")
    _inside(shares)
    left, top, width, height = shares
    box = Box(left, top, min(width, 1 - left), min(height, 1 - top))
    name = str(given.get("name", "")).strip()
    return Annotation(str(given.get("key")), given["kind"], box, name, _number(given.get("mass_g")))


def _corner(pair: Any) -> tuple[float, float] | None:
    """Return a place, or None for anything that is none."""
    numbers = [_number(share) for share in pair]
    if len(numbers) != 2 or numbers[0] is None or numbers[1] is None:
        return None
    return numbers[0], numbers[1]


def _inside(shares: list[float]) -> None:
    """Refuse a box that is not all inside the picture, in the percent that its fields show."""
    faults = []
    for start, size in (("left", "width"), ("top", "height")):
        at, far = (shares[_SIDES.index(side)] for side in (start, size))
        if at < 0:
            faults.append(Fault("", start, _percent(at), "give 0 percent or more"))
        if far <= 0:
            faults.append(Fault("", size, _percent(far), "give more than 0 percent"))
        if at + far > 1 + _SPARE:
            remedy = "the box has to end inside the picture, at 100 percent or before"
            faults.append(Fault("", f"{start} + {size}", _percent(at + far), remedy))
    if faults:
        raise PlanError(faults)


def _number(value: object) -> float | None:
    if not isinstance(value, int | float) or isinstance(value, bool) or not isfinite(value):
        return None
    return float(value)


def _percent(share: float) -> str:
    return f"{100 * share:.4g} %"
