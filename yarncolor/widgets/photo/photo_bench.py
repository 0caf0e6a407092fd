"""From a photograph to a lot: boxes drawn on the picture, a colour for each, a line in the plan."""

import io
from pathlib import Path
from typing import Any

from PIL import Image

from yarncolor.colour.photo.image import Photo, open_photo, photo_from_bytes
from yarncolor.colour.photo.marks import read_annotations
from yarncolor.colour.photo.proposals import proposals, proposals_said
from yarncolor.colour.photo.readings import Seen, said_of, seen_on
from yarncolor.colour.science import EDITIONS
from yarncolor.editing.editor import Editor
from yarncolor.editing.lots_from_photo import lots_from_annotations
from yarncolor.errors import PlanError, one_line
from yarncolor.widgets.message_widget import MessageWidget, module
from yarncolor.widgets.plan_bar import WithPlanBar

_MODULES = (
    "element",
    "photo/photo_shapes",
    "photo/photo_board",
    "photo/photo_rows",
    "photo/photo_steps",
    "photo/photo_bench",
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
    editor = Editor.opened(plan_file)
    return WithPlanBar(PhotoBench(photo, editor), editor, Path(out_folder))


class PhotoBench(MessageWidget):
    """A photograph to draw on; what is drawn is kept here, so that a page drawn anew has it.

    Parameters
    ----------
    photo : Photo
        The photograph.
    editor : Editor
        The plan that colours are taken into.
    """

    _esm = module(*_MODULES)["_esm"]
    _css = module(*_MODULES)["_css"]

    def __init__(self, photo: Photo, editor: Editor) -> None:
        self.photo, self.editor = photo, editor
        self._drawn: dict[str, Any] = {}
        super().__init__()

    def __repr__(self) -> str:
        return "A bench to take colours from a photograph; it needs a live notebook."

    def refresh(self) -> None:
        """Tell the browser which lots the plan has by now."""
        self.send({"plan": self._plan()})

    def answer_to(self, content: dict[str, Any], buffers: list) -> None:
        """Answer what the browser asks: open, read, find, take or picture."""
        self._drawn = content.get("drawn", self._drawn)
        picture = buffers[0] if buffers else None
        answer, shown = self.answered(content, picture)
        about = {key: content.get(key) for key in ("ask", "view", "serial")}
        self.send(about | answer, shown)

    def answered(
        self, content: dict[str, Any], picture: bytes | None = None
    ) -> tuple[dict[str, Any], list[bytes]]:
        """Return the answer to a message, and buffers with the picture where that is new.

        Parameters
        ----------
        content : dict
            ``ask`` and what belongs to it.
        picture : bytes, optional
            Of a file that was opened.
        """
        tasks = {
            "open": self._opened,
            "read": self._read,
            "find": lambda: self._found(content.get("count")),
            "take": self._taken,
            "picture": lambda: self._another(content, bytes(picture or b"")),
        }
        answer = tasks[content["ask"]]()
        return answer, [shown_jpeg(self.photo)] if "photo" in answer else []

    def _seen(self) -> Seen:
        return seen_on(self.photo, read_annotations(self._drawn))

    def _read(self) -> dict[str, Any]:
        return {"readings": said_of(self._seen(), self.photo.size_px)}

    def _opened(self) -> dict[str, Any]:
        return {
            "photo": self._photo(),
            "plan": self._plan(),
            "drawn": self._drawn,
            "editions": list(EDITIONS),
            **self._read(),
        }

    def _photo(self) -> dict[str, Any]:
        wide, high = self.photo.size_px
        return {"width": wide, "height": high, "is_example": self.photo.is_example}

    def _plan(self) -> dict[str, Any]:
        lots = [(lot.name, lot.mass_g) for lot in self.editor.plan.lots]
        return {"lots": lots}

    def _found(self, count: object) -> dict[str, Any]:
        try:
            found = proposals(self.photo, count if isinstance(count, int) else 0)
        except PlanError as error:
            return {"faults": {"find": one_line(error)}}
        return {"proposed": proposals_said(found), "said": _found_words(len(found))}

    def _taken(self) -> dict[str, Any]:
        seen = self._seen()
        found = lots_from_annotations(self.editor.plan, seen)
        self.editor.replace_plan(found.plan)
        readings = said_of(seen, self.photo.size_px)
        return {"readings": readings, "faults": found.faults, "said": found.words}

    def _another(self, content: dict[str, Any], data: bytes) -> dict[str, Any]:
        name = str(content.get("name"))
        try:
            self.photo = photo_from_bytes(data, name)
        except PlanError as error:
            return {"faults": {"picture": one_line(error)}}
        about = {"name": name, "from": content.get("from"), "notes": "; ".join(self.photo.notes)}
        return {"photo": self._photo() | about, **self._read()}


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
