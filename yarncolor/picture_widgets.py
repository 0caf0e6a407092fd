"""Yarn and fabric under the fingers: along the yarn, on needles, in other light, from afar."""

from pathlib import Path
from typing import Any

import ipywidgets as w

from yarncolor.along import STAPLE_M
from yarncolor.answers import Answer, answer
from yarncolor.benches import label, status
from yarncolor.errors import PlanError, all_faults
from yarncolor.files import write_all
from yarncolor.knit_scenes import KINDS
from yarncolor.legends import framed_png
from yarncolor.painting import Paint
from yarncolor.palettes import VIEWS
from yarncolor.pictures import PICTURES, Drawn, Look, knit_of, usual_gauge
from yarncolor.planfile import read_plan
from yarncolor.sheets import swatch_sheet

_NAMES = {
    "yarn": "the yarn at true scale",
    "whole": "the whole yarn, folded",
    "wraps": "wraps on a card",
    "skein": "a skein",
    "knitted": "knitted",
    "woven": "woven",
}
_TAKES = {
    "yarn": ("from_m", "length_mm"),
    "whole": (),
    "wraps": (),
    "skein": (),
    "knitted": ("from_m", "kind", "stitches", "rows", "gauge_stitches", "gauge_rows"),
    "woven": ("from_m", "width_mm"),
}
_WIDE = w.Layout(width="44em")


def picture_bench(plan_file: str | Path, out_folder: str | Path = "out") -> "PictureBench":
    """Return a bench that shows a plan's yarn and fabric; the plan is not changed.

    Parameters
    ----------
    plan_file : str or Path
        A plan file.
    out_folder : str or Path
        Where pictures and the swatch sheet are written.

    Raises
    ------
    PlanError
        Where the file has faults.
    """
    return PictureBench(answer(read_plan(plan_file)), Path(out_folder))


class PictureBench(w.VBox):
    """Choosers and sliders round one picture.

    Parameters
    ----------
    found : Answer
        What follows from a plan.
    out_folder : Path
        Where pictures are written.
    """

    def __init__(self, found: Answer, out_folder: Path) -> None:
        self.found, self.out_folder = found, out_folder
        self.controls = _controls(found)
        self.image = w.Image(format="png", layout=w.Layout(width="100%", max_width="1100px"))
        self.caption, self.said = w.HTML(layout=_WIDE), w.HTML(layout=_WIDE)
        self.write = w.Button(description="Write this picture", layout=w.Layout(width="14em"))
        self.sheet = w.Button(description="Write the swatch sheet", layout=w.Layout(width="14em"))
        self.write.on_click(lambda _: self._write(f"{self.controls['picture'].value}.png"))
        self.sheet.on_click(lambda _: self._write("swatch.pdf"))
        for control in self.controls.values():
            control.observe(lambda _: self._show(), "value")
        buttons = w.HBox([self.write, self.sheet])
        super().__init__([self.image, self.caption, *self.controls.values(), buttons, self.said])
        self._say("")
        self._show()

    def __repr__(self) -> str:
        return "A bench to look at yarn and fabric; it needs a live notebook."

    @property
    def look(self) -> Look:
        """How pictures are looked at as the controls stand."""
        value = {key: self.controls[key].value for key in ("mottle", "joins", "view", "distance_m")}
        paint = Paint(value["mottle"], STAPLE_M * value["joins"])
        return Look(value["view"], 1.0, value["distance_m"], paint)

    def drawn(self) -> Drawn:
        """Return the picture as the controls stand."""
        value = {key: control.value for key, control in self.controls.items()}
        name = value["picture"]
        options = {key: value[key] for key in _TAKES[name] if not key.startswith("gauge")}
        if name == "knitted":
            options["gauge"] = (value["gauge_stitches"], value["gauge_rows"])
        return PICTURES[name](self.found, look=self.look, **options)

    def _show(self) -> None:
        name = self.controls["picture"].value
        for key in dict.fromkeys(key for keys in _TAKES.values() for key in keys):
            self.controls[key].layout.display = None if key in _TAKES[name] else "none"
        try:
            drawn = self.drawn()
        except PlanError as error:
            self.write.disabled = True
            self._say(all_faults(error))
            return
        self.write.disabled = False
        self._say("")
        self.image.value = framed_png(self.found, drawn)
        self.caption.value = status(drawn.alt)

    def _write(self, name: str) -> None:
        if name != "swatch.pdf" and self.write.disabled:
            self._say("This picture cannot be drawn; mend what is said above first.")
            return
        data = (
            swatch_sheet(self.found, look=self.look) if name == "swatch.pdf" else self.image.value
        )
        try:
            (path,) = write_all(self.out_folder, {name: data})
        except PlanError as error:
            self._say(all_faults(error))
        else:
            self._say(f"Written: {path.as_posix()}")

    def _say(self, words: str) -> None:
        self.said.value = status(words)


def _controls(found: Answer) -> dict[str, Any]:
    knit, aspect, _ = knit_of(found)
    planned = found.plan.fabric
    stitches_in_10cm = planned.gauge_stitches or round(usual_gauge(found.settled.physics)[0], 1)
    yarn_m = max(0.01, round(found.layout.stretches.yarn_m - 0.05, 2))
    controls = {
        "picture": w.Dropdown(options=[(words, name) for name, words in _NAMES.items()]),
        "from_m": w.FloatSlider(value=0.0, min=0.0, max=yarn_m, step=0.01),
        "length_mm": w.FloatSlider(value=24.0, min=5.0, max=400.0, step=1.0),
        "width_mm": w.FloatSlider(value=300.0, min=50.0, max=1500.0, step=10.0),
        "kind": w.Dropdown(options=list(KINDS), value=knit.kind),
        "stitches": w.IntSlider(value=knit.cast_on, min=1, max=max(400, knit.cast_on)),
        "rows": w.IntSlider(value=knit.rows, min=1, max=max(600, knit.rows)),
        "gauge_stitches": w.FloatSlider(value=stitches_in_10cm, min=4.0, max=60.0, step=0.5),
        "gauge_rows": w.FloatSlider(
            value=round(stitches_in_10cm / aspect, 1), min=4.0, max=90.0, step=0.5
        ),
        "view": w.Dropdown(options=list(VIEWS)),
        "distance_m": w.FloatSlider(value=0.0, min=0.0, max=12.0, step=0.1),
        "mottle": w.FloatSlider(value=Paint().mottle, min=0.0, max=0.5, step=0.02),
        "joins": w.FloatSlider(value=1.0, min=0.0, max=4.0, step=0.25),
    }
    label(controls, _SAID, 14)
    return controls


_SAID = {
    "picture": "picture",
    "from_m": "from metre",
    "length_mm": "length seen, mm",
    "width_mm": "width of the cloth, mm",
    "kind": "knitted as",
    "stitches": "stitches cast on",
    "rows": "rows",
    "gauge_stitches": "stitches in 10 cm",
    "gauge_rows": "rows in 10 cm",
    "view": "seen by",
    "distance_m": "from how far, m",
    "mottle": "unevenness of the dye",
    "joins": "length of joins, staples",
}
