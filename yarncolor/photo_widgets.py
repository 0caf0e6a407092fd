"""From a phone's picture to a lot: boxes on fibre and on white, a colour, a line in the plan."""

import io
from collections.abc import Callable
from pathlib import Path
from typing import Any

import ipywidgets as w

from yarncolor.benches import all_faults, label, status
from yarncolor.colours import EDITIONS
from yarncolor.corrections import Correction, by_target, by_white, uncorrected
from yarncolor.errors import PlanError
from yarncolor.fibre_colours import Box, Reading
from yarncolor.photo_display import marked, show_readings
from yarncolor.photo_lots import lot_from, read_boxes, with_lot
from yarncolor.photographs import Photo, open_photo, photo_from_bytes
from yarncolor.plan import to_data
from yarncolor.planfile import plan_from_data, read_plan
from yarncolor.saving import save_plan

_NOTHING, _WHITE, _GREY, _TARGET = "nothing", "white", "grey", "target"
_WAYS = (
    ("nothing (as it comes)", _NOTHING),
    ("something white in the picture", _WHITE),
    ("a grey card in the picture", _GREY),
    ("a 24-patch target", _TARGET),
)
_SIDES = ("left", "top", "width", "height")


def photo_bench(
    picture: str | Path | Photo, plan_file: str | Path, out_folder: str | Path = "out"
) -> "PhotoBench":
    """Return a bench on which a colour is taken from a photograph into a plan.

    Parameters
    ----------
    picture : str, Path or Photo
        A photograph, or the name of one.
    plan_file : str or Path
        A plan file; it is not changed: the plan with its new lots is written beside.
    out_folder : str or Path
        Where that is written.

    Raises
    ------
    PlanError
        Where picture or plan have faults.
    """
    photo = picture if isinstance(picture, Photo) else open_photo(picture)
    return PhotoBench(photo, Path(plan_file), Path(out_folder))


class PhotoBench(w.VBox):
    """Sliders of two boxes round one photograph.

    Parameters
    ----------
    photo : Photo
        The photograph.
    plan_file : Path
        Where lots come from.
    out_folder : Path
        Where the changed plan is written.
    """

    def __init__(self, photo: Photo, plan_file: Path, out_folder: Path) -> None:
        self.photo, self.plan_file, self.out_folder = photo, plan_file, out_folder
        self.plan = read_plan(plan_file)
        self.correction: Correction = uncorrected()
        self.controls = _controls()
        self.image = w.Image(format="png", layout=w.Layout(width="100%", max_width="900px"))
        self.upload = w.FileUpload(
            accept="image/*",
            multiple=False,
            description="Open a picture",
            layout=w.Layout(width="14em"),
        )
        self.upload.observe(self._on_upload, "value")
        self.read, self.said = (w.HTML(layout=w.Layout(width="100%")) for _ in "12")
        self._reading: Reading | None = None
        self.take = _button("Take this colour", self._take)
        self.write = _button("Write the plan", self._write)
        for control in self.controls.values():
            control.observe(lambda _: self._show(), "value")
        super().__init__(
            [
                self.upload,
                self.image,
                *self.controls.values(),
                self.read,
                w.HBox([self.take, self.write]),
                self.said,
            ]
        )
        self._say("")
        self._show()

    def __repr__(self) -> str:
        return "A bench to take colours from a photograph; it needs a live notebook."

    @property
    def box(self) -> Box:
        """The box on the fibre."""
        return self._box("fibre")

    def _box(self, what: str) -> Box:
        left, top, width, height = (self.controls[f"{what}_{side}"].value for side in _SIDES)
        return Box(left, top, min(width, 1 - left), min(height, 1 - top))

    def _show(self) -> None:
        way = self.controls["by"].value
        for key, control in self.controls.items():
            needs = {"white": (_WHITE, _GREY), "target": (_TARGET,)}.get(key.split("_")[0])
            control.layout.display = None if needs is None or way in needs else "none"
        name = self.controls["name"].value or "fibre"
        boxes = {f"{name} (fibre)" if name in (_WHITE, _GREY) else name: self.box}
        if way in (_WHITE, _GREY):
            boxes[way] = self._box("white")
        corners = None
        self._say("")
        try:
            corners = self._corners() if way == _TARGET else None
            self.correction = self._corrected(way, corners)
            (reading,) = read_boxes(self.photo, {"": self.box}, self.correction).values()
        except PlanError as error:
            self.read.value, self._reading = "", None
            self._say(all_faults(error))
        else:
            self._reading = reading
            self.read.value = show_readings({name: reading}, self.correction).html
        stream = io.BytesIO()
        marked(self.photo, boxes, corners).save(stream, "PNG", compress_level=1)
        self.image.value = stream.getvalue()

    def _corrected(self, way: str, corners: list[tuple[float, float]] | None) -> Correction:
        if way == _NOTHING:
            return uncorrected()
        if way != _TARGET:
            return by_white(self.photo, self._box("white"), way)
        fit = by_target(
            self.photo,
            corners or [],
            self.controls["target_edition"].value,
            self.controls["target_degree"].value,
        )
        self._say(
            f"Patches left out one by one are met to {fit.left_out_mean:.1f} CIEDE2000 in the "
            f"mean, {fit.left_out_max:.1f} at worst; by the grey ones alone "
            f"{fit.by_grey_mean:.1f}."
        )
        return fit.correction

    def _corners(self) -> list[tuple[float, float]]:
        numbers = self.controls["target_corners"].value.replace(",", " ").replace(";", " ").split()
        try:
            values = [float(number) for number in numbers]
        except ValueError:
            values = []
        return list(zip(values[::2], values[1::2], strict=False))

    def _take(self) -> None:
        name, mass = self.controls["name"].value.strip(), self.controls["mass_g"].value
        if not name or self._reading is None:
            self._say("Give the lot a name first, and draw the box on its fibre.")
            return
        known = name in self.plan.names
        taken = with_lot(self.plan, lot_from(name, mass, self._reading, self.correction))
        try:
            self.plan = plan_from_data(to_data(taken), name)
        except PlanError as error:
            self._say("; ".join(fault.remedy for fault in error.faults))
            return
        self._say(self._what_was_taken(name, known))

    def _what_was_taken(self, name: str, known: bool) -> str:
        if known:
            return f"Taken: the colour of {name}, a lot that was there; its grams stay."
        sequence = self.plan.scheme.sequence
        spun = "" if sequence is None else " The plan has an order of its own: put it in there too."
        return f"Taken: {name}, lot {len(self.plan.lots)} of the plan.{spun} Write it when done."

    def _free_path(self) -> Path:
        """Return a name in the folder that is not taken yet."""
        stem = f"{self.plan_file.stem}_with_photographs"
        names = [f"{stem}.toml", *(f"{stem}_{number}.toml" for number in range(2, 1000))]
        return next(
            self.out_folder / name for name in names if not (self.out_folder / name).exists()
        )

    def _write(self) -> None:
        try:
            self.out_folder.mkdir(parents=True, exist_ok=True)
            path = self._free_path()
            save_plan(self.plan, path, like=self.plan_file)
        except (PlanError, OSError) as error:
            self._say(str(error))
        else:
            self._say(f"Written: {path.as_posix()}")

    def _on_upload(self, change: dict[str, Any]) -> None:
        for file in change["new"]:
            try:
                self.photo = photo_from_bytes(bytes(file["content"]), file["name"])
            except PlanError as error:
                self._say(all_faults(error))
            else:
                self._show()
                self._say("; ".join(self.photo.notes))

    def _say(self, words: str) -> None:
        self.said.value = status(words)


