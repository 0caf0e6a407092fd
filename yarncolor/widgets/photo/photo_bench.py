"""From a photograph to a lot: boxes drawn on the picture, a colour for each, a line in the plan."""

import io
from pathlib import Path
from typing import Any, cast

from PIL import Image

from yarncolor.colour.photo.annotations import read_annotations
from yarncolor.colour.photo.image import Photo, open_photo, photo_from_bytes
from yarncolor.colour.photo.proposals import Proposal as Proposed
from yarncolor.colour.photo.proposals import proposals, proposals_said
from yarncolor.colour.photo.readings import Seen, said_of, seen_on
from yarncolor.colour.photo.target_values import OWN_VALUES
from yarncolor.colour.science import EDITIONS
from yarncolor.editing.editor import Editor
from yarncolor.editing.lots_from_photo import lots_from_annotations
from yarncolor.errors import PlanError, one_line
from yarncolor.measures import measures_of
from yarncolor.report.why.photographs_seen import photo_told
from yarncolor.widgets.message_widget import MessageWidget, module
from yarncolor.widgets.plan_bar import WithPlanBar
from yarncolor.widgets.protocol.messages import HEARD
from yarncolor.widgets.protocol.photo import (
    AskOfPhoto,
    FindLots,
    OpenPicture,
    PhotoAnswer,
    PhotoHead,
    PhotoPlan,
    PhotoTask,
    PlanLots,
    Proposal,
    Readings,
)

_SHOWN_PX, _QUALITY = 900, 90


def photo_bench(
    picture: str | Path | Photo, plan_file: str | Path, out_folder: str | Path = "out"
) -> WithPlanBar:
    """Return a bench on which colours are taken from a photograph into a plan.

    Parameters
    ----------
    picture : str, Path or Photo
        A photograph, or the name of one.
    plan_file : str or Path
        A plan file; it is changed only where that is asked for.
    out_folder : str or Path
        Where a plan goes that has no file yet.

    Raises
    ------
    PlanError
        Where picture or plan have faults.
    """
    photo = picture if isinstance(picture, Photo) else open_photo(picture)
    return WithPlanBar.opened(plan_file, out_folder, lambda editor, _: PhotoBench(photo, editor))


def example_photo_bench(editor: Editor) -> "PhotoBench":
    """Return a bench that begins with the example photograph; another can be opened in it."""
    from yarncolor.colour.photo.demo import example_photo

    return PhotoBench(example_photo(), editor)


class PhotoBench(MessageWidget):
    """A photograph to draw on; what is drawn is kept here, so that a page drawn anew has it.

    Parameters
    ----------
    photo : Photo
        The photograph.
    editor : Editor
        The plan that colours are taken into.
    """

    _esm = module("photo/photo_bench")
    hears = HEARD["photo"]

    def __init__(self, photo: Photo, editor: Editor) -> None:
        self.photo, self.editor = photo, editor
        self._drawn: dict[str, Any] = {}
        self._last: Seen | None = None
        self._proposed: list[Proposed] = []
        super().__init__()

    def __repr__(self) -> str:
        return "A bench to take colours from a photograph; it needs a live notebook."

    def refresh(self) -> None:
        """Tell the browser which lots the plan has by now."""
        told: PhotoPlan = {"kind": "plan", "plan": self._plan()}
        self.send(told)

    def handle(self, message: dict[str, Any], buffers: list[bytes]) -> None:
        """Keep what is drawn, and do what the browser asks for.

        Parameters
        ----------
        message : dict[str, Any]
            ``do``, and what belongs to it, what is drawn among it.
        buffers : list[bytes]
            A picture that came with it.
        """
        self._drawn = message.get("drawn", self._drawn)
        super().handle(message, buffers)

    def on_open(self, message: AskOfPhoto) -> None:
        """Show picture, plan and what is drawn to a page that is there now."""
        told: PhotoTask = {
            "photo": self._photo(),
            "plan": self._plan(),
            "drawn": self._drawn,
            "editions": [*EDITIONS, OWN_VALUES],
            "readings": self._readings(self._seen()),
        }
        self._answer(message, told)

    def on_read(self, message: AskOfPhoto) -> None:
        """Say what the picture says where something is drawn."""
        self._answer(message, {"readings": self._readings(self._seen())})

    def on_why(self, message: AskOfPhoto) -> None:
        """Say why the figures are what they are, once they are asked."""
        proposed = self._proposed if self._drawn.get("proposed") else ()
        self._answer(message, {"why": photo_told(self._seen(), proposed)})

    def on_find(self, message: FindLots) -> None:
        """Propose boxes that may be fibre."""
        count = message.get("count")
        try:
            boxes = proposals(self.photo, count if isinstance(count, int) else 0)
        except PlanError as error:
            self._answer(message, {"faults": {"find": one_line(error)}})
        else:
            self._proposed = boxes
            proposed = cast("list[Proposal]", proposals_said(boxes))
            self._answer(message, {"proposed": proposed, "said": _found_words(len(boxes))})

    def on_take(self, message: AskOfPhoto) -> None:
        """Take a lot for each box into the plan, or say what is in the way."""
        seen = self._seen()
        taken = lots_from_annotations(self.editor.plan, seen)
        self.editor.replace_plan(taken.plan)
        readings = self._readings(seen)
        self._answer(message, {"readings": readings, "faults": taken.faults, "said": taken.words})

    def on_picture(self, message: OpenPicture) -> None:
        """Put another picture under what is drawn."""
        name = str(message.get("name"))
        data = message["buffers"][0] if message["buffers"] else b""
        try:
            self.photo = photo_from_bytes(bytes(data), name)
        except PlanError as error:
            self._answer(message, {"faults": {"picture": one_line(error)}})
            return
        photo = self._photo()
        photo["name"], photo["from"] = name, message.get("from")
        photo["notes"] = "; ".join(self.photo.notes)
        self._answer(message, {"photo": photo, "readings": self._readings(self._seen())})

    def _seen(self) -> Seen:
        """Return what the picture says, read anew only where something was changed."""
        self._last = seen_on(self.photo, read_annotations(self._drawn), self._last)
        return self._last

    def _readings(self, seen: Seen) -> Readings:
        return said_of(seen, self.photo.size_px)

    def _photo(self) -> PhotoHead:
        wide, high = self.photo.size_px
        return {"width": wide, "height": high, "is_example": self.photo.is_example}

    def _plan(self) -> PlanLots:
        mass = measures_of(self.editor.plan).mass
        return {
            "lots": [(lot.name, lot.mass_g) for lot in self.editor.plan.lots],
            "mass": mass.plural,
            "mass_g": mass.size,
        }

    def _answer(self, message: AskOfPhoto | OpenPicture, told: PhotoTask) -> None:
        """Send what came of it, with a small copy of the picture where that is new."""
        answer: PhotoAnswer = {
            "kind": "answer",
            "do": message["do"],
            "view": message.get("view"),
            "serial": message.get("serial"),
            **told,
        }
        self.send(answer, [shown_jpeg(self.photo)] if "photo" in told else [])


def shown_jpeg(photo: Photo) -> bytes:
    """Return a small copy of a photograph to be looked at; colours are read from the whole one."""
    image = Image.fromarray(photo.srgb)
    image.thumbnail((_SHOWN_PX, _SHOWN_PX))
    stream = io.BytesIO()
    image.save(stream, "JPEG", quality=_QUALITY, subsampling=0)
    return stream.getvalue()


def _found_words(count: int) -> str:
    if not count:
        return "No lots were found in the picture; draw a box on each."
    return f"Proposed: {count}. Keep what is fibre, leave what is table, paper or target."