def _controls() -> dict[str, Any]:
    start = {"fibre": (0.45, 0.68, 0.08, 0.16), "white": (0.62, 0.18, 0.2, 0.2)}
    boxes = {
        f"{what}_{side}": w.FloatSlider(
            value=value, min=0.005 if side in ("width", "height") else 0.0, max=1.0, step=0.005
        )
        for what, values in start.items()
        for side, value in zip(_SIDES, values, strict=True)
    }
    controls = {
        "name": w.Text(value="", placeholder="name of the lot", continuous_update=False),
        "mass_g": w.BoundedFloatText(value=25.0, min=0.001, max=1e5, step=0.1),
        **{key: box for key, box in boxes.items() if key.startswith("fibre")},
        "by": w.Dropdown(options=list(_WAYS), value=_WHITE),
        **{key: box for key, box in boxes.items() if key.startswith("white")},
        "target_corners": w.Text(
            value="0.06 0.08; 0.48 0.08; 0.48 0.50; 0.06 0.50", continuous_update=False
        ),
        "target_edition": w.Dropdown(options=list(EDITIONS)),
        "target_degree": w.Dropdown(options=[("3 × 3", 1), ("root polynomial", 2)]),
    }
    label(controls, _SAID | {key: _side(key) for key in boxes}, 18)
    return controls


def _side(key: str) -> str:
    what, side = key.split("_")
    words = {"left": "from the left", "top": "from the top", "width": "wide", "height": "high"}
    return f"box on the {what}, {words[side]}"


def _button(words: str, task: Callable[[], None]) -> w.Button:
    button = w.Button(description=words, layout=w.Layout(width="14em"))
    button.on_click(lambda _: task())
    return button


_SAID = {
    "name": "lot",
    "mass_g": "grams",
    "by": "put right by",
    "target_corners": "corners of the target, x y",
    "target_edition": "the target was made",
    "target_degree": "way of putting right",
}
